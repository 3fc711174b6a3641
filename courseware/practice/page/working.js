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
    part.kind === "order" && make("ol", {}, ...stepsInOrder(part).map((words) => make("li", {}, words))),
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

/** `The answer is 910 mm.`, or the right choices with their letters. @param {Part} part */
function answerWords(part) {
  if (part.kind === "choice") return `The answer is ${ticked(part).join("; ")}.`;
  if (part.kind === "order") return part.open ? "One right order:" : "The right order:";
  if (part.kind === "drawn") return `${part.lines ? "The answer holds" : "The drawing shows"}: ${(part.points ?? []).join("; ")}.`;
  return `The answer is ${part.answer}.`;
}

/** The right choices, as `B, 2035 mm`. @param {Part} part */
function ticked(part) {
  const right = part.right.split(",");
  const options = (part.options ?? []).filter(([letter]) => right.includes(letter));
  return options.map(([letter, words]) => `${letter}, ${words.replace(/\.$/, "")}`);
}

/** The steps of an order, first to last. @param {Part} part */
function stepsInOrder(part) {
  const words = new Map(part.options ?? []);
  return part.right.split(",").map((letter) => words.get(letter) ?? "");
}
