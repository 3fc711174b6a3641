// A drawing, or a few words, on the practice page: done on paper, then held against its points.

import { closeBoxes, readBoxes, restoreBoxes } from "../../practice/page/answers.js";
import { button, make, tick } from "../../practice/page/elements.js";
import { PART_KINDS } from "../../practice/page/part_kinds.js";

/** @typedef {import("../../practice/page/data.js").Part} Part @typedef {import("../../practice/page/answers.js").Place} Place */

PART_KINDS.drawn = {
  place: drawnPlace,
  answerWords: (part) => `${part.lines ? "The answer holds" : "The drawing shows"}: ${(part.points ?? []).join("; ")}.`,
  before: (section, part, atTrueSize) => doneOnPaper(section, Boolean(part.lines), atTrueSize),
  byEye: true,
};

/** @param {Part} part @param {() => Node | null} filled @returns {Place} */
function drawnPlace(part, filled) {
  const points = part.points ?? [];
  const boxes = points.map((_, place) => make("input", { type: "checkbox", value: String(place) }));
  const labels = points.map((point, place) => tick(boxes[place], point));
  const element = make(
    "div",
    {},
    filled(),
    make("fieldset", { "aria-describedby": "feedback" }, make("legend", {}, part.lines ? "Tick each point that your answer holds" : "Tick each point that your drawing meets"), ...labels),
  );
  return {
    element,
    retries: false,
    judge: () => {
      const missing = points.filter((_, place) => !boxes[place].checked);
      if (!missing.length) return { how: "right" };
      return { how: missing.length < points.length ? "partly" : "wrong", why: `To put right: ${missing.join("; ")}.` };
    },
    read: () => readBoxes(boxes),
    restore: (kept) => restoreBoxes(boxes, kept),
    focus: () => boxes[0]?.focus(),
    close: () => closeBoxes(boxes),
  };
}

/** Waits until it is drawn or written on paper. @param {HTMLElement} section @param {boolean} words @param {boolean} atTrueSize @returns {Promise<void>} */
function doneOnPaper(section, words, atTrueSize) {
  return new Promise((resolve) => {
    const done = button(words ? "I have written it" : "I have drawn it", () => {
      lead.remove();
      done.remove();
      resolve();
    });
    const drawn = atTrueSize ? "Draw it at true size, as said at the drawing." : "Draw it on paper, to scale or as a sketch.";
    const how = words ? "Write it on paper, in a few words." : drawn;
    const lead = make("p", {}, `${how} Then look at it point by point.`);
    section.append(lead, done);
  });
}
