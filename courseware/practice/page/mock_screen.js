// A mock test on the page: begun, answered an exercise at a time without any help, handed in, then fed back as on paper.

import { kindData, questionAt } from "./data.js";
import { drawingFigure } from "./drawing.js";
import { arriveAtTop, button, focusOn, make, say, tick } from "./elements.js";
import { markWords, withMarkedWords } from "./glossary.js";
import { freshKind, takeSlip } from "./memory.js";
import { blueprint, countTime, EXTRA, freshMock, LEAST, marksOf, timeLeft } from "./mock.js";
import { kindOf, rowsOf } from "./part_kinds.js";
import { partSection } from "./parts.js";
import { kindsToday } from "./plan.js";
import { isRight, isTry, whatIsWrong } from "./words.js";
import { workedPart } from "./working.js";

/** @typedef {import("./screens.js").Practice} Practice @typedef {import("./mock.js").Mock} Mock @typedef {import("./data.js").Part} Part */

const TICK = 1000; // ms
const KEEP_EVERY = 5; // ticks
let ticking = 0;

/** @param {HTMLElement} main @param {Practice} practice */
export function showMock(main, practice) {
  const { mock } = practice.memory;
  window.clearInterval(ticking);
  if (!mock) beginMock(main, practice);
  else if (mock.over) void feedBack(main, practice, mock);
  else void askItem(main, practice, mock, 0);
}

/** @param {HTMLElement} main @param {Practice} practice */
function beginMock(main, practice) {
  const { index, memory, today } = practice;
  const kinds = kindsToday(memory, index.kinds, today());
  const topics = new Set(kinds.map(({ topic }) => topic)).size;
  const most = Math.min(kinds.length, Math.max(LEAST, topics));
  const number = make("input", { type: "number", id: "exercises", min: Math.min(topics, most), max: kinds.length, value: most, inputmode: "numeric" });
  const extra = EXTRA.map((more, place) => make("input", { type: "radio", name: "extra", value: more, checked: !place }));
  const begin = () => {
    const wanted = Math.max(1, Math.min(kinds.length, Math.floor(Number(number.value)) || most));
    const more = Number(extra.find((one) => one.checked)?.value ?? 0);
    memory.mock = freshMock(memory, blueprint(kinds, wanted, chance), more);
    practice.keep();
    showMock(main, practice);
  };
  main.replaceChildren(
    make("h1", { tabindex: "-1" }, "Mock test"),
    make("p", {}, "A paper like your tutor's, put together in the same way, with other figures. There is no help until you hand it in. The clock runs while this page is shown: a locked phone loses neither time nor answers."),
    make("p", {}, "It is about the topics you have ticked, or those of your plan. Each mark has a minute and a half."),
    make("div", { class: "figure" }, make("label", { for: "exercises" }, topics > 1 ? "Exercises, one of each topic at least" : "Exercises"), number),
    make("fieldset", { class: "row" }, make("legend", {}, "Extra time"), ...EXTRA.map((more, place) => tick(extra[place], more ? `${more} %` : "None"))),
    button("Begin the test", begin, { class: "next" }),
  );
}

/** From 0 to below 1. */
const chance = () => crypto.getRandomValues(new Uint32Array(1))[0] / 2 ** 32;

/** The question of an item, with its kind; null where this page no longer has it. @param {Practice} practice @param {Mock["items"][number]} item */
async function questionOf({ index }, { kind, variant }) {
  const found = index.kinds.find((one) => one.key === kind);
  if (!found) return null;
  const data = await kindData(found.place);
  return { kind: found, data, question: questionAt(data, variant % data.questions.length) };
}

/** One exercise of a mock test. @param {HTMLElement} main @param {Practice} practice @param {Mock} mock @param {number} place */
async function askItem(main, practice, mock, place) {
  const found = await questionOf(practice, mock.items[place]);
  if (main.dataset.screen !== "mock") return; // the learner has gone to another screen meanwhile
  const last = place === mock.items.length - 1;
  const clock = make("p", { "data-role": "clock" }, timeLeft(mock));
  const go = (/** @type {number} */ to) => void askItem(main, practice, mock, to);
  const parts = (found?.question.parts ?? []).flatMap((part) => askPart(part, place, mock, practice));
  main.replaceChildren(
    clock,
    make("h1", { tabindex: "-1" }, `${place + 1} of ${mock.items.length}: ${found?.kind.title ?? "not on this page"}`),
    ...asksOf(found),
    ...parts,
    make("div", { class: "tools" },
      place ? button("Back", () => go(place - 1)) : "",
      last ? "" : button("Next", () => go(place + 1), { class: "next" }),
      button("Hand in", () => sure(main, practice, mock, place), last ? { class: "next" } : {}),
    ),
  );
  arriveAtTop(main);
  runClock(main, practice, mock, clock);
}

/** What is asked, with its drawing. @param {Awaited<ReturnType<typeof questionOf>>} found */
function asksOf(found) {
  if (!found) return [];
  const { question, data } = found;
  const words = [question.setting, question.pose, question.brick].filter(Boolean).map((line) => make("p", {}, line));
  return [make("div", { "data-role": "asked" }, ...words), ...(question.drawing ? [drawingFigure(data.lines, question.drawing)] : [])];
}

/** The fields of a part. @param {Part} part @param {number} item @param {Mock} mock @param {Practice} practice */
function askPart(part, item, mock, practice) {
  const section = partSection(part);
  for (const row of rowsOf(part)) {
    if (part.rows) section.append(make("h3", {}, `(${row.label}) ${row.ask}`));
    if (kindOf(row).byEye) {
      section.append(make("p", {}, "Do this on paper. It is held against its points when the test is over."));
      continue;
    }
    const name = `${item}:${row.name}`;
    const place = kindOf(row).place(row, () => null);
    place.restore(mock.answers[name] ?? "");
    const keep = () => {
      mock.answers[name] = place.read();
      practice.keep();
    };
    section.append(make("div", { oninput: keep, onchange: keep, onclick: () => window.setTimeout(keep) }, ownNames(place.element, name)));
  }
  return [section];
}

/** Gives the fields of a place names of their own: a paper has many at once. @param {HTMLElement} element @param {string} name */
function ownNames(element, name) {
  for (const input of element.querySelectorAll("input")) {
    if (input.name) input.name = `${input.name}-${name}`;
    if (input.id) {
      element.querySelector(`label[for="${input.id}"]`)?.setAttribute("for", `${input.id}-${name}`);
      input.id = `${input.id}-${name}`;
    }
  }
  for (const told of [element, ...element.querySelectorAll("[aria-describedby]")]) told.removeAttribute("aria-describedby");
  return element;
}

/** Counts the seconds that the page is shown, and hands in when they are over. @param {HTMLElement} main @param {Practice} practice @param {Mock} mock @param {HTMLElement} clock */
function runClock(main, practice, mock, clock) {
  window.clearInterval(ticking);
  let [before, ticks] = [performance.now(), 0];
  ticking = window.setInterval(() => {
    const now = performance.now();
    if (main.dataset.screen !== "mock" || practice.memory.mock !== mock) return window.clearInterval(ticking);
    if (document.visibilityState === "visible") countTime(mock, (now - before) / 1000);
    before = now;
    const words = timeLeft(mock);
    if (clock.textContent !== words) clock.textContent = words;
    ticks += 1;
    if (ticks % KEEP_EVERY === 0) practice.keep();
    return mock.used >= mock.seconds ? handIn(main, practice, mock, "The time is over.") : undefined;
  }, TICK);
}

/** @param {HTMLElement} main @param {Practice} practice @param {Mock} mock @param {number} place */
function sure(main, practice, mock, place) {
  const empty = mock.items.length - new Set(Object.entries(mock.answers).filter(([, text]) => text).map(([name]) => name.split(":")[0])).size;
  main.querySelector("[data-role=sure]")?.remove();
  const no = button("Not yet", () => void askItem(main, practice, mock, place));
  const words = empty ? `${empty} of ${mock.items.length} exercises have no answer. Hand in?` : "Hand in? There is no way back.";
  main.append(make("div", { "data-role": "sure" }, make("p", {}, words), no, button("Yes, hand in", () => handIn(main, practice, mock, "Handed in."))));
  focusOn(no);
}

/** @param {HTMLElement} main @param {Practice} practice @param {Mock} mock @param {string} words */
function handIn(main, practice, mock, words) {
  window.clearInterval(ticking);
  mock.over = true;
  practice.keep();
  say(words);
  void feedBack(main, practice, mock, true);
}

/** What each answer earned and why, with its working. @param {HTMLElement} main @param {Practice} practice @param {Mock} mock @param {boolean} fresh whether it was handed in just now: then its slips return */
async function feedBack(main, practice, mock, fresh = false) {
  const found = await Promise.all(mock.items.map((item) => questionOf(practice, item)));
  if (main.dataset.screen !== "mock") return;
  let [got, of] = [0, 0];
  const sections = found.flatMap((one, item) => {
    if (!one) return [];
    const rows = one.question.parts.flatMap(rowsOf).map((row) => {
      const told = fedBack(row, mock.answers[`${item}:${row.name}`] ?? "");
      got += told.marks;
      of += told.of;
      if (fresh && told.slip) takeSlip((practice.memory.kinds[one.kind.key] ??= freshKind()), row.name, told.slip, 0, practice.today());
      return told.element;
    });
    const asks = asksOf(one);
    markWords(asks[0]);
    return [make("section", {}, make("h2", {}, `${item + 1}  ${one.kind.title}`), ...asks, ...rows)];
  });
  if (fresh) practice.keep();
  const another = button("Another mock test", () => {
    practice.memory.mock = null;
    practice.keep();
    showMock(main, practice);
  }, { class: "next" });
  main.replaceChildren(
    make("h1", { tabindex: "-1" }, `${got} of ${of} marks`),
    make("p", {}, "Marked as on paper, but for two things that need your tutor: what you worked out on paper earns nothing here, and a later answer is not carried on from your own earlier one. What is drawn or written on paper is not counted."),
    ...sections,
    another,
    make("p", {}, make("a", { href: "#topics" }, "Back to the topics")),
  );
  arriveAtTop(main);
}

/** An answer fed back. @param {Part} row @param {string} text @returns {{element: HTMLElement, marks: number, of: number, slip: string}} */
function fedBack(row, text) {
  const heading = withMarkedWords(make("h3", {}, `${row.label}  ${row.ask}`));
  const working = make("details", {}, make("summary", {}, "The working"), workedPart(row));
  if (kindOf(row).byEye) return { element: make("div", {}, heading, workedPart(row)), marks: 0, of: 0, slip: "" };
  const place = kindOf(row).place(row, () => null);
  place.restore(text);
  const verdict = text ? place.judge() : { how: "blank" };
  const right = isRight(verdict);
  const marks = marksOf(verdict, row);
  const why = right || !isTry(verdict) ? "" : whatIsWrong(verdict, row);
  const words = verdict.how === "blank" ? "Not answered." : verdict.how === "asked" ? (verdict.why ?? "") : right ? "Right." : `${marks ? "Right in part." : "Not right."} ${why}`;
  const sign = make("span", { class: "sign", "aria-hidden": "true" }, right ? "✓" : "✗");
  const told = withMarkedWords(make("p", {}, sign, `${words} `, make("b", { class: "whole" }, `${marks} of ${row.marks}`)));
  const wrote = text ? withMarkedWords(kindOf(row).ownAnswer?.(row, text) ?? make("p", { class: "gave" }, `You wrote: ${text}`)) : "";
  const slip = right || verdict.how === "blank" ? "" : ((verdict.slips ?? [])[0] ?? "");
  return { element: make("div", { "data-part": row.name, "data-how": verdict.how }, heading, wrote, told, working), marks, of: row.marks, slip };
}
