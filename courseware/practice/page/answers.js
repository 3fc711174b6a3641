// Where an answer is given: a figure, ticks, an order, a drawing on paper. Each says how what it holds is judged.

import { button, make, tick } from "./elements.js";
import { judgeChoice, judgeOrder, judgeTyped } from "./judge.js";
import { orderList } from "./order.js";
import { keysFor } from "./units.js";
import { howToAnswer } from "./words.js";

/**
 * A place for an answer. `close` leaves what was answered as plain words.
 * @typedef {{element: HTMLElement, judge: () => import("./judge.js").Verdict, focus: () => void, close: () => void,
 *   retries: boolean}} Place @typedef {import("./data.js").Part} Part
 */

/**
 * The place for this kind of part. @param {Part} part @param {() => Node | null} filled the drawing with its answer
 * @returns {Place}
 */
export function answerPlace(part, filled) {
  if (part.kind === "choice") return choicePlace(part);
  if (part.kind === "order") return orderPlace(part);
  if (part.kind === "drawn") return drawnPlace(part, filled);
  return figurePlace(part, howToAnswer(part));
}

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
    focus: () => {
      field.focus();
      field.select();
    },
    close: () => element.replaceWith(make("p", { class: "gave" }, field.value ? `You wrote: ${field.value}` : "")),
  };
}

/** Buttons for what a phone's figures lack. @param {HTMLInputElement} field @param {string} unit */
function keys(field, unit) {
  const write = (/** @type {string} */ words) => {
    field.setRangeText(words, field.selectionStart ?? field.value.length, field.selectionEnd ?? field.value.length, "end");
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
  const units = keysFor(unit).map((name) => button(name, () => write(` ${name}`)));
  const hidden = navigator.maxTouchPoints === 0; // a keyboard has all of these
  const named = { class: "keys", role: "group", "aria-label": "Write into the field", hidden };
  return make("div", named, ...signs, ...units, letters);
}

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
    focus: () => (boxes.find((box) => box.checked) ?? boxes[0]).focus(),
    close: () => closeBoxes(boxes),
  };
}

/** Boxes that can no more be ticked, with words beside those that are. @param {HTMLInputElement[]} boxes */
export function closeBoxes(boxes) {
  for (const box of boxes) {
    box.disabled = true;
    if (box.checked) box.parentElement?.append(make("b", { class: "own" }, "your tick"));
  }
}

/** @param {Part} part @returns {Place} */
function orderPlace(part) {
  const list = orderList(part.options ?? []);
  const element = make(
    "div",
    { role: "group", "aria-label": "The steps in your order", "aria-describedby": "feedback" },
    make("p", {}, "First step at the top. Move a step with its arrows, or drag it by the sign before it."),
    list.element,
  );
  return {
    element,
    retries: true,
    judge: () => judgeOrder(list.letters(), { before: part.before ?? [] }),
    focus: () => list.element.querySelector("button")?.focus(),
    close: () => element.querySelectorAll("button, .handle").forEach((one) => one.remove()),
  };
}

/** @param {Part} part @param {() => Node | null} filled @returns {Place} */
function drawnPlace(part, filled) {
  const points = part.points ?? [];
  const boxes = points.map(() => make("input", { type: "checkbox" }));
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
    focus: () => boxes[0]?.focus(),
    close: () => closeBoxes(boxes),
  };
}
