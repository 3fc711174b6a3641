// The words of the trade and the card of its rules: looked at over a question, which stays as it is.

import { glossaryData } from "./data.js";
import { svgOf } from "./drawing.js";
import { button, make, openDialog } from "./elements.js";

/** @typedef {import("./data.js").Glossary} Glossary */

/** The two buttons that open them, and others beside them. @param {HTMLElement[]} others */
export function lookUp(...others) {
  const words = button("Words", () => void open("Words", words, wordList));
  const card = button("Card", () => void open("Card", card, ruleList));
  return make("div", { class: "tools", "data-role": "look-up" }, words, card, ...others);
}

/** @type {RegExp | null} any word of the trade, in any form; null where there are none */
let anyWord = null;

/** @type {Map<string, string>} the words by themselves in small letters */
let spelt = new Map();

/** Sets the words that can be pressed. @param {string[]} words */
export function setWords(words) {
  spelt = new Map(words.map((word) => [word.toLocaleLowerCase(), word]));
  const longestFirst = [...words].sort((one, other) => other.length - one.length);
  const named = longestFirst.map((word) => word.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&")).join("|");
  anyWord = named ? new RegExp(`(?<![\\p{L}\\p{N}-])(${named})(?:e?s)?(?![\\p{L}\\p{N}-])`, "giu") : null;
}

/**
 * Makes the words of the trade in some elements ones to press, each where it first stands in them.
 * @param {(Element | null)[]} elements
 */
export function markWords(...elements) {
  const met = new Set();
  if (!anyWord) return;
  for (const element of elements) {
    for (const node of element ? textsIn(element) : []) node.replaceWith(...withWords(node.data, anyWord, met));
  }
}

/** An element with its words marked. @template {Element} T @param {T} element */
export function withMarkedWords(element) {
  markWords(element);
  return element;
}

/**
 * The words of the trade that stand in labels, where no button may stand, to press below them; "" where there are none.
 * Of a field's label, those that cannot be pressed elsewhere in the question. @param {Element} element what holds the labels
 */
export function wordsOfLabels(element) {
  const there = [...document.querySelectorAll("main .word")].map((word) => word.textContent?.toLocaleLowerCase() ?? "");
  const isWanted = (/** @type {Element} */ label, /** @type {string} */ word) => label.matches(".tick") || !there.some((one) => one.startsWith(word));
  const found = [...element.querySelectorAll("label")].flatMap((label) => wordsIn(label).filter((word) => isWanted(label, word)));
  const words = [...new Set(found)].map((word) => wordButton(spelt.get(word) ?? word, word));
  return words.length ? make("div", { role: "group", "aria-label": "Words here", "data-role": "words-here" }, make("span", { "aria-hidden": "true" }, "Words here:"), ...words) : "";
}

/** The words of the trade in an element, in small letters. @param {Element} element */
function wordsIn(element) {
  return anyWord ? [...(element.textContent ?? "").matchAll(anyWord)].map(([, word]) => word.toLocaleLowerCase()) : [];
}

/** A word to press. @param {string} shown @param {string} word in small letters @param {Record<string, string>} more */
function wordButton(shown, word, more = {}) {
  const press = button(shown, () => void open(spelt.get(word) ?? shown, press, (glossary) => oneWord(glossary, word)), more);
  return press;
}

/** The texts in an element that are seen and not in a button or label. @param {Element} element @returns {Text[]} */
function textsIn(element) {
  const walker = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
  const found = [];
  while (walker.nextNode()) found.push(/** @type {Text} */ (walker.currentNode));
  return found.filter((node) => !node.parentElement?.closest("button, label, summary, .label, [aria-hidden=true]"));
}

/** @param {string} text @param {RegExp} any @param {Set<string>} met */
function withWords(text, any, met) {
  const pieces = [];
  let end = 0;
  for (const found of text.matchAll(any)) {
    const word = found[1].toLocaleLowerCase();
    if (met.has(word)) continue;
    met.add(word);
    pieces.push(text.slice(end, found.index), wordButton(found[0], word, { class: "word" }));
    end = found.index + found[0].length;
  }
  return [...pieces, text.slice(end)];
}

/** @param {Glossary} glossary @param {string} wanted in small letters */
function oneWord({ words, lines, tag, rtl }, wanted) {
  const found = words.filter(({ word, also = [] }) => [word, ...also].some((name) => name.toLocaleLowerCase() === wanted));
  return [make("ul", { class: "words" }, ...found.map((word) => wordEntry(word, lines, tag, rtl)))];
}

/**
 * A dialog with one of them. @param {string} title @param {HTMLElement} back which has the focus again afterwards
 * @param {(glossary: Glossary) => Node[]} inside
 */
async function open(title, back, inside) {
  const glossary = await glossaryData();
  openDialog(title, back, inside(glossary));
}

/** @param {Glossary} glossary */
function wordList({ words, lines, tag, rtl }) {
  const entries = words.map((word) => ({ word, entry: wordEntry(word, lines, tag, rtl) }));
  const told = make("p", { role: "status" });
  const find = make("input", { type: "search", id: "find-word", autocomplete: "off", oninput: narrow });
  function narrow() {
    const wanted = find.value.trim().toLocaleLowerCase();
    const left = entries.filter(({ word, entry }) => {
      entry.hidden = ![word.word, word.second ?? "", ...(word.also ?? [])].some((text) => text.toLocaleLowerCase().includes(wanted));
      return !entry.hidden;
    });
    told.textContent = left.length ? "" : "No such word here.";
  }
  const field = make("div", { class: "figure" }, make("label", { for: "find-word" }, "Find a word"), find);
  return [field, told, make("ul", { class: "words" }, ...entries.map(({ entry }) => entry))];
}

/** @param {import("./data.js").Word} word @param {string[]} lines @param {string | undefined} tag @param {boolean | undefined} rtl */
function wordEntry(word, lines, tag, rtl) {
  const second = word.second && make("p", { class: "second", lang: tag ?? false, dir: rtl ? "rtl" : false }, word.second);
  return make(
    "li",
    {},
    make("h3", {}, word.word),
    second,
    paper(word.drawing, lines),
    make("p", {}, word.says),
    make("p", { class: "source" }, `Source: ${word.from}`),
  );
}

/** @param {Glossary} glossary */
function ruleList({ rules, lines, about }) {
  const entries = rules.map((rule) =>
    make(
      "li",
      {},
      make("h3", {}, rule.topic),
      paper(rule.drawing, lines),
      make("p", {}, make("b", {}, rule.says)),
      rule.example && make("p", {}, rule.example),
    ),
  );
  return [make("p", {}, about), make("ul", { class: "words" }, ...entries)];
}

/** @param {number[]} places @param {string[]} lines */
function paper(places, lines) {
  return make("div", { class: "paper" }, svgOf(places.map((place) => lines[place]).join("\n")));
}
