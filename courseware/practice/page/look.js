// Letters and colours as the learner likes them, kept with the practice. The style sheet goes by what stands on the root.

import { make, tick } from "./elements.js";

/** @typedef {import("./screens.js").Practice} Practice */

/** By name: what is chosen, and its choices with their words; the first is as the page is made. @type {Record<string, [string, Record<string, string>]>} */
const LOOKS = {
  face: ["Typeface", { "": "The phone's own", wide: "Wide letters", serif: "With serifs" }],
  size: ["Size", { "": "As it is", large: "Larger", largest: "Largest" }],
  spacing: ["Spacing", { "": "As it is", wide: "Wider" }],
  tint: ["Background", { "": "As it is", cream: "Cream", blue: "Blue", green: "Green", grey: "Grey", dark: "Dark" }],
};

/** The look in what was kept, each choice checked. @param {unknown} found @returns {Record<string, string>} */
export function checkedLook(found) {
  const kept = typeof found === "object" && found !== null ? /** @type {Record<string, unknown>} */ (found) : {};
  const known = (/** @type {string} */ name) => Object.hasOwn(kept, name) && Object.hasOwn(LOOKS[name][1], String(kept[name]));
  return Object.fromEntries(Object.keys(LOOKS).filter(known).map((name) => [name, String(kept[name])]));
}

/** Makes the page look so. @param {Record<string, string>} look */
export function applyLook(look) {
  for (const name of Object.keys(LOOKS)) {
    if (look[name]) document.documentElement.dataset[name] = look[name];
    else delete document.documentElement.dataset[name];
  }
}

/** @param {HTMLElement} main @param {Practice} practice */
export function showLook(main, practice) {
  const { memory } = practice;
  const choose = (/** @type {string} */ name, /** @type {string} */ value) => {
    memory.look[name] = value;
    applyLook(memory.look);
    practice.keep();
  };
  const choices = Object.entries(LOOKS).map(([name, [words, values]]) => {
    const boxes = Object.entries(values).map(([value, says]) => {
      const checked = (memory.look[name] ?? "") === value;
      return tick(make("input", { type: "radio", name, value, checked, onchange: () => choose(name, value) }), says);
    });
    return make("fieldset", { class: "row" }, make("legend", {}, words), ...boxes);
  });
  const rules = make("input", { type: "checkbox", checked: memory.rules, onchange: () => {
    memory.rules = rules.checked;
    practice.keep();
  } });
  main.replaceChildren(
    make("h1", { tabindex: "-1" }, "Letters and colours"),
    ...choices,
    make("p", { class: "small" }, "Drawings stay black on white. What you choose is kept in this browser."),
    make("h2", {}, "Questions"),
    tick(rules, "Ask now and then which rule it is, in exercises that are secure"),
    make("p", {}, make("a", { href: "#size" }, "How large is your screen?"), make("a", { href: "#topics" }, "Back to the topics")),
  );
}
