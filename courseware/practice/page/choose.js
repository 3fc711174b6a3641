// Which question comes next. A turn is one kind of question: new to the learner, a worked example, one with a step
// left open, one alone; else one alone, and after a slip a fresh one of the same kind. Two turns never have the same
// rule, and topics change from turn to turn where more than one is chosen. Levels mix as the learner grows: a level opens
// in a topic once the one below has gone well, and of the levels that are open the one begun least comes next.

import { freshKind, hasDue, isSecure, rests } from "./memory.js";
import { freshLeft, isRipe, isRunning } from "./plan.js";

/**
 * A kind of question in the page's index. `key` is its topic and exercise, `rule` what it mainly practises,
 * `asks` whether a part of it has a rule to ask for.
 * @typedef {{key: string, topic: string, exercise: string, title: string, level: number, variants: number, marks: number,
 *   parts: string[], rule: string, asks: boolean, place: number}} Kind
 * @typedef {import("./memory.js").Memory} Memory @typedef {import("./memory.js").Now} Now
 */

const AT_WORK = 3; // kinds begun and not resting, before a new one is begun
const MOST_IN_TURN = 5; // questions: then another kind comes, and this one again later
const RULE_AFTER = 2; // questions alone, then the next that is secure and has a rule begins with it
const MANY_DUE = 4; // kinds with something to return: then one turn in so many is not for them, so that the learner goes on too
const DUE_TURNS = 3;
const OPENS = 2; // exercises of a level right alone open the next of their topic
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
  const mayAsk = own.stage === "alone" && kind.asks && memory.rules && isSecure(own);
  const rule = mayAsk && memory.alone >= RULE_AFTER;
  if (mayAsk) memory.alone = rule ? 0 : memory.alone + 1;
  memory.now = { kind: kind.key, stage: own.stage, variant: (memory.start + own.seen) % kind.variants, rule, helped: false,
    done: {}, at: "", draft: "" };
  own.seen += 1;
  own.begun ||= today;
  own.often = own.last === today ? own.often + 1 : 1;
  own.last = today;
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
 * The kind of a new turn: mostly one with a slip that is due; else, once enough are at work, the one not seen for longest;
 * else a new one; else any again. With a plan, every other turn is for one that has rested long enough, and a day has
 * its share of new ones.
 * @param {Memory} memory @param {Kind[]} kinds @param {number} today @returns {Kind | undefined}
 */
function nextKind(memory, kinds, today) {
  const last = kinds.find((kind) => kind.key === memory.last);
  const free = withoutLast(kinds, last);
  const plan = isRunning(memory.plan, today) ? memory.plan : null;
  const own = (/** @type {Kind} */ kind) => memory.kinds[kind.key];
  const longestAgo = (/** @type {Kind[]} */ found) => least(otherTopic(found, last), (kind) => own(kind).turn);
  const begun = free.filter(own);
  const left = free.filter((kind) => !own(kind));
  const fresh = plan && !freshLeft(plan, memory, kinds, today) ? [] : left;
  const isAtWork = (/** @type {Kind} */ kind) => own(kind) && !isSecure(own(kind)) && !rests(own(kind), today);
  const enough = kinds.filter(isAtWork).length >= AT_WORK || !fresh.length;
  const due = begun.filter((kind) => hasDue(own(kind), today) && !rests(own(kind), today));
  const isDuesTurn = due.length < MANY_DUE || memory.turn % DUE_TURNS > 0 || !fresh.length;
  const ripe = plan ? begun.filter((kind) => isRipe(plan, own(kind), today)) : [];
  return (
    (isDuesTurn ? longestAgo(due) : undefined) ??
    (memory.turn % 2 ? longestAgo(ripe) : undefined) ??
    (enough ? longestAgo(begun.filter(isAtWork)) : undefined) ??
    firstOf(memory, otherTopic(fresh, last), kinds) ??
    longestAgo(ripe) ??
    longestAgo(begun.filter((kind) => !rests(own(kind), today))) ??
    firstOf(memory, left, kinds) ??
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

/** A new kind: of the open level least begun, then of the topic least begun. @param {Memory} memory @param {Kind[]} fresh @param {Kind[]} kinds */
function firstOf(memory, fresh, kinds) {
  const begun = kinds.filter((kind) => memory.kinds[kind.key]);
  const alike = (/** @type {"topic" | "level"} */ by, /** @type {Kind} */ kind) => begun.filter((one) => one[by] === kind[by]).length;
  const open = fresh.filter((kind) => isOpen(memory, kind, kinds));
  const weight = (/** @type {Kind} */ kind) => ((alike("level", kind) * 1e3 + alike("topic", kind)) * 10 + kind.level) * 1e4 + kind.place;
  return least(open.length ? open : lowest(fresh), weight);
}

/** Those of the lowest level among them. @param {Kind[]} kinds */
function lowest(kinds) {
  const level = Math.min(...kinds.map((kind) => kind.level));
  return kinds.filter((kind) => kind.level === level);
}

/** Whether the level below it, in its topic, has gone well. @param {Memory} memory @param {Kind} kind @param {Kind[]} kinds */
function isOpen(memory, kind, kinds) {
  const below = kinds.filter((one) => one.topic === kind.topic && one.level < kind.level);
  const next = below.filter((one) => one.level === Math.max(...below.map(({ level }) => level)));
  return next.filter((one) => memory.kinds[one.key]?.rights.length).length >= Math.min(OPENS, next.length);
}

/** @template T @param {T[]} items @param {(item: T) => number} by @returns {T | undefined} */
function least(items, by) {
  return items.reduce(
    (/** @type {T | undefined} */ found, item) => (found === undefined || by(item) < by(found) ? item : found),
    undefined,
  );
}
