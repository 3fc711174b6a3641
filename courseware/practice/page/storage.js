// Where a practice is kept: the browser's own store, or only this page where that lets nothing be kept.

import { checkedMemory, freshMemory } from "./memory.js";

const KEY = "courseware-practice";

/** What was kept, and whether anything can be. @returns {{memory: import("./memory.js").Memory, kept: boolean}} */
export function keptMemory() {
  const begin = crypto.getRandomValues(new Uint16Array(1))[0];
  try {
    const memory = read() ?? freshMemory(begin);
    return { memory, kept: keepMemory(memory) };
  } catch {
    return { memory: freshMemory(begin), kept: false };
  }
}

/** Keeps it; false where the browser does not let the page. @param {import("./memory.js").Memory} memory */
export function keepMemory(memory) {
  try {
    window.localStorage.setItem(KEY, JSON.stringify(memory));
    return true;
  } catch {
    return false;
  }
}

/** Calls back when another window of this page keeps something. @param {(memory: import("./memory.js").Memory) => void} heard */
export function whenKeptElsewhere(heard) {
  window.addEventListener("storage", (event) => {
    const memory = event.key === KEY ? checkedText(event.newValue ?? "") : null;
    if (memory) heard(memory);
  });
}

function read() {
  return checkedText(window.localStorage.getItem(KEY) ?? "");
}

/** @param {string} text */
function checkedText(text) {
  try {
    return checkedMemory(JSON.parse(text));
  } catch {
    return null;
  }
}
