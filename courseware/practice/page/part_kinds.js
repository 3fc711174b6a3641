// The kinds of part on the page. Each puts itself into the list in a module of its own, which says how it is asked and
// judged, and how its answer is shown.

/** @typedef {import("./data.js").Part} Part */
/**
 * A kind of part: `place` is where its answer is given, `answerWords` the answer in a sentence, `below` what stands under
 * that sentence, `inShort` the answer as it stands in a line, `given` what stands on paper under the question, `ownAnswer` what was
 * answered, from its text as a place reads it. With `byEye` the learner compares, with no second try;
 * `before` is waited for; with `opensLine` a line of its working may be left open.
 * @typedef {{place: (part: Part, filled: () => Node | null) => import("./answers.js").Place,
 *   answerWords: (part: Part) => string, below?: (part: Part) => Node, inShort?: (part: Part) => string, given?: (part: Part) => Node,
 *   ownAnswer?: (part: Part, text: string) => Node,
 *   before?: (section: HTMLElement, part: Part, atTrueSize: boolean) => Promise<void>, byEye?: boolean, opensLine?: boolean}} PartKind
 */

/** @type {Record<string, PartKind>} */
export const PART_KINDS = {};

/** The kind of a part. @param {Part} part */
export const kindOf = (part) => PART_KINDS[part.kind];

/** What has an answer of its own: the rows of a table, else the part itself. @param {Part} part */
export const rowsOf = (part) => part.rows ?? [part];
