// A mock test as data: which exercises, which variants, how long, and what each answer earns. Chance and time are handed in.

/** @typedef {import("./choose.js").Kind} Kind @typedef {import("./data.js").Part} Part @typedef {import("./memory.js").Memory} Memory */
/**
 * A mock test: its exercises with their variants, what was answered (by exercise's place and part), the seconds it has and
 * has used, and whether it is handed in.
 * @typedef {{items: {kind: string, variant: number}[], answers: Record<string, string>, seconds: number, used: number, over: boolean}} Mock
 */

export const LEAST = 6; // exercises of a paper unless it has more topics, as `issue` deals them
const SECONDS_A_MARK = 90; // ours, no source: a paper says no time
export const EXTRA = [0, 25, 50, 100]; // per cent more time
const MOST_TICK = 2; // seconds that one look at the clock may count: a phone that was locked in between loses none

/**
 * The exercises of a paper, as `issue` chooses them: topic by topic in turn, then rising in level.
 * @param {Kind[]} kinds @param {number} wanted @param {() => number} chance from 0 to below 1
 */
export function blueprint(kinds, wanted, chance) {
  const byTopic = [...new Set(kinds.map(({ topic }) => topic))].map((topic) => shuffled(kinds.filter((kind) => kind.topic === topic), chance));
  const turns = Math.max(0, ...byTopic.map((own) => own.length));
  const inTurn = Array.from({ length: turns }, (_, turn) => byTopic.flatMap((own) => own[turn] ?? [])).flat();
  const taken = inTurn.slice(0, Math.max(wanted, byTopic.length));
  return taken.sort((one, other) => one.level - other.level || one.place - other.place);
}

/** @template T @param {T[]} items @param {() => number} chance @returns {T[]} */
function shuffled(items, chance) {
  const left = [...items];
  return items.map(() => left.splice(Math.floor(chance() * left.length), 1)[0]);
}

/**
 * A mock test of these exercises. Practice meets its variants last of all. @param {Memory} memory @param {Kind[]} kinds
 * @param {number} extra per cent more time @returns {Mock}
 */
export function freshMock(memory, kinds, extra) {
  const items = kinds.map((kind) => {
    const own = memory.kinds[kind.key];
    const variant = (memory.start + (own ? own.seen : kind.variants - 1)) % kind.variants;
    if (own) own.seen += 1;
    return { kind: kind.key, variant };
  });
  const marks = kinds.reduce((sum, kind) => sum + kind.marks, 0);
  return { items, answers: {}, seconds: Math.ceil((marks * SECONDS_A_MARK * (100 + extra)) / 100), used: 0, over: false };
}

/** Counts time: so many seconds since it was counted last. @param {Mock} mock @param {number} seconds */
export function countTime(mock, seconds) {
  mock.used = Math.min(mock.seconds, mock.used + Math.max(0, Math.min(seconds, MOST_TICK)));
}

/** `12 min left`, by the second in the last minute. @param {Mock} mock */
export function timeLeft({ seconds, used }) {
  const left = Math.ceil(seconds - used);
  return left > 60 ? `${Math.ceil(left / 60)} min left` : `${left} s left`;
}

/**
 * The marks of an answer, as on paper, where nothing is carried from earlier answers. @param {import("./judge.js").Verdict} verdict @param {Part} part
 */
export function marksOf(verdict, part) {
  const { marks, method = 0, slips = [] } = part;
  switch (verdict.how) {
    case "right":
    case "route":
      return marks;
    case "unit":
    case "rounding":
      return marks - 1;
    case "tens":
    case "swapped":
      return method;
    case "slip":
    case "family":
      return Math.min(...(verdict.slips ?? []).map((says) => slips.find((slip) => slip.says === says)?.earns ?? 0));
    case "partly":
      return verdict.earns ?? 0;
    default:
      return 0;
  }
}

/** A mock test in what was kept, each piece checked; null where it is none. @param {unknown} found @returns {Mock | null} */
export function checkedMock(found) {
  const mock = /** @type {any} */ (found);
  if (typeof mock !== "object" || mock === null || !Array.isArray(mock.items)) return null;
  const whole = (/** @type {unknown} */ figure) => (Number.isFinite(figure) && Number(figure) >= 0 ? Number(figure) : 0);
  const items = mock.items.slice(0, 200).map((/** @type {any} */ item) => ({ kind: String(item?.kind ?? ""), variant: Math.floor(whole(item?.variant)) }));
  const answers = Object.entries(typeof mock.answers === "object" ? (mock.answers ?? {}) : {}).filter(([, text]) => typeof text === "string");
  const kept = Object.fromEntries(answers.slice(0, 2000).map(([place, text]) => [place, String(text).slice(0, 400)]));
  return { items, answers: kept, seconds: whole(mock.seconds), used: whole(mock.used), over: mock.over === true };
}
