// Which question comes next. A turn is one kind of question: new to the learner, a worked example, one with a step
// left open, one alone; else one alone, and after a slip a fresh one of the same kind. Two turns never have the same
// rule, and topics change from turn to turn where more than one is chosen.

import { freshKind, hasDue, isSecure, rests } from "./memory.js";

/**
 * A kind of question in the page's index. `key` is its topic and exercise, `rule` what it mainly practises,
 * `asks` whether a part of it has a rule to ask for.
 * @typedef {{key: string, topic: string, exercise: string, title: string, level: number, variants: number,
 *   parts: string[], rule: string, asks: boolean, place: number}} Kind
 * @typedef {import("./memory.js").Memory} Memory @typedef {import("./memory.js").Now} Now
 */

const AT_WORK = 3; // kinds begun and not resting, before a new one is begun
const MOST_IN_TURN = 6; // questions: then another kind comes, and this one again later
const RULE_AFTER = 2; // questions alone, then the next that has a rule begins with it
const FAILED_TWICE = 2; // part-worked questions in a row: then an example again

/**
 * The next question; `memory` is changed to say so. Null where there is no kind at all.
 * @param {Memory} memory @param {Kind[]} kinds those of the topics chosen @param {number} today @returns {Now | null}
 */
export function chooseNext(memory, kinds, today) {
  const going = kinds.find((kind) => kind.key === memory.last);
  const goesOn = going && memory.round > 0 && memory.round < MOST_IN_TURN;
  const kind = goesOn ? going : nextKind(memory, kinds, today);
  return kind ? askKind(memory, kind, today, Boolean(goesOn)) : null;
}

/**
 * A question of the kind that the learner picked: the one they are at, where it is of that kind, else a new turn of it.
 * @param {Memory} memory @param {Kind} kind @param {number} today
 */
export function pickKind(memory, kind, today) {
  if (memory.now?.kind !== kind.key) askKind(memory, kind, today, false);
}

/** @param {Memory} memory @param {Kind} kind @param {number} today @param {boolean} goesOn whether its turn goes on @returns {Now} */
function askKind(memory, kind, today, goesOn) {
  memory.turn += goesOn ? 0 : 1;
  memory.round = goesOn ? memory.round + 1 : 1;
  memory.last = kind.key;
  memory.kinds[kind.key] ??= freshKind();
  const own = memory.kinds[kind.key];
  if (!goesOn && hasDue(own, today)) own.stage = "alone";
  const rule = own.stage === "alone" && kind.asks && memory.alone >= RULE_AFTER;
  if (own.stage === "alone") memory.alone = rule ? 0 : memory.alone + 1;
  memory.now = { kind: kind.key, stage: own.stage, variant: (memory.start + own.seen) % kind.variants, rule, helped: false,
    done: {}, at: "", draft: "" };
  own.seen += 1;
  own.turn = memory.turn;
  return memory.now;
}

/**
 * What a question was like, once it is done: sets the stage of its kind's next, and whether the turn is over.
 * @param {Memory} memory @param {Now} now the question @param {boolean} clean right in all parts, without help
 */
export function finishQuestion(memory, now, clean) {
  const own = (memory.kinds[now.kind] ??= freshKind());
  const stage = now.stage;
  own.failed = stage === "part" && !clean ? own.failed + 1 : 0;
  if (stage === "worked") own.stage = "part";
  else if (clean) own.stage = "alone";
  else own.stage = own.failed >= FAILED_TWICE ? "worked" : "part";
  if (stage === "alone" && clean) memory.round = 0;
  memory.now = null;
}

/**
 * The kind of a new turn: one with a slip that is due; else, once enough are at work, the one not seen for longest;
 * else a new one; else any again.
 * @param {Memory} memory @param {Kind[]} kinds @param {number} today @returns {Kind | undefined}
 */
function nextKind(memory, kinds, today) {
  const last = kinds.find((kind) => kind.key === memory.last);
  const free = withoutLast(kinds, last);
  const own = (/** @type {Kind} */ kind) => memory.kinds[kind.key];
  const longestAgo = (/** @type {Kind[]} */ found) => least(otherTopic(found, last), (kind) => own(kind).turn);
  const begun = free.filter(own);
  const fresh = free.filter((kind) => !own(kind));
  const isAtWork = (/** @type {Kind} */ kind) => own(kind) && !isSecure(own(kind)) && !rests(own(kind), today);
  const enough = kinds.filter(isAtWork).length >= AT_WORK || !fresh.length;
  return (
    longestAgo(begun.filter((kind) => hasDue(own(kind), today))) ??
    (enough ? longestAgo(begun.filter(isAtWork)) : undefined) ??
    firstOf(memory, otherTopic(fresh, last)) ??
    longestAgo(begun)
  );
}

/** Kinds that do not repeat the last one's rule; where that leaves none, all but itself. @param {Kind[]} kinds @param {Kind | undefined} last */
function withoutLast(kinds, last) {
  const otherRule = kinds.filter((kind) => kind.rule !== last?.rule);
  if (!last || otherRule.length) return last ? otherRule : kinds;
  return kinds.length > 1 ? kinds.filter((kind) => kind !== last) : kinds;
}

/** Those of another topic, where there are any. @param {Kind[]} kinds @param {Kind | undefined} last */
function otherTopic(kinds, last) {
  const others = kinds.filter((kind) => kind.topic !== last?.topic);
  return others.length ? others : kinds;
}

/** A new kind: of the topic least begun, the easiest first. @param {Memory} memory @param {Kind[]} fresh */
function firstOf(memory, fresh) {
  const begunIn = (/** @type {string} */ topic) =>
    Object.keys(memory.kinds).filter((key) => key.startsWith(`${topic}/`)).length;
  return least(fresh, (kind) => begunIn(kind.topic) * 1e6 + kind.level * 1e4 + kind.place);
}

/** @template T @param {T[]} items @param {(item: T) => number} by @returns {T | undefined} */
function least(items, by) {
  return items.reduce(
    (/** @type {T | undefined} */ found, item) => (found === undefined || by(item) < by(found) ? item : found),
    undefined,
  );
}
