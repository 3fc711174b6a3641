// How large this screen is, by a bank card laid on it, so that what is drawn at true size can be shown so.

import { button, make } from "./elements.js";

/**
 * How many pixels of the page a bank card is long on this screen, and how the browser was zoomed when that was measured.
 * @typedef {{card: number, ratio: number}} Screen
 */

const [CARD_LONG, CARD_HIGH] = [85.6, 53.98]; // mm, ISO/IEC 7810, size ID-1
const [LEAST_CARD, MOST_CARD, USUAL_CARD] = [150, 1000, 324]; // pixels of a card: of a large screen, of a small one, at 96 to the inch
const [CHECK_LINE, CHECK_STEP] = [100, 10]; // mm: the line to check by, and what it is shorter by where it does not fit
const MARGIN = 24; // pixels at each side of what is shown

/** @type {Screen | null} */
let measured = null;

/** What was kept of the screen; null where it is none. @param {any} found @returns {Screen | null} */
export function checkedScreen(found) {
  const { card, ratio } = found ?? {};
  const known = Number.isSafeInteger(card) && card >= LEAST_CARD && card <= MOST_CARD && Number.isFinite(ratio) && ratio > 0;
  return known ? { card, ratio } : null;
}

/** Makes the page show true sizes by this. @param {Screen | null} screen */
export function applyScreen(screen) {
  measured = screen;
}

/** Pixels to a mm; 0 where the screen was not measured, or was with the page at another zoom. */
function pixelsToMm() {
  return measured?.ratio === window.devicePixelRatio ? measured.card / CARD_LONG : 0;
}

/** How many pixels so many mm are, if that fits across the screen; else 0. @param {number} mm */
export function truePixels(mm) {
  const wide = mm * pixelsToMm();
  return wide <= roomAcross() ? wide : 0;
}

/** Why true size cannot be shown, with what to do. */
export function whyNotTrue() {
  return pixelsToMm() ? "This screen is too small for it." : make("a", { href: "#size" }, "Or, on a large screen, measure the screen first");
}

const roomAcross = () => document.documentElement.clientWidth - 2 * MARGIN;

/** @param {HTMLElement} main @param {import("./screens.js").Practice} practice */
export function showSize(main, practice) {
  const { memory } = practice;
  const card = make("div", { class: "card", role: "img", "aria-label": "Outline of a bank card" });
  const slider = make("input", { type: "range", id: "card-size", min: LEAST_CARD, max: MOST_CARD, value: memory.screen?.card ?? USUAL_CARD, oninput: sized });
  const rule = make("div", { class: "rule", role: "img" });
  const says = make("p", { "data-role": "rule" });
  const told = make("p", { role: "status" });
  const by = (/** @type {number} */ change) => {
    slider.value = String(Number(slider.value) + change);
    sized();
  };
  function sized() {
    const long = Number(slider.value);
    Object.assign(card.style, { width: `${long}px`, height: `${(long * CARD_HIGH) / CARD_LONG}px` });
    slider.setAttribute("aria-valuetext", `${long} pixels long`);
    const most = Math.floor((roomAcross() * CARD_LONG) / long / CHECK_STEP) * CHECK_STEP;
    const mm = Math.min(CHECK_LINE, most);
    rule.style.width = `${(mm * long) / CARD_LONG}px`;
    rule.setAttribute("aria-label", `Line of ${mm} mm`);
    says.textContent = `To check: if the card fits, this line is ${mm} mm by your ruler.`;
    told.textContent = "";
  }
  const keep = () => {
    memory.screen = { card: Number(slider.value), ratio: window.devicePixelRatio };
    applyScreen(memory.screen);
    practice.keep();
    told.textContent = "Kept. Drawings at true size are shown so where this screen is wide enough for them.";
  };
  main.replaceChildren(
    make("h1", { tabindex: "-1" }, "How large is your screen?"),
    make("p", {}, "Hold a bank card against the screen, long edge across, in the upper left corner of the outline. Move the slider until the outline is as large as the card."),
    make("p", { class: "small" }, "A small screen does not show the right edge: go by the upper and the lower one."),
    make("label", { for: "card-size" }, "Size of the outline"),
    slider,
    make("div", { class: "tools" }, button("Smaller", () => by(-1)), button("Larger", () => by(1)), button("The card fits", keep, { class: "next" })),
    told,
    make("div", { class: "card-room" }, card),
    says,
    rule,
    make("p", { class: "small" }, "Any card of that size will do: ISO/IEC 7810, ID-1, 85.60 × 53.98 mm. Measure again on another screen, or when you have zoomed the page. Nothing of the card is read or kept."),
    make("p", {}, make("a", { href: "#topics" }, "Back to the topics")),
  );
  sized();
}
