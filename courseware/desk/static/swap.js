// Forms and links that change a part of the page do so in its place, so that nothing jumps; without this the page is loaded anew.

const also = ["totals"]; // changes with everything

function put(page, ids, focused) {
  const pairs = ids.map(id => [document.getElementById(id), page.getElementById(id)]);
  if (pairs.some(([now, next]) => !now || !next)) return false;
  for (const [now, next] of pairs) now.replaceWith(next);
  document.querySelector("main > .notes")?.remove();
  const notes = page.querySelector("main > .notes");
  if (notes) document.querySelector("main").prepend(notes);
  document.getElementById(focused)?.focus({ preventScroll: true });
  return true;
}

async function swap(address, options, ids, focused, plainly) {
  document.body.setAttribute("aria-busy", "true");
  try {
    const answer = await fetch(address, options);
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    if (!answer.ok || !put(page, [...ids, ...also], focused)) plainly();
  } catch {
    plainly();
  } finally {
    document.body.removeAttribute("aria-busy");
  }
}

document.addEventListener("click", event => {
  const link = event.target.closest("a[data-swap]");
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
  event.preventDefault();
  history.replaceState(null, "", link.href);
  swap(link.href, {}, [link.dataset.swap], link.id, () => location.assign(link.href));
});

document.addEventListener("submit", event => {
  const form = event.target, part = form.closest("article.exercise");
  if (!form.matches("form.put") || !part) return;
  event.preventDefault();
  const sent = new URLSearchParams(new FormData(form, event.submitter));
  swap(form.action, { method: "POST", body: sent }, [part.id], event.submitter?.id, () => location.reload());
});
