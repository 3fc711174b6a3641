"""A centre's own criteria: what it wrote in its settings, with only evidence that there can be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import PurePath

from courseware.banks import Bank, Exercise, Fault, FileFaulty, harmless
from courseware.settings.settings import Settings, WrittenCriterion, WrittenEvidence
from courseware.settings.shapes import CentreShape
from courseware.text_files.did_you_mean import near

_LONGEST_CODE, _LONGEST_SAYS = 30, 400
_SAME = str.casefold
_COUNTED = ("", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_DIGITS = {str(number) for number in range(1, 100)}
_Path = tuple[str | int, ...]
Parts = Mapping[str, tuple[str, ...]]  # a part's name, or a table row's, to the names its marks go by


@dataclass(frozen=True, slots=True, kw_only=True)
class PartEvidence:
    """An exercise, or a part of it ('' for all of it), and the names that its marks go by."""

    topic: str
    exercise: str
    part: str
    marked_as: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class JobEvidence:
    """A job, or a line of its observation sheet ('' for all of it)."""

    job: str
    line: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Criterion:
    """A criterion, where it can be shown, and how many pieces of that are enough (none: all of them)."""

    code: str
    says: str
    parts: tuple[PartEvidence, ...]
    jobs: tuple[JobEvidence, ...]
    enough: int | None = None

    @property
    def needed(self) -> int:
        """How many pieces of its evidence must be secure; without any evidence, one that is not there."""
        return self.enough or max(1, len(self.parts) + len(self.jobs))

    @property
    def rule(self) -> str:
        """`all 3`, `2 of 3`: the rule in words; '' without evidence."""
        pieces = len(self.parts) + len(self.jobs)
        if pieces < 2:
            return ""
        return f"all {pieces}" if self.needed == pieces else f"{self.needed} of {pieces}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """What evidence can come from: exercises with their parts, by topic; lines of observation sheets by job."""

    topics: Mapping[str, Mapping[str, Parts]]
    short_names: Mapping[str, str]  # of topics
    jobs: Mapping[str, tuple[str, ...]]


def offer(banks: Iterable[Bank], jobs: Mapping[str, tuple[str, ...]]) -> Offer:
    """What these banks and jobs offer; a topic that comes twice, as in older sittings, offers all that it ever had."""
    topics: dict[str, dict[str, dict[str, tuple[str, ...]]]] = {}
    short: dict[str, str] = {}
    for bank in banks:
        exercises = topics.setdefault(bank.topic, {})
        short[PurePath(bank.file).stem] = bank.topic
        for exercise in bank.exercises:
            exercises.setdefault(exercise.name, {}).update(_parts(exercise))
    return Offer(topics=topics, short_names=short, jobs=jobs)


def criteria_of(settings: Settings, offered: Offer) -> tuple[Criterion, ...]:
    """The centre's criteria with the evidence meant. Raises `FileFaulty` with every fault that can be told at once."""
    if not settings.criteria:
        expected = f"expected {CentreShape.model_fields['criteria'].description}"
        raise FileFaulty((settings.fault((), "the key `criteria` is missing", expected),))
    told: list[Fault] = []
    criteria = tuple(
        _criterion(one, ("criteria", index), settings, offered, told) for index, one in enumerate(settings.criteria)
    )
    told += _repeated(settings)
    if told:
        raise FileFaulty(tuple(sorted(told, key=lambda fault: (fault.line, fault.column))))
    return criteria


def _parts(exercise: Exercise) -> Parts:
    found: dict[str, tuple[str, ...]] = {}
    for part in exercise.parts:
        rows = tuple(row.name for row in part.entries)
        found |= {part.name: rows, **{row: (row,) for row in rows}}
    return found


def _criterion(
    written: WrittenCriterion, path: _Path, settings: Settings, offered: Offer, told: list[Fault]
) -> Criterion:
    parts: list[PartEvidence] = []
    jobs: list[JobEvidence] = []
    for key, text, most in (("code", written.code, _LONGEST_CODE), ("says", written.says, _LONGEST_SAYS)):
        if not text.strip() or len(text) > most:
            wrong = f"`{key}` is blank" if not text.strip() else f"`{key}` has {len(text)} characters"
            told.append(settings.fault((*path, key), wrong, f"expected 1 to {most} characters"))
    for index, one in enumerate(written.evidence):
        found = _evidence(one, offered)
        if isinstance(found, PartEvidence):
            parts.append(found)
        elif isinstance(found, JobEvidence):
            jobs.append(found)
        else:
            key, wrong, expected = found
            told.append(settings.fault((*path, "evidence", index, key), wrong, expected))
    enough = _enough(written.rule, len(written.evidence))
    if isinstance(enough, str):
        told.append(settings.fault((*path, "rule"), f"`{harmless(written.rule)}` is no rule here", enough))
    return Criterion(
        code=written.code.strip(),
        says=" ".join(written.says.split()),
        parts=tuple(parts),
        jobs=tuple(jobs),
        enough=None if isinstance(enough, str) else enough,
    )


def _enough(rule: str, pieces: int) -> int | str | None:
    """How many of so many pieces of evidence are enough (none: all), or what was expected."""
    words = rule.casefold().split()
    if words in ([], ["all"], ["all", "of", "them"]):
        return None
    if words in (["any"], ["any", "of", "them"]):
        return 1
    counts = [_COUNTED.index(word) if word in _COUNTED else int(word) if word in _DIGITS else 0 for word in words[::2]]
    if words[1:2] == ["of"] and len(words) == 3 and 1 <= counts[0] <= counts[1] == pieces:
        return counts[0]
    some = f", or such as `1 of {pieces}`, which has as many as its list of evidence" if pieces else ""
    return f"expected all, any{some}"


def _evidence(one: WrittenEvidence, offered: Offer) -> PartEvidence | JobEvidence | tuple[str, str, str]:
    """The evidence meant, or the key that is wrong, what is wrong with it and what was expected."""
    if one.job is not None:
        if stray := next((key for key in ("topic", "exercise", "part") if getattr(one, key) is not None), None):
            return stray, f"`{stray}` stands beside `job`", "expected either topic and exercise, or job, in one entry"
        return _job(one.job, one.line, offered)
    if one.line is not None:
        return "line", "`line` stands without its `job`", "expected the job whose observation sheet has the line"
    for key in ("topic", "exercise"):
        if getattr(one, key) is None:
            return key, f"the key `{key}` is missing", "expected topic and exercise, or job"
    return _part(one.topic or "", one.exercise or "", one.part, offered)


def _part(topic: str, exercise: str, part: str | None, offered: Offer) -> PartEvidence | tuple[str, str, str]:
    title = offered.short_names.get(topic) or _meant(topic, offered.topics)
    if title is None:
        known = near(topic, [*offered.topics, *offered.short_names], "expected one of")
        return "topic", f"no topic is named `{harmless(topic)}`", known
    exercises = offered.topics[title]
    if exercise not in exercises:
        known = near(exercise, list(exercises), "expected one of")
        return "exercise", f"`{harmless(title)}` has no exercise `{harmless(exercise)}`", known
    parts = exercises[exercise]
    if part is None:
        everything = tuple(dict.fromkeys(name for names in parts.values() for name in names))
        return PartEvidence(topic=title, exercise=exercise, part="", marked_as=everything)
    if part not in parts:
        known = near(part, list(parts), "expected one of")
        return "part", f"`{harmless(exercise)}` has no part `{harmless(part)}`", known
    return PartEvidence(topic=title, exercise=exercise, part=part, marked_as=parts[part])


def _job(job: str, line: str | None, offered: Offer) -> JobEvidence | tuple[str, str, str]:
    if job not in offered.jobs:
        return "job", f"no job is named `{harmless(job)}`", near(job, list(offered.jobs), "expected one of")
    if line is None:
        return JobEvidence(job=job, line="")
    lines = {_SAME(text): text for text in offered.jobs[job]}
    if _SAME(line) not in lines:
        known = near(line, list(offered.jobs[job]), "expected one of")
        return "line", f"the observation sheet of `{job}` has no line `{harmless(line)}`", known
    return JobEvidence(job=job, line=lines[_SAME(line)])


def _meant(topic: str, topics: Iterable[str]) -> str | None:
    return next((title for title in topics if _SAME(title) == _SAME(topic)), None)


def _repeated(settings: Settings) -> Iterator[Fault]:
    seen: set[str] = set()
    for index, one in enumerate(settings.criteria):
        code = _SAME(one.code.strip())
        if code in seen:
            wrong = f"the criterion `{harmless(one.code)}` stands twice"
            yield settings.fault(("criteria", index, "code"), wrong, "each code once")
        seen.add(code)
