// The questions in this file: a short index, and each kind's questions packed until they are wanted.

/**
 * A line of working. @typedef {{say: string, figure?: string, right?: string, unit?: string}} WorkingLine
 * A part of a question, of any kind, as the page was made with it.
 * @typedef {{name: string, label: string, kind: string, ask: string, marks: number,
 *   note?: string, unit?: string, answer?: string, band?: string, right: string, exact?: string, within?: string,
 *   places?: number, working?: WorkingLine[], slips?: {right: string, says: string, earns?: number}[], method?: number,
 *   accepts?: {right: string, says: string}[], rule?: string[], rows?: Part[], options?: [string, string][],
 *   several?: boolean, wrong?: Record<string, string>, before?: [string, string][], open?: boolean,
 *   points?: string[], lines?: number}} Part
 * The lines of a drawing's two layouts; one at true size has the first alone. @typedef {{wide: number[], narrow?: number[]}} Drawing
 * @typedef {{setting?: string, pose: string, brick: string, drawing?: Drawing, filled?: Drawing, parts: Part[],
 *   stands?: Stands}} Question
 * Where the size that a part asks for stands in the wide layout, in per cent of it. @typedef {Record<string, [number, number]>} Stands
 * @typedef {{title: string, lines: string[], source?: string}} Note
 * A kind: its cautions, each question as JSON still to be read, all lines of their drawings.
 * @typedef {{notes: Note[], questions: string[], lines: string[]}} KindData
 * A word of the trade, and a rule of the card; `drawing` has the places of the lines of its drawing.
 * @typedef {{word: string, also?: string[], says: string, from: string, second?: string, drawing: number[]}} Word
 * @typedef {{topic: string, says: string, example?: string, drawing: number[]}} Rule
 * @typedef {{lines: string[], words: Word[], rules: Rule[], about: string, tag?: string, rtl?: boolean}} Glossary
 */

/** @type {Map<string, Promise<any>>} what is unpacked, by its block */
const unpacked = new Map();

/**
 * What the page holds: its title, its topics, its kinds in order, the words of the trade.
 * @returns {{title: string, caution: string, words: string[], topics: {topic: string, aim: string, kinds: number[]}[],
 *   kinds: import("./choose.js").Kind[]}}
 */
export function readIndex() {
  const index = JSON.parse(document.getElementById("index")?.textContent ?? "");
  for (const [place, kind] of index.kinds.entries()) {
    kind.place = place;
    kind.key = `${kind.topic}/${kind.exercise}`;
  }
  return index;
}

/** Whether this browser can unpack the questions: some know the stream and not this way of packing. */
export function canUnpack() {
  try {
    return Boolean(new DecompressionStream("deflate-raw")) && typeof BigInt === "function";
  } catch {
    return false;
  }
}

/**
 * The questions of a kind.
 * @param {number} place its place in the index @returns {Promise<KindData>}
 */
export function kindData(place) {
  return unpackedOnce(`kind-${place}`, (text) => {
    const [head, ...lines] = text.split("\n");
    const { notes, questions } = JSON.parse(head);
    return { notes, questions: lines.slice(0, questions), lines: lines.slice(questions) };
  });
}

/** A question of a kind; the first for a place that it does not have. @param {KindData} data @param {number} place @returns {Question} */
export const questionAt = ({ questions }, place) => JSON.parse(questions[place] ?? questions[0]);

/** The words of the trade and the rules of the card. @returns {Promise<Glossary>} */
export function glossaryData() {
  return unpackedOnce("glossary", JSON.parse);
}

/**
 * What a block holds, unpacked when it is first asked for. @template T
 * @param {string} name its id @param {(text: string) => T} read @returns {Promise<T>}
 */
function unpackedOnce(name, read) {
  const found = unpacked.get(name) ?? packedText(name).then(unpack).then(read);
  unpacked.set(name, found);
  found.catch(() => unpacked.delete(name)); // a network that fails now may be there later
  return found;
}

/**
 * The text of a block: the page starts before the browser has read all of them, so it may have to wait for it.
 * @param {string} name
 */
async function packedText(name) {
  for (;;) {
    const block = document.getElementById(name);
    if (block?.nextSibling || (block && document.readyState !== "loading")) return block.textContent ?? "";
    if (document.readyState !== "loading") return fetchedText(name);
    await new Promise((resolve) => {
      window.setTimeout(resolve, 5);
    });
  }
}

/** The text of a block that has a file of its own, beside a page that is a site. @param {string} name */
async function fetchedText(name) {
  const answer = await fetch(`${name}.txt`);
  if (!answer.ok) throw new Error(`${name} is not there`);
  return answer.text();
}

/** Whether the page is a site that may be kept on the phone with all its files. */
export const isSite = () => document.querySelector("link[rel=manifest]") !== null;

/** @param {string} packed base64 of a raw deflate stream of text */
async function unpack(packed) {
  const plain = atob(packed.trim());
  const bytes = new Uint8Array(plain.length);
  for (let place = 0; place < plain.length; place += 1) bytes[place] = plain.charCodeAt(place);
  const stream = new DecompressionStream("deflate-raw");
  const writer = stream.writable.getWriter();
  for (const done of [writer.write(bytes), writer.close()]) done.catch(() => {}); // what cannot be unpacked is told where it is read
  return new Response(stream.readable).text();
}
