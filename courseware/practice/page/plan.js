// A plan to the day of a test: which exercises, and how they are spread over the days left. The day is handed in.

/** @typedef {import("./memory.js").Memory} Memory @typedef {import("./memory.js").Plan} Plan @typedef {import("./choose.js").Kind} Kind */

const FRESH_UNTIL = 2 / 3; // of the days left: new exercises; the rest is for repeating (ours, no source)
const PARTS_OF_THE_WAIT = 5; // an exercise comes back after a fifth of the days left (ours, no source)

/** Whether a plan still holds: until the evening of its test. @param {Plan | null} plan @param {number} today @returns {plan is Plan} */
export const isRunning = (plan, today) => plan !== null && today <= plan.test;

/**
 * The exercises of a plan: those named, where any are; else those of its topics and levels, where any are.
 * @param {Plan} plan @param {Kind[]} kinds
 */
export function plannedKinds({ topics, levels, exercises }, kinds) {
  if (exercises.length) return kinds.filter((kind) => exercises.includes(kind.key));
  return kinds.filter((kind) => (!topics.length || topics.includes(kind.topic)) && (!levels.length || levels.includes(kind.level)));
}

/** What is practised today: the plan's exercises while it runs, else those of the topics ticked. @param {Memory} memory @param {Kind[]} kinds @param {number} today */
export function kindsToday(memory, kinds, today) {
  const { plan, topics } = memory;
  const chosen = isRunning(plan, today) ? plannedKinds(plan, kinds) : kinds.filter((kind) => !topics || topics.includes(kind.topic));
  return chosen.length ? chosen : kinds;
}

/** How many days new exercises still come on, today with it. @param {Plan} plan @param {number} today */
const freshDays = ({ made, test }, today) => Math.max(1, made + Math.ceil((test - made) * FRESH_UNTIL) - today);

/** How many exercises are still to be begun today. @param {Plan} plan @param {Memory} memory @param {Kind[]} kinds the plan's @param {number} today */
export function freshLeft(plan, memory, kinds, today) {
  const begunToday = kinds.filter((kind) => memory.kinds[kind.key]?.begun === today).length;
  const left = kinds.filter((kind) => !memory.kinds[kind.key]).length;
  return Math.max(0, Math.ceil((left + begunToday) / freshDays(plan, today)) - begunToday);
}

/** Whether an exercise has rested long enough to come again. @param {Plan} plan @param {import("./memory.js").KindMemory} own @param {number} today */
export function isRipe(plan, own, today) {
  return today - own.last >= Math.max(1, Math.round((plan.test - today) / PARTS_OF_THE_WAIT));
}

/**
 * The days from today to the test, each with how many exercises are new on it, if every day goes as planned.
 * @param {Plan} plan @param {Memory} memory @param {Kind[]} kinds the plan's @param {number} today
 */
export function planDays(plan, memory, kinds, today) {
  let left = kinds.filter((kind) => !memory.kinds[kind.key]).length;
  const days = [];
  for (let day = today; day < Math.max(plan.test, today + 1); day += 1) {
    const fresh = day === today ? freshLeft(plan, memory, kinds, today) : Math.ceil(left / freshDays(plan, day));
    days.push({ day, fresh: Math.min(fresh, left) });
    left -= Math.min(fresh, left);
  }
  return days;
}
