// A question on the page: what is asked, its drawing and cautions, then its parts: worked, with one step open, or alone.

import { readAloud, stopReading } from "./aloud.js";
import { figurePlace } from "./answers.js";
import { questionAt } from "./data.js";
import { drawingFigure } from "./drawing.js";
import { arriveAt, button, focusOn, make } from "./elements.js";
import { lookUp, markWords, withMarkedWords } from "./glossary.js";
import { isDue } from "./memory.js";
import { kindOf, rowsOf } from "./part_kinds.js";
import { caution, fillRow, givenPart, giveRow, helpedSection, onPaper, rowSection } from "./parts.js";
import { askRule } from "./rule.js";
import { foldPart, sightStrip } from "./sight.js";
import { askStep, wholePart } from "./step.js";
import { howToAnswer } from "./words.js";
import { workedPart, workingLines } from "./working.js";

/**
 * What a question tells as it goes: a slip at once, a part right without help, what is typed, a part settled and how, and
 * at the end whether all was right.
 * @typedef {{slipped: (part: string, outcome: import("./step.js").Outcome) => void, right: (part: string) => void,
 *   typed: (part: string, text: string) => void, settled: (part: string, how: string) => void,
 *   done: (clean: boolean) => void, next: () => void}} Told
 * @typedef {import("./data.js").Part} Part @typedef {import("./memory.js").Now} Now
 */

const [GO_ON, NEXT] = ["Go on", "Next question"];
const STAGES = { worked: "Worked example", part: "One step left to you", alone: "On your own" };

/**
 * Puts a question into `main`, and asks it. @param {HTMLElement} main @param {import("./choose.js").Kind} kind
 * @param {import("./data.js").KindData} data @param {Now} now @param {import("./memory.js").KindMemory} own
 * @param {Told} told @param {{today: number, told: string}} sitting the day, and which question of the sitting this is
 */
export async function askQuestion(main, kind, data, now, own, told, sitting) {
  const question = questionAt(data, now.variant);
  stopReading();
  Object.assign(main.dataset, { stage: now.stage, kind: String(kind.place), variant: String(now.variant), open: "" });
  delete main.dataset.line;
  const drawing = (/** @type {import("./data.js").Drawing | undefined} */ drawn) => drawn && drawingFigure(data.lines, drawn, question.stands);
  const returned = returnedSlips(now, own, sitting.today);
  const stage = STAGES[now.stage] + (now.stage === "alone" && Object.keys(returned).length ? ", comes back" : "");
  const asked = make(
    "div",
    { "data-role": "asked" },
    ...[["setting", question.setting], ["pose", question.pose], ["brick", question.brick]].map(
      ([role, words]) => (words ? make("p", { "data-role": role ?? "" }, words) : ""),
    ),
  );
  const notes = data.notes.map(caution);
  main.replaceChildren(
    make("p", { "data-role": "stage" }, make("b", {}, stage), ` ${kind.topic}, level ${kind.level}`),
    now.stage === "worked" ? "" : make("p", { "data-role": "place" }, `${sitting.told} `, make("a", { href: "#end" }, "Stop here")),
    make("h1", { tabindex: "-1" }, kind.title),
    own.seen > kind.variants ? make("p", { class: "small", "data-role": "again" }, againWords(kind)) : "",
    asked,
    drawing(now.stage === "worked" ? question.filled : question.drawing) ?? "",
    ...(now.stage === "worked" ? [] : notes),
    lookUp(readAloud(() => spokenWords(main))),
  );
  markWords(main.querySelector("h1"));
  markWords(...asked.children);
  const strip = sightStrip(question, data.lines, asked);
  const asking = { main, question, notes, strip, returned, now, own, told, filled: () => drawing(question.filled) ?? null };
  if (now.stage === "part") await askOpen(asking);
  else if (now.stage === "alone") await askAlone(asking);
  else giveAll(asking);
}

/** Said of a question that was met before: all of its kind have come. @param {import("./choose.js").Kind} kind */
function againWords({ variants }) {
  return variants === 1 ? "This exercise has one question: it comes again." : `All ${variants} questions of this exercise have come: from here they come again.`;
}

/** What is asked and what is open, as it is read aloud. @param {HTMLElement} main */
function spokenWords(main) {
  const open = [...main.querySelectorAll('h1, [data-role="asked"] p, section:not([data-state="given"]) > h2, section > h3')];
  return open.map((element) => element.textContent?.replace(/[.?!]?$/, (end) => end || ".")).join(" ");
}

/** A worked example: all of it given. @param {Asking} asking */
function giveAll({ main, question, told, notes }) {
  const next = () => {
    told.done(true);
    told.next();
  };
  main.append(...question.parts.map(givenPart), ...notes, button(NEXT, next, { class: "next" }));
}

/** @typedef {{main: HTMLElement, question: import("./data.js").Question, notes: Node[], strip: Node, returned: Record<string, string>, now: Now,
 *   own: import("./memory.js").KindMemory, told: Told, filled: () => Node | null}} Asking */

/** All parts alone, one after another; those settled before the page was left stand as lines. @param {Asking} asking */
async function askAlone(asking) {
  const { main, question, now, told, strip } = asking;
  const left = question.parts.flatMap(rowsOf).filter((row) => !now.done[row.name]);
  if (!left.length) now.done = {}; // as no question that is kept can be
  let ruleLeft = now.rule && !Object.keys(now.done).length;
  let begun = false;
  for (const part of question.parts) {
    const section = helpedSection(part);
    main.append(section, strip); // next to the field for a keyboard
    for (const row of rowsOf(part)) {
      if (now.done[row.name]) {
        giveSettled(section, part, row, now.done[row.name]);
        continue;
      }
      if (begun && row === rowsOf(part)[0]) arriveAt(section.querySelector("h2"));
      begun = true;
      if (ruleLeft && row.rule) {
        await askRule(section, row, now.variant);
        ruleLeft = false;
      }
      await askOne(asking, section, part, row);
    }
    if (part !== question.parts.at(-1)) foldPart(section, part);
  }
  told.next();
}

/** A part, or a row, as it was settled. @param {HTMLElement} section @param {Part} part @param {Part} row @param {string} how */
function giveSettled(section, part, row, how) {
  if (part.rows) return giveRow(section, row);
  section.dataset.state = how;
  return section.append(onPaper(row), workedPart(row));
}

/** One part, or one row of a table. @param {Asking} asking @param {HTMLElement} section @param {Part} part @param {Part} row */
async function askOne({ main, question, now, told, filled, returned }, section, part, row) {
  const last = row === question.parts.flatMap(rowsOf).at(-1);
  main.dataset.open = row.name;
  const own = part.rows ? rowSection(row) : section;
  if (part.rows) section.append(own);
  if (part.rows && row !== part.rows[0]) arriveAt(own.querySelector("h3"));
  own.append(returnedNote(returned[row.name]));
  await kindOf(row).before?.(own, row, Boolean(question.drawing && !question.drawing.narrow));
  const step = wholePart(row, () => (last ? filled() : null)); // a filled drawing answers the parts that follow
  const settled = (/** @type {import("./step.js").Outcome} */ outcome) => {
    main.dataset.open = "";
    told.settled(row.name, own.dataset.state ?? "");
    if (part.rows) fillRow(section, row);
    if (part.rows && row === part.rows.at(-1)) section.dataset.state = "right";
    if (outcome.clean && now.stage === "alone") told.right(row.name); // a return counts alone
    if (last || now.stage === "part") told.done(!now.helped);
  };
  const asked = { ...step, section: own, goOn: last ? NEXT : GO_ON, settled, ...kept(now, row, told) };
  await askStep(asked, (slip) => told.slipped(row.name, slip));
}

/**
 * By part, the slip that it comes back for: on the learner's own those that are due, with one step open the last one.
 * @param {Now} now @param {Asking["own"]} own @param {number} today @returns {Record<string, string>}
 */
function returnedSlips(now, own, today) {
  const slips = Object.entries(own.slips).filter(([part, slip]) => (now.stage === "alone" ? isDue(slip, today) : part === own.open));
  return Object.fromEntries(slips.map(([part, slip]) => [part, slip.says]));
}

/** @param {string | undefined} says what the slip was; undefined where nothing comes back */
function returnedNote(says) {
  if (says === undefined) return "";
  const slip = says ? `: ${says.replace(/\.$/, "")}.` : ".";
  return withMarkedWords(make("p", { "data-role": "returned" }, `This step comes back. It went wrong last time${slip}`));
}

/** What was typed before the page was left, and who is told of what is typed. @param {Now} now @param {Part} row @param {Told} told */
function kept(now, row, told) {
  const typed = (/** @type {string} */ text) => told.typed(row.name, text);
  return { draft: now.at === row.name ? now.draft : "", typed };
}

/** All given but one step. @param {Asking} asking */
async function askOpen(asking) {
  const { main, question, own, told, strip } = asking;
  const rows = question.parts.flatMap(rowsOf);
  const open = rows.find((row) => row.name === own.open) ?? rows.findLast((row) => kindOf(row).opensLine) ?? rows[0];
  const place = question.parts.findIndex((part) => part === open || part.rows?.includes(open));
  const part = question.parts[place];
  main.append(...question.parts.slice(0, place).map((given) => givenPart(given)));
  const section = helpedSection(part);
  main.append(section, strip);
  const before = (part.rows ?? []).slice(0, (part.rows ?? []).indexOf(open));
  for (const row of before) giveRow(section, row);
  const line = openLine(open, own.slips[open.name]);
  if (line < 0) await askOne(asking, section, part, open);
  else await askLine(asking, section, part, open, line);
  if (open === rows.at(-1)) return told.next();
  for (const row of (part.rows ?? []).slice(before.length + 1)) giveRow(section, row);
  const rest = question.parts.slice(place + 1).map(givenPart);
  main.append(...rest, button(NEXT, told.next, { class: "next" }));
  return focusOn(section.querySelector("h3:last-of-type") ?? rest[0]?.querySelector("h2"));
}

/**
 * The line of the working to leave open: that of the slip, else the last. One that prints its own sum is none to leave
 * open; where all do, the part is asked whole: -1.
 * @param {Part} part @param {{line: number} | undefined} slip
 */
export function openLine(part, slip) {
  const lines = kindOf(part).opensLine ? (part.working ?? []) : [];
  const canOpen = (/** @type {number} */ place) => lines[place]?.right !== undefined && !printsItsSum(lines[place].say);
  if (slip && canOpen(slip.line)) return slip.line;
  return lines.findLastIndex((_, place) => canOpen(place));
}

/** Whether a line of working says all of its sum, as `7 × 225`, so that nothing but reckoning is left. @param {string} say */
export const printsItsSum = (say) => /[0-9½¼¾)²³%][^0-9:.;,]{0,20}[×÷+−][^0-9:.;,]{0,20}[0-9½¼¾(]/.test(say);

/** A line left open: a sum with its sign, words with a question. @param {string} say */
export const openWords = (say) => (/[0-9)]$/.test(say) ? `${say} = ?` : `${say.replace(/\.$/, "")}: what does it come to?`);

/**
 * The working up to a line, and that line's figure asked: its own, or at the last line the answer.
 * @param {Asking} asking @param {HTMLElement} section @param {Part} part @param {Part} row @param {number} line
 */
async function askLine({ main, question, now, told, returned }, section, part, row, line) {
  const last = row === question.parts.flatMap(rowsOf).at(-1);
  Object.assign(main.dataset, { open: row.name, line: String(line) });
  const own = part.rows ? rowSection(row) : section;
  if (part.rows) section.append(own);
  const working = row.working ?? [];
  const isLast = line === working.length - 1;
  const asked = isLast ? row : lineAsked(row, line);
  own.append(returnedNote(returned[row.name]), workingLines(row, line) ?? "", withMarkedWords(make("p", { class: "open-line" }, openWords(working[line].say))));
  const step = {
    part: asked,
    section: own,
    place: figurePlace(asked, isLast ? howToAnswer(row) : howToAnswer({ unit: asked.unit }).replace("answer", "figure for this line")),
    working: () => workedPart(row),
    goOn: last ? NEXT : GO_ON,
    settled: () => {
      if (own.dataset.state === "right" && !isLast) own.append(workedPart(row));
      if (part.rows) fillRow(section, row);
      main.dataset.open = "";
      delete main.dataset.line;
      told.done(!now.helped);
    },
    ...kept(now, row, told),
  };
  await askStep(step, (slip) => told.slipped(row.name, { ...slip, line }));
}

/** A line of the working as something to be judged. @param {Part} row @param {number} place @returns {Part} */
function lineAsked(row, place) {
  const line = (row.working ?? [])[place];
  const answer = line.figure ?? "";
  return { ...row, right: line.right ?? "", unit: line.unit ?? "", answer, exact: undefined, within: undefined,
    places: undefined, slips: [], accepts: [], note: "", working: [line] };
}

