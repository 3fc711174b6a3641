"""What a class's marked papers come to: every part, every outcome, every slip and the whole paper, as figures."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from courseware.class_report.misconceptions import NO_WORDS, Misconception, SlipWords, misconceptions, shows_slips
from courseware.class_report.papers_counted import ClassPapers, class_papers
from courseware.marking.marks import How, MarkedPaper
from courseware.papers.sitting import Sitting
from courseware.statistics.intervals import Index
from courseware.statistics.item_statistics import PartStatistics, facility, part_statistics
from courseware.statistics.reliability import Reliability, reliability

_FEW = 0.3  # of the marks: common practice, no source
_LEFT_OUT = 4  # a quarter of the class: common practice, no source
_ENOUGH = 10  # scripts before two chance figures send anybody looking: common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class PartFigures:
    """One part, or one row of a table: marks got, its statistics, and how many wrote nothing."""

    label: str
    topic: str
    exercise: str
    name: str
    of: int
    got: int  # marks, the class together
    statistics: PartStatistics
    blank: int
    unreached: int
    asked: int  # still to be settled by a person, since they could not be read
    waiting: int  # for a look at the working

    @property
    def look(self) -> tuple[str, ...]:
        """Why somebody should look at this question; the question may well be a good one."""
        reasons = []
        if (share := self.statistics.facility) is None:
            return ()
        if share.value < _FEW:
            reasons.append("few got it")
        if (self.blank + self.unreached) * _LEFT_OUT > share.n:
            reasons.append("many left it out")
        ends, rest = self.statistics.discrimination, self.statistics.item_rest
        if ends and rest and ends.value < 0 and rest.value < 0 and share.n >= _ENOUGH:
            reasons.append("those who did well elsewhere did less well here")
        return tuple(reasons)


@dataclass(frozen=True, slots=True, kw_only=True)
class OutcomeFigures:
    """An exercise of a topic, all its parts together."""

    topic: str
    exercise: str
    labels: tuple[str, ...]
    of: int
    facility: Index | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipSeen:
    """A slip in the class: the papers that show it, and those whose figure it shares with another slip."""

    key: str
    says: str
    words: str  # what it is counted by; '' where that is what it says
    exercise: str
    part: str
    label: str
    codes: tuple[str, ...]
    perhaps: tuple[str, ...]

    @property
    def again(self) -> bool:
        """Whether it is to be taught again: it was seen, or may have been, on more than one paper."""
        return len(self.codes) + len(self.perhaps) > 1


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassFigures:
    """A class's figures; papers in order of code, slips by count, parts in the order of the paper."""

    papers: ClassPapers
    codes: tuple[str, ...]
    marks: tuple[tuple[int, ...], ...]
    parts: tuple[PartFigures, ...]
    outcomes: tuple[OutcomeFigures, ...]
    slips: tuple[SlipSeen, ...]
    misconceptions: tuple[Misconception, ...]
    whole: Reliability

    @property
    def totals(self) -> tuple[int, ...]:
        return tuple(map(sum, self.marks))

    @property
    def of(self) -> int:
        return sum(part.of for part in self.parts)


def class_figures(
    sitting: Sitting,
    marked: Sequence[MarkedPaper],
    words: SlipWords = NO_WORDS,
    withdrawn: Collection[str] = (),
) -> ClassFigures:
    """The figures of a class; `words` are what its banks count slips by, `withdrawn` the codes of papers given up.

    A part left blank or not reached counts as no marks; absent learners do not count.
    """
    papers = class_papers(sitting, marked, withdrawn)
    written = [paper for _, paper in papers.counted]
    marks = tuple(tuple(mark.marks for mark in paper.marks) for paper in written)
    most = [part.marks for part in sitting.papers[0].parts]
    return ClassFigures(
        papers=papers,
        codes=tuple(paper.code for paper in written),
        marks=marks,
        parts=_parts(sitting, written, part_statistics(marks, most)),
        outcomes=_outcomes(sitting, marks),
        slips=_slips(sitting, written, words),
        misconceptions=misconceptions(written, words),
        whole=reliability(marks, most),
    )


def _parts(
    sitting: Sitting, written: Sequence[MarkedPaper], statistics: Sequence[PartStatistics]
) -> tuple[PartFigures, ...]:
    asked = [(exercise, part) for exercise in sitting.papers[0].exercises for part in exercise.parts]
    found = []
    for place, ((exercise, part), figures) in enumerate(zip(asked, statistics, strict=True)):
        hows: Counter[How] = Counter(paper.marks[place].how for paper in written)
        found.append(
            PartFigures(
                label=part.label,
                topic=exercise.topic,
                exercise=exercise.exercise,
                name=part.name,
                of=part.marks,
                got=sum(paper.marks[place].marks for paper in written),
                statistics=figures,
                blank=hows["blank"],
                unreached=hows["unreached"],
                asked=hows["asked"],
                waiting=sum(paper.marks[place].provisional for paper in written) - hows["asked"],
            )
        )
    return tuple(found)


def _outcomes(sitting: Sitting, marks: Sequence[Sequence[int]]) -> tuple[OutcomeFigures, ...]:
    found: list[OutcomeFigures] = []
    start = 0
    for exercise in sitting.papers[0].exercises:
        end, of = start + len(exercise.parts), sum(part.marks for part in exercise.parts)
        found.append(
            OutcomeFigures(
                topic=exercise.topic,
                exercise=exercise.exercise,
                labels=tuple(part.label for part in exercise.parts),
                of=of,
                facility=facility([sum(row[start:end]) for row in marks], of),
            )
        )
        start = end
    return tuple(found)


def _slips(sitting: Sitting, written: Sequence[MarkedPaper], counted_by: SlipWords) -> tuple[SlipSeen, ...]:
    """Every slip seen, the commonest first and the order of the paper where two are as common."""
    parts = {part.label: (e.exercise, part.name) for e in sitting.papers[0].exercises for part in e.parts}
    place = {label: index for index, label in enumerate(parts)}
    says: dict[tuple[str, str], Counter[str]] = {}
    sure: dict[tuple[str, str], dict[str, None]] = {}
    perhaps: dict[tuple[str, str], dict[str, None]] = {}
    for paper in written:
        for mark in paper.marks:
            for slip in mark.slips if shows_slips(mark) else ():
                seen = (mark.label, slip.key)
                says.setdefault(seen, Counter())[slip.says] += 1
                (perhaps if mark.how == "family" else sure).setdefault(seen, {})[paper.code] = None
    slips = [
        SlipSeen(
            key=key,
            says=min((-times, text) for text, times in words.items())[1],
            words=counted_by.get((label, key), ""),
            exercise=parts[label][0],
            part=parts[label][1],
            label=label,
            codes=tuple(sure.get((label, key), ())),
            perhaps=tuple(perhaps.get((label, key), ())),
        )
        for (label, key), words in says.items()
    ]
    return tuple(sorted(slips, key=lambda s: (-len(s.codes), -len(s.perhaps), place[s.label], s.key)))
