// What the page remembers of a learner, and when a slip comes back. All of it is plain data; the day is handed in.

import { checkedLook } from "./look.js";
import { checkedScreen } from "./true_size.js";
import { checkedMock } from "./mock.js";

/**
 * A slip that waits: how far along the returns it is, the day it is due, what it was, the line to look at.
 * @typedef {{step: number, due: number, says: string, line: number}} Slip
 * How far a kind of question is: `stage` of the next one, how often it came, the days it was right without help (since
 * the last slip), slips by part, the part last slipped on, the turn it last came in, the days it first and
 * last came on, and how often on the last.
 * @typedef {{stage: "worked"|"part"|"alone", seen: number, rights: number[], slips: Record<string, Slip>,
 *   open: string, failed: number, turn: number, begun: number, last: number, often: number}} KindMemory
 * The question being asked; `helped` once a step of it went wrong or was shown, so that opening the page again is no way round it.
 * `done` are the parts of it that are settled, with how; `draft` is what stands in the part `at`, not yet checked.
 * @typedef {{kind: string, stage: KindMemory["stage"], variant: number, rule: boolean, helped: boolean,
 *   done: Record<string, string>, at: string, draft: string}} Now
 * A sitting: how many questions it has (0: until the learner stops), its day, how many are answered, the kinds of those right
 * without help, the slips made.
 * @typedef {{of: number, day: number, done: number, clean: string[], slips: {kind: string, says: string}[]}} Sitting
 * `length` is how many questions the learner wants in a sitting, `alone` counts questions that might have begun with their rule since one did, `round` those of the turn.
 * A plan: the day it was made and that of the test, and its topics, levels and exercises (keys); none of them named means all.
 * @typedef {{made: number, test: number, topics: string[], levels: number[], exercises: string[]}} Plan
 * `rules` is whether the rule is asked for now and then, `look` how the page looks, `screen` how large the screen is.
 * `name` is what the learner calls themselves in a saved file, `days` how many questions each day of practice had, and how many right without help.
 * @typedef {{form: 1, start: number, turn: number, alone: number, round: number, last: string, topics: string[] | null,
 *   length: number, sitting: Sitting | null, now: Now | null, kinds: Record<string, KindMemory>,
 *   name: string, days: {day: number, done: number, right: number}[], plan: Plan | null, rules: boolean,
 *   look: Record<string, string>, screen: import("./true_size.js").Screen | null, mock: import("./mock.js").Mock | null}} Memory
 */


export const RETURNS = [1, 3, 7, 14, 28]; // days until a slip comes back, each time it was put right
const LONGEST_WAIT = RETURNS[RETURNS.length - 1];
const TEN = 10; // questions in a sitting, unless the learner chooses otherwise
const STATES = ["right", "helped", "shown"]; // of a part that is settled
const RIGHTS_NEEDED = 3;
const DAYS_NEEDED = 2;
const ENOUGH_TODAY = 2; // right so often on one day, a kind rests until another
const SOON = 6; // questions of a kind, then it rests a day longer, and so on
const MOST_TODAY = 5; // questions of a kind on one day, right or not, then it rests
const MOST_DAYS = 400; // of practice that are kept
const LAST_DAY = 100_000; // since 1970: a later one is no day of anybody's
export const LONGEST_NAME = 80;

/** @param {number} start where this learner begins among the variants @returns {Memory} */
export function freshMemory(start) {
  return { form: 1, start, turn: 0, alone: 0, round: 0, last: "", topics: null, length: TEN, sitting: null, now: null, kinds: {},
    name: "", days: [], plan: null, rules: true, look: {}, screen: null, mock: null };
}

/** @returns {KindMemory} */
export function freshKind() {
  return { stage: "worked", seen: 0, rights: [], slips: {}, open: "", failed: 0, turn: 0, begun: 0, last: 0, often: 0 };
}

/**
 * The day a clock shows, as a number, in the learner's own time zone; 0 for a clock that shows no time at all.
 * @param {Date} now
 */
export function dayOf(now) {
  const day = Math.floor((now.getTime() - now.getTimezoneOffset() * 60_000) / 86_400_000);
  return Number.isFinite(day) ? day : 0;
}

/**
 * Whether a slip comes back today. A day further off than any wait was set by a clock that was wrong: it comes now.
 * @param {Slip} slip @param {number} today
 */
export function isDue(slip, today) {
  return slip.due <= today || slip.due - today > LONGEST_WAIT;
}

/** Whether any slip of a kind comes back today. @param {KindMemory} kind @param {number} today */
export function hasDue(kind, today) {
  return Object.values(kind.slips).some((slip) => isDue(slip, today));
}

/** @param {KindMemory} kind @param {string} part @param {string} says @param {number} line @param {number} today */
export function takeSlip(kind, part, says, line, today) {
  kind.slips[part] = { step: 0, due: today + RETURNS[0], says, line };
  kind.open = part;
  kind.rights = [];
}

/** A part right at the first try, without help: a slip of it that was due waits longer, or is gone. */
export function putRight(/** @type {KindMemory} */ kind, /** @type {string} */ part, /** @type {number} */ today) {
  const slip = kind.slips[part];
  if (!slip || !isDue(slip, today)) return;
  slip.step += 1;
  if (slip.step >= RETURNS.length) delete kind.slips[part];
  else slip.due = today + RETURNS[slip.step];
}

/** A whole question right without help. @param {KindMemory} kind @param {number} today */
export function takeRight(kind, today) {
  kind.rights = [...kind.rights, today].slice(-12);
}

/** Right three times without help, on two days or more, since the last slip. @param {KindMemory} kind */
export function isSecure(kind) {
  return kind.rights.length >= RIGHTS_NEEDED && new Set(kind.rights).size >= DAYS_NEEDED;
}

/** A question answered on a day. @param {Memory} memory @param {number} today @param {boolean} clean right without help */
export function countDay(memory, today, clean) {
  const day = memory.days.find((one) => one.day === today) ?? { day: today, done: 0, right: 0 };
  day.done += 1;
  day.right += clean ? 1 : 0;
  memory.days = [...memory.days.filter((one) => one !== day), day].slice(-MOST_DAYS);
}

/**
 * Whether a kind has been asked, or been right, often enough for now: on one day, or, the oftener it came, for more of them.
 * @param {KindMemory} kind @param {number} today
 */
export function rests(kind, today) {
  if (kind.last === today && kind.often >= MOST_TODAY) return true;
  if (kind.last < today && today - kind.last < Math.floor(kind.seen / SOON)) return true;
  return kind.rights.filter((day) => day === today).length >= ENOUGH_TODAY;
}

/**
 * A memory as kept or saved, each piece checked; null where it is none. Pieces that cannot be so are left out.
 * @param {unknown} found @returns {Memory | null}
 */
export function checkedMemory(found) {
  if (!isRecord(found) || found.form !== 1 || !isRecord(found.kinds)) return null;
  const memory = freshMemory(count(found.start));
  for (const name of /** @type {const} */ (["turn", "alone", "round"])) memory[name] = count(found[name]);
  memory.last = text(found.last);
  memory.name = text(found.name).slice(0, LONGEST_NAME);
  memory.days = checkedDays(found.days);
  memory.plan = isRecord(found.plan) ? checkedPlan(found.plan) : null;
  memory.rules = found.rules !== false;
  memory.look = checkedLook(found.look);
  memory.screen = checkedScreen(found.screen);
  memory.mock = checkedMock(found.mock);
  if (Number.isSafeInteger(found.length)) memory.length = count(found.length);
  memory.sitting = isRecord(found.sitting) ? checkedSitting(found.sitting) : null;
  if (Array.isArray(found.topics)) memory.topics = found.topics.filter((topic) => typeof topic === "string");
  const kinds = Object.entries(found.kinds);
  memory.kinds = Object.fromEntries(kinds.map(([name, kind]) => [name, checkedKind(isRecord(kind) ? kind : {})]));
  if (isRecord(found.now) && isStage(found.now.stage)) {
    const { kind, stage, variant, rule, helped } = found.now;
    const { done, at, draft } = found.now;
    memory.now = { kind: text(kind), stage, variant: count(variant), rule: rule === true, helped: helped === true,
      done: checkedDone(isRecord(done) ? done : {}), at: text(at), draft: text(draft) };
  }
  return memory;
}

/** @param {Record<string, unknown>} found @returns {Plan | null} */
function checkedPlan({ made, test, topics, levels, exercises }) {
  const list = (/** @type {unknown} */ from) => (Array.isArray(from) ? from.slice(0, 1000) : []);
  const words = (/** @type {unknown} */ from) => list(from).filter((one) => typeof one === "string");
  const day = count(test);
  if (!day || day > LAST_DAY) return null;
  return { made: Math.min(count(made), day), test: day, topics: words(topics), levels: list(levels).filter(Number.isSafeInteger), exercises: words(exercises) };
}

/** @param {unknown} found @returns {Memory["days"]} */
function checkedDays(found) {
  const days = (Array.isArray(found) ? found.filter(isRecord) : []).slice(-MOST_DAYS);
  const read = days.map(({ day, done, right }) => ({ day: count(day), done: count(done), right: count(right) }));
  return read.filter(({ day }) => day > 0 && day <= LAST_DAY);
}

/** @param {Record<string, unknown>} found @returns {Sitting} */
function checkedSitting(found) {
  const list = (/** @type {unknown} */ from) => (Array.isArray(from) ? from.slice(-200) : []);
  const slips = list(found.slips).filter(isRecord).map(({ kind, says }) => ({ kind: text(kind), says: text(says) }));
  const clean = list(found.clean).filter((kind) => typeof kind === "string");
  return { of: count(found.of), day: count(found.day), done: count(found.done), clean, slips };
}

/** @param {Record<string, unknown>} found @returns {KindMemory} */
function checkedKind(found) {
  const kind = freshKind();
  if (isStage(found.stage)) kind.stage = found.stage;
  for (const name of /** @type {const} */ (["seen", "failed", "turn", "begun", "last", "often"])) kind[name] = count(found[name]);
  kind.open = text(found.open);
  if (Array.isArray(found.rights)) kind.rights = found.rights.filter(Number.isSafeInteger).slice(-12);
  for (const [part, slip] of Object.entries(isRecord(found.slips) ? found.slips : {})) {
    if (!isRecord(slip) || !Number.isSafeInteger(slip.due)) continue;
    const step = Math.min(count(slip.step), RETURNS.length - 1);
    kind.slips[part] = { step, due: Number(slip.due), says: text(slip.says), line: count(slip.line) };
  }
  return kind;
}

/**
 * Two memories put together: of each kind the one that came oftener, so that loading a file loses nothing newer.
 * @param {Memory} one @param {Memory} other @returns {Memory}
 */
export function joined(one, other) {
  const kinds = { ...one.kinds };
  for (const [name, kind] of Object.entries(other.kinds)) {
    if (!kinds[name] || kind.seen > kinds[name].seen) kinds[name] = kind;
  }
  const [turn, alone] = [Math.max(one.turn, other.turn), Math.max(one.alone, other.alone)];
  return { ...one, turn, alone, kinds, now: null, name: one.name || other.name, plan: one.plan ?? other.plan, days: joinedDays(one.days, other.days) };
}

/** Of each day the fuller count. @param {Memory["days"]} one @param {Memory["days"]} other */
function joinedDays(one, other) {
  const fuller = new Map(one.map((day) => [day.day, day]));
  for (const day of other) if (day.done > (fuller.get(day.day)?.done ?? 0)) fuller.set(day.day, day);
  return [...fuller.values()].sort((first, second) => first.day - second.day);
}

/** @param {Record<string, unknown>} found */
function checkedDone(found) {
  return Object.fromEntries(Object.entries(found).filter(([, how]) => STATES.includes(text(how))).map(([part, how]) => [part, text(how)]));
}

/** @param {unknown} found @returns {found is Record<string, unknown>} */
const isRecord = (found) => typeof found === "object" && found !== null && !Array.isArray(found);
/** @param {unknown} found @returns {found is KindMemory["stage"]} */
const isStage = (found) => found === "worked" || found === "part" || found === "alone";
/** @param {unknown} found */
const count = (found) => (Number.isSafeInteger(found) && Number(found) >= 0 ? Number(found) : 0);
/** @param {unknown} found */
const text = (found) => (typeof found === "string" ? found.slice(0, 400) : "");
