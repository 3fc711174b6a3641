// Steps put in order: by buttons, by keys, or by dragging.

import { button, make, say } from "./elements.js";

/**
 * The list, and the letters as they stand in it.
 * @param {[string, string][]} options @returns {{element: HTMLOListElement, letters: () => string[]}}
 */
export function orderList(options) {
  const element = make("ol", { class: "order" });
  element.append(...options.map(([letter, words]) => step(element, letter, words)));
  return { element, letters: () => items(element).map((item) => item.dataset.letter ?? "") };
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
