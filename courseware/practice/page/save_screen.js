// Saving a practice to a file with the learner's name, loading one, forgetting all.

import { button, make, say } from "./elements.js";
import { LONGEST_NAME } from "./memory.js";
import { checkedSave, fileName, savedText } from "./saved_file.js";

/** @typedef {import("./screens.js").Practice} Practice */

/** @param {HTMLElement} main @param {Practice} practice */
export function showSave(main, practice) {
  const told = make("p", { "data-role": "told" });
  const file = make("input", { type: "file", id: "file", accept: ".json,application/json", onchange: () => load(file, practice, told) });
  const name = make("input", { type: "text", id: "learner", maxlength: LONGEST_NAME, autocomplete: "name", value: practice.memory.name, oninput: () => {
    practice.memory.name = name.value.trim();
    practice.keep();
  } });
  main.replaceChildren(
    make("h1", { tabindex: "-1" }, "Save or load"),
    make("p", {}, "Your practice is kept in this browser alone. Save it to a file to show it, or to go on with it on another phone or computer."),
    make("div", { class: "figure" }, make("label", { for: "learner" }, "Your name, for whoever you show it to"), name),
    make("p", { class: "small" }, "The file has this name, the days you practised, which exercises are secure and which slips still come. Nobody has it unless you give it to them."),
    button("Save my practice", () => save(practice, told), { class: "next" }),
    make("p", {}, make("label", { for: "file" }, "Load a saved practice"), file),
    told,
    make("h2", {}, "Forget"),
    forget(practice, told),
  );
}

/** @param {Practice} practice @param {HTMLElement} told */
function forget(practice, told) {
  const ask = button("Forget all my practice", () => {
    const no = button("No, keep it", () => sure.replaceWith(ask));
    const yes = button("Yes, forget it", () => {
      practice.replace({ ...practice.memory, kinds: {}, topics: null, sitting: null, now: null, turn: 0, alone: 0, round: 0, last: "", name: "", days: [] });
      sure.replaceWith(ask);
      tell(told, "Your practice is forgotten.");
    });
    const sure = make("div", { class: "tools" }, yes, no);
    ask.replaceWith(sure);
    no.focus();
  });
  return ask;
}

/** @param {Practice} practice @param {HTMLElement} told */
function save({ index, memory, today }, told) {
  const name = fileName(memory.name);
  const text = savedText(memory, index.kinds, index.title, today());
  const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  make("a", { href: address, download: name }).click();
  window.setTimeout(() => URL.revokeObjectURL(address), 10_000);
  tell(told, `Saved as ${name}.`);
}

/** @param {HTMLInputElement} file @param {Practice} practice @param {HTMLElement} told */
async function load(file, practice, told) {
  const found = checkedSave(await (file.files?.[0]?.text() ?? ""));
  if (!found) return tell(told, "This file is not a saved practice, so nothing was changed. Choose a file that this page saved: its name begins with practice.");
  practice.replace(found);
  return tell(told, "Loaded. Of each exercise, whichever was further on is kept.");
}

/** @param {HTMLElement} told @param {string} words */
function tell(told, words) {
  told.textContent = words;
  say(words);
}
