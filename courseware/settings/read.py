"""From the bytes of `centre.yaml` to the centre's settings: every fault told at its line and column."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import fields
from datetime import date

from courseware.settings.settings import (
    APPROVALS,
    DEFAULTS,
    FIRST_MARKERS,
    MORTARS,
    UNSIGNED,
    Course,
    Retention,
    Settings,
    Signatures,
    Signed,
    WrittenCriterion,
    WrittenEvidence,
)
from courseware.settings.shapes import (
    ALWAYS,
    CentreShape,
    CourseShape,
    CriterionShape,
    RetentionShape,
    SignaturesShape,
    SignedShape,
)
from courseware.text_files.did_you_mean import near
from courseware.text_files.faults import Fault, FileFaulty, harmless
from courseware.text_files.shapes import Path, shaped
from courseware.text_files.yaml_text import beside, read_on
from courseware.text_files.yaml_tree import Keyed, place
from courseware.trade import ARRIS_RULES

LONGEST_NAME, LONGEST_SAYS, LONGEST_WHO, MOST_WHO = 100, 300, 40, 6
LONGEST_WORD = 30
LEAST_COURSE, MOST_COURSE = 5, 60  # weeks: a topic twice back, two weeks apart, to more than a year
LEAST_DAY, HIGHEST_DAY = 200, 3000  # mm: from a course of the highest bricks to a storey
WORD = re.compile(rf"[^\W\d_](?:[^\W\d_]|[ '’-](?=[^\W\d_])){{0,{LONGEST_WORD - 1}}}")
_STAND_IN: dict[str | int, object] = {"says": "x", "signed": ["x"]}
_Wrong = tuple[Path, str, str]  # where, what is wrong, what was expected


def read_settings(data: bytes, file: str) -> Settings:
    """The settings in a file's bytes; `file` names it in messages. Raises `FileFaulty` with every fault found."""
    node, told = read_on(data, file, may_be_empty=True)
    shape, faults, repaired = shaped(CentreShape, node, file, _STAND_IN)
    if shape is None:
        raise FileFaulty(beside(told, faults))
    found = [one for one in _wrong(shape) if not any(one[0][: len(path)] == path for path in repaired)]
    faults += tuple(Fault(file, *place(node, path), wrong, expected) for path, wrong, expected in found)
    if told or faults:
        raise FileFaulty(beside(told, faults))
    return _settings(shape, file, node)


def _settings(shape: CentreShape, file: str, node: Keyed) -> Settings:
    return Settings(
        name=_line(shape.name),
        arris_rule=shape.arris_rule or DEFAULTS.arris_rule,
        upright_joint=_line(shape.upright_joint) or DEFAULTS.upright_joint,
        mortar=shape.mortar or DEFAULTS.mortar,
        day_height=shape.day_height,
        tolerances=_line(shape.tolerances),
        signatures=_signatures(shape.signatures) if shape.signatures else DEFAULTS.signatures,
        retention=_retention(shape.retention) if shape.retention else DEFAULTS.retention,
        first_marker=shape.first_marker or DEFAULTS.first_marker,
        approval=shape.approval or DEFAULTS.approval,
        criteria=tuple(map(_criterion, shape.criteria)),
        course=_course(shape.course) if shape.course else None,
        file=file,
        node=node,
    )


def _line(text: str | None) -> str:
    """A text that may have been typed over several lines."""
    return " ".join((text or "").split())


def _signatures(shape: SignaturesShape) -> Signatures:
    def signed(one: SignedShape | None) -> Signed:
        return Signed(says=_line(one.says), signed=tuple(map(_line, one.signed))) if one else UNSIGNED

    return Signatures(**{sheet.name: signed(getattr(shape, sheet.name)) for sheet in fields(Signatures)})


def _retention(shape: RetentionShape) -> Retention:
    typed = {kind.name: getattr(shape, kind.name) for kind in fields(Retention)}
    return Retention(**{kind: None if months == ALWAYS else int(months) for kind, months in typed.items()})


def _course(shape: CourseShape) -> Course:
    return Course(
        starts=shape.starts, weeks=shape.weeks, without=tuple(shape.without), topics=tuple(map(_line, shape.topics))
    )


def _criterion(shape: CriterionShape) -> WrittenCriterion:
    evidence = tuple(WrittenEvidence(**one.model_dump()) for one in shape.evidence)
    return WrittenCriterion(code=shape.code, says=shape.says, rule=_line(shape.rule), evidence=evidence)


def _wrong(shape: CentreShape) -> Iterator[_Wrong]:
    """What the shape alone does not show."""
    if shape.name is not None:
        yield from _too_long(("name",), shape.name, LONGEST_NAME)
    if shape.tolerances is not None:
        yield from _too_long(("tolerances",), shape.tolerances, LONGEST_NAME)
    yield from _one_of("arris_rule", shape.arris_rule, ARRIS_RULES)
    yield from _one_of("mortar", shape.mortar, MORTARS)
    yield from _one_of("first_marker", shape.first_marker, FIRST_MARKERS)
    yield from _one_of("approval", shape.approval, APPROVALS)
    word = shape.upright_joint
    if word is not None and not WORD.fullmatch(_line(word)):
        expected = f"expected one or more words of letters, at most {LONGEST_WORD} characters, such as perp"
        yield ("upright_joint",), f"`{harmless(word)}` is not a word to print", expected
    if shape.day_height is not None and not LEAST_DAY <= shape.day_height <= HIGHEST_DAY:
        yield ("day_height",), "`day_height` is out of all reason", f"expected {LEAST_DAY} to {HIGHEST_DAY} mm"
    if shape.course is not None:
        yield from _no_course(shape.course)
    for sheet in fields(Signatures) if shape.signatures else ():
        if (signed := getattr(shape.signatures, sheet.name)) is not None:
            yield from _signs(("signatures", sheet.name), signed)


def _no_course(shape: CourseShape) -> Iterator[_Wrong]:
    days: list[tuple[Path, str]] = [(("course", "starts"), shape.starts)]
    days += [(("course", "without", index), day) for index, day in enumerate(shape.without)]
    for path, day in days:
        if not _is_day(day):
            yield path, f"`{harmless(day)}` is no day", 'expected a day such as "2026-09-07", from 2000 to 2100'
    if not LEAST_COURSE <= shape.weeks <= MOST_COURSE:
        expected = f"expected {LEAST_COURSE} to {MOST_COURSE}"
        yield ("course", "weeks"), f"`weeks` is {shape.weeks}, which no topic can come back in", expected
    for index, topic in enumerate(shape.topics):
        yield from _too_long(("course", "topics", index), topic, LONGEST_SAYS)
        if topic in shape.topics[:index]:
            yield ("course", "topics", index), f"`{harmless(topic)}` stands twice", "expected each topic once"


def _is_day(text: str) -> bool:
    try:
        return 2000 <= date.fromisoformat(text).year <= 2100 and len(text) == len("2026-09-07")
    except ValueError:
        return False


def _signs(path: Path, shape: SignedShape) -> Iterator[_Wrong]:
    if shape.says is not None:
        yield from _too_long((*path, "says"), shape.says, LONGEST_SAYS)
    if len(shape.signed) > MOST_WHO:
        yield (*path, "signed"), f"{len(shape.signed)} sign", f"at most {MOST_WHO} sign a sheet"
    for index, who in enumerate(shape.signed):
        yield from _too_long((*path, "signed", index), who, LONGEST_WHO)


def _too_long(path: Path, text: str, most: int) -> Iterator[_Wrong]:
    if not 1 <= len(_line(text)) <= most:
        key = next(step for step in reversed(path) if isinstance(step, str))
        said = f"has {len(_line(text))} characters" if text.strip() else "is blank"
        yield path, f"`{key}` {said}", f"expected 1 to {most} characters"


def _one_of(key: str, typed: str | None, known: Sequence[str]) -> Iterator[_Wrong]:
    if typed is not None and typed not in known:
        yield (key,), f"`{key}` is `{harmless(typed)}`", near(typed, known, "expected one of")
