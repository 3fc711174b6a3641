"""A second marker at the screen: scripts as written, a mark for each part kept as it is typed, differences settled.

The same scripts, marks and decisions as by the second marker's sheet and the sheet on which two markers settle.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache
from typing import TYPE_CHECKING

from courseware.database.entering import ON_SCREEN
from courseware.database.errors import RecordRefuses
from courseware.database.given_marks import SETTLED, given_to_any, hands, keep_given, newest_given
from courseware.database.how_far import HowFar, how_far
from courseware.database.kept_decisions import KeptDecision, decisions_to_keep
from courseware.database.scripts import enter_scripts
from courseware.database.tables import GIVEN_MARK
from courseware.database.typed_cells import CellKey, SavedCell
from courseware.files.bank_files import NotFound
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.script_sheet import decision
from courseware.papers.sheets import AskedPart, KeyAnswer, KeyExercise
from courseware.quality.marks_by_hand import HandMark, PartToMark, ScriptToMark, hand_mark
from courseware.quality.second_marking import Differences, same_marker
from courseware.settings.settings import Settings
from courseware.workflows.decisions_file import keep_decisions
from courseware.workflows.marking_grid import CellRefused, beside_script
from courseware.workflows.quality import compare_markers
from courseware.workflows.second_marking import scripts_as_written
from courseware.workflows.waiting import decided_words

if TYPE_CHECKING:
    from sqlalchemy import Engine


class FirstMarksHidden(NotFound):
    """Who marks a sitting as second marker is not shown the first marks of it."""

    def __init__(self, sitting: str, marker: str) -> None:
        super().__init__(
            f"{marker} marks this sitting as the second marker, who is not shown the first marks: what two gave "
            "differently is shown once both have finished a script"
        )
        self.sitting = sitting


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


def see_first_marks(engine: Engine, where: SittingFolder, who: str, code: str = "") -> None:
    """Raises `FirstMarksHidden` for whoever gave second marks in a sitting, and was not the first marker of that paper.

    Where no paper is named: not of any of them.
    """
    sitting, me = where.sitting.code, same_marker(who)
    if not newest_given(engine, sitting, "second"):
        return
    if me not in {same_marker(one.by) for one in given_to_any(engine, sitting, "second")}:
        return
    first = hands(engine, sitting)
    if me not in {same_marker(name) for paper in ([code] if code else first) for name in first.get(paper, ())}:
        raise FirstMarksHidden(sitting, who)


def hand_grid(engine: Engine, where: SittingFolder, marker: str) -> HandGrid:
    """The marked scripts as they were written, without anybody else's marks."""
    try:
        scripts, own = _others(engine, where, marker)
    except RecordRefuses:  # it does not have the sitting yet
        return HandGrid(rows=(), own=(), newest=0)
    newest = newest_given(engine, where.sitting.code, "second")
    left_out = tuple(one.code for one in scripts if one.code in own)
    rows = _rows(engine, where, [one for one in scripts if one.code not in own], marker)
    return HandGrid(rows=rows, own=left_out, newest=newest)


def read_hand_mark(engine: Engine, where: SittingFolder, key: CellKey, text: str, *, marker: str) -> HandMark:
    """What was typed for a part: whole marks and a note if there is one, or a dash and why the mark is taken back.

    Raises `CellRefused`.
    """
    code, attempt, label = key
    scripts, own = _others(engine, where, marker)
    if code in own:
        raise CellRefused(f"{marker} marked {code} first; the second marker is another person")
    script = next((one for one in scripts if _is(one, code, attempt)), None)
    if script is None:
        raise CellRefused("this script is not there to be marked; load the page again")
    if not text.strip():
        raise CellRefused("to take a mark back type a dash and the reason, as: - wrong script")
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
    scripts, own = _others(engine, where, marker)
    there = [one for one in scripts if _is(one, code, attempt) and code not in own]
    if not there:
        return ()
    [row] = _rows(engine, where, there, marker, [code])
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
    engine: Engine,
    where: SittingFolder,
    settings: Settings,
    typed: tuple[str, str, str, str],
    *,
    by: str,
    at: datetime,
    seen: str | None = None,
) -> Differences:
    """Enters what two markers agreed of a part: paper, part, marks and reason. Raises `CannotSettle`.

    `seen` is what was settled of it when they looked, in words: where that is another by now, nothing is entered.
    """
    found = compare_markers(engine, where.sitting.code, settings)
    said = decision(*typed, sitting=where.sitting)
    if isinstance(said, str):
        raise CannotSettle(said)
    if said.marks is None or (said.code, said.label) not in {(one.code, one.label) for one in found.differences}:
        raise CannotSettle("write the marks agreed of a part that two marked differently, and the reason")
    before = [one.decision for key, one in settled_marks(engine, where).items() if key[::2] == (said.code, said.label)]
    stands = decided_words(before[-1] if before else None)
    if seen is not None and seen != stands:
        raise CannotSettle(f"it was settled meanwhile: {stands}; settle it once more to put yours in its place")
    entered = enter_scripts(engine, where.sitting.code, (), (said,), assessor=by, role="first", source=SETTLED, at=at)
    keep_decisions(engine, where, entered.pending)
    return found


def _others(engine: Engine, where: SittingFolder, marker: str) -> tuple[tuple[ScriptToMark, ...], frozenset[str]]:
    """All marked scripts as written, and the papers of which `marker` was the first marker."""
    scripts, first = _scripts(engine, where.sitting.code, how_far(engine, but=(GIVEN_MARK.name,)))
    me = same_marker(marker)
    return scripts, frozenset(code for code, names in first.items() if me in map(same_marker, names))


@lru_cache(maxsize=4)
def _scripts(engine: Engine, sitting: str, _: HowFar) -> tuple[tuple[ScriptToMark, ...], Mapping[str, tuple[str, ...]]]:
    """The scripts, and who marked each first: worked out once for each state of the first marking."""
    return scripts_as_written(engine, sitting), hands(engine, sitting)


def _rows(
    engine: Engine, where: SittingFolder, scripts: Sequence[ScriptToMark], marker: str, codes: Sequence[str] = ()
) -> tuple[HandRow, ...]:
    """The scripts with what `marker` gave to their answers as they are now."""
    me = same_marker(marker)
    given = {
        one.key: one for one in given_to_any(engine, where.sitting.code, "second", codes) if same_marker(one.by) == me
    }
    return tuple(
        HandRow(
            script=script,
            given={
                part.label: _typed(mark)
                for part in script.parts
                if (mark := given.get((script.code, script.attempt, part.label)))
                and mark.written.strip() == part.written.strip()
            },
        )
        for script in scripts
    )


def _typed(mark: HandMark) -> str:
    return "" if mark.withdrawn else f"{mark.marks} {mark.note}".strip()


def _is(script: ScriptToMark, code: str, attempt: int) -> bool:
    return (script.code, script.attempt) == (code, attempt)
