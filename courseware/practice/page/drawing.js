// The drawing of a question: the same SVG as on paper, another layout of it on a phone, and a larger look at it.

import { button, focusOn, make } from "./elements.js";
import { truePixels, whyNotTrue } from "./true_size.js";

const LEAST_SIZE = 1;
const MOST_SIZE = 6;
const PHONE = "(max-width: 30rem)"; // which has its own layout, with words of 12 pixels or more

/**
 * The figure with its drawing in the layout that suits the window, and a button that opens it larger.
 * @param {string[]} lines all lines of the kind's drawings
 * @param {import("./data.js").Drawing} drawing which of them each of its layouts has
 */
export function drawingFigure(lines, drawing) {
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
  const open = button("Enlarge the drawing", () => showLarger(layout(wide), open));
  return make("figure", { "data-role": "drawing" }, paper, open);
}

/**
 * A drawing that is worked in at true size: so on a screen that can show it, else the printed one is to be taken. It goes
 * with the window. @param {SVGElement} svg in mm
 */
function trueFigure(svg) {
  const figure = make("figure", { "data-role": "drawing" });
  const look = button("Look at it, not at true size", () => showLarger(svg, look));
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

/** A dialog with the drawing, larger and smaller by buttons, keys or two fingers, moved by one. @param {SVGElement} svg @param {HTMLElement} back */
function showLarger(svg, back) {
  let size = 2;
  const large = /** @type {SVGElement} */ (svg.cloneNode(true));
  const sheet = make("div", { class: "sheet", tabindex: "0", role: "group", "aria-label": "The drawing, enlarged" }, large);
  const told = make("p", { class: "times", role: "status" });
  const resize = (/** @type {number} */ to) => {
    const [across, down] = [middleOf(sheet.scrollLeft, sheet.clientWidth, sheet.scrollWidth), middleOf(sheet.scrollTop, sheet.clientHeight, sheet.scrollHeight)];
    size = Math.min(MOST_SIZE, Math.max(LEAST_SIZE, to));
    large.style.width = `${size * 100}%`;
    sheet.scrollLeft = across * sheet.scrollWidth - sheet.clientWidth / 2;
    sheet.scrollTop = down * sheet.scrollHeight - sheet.clientHeight / 2;
    told.textContent = `${Math.round(size * 10) / 10} times`;
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
  byTwoFingers(sheet, () => size, resize);
  document.body.append(dialog);
  dialog.showModal();
  resize(size);
  sheet.scrollTo((sheet.scrollWidth - sheet.clientWidth) / 2, (sheet.scrollHeight - sheet.clientHeight) / 2);
}

/** Where the middle of what is seen lies, as a share of the whole. @param {number} from @param {number} seen @param {number} whole */
const middleOf = (from, seen, whole) => (from + seen / 2) / (whole || 1);

/** Two fingers that move apart make the drawing larger. @param {HTMLElement} sheet @param {() => number} size @param {(to: number) => void} resize */
function byTwoFingers(sheet, size, resize) {
  /** @type {Map<number, {x: number, y: number}>} */
  const fingers = new Map();
  let [apart, begun] = [0, 0];
  const between = () => {
    const [one, other] = [...fingers.values()];
    return Math.hypot(one.x - other.x, one.y - other.y);
  };
  const put = (/** @type {PointerEvent} */ event) => fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
  const lift = (/** @type {PointerEvent} */ event) => fingers.delete(event.pointerId);
  sheet.addEventListener("pointerdown", (event) => {
    put(event);
    if (fingers.size === 2) [apart, begun] = [between(), size()];
  });
  sheet.addEventListener("pointermove", (event) => {
    if (!fingers.has(event.pointerId)) return;
    put(event);
    if (fingers.size === 2 && apart > 0) resize((begun * between()) / apart);
  });
  for (const end of /** @type {const} */ (["pointerup", "pointercancel", "pointerleave"])) sheet.addEventListener(end, lift);
}
