"""Scripts to be marked by a person who has not seen the program's marks: as a sheet to fill in, and read back."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from courseware.marking.marks import MarkedPaper
from courseware.papers.sheets import Key
from courseware.papers.sitting_checks import is_plain
from courseware.spreadsheets.rows import Row, TableFaulty, heading_key
from courseware.spreadsheets.table_in import read_table
from courseware.spreadsheets.xlsx_out import Page
from courseware.text_files.did_you_mean import near
from courseware.text_files.faults import Fault, harmless

TITLE = "Marks"
_COLUMNS = {
    "script": 15, "attempt": 9, "part": 8, "question": 50, "unit": 8, "written": 22, "the key": 22, "of": 6,
    "marks": 8, "note": 44,
}  # fmt: skip
_NEEDED = ("script", "attempt", "part", "marks")
_LONGEST_NOTE = 300
_LONGEST_MARK = 4  # figures
_TAKEN_BACK = frozenset("-–−")  # hyphen, en dash, minus: in the place of the marks, with the reason as its note
_MOST_FAULTS = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class PartToMark:
    """One part as the marker sees it: what was asked and written, what the key has, what it is worth."""

    label: str
    ask: str
    unit: str
    written: str
    key: str
    of: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ScriptToMark:
    """A script without any mark. `shown` is the name it goes by on the sheet: its code, or a letter."""

    code: str
    attempt: int
    shown: str
    parts: tuple[PartToMark, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HandMark:
    """A mark that a person gave to a part as it was written."""

    code: str
    attempt: int
    label: str
    marks: int
    note: str = ""
    written: str = ""
    by: str = ""
    withdrawn: str = ""  # the reason for which it is taken back; '': it is given

    @property
    def key(self) -> tuple[str, int, str]:
        """What it is a mark of: paper, attempt and part."""
        return self.code, self.attempt, self.label


def script_to_mark(marked: MarkedPaper, attempt: int, key: Key, shown: str = "") -> ScriptToMark:
    """A script as it was written; nothing of its marks but what each part is worth goes along."""
    asked = {
        answer.label: (part.rows[row].say if part.rows else part.ask, part.rows[row].unit if part.rows else part.unit,
                       answer.answer)
        for exercise in key.exercises
        for part, answers in exercise.by_part
        for row, answer in enumerate(answers)
    }  # fmt: skip
    parts = tuple(
        PartToMark(label=mark.label, ask=ask, unit=unit, written=mark.written, key=answer, of=mark.of)
        for mark in marked.marks
        for ask, unit, answer in (asked[mark.label],)
    )
    return ScriptToMark(code=marked.code, attempt=attempt, shown=shown or marked.code, parts=parts)


def hand_page(scripts: Sequence[ScriptToMark]) -> Page:
    """The sheet to fill in: a row a part, `marks` and `note` blank."""
    rows = [
        (script.shown, script.attempt, part.label, part.ask, part.unit, part.written, part.key, part.of, None, "")
        for script in scripts
        for part in script.parts
    ]
    return Page(title=TITLE, columns=_COLUMNS, rows=rows, freeze="D2")


def read_hand_marks(data: bytes, file: str, scripts: Sequence[ScriptToMark]) -> tuple[HandMark, ...]:
    """The marks filled in, each beside the answer that it was given to; rows without a mark are passed over.

    A dash in the place of the marks, with its reason as the note, takes back the mark that was given before.

    Raises `TableFaulty` with every fault by row: a script or part that is not to be marked, a mark that cannot be, a
    part twice, an answer that is another than the record has.
    """
    rows, _ = read_table(data, file, _is_ours, merges=True)
    headings = next(rows, None)
    if headings is None or not _is_ours(headings.cells):
        expected = f"expected a sheet with the headings {', '.join(_COLUMNS)}"
        raise TableFaulty((Fault(file, 1, 1, "this is not a sheet of marks given by hand", expected),))
    keys = [heading_key(heading) for heading in headings.cells]
    known = {(script.shown.casefold(), script.attempt): script for script in scripts}
    found: dict[tuple[str, int, str], HandMark] = {}
    faults: list[Fault] = []
    for row in rows:
        texts = dict(zip(keys, (cell.strip() for cell in row.cells), strict=False))
        if not (texts["marks"] or texts.get("note", "")):
            continue
        read = _mark(texts, known)
        if isinstance(read, HandMark) and read.key in found:
            read = f"part {read.label} of this script stands on an earlier row too"
        if isinstance(read, HandMark):
            found[read.key] = read
        else:
            faults.append(_fault(file, row, read))
    if faults:
        raise TableFaulty(tuple(faults[:_MOST_FAULTS]))
    return tuple(found.values())


def _mark(texts: Mapping[str, str], known: Mapping[tuple[str, int], ScriptToMark]) -> HandMark | str:
    """The mark in a row, or what is wrong with it."""
    attempt = texts["attempt"]
    script = known.get((texts["script"].casefold(), int(attempt) if _counts(attempt) else 0))
    if script is None:
        shown = dict.fromkeys(one.shown for one in known.values())
        return f"`{harmless(texts['script'])}`, attempt `{harmless(attempt)}`, is none of the scripts; " + near(
            texts["script"].upper(), list(shown), "expected one of"
        )
    part = next((part for part in script.parts if heading_key(part.label) == heading_key(texts["part"])), None)
    if part is not None and texts.get("written", part.written.strip()) != part.written.strip():
        return f"the answer to {part.label} is another now: `{harmless(part.written)}`; make the sheet again"
    return hand_mark(script, texts["part"], texts["marks"], texts.get("note", ""))


def hand_mark(script: ScriptToMark, label: str, marks: str, note: str) -> HandMark | str:
    """A mark as it was typed for a part of a script, or what is wrong with it; a dash takes back one given before."""
    part = next((part for part in script.parts if heading_key(part.label) == heading_key(label)), None)
    if part is None:
        return f"`{harmless(label)}` is no part of the script {script.shown}"
    back = marks in _TAKEN_BACK
    if not (back or (_counts(marks) and int(marks) <= part.of)):
        wrong = f"`{harmless(marks)}` is not a mark" if marks else "a note stands without its mark"
        return f"{wrong}; {part.label} takes whole marks from 0 to {part.of}"
    note = " ".join(note.split())
    if not is_plain(note, _LONGEST_NOTE):
        return f"the note has more than {_LONGEST_NOTE} characters, or some that do not show"
    if back and not note:
        return f"a mark is taken back with its reason; for {part.label} write a dash and the reason after it"
    own = HandMark(code=script.code, attempt=script.attempt, label=part.label, marks=0, written=part.written)
    return replace(own, withdrawn=note) if back else replace(own, marks=int(marks), note=note)


def unmarked(scripts: Sequence[ScriptToMark], marks: Sequence[HandMark]) -> Iterator[tuple[ScriptToMark, int]]:
    """The scripts that were begun and not finished, with how many of their parts have no mark."""
    given = {mark.key for mark in marks}
    for script in scripts:
        left = [part for part in script.parts if (script.code, script.attempt, part.label) not in given]
        if 0 < len(left) < len(script.parts):
            yield script, len(left)


def _fault(file: str, row: Row, wrong: str) -> Fault:
    return Fault(file, row.line, 1, wrong, "put it right, or empty the row's `marks` and `note`")


def _is_ours(headings: Sequence[str]) -> bool:
    return set(_NEEDED) <= {heading_key(heading) for heading in headings}


def _counts(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) <= _LONGEST_MARK
