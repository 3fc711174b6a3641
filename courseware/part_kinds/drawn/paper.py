"""A drawing, or a few words, on a paper: nothing in the sitting, room on the paper, points on the key."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

from courseware.banks.part import Solved
from courseware.papers.part_kind import Entries, KindOnPaper, Scope, Seal, Site, entry_of, question
from courseware.papers.sheets import AskedPart, KeyAnswer
from courseware.papers.sitting import IssuedPart
from courseware.part_kinds.drawn.bank import DrawnPart


def _issue(solved: Solved, own: tuple[str, ...], _: Scope, __: Site, ___: Seal) -> list[IssuedPart]:
    return [entry_of(solved.part, own[0])]


def _asked(solved: Solved, own: Entries, scope: Scope, site: Site) -> AskedPart:
    part = cast("DrawnPart", solved.part)
    asked = question(part, own, scope, site)
    return replace(asked, size=part.size, lines=part.lines, note="in a few words" if part.lines else "")


def _key(solved: Solved, own: Entries, scope: Scope, site: Site) -> tuple[KeyAnswer, ...]:
    part = cast("DrawnPart", solved.part)
    each = part.marks // len(part.points)
    points = tuple(f"{point.render(scope, site)} [{each}]" for point in part.points)
    return (KeyAnswer(label=own[0].label, answer="Marked by eye against the points", notes=points, by_eye=True),)


def points_of(answer: KeyAnswer) -> list[str]:
    """The points of a key, without the marks that stand behind each."""
    return [note.rpartition(" [")[0] for note in answer.notes]


KIND = KindOnPaper(issue=_issue, asked=_asked, key=_key)
