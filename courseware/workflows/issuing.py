"""Issuing a sitting, and making its PDFs again from sitting.json alone."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from courseware.banks import Bank, SafetyNotes, Space
from courseware.files.atomic import Unfinished, begin, discard, finish, one_at_a_time, slug, write_whole
from courseware.files.sitting_files import (
    ALL_KEYS,
    ALL_PAPERS,
    GRID,
    LEARNERS,
    SHEET,
    SITTING,
    TUTOR,
    key_file,
    paper_file,
    word_file,
)
from courseware.marking.marking_sheet import marking_sheet
from courseware.papers.compose import compose_key
from courseware.papers.deal import Chosen, Heads, deal_sitting
from courseware.papers.sheet_format import format_words
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import SittingFaulty, read_sitting, settings_told, write_sitting
from courseware.papers.unused_variants import VariantsHad
from courseware.printing.versions import versions
from courseware.printing.workers import Sheet, print_grid, print_sheets, sitting_in, write_words
from courseware.settings.settings import Settings
from courseware.workflows.joined_files import Joined, write_joined
from courseware.workflows.watch import Stopped

Tell = Callable[[int], None]
_ISSUE, _COPIES = "issue ", "with copies "  # beginnings of a request, so that a later start knows what to go on with


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
    asked: object,
    had: Sequence[VariantsHad] = (),
    word: bool = False,
) -> tuple[Path, bool]:
    """Writes the sitting's folder under `out`. Returns it, and whether it went on from a stopped run.

    `asked` is what was asked for, as JSON has it: the same request goes on with the exercises that a stopped run chose.
    `had` is what each learner of a retake has had before.
    """
    name = folder_name(heads.date, heads.title, heads.group.name)
    made_with = versions()
    same = _request(heads, banks[0].settings, [asked, word], safety, typed_seed, made_with)
    request = f"{_ISSUE}{_COPIES if word else ''}{same}"
    with one_at_a_time(out, waiting):
        unfinished = begin(out, name, request)
        sitting_file = unfinished.path / SITTING
        if sitting_file.exists():
            text = sitting_file.read_text(encoding="utf-8")
        else:
            dealt = deal_sitting(heads, banks, safety, chosen, spaces, had)
            text = write_sitting(replace(dealt, made_with=made_with))
            del dealt  # a large class is large in memory
        sitting = read_sitting(text)  # before it is written: what cannot be read back is not issued
        write_whole(sitting_file, text.encode(), 0o600)
        return print_unfinished(unfinished, text, sitting, processes, tell, word=word), unfinished.resumed


def folder_name(date: str, title: str, group: str) -> str:
    """What a sitting's folder is called, unless another one is called so already."""
    return "-".join(filter(None, (date, slug(title) or "sitting", slug(group))))


def issue_dealt(
    sitting: Sitting, out: Path, processes: int, tell: Tell, waiting: Callable[[], None], *, word: bool
) -> tuple[Path, bool]:
    """Writes the folder of a sitting that was dealt before, as `issue` does. Raises `SittingFaulty`."""
    text = write_sitting(sitting)
    compose_all(text)
    name = folder_name(sitting.date, sitting.title, sitting.group)
    same = hashlib.sha256(text.encode()).hexdigest()
    with one_at_a_time(out, waiting):
        unfinished = begin(out, name, f"{_ISSUE}{_COPIES if word else ''}{same}")
        write_whole(unfinished.path / SITTING, text.encode(), 0o600)
        return print_unfinished(unfinished, text, sitting, processes, tell, word=word), unfinished.resumed


def print_unfinished(
    unfinished: Unfinished, text: str, sitting: Sitting, processes: int, tell: Tell, *, word: bool
) -> Path:
    """Prints what is wanting in a sitting's unfinished folder and moves it into its place, which it returns.

    Call it while holding the output folder. Where the run is `Stopped` for good, the folder is discarded.
    """
    try:
        _print_all(text, sitting, unfinished.path, processes, tell, word)
    except Stopped as stopped:
        if not stopped.kept:
            discard(unfinished)
        raise
    return finish(unfinished)


def asks_for_papers(request: str) -> bool:
    """Whether an unfinished folder's request is one of `issue`."""
    return request.startswith(_ISSUE)


def asks_for_copies(request: str) -> bool:
    """Whether such a request asks for editable copies too."""
    return request.startswith(f"{_ISSUE}{_COPIES}")


def again(
    text: str,
    sitting: Sitting,
    out: Path,
    processes: int,
    tell: Tell,
    waiting: Callable[[], None],
    *,
    word: bool = False,
    places: Sequence[int] = (),
) -> Path:
    """Re-makes a sitting's folder from its file's text, under `out`. Raises `SittingFaulty`.

    Of the learners at `places` alone where there are any: their papers and keys, and nothing of the class.
    """
    compose_all(text)
    with one_at_a_time(out, waiting):
        name = "-".join(filter(None, (sitting.date, slug(sitting.title), slug(sitting.group), "again")))
        request = hashlib.sha256(f"{text}{word}{list(places)}".encode()).hexdigest()
        unfinished: Unfinished = begin(out, name, request)
        write_whole(unfinished.path / SITTING, text.encode(), 0o600)
        if places:
            _print_each(text, sitting, unfinished.path, places, processes, tell, word)
        else:
            _print_all(text, sitting, unfinished.path, processes, tell, word)
        return finish(unfinished)


def compose_all(text: str) -> None:
    """Works out every sheet before a folder is begun, so that a sitting changed by hand is refused whole."""
    with fitting_its_banks():
        sitting, sources = sitting_in(text)
        for place in range(len(sitting.papers)):
            compose_key(sitting, place, sources)


@contextmanager
def fitting_its_banks() -> Iterator[None]:
    """While sheets are worked out. Raises `SittingFaulty`, whatever stumbles over a sitting changed by hand."""
    try:
        yield
    except SittingFaulty:
        raise
    except (LookupError, TypeError, ValueError, ArithmeticError):  # a bank's, a formula's, the trade core's
        raise SittingFaulty("what it says of its papers does not fit its banks; it has been changed by hand") from None


def sheets_each(word: bool) -> int:
    """How many files each learner's papers make: a paper and a key, and an editable copy of both."""
    return 4 if word else 2


def print_again(
    text: str, sitting: Sitting, folder: Path, places: Sequence[int], processes: int, tell: Tell, *, word: bool
) -> None:
    """Prints the sheets of the learners at `places` into a sitting's folder, which has all others, and joins them."""
    compose_all(text)
    sheets = [Sheet(place=place, key=key) for place in places for key in (False, True)]
    _print_sheets(text, sitting, folder, sheets, processes, tell, word)
    _print_joined(text, sitting, folder, processes)


def _print_all(text: str, sitting: Sitting, folder: Path, processes: int, tell: Tell, word: bool) -> None:
    _print_each(text, sitting, folder, range(len(sitting.papers)), processes, tell, word)
    _print_joined(text, sitting, folder, processes)
    write_whole(folder / TUTOR / SHEET, marking_sheet(sitting), 0o600)


def _print_each(
    text: str, sitting: Sitting, folder: Path, places: Sequence[int], processes: int, tell: Tell, word: bool
) -> None:
    """The sheets of the learners at `places` that are still wanting in a folder."""
    (folder / LEARNERS).mkdir(exist_ok=True)
    (folder / TUTOR).mkdir(mode=0o700, exist_ok=True)
    sheets = [Sheet(place=place, key=key) for place in places for key in (False, True)]
    left = [sheet for sheet in sheets if not _file(folder, sitting, sheet).exists()]
    tell(len(sheets) - len(left))
    _print_sheets(text, sitting, folder, left, processes, tell, word=False)
    if word:
        left = [sheet for sheet in sheets if not _word_file(folder, sitting, sheet).exists()]
        tell(len(sheets) - len(left))
        _write_words(text, sitting, folder, left, processes, tell)


def _print_sheets(
    text: str, sitting: Sitting, folder: Path, sheets: Sequence[Sheet], processes: int, tell: Tell, word: bool
) -> None:

    def take(sheet: Sheet, pdf: bytes) -> None:
        write_whole(_file(folder, sitting, sheet), pdf, 0o600 if sheet.key else 0o644)
        tell(1)

    print_sheets(text, sheets, processes, take)
    if word:
        _write_words(text, sitting, folder, sheets, processes, tell)


def _print_joined(text: str, sitting: Sitting, folder: Path, processes: int) -> None:
    """What holds the whole class: the files to print from, and the class grid."""
    codes = [paper.code for paper in sitting.papers]
    joined = (
        Joined(path=folder / ALL_PAPERS, sheets=tuple(folder / paper_file(code) for code in codes), mode=0o644),
        Joined(path=folder / ALL_KEYS, sheets=tuple(folder / key_file(code) for code in codes), mode=0o600),
    )
    write_joined(joined, processes)
    write_whole(folder / GRID, print_grid(text, len(codes), processes), 0o600)


def _write_words(
    text: str, sitting: Sitting, folder: Path, sheets: Sequence[Sheet], processes: int, tell: Tell
) -> None:
    """Editable copies; a learner's stands beside the paper, a key's beside the key."""

    def take(sheet: Sheet, copy: bytes) -> None:
        write_whole(_word_file(folder, sitting, sheet), copy, 0o600 if sheet.key else 0o644)
        tell(1)

    write_words(text, sheets, processes, take)


def _word_file(folder: Path, sitting: Sitting, sheet: Sheet) -> Path:
    code = sitting.papers[sheet.place].code
    return folder / word_file(key_file(code) if sheet.key else paper_file(code))


def _file(folder: Path, sitting: Sitting, sheet: Sheet) -> Path:
    code = sitting.papers[sheet.place].code
    return folder / (key_file(code) if sheet.key else paper_file(code))


def _request(
    heads: Heads,
    settings: Settings,
    asked: object,
    safety: SafetyNotes | None,
    typed_seed: str | None,
    made_with: Mapping[str, str],
) -> str:
    """What makes two requests the same: a stopped run is gone on with only for these."""
    told = [
        heads.title, heads.date, heads.group.name, settings.arris_rule, heads.version, heads.retake_of, heads.due,
        heads.approved_by, typed_seed,
        [
            [learner.name, learner.reference, format_words(learner.sheets)] for learner in heads.group.learners
        ],
        asked, safety.sha256 if safety else "", made_with, settings_told(settings),
    ]  # fmt: skip
    return hashlib.sha256(json.dumps(told).encode()).hexdigest()
