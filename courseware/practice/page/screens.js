// The other screens: topics to practise, how far each exercise is, keeping and loading a practice.

import { button, byId, counted, dayInWords, make, tick } from "./elements.js";
import { lookUp, withMarkedWords } from "./glossary.js";
import { pickKind } from "./choose.js";
import { hasDue, isDue, isSecure } from "./memory.js";
import { isRunning } from "./plan.js";
import { planWords } from "./plan_screen.js";
import { LENGTHS, slipToWatch, whenToComeBack } from "./sitting.js";

/** @typedef {import("./memory.js").Memory} Memory @typedef {import("./choose.js").Kind} Kind */
/**
 * What the screens work on. @typedef {{index: ReturnType<typeof import("./data.js").readIndex>, memory: Memory,
 *   keep: () => void, replace: (memory: Memory) => void, today: () => number}} Practice
 */

/** @type {Record<number, string>} */
const LENGTH_WORDS = { 10: "Ten questions", 5: "Five questions", 0: "Until I stop" };
const FEW = 2; // topics: more are unticked by one press
const SHOWN = 6; // exercises named at the end of a sitting

/** The end of a sitting, or a stop in it. @param {HTMLElement} main @param {Practice} practice */
export function showEnd(main, { index, memory, today }) {
  const sitting = memory.sitting ?? { of: 0, day: 0, done: 0, clean: [], slips: [] };
  const title = (/** @type {string} */ key) => index.kinds.find((kind) => kind.key === key)?.title ?? key;
  const right = [...new Set(sitting.clean)].map(title);
  const more = right.length > SHOWN ? ` and ${right.length - SHOWN} more` : "";
  const slip = slipToWatch(sitting);
  const again = button(memory.length ? `Another ${LENGTH_WORDS[memory.length]?.toLowerCase() ?? "sitting"}` : "Go on", () => {
    window.location.hash = "#practise";
  }, { class: "next" });
  main.replaceChildren(
    make("h1", { tabindex: "-1" }, sitting.done ? `${counted(sitting.done, "question")} answered` : "Nothing answered yet"),
    make("p", { "data-role": "right" }, sitting.done ? `Right without help: ${sitting.clean.length} of ${sitting.done}.` : ""),
    right.length ? make("h2", {}, "What went right") : "",
    right.length ? make("ul", {}, ...right.slice(0, SHOWN).map((name) => make("li", {}, name)), more && make("li", {}, more.trim())) : "",
    slip ? make("h2", {}, "The slip to watch") : "",
    slip ? withMarkedWords(make("p", { "data-role": "watch" }, slip.says ? `${slip.says.replace(/\.$/, "")}. (${title(slip.kind)})` : `Look once more at: ${title(slip.kind)}.`)) : "",
    make("h2", {}, "When to come back"),
    make("p", { "data-role": "back" }, whenToComeBack(memory, today())),
    again,
    make("p", {}, make("a", { href: "#progress" }, "See your progress")),
  );
}

/** @param {HTMLElement} main @param {Practice} practice */
export function showTopics(main, practice) {
  const { index, memory } = practice;
  const boxes = index.topics.map(({ topic }) =>
    make("input", { type: "checkbox", checked: !memory.topics || memory.topics.includes(topic), onchange: chosen }),
  );
  const empty = make("p", { "data-role": "none", role: "alert" });
  function chosen() {
    const ticked = index.topics.map(({ topic }) => topic).filter((_, place) => boxes[place].checked);
    memory.topics = ticked.length === boxes.length ? null : ticked;
    memory.now = null;
    memory.round = 0;
    practice.keep();
    nameAll();
  }
  const all = button("", () => {
    const tickAll = boxes.some((box) => !box.checked);
    for (const box of boxes) box.checked = tickAll;
    chosen();
  });
  const nameAll = () => all.replaceChildren(boxes.some((box) => !box.checked) ? "Tick all" : "Untick all");
  nameAll();
  const begun = Object.keys(memory.kinds).length > 0;
  const lengths = LENGTHS.map((of) => make("input", { type: "radio", name: "length", value: of, checked: of === memory.length, onchange: () => setLength(of) }));
  function setLength(/** @type {number} */ of) {
    memory.length = of;
    if (memory.sitting) memory.sitting.of = of;
    practice.keep();
  }
  const start = () => {
    if (boxes.some((box) => box.checked)) window.location.hash = "#practise";
    else empty.textContent = "Tick at least one topic.";
  };
  main.replaceChildren(
    make("h1", { tabindex: "-1" }, `Practise: ${index.title}`),
    make("p", {}, "Each kind of question comes three times at first: worked, then with one step left to you, then on your own. Have paper, pencil and a calculator beside you."),
    make("p", { "data-role": "due" }, dueWords(practice)),
    isRunning(memory.plan, practice.today()) ? make("p", { "data-role": "plan" }, planWords(memory.plan, practice.today())) : "",
    button(begun ? "Go on" : "Start", start, { class: "next" }),
    empty,
    make("p", {}, make("a", { href: "#plan" }, "My test is on …"), make("a", { href: "#mock" }, "Mock test"), make("a", { href: "#look" }, "Letters and colours")),
    make(
      "fieldset",
      { class: "row" },
      make("legend", {}, "At a sitting"),
      ...LENGTHS.map((of, place) => tick(lengths[place], LENGTH_WORDS[of])),
    ),
    lookUp(),
    make(
      "fieldset",
      {},
      make("legend", {}, isRunning(memory.plan, practice.today()) ? "Topics, once the test is over" : "Topics"),
      index.topics.length > FEW ? all : "",
      ...index.topics.map(({ topic, aim }, place) =>
        tick(boxes[place], make("b", {}, topic), make("span", { class: "aim" }, aim)),
      ),
    ),
    make("p", { class: "small" }, "What you do stays in this browser: nothing is sent, and there is no account."),
    make("p", { class: "small" }, index.caution),
  );
}

/** @param {Practice} practice */
function dueWords({ index, memory, today }) {
  const slips = index.kinds.flatMap((kind) => Object.values(memory.kinds[kind.key]?.slips ?? {}));
  const due = slips.filter((slip) => isDue(slip, today())).length;
  if (due) return `${counted(due, "step")} that went wrong before ${due === 1 ? "comes" : "come"} back today.`;
  return slips.length ? "Nothing comes back today." : "A step that goes wrong comes back after 1, 3, 7, 14 and 28 days.";
}

/** @param {HTMLElement} main @param {Practice} practice */
export function showProgress(main, practice) {
  const { index } = practice;
  main.replaceChildren(
    make("h1", { tabindex: "-1" }, "Progress"),
    ...index.topics.map(({ topic, kinds }) =>
      make(
        "details",
        { class: "topic" },
        make("summary", {}, topic, make("span", { class: "aim" }, topicWords(kinds.map((place) => index.kinds[place]), practice))),
        make(
        "table",
        { class: "progress" },
        make("caption", { class: "unseen" }, topic),
        make("thead", {}, make("tr", {}, make("th", { scope: "col" }, "Exercise"), make("th", { scope: "col" }, "How far"))),
        make("tbody", {}, ...kinds.map((place) => progressRow(index.kinds[place], practice))),
        ),
      ),
    ),
    make("p", {}, "Secure: right three times without help, on two days or more. Open a topic, then press an exercise to practise it."),
    make("p", {}, `An exercise has ${most(index.kinds)} questions before one comes again; where it has fewer, its line says how many.`),
  );
}

/** How far a topic is, in a line. @param {Kind[]} kinds @param {Practice} practice */
function topicWords(kinds, { memory, today }) {
  const begun = kinds.flatMap((kind) => memory.kinds[kind.key] ?? []);
  const secure = begun.filter(isSecure).length;
  const due = begun.filter((own) => hasDue(own, today())).length;
  const words = [`${secure} of ${kinds.length} secure`, begun.length > secure && `${begun.length - secure} begun`, due && `${due} to repeat today`];
  return words.filter(Boolean).join(", ");
}

/** How many questions the exercises have at most. @param {Kind[]} kinds */
function most(kinds) {
  return Math.max(...kinds.map((kind) => kind.variants));
}

/** @param {Kind} kind @param {Practice} practice */
function progressRow(kind, practice) {
  const words = stateWords(kind, practice);
  const few = kind.variants < most(practice.index.kinds) ? make("span", { class: "aim" }, `${counted(kind.variants, "question")}, then they come again`) : "";
  const sign = words.startsWith("Secure") ? "✓ " : "";
  const begin = button(kind.title, () => {
    pickKind(practice.memory, kind, practice.today());
    practice.keep();
    window.location.hash = "#practise";
  }, { class: "row-start" });
  return make("tr", {}, make("th", { scope: "row" }, begin), make("td", {}, sign + words, few));
}

/** @param {Kind} kind @param {Practice} practice */
function stateWords(kind, { memory, today }) {
  const own = memory.kinds[kind.key];
  if (!own) return "Not begun";
  const times = ["Begun", "Right once", "Right twice"][own.rights.length] ?? "Right three times, all on one day";
  const waits = Object.values(own.slips).map((slip) => (isDue(slip, today()) ? 0 : slip.due));
  const back = waits.length ? Math.min(...waits) : null;
  const when = back === null ? "" : back ? `; a step comes back on ${dayInWords(back)}` : "; a step to repeat today";
  const secure = back === 0 ? "Secure until today" : "Secure";
  return (isSecure(own) ? secure : times) + when;
}

/** Marks the link of the screen that is shown. @param {string} screen */
export function markCurrent(screen) {
  for (const link of byId("pages").querySelectorAll("a")) {
    if (link.hash === `#${screen}`) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
}
