"""An observation sheet as a form has it: its lines with their fields, and what was typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from courseware.desk.forms import Form
from courseware.jobs.observation import GRADES, JUDGED, LONGEST_COMMENT, TypedObservation
from courseware.jobs.plan import Plan, shown_size

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


def typed_observation(form: Form, plan: Plan, photos: Mapping[str, Path]) -> TypedObservation:
    """What was typed. The sizes that the page showed come back with it, so that another job's are told.

    `photos` are the photographs that can be chosen, by the handle that the page has for each.
    """
    measured = measured_fields(plan)
    fields = {one.what: one.field for one in measured} | {one.what: one.field for one in judged_fields()}
    return TypedObservation(
        learner=form.text("learner")[: 4 * _LONGEST],
        by=form.text("by")[: 4 * _LONGEST],
        day=form.text("day")[:_LONGEST],
        bay=form.text("bay")[: 2 * _LONGEST],
        comment=form.text("comment")[: LONGEST_COMMENT + 1],
        learner_comment=form.text("learner_comment")[: LONGEST_COMMENT + 1],
        photos=tuple(
            (str(photos[handle]), form.text(f"shows-{handle}")[: 8 * _LONGEST])
            for handle in dict.fromkeys(form.texts("photo"))
            if handle in photos
        ),
        lines={what: form.text(field)[:_LONGEST] for what, field in fields.items()},
        sizes={
            one.what: (form.text(f"target-{one.field}")[:_LONGEST], form.text(f"allowed-{one.field}")[:_LONGEST])
            for one in measured
        },
    )
