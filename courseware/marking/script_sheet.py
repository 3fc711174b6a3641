"""The marking sheet as it comes back: one row a paper, one cell a part, and the assessor's decisions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from courseware.marking.marks import WHOLE_PAPER, Decision, Script, Status
from courseware.papers.codes import read_code
from courseware.papers.names import printable_text, same_name
from courseware.papers.sitting import Sitting
from courseware.spreadsheets.rows import Row, TableFaulty, heading_key, repeated_heading, shown_headings, unused_columns
from courseware.spreadsheets.table_in import read_table
from courseware.text_files.did_you_mean import near
from courseware.text_files.faults import Fault, harmless, unseen

LONGEST_CELL = 200  # characters
_LONGEST_REASON = 300
_LONGEST_MARK = 4  # figures
MOST_ATTEMPTS = 10  # of one paper
_STATUS: Mapping[str, Status] = {
    "": "", "p": "", "present": "", "a": "absent", "absent": "absent", "l": "late", "late": "late",
    "r": "resubmitted", "resubmitted": "resubmitted",
}  # fmt: skip
_DECISION = ("code", "part", "marks", "reason")
_MOST_FAULTS = 50


class SheetFaulty(TableFaulty):
    """A marking sheet that cannot be used, with every fault found in it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scripts:
    """What a marking sheet holds: scripts in the order of its rows, decisions, and notes that should be read."""

    scripts: tuple[Script, ...]
    decisions: tuple[Decision, ...]
    notes: tuple[str, ...]
    blank: tuple[Script, ...] = ()  # rows with a code and nothing else: not in yet, or cleared since


def read_scripts(data: bytes, file: str, sitting: Sitting) -> Scripts:
    """The scripts in a CSV or XLSX marking sheet of a sitting. Raises `SheetFaulty` or `TableFaulty`.

    A row without any answer and without a status is a paper that has not come in yet.
    """
    rows, notes = read_table(data, file, _is_sheet, merges=True)
    headings = next(rows, None)
    if headings is None:
        raise SheetFaulty((Fault(file, 1, 1, "the sheet is empty", "expected a row of headings with `code`"),))
    columns = _columns(headings, sitting, file)
    faults: list[Fault] = []
    whose = _whose(headings)
    found = tuple(_scripts(rows, len(headings.cells), columns, sitting, file, faults, whose))
    decisions = tuple(_decisions(data, file, sitting, faults))
    if faults:
        raise SheetFaulty(tuple(faults[:_MOST_FAULTS]))
    told = tuple(note for note in notes if not note.startswith("Only the sheet"))
    scripts = tuple(script for script in found if says_something(script))
    blank = tuple(script for script in found if not says_something(script))
    return Scripts(scripts=scripts, blank=blank, decisions=decisions, notes=(*told, *_unused(headings, columns)))


def says_something(script: Script) -> bool:
    """Whether anything stands in a row but its code."""
    return bool(script.status or script.unread or any(text.strip() for text in script.cells.values()))


def read_status(typed: str) -> Status | None:
    """The status that a cell says, by its word or its first letter; None where it says something else."""
    return _STATUS.get(typed.strip().casefold())


def decision(code: str, label: str, marks: str, reason: str, comment: str = "", *, sitting: Sitting) -> Decision | str:
    """An assessor's decision as typed, or what is wrong with it."""
    own = read_code(code)
    paper = next((paper for paper in sitting.papers if paper.code == own), None)
    if own is None or paper is None:
        return f"`{harmless(code)}` is not the code of a paper of this sitting"
    if heading_key(label) == WHOLE_PAPER:
        said = comment.strip() or reason.strip()
        if marks.strip() or not said:
            return "of a whole paper, write no mark, and say why its answers are this learner's"
        return _plain(Decision(code=own, label=WHOLE_PAPER, marks=None, reason="", comment=said))
    parts = {heading_key(part.label): part for part in paper.parts}
    part = parts.get(heading_key(label))
    if part is None:
        known = ", ".join([*(part.label for part in parts.values()), f"or `{WHOLE_PAPER}`"])
        return f"`{harmless(label)}` is not a part of the paper; parts are {known}"
    if not marks.strip():
        said = comment.strip() or reason.strip()
        return _plain(Decision(code=own, label=part.label, marks=None, reason="", comment=said))
    typed = marks.strip()
    if not (len(typed) <= _LONGEST_MARK and typed.isascii() and typed.isdigit() and int(typed) <= part.marks):
        return f"`{harmless(marks)}` is not a mark in whole marks from 0 to {part.marks}, which {part.label} is worth"
    if not reason.strip():
        return "a mark that an assessor decides needs its reason"
    return _plain(
        Decision(code=own, label=part.label, marks=int(marks), reason=reason.strip(), comment=comment.strip())
    )


def _plain(decided: Decision) -> Decision | str:
    for text in (decided.reason, decided.comment):
        if len(text) > _LONGEST_REASON:
            return f"the text `{harmless(text)}` has {len(text)} characters; at most {_LONGEST_REASON} are kept"
        if any(unseen(character) for character in text):
            return "the text holds characters that do not show"
    return decided


def _is_sheet(headings: Sequence[str]) -> bool:
    keys = [heading_key(heading) for heading in headings]
    return "code" in keys and "part" not in keys


def _is_decisions(headings: Sequence[str]) -> bool:
    keys = [heading_key(heading) for heading in headings]
    return all(key in keys for key in _DECISION)


def _columns(headings: Row, sitting: Sitting, file: str) -> dict[str, int]:
    """Where each part stands, by its label, and `code` and `status`. Raises `SheetFaulty` where one is missing."""
    if (again := repeated_heading(headings.cells)) is not None:
        wrong = f"the heading {shown_headings(headings.cells[again : again + 1])} stands twice"
        raise SheetFaulty((Fault(file, headings.line, again + 1, wrong, "expected each heading once"),))
    keys = {heading_key(heading): column for column, heading in enumerate(headings.cells)}
    labels = [part.label for part in sitting.papers[0].parts]
    faults = [
        Fault(file, headings.line, 1, f"there is no column `{name}`", "expected one column for each part, and `code`")
        for name in ("code", *labels)
        if heading_key(name) not in keys
    ]
    if faults:
        raise SheetFaulty(tuple(faults[:_MOST_FAULTS]))
    return {name: keys[heading_key(name)] for name in ("code", "status", *labels) if heading_key(name) in keys}


def _whose(headings: Row) -> dict[str, int]:
    """Where names and references stand, in a sheet that has them."""
    keys = {heading_key(heading): column for column, heading in enumerate(headings.cells)}
    return {name: keys[name] for name in ("name", "reference") if name in keys}


def _learners(sitting: Sitting) -> dict[str, dict[str, list[str]]]:
    """The codes of the papers by their learner's name, and by reference."""
    found: dict[str, dict[str, list[str]]] = {"name": {}, "reference": {}}
    for paper in sitting.papers:
        for what, text in (("name", paper.learner.name), ("reference", paper.learner.reference)):
            if text:
                found[what].setdefault(same_name(printable_text(text)), []).append(paper.code)
    return found


def _exchanged(
    script: Script, row: Row, whose: Mapping[str, int], learners: Mapping[str, Mapping[str, Sequence[str]]]
) -> Iterator[tuple[int, str, str]]:
    """What is wrong with a row beside whose code another paper's learner stands: column from 1, and what to do."""
    for what, column in whose.items():
        codes = learners[what].get(same_name(printable_text(row.cells[column])), ())
        if codes and script.code not in codes:
            wrong = f"the {what} in this row is that of the paper {codes[0]}, not of {script.code}"
            yield column + 1, wrong, "see on the paper whose it is, then put the code, or the name and reference, right"


def _scripts(
    rows: Iterator[Row],
    width: int,
    columns: Mapping[str, int],
    sitting: Sitting,
    file: str,
    faults: list[Fault],
    whose: Mapping[str, int],
) -> Iterator[Script]:
    codes, learners = {paper.code for paper in sitting.papers}, _learners(sitting)
    rows_of: dict[str, list[int]] = {}
    try:
        for row in rows:
            if len(faults) >= _MOST_FAULTS:
                return
            script = _script(row, width, columns, codes, file)
            if isinstance(script, Fault):
                faults.append(script)
            elif script is not None:
                yield script
                if says_something(script):
                    lines = rows_of.setdefault(script.code, [])
                    lines.append(row.line)
                    faults += [Fault(file, row.line, columns["code"] + 1, *told) for told in _again(script, lines)]
                    faults += [Fault(file, row.line, *told) for told in _exchanged(script, row, whose, learners)]
    except TableFaulty as broken:
        faults += broken.faults


def _again(script: Script, lines: Sequence[int]) -> Iterator[tuple[str, str]]:
    """What is wrong with a paper that stands in these rows, and what was expected."""
    if len(lines) > 1 and script.status != "resubmitted":
        expected = "one row a paper; write `resubmitted` under status where it came in again"
        yield f"the paper {script.code} stands on line {lines[0]} too", expected
    if len(lines) == MOST_ATTEMPTS + 1:
        yield f"the paper {script.code} stands in more than {MOST_ATTEMPTS} rows", "take rows out"


def _script(row: Row, width: int, columns: Mapping[str, int], codes: set[str], file: str) -> Script | Fault | None:
    cells = row.cells
    if len(cells) < width or any(cell.strip() for cell in cells[width:]):
        expected = "expected one cell under each heading: put quotation marks round an answer that holds the separator"
        return Fault(file, row.line, min(len(cells), width) + 1, f"{len(cells)} cells under {width} headings", expected)
    answers = {label: cells[place] for label, place in columns.items() if label not in {"code", "status"}}
    unread = {label: f"it {row.unread[place]}" for label, place in columns.items() if place in row.unread}
    typed, said = cells[columns["code"]].strip(), cells[columns["status"]].strip() if "status" in columns else ""
    if not typed and not any(text.strip() for text in answers.values()) and not said and not unread:
        return None
    code = read_code(typed)
    if code is None or code not in codes:
        wrong = f"`{harmless(typed)}` is not the code of a paper of this sitting" if typed else "no code stands here"
        hint = near(typed.upper(), sorted(codes), "").split("?")[0] if typed else ""
        expected = f"{hint}?" if hint.startswith("did") else "copy it from the head of the paper"
        return Fault(file, row.line, columns["code"] + 1, wrong, expected)
    status = read_status(said)
    if status is None:
        wrong = f"the status `{harmless(said)}` is not known"
        return Fault(file, row.line, columns["status"] + 1, wrong, "expected absent, late, resubmitted or nothing")
    long = next((label for label, text in answers.items() if len(text) > LONGEST_CELL), None)
    if long is not None:
        wrong = f"the answer to {long} has {len(answers[long])} characters"
        return Fault(file, row.line, columns[long] + 1, wrong, f"at most {LONGEST_CELL} are kept")
    return Script(code=code, cells=answers, status=status, line=row.line, unread=unread)


def _decisions(data: bytes, file: str, sitting: Sitting, faults: list[Fault]) -> Iterator[Decision]:
    """What stands on a workbook's sheet of decisions, where it has one."""
    if not file.lower().endswith((".xlsx", ".xlsm")):
        return
    rows, _ = read_table(data, file, _is_decisions, merges=True)
    headings = next(rows, None)
    if headings is None or not _is_decisions(headings.cells):
        return
    keys = [heading_key(heading) for heading in headings.cells]
    for row in rows:
        texts = dict(zip(keys, row.cells, strict=False))
        if not any(texts.get(name, "").strip() for name in ("marks", "reason", "comment")):
            continue  # a row laid out but not filled in
        found = decision(*(texts.get(name, "") for name in (*_DECISION, "comment")), sitting=sitting)
        if isinstance(found, Decision):
            yield found
        else:
            faults.append(Fault(f"{file}, sheet of decisions", row.line, 1, found, "mend this row"))


def _unused(headings: Row, columns: Mapping[str, int]) -> Iterator[str]:
    used = {*columns.values()}
    left = [text for place, text in enumerate(headings.cells) if place not in used]
    yield from unused_columns([text for text in left if heading_key(text) not in {"name", "reference"}])
