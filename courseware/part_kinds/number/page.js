// A figure on the practice page: written into a field; a line of its working may be left open.

import { figurePlace } from "../../practice/page/answers.js";
import { PART_KINDS } from "../../practice/page/part_kinds.js";
import { howToAnswer } from "../../practice/page/words.js";

PART_KINDS.number = {
  place: (part) => figurePlace(part, howToAnswer(part)),
  answerWords: (part) => `The answer is ${part.answer}.`,
  inShort: (part) => part.answer ?? "",
  opensLine: true,
};
