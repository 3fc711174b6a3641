// The page: which screen is shown, and what a question changes in the memory.

import { stopReading } from "./aloud.js";
import { chooseNext, finishQuestion } from "./choose.js";
import { canUnpack, isSite, kindData, readIndex } from "./data.js";
import { arriveAtTop, button, byId, make } from "./elements.js";
import { setWords } from "./glossary.js";
import { applyLook, showLook } from "./look.js";
import { countDay, dayOf, freshKind, joined, putRight, takeRight, takeSlip } from "./memory.js";
import { showMock } from "./mock_screen.js";
import { askQuestion } from "./question.js";
import { kindsToday } from "./plan.js";
import { showPlan } from "./plan_screen.js";
import { showSave } from "./save_screen.js";
import { markCurrent, showEnd, showProgress, showTopics } from "./screens.js";
import { countAnswered, countSlip, isOver, sittingFor } from "./sitting.js";
import { keepMemory, keptMemory, whenKeptElsewhere } from "./storage.js";
import { applyScreen, showSize } from "./true_size.js";

const main = byId("main");
const first = keptMemory();
/** @type {import("./screens.js").Practice} */
const practice = {
  index: readIndex(),
  memory: first.memory,
  today: () => dayOf(new Date()),
  keep: () => tellKept(keepMemory(practice.memory)),
  replace: (memory) => {
    const wiped = !Object.keys(memory.kinds).length;
    practice.memory = wiped ? memory : joined(practice.memory, memory);
    applyMemory();
    practice.keep();
  },
};

/** The page as the learner likes it, on the screen that was measured. */
function applyMemory() {
  applyLook(practice.memory.look);
  applyScreen(practice.memory.screen);
}

/** @param {boolean} kept */
function tellKept(kept) {
  byId("unkept").hidden = kept;
}

/** @param {boolean} moved whether the learner came here by a link, so that the focus follows */
async function show(moved) {
  stopReading();
  const screen = window.location.hash.slice(1);
  const screens = { progress: showProgress, save: showSave, end: showEnd, plan: showPlan, look: showLook, size: showSize, mock: showMock };
  main.dataset.screen = screen === "practise" ? "question" : Object.hasOwn(screens, screen) ? screen : "topics";
  for (const name of ["stage", "kind", "variant", "open"]) delete main.dataset[name];
  markCurrent(main.dataset.screen === "question" ? "practise" : main.dataset.screen);
  if (screen === "practise") await showQuestion(moved);
  else ({ topics: showTopics, ...screens })[/** @type {keyof typeof screens} */ (main.dataset.screen)](main, practice);
  if (moved && screen !== "practise") arriveAtTop(main);
}

/** @param {boolean} moved */
async function showQuestion(moved) {
  const { index, memory, today } = practice;
  const asked = index.kinds.find((kind) => kind.key === memory.now?.kind); // of any topic: it may have been picked
  const now = (asked && memory.now) || chooseNext(memory, kindsToday(memory, index.kinds, today()), today());
  const kind = index.kinds.find((one) => one.key === now?.kind);
  if (!now || !kind) return;
  const sitting = (memory.sitting = sittingFor(memory, today()));
  practice.keep();
  const own = () => (practice.memory.kinds[kind.key] ??= freshKind());
  const data = await kindData(kind.place).catch(() => null);
  if (!data) return tellMissing();
  const keepNow = (/** @type {Partial<import("./memory.js").Now>} */ changed) => {
    Object.assign(now, changed);
    if (practice.memory.now?.kind === now.kind) practice.memory.now = now;
    practice.keep();
  };
  if (main.dataset.screen !== "question") return; // the learner has gone to another screen meanwhile
  void askQuestion(main, kind, data, now, own(), {
    slipped: (part, { says, line }) => {
      const again = own().slips[part];
      if (!now.helped || again?.says !== says) countSlip(sitting, kind.key, says);
      takeSlip(own(), part, says, line, today());
      keepNow({ helped: true });
    },
    typed: (part, draft) => keepNow({ at: part, draft }),
    settled: (part, how) => keepNow({ at: "", draft: "", done: { ...now.done, [part]: how } }),
    right: (part) => putRight(own(), part, today()),
    done: (clean) => {
      if (clean && now.stage === "alone") takeRight(own(), today());
      if (now.stage !== "worked") {
        countAnswered(sitting, kind.key, clean);
        countDay(practice.memory, today(), clean);
      }
      practice.memory.sitting = sitting;
      finishQuestion(practice.memory, now, clean);
      practice.keep();
    },
    next: () => {
      if (isOver(sitting)) window.location.hash = "#end";
      else void showQuestion(true);
    },
  }, { today: today(), told: sittingWords(sitting) });
  if (moved) arriveAtTop(main);
}

/** A question that a site did not bring: without a network, or with one that fails. */
function tellMissing() {
  const again = button("Try again", () => void showQuestion(true), { class: "next" });
  main.replaceChildren(
    make("h1", { tabindex: "-1" }, "This question is not here yet"),
    make("p", {}, "The network did not bring it. Open the page once with a network, and leave it open for a moment: then all of it is on this phone."),
    again,
  );
  arriveAtTop(main);
}

/** Which question of its sitting this is. @param {import("./memory.js").Sitting} sitting */
function sittingWords({ done, of }) {
  return of ? `Question ${done + 1} of ${of}` : `Question ${done + 1}`;
}

applyMemory();
setWords(practice.index.words);
if (canUnpack()) {
  tellKept(first.kept);
  whenKeptElsewhere((memory) => {
    practice.memory = memory;
    applyMemory();
  });
  window.addEventListener("hashchange", () => void show(true));
  void show(false);
  if (isSite()) navigator.serviceWorker?.register("worker.js").catch(() => {}); // without it the site works with a network alone
} else {
  main.querySelector("h1")?.replaceChildren("This browser is too old for this page"); // the way on stands below it
}
