// Making and changing what stands on the page: elements, the words read out, the focus.

/**
 * An element with its attributes and what stands in it. Names beginning with `on` are handlers; `false` leaves an
 * attribute out, `true` sets it.
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} tag @param {Record<string, string | number | boolean | ((event: any) => void)>} attributes
 * @param {(Node | string | null | undefined | false)[]} inside @returns {HTMLElementTagNameMap[T]}
 */
export function make(tag, attributes = {}, ...inside) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(name.slice(2), value);
    else if (value !== false) element.setAttribute(name, value === true ? "" : String(value));
  }
  element.append(...inside.filter((piece) => piece !== null && piece !== undefined && piece !== false));
  return element;
}

/** A button with its words. @param {string} words @param {() => void} press @param {Record<string, string>} more */
export function button(words, press, more = {}) {
  return make("button", { type: "button", onclick: press, ...more }, words);
}

/** A box to tick, with its words. @param {HTMLInputElement} box @param {(string | Node)[]} words */
export function tick(box, ...words) {
  return make("label", { class: "tick" }, box, make("span", {}, ...words));
}

/** The element with this id, which the page has from the start. @param {string} id */
export function byId(id) {
  return /** @type {HTMLElement} */ (document.getElementById(id));
}

/** Lets a screen reader say something, even the same again. @param {string} words */
export function say(words) {
  const said = byId("said");
  said.textContent = "";
  window.setTimeout(() => {
    said.textContent = words;
  }, 60);
}

/** To the top of a screen that is new, with the focus on its heading. @param {HTMLElement} main */
export function arriveAtTop(main) {
  document.documentElement.style.scrollPaddingTop = ""; // that of a question's strip
  window.scrollTo(0, 0);
  main.querySelector("h1")?.focus({ preventScroll: true });
}

/** Puts the focus on a heading at the top of what is seen. @param {any} heading */
export function arriveAt(heading) {
  heading?.focus({ preventScroll: true });
  heading?.scrollIntoView({ block: "start", behavior: "auto" });
}

/** Puts the focus on an element and brings it into view. @param {any} element an HTML element, or nothing */
export function focusOn(element) {
  element?.focus({ preventScroll: true });
  element?.scrollIntoView({ block: "nearest", behavior: "auto" });
}

/**
 * Opens a dialog over the page; closing it gives the focus back. @param {string} title @param {HTMLElement} back
 * @param {Node[]} inside
 */
export function openDialog(title, back, inside) {
  const heading = make("h2", { tabindex: "-1" }, title);
  const leaf = make("div", { class: "leaf", tabindex: "0", role: "group", "aria-label": title }, ...inside);
  const close = button("Close", () => dialog.close());
  const dialog = make("dialog", { "aria-label": title }, make("div", { class: "tools" }, heading, close), leaf);
  dialog.addEventListener("close", () => {
    dialog.remove();
    focusOn(back);
  });
  document.body.append(dialog);
  dialog.showModal();
  focusOn(heading);
}

/** `22 May`, from the number of a day. @param {number} day */
export function dayInWords(day) {
  return new Date(day * 86_400_000).toLocaleDateString("en-GB", { day: "numeric", month: "long", timeZone: "UTC" });
}

/** `2026-03-02`, from the number of a day. @param {number} day */
export const isoDay = (day) => new Date(day * 86_400_000).toISOString().slice(0, 10);

/** `1 step`, `2 steps`. @param {number} count @param {string} thing */
export const counted = (count, thing) => `${count} ${thing}${count === 1 ? "" : "s"}`;
