// On every page: `?` shows the keys, and a desk that is left alone is locked.

const keys = document.getElementById("keys");
const typing = target => target instanceof HTMLElement && (target.isContentEditable || target.matches("input, textarea, select"));

document.addEventListener("keydown", event => {
  if (event.key !== "?" || typing(event.target) || event.ctrlKey || event.metaKey || event.altKey || !keys) return;
  event.preventDefault();
  if (!keys.open) keys.showModal();
});

// The server locks by what it is asked; typing that is not sent yet is told to it, at most once a minute.
const idle = Number(document.body.dataset.idle) * 1000, EACH = 60_000;
let last = Date.now(), told = Date.now();

function touched() {
  last = Date.now();
  if (last - told < EACH) return;
  told = last;
  fetch("/awake", { method: "POST", body: new URLSearchParams({ token: document.body.dataset.token }) }).catch(() => {});
}

if (idle) {
  for (const kind of ["keydown", "pointerdown", "wheel", "touchmove"]) addEventListener(kind, touched, { passive: true });
  setInterval(() => {
    if (Date.now() - last > idle) location.replace("/");
  }, 5_000);
}
