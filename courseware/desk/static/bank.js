// A bank's text: faults stand beside their lines as one types; the proof goes on in the background; Ctrl S saves.

const form = document.querySelector("form.bank"), text = document.getElementById("text"), writing = document.getElementById("writing");
const faults = document.getElementById("faults"), tries = document.getElementById("tries"), said = document.getElementById("said");
const exercise = document.getElementById("exercise"), proof = document.getElementById("proof");
const WAIT = 500; // ms after the last key
const PROOF = 1000; // ms after a look that found no fault
let timer, proving, looking = false, again = false, leaving = false, saved = text.value;
let failed = []; // what the proof found: line and words

// The gutter left of the text has the numbers of its lines, the one right of it what is wrong in each.
const numbers = document.createElement("div"), beside = document.createElement("div");
numbers.className = "numbers";
beside.className = "said-beside";
numbers.setAttribute("aria-hidden", "true");
beside.setAttribute("aria-hidden", "true"); // the list below says the same
writing.prepend(numbers);
writing.append(beside);

const lineHeight = () => parseFloat(getComputedStyle(text).lineHeight);
const top = () => parseFloat(getComputedStyle(text).paddingTop);
let wrong = new Map();

function number() {
  const lines = text.value.split("\n").length;
  while (numbers.childElementCount > lines) numbers.lastElementChild.remove();
  while (numbers.childElementCount < lines) numbers.append(Object.assign(document.createElement("span"), { textContent: numbers.childElementCount + 1 }));
  for (const line of numbers.querySelectorAll(".bad")) line.classList.remove("bad");
  for (const line of wrong.keys()) numbers.children[line - 1]?.classList.add("bad");
}

function follow() {
  numbers.style.transform = beside.style.transform = `translateY(${-text.scrollTop}px)`;
}

function mark() {
  wrong = new Map();
  for (const one of faults.querySelectorAll("[data-line]")) {
    const line = Number(one.dataset.line), last = one.querySelector("span:last-child");
    const says = last.textContent.split(/[;?] expected one of/)[0]; // the list below has all that may stand there
    wrong.set(line, [...(wrong.get(line) ?? []), says]);
    const go = document.createElement("button");
    go.type = "button";
    go.className = "plain";
    go.textContent = `Line ${line}`;
    go.addEventListener("click", () => reach(line, Number(one.dataset.column)));
    one.querySelector(".line").replaceChildren(go);
  }
  for (const [line, says] of failed) wrong.set(line, [...(wrong.get(line) ?? []), says]);
  writing.classList.toggle("faulty", wrong.size > 0);
  let free = 0;
  beside.replaceChildren(...[...wrong].map(([line, says]) => {
    const note = Object.assign(document.createElement("p"), { textContent: says.join(" · ") });
    note.dataset.line = line;
    return note;
  }));
  for (const note of beside.children) {
    const at = Math.max(free, top() + (Number(note.dataset.line) - 1) * lineHeight());
    note.style.top = `${at}px`;
    free = at + note.offsetHeight + 4;
  }
  number();
  text.toggleAttribute("aria-invalid", wrong.size > 0);
  if (wrong.size) text.setAttribute("aria-invalid", "true");
}

function reach(line, column) {
  const before = text.value.split("\n").slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
  text.focus();
  text.setSelectionRange(before + column - 1, before + column - 1);
  text.scrollTop = Math.max(0, (line - 5) * lineHeight());
}

const body = () => new URLSearchParams(new FormData(form));

async function look() {
  if (looking) { // one at a time: a long text takes a while
    again = true;
    return;
  }
  looking = true;
  const answer = await fetch(faults.dataset.from, { method: "POST", body: body() }).catch(() => null);
  looking = false;
  if (again) {
    again = false;
    look();
    return;
  }
  if (!answer?.ok) {
    said.textContent = "The desk does not answer, so the text is not looked at. It stands here still; save it when the desk is back.";
    return;
  }
  faults.innerHTML = await answer.text();
  const told = faults.querySelector("strong")?.textContent ?? "";
  if (said.textContent !== told) said.textContent = told;
  const names = faults.querySelectorAll("[data-exercise]");
  if (names.length) {
    const chosen = exercise.value;
    exercise.replaceChildren(...[...names].map(one => new Option(one.textContent, one.dataset.exercise)));
    if ([...exercise.options].some(option => option.value === chosen)) exercise.value = chosen;
  }
  tries.hidden = !names.length;
  mark();
  clearTimeout(proving);
  if (names.length && text.value !== proved) proving = setTimeout(prove, PROOF);
}

text.addEventListener("input", () => {
  failed = [];
  number();
  clearTimeout(timer);
  clearTimeout(proving);
  timer = setTimeout(look, WAIT);
});
text.addEventListener("scroll", follow, { passive: true });
addEventListener("resize", mark);

// Tab sets text in by two blanks; after Esc it goes on to the next field, as everywhere else.
let leaves = false;
text.addEventListener("keydown", event => {
  if (event.key === "Escape") leaves = true;
  else if (event.key === "Tab" && !event.shiftKey && !leaves) {
    event.preventDefault();
    document.execCommand("insertText", false, "  "); // keeps the browser's undo
  } else if (event.key !== "Tab" && event.key !== "Shift") leaves = false;
});
text.addEventListener("blur", () => { leaves = false; });

// Saving leaves one where one is in the text.
const keep = document.getElementById("save");

async function save() {
  const sent = text.value;
  const answer = await fetch(keep.formAction, { method: "POST", body: body() }).catch(() => null);
  const seen = answer && new DOMParser().parseFromString(await answer.text(), "text/html");
  const was = seen?.querySelector('form.bank [name="was"]');
  if (answer?.ok && was) {
    form.elements.was.value = was.value;
    saved = sent;
    if (!tries.hidden && sent !== proved) prove();
    said.textContent = seen.querySelector(".notes")?.textContent.trim() ?? "Saved.";
  } else {
    said.textContent = seen?.querySelector("main .wrong")?.textContent.trim() ?? "The desk does not answer, so nothing was saved. The text stands here still.";
  }
}

keep.addEventListener("click", event => {
  event.preventDefault();
  save();
});
document.addEventListener("keydown", event => {
  if (event.key.toLowerCase() !== "s" || !(event.ctrlKey || event.metaKey) || event.altKey) return;
  event.preventDefault();
  save();
});
// The paper opens in a window of its own: what is typed here and not saved stays.
document.getElementById("paper").formTarget = "_blank";
form.addEventListener("submit", event => { leaving = event.submitter?.formTarget !== "_blank"; });
addEventListener("beforeunload", event => { if (!leaving && text.value !== saved) event.preventDefault(); });

// The proof is a piece of work of the desk's queue, which stops the one before: its page is read when it is over.
const begin = document.getElementById("prove");
let events = null, proved = null; // the text of the newest proof

async function prove() {
  const sent = text.value;
  proved = sent;
  events?.close();
  proof.textContent = "The proof begins.";
  const answer = await fetch(begin.formAction, { method: "POST", body: body() }).catch(() => null);
  if (proved !== sent) return; // a newer one has begun
  if (!answer?.ok || !new URL(answer.url).pathname.startsWith("/work/")) {
    proof.textContent = "The proof could not begin. Load the page again.";
    return;
  }
  const own = events = new EventSource(`${answer.url}/events`);
  own.onmessage = async heard => {
    const now = JSON.parse(heard.data);
    if (!["done", "failed", "stopped"].includes(now.state)) {
      proof.textContent = now.total ? `${now.done} of ${now.total} variants proved.` : "The proof waits for other work to end.";
      return;
    }
    own.close();
    const seen = new DOMParser().parseFromString(await (await fetch(answer.url)).text(), "text/html");
    if (proved !== sent) return;
    proof.replaceChildren(...seen.querySelectorAll("main .done, main .wrong, main #notes"));
    failed = [...proof.querySelectorAll("#notes li")].map(one => one.textContent.trim().match(/^Line (\d+): (.*)$/s)).filter(Boolean)
      .map(([, line, says]) => [Number(line), says]);
    mark();
  };
}

begin.addEventListener("click", event => {
  event.preventDefault();
  prove();
});
document.getElementById("by-itself").hidden = false;

number();
mark();
document.getElementById("look").hidden = true;
