"""What an assessor measured and judged at a job, and whether it passes by the tolerance profile the job goes by."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Literal

from courseware.jobs.plan import Plan, shown_size
from courseware.papers.sitting_checks import is_plain
from courseware.text_files.did_you_mean import near
from courseware.text_files.faults import harmless

Verdict = Literal["pass", "fail", "open"]
Given = Literal["", "good", "enough", "not yet"]
GRADES: tuple[Given, ...] = ("good", "enough", "not yet")
JUDGED = (
    ("Joints", "alike and full everywhere", "alike but for a few", "uneven or not full"),
    ("Corners", "square, their joints even", "a joint a little uneven", "open, or out of square"),
    ("Face", "true and clean", "clean, a brick or two proud", "uneven or smeared"),
    ("Safe working", "all controls kept without reminding", "kept after a reminder", "stopped by the assessor"),
)
VERDICTS: Mapping[Verdict, str] = {"pass": "pass", "fail": "not yet", "open": "not all lines filled in"}
LONGEST_COMMENT, LONGEST_BAY, LONGEST_WHO = 1000, 40, 80  # characters
_SIZE = re.compile(r"[-−]?[0-9]{1,5}(?:[.,][0-9]{1,2})?")  # three figures after a comma could be thousands
_PRINTED = re.compile(r"[0-9]{1,5}(?:\.[0-9]{1,20})?")
_GRADES: Mapping[str, Given] = {"g": "good", "e": "enough", "n": "not yet", "notyet": "not yet", "not-yet": "not yet"}


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredResult:
    """A measured line, all in mm; `measured` is None where nothing was measured."""

    what: str
    target: Fraction
    allowed: Fraction
    measured: Fraction | None

    @property
    def verdict(self) -> Verdict:
        """Passes at the deviation allowed, and within it."""
        if self.measured is None:
            return "open"
        return "pass" if abs(self.measured - self.target) <= self.allowed else "fail"


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedResult:
    """A line judged by eye; '' where it was not judged."""

    what: str
    given: Given

    @property
    def verdict(self) -> Verdict:
        """Passes where the work is good, or good enough."""
        return "open" if not self.given else "fail" if self.given == "not yet" else "pass"


Result = MeasuredResult | JudgedResult


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """A photograph by its file and what was in it then (SHA-256); the record has no copy of it."""

    file: str
    sha256: str
    shows: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Observation:
    """A learner's work at a job as it was observed on a day. `code` is a paper of the learner, `job` its short name."""

    code: str
    job: str
    title: str
    bay: str
    day: str
    by: str
    profile: str
    results: tuple[Result, ...]
    photos: tuple[Photo, ...] = ()
    comment: str = ""
    learner_comment: str = ""

    @property
    def verdict(self) -> Verdict:
        """Fails where any line fails, passes where every line does, else it is open."""
        found = {result.verdict for result in self.results}
        return "fail" if "fail" in found else "open" if "open" in found or not found else "pass"


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedObservation:
    """What was typed, as it was typed: each line's figure or grade by the line's words, and who and when.

    `learner` is a paper code, a reference or the name as on the paper. `sizes` are the target and the deviation that
    the sheet prints for a line, where it has them.
    """

    learner: str
    by: str
    day: str
    lines: Mapping[str, str]
    bay: str = ""
    comment: str = ""
    learner_comment: str = ""
    photos: Sequence[tuple[str, str]] = ()  # file, what it shows
    sizes: Mapping[str, tuple[str, str]] | None = None


class ObservationFaulty(ValueError):
    """What was typed cannot be entered; every fault by its line's words ('' for none)."""

    def __init__(self, faults: Sequence[tuple[str, str]]) -> None:
        super().__init__("; ".join(f"{line}: {wrong}" if line else wrong for line, wrong in faults))
        self.faults = tuple(faults)


def observed(plan: Plan, typed: TypedObservation, *, job: str, code: str, photos: Sequence[Photo] = ()) -> Observation:
    """The observation in what was typed, judged by the plan's own targets and deviations.

    Raises `ObservationFaulty` with every fault.
    """
    faults = [*_about(typed), *_strange(plan, typed)]
    results: list[Result] = []
    for line in plan.lines:
        text = typed.lines.get(line.what, "").strip()
        if text and not _SIZE.fullmatch(text):
            faults.append((line.what, f"`{harmless(text)}` is not a size in mm; write 685 or 685.5"))
            text = ""
        measured = Fraction(text.replace(",", ".").replace("−", "-")) if text else None
        results.append(MeasuredResult(what=line.what, target=line.target, allowed=line.allowed, measured=measured))
    for what, *_ in JUDGED:
        text = typed.lines.get(what, "").strip()
        given = _grade(text)
        if given is None:
            faults.append((what, f"`{harmless(text)}` is no grade; write {', '.join(GRADES[:-1])} or {GRADES[-1]}"))
        results.append(JudgedResult(what=what, given=given or ""))
    if not faults and all(result.verdict == "open" for result in results):
        faults.append(("", "nothing is measured and nothing judged"))
    if faults:
        raise ObservationFaulty(faults)
    return Observation(
        code=code,
        job=job,
        title=plan.task.shape.job,
        bay=_line(typed.bay),
        day=typed.day,
        by=_line(typed.by),
        profile=f"{plan.task.profile.name} ({plan.task.profile.source})",
        results=tuple(results),
        photos=tuple(photos),
        comment=_line(typed.comment),
        learner_comment=_line(typed.learner_comment),
    )


def _about(typed: TypedObservation) -> Iterator[tuple[str, str]]:
    if not typed.learner.strip():
        yield "", "no learner is named; write a paper code, the reference or the name as on the paper"
    if not typed.by.strip() or not is_plain(_line(typed.by), LONGEST_WHO):
        yield "", f"the assessor's name is missing, or more than {LONGEST_WHO} plain characters"
    try:
        date.fromisoformat(typed.day)
    except ValueError:
        yield "", f"`{harmless(typed.day)}` is not a date; write it as 2026-11-25"
    for what, text, most in (
        ("the bay", typed.bay, LONGEST_BAY),
        ("the assessor's comment", typed.comment, LONGEST_COMMENT),
        ("the learner's comment", typed.learner_comment, LONGEST_COMMENT),
    ):
        if not is_plain(_line(text), most):
            yield "", f"{what} has more than {most} characters, or some that do not show"


def _strange(plan: Plan, typed: TypedObservation) -> Iterator[tuple[str, str]]:
    """Lines that the job has not, and sizes that are another job's, or this one's by other settings."""
    known = {line.what: (shown_size(line.target), shown_size(line.allowed)) for line in plan.lines}
    own = [*known, *(what for what, *_ in JUDGED)]
    for what, text in typed.lines.items():
        if text.strip() and what not in own:
            yield what, f"this job has no such line; {near(what, own, 'expected one of')}"
    for what, sizes in (typed.sizes or {}).items():
        if what in known and tuple(map(_as_shown, sizes)) != known[what]:
            target, allowed = known[what]
            wrong = f"the sheet has {harmless(sizes[0])} ± {harmless(sizes[1])}, the job {target} ± {allowed}"
            yield what, f"{wrong}: it is the sheet of another job, or was printed by other settings"


def _grade(text: str) -> Given | None:
    """The grade meant by what was typed: its word or first letter, in any case; None where it is none."""
    key = text.casefold().replace(" ", "")
    if not key:
        return ""
    return _GRADES.get(key) or next((grade for grade in GRADES if key == grade), None)


def _as_shown(size: str) -> str:
    """A size that a sheet prints, to as many places as the job's are compared by; as it is where it is no figure."""
    text = size.strip()
    return shown_size(Fraction(text)) if _PRINTED.fullmatch(text) else text


def _line(text: str) -> str:
    return " ".join(text.split())
