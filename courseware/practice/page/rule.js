// Now and then, before the sum: which rule is this?

import { closeBoxes } from "./answers.js";
import { button, focusOn, make, say, tick } from "./elements.js";
import { markWords, wordsOfLabels } from "./glossary.js";

/**
 * Asks for the rule of a part, once, and waits until the learner goes on. A wrong one is put right at once.
 * @param {HTMLElement} section @param {import("./data.js").Part} part @param {number} turn which place the right one has
 * @returns {Promise<void>}
 */
export function askRule(section, part, turn) {
  const [right, ...others] = part.rule ?? [""];
  const rules = [...others];
  rules.splice(turn % (others.length + 1), 0, right);
  const boxes = rules.map((rule) => make("input", { type: "radio", name: "rule", value: rule }));
  const labels = rules.map((rule, place) => tick(boxes[place], rule));
  const told = make("div", { "data-role": "feedback" });
  const check = make("button", { type: "submit" }, "Check");
  const own = make("section", { "data-role": "rule" });
  return new Promise((resolve) => {
    const answered = (/** @type {Event} */ event) => {
      event.preventDefault();
      const ticked = boxes.find((box) => box.checked);
      const isRight = ticked?.value === right;
      const words = !ticked ? "Nothing is ticked yet." : isRight ? `Right. ${right}.` : `Not this one. The rule is: ${right}.`;
      told.dataset.how = !ticked ? "blank" : isRight ? "right" : "wrong";
      told.replaceChildren(make("p", {}, make("span", { class: "sign", "aria-hidden": "true" }, isRight ? "✓" : ticked ? "✗" : "?"), words));
      markWords(told);
      say(words);
      if (!ticked) return;
      form.replaceWith(ask); // nothing is to be sent any more
      closeBoxes(boxes);
      const on = button("Go on", () => {
        own.replaceChildren(make("p", { class: "gave" }, `Rule: ${right}.`));
        focusOn(section.querySelector("h2"));
        resolve();
      });
      own.append(on);
      focusOn(on);
    };
    const ask = make("fieldset", {}, make("legend", {}, "Which rule is this?"), ...labels);
    const form = make("form", { novalidate: true, onsubmit: answered }, ask, wordsOfLabels(ask), check);
    own.append(form, told);
    section.append(own);
  });
}
