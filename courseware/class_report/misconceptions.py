"""Slips counted by what went wrong, over all parts and learners: how often, by how many, in which questions."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from courseware.marking.marks import Mark, MarkedPaper, NamedSlip
from courseware.papers.compose import Sources, entries_of, issued_from
from courseware.papers.sitting import Sitting

Seen = tuple[str, str]  # a paper's code and a part's label
SlipWords = Mapping[tuple[str, str], str]  # what a slip is counted by, by its part's label and its key
NO_WORDS: SlipWords = {}


@dataclass(frozen=True, slots=True, kw_only=True)
class Misconception:
    """What went wrong, and every answer that shows it; `perhaps` are those whose figure something else gives too."""

    words: str  # the bank's, such as `the beds were left out`, or the slip's own
    says: str  # what its commonest slip says, with the rule
    seen: tuple[Seen, ...]
    perhaps: tuple[Seen, ...]

    @property
    def rule(self) -> str:
        """What its commonest slip says beyond its own words, as a sentence; '' where that is nothing.

        `the beds were left out` and `The beds were left out: each course is a brick and a bed` leave the latter half.
        """
        says = self.says.rstrip(".")
        if says.casefold().startswith(self.words.casefold()):
            says = says[len(self.words) :].lstrip(":;, ")
        return f"{says[:1].upper()}{says[1:]}." if says else ""

    @property
    def times(self) -> int:
        """How often it was seen for certain."""
        return len(self.seen)

    @property
    def learners(self) -> int:
        """On how many papers it was seen for certain."""
        return len({code for code, _ in self.seen})

    @property
    def labels(self) -> tuple[str, ...]:
        """The parts in which it was seen, or may have been, the commonest first."""
        certain = Counter(label for _, label in self.seen)
        places = Counter(label for _, label in (*self.seen, *self.perhaps))
        order = {label: place for place, label in enumerate(places)}
        return tuple(sorted(places, key=lambda label: (-certain[label], -places[label], order[label])))

    @property
    def again(self) -> bool:
        """Whether the class is to be taught it: it was seen, or may have been, on more than one paper."""
        return len({code for code, _ in (*self.seen, *self.perhaps)}) > 1


def slip_words(sitting: Sitting, sources: Sources) -> SlipWords:
    """What the banks of a sitting count their slips by; a slip whose bank says nothing is not among them."""
    found: dict[tuple[str, str], str] = {}
    for number, issued in enumerate(sitting.papers[0].exercises, 1):
        _, exercise = issued_from(issued, sources)
        for part, entries in zip(exercise.parts, entries_of(exercise, issued, number), strict=True):
            for row, entry in zip(part.entries, entries, strict=True):
                for step, words in row.misconceptions.items():
                    found[entry.label, f"{exercise.name}/{row.name}/{step}"] = words
    return found


def misconceptions(written: Sequence[MarkedPaper], words: SlipWords = NO_WORDS) -> tuple[Misconception, ...]:
    """Every misconception of a class: those of most learners first, then those seen most often and in most questions.

    An answer whose figure several slips give counts for certain where all of them have the same words.
    """
    sure: dict[str, list[Seen]] = {}
    perhaps: dict[str, list[Seen]] = {}
    said: dict[str, Counter[str]] = {}
    spelled: dict[str, str] = {}
    for paper in written:
        for mark in paper.marks if paper.marks else ():
            groups: dict[str, None] = {}
            for slip in mark.slips if shows_slips(mark) else ():
                own = _words(mark, slip, words)
                group = own.casefold()
                spelled.setdefault(group, own)
                said.setdefault(group, Counter())[slip.says] += 1
                groups[group] = None
            certain = len(groups) == 1 or mark.how != "family"
            for group in groups:
                (sure if certain else perhaps).setdefault(group, []).append((paper.code, mark.label))
    found = [
        Misconception(
            words=spelled[group],
            says=min((-times, text) for text, times in counted.items())[1],
            seen=tuple(sure.get(group, ())),
            perhaps=tuple(perhaps.get(group, ())),
        )
        for group, counted in said.items()
    ]
    place = {mark.label: place for paper in written for place, mark in enumerate(paper.marks)}
    return tuple(
        sorted(
            found,
            key=lambda one: (
                -one.learners,
                -one.times,
                -len(one.labels),
                -len(one.perhaps),
                place[one.labels[0]],
                one.words,
            ),
        )
    )


def shows_slips(mark: Mark) -> bool:
    """Whether a mark's slips count: an assessor who gave full marks saw none."""
    return bool(mark.slips) and not (mark.how == "decided" and mark.marks == mark.of)


def _words(mark: Mark, slip: NamedSlip, words: SlipWords) -> str:
    return words.get((mark.label, slip.key)) or slip.says.rstrip(".")
