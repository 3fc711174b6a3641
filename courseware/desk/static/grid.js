// The grid: one field that moves from cell to cell. What is typed is sent on at each cell and shown as saved only once
// the desk has answered that it is; typing itself waits for nothing.

import { cellAt, rows, table, whole } from "./grid_rows.js";

const beside = document.getElementById("beside");
const at = table.dataset.at, token = table.dataset.token;
const heads = [...table.tHead.rows[0].cells].slice(1), parts = heads.map(head => head.dataset.part);
const FIRST = Number(table.dataset.first); // the column of the first part
const fields = [0, 1].map(() => Object.assign(document.createElement("input"), { autocomplete: "off", maxLength: 200, spellcheck: false, enterKeyHint: "next", className: "away" }));
let [field, spare] = fields;
table.after(...fields);

const PAUSE = 120, REST = 600, LOOK = 5000, AGAIN = 2000; // ms: to read what is typed, to name the cell in the address, to hear of others, to send once more
const saved = new Map(); // by cell that was changed here: what stands in the record
const waiting = new Map(); // by cell: what is still to be saved
let cell = null, newest = Number(table.dataset.newest), readLater = 0, showLater = 0, addressLater = 0, shown = 0, besideOf = null, left = false;

const stands = td => saved.get(td) ?? td.textContent;
const rowOf = td => td.parentElement;
const place = td => ({ paper: rowOf(td).dataset.paper, attempt: rowOf(td).dataset.attempt, part: parts[td.cellIndex - 1] });
const query = values => new URLSearchParams(values).toString();
const called = td => `${rowOf(td).cells[0].textContent.trim()}, ${parts[td.cellIndex - 1] || "status"}`;

function enter(td, whole = true) {
  if (!td || td === cell) return keep();
  leave();
  const text = waiting.get(td)?.text ?? stands(td);
  saved.set(td, stands(td));
  cell = td;
  [field, spare] = [spare, field];
  field.value = text;
  field.setAttribute("aria-label", called(td));
  field.className = `here ${td.className}`;
  lay();
  field.focus({ preventScroll: true });
  if (whole) field.select();
  field.scrollIntoView({ block: "nearest", inline: "nearest" });
  spare.className = "away";
  clearTimeout(showLater);
  showLater = setTimeout(() => showBeside(td), PAUSE);
}

// The field stands over its cell.
function lay() {
  const over = cell.getBoundingClientRect(), from = table.getBoundingClientRect();
  field.style.width = `${over.width}px`;
  field.style.transform = `translate(${over.left - from.left}px, ${over.top - from.top}px)`;
}

new ResizeObserver(() => { if (cell) lay(); }).observe(table.tHead);

function leave() {
  if (!cell) return;
  const td = cell, text = field.value;
  cell = null;
  if (td.textContent !== text) td.textContent = text;
  if (text !== (waiting.get(td)?.text ?? saved.get(td))) save(td, text);
  else if (!waiting.has(td)) fit(td);
}

function save(td, text) {
  const seen = waiting.get(td)?.seen ?? saved.get(td);
  const one = { text, seen };
  waiting.set(td, one);
  td.classList.add("unsaved");
  td.classList.remove("otherwise");
  tell();
  send(td, one);
}

function keep() {
  if (cell && field.value !== (waiting.get(cell)?.text ?? saved.get(cell))) save(cell, field.value);
}

async function send(td, one) {
  if (td.dataset.sending) return;
  td.dataset.sending = "yes";
  let answer = null;
  try {
    const response = await fetch(`${at}/cell`, { method: "POST", body: new URLSearchParams({ token, ...place(td), text: one.text, seen: one.seen }) });
    if (response.ok || response.status === 422) answer = await response.json();
    else trouble = response.status === 401 || response.status === 403 ? "the desk was locked or started again: sign in in another window and type these cells there" : "the desk had trouble";
  } catch {
    trouble = "the desk does not answer";
  }
  delete td.dataset.sending;
  if (!answer) {
    tell();
    setTimeout(() => send(td, waiting.get(td)), AGAIN);
    return;
  }
  trouble = "";
  const now = waiting.get(td);
  if (now !== one && answer.saved !== "entered" && answer.saved !== "same") return send(td, now);
  if (answer.saved === "refused") {
    waiting.delete(td);
    td.classList.remove("unsaved");
    note(td, `${called(td)}: ${now.text} was not kept: ${answer.why}.`);
    if (cell !== td) td.textContent = saved.get(td);
  } else if (answer.saved === "otherwise") {
    waiting.delete(td);
    saved.set(td, answer.stands);
    td.classList.remove("unsaved");
    td.classList.add("otherwise");
    if (cell !== td) td.textContent = answer.stands;
    hear();
  } else {
    saved.set(td, answer.stands);
    if (now === one || now.text === answer.stands) {
      waiting.delete(td);
      td.classList.remove("unsaved");
      fit(td);
      if (cell !== td) td.textContent = answer.stands;
    } else {
      now.seen = answer.stands;
      send(td, now);
    }
  }
  tell();
}

let trouble = "";
function tell() {
  const out = document.getElementById("saved"), many = waiting.size;
  out.textContent = many ? `${many} ${many === 1 ? "cell" : "cells"} not saved yet${trouble ? `: ${trouble}` : ""}` : left ? "All saved" : "";
  out.classList.toggle("bad", Boolean(many && trouble));
  left = left || many > 0;
}

const notes = new Map(); // by cell that was not kept
function fit(td) {
  td.classList.remove("refused");
  notes.get(td)?.remove();
}

function note(td, text) {
  fit(td);
  td.classList.add("refused");
  const line = document.createElement("p");
  line.className = "wrong";
  line.textContent = text;
  notes.set(td, line);
  document.getElementById("others").append(line);
}

async function showBeside(td) {
  const number = ++shown, values = place(td);
  if (!values.part) {
    besideOf = td;
    beside.replaceChildren(Object.assign(document.createElement("p"), { textContent: "absent, late, or nothing; a for absent, l for late." }));
    return;
  }
  try {
    const response = await fetch(`${at}/beside?${query(values)}`);
    if (!response.ok || number !== shown) return;
    const text = await response.text();
    if (number !== shown) return;
    beside.innerHTML = text;
    besideOf = td;
    clearTimeout(addressLater);
    addressLater = setTimeout(() => history.replaceState(null, "", `${at}?${query({ cell: `${values.paper} ${values.attempt} ${values.part}` })}`), REST);
    if (cell === td && field.value !== stands(td)) read(td);
  } catch { /* it is asked for again at the next cell */ }
}

async function read(td) {
  const number = shown, text = field.value, values = place(td);
  if (!values.part || besideOf !== td) return; // `showBeside` reads it once its question stands there
  try {
    const response = await fetch(`${at}/reading?${query({ ...values, text })}`);
    const told = response.ok && await response.json();
    const line = document.querySelector("#reading .read");
    if (!told || !line || number !== shown || cell !== td || field.value !== text) return;
    line.classList.toggle("unclear", Boolean(told.unclear));
    const bold = document.createElement("b");
    bold.textContent = told.unclear || told.reading;
    const marks = told.unclear || !told.marks ? "" : ` ${told.marks.split(" of ")[0] === told.marks.split(" of ")[1] ? "✓" : "·"} ${told.marks}: ${told.why}`;
    line.replaceChildren(bold, marks);
  } catch { /* it is read again at the next key */ }
}

function go(down, right, wrap = false) {
  if (!cell) return;
  let row = rowOf(cell).rowIndex - 1 + down, column = cell.cellIndex + right;
  if (wrap && column > parts.length) { column = FIRST; row += 1; }
  if (wrap && column < FIRST) { column = parts.length; row -= 1; }
  enter(cellAt(row, column));
}

for (const one of fields) one.addEventListener("keydown", event => {
  const marked = field.selectionStart === 0 && field.selectionEnd === field.value.length;
  const moves = {
    Enter: () => go(0, event.shiftKey ? -1 : 1, true),
    ArrowDown: () => go(1, 0),
    ArrowUp: () => go(-1, 0),
    ArrowLeft: () => (marked || field.selectionEnd === 0) && go(0, -1),
    ArrowRight: () => (marked || field.selectionStart === field.value.length) && go(0, 1),
    Escape: () => { field.value = waiting.get(cell)?.text ?? saved.get(cell); field.select(); read(cell); },
    "*": () => { const { star } = heads[cell.cellIndex - 1].dataset; if (star) { field.value = star; go(0, 1, true); } },
    Home: () => event.ctrlKey && enter(rows[0].cells[FIRST]),
    End: () => event.ctrlKey && enter(whole()[rows.length - 1].cells[parts.length]),
  };
  const move = moves[event.key];
  if (!move || event.altKey || event.metaKey || (event.ctrlKey && !["Home", "End"].includes(event.key))) return;
  if (move() !== false) event.preventDefault();
});

for (const one of fields) one.addEventListener("input", () => {
  const td = cell;
  clearTimeout(readLater);
  readLater = setTimeout(() => { if (cell === td) read(td); }, PAUSE);
});

for (const one of fields) one.addEventListener("blur", () => { if (document.hasFocus()) keep(); });

table.addEventListener("click", event => {
  const td = event.target.closest("tbody td");
  if (td && td !== cell) enter(td);
});

addEventListener("pagehide", () => { if (cell && field.value !== (waiting.get(cell)?.text ?? saved.get(cell))) beacon(cell); });
addEventListener("visibilitychange", () => { if (document.hidden) keep(); });
addEventListener("beforeunload", event => { if (waiting.size) event.preventDefault(); });

function beacon(td) {
  navigator.sendBeacon(`${at}/cell`, new URLSearchParams({ token, ...place(td), text: field.value, seen: saved.get(td) }));
}

// What others typed meanwhile; a cell that is being typed in here is left alone, and told of when it is sent.
async function hear() {
  try {
    const response = await fetch(`${at}/events?${query({ since: newest })}`);
    if (!response.ok) return;
    const told = await response.json();
    newest = told.newest;
    whole();
    for (const one of told.rows) {
      const row = rows.find(tr => tr.dataset.paper === one.paper && Number(tr.dataset.attempt) === one.attempt);
      if (row) one.cells.forEach((text, index) => take(row.cells[index + 1], text));
    }
    unsettled(told.otherwise);
  } catch { /* it is asked again */ }
}

function take(td, text) {
  if (waiting.has(td) || td.dataset.sending) return;
  if (td === cell) {
    if (field.value === saved.get(td) && field.value !== text) { saved.set(td, text); field.value = text; field.select(); }
    return;
  }
  if (stands(td) === text) return;
  saved.set(td, text);
  td.textContent = text;
  td.classList.add("theirs");
  setTimeout(() => td.classList.remove("theirs"), 4000);
}

function unsettled(all) {
  const list = document.getElementById("others"), keys = new Set(all.map(keyOf));
  for (const line of [...list.querySelectorAll("[data-key]")]) if (!keys.has(line.dataset.key)) line.remove();
  for (const td of [...table.querySelectorAll("td.otherwise")]) td.classList.remove("otherwise");
  for (const one of all) {
    const row = rows.find(tr => tr.dataset.paper === one.paper && Number(tr.dataset.attempt) === one.attempt);
    row?.cells[parts.indexOf(one.part) + 1]?.classList.add("otherwise");
    if ([...list.children].some(line => line.dataset.key === keyOf(one))) continue;
    const line = document.createElement("p"), link = document.createElement("a");
    line.className = "wrong";
    line.dataset.key = keyOf(one);
    link.href = `${at}/${one.paper}/${one.attempt}#part-${one.part}`;
    link.textContent = `${row ? row.cells[0].textContent.trim() : one.paper}, ${one.part || "status"}`;
    line.append(link, `: ${one.stands_by} typed ${one.stands || "nothing"}, which stands; ${one.by} typed ${one.text || "nothing"} without having seen it.`);
    list.append(line);
  }
}
const keyOf = one => `${one.paper} ${one.attempt} ${one.part} ${one.by}`;

setInterval(() => { if (!document.hidden) hear(); }, LOOK);
document.getElementById("others").setAttribute("role", "status");

const [paper, attempt, part] = (new URLSearchParams(location.search).get("cell") ?? "").split(" ");
const row = (paper && whole().find(tr => tr.dataset.paper === paper && tr.dataset.attempt === attempt)) || rows[0];
if (row) enter(row.cells[Math.max(FIRST, parts.indexOf(part) + 1)]);
