// The words of the trade and the card of its rules: looked at over a question, which stays as it is.

import { glossaryData } from "./data.js";
import { svgOf } from "./drawing.js";
import { button, make, openDialog } from "./elements.js";

/** @typedef {import("./data.js").Glossary} Glossary */

/** The two buttons that open them. */
export function lookUp() {
  const words = button("Words", () => void open("Words", words, wordList));
  const card = button("Card", () => void open("Card", card, ruleList));
  return make("div", { class: "tools", "data-role": "look-up" }, words, card);
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
      entry.hidden = ![word.word, word.second ?? ""].some((text) => text.toLocaleLowerCase().includes(wanted));
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
