// A question read aloud by the browser's own voice: only by one on the device itself, so that nothing is sent anywhere.

import { button } from "./elements.js";

const LANGUAGE = "en";
const [READ, STOP] = ["Read aloud", "Stop reading"];

/** The voice to read by: English and on the device; undefined where there is none. */
function voice() {
  const voices = window.speechSynthesis?.getVoices() ?? [];
  return voices.find((one) => one.localService && one.lang.toLowerCase().startsWith(LANGUAGE));
}

/**
 * A button that reads what `words` gives, or stops; hidden as long as there is no voice.
 * @param {() => string} words
 */
export function readAloud(words) {
  const press = () => {
    const speech = window.speechSynthesis;
    const wasReading = read.textContent === STOP;
    speech.cancel();
    if (wasReading) return;
    const told = new SpeechSynthesisUtterance(words());
    told.voice = voice() ?? null;
    told.lang = told.voice?.lang ?? LANGUAGE;
    told.onend = told.onerror = () => {
      read.textContent = READ;
    };
    read.textContent = STOP;
    speech.speak(told);
  };
  const read = button(READ, press, { "data-role": "aloud" });
  const show = () => {
    read.hidden = !voice();
  };
  show();
  window.speechSynthesis?.addEventListener?.("voiceschanged", show, { once: true }); // voices come after the page in some browsers
  return read;
}

/** Ends what is being read. */
export function stopReading() {
  window.speechSynthesis?.cancel();
}
