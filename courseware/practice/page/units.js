// Which units a learner may write, what they measure, and how one becomes another: the same list as in marking.

import { exact, fraction } from "./figures.js";

/** @typedef {{measures: string, size: import("./figures.js").Fraction}} Unit */

/** What is measured: how many of its first unit, and the names, in small letters. */
const UNIT_NAMES = {
  length: {
    1: ["mm", "millimetre", "millimetres", "millimeter", "millimeters", "mil", "mils"],
    10: ["cm", "centimetre", "centimetres", "centimeter", "centimeters"],
    1000: ["m", "metre", "metres", "meter", "meters"],
    25.4: ["in", "inch", "inches", '"', "″"],
  },
  area: {
    1: ["mm²", "mm2", "mm^2", "sq mm", "sqmm", "square millimetres"],
    100: ["cm²", "cm2", "cm^2", "sq cm", "sqcm"],
    1000000: ["m²", "m2", "m^2", "sq m", "sqm", "square metre", "square metres", "square meters"],
  },
  volume: {
    1: ["mm³", "mm3", "mm^3"],
    1000000: ["l", "litre", "litres", "liter", "liters"],
    1000000000: ["m³", "m3", "m^3", "cum", "cu m", "cubic metre", "cubic metres", "cubic meters"],
  },
  mass: {
    1: ["g", "gram", "grams"],
    1000: ["kg", "kilo", "kilos", "kilogram", "kilograms"],
    1000000: ["t", "tonne", "tonnes"],
  },
  angle: { 1: ["°", "deg", "degs", "degree", "degrees"] },
  time: { 1: ["min", "mins", "minute", "minutes"], 60: ["h", "hr", "hrs", "hour", "hours"] },
  share: { 1: ["%", "per cent", "percent"] },
  money: { 1: ["p", "pence"] },
  loudness: { 1: ["db", "db(a)", "dba"] },
};
const UNITS = new Map(
  Object.entries(UNIT_NAMES).flatMap(([measures, sizes]) =>
    Object.entries(sizes).flatMap(([size, names]) =>
      names.map((name) => /** @type {[string, Unit]} */ ([name, { measures, size: exact(size) }])),
    ),
  ),
);
const COUNTED = ["no", "nos", "nr", "off"]; // "60 no.": how a bill of quantities counts
const TOO_SHORT = ["M", "G", "T", "L", "H", "P"]; // a lone capital may mean something else

/**
 * The unit that `text` names in an answer whose printed unit is `own`, or null where it is not known.
 * @param {string} text @param {string} own @returns {Unit | null}
 */
export function unitNamed(text, own) {
  if (TOO_SHORT.includes(text)) return null;
  const name = text.toLowerCase().split(/\s+/).join(" ");
  const printed = own.toLowerCase();
  const counts = COUNTED.includes(name) && printed !== "" && !UNITS.has(printed);
  if ((printed && withoutS(name) === withoutS(printed)) || counts) return ownUnit(own);
  return UNITS.get(name) ?? null;
}

/**
 * The printed unit itself; one that is in no table counts things.
 * @param {string} own @returns {Unit}
 */
export function ownUnit(own) {
  return UNITS.get(own.toLowerCase()) ?? { measures: own, size: fraction(1n) };
}

/**
 * The short names to write this unit or one like it: `mm` and `m` for a length in mm.
 * @param {string} own
 */
export function keysFor(own) {
  if (!own) return [];
  const beside = { mm: ["m"], m: ["mm"], "m²": ["mm²"], "mm²": ["m²"] };
  return [own, ...(beside[/** @type {keyof typeof beside} */ (own)] ?? [])];
}

/** @param {string} name */
const withoutS = (name) => name.replace(/s$/, "");
