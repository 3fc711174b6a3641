"""A sitting approved before it is printed: dealt for its assurer to look through, then printed as it was dealt."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.written_files import note_files
from courseware.files.atomic import PRIVATE, begin, finish, one_at_a_time, slug, write_whole
from courseware.files.bank_files import NotFound, read_banks, shipped_banks
from courseware.files.record_location import opened, record_url
from courseware.files.sitting_files import APPROVED, DEALT, TUTOR
from courseware.papers.compose import read_sources
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import SittingFaulty, read_sitting, write_sitting
from courseware.quality.assurer_sheet import assurer_sheet
from courseware.quality.criteria import criteria_of
from courseware.settings.settings import Settings
from courseware.workflows.criteria import issued_banks, offered
from courseware.workflows.watch import Watch

if TYPE_CHECKING:
    from courseware.quality.criteria import Criterion

REQUIRED = "required"


def must_be_approved(settings: Settings, approved_by: str) -> None:
    """Raises `NotFound` where the centre prints nothing before it is approved, and nobody has approved it."""
    if settings.approval == REQUIRED and not approved_by:
        raise NotFound(
            "your centre prints no papers before they are approved: deal them with --for-approval, then print them "
            "with --approved FOLDER --approved-by NAME"
        )


def write_for_approval(
    sitting: Sitting, settings: Settings, out: Path, watch: Watch, *, word: bool, record: str | None
) -> Path:
    """Writes a folder with the assurer's sheet and the sitting as dealt, from which papers are printed. Returns it.

    What is dealt stands in a file that no command takes for a sitting, so that nothing is printed from it by accident.
    """
    pdf = assurer_pdf(sitting, settings)
    dealt = json.dumps({"dealt": write_sitting(sitting), "word": word}, ensure_ascii=False)
    name = "-".join(filter(None, (sitting.date, slug(sitting.title), slug(sitting.group), "for-approval")))
    with one_at_a_time(out, watch.waiting):
        making = begin(out, name, hashlib.sha256(dealt.encode()).hexdigest())
        write_whole(making.path / DEALT, dealt.encode(), PRIVATE)
        write_whole(making.path / APPROVED, pdf, PRIVATE)
        folder = finish(making)
        with opened(record_url(record, out), make=True) as engine:
            note_files(engine, [folder / DEALT], [paper.code for paper in sitting.papers])
            note_files(engine, [folder / APPROVED])
    return folder


def read_dealt(folder: Path) -> tuple[Sitting, bool]:
    """The sitting dealt in such a folder, and whether editable copies were asked for. Raises `NotFound`."""
    file = folder / DEALT
    if not file.is_file():
        raise NotFound(f"{folder} is not a folder made with --for-approval; name the one that holds {DEALT}")
    try:
        data = json.loads(file.read_text(encoding="utf-8"))
        return read_sitting(data["dealt"]), bool(data["word"])
    except (OSError, ValueError, TypeError, KeyError, SittingFaulty):
        raise NotFound(f"{file} has been changed by hand; deal the papers again with --for-approval") from None


@dataclass(frozen=True, slots=True, kw_only=True)
class Dealt:
    """Papers that wait for somebody's approval: their folder, and what a list says of them."""

    path: Path
    title: str
    group: str
    date: str
    papers: int


def waiting_for_approval(out: Path) -> tuple[Dealt, ...]:
    """All papers in an output folder that were dealt and not printed yet; a folder changed by hand is left out."""
    found: list[Dealt] = []
    for file in sorted(out.glob(f"*/{DEALT}")):
        with suppress(NotFound):
            sitting, _ = read_dealt(file.parent)
            found.append(
                Dealt(
                    path=file.parent,
                    title=sitting.title,
                    group=sitting.group,
                    date=sitting.date,
                    papers=len(sitting.papers),
                )
            )
    return tuple(found)


def discard_dealt(folder: Path) -> None:
    """Takes away what was dealt, once it is printed; whatever else lies in the folder stays."""
    for name in (DEALT, APPROVED):
        (folder / name).unlink(missing_ok=True)
    with suppress(OSError):  # somebody's own file is in it
        folder.rmdir()


def keep_sheet(folder: Path, sitting: Sitting, settings: Settings) -> None:
    """Writes the assurer's sheet into the folder of a sitting that was approved, with who did."""
    write_whole(folder / TUTOR / APPROVED, assurer_pdf(sitting, settings), PRIVATE)


def assurer_pdf(sitting: Sitting, settings: Settings) -> bytes:
    """The assurer's sheet of a sitting as dealt, by the criteria of the centre's settings."""
    from courseware.printing.render import job_pdf

    sheet = assurer_sheet(sitting, read_sources(sitting), _criteria(sitting, settings), settings)
    return job_pdf(sheet)


def _criteria(sitting: Sitting, settings: Settings) -> Sequence[Criterion]:
    if not settings.criteria:
        return ()
    shipped = read_banks(shipped_banks())[0]
    return criteria_of(settings, offered((*issued_banks([sitting]), *shipped), settings))
