// What stays in sight while an answer is given: the question's figures at the top once the question has scrolled away, all
// of it a tap away, what is said of an answer above the keyboard, and parts that are done folded into a line.

import { drawingFigure, svgOf } from "./drawing.js";
import { make, openDialog } from "./elements.js";
import { withMarkedWords } from "./glossary.js";
import { kindOf } from "./part_kinds.js";

/** @typedef {import("./data.js").Question} Question @typedef {import("./data.js").Part} Part */

const SENTENCE = /[^.!?]+(?:[.!?](?!\s|$)[^.!?]*)*[.!?]?/g;
const SMALL = "(max-width: 40rem), (max-height: 30rem)"; // one part at a time
const GAP = 8; // px between the strip and what stands under it
const SIGNS = { right: "✓", helped: "✓", shown: "→" };

/** The sentences of a question that have a figure in them, and the brick. @param {Question} question */
export function figuresOf({ setting, pose, brick }) {
  const sentences = [setting, pose].flatMap((words) => words?.match(SENTENCE) ?? []).map((words) => words.trim());
  return [...sentences.filter((words) => /[0-9½¼¾]/.test(words)), ...(brick ? [`${brick}.`] : [])];
}

/**
 * A strip over the top of the screen, seen when `asked` has scrolled away: the figures, and a button with a thumb of the
 * drawing that opens the whole question. @param {Question} question @param {string[]} lines of the kind's drawings
 * @param {HTMLElement} asked what holds the question itself
 */
export function sightStrip(question, lines, asked) {
  const figures = make("p", { class: "figures", tabindex: "0", role: "group", "aria-label": "The question's figures" }, figuresOf(question).join(" "));
  const named = make("span", { class: question.drawing ? "unseen" : "" }, "The whole question");
  const whole = make("button", { type: "button", class: "thumb", onclick: openWhole }, named);
  const inside = make("div", { class: "inside" }, figures, whole);
  const strip = make("div", { class: "sight", "data-role": "sight", "data-seen": "false" }, inside);
  function openWhole() {
    const words = [question.setting, question.pose, question.brick].filter(Boolean);
    const drawing = question.drawing && drawingFigure(lines, question.drawing, question.stands);
    openDialog("The question", whole, [...words.map((line) => withMarkedWords(make("p", {}, line))), ...(drawing ? [drawing] : [])]);
  }
  new IntersectionObserver(([entry]) => {
    const seen = !entry.isIntersecting && entry.boundingClientRect.bottom <= 1;
    strip.dataset.seen = String(seen);
    if (seen && question.drawing && !whole.querySelector("svg")) whole.prepend(thumbOf(question.drawing, lines));
  }).observe(asked);
  new ResizeObserver(() => {
    document.documentElement.style.scrollPaddingTop = `${inside.offsetHeight + GAP}px`; // what has the focus is not under it
  }).observe(inside);
  return strip;
}

/** The drawing, small, for the eye alone. @param {import("./data.js").Drawing} drawing @param {string[]} lines */
function thumbOf(drawing, lines) {
  const thumb = svgOf(drawing.wide.map((place) => lines[place]).join("\n"));
  thumb.setAttribute("aria-hidden", "true");
  thumb.removeAttribute("aria-label");
  thumb.removeAttribute("role");
  return thumb;
}

/** @type {{section: HTMLElement, feedback: HTMLElement, entry: HTMLElement | null} | null} what is to stay in sight */
let held = null;

/**
 * Scrolls so that the feedback, the field under it and, where there is room, the question above are all seen, under the
 * figures; where the room is too small for both, the figures give way.
 * @param {HTMLElement} section @param {HTMLElement} feedback @param {HTMLElement | null} entry the field, where there is one
 */
export function bringIntoSight(section, feedback, entry) {
  holdInSight(section, feedback, entry);
  scrollToHeld();
}

/** The same, once a keyboard opens over the page. @param {Parameters<typeof bringIntoSight>} what */
export function holdInSight(...what) {
  held = { section: what[0], feedback: what[1], entry: what[2] };
}

/** Nothing more is held in sight: the learner types, or goes on. */
export function letGo() {
  held = null;
}

function scrollToHeld() {
  if (!held?.feedback.isConnected) return;
  const { section, feedback, entry } = held;
  const strip = document.querySelector('[data-role="sight"]');
  const inside = /** @type {HTMLElement | null} */ (strip?.firstElementChild ?? null);
  const seen = window.visualViewport;
  const [high, offset] = [seen?.height ?? window.innerHeight, seen?.offsetTop ?? 0];
  const said = (feedback.firstElementChild ?? feedback).getBoundingClientRect();
  const heading = section.querySelector("h2, h3")?.getBoundingClientRect() ?? said;
  const end = Math.max(said.bottom, entry?.getBoundingClientRect().bottom ?? 0);
  const figures = (inside?.offsetHeight ?? 0) + GAP;
  const goOn = /** @type {HTMLElement | null} */ (section.querySelector("button.next"))?.offsetHeight ?? 0;
  const room = high - figures - goOn;
  const fits = end - said.top <= room || !entry && said.height <= room;
  strip?.classList.toggle("away", !fits);
  const top = fits && end - heading.top <= room ? heading.top : said.top;
  window.scrollBy({ top: top - offset - (fits ? figures : 4), behavior: "instant" });
}

/** Where a keyboard opens or the page is moved under it, the strip and what is held stay above it. */
function follow() {
  const strip = /** @type {HTMLElement | null} */ (document.querySelector('[data-role="sight"]'));
  if (strip && window.visualViewport?.scale === 1) strip.style.top = `${window.visualViewport.offsetTop}px`;
}
window.visualViewport?.addEventListener("scroll", follow);
window.visualViewport?.addEventListener("resize", () => {
  follow();
  scrollToHeld();
});

/**
 * On a small screen, a part that is done becomes a line to open again. @param {HTMLElement} section @param {Part} part
 */
export function foldPart(section, part) {
  if (!window.matchMedia(SMALL).matches || section.querySelector(":scope > details.folded")) return;
  const state = section.dataset.state ?? "";
  const answer = part.rows ? "done" : (kindOf(part).inShort?.(part) ?? "done");
  const sign = make("span", { class: "sign", "aria-hidden": "true" }, SIGNS[/** @type {keyof typeof SIGNS} */ (state)] ?? "");
  const how = state === "helped" ? ", with help" : state === "shown" ? ", worked for you" : "";
  const line = make("summary", {}, make("span", { class: "label" }, `${part.label} `), sign, `${answer}${how}`);
  section.replaceChildren(make("details", { class: "folded" }, line, ...section.childNodes));
}
