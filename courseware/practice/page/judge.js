// How an answer is judged: the rules of marking, in their order, without what needs other papers or carried figures.
// Nothing is carried on a practice page: each part is settled, and its right figure shown, before the next is asked.

import { cutOff, ends, exact, exactText, fraction, halfUp, minus, notAbove, plus, same, shared, size, times } from "./figures.js";
import { sumTyped } from "./sums.js";
import { readFigure, settled } from "./written.js";

/**
 * A number part, or a row of a table, as the page holds it: exact figures as text.
 * @typedef {{right: string, exact?: string, before?: string, within?: string, places?: number, unit?: string, ask?: string,
 *   slips?: {right: string, says: string}[], accepts?: {right: string, says: string}[]}} NumberAsked
 * @typedef {{how: string, slips?: string[], why?: string, value?: import("./figures.js").Fraction,
 *   sum?: string, earns?: number}} Verdict `sum` is what the learner worked out in the field, `earns` the marks of what is
 *   right in part
 */

const LEAST_PLACES = 2; // a figure without end may be written to so many decimals
const ENDLESS = 60; // as many decimals as a cell has characters
const UNREAD = "That cannot be taken as your answer: ";
const NO_FIGURE = "no figure is written yet.";
const EITHER_COMMA = "the comma may mean thousands or a decimal. Write the figure without it, or with a point.";

/**
 * What was typed into a number field. `how` is a word of marking; `asked` and `blank` use up no try.
 * @param {string} typed @param {NumberAsked} asked @returns {Verdict}
 */
export function judgeTyped(typed, asked) {
  const written = readFigure(typed, asked.unit ?? "", asked.ask);
  const sum = written.reading === "person" ? sumTyped(typed) : null;
  if (sum) return judgeSum(sum, asked);
  if (written.reading === "blank") return { how: "blank" };
  if (written.reading === "person") return { how: "asked", why: `${UNREAD}${written.why}.` };
  if (written.reading === "not reached") return { how: "asked", why: UNREAD + NO_FIGURE };
  const known = [...(asked.slips ?? []), ...(asked.accepts ?? [])].map((route) => exact(route.right));
  const value = settled(written, exact(asked.right), known);
  if (!value) return { how: "asked", why: UNREAD + EITHER_COMMA };
  return { ...judgeFigure(value, written, asked), value };
}

/** A sum by what it comes to: exactly, else as it would have been typed. @param {import("./sums.js").Sum} sum @param {NumberAsked} asked @returns {Verdict} */
function judgeSum({ value, figure, shown, unit }, asked) {
  if (!unit && inBand(value, exact(asked.right), exact(asked.within ?? "0"))) return { how: "right", value, sum: shown };
  const verdict = judgeTyped(`${figure} ${unit}`, asked);
  if (verdict.how === "asked") return verdict;
  return { ...verdict, value: unit ? verdict.value : value, sum: shown };
}

/**
 * The first of the marking rules that fits; `value` is the figure meant, in the part's unit.
 * @param {import("./figures.js").Fraction} value @param {import("./written.js").Written} written
 * @param {NumberAsked} asked @returns {Verdict}
 */
function judgeFigure(value, written, asked) {
  const own = worked(asked);
  const strange = written.reading === "wrong unit";
  const places = placesOf(value, written.places);
  if (!strange) {
    if (isAnswer(value, places, own)) return { how: "right" };
    const route = (asked.accepts ?? []).find((accepted) => same(exact(accepted.right), value));
    if (route) return { how: "route", why: route.says };
    const slips = (asked.slips ?? []).filter((slip) => isSlip(value, places, exact(slip.right), own));
    if (slips.length) return { how: slips.length > 1 ? "family" : "slip", slips: slips.map((slip) => slip.says) };
  }
  const otherUnit = strange || !written.bare.some((bare) => same(bare, value));
  if (otherUnit && written.bare.some((bare) => inBand(bare, own.answer, own.within))) return { how: "unit" };
  if (strange) return { how: "unknown", why: "unit" };
  return nearly(value, places, own);
}

/** @param {NumberAsked} asked */
function worked(asked) {
  const answer = exact(asked.right);
  return {
    answer,
    exactly: asked.exact ? exact(asked.exact) : answer,
    before: asked.before ? exact(asked.before) : null,
    within: exact(asked.within ?? "0"),
    places: asked.places ?? null,
  };
}

/** @typedef {ReturnType<typeof worked>} Worked @typedef {import("./figures.js").Fraction} Figure */

/** @param {Figure} value @param {Figure} answer @param {Figure} band */
const inBand = (value, answer, band) => notAbove(minus(answer, band), value) && notAbove(value, plus(answer, band));

/** Exact, or rounded or cut off to the decimals typed. @param {Figure} value @param {number} places @param {Figure} figure */
const writtenTo = (value, places, figure) =>
  same(value, figure) || same(value, halfUp(figure, places)) || same(value, cutOff(figure, places));

/** The decimals typed; of a fraction those that say the same, or more than anybody types. @param {Figure} value @param {number} typed */
function placesOf(value, typed) {
  if (!ends(value)) return ENDLESS;
  let places = typed;
  while (10n ** BigInt(places) % value.d) places += 1;
  return places;
}

/** @param {Figure} value @param {number} places @param {Worked} own */
function isAnswer(value, places, own) {
  if (inBand(value, own.answer, own.within)) return true;
  if (own.places === null) return places >= LEAST_PLACES && !ends(own.exactly) && writtenTo(value, places, own.exactly);
  return places > own.places && writtenTo(value, places, own.exactly);
}

/** @param {Figure} value @param {number} places @param {Figure} figure @param {Worked} own */
function isSlip(value, places, figure, own) {
  if (same(value, figure)) return true;
  if (own.places !== null) return places > own.places && same(halfUp(value, own.places), figure);
  return places >= LEAST_PLACES && !ends(figure) && writtenTo(value, places, figure);
}

/** What has a fault of writing. @param {Figure} value @param {number} places @param {Worked} own @returns {Verdict} */
function nearly(value, places, own) {
  const rounding = wrongRounding(value, places, own) || roundedOtherwise(value, places, own);
  if (rounding) return { how: "rounding", why: rounding };
  if (own.answer.n && isPowerOfTen(shared(value, own.answer))) return { how: "tens" };
  const turned = fraction(-value.n, value.d);
  if (own.answer.n > 0n && inBand(turned, own.answer, own.within)) return { how: "unknown", why: "sign" };
  if (isSwapped(value, own.answer)) return { how: "swapped" };
  return { how: "unknown" };
}

/** @param {Figure} value @param {number} places @param {Worked} own */
function wrongRounding(value, places, own) {
  const wanted = own.places;
  if (same(value, own.answer) || !own.exactly.n) return "";
  const near = !notAbove(times(size(own.exactly), fraction(1n, 20n)), size(minus(value, own.exactly)));
  if (wanted === null) {
    const fewer = ends(own.exactly) && places < (exactText(own.exactly).split(".")[1] ?? "").length;
    return fewer && near && writtenTo(value, places, own.exactly) ? "further" : "";
  }
  if (same(value, cutOff(own.exactly, wanted))) return "cut";
  return places < wanted && near && same(value, halfUp(own.exactly, places)) ? "further" : "";
}

/** Not rounded to a whole number as the working is, or the other way. @param {Figure} value @param {number} places @param {Worked} own */
function roundedOtherwise(value, places, own) {
  const { before } = own;
  if (!before || same(value, own.answer)) return "";
  const down = cutOff(before, 0);
  if (same(value, down) || same(value, plus(down, fraction(1n)))) return "other";
  return places && writtenTo(value, places, before) ? "whole" : "";
}

/** @param {Figure} ratio */
function isPowerOfTen(ratio) {
  const [larger, other] = ratio.d === 1n ? [ratio.n, ratio.d] : [ratio.d, ratio.n];
  return other === 1n && /^10{1,6}$/.test(String(larger));
}

/** Two neighbouring digits changed places: 901 for 910. @param {Figure} value @param {Figure} answer */
function isSwapped(value, answer) {
  const [one, other] = [exactText(value), exactText(answer)];
  if (one.length !== other.length || one === other || one.indexOf(".") !== other.indexOf(".")) return false;
  const [typed, right] = [one.replace(".", ""), other.replace(".", "")];
  const first = [...typed].findIndex((letter, place) => letter !== right[place]);
  return typed.slice(0, first) + typed[first + 1] + typed[first] + typed.slice(first + 2) === right;
}
