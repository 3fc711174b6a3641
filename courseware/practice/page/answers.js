// Where an answer is given, and how what stands there is judged: a field for a figure, and what other places share.

import { button, make } from "./elements.js";
import { judgeTyped } from "./judge.js";
import { sumTyped } from "./sums.js";
import { keysFor } from "./units.js";

/**
 * A place for an answer. `close` leaves what was answered as plain words; `read` and `restore` are what stands in it as
 * text, so that it outlives the page.
 * @typedef {{element: HTMLElement, judge: () => import("./judge.js").Verdict, focus: () => void, close: () => void,
 *   retries: boolean, read: () => string, restore: (kept: string) => void}} Place
 */

/**
 * A field for a figure. @param {import("./judge.js").NumberAsked} asked @param {string} label @returns {Place}
 */
export function figurePlace(asked, label) {
  const field = make("input", {
    id: "answer",
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    spellcheck: "false",
    enterkeyhint: "done",
    maxlength: 80,
    "aria-describedby": "feedback",
  });
  const element = make(
    "div",
    { class: "figure" },
    make("label", { for: "answer" }, label),
    make("div", { class: "entry" }, field, asked.unit ? make("span", { "aria-hidden": "true" }, asked.unit) : null),
    keys(field, asked.unit ?? ""),
  );
  return {
    element,
    retries: true,
    judge: () => judgeTyped(field.value, asked),
    read: () => field.value,
    restore: (kept) => {
      field.value = kept;
    },
    focus: () => {
      field.focus();
      field.select();
    },
    close: () => element.replaceWith(make("p", { class: "gave" }, writtenWords(field.value))),
  };
}

/** What was written, a sum with what it comes to. @param {string} typed */
function writtenWords(typed) {
  const sum = sumTyped(typed);
  if (sum) return `Your working: ${sum.shown} ${sum.unit}`.trim();
  return typed ? `You wrote: ${typed}` : "";
}

/** Buttons for what a phone's figures lack. @param {HTMLInputElement} field @param {string} unit */
function keys(field, unit) {
  const write = (/** @type {string} */ words) => {
    field.setRangeText(words, field.selectionStart ?? field.value.length, field.selectionEnd ?? field.value.length, "end");
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.focus();
  };
  const letters = button("Letters", () => {
    const pressed = letters.getAttribute("aria-pressed") === "true";
    letters.setAttribute("aria-pressed", String(!pressed));
    field.inputMode = pressed ? "decimal" : "text";
    field.blur();
    field.focus();
  }, { "aria-pressed": "false" });
  const signs = ["½", "¼", "¾"].map((sign) => button(sign, () => write(sign)));
  const sums = ["+", "−", "×", "÷", "(", ")"].map((sign) => button(sign, () => write(sign)));
  const units = keysFor(unit).map((name) => button(name, () => write(` ${name}`)));
  const hidden = navigator.maxTouchPoints === 0; // a keyboard has all of these
  const named = { class: "keys", role: "group", "aria-label": "Write into the field", hidden };
  return make("div", named, ...sums, ...signs, ...units, letters);
}

/** The boxes that are ticked, by their values. @param {HTMLInputElement[]} boxes */
export const readBoxes = (boxes) => boxes.filter((box) => box.checked).map((box) => box.value).join(",");

/** Ticks the boxes with these values. @param {HTMLInputElement[]} boxes @param {string} kept */
export function restoreBoxes(boxes, kept) {
  for (const box of boxes) box.checked = kept.split(",").includes(box.value);
}

/** Boxes that can no more be ticked, with words beside those that are. @param {HTMLInputElement[]} boxes */
export function closeBoxes(boxes) {
  for (const box of boxes) {
    box.disabled = true;
    if (box.checked) box.parentElement?.append(make("b", { class: "own" }, "your tick"));
  }
}
