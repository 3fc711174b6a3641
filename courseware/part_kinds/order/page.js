// An order on the practice page: steps put in order, by buttons, by keys, or by dragging.

import { button, make, say } from "../../practice/page/elements.js";
import { PART_KINDS } from "../../practice/page/part_kinds.js";

/** @typedef {import("../../practice/page/data.js").Part} Part @typedef {import("../../practice/page/answers.js").Place} Place */

PART_KINDS.order = {
  place: orderPlace,
  answerWords: (part) => (part.open ? "One right order:" : "The right order:"),
  below: (part) => stepsIn(part, part.right),
  ownAnswer: (part, text) => make("div", { class: "gave" }, make("p", {}, "Your order:"), stepsIn(part, text)),
};

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
    judge: () => judgeOrder(list.letters(), part),
    read: () => list.letters().join(","),
    restore: (kept) => list.put(kept.split(",")),
    focus: () => list.element.querySelector(".arrows button")?.focus(),
    close: () => element.querySelectorAll(".arrows, .handle").forEach((one) => one.remove()),
  };
}

/**
 * A sequence of letters. @param {string[]} letters @param {Part} asked @returns {import("../../practice/page/judge.js").Verdict}
 */
function judgeOrder(letters, { before = [], marks }) {
  const kept = before.filter(([one, other]) => letters.indexOf(one) < letters.indexOf(other));
  if (kept.length === before.length) return { how: "right" };
  const earns = Math.floor((marks * kept.length) / before.length);
  return { how: kept.length ? "partly" : "wrong", why: `${kept.length} of ${before.length} pairs are in order.`, earns };
}

/** The steps, first to last. @param {Part} part @param {string} letters */
function stepsIn(part, letters) {
  const words = new Map(part.options ?? []);
  return make("ol", {}, ...letters.split(",").map((letter) => make("li", {}, words.get(letter) ?? "")));
}

/**
 * The list, the letters as they stand in it, and a way to put them so.
 * @param {[string, string][]} options @returns {{element: HTMLOListElement, letters: () => string[], put: (letters: string[]) => void}}
 */
function orderList(options) {
  const element = make("ol", { class: "order" });
  element.append(...options.map(([letter, words]) => step(element, letter, words)));
  const put = (/** @type {string[]} */ letters) => {
    for (const letter of letters) element.append(...items(element).filter((item) => item.dataset.letter === letter));
  };
  return { element, letters: () => items(element).map((item) => item.dataset.letter ?? ""), put };
}

/** @param {HTMLOListElement} list */
const items = (list) => /** @type {HTMLLIElement[]} */ ([...list.children]);

/** @param {HTMLOListElement} list @param {string} letter @param {string} words */
function step(list, letter, words) {
  const handle = make("span", { class: "handle", "aria-hidden": "true" }, "↕");
  const up = button("↑", () => move(list, item, -1, up), { "aria-label": `Move up: ${words}` });
  const down = button("↓", () => move(list, item, 1, down), { "aria-label": `Move down: ${words}` });
  const item = make("li", { "data-letter": letter }, handle, make("span", { class: "words" }, words), make("span", { class: "arrows" }, up, down));
  handle.addEventListener("pointerdown", (event) => drag(list, item, event));
  return item;
}

/** @param {HTMLOListElement} list @param {HTMLLIElement} item @param {number} by @param {HTMLElement} pressed */
function move(list, item, by, pressed) {
  const neighbour = by < 0 ? item.previousElementSibling : item.nextElementSibling;
  if (by < 0) neighbour?.before(item);
  else neighbour?.after(item);
  pressed.focus();
  sayPlace(list, item);
}

/** @param {HTMLOListElement} list @param {HTMLLIElement} item */
function sayPlace(list, item) {
  const place = items(list).indexOf(item) + 1;
  list.dispatchEvent(new Event("input", { bubbles: true }));
  say(`${item.querySelector(".words")?.textContent}: now ${place} of ${list.children.length}.`);
}

/** @param {HTMLOListElement} list @param {HTMLLIElement} item @param {PointerEvent} start */
function drag(list, item, start) {
  start.preventDefault();
  list.setPointerCapture(start.pointerId); // the list stays where it is: a step that is moved would lose the pointer
  item.classList.add("dragged");
  const follow = (/** @type {PointerEvent} */ event) => {
    const below = items(list).find((other) => other !== item && event.clientY < middle(other));
    if (below !== (item.nextElementSibling ?? undefined)) list.insertBefore(item, below ?? null);
  };
  const end = () => {
    list.removeEventListener("pointermove", follow);
    item.classList.remove("dragged");
    sayPlace(list, item);
  };
  list.addEventListener("pointermove", follow);
  list.addEventListener("lostpointercapture", end, { once: true });
}

/** @param {Element} element */
function middle(element) {
  const box = element.getBoundingClientRect();
  return box.top + box.height / 2;
}
