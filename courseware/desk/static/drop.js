// A file dropped on a form's place for one is sent at once, and so is one that was chosen; without this its button sends it.

for (const form of document.querySelectorAll("form.drop")) {
  const input = form.querySelector("input[type=file]");
  let over = 0;
  const show = () => form.classList.toggle("over", over > 0);
  const send = () => {
    if (!input.files.length) return;
    form.classList.add("reading");
    form.requestSubmit();
  };
  form.addEventListener("dragenter", event => { event.preventDefault(); over += 1; show(); });
  form.addEventListener("dragleave", () => { over -= 1; show(); });
  form.addEventListener("dragover", event => event.preventDefault());
  form.addEventListener("drop", event => {
    event.preventDefault();
    over = 0;
    show();
    const files = event.dataTransfer.files;
    if (!files.length) return;
    const one = new DataTransfer();
    one.items.add(files[0]);
    input.files = one.files;
    send();
  });
  input.addEventListener("change", send);
}
