"""What a job's page shows beside its form: the elevation with its figures and cautions, or why it cannot be built."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from courseware.banks.figures import write_out
from courseware.desk.job_fields import FIELDS, MEASURED, label_of
from courseware.drawings.picture import Picture
from courseware.files.bank_files import shipped_notes
from courseware.jobs import pictures
from courseware.jobs.near_sizes import heights_near, widths_near
from courseware.jobs.order import order_rows
from courseware.jobs.plan import plan_of, shown_size
from courseware.jobs.sheets import DEFERS, cautions, safe_steps
from courseware.jobs.task import Task
from courseware.jobs.tried import Instead, Tried
from courseware.practice.lean_svg import lean_svg
from courseware.trade import FORMATS, UK_METRIC, TradeError, number

_LARGEST = 20_000  # mm


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


def small_picture(task: Task) -> str:
    """A job's elevation without sizes, as SVG, to know it by among others."""
    return _svg(pictures.in_small(plan_of(task)))


def nearest(measured: Mapping[str, str], format: str) -> tuple[tuple[str, str, str], ...]:
    """The openings nearest to one measured on site: the field, its value, and in words with the size it comes to.

    What is no size between 1 mm and 20 m is passed over; `format` is a brick format by name.
    """
    brick = FORMATS.get(format, UK_METRIC)
    found: list[tuple[str, str, str]] = []
    for name, field, near in zip(
        MEASURED, ("opening.bricks", "opening.courses"), (widths_near, heights_near), strict=True
    ):
        size = _size(measured.get(name, ""))
        for one in near(size, brick) if size else ():
            count = f"{FIELDS[field].label}: {one.count} {FIELDS[field].unit}"
            found.append((field, str(one.count), f"{count}, {shown_size(one.size)} mm{_more(one.more)}"))
    return tuple(found)


def _size(text: str) -> Fraction | None:
    try:
        size = number(text)
    except TradeError:
        return None
    return size if 1 <= size <= _LARGEST else None


def _more(more: Fraction) -> str:
    if not more:
        return ", as measured"
    return f", {shown_size(abs(more))} mm {'more' if more > 0 else 'less'}"


@lru_cache(maxsize=64)
def _svg(picture: Picture) -> str:
    return lean_svg(picture)
