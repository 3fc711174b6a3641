// A part worked for the learner: the lines of the working, the answer, what else is taken.

import { make } from "./elements.js";

/** @typedef {import("./data.js").Part} Part */

/**
 * The working with its answer. @param {Part} part @returns {HTMLElement}
 */
export function workedPart(part) {
  const rule = part.rule?.[0];
  return make(
    "div",
    { class: "worked" },
    rule && make("p", { "data-role": "rule-said" }, `Rule: ${rule}.`),
    workingLines(part, (part.working ?? []).length),
    make("p", { "data-role": "answer" }, make("strong", {}, answerWords(part)), part.band ? ` (${part.band})` : ""),
    ...(part.accepts ?? []).map((route) => make("p", {}, `Also accepted: ${route.says}.`)),
  );
}

/** The lines before `upTo`, with their figures. @param {Part} part @param {number} upTo */
export function workingLines(part, upTo) {
  const lines = (part.working ?? []).slice(0, upTo).map(workingLine);
  return lines.length ? make("ol", { "data-role": "working" }, ...lines) : null;
}

/** @param {import("./data.js").WorkingLine} line */
function workingLine(line) {
  return make("li", {}, `${line.say} `, line.figure ? make("b", { class: "whole" }, `= ${line.figure}`) : "");
}

/** `The answer is 910 mm.`, or the right letters with their words. @param {Part} part */
function answerWords(part) {
  if (part.kind === "choice") return `The answer is ${lettered(part, part.right.split(",")).join("; ")}.`;
  if (part.kind === "order") {
    const lead = part.open ? "One right order: " : "The right order: ";
    return `${lead}${lettered(part, part.right.split(",")).join("; ")}.`;
  }
  if (part.kind === "drawn") return `The drawing shows: ${(part.points ?? []).join("; ")}.`;
  return `The answer is ${part.answer}.`;
}

/** @param {Part} part @param {string[]} letters */
function lettered(part, letters) {
  const words = new Map(part.options ?? []);
  return letters.map((letter) => `${letter}, ${(words.get(letter) ?? "").replace(/\.$/, "")}`);
}
