// The drawing of a question: the same SVG as on paper, another layout of it on a phone, and a larger look at it.

import { button, focusOn, make } from "./elements.js";

const LEAST_SIZE = 1;
const MOST_SIZE = 6;

/**
 * The figure with its drawing in both layouts, of which the style sheet shows one, and a button that opens it larger.
 * @param {string[]} lines all lines of the kind's drawings
 * @param {import("./data.js").Drawing} drawing which of them each of its layouts has
 */
export function drawingFigure(lines, drawing) {
  const [wide, narrow] = [drawing.wide, drawing.narrow].map((places) => svgOf(places.map((place) => lines[place]).join("\n")));
  wide.setAttribute("class", "wide");
  narrow.setAttribute("class", "narrow");
  const open = button("Enlarge the drawing", () => showLarger(wide, open));
  return make("figure", { "data-role": "drawing" }, make("div", { class: "paper" }, wide, narrow), open);
}

/** The picture of an SVG text. Its size is the page's to set; what it shows is not. @param {string} text */
export function svgOf(text) {
  const root = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  const svg = /** @type {SVGElement} */ (/** @type {unknown} */ (document.importNode(root, true)));
  const title = svg.querySelector("title")?.textContent ?? "Drawing";
  svg.setAttribute("aria-label", title);
  svg.querySelector("title")?.remove(); // a tooltip over the drawing would only be in the way
  svg.removeAttribute("width");
  svg.removeAttribute("height");
  return svg;
}

/** A dialog with the drawing, larger and smaller by buttons or keys. @param {SVGElement} svg @param {HTMLElement} back */
function showLarger(svg, back) {
  let size = 2;
  const large = /** @type {SVGElement} */ (svg.cloneNode(true));
  const sheet = make("div", { class: "sheet", tabindex: "0", role: "group", "aria-label": "The drawing, enlarged" }, large);
  const told = make("p", { class: "times", role: "status" });
  const resize = (/** @type {number} */ by) => {
    const middle = (sheet.scrollLeft + sheet.clientWidth / 2) / (sheet.scrollWidth || 1);
    size = Math.min(MOST_SIZE, Math.max(LEAST_SIZE, size + by));
    large.style.width = `${size * 100}%`;
    sheet.scrollLeft = middle * sheet.scrollWidth - sheet.clientWidth / 2;
    told.textContent = `${size} times`;
  };
  const dialog = make(
    "dialog",
    { "aria-label": "Drawing" },
    make(
      "div",
      { class: "tools" },
      button("Larger", () => resize(1)),
      button("Smaller", () => resize(-1)),
      button("Close", () => dialog.close()),
      told,
    ),
    sheet,
  );
  dialog.addEventListener("keydown", (event) => {
    if (event.key === "+" || event.key === "=") resize(1);
    if (event.key === "-") resize(-1);
  });
  dialog.addEventListener("close", () => {
    dialog.remove();
    focusOn(back);
  });
  document.body.append(dialog);
  dialog.showModal();
  resize(0);
}
