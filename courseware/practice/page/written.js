// What a learner typed as a figure: read exactly, in the part's own unit, by the same rules as marking. Never guessed.

import { exact, fraction, notAbove, plus, same, shared, times } from "./figures.js";
import { ownUnit, unitNamed } from "./units.js";

/**
 * What was read. `figures` are in the part's unit: two where a comma could be either, one else, or none; `bare` are
 * those figures without their unit, `decimals` the decimals typed, `places` those in the part's unit.
 * @typedef {{reading: "blank"|"not reached"|"figure"|"wrong unit"|"person", figures: import("./figures.js").Fraction[],
 *   bare: import("./figures.js").Fraction[], decimals: number, places: number, why: string}} Written
 */

const LONGEST = 60; // characters: a longer one is not a figure
const FULL_WIDTH = /[\uff10-\uff19\uff0e\uff0c\uff0b\uff0d\uff0f\uff05]/g; // figures and . , + - / %
const UNREACHED = ["nr", "n.r.", "n.r", "not reached"];
const VULGAR = {
  "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5",
  "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
};
const FIGURE = new RegExp(
  "^(?<sign>[-+−–]?) ?(?:" +
    `(?:(?<whole>[0-9]+) ?)?(?<vulgar>[${Object.keys(VULGAR).join("")}])` +
    "|(?:(?<mixed>[0-9]+) )?(?<over>[0-9]+)/(?<under>[0-9]+)" +
    "|(?<plain>[0-9.,]*[0-9](?: [0-9]{3})*(?:[.,][0-9]+)?)" +
    ") ?(?<unit>[^0-9\\s.,+−–-][^0-9]*[23]?)?$",
);
const BY_SPACES = /^[0-9]{1,3}(?: [0-9]{3})+(?:[.,][0-9]+)?$/;
const BY_COMMAS = /^(?:[0-9]{1,3}(?:,[0-9]{3})+\.[0-9]+|[0-9]{1,3}(?:,[0-9]{3}){2,})$/;
const BY_POINTS = /^[0-9]{1,3}(?:\.[0-9]{3})+,[0-9]+$/;
const DECIMAL = /^[0-9]*[.,]?[0-9]+$/;
const WHICH = /\b(?:which|what) (?:is the (?:first|last|next) )?(?<noun>[a-z]{4,})/;
const NUMBERED = /^(?:the )?(?:(?<before>[a-z]+) )?(?<figure>[0-9]{1,4})(?<ending>st|nd|rd|th)?(?: (?<after>[a-z]+))?$/;
const WAYS = ["long", "wide", "high", "deep", "thick", "tall", "apart", "above", "below"];
const EITHER = /^[1-9][0-9]{0,2},[0-9]{3}$/;

/**
 * What stands in the field of a part whose printed unit is `unit`; words of its own question, `ask`, may stand by.
 * @param {string} typed @param {string} unit @param {string} ask @returns {Written}
 */
export function readFigure(typed, unit, ask = "") {
  const narrow = (/** @type {string} */ character) => String.fromCharCode(character.charCodeAt(0) - 0xfee0);
  const plain = typed.replaceAll("\u2044", "/").replace(FULL_WIDTH, narrow);
  let text = plain.trim().split(/\s+/).join(" ");
  if (!text) return unread("blank");
  if (UNREACHED.includes(text.toLowerCase())) return unread("not reached");
  if ([...text].length > LONGEST) return unread("person", "it is too long for a figure");
  if (text.endsWith(".") && !text.endsWith("..")) text = text.slice(0, -1).trimEnd();
  const found = FIGURE.exec(withoutAsked(text, unit, ask.toLowerCase()))?.groups;
  const read = found && values(found);
  if (!found || !read) return unread("person", "it does not read as one figure");
  const negative = ["-", "−", "–"].includes(found.sign);
  const figures = negative ? read.figures.map((figure) => fraction(-figure.n, figure.d)) : read.figures;
  return inUnit(figures, read.decimals, (found.unit ?? "").trim(), unit);
}

/**
 * `course 24` and `24th` where a course is asked for, `6 bricks long` where "how many bricks long": the figure alone.
 * @param {string} text @param {string} unit @param {string} ask
 */
function withoutAsked(text, unit, ask) {
  const words = text.toLowerCase();
  if (unit) {
    const at = words.lastIndexOf(" ");
    const way = words.slice(at + 1);
    const asked = at > 0 && WAYS.includes(way) && new RegExp(`\\bhow (?:far |many [a-z]+ )?${way}\\b`).test(ask);
    return asked ? text.slice(0, at) : text;
  }
  const [noun, found] = [WHICH.exec(ask)?.groups?.noun, NUMBERED.exec(words)?.groups];
  if (!noun || !found || (found.before && found.after)) return text;
  const known = [undefined, noun].includes(found.before ?? found.after) && [undefined, ending(Number(found.figure))].includes(found.ending);
  return known ? found.figure : text;
}

/** What an ordinal ends with: 21st, 112th. @param {number} number */
function ending(number) {
  if ([11, 12, 13].includes(number % 100)) return "th";
  return ["th", "st", "nd", "rd"][number % 10] ?? "th";
}

/**
 * The one figure meant: of two, that which alone lies within a factor of ten of the answer; else null. `known` are
 * figures that a learner may well have come to: where the other reading is one of them, either may be meant.
 * @param {Written} written @param {import("./figures.js").Fraction} expected
 * @param {import("./figures.js").Fraction[]} known
 */
export function settled(written, expected, known = []) {
  if (written.figures.length === 1) return written.figures[0];
  const ten = fraction(10n);
  const near = written.figures.filter(
    (figure) => notAbove(expected, times(ten, figure)) && notAbove(figure, times(ten, expected)),
  );
  const others = written.figures.filter((figure) => !near.includes(figure));
  const either = others.some((figure) => known.some((other) => same(figure, other)));
  return near.length === 1 && !either ? near[0] : null;
}

/** @param {Written["reading"]} reading @param {string} why @returns {Written} */
function unread(reading, why = "") {
  return { reading, figures: [], bare: [], decimals: 0, places: 0, why };
}

/**
 * @param {import("./figures.js").Fraction[]} figures @param {number} decimals @param {string} named @param {string} own
 * @returns {Written}
 */
function inUnit(figures, decimals, named, own) {
  const bare = figures;
  if (!named) return { reading: "figure", figures, bare, decimals, places: decimals, why: "" };
  const [written, wanted] = [unitNamed(named, own), ownUnit(own)];
  if (!written) return unread("person", `the unit “${named}” is not known here`);
  if (written.measures !== wanted.measures) {
    return { reading: "wrong unit", figures, bare, decimals, places: decimals, why: "" };
  }
  const factor = shared(written.size, wanted.size);
  const changed = figures.map((figure) => times(figure, factor));
  return { reading: "figure", figures: changed, bare, decimals, places: placesIn(factor, decimals), why: "" };
}

/**
 * How many decimals a figure has once its unit is changed: 0.910 m has none in mm, 12537 mm has three in m.
 * @param {import("./figures.js").Fraction} factor @param {number} decimals
 */
function placesIn(factor, decimals) {
  const scaled = (/** @type {number} */ power) =>
    power >= 0 ? times(factor, fraction(10n ** BigInt(power))) : times(factor, fraction(1n, 10n ** BigInt(-power)));
  const one = fraction(1n);
  let places = decimals;
  while (!notAbove(scaled(decimals - places), one) && places > 0) places -= 1;
  while (!notAbove(one, scaled(places - decimals))) places += 1;
  return places;
}

/**
 * The figure, or both where a comma could be either; null where it is none.
 * @param {Record<string, string | undefined>} found
 * @returns {{figures: import("./figures.js").Fraction[], decimals: number} | null}
 */
function values({ whole, vulgar, mixed, over, under, plain }) {
  if (vulgar) {
    const part = exact(VULGAR[/** @type {keyof typeof VULGAR} */ (vulgar)]);
    return { figures: [plus(exact(whole ?? "0"), part)], decimals: 0 };
  }
  if (!under) return plainFigure(plain ?? "");
  if (!BigInt(under)) return null;
  return { figures: [plus(exact(mixed ?? "0"), exact(`${over}/${under}`))], decimals: 0 };
}

/** @param {string} typed */
function plainFigure(typed) {
  if (EITHER.test(typed)) return { figures: [exact(typed.replace(",", "")), exact(typed.replace(",", "."))], decimals: 3 };
  let text = typed;
  if (BY_SPACES.test(text)) text = text.replaceAll(" ", "");
  else if (BY_COMMAS.test(text)) text = text.replaceAll(",", "");
  else if (BY_POINTS.test(text)) text = text.replaceAll(".", "");
  if (!DECIMAL.test(text)) return null;
  text = text.replace(",", ".");
  return { figures: [exact(text)], decimals: (text.split(".")[1] ?? "").length };
}
