"""What a job's page shows beside its form: the elevation with its figures and cautions, or why it cannot be built."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from courseware.banks.figures import write_out
from courseware.desk.job_fields import label_of
from courseware.drawings.picture import Picture
from courseware.files.bank_files import shipped_notes
from courseware.jobs import pictures
from courseware.jobs.order import order_rows
from courseware.jobs.plan import plan_of
from courseware.jobs.sheets import DEFERS, cautions, safe_steps
from courseware.jobs.task import Task
from courseware.jobs.tried import Instead, Tried
from courseware.practice.lean_svg import lean_svg


@dataclass(frozen=True, slots=True, kw_only=True)
class JobSeen:
    """A job as it would be built, all as finished text; or, without drawings, what is wrong and what would work."""

    elevation: str = ""  # SVG
    section: str = ""
    figures: tuple[tuple[str, str], ...] = ()
    order: tuple[tuple[str, str, str, str], ...] = ()  # what, for one bay, for the class, unit
    steps: tuple[str, ...] = ()  # that keep the wall from going over
    cautions: tuple[tuple[str, str], ...] = ()
    told: tuple[tuple[str, str], ...] = ()  # what it is about, and why it cannot be
    instead: tuple[Instead, ...] = ()


def job_seen(tried: Tried) -> JobSeen:
    """What became of a job's text, to be shown."""
    if tried.task is None:
        return JobSeen(
            told=tuple((label_of(one.key) if one.key else "", one.says) for one in tried.told), instead=tried.instead
        )
    return _built(tried.task)


def _built(task: Task) -> JobSeen:
    plan = plan_of(task)
    notes = shipped_notes()
    return JobSeen(
        elevation=_svg(pictures.elevation(plan)),
        section=_svg(pictures.section(plan)),
        figures=plan.figures,
        order=tuple(
            (what.strip(), write_out(one) if one else "", write_out(for_class), unit)
            for what, one, for_class, unit in order_rows(plan)
        ),
        steps=safe_steps(plan),
        cautions=(*cautions(plan, notes), ("Before any of it", DEFERS)),
    )


@lru_cache(maxsize=64)
def _svg(picture: Picture) -> str:
    return lean_svg(picture)
