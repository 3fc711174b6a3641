"""Exercises chosen from pictures of real questions, by topic, level and marks; then put in order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import Desk, desk_of
from courseware.desk.forms import read_form
from courseware.desk.render import page, said
from courseware.papers.exam_time import about_minutes
from courseware.papers.sheets import KeyExercise
from courseware.words import count
from courseware.workflows.exercises_at_hand import (
    BankAtHand,
    Drawn,
    ExerciseAtHand,
    Pick,
    Totals,
    banks_at_hand,
    drawn,
    find_exercises,
    totals,
)
from courseware.workflows.papers_begun import NotReady, PapersBegun, move, papers_begun, pick, sheets_of

ON_A_PAGE = 6  # exercises
_MARKS = {"few": (1, 3), "some": (4, 6), "many": (7, 999)}
_ALL = "all"


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """An exercise as it is shown: the question with its key and drawing, or why there is none."""

    one: ExerciseAtHand
    number: int  # on the page, from 1
    question: KeyExercise | None
    drawing: Drawn | None
    filled: Drawn | None
    turn: int
    on: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Filter:
    """What of all exercises is looked at; every field as the address has it."""

    topic: str = ""
    level: str = ""
    marks: str = ""
    page: int = 1
    of: str = ""  # the exercise that shows another variant, by its number on the page
    turn: int = 0

    def address(self, key: str, **changed: object) -> str:
        """Where this is looked at, with something changed."""
        values = {name: getattr(self, name) for name in self.__slots__} | changed
        told = {name: value for name, value in values.items() if value and (name, value) != ("page", 1)}
        return f"/papers/{key}/exercises{'?' if told else ''}{urlencode(told)}"

    def takes(self, one: ExerciseAtHand) -> bool:
        """Whether an exercise is of that level and of so many marks."""
        low, high = _MARKS.get(self.marks, (0, 999))
        return self.level in ("", str(one.exercise.level)) and low <= one.exercise.marks <= high


def filter_of(asked: Mapping[str, str]) -> Filter:
    """What an address or a form asks for; what makes no sense counts as not asked."""
    return Filter(
        topic=asked.get("topic", "")[:300],
        level=asked.get("level", "") if asked.get("level") in {"1", "2", "3"} else "",
        marks=asked.get("marks", "") if asked.get("marks") in _MARKS else "",
        page=max(1, _number(asked.get("page", ""))),
        of=str(_number(asked.get("of", "")) or ""),
        turn=_number(asked.get("turn", "")),
    )


def marks_words() -> tuple[tuple[str, str], ...]:
    """The choices of marks, each with the time that so many take, in words."""
    return (
        ("few", f"up to 3 marks, about {about_minutes(3)} minutes"),
        ("some", f"4 to 6 marks, {about_minutes(4)} to {about_minutes(6)} minutes"),
        ("many", f"7 marks and more, from {about_minutes(7)} minutes"),
    )


async def exercises(request: Request) -> Response:
    """The topics with a picture each; with one chosen, its exercises."""
    key, asked = request.path_params["key"], filter_of(request.query_params)
    return await run_in_threadpool(_exercises, request, key, asked)


def _exercises(request: Request, key: str, asked: Filter) -> Response:
    desk = desk_of(request)
    papers = papers_begun(desk.folder, key)
    banks = banks_at_hand(desk.folder, desk.settings())
    sums, gone = sums_of(banks, papers)
    shared: dict[str, Any] = {"key": key, "papers": papers, "banks": banks, "sums": sums, "gone": gone, "asked": asked}
    if not asked.topic and not asked.level and not asked.marks:
        picked = {bank.key: sum(one.bank == bank.key for one in papers.picks) for bank in banks}
        return page(request, "papers_topics.html", picked=picked, marks=marks_words(), **shared)
    looked_at = [bank for bank in banks if asked.topic in ("", _ALL, bank.key)]
    found = [one for bank in looked_at for one in bank.exercises if asked.takes(one)]
    pages = max(1, -(-len(found) // ON_A_PAGE))
    start = (min(asked.page, pages) - 1) * ON_A_PAGE
    cards = [
        _card(one, number, asked, papers) for number, one in enumerate(found[start : start + ON_A_PAGE], start + 1)
    ]
    topic = looked_at[0] if len(looked_at) == 1 else None
    return page(
        request, "papers_exercises.html", cards=cards, pages=pages, topic=topic, found=len(found), marks=marks_words(),
        all_topics=_ALL, **shared,
    )  # fmt: skip


async def put(request: Request) -> Response:
    """An exercise put on the paper or taken off it."""
    desk, form, key = desk_of(request), await read_form(request), request.path_params["key"]
    one = Pick(bank=form.text("bank"), exercise=form.text("exercise"))
    on = form.text("do") == "on"
    trouble = await run_in_threadpool(_put, desk, key, one, on)
    if form.text("back") == "order":
        return said(request, trouble, to=f"/papers/{key}/order")
    asked = filter_of({name: form.text(name) for name in ("topic", "level", "marks", "page", "of", "turn")})
    return said(request, trouble, to=f"{asked.address(key)}#exercise-{_number(form.text('number'))}")


def _put(desk: Desk, key: str, one: Pick, on: bool) -> str:
    try:
        if on:  # only what stands in a bank is put on a paper
            find_exercises(banks_at_hand(desk.folder, desk.settings()), [one])
        pick(desk.folder, key, one, on=on)
    except NotReady as full:
        return f"{str(full).capitalize()}."
    return ""


async def order(request: Request) -> Response:
    """The exercises in the order in which they stand on the paper."""
    return await run_in_threadpool(_order, request, request.path_params["key"])


def _order(request: Request, key: str) -> Response:
    desk = desk_of(request)
    papers = papers_begun(desk.folder, key)
    banks = banks_at_hand(desk.folder, desk.settings())
    sums, gone = sums_of(banks, papers)
    known = {one.pick: one for bank in banks for one in bank.exercises}
    rows = [(one, known.get(one), _small(known[one]) if one in known else None) for one in papers.picks]
    return page(request, "papers_order.html", key=key, papers=papers, rows=rows, sums=sums, gone=gone)


async def moved(request: Request) -> Response:
    """An exercise moved up or down."""
    desk, form, key = desk_of(request), await read_form(request), request.path_params["key"]
    one = Pick(bank=form.text("bank"), exercise=form.text("exercise"))
    by = {"up": -1, "down": 1, "first": -100, "last": 100}.get(form.text("do"), 0)
    await run_in_threadpool(move, desk.folder, key, one, by)
    return said(request, "", to=f"/papers/{key}/order")


def sums_of(banks: Sequence[BankAtHand], papers: PapersBegun) -> tuple[Totals, tuple[Pick, ...]]:
    """What the picks come to, and those that no bank has any more or that fail their proof."""
    known = {one.pick: one for bank in banks for one in bank.exercises}
    gone = tuple(one for one in papers.picks if one not in known or known[one].fault)
    return totals([known[one] for one in papers.picks if one not in gone], sheets_of(papers)), gone


def _card(one: ExerciseAtHand, number: int, asked: Filter, papers: PapersBegun) -> Card:
    turn = asked.turn if asked.of == str(number) else 0
    question = None if one.fault else one.question(turn)
    call = question.asked.drawing if question else None
    filled = question.drawing if question else None
    return Card(
        one=one, number=number, question=question, drawing=drawn(call) if call else None,
        filled=drawn(filled) if filled else None, turn=turn % max(1, one.variants), on=one.pick in papers.picks,
    )  # fmt: skip


def _small(one: ExerciseAtHand) -> Drawn | None:
    call = None if one.fault else one.question().asked.drawing
    return drawn(call) if call else None


def _number(typed: str) -> int:
    return int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 6 else 0


def sums_words(sums: Totals) -> str:
    """`4 exercises, 22 marks, about 25 minutes, about 3 sides`."""
    return ", ".join(
        (
            count(sums.exercises, "exercise"),
            count(sums.marks, "mark"),
            f"about {count(sums.minutes, 'minute')}",
            f"about {count(sums.sides, 'side')}",
        )
    )


ROUTES = (
    Route("/papers/{key}/exercises", exercises),
    Route("/papers/{key}/exercises/put", put, methods=["POST"]),
    Route("/papers/{key}/order", order),
    Route("/papers/{key}/order/move", moved, methods=["POST"]),
)
