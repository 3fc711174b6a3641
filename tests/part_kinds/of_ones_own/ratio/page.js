// A ratio on the practice page: two terms in one field.

import { make } from "../../practice/page/elements.js";
import { PART_KINDS } from "../../practice/page/part_kinds.js";

PART_KINDS.ratio = {
  place: (part) => {
    const field = make("input", { id: "answer", type: "text", autocomplete: "off", "aria-describedby": "feedback" });
    const element = make("div", { class: "figure" }, make("label", { for: "answer" }, "Your ratio, as 1:4"), field);
    return {
      element,
      retries: true,
      judge: () => judgeRatio(field.value, part.right),
      focus: () => field.focus(),
      close: () => element.replaceWith(make("p", { class: "gave" }, `You wrote: ${field.value}`)),
    };
  },
  answerWords: (part) => `The ratio is ${part.right}.`,
};

function judgeRatio(typed, right) {
  if (!typed.trim()) return { how: "blank" };
  const [one, other] = right.split(":").map(Number);
  const found = /^\s*(\d+)\s*(?::|to)\s*(\d+)\s*$/.exec(typed);
  if (!found) return { how: "asked", why: "That does not read as a ratio, such as 1:4." };
  return Number(found[1]) * other === Number(found[2]) * one ? { how: "right" } : { how: "wrong", why: "" };
}
