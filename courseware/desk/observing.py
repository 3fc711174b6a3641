"""An observation sheet as a form has it: its lines with their fields, what was typed, and sheets that were sent."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from courseware.desk.forms import Form, Upload
from courseware.files.atomic import slug, write_whole
from courseware.jobs.observation import GRADES, JUDGED, LONGEST_COMMENT, TypedObservation
from courseware.jobs.plan import Plan, shown_size

_SUFFIXES = (".xlsx", ".xlsm", ".csv")
_LONGEST = 40  # characters of a figure


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredField:
    """A measured line: its field, its words, the size it should have and the deviation allowed, in mm."""

    field: str
    what: str
    target: str
    allowed: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedField:
    """A line judged by eye: its field, its words, and what each grade means."""

    field: str
    what: str
    grades: tuple[tuple[str, str], ...]


def measured_fields(plan: Plan) -> tuple[MeasuredField, ...]:
    """The measured lines of a job, in their order."""
    return tuple(
        MeasuredField(
            field=f"measured-{place}", what=line.what, target=shown_size(line.target), allowed=shown_size(line.allowed)
        )
        for place, line in enumerate(plan.lines)
    )


def judged_fields() -> tuple[JudgedField, ...]:
    """The lines that are judged by eye."""
    return tuple(
        JudgedField(field=f"judged-{place}", what=what, grades=tuple(zip(GRADES, means, strict=True)))
        for place, (what, *means) in enumerate(JUDGED)
    )


def typed_observation(form: Form, plan: Plan) -> TypedObservation:
    """What was typed. The sizes that the page showed come back with it, so that another job's are told."""
    measured = measured_fields(plan)
    fields = {one.what: one.field for one in measured} | {one.what: one.field for one in judged_fields()}
    return TypedObservation(
        learner=form.text("learner")[: 4 * _LONGEST],
        by=form.text("by")[: 4 * _LONGEST],
        day=form.text("day")[:_LONGEST],
        bay=form.text("bay")[: 2 * _LONGEST],
        comment=form.text("comment")[: LONGEST_COMMENT + 1],
        learner_comment=form.text("learner_comment")[: LONGEST_COMMENT + 1],
        lines={what: form.text(field)[:_LONGEST] for what, field in fields.items()},
        sizes={
            one.what: (form.text(f"target-{one.field}")[:_LONGEST], form.text(f"allowed-{one.field}")[:_LONGEST])
            for one in measured
        },
    )


@contextmanager
def sheets_as_files(uploads: Sequence[Upload]) -> Iterator[Mapping[str, str]]:
    """Sheets that were sent as files in a folder of their own, for as long as they are read: path by the name sent."""
    with TemporaryDirectory(prefix="courseware-sheets-") as folder:
        found: dict[str, str] = {}
        for place, upload in enumerate(uploads, 1):
            name = Path(upload.name.replace("\\", "/")).name
            suffix = next((one for one in _SUFFIXES if name.lower().endswith(one)), ".csv")
            path = Path(folder) / f"{slug(Path(name).stem) or 'sheet'}-{place}{suffix}"
            write_whole(path, upload.data, 0o600)
            found[str(path)] = name
        yield found
