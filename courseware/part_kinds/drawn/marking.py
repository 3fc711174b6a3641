"""A drawing, or a few words, marked by the points that the assessor saw in it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import cast

from courseware.banks.part import Part
from courseware.marking.judge import Verdict
from courseware.marking.lettered import LONGEST, left_out
from courseware.marking.part_kind import KindInMarking, NotRead, Others, Work
from courseware.papers.sitting import IssuedPart
from courseware.part_kinds.drawn.bank import DrawnPart
from courseware.words import listed

_SEEN, _NOT_SEEN = ("y", "yes", "1", "✓", "✔"), ("n", "no", "0", "✗", "✘", "x")
_SIGN = re.compile("|".join(sorted(_SEEN + _NOT_SEEN, key=len, reverse=True)))


def _mark(row: Part, _: IssuedPart, __: Work, typed: str, ___: Others) -> Verdict:
    points = cast("DrawnPart", row).points
    return left_out(typed) or mark_ticks(read_ticks(typed.strip(), len(points)), row.marks)


def read_ticks(typed: str, count: int) -> tuple[bool, ...]:
    """A truth for each point, as y or n. Raises `NotRead` where there is not one for each."""
    text = re.sub(r"[\s,;/.|-]+", "", typed[:LONGEST]).casefold()
    if text in {"all", "none"}:
        return (text == "all",) * count
    characters = _SIGN.findall(text)
    if "".join(characters) != text or len(characters) != count:
        raise NotRead(f"write y or n for each of the {count} points, as {'y' * (count - 1)}n; or all, or none")
    return tuple(character in _SEEN for character in characters)


def mark_ticks(ticks: Sequence[bool], of: int) -> Verdict:
    """A drawing, by the points that the assessor saw in it."""
    met = sum(ticks)
    if met == len(ticks):
        return Verdict(how="right", marks=of, why="Every point is there.")
    marks = met * (of // len(ticks))
    missing = ", ".join(str(number) for number, tick in enumerate(ticks, 1) if not tick)
    why = f"{met} of {len(ticks)} points; missing: point {missing}."
    return Verdict(how="partly" if marks else "wrong", marks=marks, why=why)


def _read(row: Part, _: IssuedPart, __: Work, typed: str) -> str:
    """`points 1 and 3 seen, 2 not`."""
    if (verdict := left_out(typed)) is not None:
        return "not reached" if verdict.how == "unreached" else ""
    ticks = read_ticks(typed.strip(), len(cast("DrawnPart", row).points))
    seen, not_seen = ([str(n) for n, tick in enumerate(ticks, 1) if tick is is_seen] for is_seen in (True, False))
    if not seen or not not_seen:
        return "every point seen" if seen else "no point seen"
    return f"{'point' if len(seen) == 1 else 'points'} {listed(seen)} seen, {listed(not_seen)} not"


def _invented(_: IssuedPart, draw: int) -> str:
    return "all" if draw < 70 else "none"


KIND = KindInMarking(
    cell="y or n for each point of the key: yyn; or all, or none", mark=_mark, invented=_invented, read=_read
)
