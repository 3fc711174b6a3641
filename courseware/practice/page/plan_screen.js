// "My test is on …": a day, and what it is about; then how the exercises are spread over the days left.

import { button, counted, dayInWords, isoDay, make, say, tick } from "./elements.js";
import { isRunning, planDays, plannedKinds } from "./plan.js";

/** @typedef {import("./screens.js").Practice} Practice @typedef {import("./memory.js").Plan} Plan */

const DAYS_SHOWN = 14; // days of a plan

/** @param {HTMLElement} main @param {Practice} practice */
export function showPlan(main, practice) {
  const { index, memory, today } = practice;
  const plan = isRunning(memory.plan, today()) ? memory.plan : null;
  const test = make("input", { type: "date", id: "test-day", min: isoDay(today() + 1), value: plan ? isoDay(plan.test) : "", required: true });
  const topics = index.topics.map(({ topic }) => tickBox("topic", topic, plan?.topics.includes(topic)));
  const numbers = [...new Set(index.kinds.map(({ level }) => level))].sort();
  const levels = numbers.map((level) => tickBox("level", String(level), plan?.levels.includes(level)));
  const exercises = index.kinds.map((kind) => tickBox("exercise", kind.key, plan?.exercises.includes(kind.key)));
  const told = make("p", { "data-role": "told", role: "alert" });
  const keep = (/** @type {Plan | null} */ made) => {
    Object.assign(memory, { plan: made, now: null, round: 0 });
    practice.keep();
    showPlan(main, practice);
    say(made ? "Your plan is made." : "The plan is gone.");
  };
  const begin = () => {
    const day = test.valueAsNumber / 86_400_000;
    if (!(day > today())) return void (told.textContent = "Choose the day of your test: tomorrow or later.");
    return keep({ made: today(), test: day, topics: tickedIn(topics), levels: tickedIn(levels).map(Number), exercises: tickedIn(exercises) });
  };
  const byTopic = index.topics.map(({ topic, kinds }) =>
    make("details", { class: "topic" }, make("summary", {}, topic), ...kinds.map((place) => tick(exercises[place], index.kinds[place].title))),
  );
  main.replaceChildren(
    make("h1", { tabindex: "-1" }, "My test is on …"),
    ...(plan ? planTold(plan, practice) : []),
    make("div", { class: "figure" }, make("label", { for: "test-day" }, "The day of the test"), test),
    make("fieldset", {}, make("legend", {}, "Topics (all, if none is ticked)"), ...index.topics.map(({ topic }, place) => tick(topics[place], topic))),
    make("fieldset", { class: "row" }, make("legend", {}, "Levels (all, if none)"), ...numbers.map((level, place) => tick(levels[place], `Level ${level}`))),
    make("h2", {}, "Or these exercises alone"),
    ...byTopic,
    told,
    button(plan ? "Change the plan" : "Make the plan", begin, { class: "next" }),
    plan ? button("No more plan", () => keep(null)) : "",
  );
}

/** What a running plan has today and on the days to come. @param {Plan} plan @param {Practice} practice */
function planTold(plan, { index, memory, today }) {
  const kinds = plannedKinds(plan, index.kinds);
  const days = planDays(plan, memory, kinds, today());
  const begun = kinds.filter((kind) => memory.kinds[kind.key]).length;
  const rows = days.slice(0, DAYS_SHOWN).map(({ day, fresh }, place) =>
    make("tr", {}, make("th", { scope: "row" }, place ? dayInWords(day) : "Today"), make("td", {}, fresh ? counted(fresh, "new exercise") : "Repeating")),
  );
  return [
    make("p", { "data-role": "plan" }, planWords(plan, today()), ` ${begun} of ${counted(kinds.length, "exercise")} begun.`),
    button("Go on", () => {
      window.location.hash = "#practise";
    }, { class: "next" }),
    make("table", { class: "progress" }, make("caption", {}, "How it is spread"), make("tbody", {}, ...rows)),
    make("p", { class: "small" }, "What you have begun comes back in between, at wider gaps the further off the test is. A little on every day holds better than much on the last."),
  ];
}

/** `Your test is on 22 May, in 9 days.` @param {Plan} plan @param {number} today */
export function planWords({ test }, today) {
  const when = test === today ? "today" : `on ${dayInWords(test)}, ${test === today + 1 ? "tomorrow" : `in ${test - today} days`}`;
  return `Your test is ${when}.`;
}

/** @param {string} name @param {string} value @param {boolean | undefined} checked */
const tickBox = (name, value, checked) => make("input", { type: "checkbox", name, value, checked: checked ?? false });

/** @param {HTMLInputElement[]} boxes */
const tickedIn = (boxes) => boxes.filter((one) => one.checked).map((one) => one.value);
