// One step asked: an answer, its feedback, one retry, then the working. It ends when the learner goes on.

import { button, make, say } from "./elements.js";
import { exactText } from "./figures.js";
import { markWords, withMarkedWords, wordsOfLabels } from "./glossary.js";
import { kindOf } from "./part_kinds.js";
import { feedbackWords, isReached, isRight, isTry, lineAfter } from "./words.js";
import { bringIntoSight, holdInSight, letGo } from "./sight.js";
import { workedPart } from "./working.js";

/**
 * What is asked: the part that is judged, where it stands on the page, how it is shown once worked, what was typed
 * before the page was left, and who is told of what is typed.
 * @typedef {{part: import("./data.js").Part, section: HTMLElement, place: import("./answers.js").Place,
 *   working: () => HTMLElement, goOn: string, settled: (outcome: Outcome) => void,
 *   draft?: string, typed?: (text: string) => void}} Step
 * How it went: `clean` at the first try and without help; else what the slip was, and the line to look at.
 * @typedef {{clean: boolean, says: string, line: number}} Outcome
 */

/**
 * Asks, and waits until the learner goes on. @param {Step} step @param {(outcome: Outcome) => void} slipped told at once
 * @returns {Promise<Outcome>}
 */
export function askStep(step, slipped) {
  const { part, place, section } = step;
  const { byEye } = kindOf(part);
  const feedback = make("div", { id: "feedback", "data-role": "feedback" });
  const check = make("button", { type: "submit" }, byEye ? "Done" : "Check");
  const help = byEye ? null : button("Show the working", () => settle("shown", "Here is the working."));
  const tools = make("div", { class: "tools" }, check, help);
  const form = make("form", { novalidate: true, onsubmit: answered, onfocusin: hold, oninput: () => step.typed?.(place.read()) }, place.element, wordsOfLabels(place.element), tools);
  /** @type {Outcome} */
  const outcome = { clean: true, says: "", line: Math.max((part.working ?? []).length - 1, 0) };
  /** @type {(outcome: Outcome) => void} */
  let end = () => {};
  let tries = 0;

  /** @param {Event} event */
  function answered(event) {
    event.preventDefault();
    const verdict = place.judge();
    tries += isTry(verdict) ? 1 : 0;
    if (isTry(verdict) && !isRight(verdict)) noteSlip(verdict);
    const known = verdict.value && isReached(part, exactText(verdict.value));
    const line = (known && part.working?.[outcome.line]?.say) || "";
    const sum = verdict.sum ? `Your working: ${verdict.sum}. ` : "";
    const words = sum + feedbackWords(verdict, part, isRight(verdict) ? "" : line, place.retries ? tries : 2);
    if (isRight(verdict)) settle(outcome.clean ? "right" : "helped", words, verdict.how);
    else if (tries < 2 && (place.retries || !isTry(verdict))) tell(words, verdict.how);
    else settle("shown", words, verdict.how);
  }

  /** @param {import("./judge.js").Verdict} verdict */
  function noteSlip(verdict) {
    if (verdict.value) outcome.line = lineAfter(part, exactText(verdict.value));
    outcome.clean = false;
    outcome.says = verdict.slips?.[0] ?? outcome.says;
    slipped(outcome);
  }

  /** @param {string} words @param {string} how */
  function tell(words, how) {
    showFeedback(feedback, words, how);
    say(words);
    place.focus();
    bringIntoSight(section, feedback, entry());
  }

  /** @param {"right"|"helped"|"shown"} state @param {string} words @param {string} how */
  function settle(state, words, how = "shown") {
    if (state === "shown" && outcome.clean) {
      outcome.clean = false;
      slipped(outcome);
    }
    section.dataset.state = state;
    place.close();
    tools.remove();
    form.replaceWith(...form.childNodes); // nothing is to be sent any more
    section.append(feedback); // what comes of the answer stands below it, before what is next
    showFeedback(feedback, words, how);
    if (state !== "right" && !byEye) feedback.append(step.working());
    step.settled(outcome);
    const on = button(step.goOn, () => {
      on.remove();
      feedback.removeAttribute("id");
      letGo();
      end(outcome);
    }, { class: "next" });
    section.append(on);
    say(words);
    on.focus({ preventScroll: true });
    bringIntoSight(section, feedback, null);
  }

  function hold() {
    holdInSight(section, feedback, entry());
  }
  const entry = () => /** @type {HTMLElement | null} */ (form.querySelector(".entry"));

  markWords(place.element);
  entry()?.append(check); // beside the field: seen with it above a keyboard
  if (step.draft) place.restore(step.draft);
  section.append(feedback, form);
  return new Promise((resolve) => {
    end = resolve;
  });
}

/** A part of a question asked as a whole. @param {import("./data.js").Part} part @param {() => Node | null} filled */
export function wholePart(part, filled) {
  return { part, place: kindOf(part).place(part, filled), working: () => workedPart(part) };
}

/** @param {HTMLElement} feedback @param {string} words @param {string} how */
function showFeedback(feedback, words, how) {
  const right = how === "right" || how === "route";
  const sign = right ? "✓" : how === "shown" ? "→" : how === "asked" || how === "blank" ? "?" : "✗";
  feedback.dataset.how = how;
  feedback.replaceChildren(withMarkedWords(make("p", {}, make("span", { class: "sign", "aria-hidden": "true" }, sign), words)));
}
