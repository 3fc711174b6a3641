// A sum typed into a field, as `7*225+10`: worked out exactly, × and ÷ before + and −, and shown as the learner's working.

import { exact, exactText, fraction, halfUp, minus, plus, shared, times } from "./figures.js";

/** @typedef {import("./figures.js").Fraction} Fraction */
/**
 * A sum: what it comes to, that figure as it could have been typed (to 6 decimals where it has no end), the sum as it is
 * written in a working, and the unit after it.
 * @typedef {{value: Fraction, figure: string, shown: string, unit: string}} Sum
 */

const LONGEST_SUM = 80; // characters
const PIECE = / *([0-9]+(?:\.[0-9]+)?|\.[0-9]+|[-+−–*×x/÷:()]) */gy;
const SIGNS_TYPED = { "*": "×", x: "×", "/": "÷", ":": "÷", "-": "−", "–": "−" };
const DECIMALS_SHOWN = 6;

/** The sum in `typed`, or null where it is none: a lone figure, words, a comma, a result
 * written after it, a division by nothing. @param {string} typed @returns {Sum | null} */
export function sumTyped(typed) {
  const [left, unit] = withoutUnit(typed.trim().replace(/=$/, "").replaceAll("X", "x"));
  const pieces = left.length <= LONGEST_SUM ? piecesOf(left) : null;
  if (!pieces?.some((piece, place) => place && "+−×÷".includes(piece))) return null;
  const value = workedOut(pieces);
  if (!value) return null;
  const text = exactText(value);
  const figure = text.includes("/") ? exactText(halfUp(value, DECIMALS_SHOWN)) : text;
  return { value, figure, shown: `${sumWritten(pieces)} = ${figure}${text === figure ? "" : "…"}`, unit };
}

/** The sum and the unit after it. @param {string} text */
function withoutUnit(text) {
  const found = /^(.*[0-9)]) *([^\s0-9().+*x×÷/:−–-][^0-9()+*×÷]*[23]?)$/u.exec(text);
  return found ? [found[1], found[2].trim()] : [text, ""];
}

/** Figures, signs and brackets; null where anything else stands between. @param {string} text */
function piecesOf(text) {
  const found = [...text.matchAll(PIECE)];
  const read = found.reduce((length, piece) => length + piece[0].length, 0);
  return read === text.length ? found.map(([, piece]) => SIGNS_TYPED[/** @type {keyof typeof SIGNS_TYPED} */ (piece)] ?? piece) : null;
}

/** As in a working: spaces around signs, none inside brackets. @param {string[]} pieces */
const sumWritten = (pieces) => pieces.join(" ").replaceAll("( ", "(").replaceAll(" )", ")").replace(/(^|\(|[+−×÷] )− /g, "$1−");

/** What the pieces come to, or null where they are no whole sum. @param {string[]} pieces @returns {Fraction | null} */
function workedOut(pieces) {
  let place = 0;
  const value = terms();
  return place === pieces.length ? value : null;

  /** @returns {Fraction | null} */
  function terms() {
    let total = factors();
    while (total && (pieces[place] === "+" || pieces[place] === "−")) {
      const add = pieces[place++] === "+";
      const next = factors();
      total = next && (add ? plus(total, next) : minus(total, next));
    }
    return total;
  }

  /** @returns {Fraction | null} */
  function factors() {
    let total = one();
    while (total && (pieces[place] === "×" || pieces[place] === "÷")) {
      const multiply = pieces[place++] === "×";
      const next = one();
      if (!next || (!multiply && !next.n)) return null;
      total = multiply ? times(total, next) : shared(total, next);
    }
    return total;
  }

  /** @returns {Fraction | null} */
  function one() {
    const piece = pieces[place++];
    if (piece === "−") {
      const next = one();
      return next && minus(fraction(0n), next);
    }
    if (piece === "(") {
      const inside = terms();
      return pieces[place++] === ")" ? inside : null;
    }
    return piece !== undefined && /[0-9]/.test(piece) ? exact(piece) : null;
  }
}
