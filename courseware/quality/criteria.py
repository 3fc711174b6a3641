"""A centre's own criteria as it writes them: YAML read with every fault told, and only evidence that there can be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import PurePath

from pydantic import Field

from courseware.banks import Bank, BankFaulty, Exercise, Fault, harmless
from courseware.banks.formulas import near
from courseware.banks.read import shaped
from courseware.banks.shapes import Shape
from courseware.text_files.yaml_text import Keyed, place, read_yaml

_LONGEST_CODE, _LONGEST_SAYS = 30, 400
_SAME = str.casefold
_Path = tuple[str | int, ...]
Parts = Mapping[str, tuple[str, ...]]  # a part's name, or a table row's, to the names its marks go by


class EvidenceShape(Shape):
    """Where a criterion can be shown: in an exercise or one part of it, or at a job or one line of its sheet."""

    topic: str | None = Field(None, description="a topic by its title or short name, as `courseware topics` lists them")
    exercise: str | None = Field(None, description="an exercise of the topic by its name")
    part: str | None = Field(None, description="a part of the exercise, or a row of a table, by its name")
    job: str | None = Field(None, description="a job by its short name")
    line: str | None = Field(None, description="a line of the job's observation sheet, word for word")


class CriterionShape(Shape):
    """One of the centre's criteria."""

    code: str = Field(description="the centre's own code")
    says: str = Field(description="what the criterion says")
    evidence: list[EvidenceShape] = Field([], description="a list of evidence: topic, exercise, part; or job, line")


class CriteriaShape(Shape):
    """The file of criteria."""

    criteria: list[CriterionShape] = Field(description="a list of criteria: code, says, evidence", min_length=1)


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
    """A criterion and where it can be shown."""

    code: str
    says: str
    parts: tuple[PartEvidence, ...]
    jobs: tuple[JobEvidence, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """What evidence can come from: exercises with their parts, by topic; observation lines by job."""

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


def read_criteria(data: bytes, file: str, offered: Offer) -> tuple[Criterion, ...]:
    """The criteria in a file's bytes. Raises `BankFaulty` with every fault that can be told at once."""
    node = read_yaml(data, file)
    shape, faults, _ = shaped(CriteriaShape, node, file)
    if faults or shape is None:
        raise BankFaulty(faults)
    told: list[Fault] = []
    criteria = tuple(
        _criterion(one, ("criteria", index), node, file, offered, told) for index, one in enumerate(shape.criteria)
    )
    told += _repeated(shape, node, file)
    if told:
        raise BankFaulty(tuple(sorted(told, key=lambda fault: (fault.line, fault.column))))
    return criteria


def _parts(exercise: Exercise) -> Parts:
    found: dict[str, tuple[str, ...]] = {}
    for part in exercise.parts:
        rows = tuple(row.name for row in part.entries)
        found |= {part.name: rows, **{row: (row,) for row in rows}}
    return found


def _criterion(
    shape: CriterionShape, path: _Path, node: Keyed, file: str, offered: Offer, told: list[Fault]
) -> Criterion:
    parts: list[PartEvidence] = []
    jobs: list[JobEvidence] = []
    for key, text, most in (("code", shape.code, _LONGEST_CODE), ("says", shape.says, _LONGEST_SAYS)):
        if not text.strip() or len(text) > most:
            wrong = f"`{key}` is blank" if not text.strip() else f"`{key}` has {len(text)} characters"
            told.append(Fault(file, *place(node, (*path, key)), wrong, f"expected 1 to {most} characters"))
    for index, one in enumerate(shape.evidence):
        found = _evidence(one, offered)
        if isinstance(found, PartEvidence):
            parts.append(found)
        elif isinstance(found, JobEvidence):
            jobs.append(found)
        else:
            key, wrong, expected = found
            told.append(Fault(file, *place(node, (*path, "evidence", index, key)), wrong, expected))
    return Criterion(code=shape.code.strip(), says=" ".join(shape.says.split()), parts=tuple(parts), jobs=tuple(jobs))


def _evidence(one: EvidenceShape, offered: Offer) -> PartEvidence | JobEvidence | tuple[str, str, str]:
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


def _repeated(shape: CriteriaShape, node: Keyed, file: str) -> Iterator[Fault]:
    seen: set[str] = set()
    for index, one in enumerate(shape.criteria):
        code = _SAME(one.code.strip())
        if code in seen:
            where = place(node, ("criteria", index, "code"))
            yield Fault(file, *where, f"the criterion `{harmless(one.code)}` stands twice", "each code once")
        seen.add(code)
