// A choice on the practice page: boxes to tick.

import { closeBoxes, readBoxes, restoreBoxes } from "../../practice/page/answers.js";
import { make, tick } from "../../practice/page/elements.js";
import { PART_KINDS } from "../../practice/page/part_kinds.js";

/** @typedef {import("../../practice/page/data.js").Part} Part @typedef {import("../../practice/page/answers.js").Place} Place */

PART_KINDS.choice = {
  place: choicePlace,
  answerWords: (part) => `The answer is ${ticked(part, part.right).join("; ")}.`,
  ownAnswer: (part, text) => make("p", { class: "gave" }, `You ticked: ${ticked(part, text).join("; ")}.`),
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
 * Ticked letters. @param {string[]} ticked @param {Part} asked @returns {import("../../practice/page/judge.js").Verdict}
 */
function judgeChoice(ticked, asked) {
  const right = asked.right.split(",");
  if (!ticked.length) return { how: "blank" };
  const wrong = ticked.filter((letter) => !right.includes(letter));
  if (!wrong.length && ticked.length === right.length) return { how: "right" };
  const slips = wrong.flatMap((letter) => asked.wrong?.[letter] ?? []);
  const how = slips.length && right.length === 1 ? "slip" : wrong.length < ticked.length ? "partly" : "wrong";
  const why = right.length > 1 ? `${ticked.length - wrong.length} of the ticks are right, ${wrong.length} wrong.` : "";
  return { how, slips, why, earns: asked.several ? partMarks(ticked.length - wrong.length, wrong.length, asked) : 0 };
}

/**
 * The marks of several ticks: the share of the right ones ticked less that of the wrong ones.
 * @param {number} hit @param {number} missed @param {Part} asked
 */
function partMarks(hit, missed, { right, options = [], marks }) {
  const good = right.split(",").length;
  const bad = options.length - good;
  return Math.max(0, bad ? Math.floor((marks * (hit * bad - missed * good)) / (good * bad)) : Math.floor((marks * hit) / good));
}

/** The choices with these letters, as `B, 2035 mm`. @param {Part} part @param {string} letters */
function ticked(part, letters) {
  const options = (part.options ?? []).filter(([letter]) => letters.split(",").includes(letter));
  return options.map(([letter, words]) => `${letter}, ${words.replace(/\.$/, "")}`);
}
