// What a saved practice is as a file: who, the days, what was practised, the memory to go on with, and a seal over all of it.

import { isoDay } from "./elements.js";
import { checkedMemory, isSecure } from "./memory.js";

/** @typedef {import("./memory.js").Memory} Memory @typedef {import("./choose.js").Kind} Kind */

const FORM = "courseware-practice";
const VERSION = 2;
const POLYNOMIAL = 0xedb88320; // CRC-32, as PNG has it (ISO/IEC 15948, annex D)

/**
 * The file's text. The tutor's sheet goes by `days` and `practised`; the page itself goes on with `memory`.
 * @param {Memory} memory @param {Kind[]} kinds @param {string} title @param {number} today
 */
export function savedText(memory, kinds, title, today) {
  const saved = {
    form: FORM,
    version: VERSION,
    title,
    name: memory.name,
    saved: isoDay(today),
    days: memory.days.map(({ day, done, right }) => ({ day: isoDay(day), questions: done, right })),
    practised: kinds.filter((kind) => memory.kinds[kind.key]).map((kind) => practised(kind, memory.kinds[kind.key])),
    memory,
  };
  return JSON.stringify({ ...saved, seal: sealOf(saved) }, null, 1);
}

/** @param {Kind} kind @param {import("./memory.js").KindMemory} own */
function practised({ topic, title, level }, own) {
  const slips = Object.values(own.slips).map(({ says }) => says);
  return { topic, exercise: title, level, questions: own.seen, secure: isSecure(own), slips };
}

/** The memory in a saved file; null where it is none. @param {string} text @returns {Memory | null} */
export function checkedSave(text) {
  try {
    const found = JSON.parse(text);
    return found?.form === FORM && [1, VERSION].includes(found.version) ? checkedMemory(found.memory) : null;
  } catch {
    return null;
  }
}

/** A name for the file: the learner's own in plain letters. @param {string} name */
export function fileName(name) {
  const plain = name.normalize("NFKD").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 32);
  return `practice${plain ? `-${plain}` : ""}.json`;
}

/**
 * The check figure of what is saved, over its JSON in ASCII: it tells a file that was changed, not who changed it.
 * @param {object} saved
 */
export function sealOf(saved) {
  const escaped = (/** @type {string} */ character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`;
  return checkFigure(JSON.stringify(saved).replace(/[\u007f-\uffff]/g, escaped));
}

/** CRC-32 of ASCII text, in eight hexadecimal figures. @param {string} text */
export function checkFigure(text) {
  let sum = ~0;
  for (let place = 0; place < text.length; place += 1) {
    sum ^= text.charCodeAt(place);
    for (let bit = 0; bit < 8; bit += 1) sum = (sum >>> 1) ^ (sum & 1 ? POLYNOMIAL : 0);
  }
  return (~sum >>> 0).toString(16).padStart(8, "0");
}
