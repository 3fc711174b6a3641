"""An order on a paper: its steps out of order, by letters, and the pairs of letters that bind."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import cast

from courseware.banks.part import Solved
from courseware.papers.codes import shuffled
from courseware.papers.part_kind import LETTERS, Entries, KindOnPaper, Scope, Seal, Site, entry_of, question
from courseware.papers.sheets import AskedPart, KeyAnswer
from courseware.papers.sitting import IssuedPart
from courseware.part_kinds.order.bank import OrderPart


def _issue(solved: Solved, own: tuple[str, ...], _: Scope, __: Site, seal: Seal) -> list[IssuedPart]:
    order = cast("OrderPart", solved.part)
    shown = shuffled_out_of_order(order, *seal)
    letter = {order.steps[index][0]: LETTERS[place] for place, index in enumerate(shown)}
    pairs = tuple((letter[earlier], letter[later]) for earlier, later in order.before)
    answer = ",".join(letter[name] for name in one_order(order))
    return [entry_of(order, own[0], answer, shown, pairs)]


def one_order(part: OrderPart) -> list[str]:
    """Step names in a sequence that keeps every pair: the bank's own where it does, else nearest to it."""
    left = [name for name, _ in part.steps]
    ordered: list[str] = []
    while left:
        free = next(name for name in left if not any(b == name and a in left for a, b in part.before))
        left.remove(free)
        ordered.append(free)
    return ordered


def shuffled_out_of_order(part: OrderPart, *key: str) -> list[int]:
    """The places of the steps as printed: shuffled, and not already in a right order."""
    place = {name: index for index, (name, _) in enumerate(part.steps)}
    for turn in range(100):
        shown = shuffled(range(len(part.steps)), *key, part.name, str(turn))
        stands = {index: where for where, index in enumerate(shown)}
        if any(stands[place[a]] > stands[place[b]] for a, b in part.before):
            return shown
    return shown


def _asked(solved: Solved, own: Entries, scope: Scope, site: Site) -> AskedPart:
    part = cast("OrderPart", solved.part)
    says = [part.steps[index][1].render(scope, site) for index in own[0].shown]
    note = "Write the letters in order, first to last."
    return replace(question(part, own, scope, site), note=note, options=tuple(zip(LETTERS, says, strict=False)))


def _key(solved: Solved, own: Entries, _: Scope, __: Site) -> tuple[KeyAnswer, ...]:
    pairs = tuple(f"{earlier} before {later}" for earlier, later in own[0].before)
    letters = own[0].answer.split(",")
    several = any(pair not in own[0].before for pair in pairwise(letters))
    keeps = ("Right in any sequence that keeps: " if several else "Kept by: ") + "; ".join(pairs) + "."
    notes = (keeps, _by_pairs(solved.part.marks, len(pairs)))
    return (KeyAnswer(label=own[0].label, answer=", ".join(letters), notes=notes, open_order=several),)


def _by_pairs(marks: int, pairs: int) -> str:
    """What so many pairs kept earn, as the marking counts them: parts of a mark are cut off."""
    fewest = [(mark, -(-mark * pairs // marks)) for mark in range(1, marks + 1)]
    return "Marks for pairs kept: " + ", ".join(f"{mark} for {kept}" for mark, kept in fewest) + "."


KIND = KindOnPaper(issue=_issue, asked=_asked, key=_key)
