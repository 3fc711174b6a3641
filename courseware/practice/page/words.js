// What the page says about an answer: about the task, never the person.

import { exact, notAbove, shared, size } from "./figures.js";
import { kindOf } from "./part_kinds.js";

/** @typedef {import("./data.js").Part} Part @typedef {import("./judge.js").Verdict} Verdict */

const FAR = "2"; // times too large or too small: an estimate would have told

/** Whether nothing more is to be done. @param {Verdict} verdict */
export const isRight = (verdict) => verdict.how === "right" || verdict.how === "route";

/** Whether it counts as a try. @param {Verdict} verdict */
export const isTry = (verdict) => verdict.how !== "asked" && verdict.how !== "blank";

/** How an answer is to be given, as a label. @param {{unit?: string, note?: string}} asked */
export function howToAnswer(asked) {
  return ["Your answer", asked.unit && `in ${asked.unit}`, asked.note].filter(Boolean).join(", ");
}

/** What went wrong, as sentences. @param {Verdict} verdict @param {Part} part */
export function whatIsWrong(verdict, part) {
  const slips = (verdict.slips ?? []).map((says) => says.replace(/\.$/, ""));
  switch (verdict.how) {
    case "slip":
      return `${slips[0]}.`;
    case "family":
      return `One of these: ${slips.join("; or: ")}.`;
    case "unit":
      return `The figure is right, its unit is not: ${part.unit || "no unit"} is asked.`;
    case "rounding":
      return rounding(verdict.why, part.note);
    case "tens":
      return "The digits are right. The size is not: look where the point stands.";
    case "swapped":
      return "Two digits have changed places.";
    case "unknown":
      return verdict.why === "sign" ? "The figure is right but for its minus sign: the size alone is asked." : "";
    default:
      return [verdict.why, ...slips.map((says) => `${says}.`)].filter(Boolean).join(" ") || "This is not the one.";
  }
}

/**
 * The words after an answer. `line` is the line of the working to look at, `tries` how many tries this makes.
 * @param {Verdict} verdict @param {Part} part @param {string} line @param {number} tries
 */
export function feedbackWords(verdict, part, line, tries) {
  if (verdict.how === "blank") return "Nothing is written yet.";
  if (verdict.how === "asked") return verdict.why ?? "";
  if (isRight(verdict)) {
    const answer = part.answer ? ` ${part.answer}.` : "";
    const route = verdict.how === "route" ? ` Another route leads there: ${verdict.why}.` : "";
    return (tries > 1 ? "Right, at the second try." : "Right.") + answer + route;
  }
  const wrong = ["Not yet.", whatIsWrong(verdict, part)];
  if (kindOf(part).byEye) return wrong.join(" ");
  const look = line ? `The line to look at: ${line.replace(/\.$/, "")}.` : "";
  const help = look || nextBestHelp(verdict, part);
  return [...wrong, ...(tries > 1 ? ["Here is the working."] : [help, "One more try."])].filter(Boolean).join(" ");
}

/**
 * What to check first where the slip is not known: the size, the unit, the rule, else the first line of the working.
 * @param {Verdict} verdict @param {Part} part
 */
export function nextBestHelp(verdict, part) {
  if (verdict.slips?.length || !["unknown", "wrong"].includes(verdict.how)) return "";
  if (verdict.why === "unit") return `Check the unit first: ${part.unit || "no unit"} is asked.`;
  const far = verdict.value && part.right ? howFar(verdict.value, exact(part.right)) : "";
  if (far) return `Estimate first, with round figures: this is far too ${far}.`;
  if (part.rule?.length) return `Check the rule first: ${part.rule[0]}.`;
  if (!kindOf(part).opensLine) return "Hold what is left against the question's own words.";
  const line = part.working?.[0]?.say;
  return line ? `Check this step first: ${line.replace(/\.$/, "")}.` : "Read once more what is asked, and check its unit.";
}

/** `large` or `small` where a figure is more than so many times another. @param {import("./figures.js").Fraction} value @param {import("./figures.js").Fraction} right */
function howFar(value, right) {
  const far = exact(FAR);
  if (!right.n) return "";
  if (!notAbove(size(value), size({ n: right.n * far.n, d: right.d * far.d }))) return "large";
  return value.n === 0n || !notAbove(size(shared(right, value)), far) ? "small" : "";
}

/** Whether a line of the working comes to this figure, so that the next is the one left undone. @param {Part} part @param {string} figure */
export const isReached = (part, figure) => (part.working ?? []).some((line) => line.right === figure);

/**
 * The line of the working after the last that comes to this figure: what was left undone. Else the last.
 * @param {Part} part @param {string} figure exact text
 */
export function lineAfter(part, figure) {
  const lines = part.working ?? [];
  const reached = lines.map((line) => line.right === figure).lastIndexOf(true);
  const next = lines.findIndex((line, place) => place > reached && line.right !== undefined);
  return reached >= 0 && next >= 0 ? next : Math.max(lines.length - 1, 0);
}

/** What was wrong with the rounding. @param {string | undefined} why @param {string | undefined} note */
function rounding(why, note) {
  if (why === "other") return "The figure is rounded the other way.";
  if (why === "whole") return "The figure is still to be rounded to a whole number.";
  if (why === "cut") return `The figure is cut off. It is to be rounded, ${note}.`;
  return note ? `The figure is rounded further than asked: ${note}.` : "The figure is rounded. The exact one is asked.";
}
