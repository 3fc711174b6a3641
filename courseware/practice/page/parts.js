// The parts of a question as they stand on the page: headings, tables, cautions, and parts worked for the learner.

import { make } from "./elements.js";
import { markWords, withMarkedWords } from "./glossary.js";
import { kindOf } from "./part_kinds.js";
import { workedPart } from "./working.js";

/** @typedef {import("./data.js").Part} Part */

/** @type {Set<string>} */
const metCautions = new Set();

/** A caution, open the first time that this visit meets it. @param {import("./data.js").Note} note */
export function caution(note) {
  const source = note.source ? make("p", { class: "source" }, `Source: ${note.source}.`) : null;
  const lines = withMarkedWords(make("ul", {}, ...note.lines.map((line) => make("li", {}, line))));
  const open = !metCautions.has(note.title);
  metCautions.add(note.title);
  return make("details", { "data-role": "caution", open }, make("summary", {}, `Caution: ${note.title}`), lines, source);
}

/** @param {Part} part */
export function partSection(part) {
  const heading = make("h2", { tabindex: "-1" }, make("span", { class: "label" }, `${part.label} `), part.ask);
  const section = make("section", { "data-part": part.name, "data-state": "open" }, heading);
  if (part.rows) section.append(rowTable(part.rows));
  return section;
}

/** The same, its words a tap away: not in a test. @param {Part} part */
export function helpedSection(part) {
  const section = partSection(part);
  markWords(...section.querySelectorAll("h2, th"));
  return section;
}

/** @param {Part} part */
export function givenPart(part) {
  const section = helpedSection(part);
  section.dataset.state = "given";
  for (const row of part.rows ?? []) giveRow(section, row);
  if (!part.rows) section.append(onPaper(part), workedPart(part));
  return section;
}

/** What stands on paper under the question, its words a tap away. @param {Part} part */
export function onPaper(part) {
  const given = kindOf(part).given?.(part);
  markWords(given ?? null);
  return given ?? "";
}

/** A table with its answers still to come. @param {Part[]} rows */
function rowTable(rows) {
  const lines = rows.map((row) =>
    make("tr", { "data-row": row.name }, make("th", { scope: "row" }, `(${row.label}) ${row.ask}`), make("td", {}, "…")),
  );
  const head = make("tr", {}, make("th", { scope: "col" }, "Item"), make("th", { scope: "col" }, "Answer"));
  return make("table", {}, make("thead", {}, head), make("tbody", {}, ...lines));
}

/** @param {Part} row */
export function rowSection(row) {
  const heading = make("h3", { tabindex: "-1" }, `(${row.label}) ${row.ask}`);
  markWords(heading);
  return make("section", { "data-part": row.name, "data-state": "open" }, heading);
}

/** @param {HTMLElement} section @param {Part} row */
export function giveRow(section, row) {
  const own = rowSection(row);
  own.dataset.state = "given";
  own.append(workedPart(row));
  section.append(own);
  fillRow(section, row);
}

/** @param {HTMLElement} section @param {Part} row */
export function fillRow(section, row) {
  const cell = section.querySelector(`tr[data-row="${row.name}"] td`);
  if (cell) cell.textContent = row.answer ?? "";
}
