// The rows of the grid. The page brings them as text that only a browser without scripts lays out: what is in sight is
// put in at once, and the rest of a large class a group of rows at a time while nothing else is to be done. Groups out of
// sight are neither laid out nor painted, so that a key costs the same in a class of 200 as in one of ten.

const LOWEST = 44; // px: a row
const GROUP = 4; // rows
const section = document.querySelector("section.grid");
const [head, body] = section.querySelector("noscript").textContent.split("<tbody>");
const lines = body.split("</tr>").slice(0, -1);
section.innerHTML = `${head}</table>`;

export const table = document.getElementById("grid");
export const rows = [];
const begun = []; // rows put in without the cells that are out of sight, and those

function put(many, cells = Infinity) {
  const pieces = lines.slice(rows.length, rows.length + many).map(line => line.split(/(?=<td)/));
  const group = document.createElement("tbody");
  group.innerHTML = pieces.map(piece => piece.slice(0, cells).join("")).join("</tr>");
  table.append(group);
  rows.push(...group.rows);
  pieces.forEach((piece, at) => piece.length > cells && begun.push([group.rows[at], piece.slice(cells).join("")]));
}

const left = () => begun.length > 0 || rows.length < lines.length;

function more() {
  if (begun.length) for (const [row, cells] of begun.splice(0, GROUP)) row.insertAdjacentHTML("beforeend", cells);
  else put(GROUP);
  return left();
}

// All rows of the class, whatever is in by now.
export function whole() {
  while (left()) more();
  return rows;
}

// The cell at a row and a column, from 0, put in now if need be; nothing where there is none.
export function cellAt(row, column) {
  if (!lines[row] || column < 1 || column >= table.tHead.rows[0].cells.length) return undefined;
  while (left() && !rows[row]?.cells[column]) more();
  return rows[row].cells[column];
}

const idle = window.requestIdleCallback ?? (work => setTimeout(work, 16));
const fill = () => { if (more()) idle(fill); };

// What is in sight: as many rows as the section may be tall, and its cells up to the last head that begins in it.
const tall = Math.ceil(parseFloat(getComputedStyle(section).maxHeight) / LOWEST), heads = [...table.tHead.rows[0].cells];
const outside = heads.findIndex(one => one.offsetLeft >= section.clientWidth), wide = outside < 0 ? heads.length : outside;
while (rows.length < Math.min(tall, lines.length)) put(GROUP, wide);
idle(fill);
