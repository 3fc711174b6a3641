// A choice on the practice page: boxes to tick.

import { closeBoxes, readBoxes, restoreBoxes } from "../../practice/page/answers.js";
import { make, tick } from "../../practice/page/elements.js";
import { PART_KINDS } from "../../practice/page/part_kinds.js";

/** @typedef {import("../../practice/page/data.js").Part} Part @typedef {import("../../practice/page/answers.js").Place} Place */

PART_KINDS.choice = {
  place: choicePlace,
  answerWords: (part) => `The answer is ${ticked(part).join("; ")}.`,
  inShort: (part) => part.right.split(",").join(", "),
  given: (part) => make("ul", { class: "options" }, ...(part.options ?? []).map(([letter, words]) => make("li", {}, `${letter}  ${words}`))),
};

/** @param {Part} part @returns {Place} */
function choicePlace(part) {
  const boxes = (part.options ?? []).map(([letter]) =>
    make("input", { type: part.several ? "checkbox" : "radio", name: "answer", value: letter }),
  );
  const element = make(
    "fieldset",
    { "aria-describedby": "feedback" },
    make("legend", {}, part.note ?? "Tick one."),
    ...(part.options ?? []).map(([letter, words], place) => tick(boxes[place], `${letter}  ${words}`)),
  );
  return {
    element,
    retries: true,
    judge: () => judgeChoice(boxes.filter((box) => box.checked).map((box) => box.value), part),
    read: () => readBoxes(boxes),
    restore: (kept) => restoreBoxes(boxes, kept),
    focus: () => (boxes.find((box) => box.checked) ?? boxes[0]).focus(),
    close: () => closeBoxes(boxes),
  };
}

/**
 * Ticked letters. @param {string[]} ticked @param {{right: string, wrong?: Record<string, string>}} asked @returns {import("../../practice/page/judge.js").Verdict}
 */
function judgeChoice(ticked, asked) {
  const right = asked.right.split(",");
  if (!ticked.length) return { how: "blank" };
  const wrong = ticked.filter((letter) => !right.includes(letter));
  if (!wrong.length && ticked.length === right.length) return { how: "right" };
  const slips = wrong.flatMap((letter) => asked.wrong?.[letter] ?? []);
  const how = slips.length && right.length === 1 ? "slip" : wrong.length < ticked.length ? "partly" : "wrong";
  const why = right.length > 1 ? `${ticked.length - wrong.length} of the ticks are right, ${wrong.length} wrong.` : "";
  return { how, slips, why };
}

/** The right choices, as `B, 2035 mm`. @param {Part} part */
function ticked(part) {
  const right = part.right.split(",");
  const options = (part.options ?? []).filter(([letter]) => right.includes(letter));
  return options.map(([letter, words]) => `${letter}, ${words.replace(/\.$/, "")}`);
}
