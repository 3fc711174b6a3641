// A sitting: so many questions answered, then an end that says what went right, the slip to watch, and when to come back.

import { dayInWords } from "./elements.js";
import { isDue } from "./memory.js";

/** @typedef {import("./memory.js").Memory} Memory @typedef {import("./memory.js").Sitting} Sitting */

export const LENGTHS = [10, 5, 0]; // questions; 0 goes on until the learner stops

/** @param {number} of how many questions @param {number} today @returns {Sitting} */
export function freshSitting(of, today) {
  return { of, day: today, done: 0, clean: [], slips: [] };
}

/** Whether its last question has been answered. @param {Sitting} sitting */
export const isOver = (sitting) => sitting.of > 0 && sitting.done >= sitting.of;

/** The sitting that a question is asked in: one that is over, or of another day, gives way to a new one. @param {Memory} memory @param {number} today */
export function sittingFor(memory, today) {
  const { sitting } = memory;
  return sitting && sitting.day === today && !isOver(sitting) ? sitting : freshSitting(memory.length, today);
}

/** A question answered; a worked example is none. @param {Sitting} sitting @param {string} kind @param {boolean} clean right without help */
export function countAnswered(sitting, kind, clean) {
  sitting.done += 1;
  if (clean) sitting.clean.push(kind);
}

/** A slip made in it. @param {Sitting} sitting @param {string} kind @param {string} says what it was, '' where it is not known */
export function countSlip(sitting, kind, says) {
  sitting.slips.push({ kind, says });
}

/**
 * The slip to watch: the one made oftenest, of those as often the last; a named one before one that is not known.
 * @param {Sitting} sitting
 */
export function slipToWatch({ slips }) {
  const times = (/** @type {{kind: string, says: string}} */ slip) =>
    slips.filter((other) => (slip.says ? other.says === slip.says : other.kind === slip.kind && !other.says)).length;
  const weight = (/** @type {{kind: string, says: string}} */ slip) => (slip.says ? 1000 : 0) + times(slip);
  return slips.reduce(
    (/** @type {{kind: string, says: string} | null} */ found, slip) => (!found || weight(slip) >= weight(found) ? slip : found),
    null,
  );
}

/** When to come back, as a sentence: the day of the next return, and tomorrow where nothing waits. @param {Memory} memory @param {number} today */
export function whenToComeBack(memory, today) {
  const slips = Object.values(memory.kinds).flatMap((kind) => Object.values(kind.slips));
  if (slips.some((slip) => isDue(slip, today))) return "Some steps still come back today: go on now, or later today.";
  const next = Math.min(...slips.map((slip) => slip.due));
  if (next === today + 1) return "Come back tomorrow: what went wrong is asked again then.";
  const when = slips.length ? ` What went wrong is asked again on ${dayInWords(next)}.` : "";
  return `Come back tomorrow: a little on most days holds better than much on one.${when}`;
}
