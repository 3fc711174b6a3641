// A part worked for the learner: the lines of the working, the answer, what else is taken.

import { make } from "./elements.js";
import { withMarkedWords } from "./glossary.js";
import { kindOf } from "./part_kinds.js";

/** @typedef {import("./data.js").Part} Part */

/**
 * The working with its answer. @param {Part} part @returns {HTMLElement}
 */
export function workedPart(part) {
  const rule = part.rule?.[0];
  return withMarkedWords(make(
    "div",
    { class: "worked" },
    rule && make("p", { "data-role": "rule-said" }, `Rule: ${rule}.`),
    linesUpTo(part, (part.working ?? []).length),
    make("p", { "data-role": "answer" }, make("strong", {}, kindOf(part).answerWords(part)), part.band ? ` (${part.band})` : ""),
    kindOf(part).below?.(part),
    ...(part.accepts ?? []).map((route) => make("p", {}, `Also accepted: ${route.says}.`)),
  ));
}

/** The lines before `upTo`, with their figures. @param {Part} part @param {number} upTo */
export function workingLines(part, upTo) {
  const lines = linesUpTo(part, upTo);
  return lines && withMarkedWords(lines);
}

/** @param {Part} part @param {number} upTo */
function linesUpTo(part, upTo) {
  const lines = (part.working ?? []).slice(0, upTo).map(workingLine);
  return lines.length ? make("ol", { "data-role": "working" }, ...lines) : null;
}

/** @param {import("./data.js").WorkingLine} line */
function workingLine(line) {
  return make("li", {}, `${line.say} `, line.figure ? make("b", { class: "whole" }, `= ${line.figure}`) : "");
}
