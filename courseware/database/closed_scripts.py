"""Scripts that take no other answers: those of withdrawn papers, under appeal, and those whose marks are released."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sqlalchemy import Connection

from courseware.database.appeals import APPEALED, under_appeal
from courseware.database.deciding import Said
from courseware.database.entering import CellChange, Role
from courseware.database.errors import RecordRefuses
from courseware.database.register import withdrawn
from courseware.database.state_rows import ScriptKey, released_in
from courseware.marking.marks import Decision


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """What of a sitting is closed to markers of one role: withdrawn papers with the reason, and released scripts."""

    withdrawn: Mapping[str, str]
    released: frozenset[ScriptKey]
    appealed: Mapping[str, str]  # papers under appeal, with the day it was opened

    def refuse(self, attempt: int, changes: Iterable[CellChange]) -> None:
        """Raises `RecordRefuses` where one of these changes of a script's cells cannot be made."""
        for cell in changes:
            self.refuse_appealed(cell.code)
            if cell.code in self.withdrawn and cell.after:
                raise RecordRefuses(
                    f"the paper {cell.code} is withdrawn ({self.withdrawn[cell.code]}); take that back before it is "
                    "marked"
                )
            if (cell.code, attempt) in self.released:
                raise RecordRefuses(
                    f"the marks of {cell.code} are released, and {cell.label or 'its status'} would change from "
                    f"`{cell.before}` to `{cell.after}`: decide the mark with its reason, or take the release back "
                    "first"
                )

    def refuse_appealed(self, code: str) -> None:
        """Raises `RecordRefuses` where a paper is under appeal: its answers and decisions stay as they were."""
        if code in self.appealed:
            raise RecordRefuses(
                f"the paper {code} is under appeal since {self.appealed[code]}: its answers and marks stay as they "
                "are until the outcome is entered"
            )

    def refuse_appealed_decisions(self, on_sheet: Iterable[Decision], rows: Iterable[Said]) -> None:
        """Raises `RecordRefuses` where a sheet decides a part that was decided on appeal: it may be older than that."""
        last = {(row.decision.code, row.decision.label): row for row in rows}
        for decision in on_sheet:
            before = last.get((decision.code, decision.label))
            if before and before.source == APPEALED:
                raise RecordRefuses(
                    f"the mark of {decision.label} of {decision.code} was decided on appeal by {before.by}, and this "
                    "sheet would change it: take that line out of the sheet; `--decide` changes it with a new reason"
                )


def closed_in(connection: Connection, sitting: str, role: Role) -> Closed:
    """What is closed in a sitting, over an open connection. A second marker's script is released by nobody."""
    released = released_in(connection, sitting) if role == "first" else frozenset()
    return Closed(
        withdrawn=withdrawn(connection, sitting), released=released, appealed=under_appeal(connection, sitting)
    )
