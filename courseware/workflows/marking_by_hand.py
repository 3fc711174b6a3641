"""A second marker at the screen: scripts as written, a mark for each part kept as it is typed, differences settled.

The same scripts, marks and decisions as by the second marker's sheet and the sheet on which two markers settle.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from courseware.database.entering import ON_SCREEN
from courseware.database.given_marks import SETTLED, given_marks, hands, keep_given, newest_given
from courseware.database.kept_decisions import KeptDecision, decisions_to_keep
from courseware.database.scripts import enter_scripts
from courseware.database.typed_cells import CellKey, SavedCell
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.script_sheet import decision
from courseware.papers.sheets import AskedPart, KeyAnswer, KeyExercise
from courseware.quality.marks_by_hand import HandMark, PartToMark, ScriptToMark, hand_mark
from courseware.quality.second_marking import Differences, same_marker
from courseware.settings.settings import Settings
from courseware.workflows.decisions_file import keep_decisions
from courseware.workflows.marking_grid import CellRefused, beside_script
from courseware.workflows.quality import compare_markers
from courseware.workflows.second_marking import scripts_to_mark

if TYPE_CHECKING:
    from sqlalchemy import Engine


class CannotSettle(ValueError):
    """A difference that cannot be settled so, and why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HandRow:
    """A script with what its second marker gave so far: `given` by part, as it would be typed."""

    script: ScriptToMark
    given: Mapping[str, str]

    @property
    def left(self) -> int:
        """How many parts are still to be marked."""
        return len(self.script.parts) - len(self.given)


@dataclass(frozen=True, slots=True, kw_only=True)
class HandGrid:
    """The scripts that a second marker may mark, and the codes of those that they marked first."""

    rows: tuple[HandRow, ...]
    own: tuple[str, ...]
    newest: int  # the number of the newest mark given by hand


@dataclass(frozen=True, slots=True, kw_only=True)
class BesideMark:
    """A part as a second marker sees it: question, key, what is written, and what was written before it."""

    code: str
    attempt: int
    label: str
    exercise: KeyExercise
    asked: AskedPart
    item: str
    answer: KeyAnswer
    part: PartToMark
    given: str
    earlier: tuple[PartToMark, ...]  # of its exercise


def hand_grid(engine: Engine, where: SittingFolder, marker: str) -> HandGrid:
    """The marked scripts as they were written, without anybody else's marks."""
    scripts = scripts_to_mark(engine, where)
    if not scripts:
        return HandGrid(rows=(), own=(), newest=0)
    code = where.sitting.code
    own = _own(engine, code, marker)
    given = _given(engine, code, marker)
    rows = (
        HandRow(script=one, given={part.label: given[key] for part in one.parts if (key := _key(one, part)) in given})
        for one in scripts
        if one.code not in own
    )
    left_out = tuple(one.code for one in scripts if one.code in own)
    return HandGrid(rows=tuple(rows), own=left_out, newest=newest_given(engine, code, "second"))


def read_hand_mark(engine: Engine, where: SittingFolder, key: CellKey, text: str, *, marker: str) -> HandMark:
    """What was typed for a part: whole marks, then a note if there is one. Raises `CellRefused`."""
    code, attempt, label = key
    if code in _own(engine, where.sitting.code, marker):
        raise CellRefused(f"{marker} marked {code} first; the second marker is another person")
    script = next((one for one in scripts_to_mark(engine, where, [code]) if one.attempt == attempt), None)
    if script is None:
        raise CellRefused("this script is not there to be marked; load the page again")
    if not text.strip():
        raise CellRefused("a mark that was given is not taken back; type the mark that it should have")
    marks, _, note = text.strip().partition(" ")
    read = hand_mark(script, label, marks, note)
    if isinstance(read, str):
        raise CellRefused(read)
    return read


def keep_hand_mark(
    engine: Engine, where: SittingFolder, key: CellKey, text: str, *, marker: str, at: datetime
) -> SavedCell:
    """Keeps one mark; once this returns it is on the disk. Raises `CellRefused`."""
    read = read_hand_mark(engine, where, key, text, marker=marker)
    added = keep_given(engine, where.sitting.code, [read], "second", by=marker, source=ON_SCREEN, at=at)
    return SavedCell(saved="entered" if added else "same", stands=_typed(read), by=marker)


def beside_marks(
    engine: Engine, where: SittingFolder, code: str, attempt: int, *, marker: str
) -> tuple[BesideMark, ...]:
    """Each part of a script with all that is needed to mark it; none where it is not this marker's to mark."""
    row = next((one for one in hand_grid(engine, where, marker).rows if _is(one.script, code, attempt)), None)
    if row is None:
        return ()
    parts = {part.label: part for part in row.script.parts}
    shown = beside_script(engine, where, code, attempt)
    return tuple(
        BesideMark(
            code=code, attempt=attempt, label=one.label, exercise=one.exercise, asked=one.asked, item=one.item,
            answer=one.answer, part=parts[one.label], given=row.given.get(one.label, ""),
            earlier=tuple(
                parts[before.label] for before in shown[:place]
                if before.exercise.asked.number == one.exercise.asked.number
            ),
        )
        for place, one in enumerate(shown)
    )  # fmt: skip


def settled_marks(engine: Engine, where: SittingFolder) -> dict[CellKey, KeptDecision]:
    """What two markers settled so far, by part."""
    kept = (one for one in decisions_to_keep(engine, where.sitting.code) if one.source == SETTLED)
    return {(one.decision.code, one.decision.attempt, one.decision.label): one for one in kept}


def settle(
    engine: Engine, where: SittingFolder, settings: Settings, typed: tuple[str, str, str, str], *, by: str, at: datetime
) -> Differences:
    """Enters what two markers agreed of a part: paper, part, marks and reason. Raises `CannotSettle`."""
    found = compare_markers(engine, where.sitting.code, settings)
    said = decision(*typed, sitting=where.sitting)
    if isinstance(said, str):
        raise CannotSettle(said)
    if said.marks is None or (said.code, said.label) not in {(one.code, one.label) for one in found.differences}:
        raise CannotSettle("write the marks agreed of a part that two marked differently, and the reason")
    entered = enter_scripts(engine, where.sitting.code, (), (said,), assessor=by, role="first", source=SETTLED, at=at)
    keep_decisions(engine, where, entered.pending)
    return found


def _own(engine: Engine, sitting: str, marker: str) -> frozenset[str]:
    """The papers of which somebody was the first marker."""
    me = same_marker(marker)
    return frozenset(code for code, names in hands(engine, sitting).items() if me in map(same_marker, names))


def _given(engine: Engine, sitting: str, marker: str) -> dict[CellKey, str]:
    me = same_marker(marker)
    return {one.key: _typed(one) for one in given_marks(engine, sitting, "second") if same_marker(one.by) == me}


def _typed(mark: HandMark) -> str:
    return f"{mark.marks} {mark.note}".strip()


def _key(script: ScriptToMark, part: PartToMark) -> CellKey:
    return script.code, script.attempt, part.label


def _is(script: ScriptToMark, code: str, attempt: int) -> bool:
    return (script.code, script.attempt) == (code, attempt)
