"""The register of sittings: entered as papers are issued, shown with the state of each script, entered into by hand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.errors import RecordFaulty
from courseware.database.register import (
    Entry,
    Registered,
    enter_in_register,
    exchanged,
    names_by_reference,
    register_of,
)
from courseware.database.sittings import take
from courseware.database.states import Moved, ScriptState, confirm, release, script_states, take_back
from courseware.database.written_files import note_files
from courseware.files.atomic import one_at_a_time
from courseware.files.bank_files import NotFound
from courseware.files.record_location import opened, record_url
from courseware.files.sitting_files import SITTING
from courseware.files.sitting_folders import read_folder
from courseware.papers.codes import read_code
from courseware.papers.names import same_name
from courseware.papers.sitting import Sitting
from courseware.workflows.messages import advice_on
from courseware.workflows.watch import Watch

if TYPE_CHECKING:
    from sqlalchemy import Engine


@dataclass(frozen=True, slots=True, kw_only=True)
class RegisterLine:
    """A paper in the register, and the state of its script where one was handed in."""

    paper: Registered
    script: ScriptState | None

    @property
    def words(self) -> str:
        """How it stands, in words: the script's state, else the register's entry."""
        if self.script is not None and self.paper.scripts:
            return self.script.words
        reason = f": {self.paper.reason}" if self.paper.reason else ""
        return f"{self.paper.stands}{reason}"


def register_lines(engine: Engine, sitting: str) -> tuple[RegisterLine, ...]:
    """The register of a sitting, by its code in the record, in the order of issue."""
    scripts = {one.code: one for one in script_states(engine, sitting)}
    return tuple(RegisterLine(paper=one, script=scripts.get(one.code)) for one in register_of(engine, sitting))


def enter(
    engine: Engine, sitting: str, who: str, entry: Entry, *, due: str = "", reason: str = "", by: str
) -> Registered:
    """Enters something about one learner's paper, named by code, reference or name. Raises `NotFound`."""
    [code] = papers_named(engine, sitting, [who])
    return enter_in_register(engine, code, entry, due=due, reason=reason.strip(), by=by, at=datetime.now(UTC))


def confirm_scripts(engine: Engine, sitting: str, whose: Sequence[str], *, by: str) -> Moved:
    """Confirms the marked scripts of a sitting, or of those named by code, reference or name."""
    return confirm(engine, sitting, papers_named(engine, sitting, whose), by=by, at=datetime.now(UTC))


def release_scripts(engine: Engine, sitting: str, whose: Sequence[str], *, by: str) -> Moved:
    """Releases the confirmed scripts of a sitting, or of those named."""
    return release(engine, sitting, papers_named(engine, sitting, whose), by=by, at=datetime.now(UTC))


def take_scripts_back(engine: Engine, sitting: str, whose: Sequence[str], *, reason: str, by: str) -> Moved:
    """Takes back the confirmation or release of a sitting's scripts, or of those named, for a reason."""
    named = papers_named(engine, sitting, whose)
    return take_back(engine, sitting, named, reason=reason.strip(), by=by, at=datetime.now(UTC))


def papers_named(engine: Engine, sitting: str, whose: Sequence[str]) -> tuple[str, ...]:
    """The codes of the papers of those named, each by code, reference or name; () where nobody is named.

    Raises `NotFound` for a name that is nobody's, or several learners'.
    """
    papers = register_of(engine, sitting) if whose else ()
    found: dict[str, None] = {}
    for who in whose:
        own = [
            one.code
            for one in papers
            if one.code == read_code(who) or same_name(who) in {same_name(one.name), same_name(one.reference)} - {""}
        ]
        if len(own) != 1:
            raise NotFound(
                f"{'more than one learner is' if own else 'no learner of the sitting is'} called {who}; "
                "give the code of the paper"
            )
        found[own[0]] = None
    return tuple(found)


def take_in(folder: Path, watch: Watch, *, by: str = "", record: str | None = None) -> None:
    """Takes a sitting just issued into its record, whose register has each paper from then on.

    Where that cannot be, its papers are issued all the same, and what to do is told.
    """
    out = folder.resolve().parent
    try:
        new = read_folder(folder)
        with one_at_a_time(out, watch.waiting), opened(record_url(record, out), make=True) as engine:
            for names in _exchanged(new.sitting, names_by_reference(engine)):
                watch.note(names)
            take(engine, new.sitting, new.text, at=datetime.now(UTC), by=by)
            note_files(engine, [folder / SITTING])
    except (NotFound, RecordFaulty, OSError) as refused:
        why = advice_on(refused) if isinstance(refused, OSError) else str(refused)
        if not why:
            raise
        where = "" if record else f" --out {out}"
        watch.note(
            f"the papers are issued, but the record did not take them in: {why}. Do not issue them again: when that "
            f"is put right, marking them enters them, or `courseware record take {folder}{where}`"
        )


def _exchanged(sitting: Sitting, before: Mapping[str, str]) -> Iterator[str]:
    """Names that have changed places between this sitting's references and those of the register."""
    own = {paper.learner.reference: paper.learner.name for paper in sitting.papers if paper.learner.reference}
    for one, two in exchanged(before, own):
        yield (
            f"{own[one]} and {own[two]} have changed places: {one} was {before[one]}'s reference and {two} "
            f"{before[two]}'s. Look at the class list; `courseware rename` puts a name and its reference right"
        )
