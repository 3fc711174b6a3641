// The drawing of a question: the same SVG as on paper, another layout of it on a phone, and a larger look at it.

import { button, byId, focusOn, make } from "./elements.js";
import { truePixels, whyNotTrue } from "./true_size.js";

/** @typedef {[number, number]} Point */

const LEAST_SIZE = 1;
const MOST_SIZE = 6;
const NARROW = "(max-width: 60rem)";
const PHONE = "(max-width: 30rem)"; // which has its own layout, with words of 12 pixels or more

/**
 * The figure with its drawing in the layout that suits the window, and a button that opens it larger.
 * @param {string[]} lines all lines of the kind's drawings
 * @param {import("./data.js").Drawing} drawing which of them each of its layouts has
 * @param {import("./data.js").Stands} stands
 */
export function drawingFigure(lines, drawing, stands = {}) {
  const layout = (/** @type {number[]} */ places) => svgOf(places.map((place) => lines[place]).join("\n"));
  if (!drawing.narrow) return trueFigure(layout(drawing.wide));
  const { wide, narrow } = drawing;
  const paper = make("div", { class: "paper" });
  const phone = window.matchMedia(PHONE);
  const show = () => {
    const svg = layout(phone.matches ? narrow : wide);
    svg.setAttribute("class", phone.matches ? "narrow" : "wide");
    paper.replaceChildren(svg);
  };
  const again = () => (paper.isConnected ? show() : phone.removeEventListener("change", again));
  phone.addEventListener("change", again);
  show();
  const open = button("Enlarge the drawing", () => showLarger(layout(wide), open, stands[byId("main").dataset.open ?? ""]));
  return make("figure", { "data-role": "drawing" }, paper, open);
}

/**
 * A drawing that is worked in at true size: so on a screen that can show it, else the printed one is to be taken. It goes
 * with the window. @param {SVGElement} svg in mm
 */
function trueFigure(svg) {
  const figure = make("figure", { "data-role": "drawing" });
  const look = button("Look at it, not at true size", () => showLarger(/** @type {SVGElement} */ (svg.cloneNode(true)), look));
  const show = () => {
    const wide = truePixels(Number(svg.getAttribute("viewBox")?.split(" ")[2]));
    figure.dataset.size = wide ? "true" : "printed";
    svg.style.width = wide ? `${wide}px` : "";
    const says = wide
      ? "At true size here. Check its line of 100 mm with your ruler. Hold thin paper against the screen and draw on that, never on the screen."
      : "At true size on paper alone: draw and measure in the printed one. It is in the printed practice booklet, at this exercise; ask your tutor for it. ";
    const inside = wide ? [make("div", { class: "paper" }, svg)] : [look];
    figure.replaceChildren(make("figcaption", {}, says, wide ? "" : whyNotTrue()), ...inside);
  };
  const again = () => (figure.isConnected ? show() : window.removeEventListener("resize", again));
  window.addEventListener("resize", again);
  show();
  return figure;
}

/** The picture of an SVG text. Its size is the page's to set; what it shows is not. @param {string} text */
export function svgOf(text) {
  const room = document.createElement("template");
  room.innerHTML = text;
  const svg = /** @type {SVGElement} */ (/** @type {unknown} */ (room.content.firstElementChild));
  const title = svg.querySelector("title")?.textContent ?? "Drawing";
  svg.setAttribute("aria-label", title);
  svg.querySelector("title")?.remove(); // a tooltip over the drawing would only be in the way
  svg.removeAttribute("width");
  svg.removeAttribute("height");
  return svg;
}

/**
 * A dialog with the drawing, larger and smaller by buttons, keys or two fingers, moved by one.
 * @param {SVGElement} large @param {HTMLElement} back
 * @param {[number, number]} centre where it opens, in per cent of its width and height: at what is asked
 */
function showLarger(large, back, centre = [50, 50]) {
  let size = window.matchMedia(NARROW).matches ? 2 : 1; // a wider window is well over the page's column as it is
  const sheet = make("div", { class: "sheet", tabindex: "0", role: "group", "aria-label": "The drawing, enlarged" }, large);
  const told = make("p", { class: "times", role: "status" });
  /** What of the drawing stands at a place of the sheet, as shares of it. @param {Point} place @returns {Point} */
  const under = ([x, y]) => [(sheet.scrollLeft + x) / sheet.scrollWidth, (sheet.scrollTop + y) / sheet.scrollHeight];
  /** @param {number} to how large @param {Point} place @param {Point} held what of the drawing is to stand there */
  const resize = (to, place = [sheet.clientWidth / 2, sheet.clientHeight / 2], held = under(place)) => {
    size = Math.min(MOST_SIZE, Math.max(LEAST_SIZE, to));
    large.style.width = `${size * 100}%`;
    sheet.scrollTo(held[0] * sheet.scrollWidth - place[0], held[1] * sheet.scrollHeight - place[1]);
    told.textContent = size === 1 ? "once" : `${Math.round(size * 10) / 10} times`;
  };
  const dialog = make(
    "dialog",
    { "aria-label": "Drawing" },
    make(
      "div",
      { class: "tools" },
      button("Larger", () => resize(size + 1)),
      button("Smaller", () => resize(size - 1)),
      button("Close", () => dialog.close()),
      told,
    ),
    sheet,
  );
  dialog.addEventListener("keydown", (event) => {
    if (event.key === "+" || event.key === "=") resize(size + 1);
    if (event.key === "-") resize(size - 1);
  });
  dialog.addEventListener("close", () => {
    dialog.remove();
    focusOn(back);
  });
  byTwoFingers(sheet, (place) => [size, under(place)], resize);
  document.body.append(dialog);
  dialog.showModal();
  resize(size);
  const [across, down] = [large.clientWidth * centre[0], large.clientHeight * centre[1]].map((length) => length / 100);
  sheet.scrollTo(across - sheet.clientWidth / 2, down - sheet.clientHeight / 2);
}

/**
 * Two fingers that move apart make the drawing larger; what lay between them stays there.
 * @param {HTMLElement} sheet @param {(place: Point) => [number, Point]} begin the size, and what of the drawing stands at a place
 * @param {(to: number, place: Point, held: Point) => void} resize
 */
function byTwoFingers(sheet, begin, resize) {
  /** @type {Map<number, Point>} */
  const fingers = new Map();
  /** @type {{apart: number, size: number, held: Point} | null} */
  let begun = null;
  const apart = () => {
    const [one, other] = [...fingers.values()];
    return Math.hypot(one[0] - other[0], one[1] - other[1]);
  };
  const between = () => /** @type {Point} */ ([0, 1].map((axis) => [...fingers.values()].reduce((sum, finger) => sum + finger[axis] / 2, 0)));
  const put = (/** @type {PointerEvent} */ event) => {
    const { left, top } = sheet.getBoundingClientRect();
    fingers.set(event.pointerId, [event.clientX - left, event.clientY - top]);
  };
  const lift = (/** @type {PointerEvent} */ event) => {
    fingers.delete(event.pointerId);
    begun = null;
  };
  sheet.addEventListener("pointerdown", (event) => {
    put(event);
    if (fingers.size !== 2) return;
    const [size, held] = begin(between());
    begun = { apart: apart() || 1, size, held };
  });
  sheet.addEventListener("pointermove", (event) => {
    if (!fingers.has(event.pointerId)) return;
    put(event);
    if (begun) resize((begun.size * apart()) / begun.apart, between(), begun.held);
  });
  for (const end of /** @type {const} */ (["pointerup", "pointercancel", "pointerleave"])) sheet.addEventListener(end, lift);
}
