// A job's page: at each change the elevation is drawn again and the address has the values, so that Back and reload keep them.

const form = document.querySelector("form.job"), drawing = document.getElementById("drawing"), said = document.getElementById("said");
const WAIT = 250; // ms after the last change
let timer, asked = 0;

function values() {
  const found = new URLSearchParams(new FormData(form));
  found.delete("token");
  found.delete("was");
  return found.toString();
}

async function redraw() {
  const query = values(), mine = ++asked;
  history.replaceState(null, "", `?${query}`);
  const answer = await fetch(`${drawing.dataset.from}?${query}`).catch(() => null);
  if (mine !== asked) return; // a later change is on its way
  if (!answer?.ok) {
    said.textContent = "The desk does not answer. The address of this page holds what you chose: load it again.";
    return;
  }
  drawing.innerHTML = await answer.text();
  said.textContent = drawing.querySelector("#cannot")?.textContent.trim() || "Drawn again.";
}

document.getElementById("draw").hidden = true;
form.addEventListener("input", () => {
  clearTimeout(timer);
  timer = setTimeout(redraw, WAIT);
});
