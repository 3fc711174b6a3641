"""Issuing a sitting, and making its PDFs again from the record alone."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Sequence
from pathlib import Path

from courseware.banks import Bank, SafetyNotes, Space
from courseware.desk.folder import Unfinished, begin, finish, one_at_a_time, slug, write_whole
from courseware.marking.marking_sheet import marking_sheet
from courseware.papers.deal import Chosen, Heads, deal_sitting
from courseware.papers.record import RecordFaulty, read_record, write_record
from courseware.papers.sitting import Sitting
from courseware.printing.gather import gather
from courseware.printing.workers import Sheet, print_grid, print_sheets

RECORD = "sitting.json"
LEARNERS, TUTOR = "for-learners", "for-tutor"
Tell = Callable[[int], None]


def issue(
    heads: Heads,
    banks: Sequence[Bank],
    safety: SafetyNotes | None,
    chosen: Sequence[Chosen],
    spaces: Sequence[Space],
    out: Path,
    processes: int,
    tell: Tell,
    waiting: Callable[[], None],
    *,
    typed_seed: str | None,
) -> tuple[Path, bool]:
    """Writes the sitting's folder under `out`. Returns it, and whether it went on from a stopped run."""
    name = "-".join(filter(None, (heads.date, slug(heads.title), slug(heads.group.name))))
    request = _request(heads, chosen, typed_seed)
    with one_at_a_time(out, waiting):
        unfinished = begin(out, name, request)
        record_file = unfinished.path / RECORD
        if not record_file.exists():
            sitting = deal_sitting(heads, banks, safety, chosen, spaces)
            write_whole(record_file, write_record(sitting).encode(), 0o600)
        record = record_file.read_text(encoding="utf-8")
        _print_all(record, unfinished.path, processes, tell)
        return finish(unfinished), unfinished.resumed


def again(record_file: Path, out: Path, processes: int, tell: Tell, waiting: Callable[[], None]) -> Path:
    """Re-makes a sitting's folder from its record, under `out`. Raises `RecordFaulty`."""
    try:
        record = record_file.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        raise RecordFaulty(f"{record_file} cannot be read") from None
    sitting = read_record(record)
    for source in sitting.banks:
        if hashlib.sha256(source.text.encode()).hexdigest() != source.sha256:
            raise RecordFaulty(f"the text of {source.file} in it is not the text that was issued")
    with one_at_a_time(out, waiting):
        name = f"{sitting.date}-{slug(sitting.title)}-again"
        unfinished: Unfinished = begin(out, name, hashlib.sha256(record.encode()).hexdigest())
        write_whole(unfinished.path / RECORD, record.encode(), 0o600)
        _print_all(record, unfinished.path, processes, tell)
        return finish(unfinished)


def _print_all(record: str, folder: Path, processes: int, tell: Tell) -> None:
    sitting = read_record(record)
    (folder / LEARNERS).mkdir(exist_ok=True)
    (folder / TUTOR).mkdir(mode=0o700, exist_ok=True)
    sheets = [Sheet(place=place, key=key) for place in range(len(sitting.papers)) for key in (False, True)]
    left = [sheet for sheet in sheets if not _file(folder, sitting, sheet).exists()]
    tell(len(sheets) - len(left))

    def take(sheet: Sheet, pdf: bytes) -> None:
        write_whole(_file(folder, sitting, sheet), pdf, 0o600 if sheet.key else 0o644)
        tell(1)

    print_sheets(record, left, processes, take)
    for key, name in ((False, f"{LEARNERS}/all-papers.pdf"), (True, f"{TUTOR}/all-keys.pdf")):
        ordered = [_file(folder, sitting, sheet) for sheet in sheets if sheet.key is key]
        temporary = (folder / name).with_suffix(".part")
        gather(ordered, temporary)
        temporary.chmod(0o600 if key else 0o644)
        temporary.replace(folder / name)
    write_whole(folder / TUTOR / "class-grid.pdf", print_grid(record), 0o600)
    write_whole(folder / TUTOR / "marking-sheet.xlsx", marking_sheet(sitting), 0o600)


def _file(folder: Path, sitting: Sitting, sheet: Sheet) -> Path:
    code = sitting.papers[sheet.place].code
    return folder / TUTOR / f"key-{code}.pdf" if sheet.key else folder / LEARNERS / f"paper-{code}.pdf"


def _request(heads: Heads, chosen: Sequence[Chosen], typed_seed: str | None) -> str:
    """What makes two requests the same: a stopped run is gone on with only for these."""
    told = [
        heads.title, heads.date, heads.group.name, heads.arris_rule, heads.version, typed_seed,
        [[learner.name, learner.reference] for learner in heads.group.learners],
        sorted({bank.sha256 for bank, _ in chosen}),
    ]  # fmt: skip
    return hashlib.sha256(json.dumps(told).encode()).hexdigest()
