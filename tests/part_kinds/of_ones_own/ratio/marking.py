"""A ratio marked: any two terms that stand to each other as the right ones do."""

from __future__ import annotations

import re

from courseware.marking.judge import Verdict
from courseware.marking.lettered import left_out
from courseware.marking.part_kind import KindInMarking, NotRead


def mark(row, entry, work, typed: str, others) -> Verdict:
    if verdict := left_out(typed):
        return verdict
    found = re.fullmatch(r"\s*(\d{1,4})\s*(?::|to)\s*(\d{1,4})\s*", typed)
    if found is None:
        raise NotRead("it does not read as a ratio, such as 1:4")
    one, other = map(int, entry.answer.split(":"))
    if int(found[1]) * other == int(found[2]) * one:
        return Verdict(how="right", marks=row.marks, why="Right.")
    return Verdict(how="wrong", marks=0, why=f"{entry.answer} is right.")


def invented(entry, draw: int) -> str:
    return entry.answer if draw < 62 else "1:1"


KIND = KindInMarking(cell="the ratio: 1:4, or 1 to 4", mark=mark, invented=invented)
