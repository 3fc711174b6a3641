"""Marks against those decided by hand: decided_answers.yaml, written before the program that marks."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from courseware.banks import Bank, Exercise
from courseware.banks.figures import Figure, whole_as_int
from courseware.banks.givens import read_given
from courseware.files.bank_files import read_banks
from courseware.marking.mark import Marked, mark_scripts
from courseware.marking.marks import Decision, Mark, Script
from courseware.papers.codes import code
from courseware.papers.compose import Sources
from courseware.papers.deal import issue_exercise
from courseware.papers.group import Learner
from courseware.papers.invented import invented_site
from courseware.papers.part_kind import LETTERS
from courseware.papers.sitting import IssuedPaper, IssuedPart, Sitting, SourceFile
from courseware.part_kinds.choice.bank import ChoicePart
from courseware.part_kinds.order.bank import OrderPart
from courseware.part_kinds.table.bank import TablePart
from courseware.settings.settings import DEFAULTS

OWN = Path(__file__).with_name("bank_for_marking.yaml")
DECIDED_ON = Path(__file__).with_name("banks_decided_on")
_FAST = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
DECIDED = yaml.load(Path(__file__).with_name("decided_answers.yaml").read_text(encoding="utf-8"), Loader=_FAST)
SEED = "a seed for marking"
ANSWERS = sum(len(script["parts"]) for script in DECIDED)

Given = Mapping[str, Figure | str]


@cache
def bank(name: str) -> Bank:
    """A bank as it stood when its answers were decided: a later change to a shipped bank decides nothing again."""
    return read_banks([OWN if name == "own" else DECIDED_ON / f"{name}.yaml"])[0][0]


def exercise_at(at: str) -> tuple[Bank, Exercise]:
    topic, name = at.split("/")
    return bank(topic), next(exercise for exercise in bank(topic).exercises if exercise.name == name)


@cache
def sources_of(topic: str) -> Sources:
    """The bank read once for all its scripts; a sitting alone reads it from its record."""
    found = bank(topic)
    return Sources(exercises={(found.topic, e.name): (found, e) for e in found.exercises}, safety=None)


def sitting_of(at: str, *givens: Given) -> Sitting:
    """A sitting of one exercise: a paper for each variant."""
    found, exercise = exercise_at(at)
    codes = [code(SEED, str(number)) for number in range(len(givens))]
    papers = [
        IssuedPaper(
            code=own,
            learner=Learner(name="", reference=""),
            exercises=(issue_exercise(1, found, exercise, given, invented_site(1), SEED, own),),
        )
        for own, given in zip(codes, givens, strict=True)
    ]
    source = SourceFile(file=found.file, sha256=found.sha256, text=found.text)
    return Sitting(
        code=code(SEED, "sitting"), title="Marking", date="2026-01-05", group="Group T", seed=SEED, settings=DEFAULTS,
        version="0", banks=(source,), safety=None, papers=tuple(papers),
    )  # fmt: skip


def given_in(written: Mapping[str, Any]) -> Given:
    return {
        name: value if isinstance(value, str) else read_given(name, str(value)).values[0]
        for name, value in written.items()
    }


def cell(typed: str, part: IssuedPart, exercise: Exercise) -> str:
    """What is written, with the letters that choices and steps have on this paper in place of `<2>` and `<mix>`."""

    def letter(found: re.Match[str]) -> str:
        whole = next(other for other in exercise.parts if other.name == part.name)
        if isinstance(whole, OrderPart):
            place = [name for name, _ in whole.steps].index(found[1])
        else:
            assert isinstance(whole, ChoicePart)
            place = int(found[1]) - 1
        shown = LETTERS[part.shown.index(place)]
        return shown.lower() if found[2] else shown

    return re.sub(r"<([a-z0-9_]+)( small)?>", letter, typed)


def scripts_of(sitting: Sitting, exercise: Exercise, *written: Mapping[str, str]) -> list[Script]:
    """The first paper's script, and what was written when it came in again."""
    paper = sitting.papers[0]
    return [
        Script(
            code=paper.code,
            status="resubmitted" if again else "",
            cells={p.label: cell(cells.get(p.name, ""), p, exercise) for p in paper.exercises[0].parts},
        )
        for again, cells in enumerate(written)
    ]


def marks_by_name(sitting: Sitting, marked: Marked) -> dict[str, Mark]:
    parts = sitting.papers[0].exercises[0].parts
    return {part.name: mark for part, mark in zip(parts, marked.papers[0].marks, strict=True)}


def named_slips(exercise: Exercise, name: str, places: list[str]) -> list[str]:
    """The keys of slips by their places in the bank; of a choice, of the choices by theirs."""
    choice = any(isinstance(part, ChoicePart) and part.name == name for part in exercise.parts)
    return [f"{exercise.name}/{name}/{'choice-' if choice else ''}{place}" for place in places]


@pytest.mark.parametrize("decided", DECIDED, ids=[f"{n}-{script['at']}" for n, script in enumerate(DECIDED, 1)])
def test_marks_are_those_decided_by_hand(decided: dict[str, Any]) -> None:
    _, exercise = exercise_at(decided["at"])
    sitting = sitting_of(decided["at"], *(given_in(decided[key]) for key in ("given", "other") if key in decided))
    scripts = scripts_of(sitting, exercise, {name: row[0] for name, row in decided["parts"].items()})
    marked = mark_scripts(sitting, scripts, sources=sources_of(decided["at"].partition("/")[0]))
    found = marks_by_name(sitting, marked)
    assert set(decided["parts"]) <= set(found), "the table names a part that the bank does not have"
    wrong = []
    for name, mark in found.items():
        _, marks, said = decided["parts"].get(name, ("", 0, "blank"))
        how, *places = said.split()
        slips = [slip.key for slip in mark.slips]
        if (mark.marks, slips) != (marks, named_slips(exercise, name, places)) or mark.how not in how.split("/"):
            wrong.append(
                f"{name} = {mark.written!r}: decided {marks} {said}; marked {mark.marks} {mark.how} {slips}: {mark.why}"
            )
    assert not wrong, f"{decided['why']}\n" + "\n".join(wrong)
    asked = {
        label
        for label, mark in zip([m.label for m in marked.papers[0].marks], found.values(), strict=True)
        if mark.how == "asked"
    }
    assert asked == {question.label for question in marked.questions if question.label}, (
        "what is not read is asked about"
    )


CHAIN = ("own/chain", {"bricks": 7, "courses": 16})
ONE_OPENING, HALVED, MEET = (
    ("own/one-opening", {"bricks": 4}),
    ("own/halved", {"wide": 3395}),
    ("own/slips-that-meet", {"courses": 12}),
)
WINDOW, THIRDS = (
    ("own/window-in-a-wall", {"bricks": 6, "wall": 2700}),
    ("own/thirds", {"total": 250, "sheets": 8}),
)


@pytest.mark.parametrize(
    ("of", "cells", "why"),
    [
        (ONE_OPENING, {"width": "910"}, "Right."),
        (ONE_OPENING, {"width": "925"}, "Accepted: Measured over the reveals."),
        (ONE_OPENING, {"width": "925", "half_width": "462.5"}, "Right from the learner's own earlier answer."),
        (ONE_OPENING, {"width": "900"}, "The extra joint was left out."),
        (ONE_OPENING, {"width": "910 kg"}, "The right figure with another unit: mm was asked."),
        (ONE_OPENING, {"width": "777 kg"}, "Another unit than mm, and another figure. See the working."),
        (ONE_OPENING, {"width": "777"}, "Not recognised. See the working."),
        (ONE_OPENING, {"width": "9100"}, "The digits are right, the power of ten is not. See the working."),
        (ONE_OPENING, {"width": "901"}, "Two digits have changed places. See the working."),
        (MEET, {"counted": "10", "clear": "750"}, "One of: The top bed was dropped; or: The beds were guessed."),
        (CHAIN, {"area": "1.91"}, "Cut off, not rounded, at 2 decimal places."),
        (CHAIN, {"area": "1.9"}, "Rounded further than asked: 2 decimal places wanted."),
        (THIRDS, {"bundle": "8.9"}, "Cut off, not rounded, at 1 decimal place."),  # 8.98472
        (HALVED, {"middle": "1698"}, "Rounded, where the exact figure was asked."),
        (HALVED, {"bricks_ordered": "2291"}, "Rounded the other way."),
        (HALVED, {"bricks_ordered": "2291.6"}, "Not rounded to a whole number."),
        (WINDOW, {"window": "3385", "left_over": "685"},
         "The earlier answer cannot be carried on: it gives nothing, or less. See the working."),
        (WINDOW, {"window": "1350", "halves_across": "11"},
         "The earlier answer cannot be carried on: an opening of 1350 mm does not work to half bricks: the nearest are 1247.5 mm (5½ bricks) and 1360 mm (6 bricks). See the working."),
    ],
)  # fmt: skip
def test_a_mark_says_why(of: tuple[str, Given], cells: Mapping[str, str], why: str) -> None:
    """Of the last cell written."""
    at, given = of
    sitting = sitting_of(at, given_in(given))
    marked = mark_scripts(sitting, scripts_of(sitting, exercise_at(at)[1], cells))
    assert marks_by_name(sitting, marked)[list(cells)[-1]].why == why


def test_the_table_is_as_large_and_as_wide_as_promised() -> None:
    assert ANSWERS >= 150
    hows = {how for script in DECIDED for row in script["parts"].values() for how in row[2].split()[0].split("/")}
    assert hows == {
        "right", "route", "carried", "slip", "family", "unit", "rounding", "tens", "swapped", "elsewhere", "unknown",
        "withheld", "partly", "wrong", "blank", "unreached", "asked",
    }  # fmt: skip
    kinds = {kind(script["at"], name) for script in DECIDED for name in script["parts"]}
    assert kinds == {"NumberPart", "ChoicePart", "OrderPart", "DrawnPart", "TablePart"}


def kind(at: str, name: str) -> str:
    for part in exercise_at(at)[1].parts:
        if part.name == name or (isinstance(part, TablePart) and name in {row.name for row in part.rows}):
            return type(part).__name__
    raise AssertionError(f"{at} has no part {name}")


@pytest.fixture
def chain() -> Callable[..., dict[str, Mark]]:
    """The chain of parts marked: a paper, and what came in again, with an assessor's decisions."""

    def marked(*written: Mapping[str, str], decisions: tuple[tuple[str, int | None, str], ...] = ()) -> dict[str, Mark]:
        sitting = sitting_of(CHAIN[0], CHAIN[1])
        labels = {part.name: part.label for part in sitting.papers[0].exercises[0].parts}
        decided = [
            Decision(code=sitting.papers[0].code, label=labels[name], marks=marks, reason=reason, comment="seen")
            for name, marks, reason in decisions
        ]
        scripts = scripts_of(sitting, exercise_at(CHAIN[0])[1], *written)
        return marks_by_name(sitting, mark_scripts(sitting, scripts, decided))

    return marked


def test_a_resubmitted_paper_keeps_what_was_right_and_opens_the_rest(chain: Callable[..., dict[str, Mark]]) -> None:
    first = {"width": "1575", "rise": "1210", "area": "1.91", "infill": "114", "packs_of_ten": "3"}
    again = {"width": "1585", "rise": "5", "area": "7", "infill": "115", "packs_of_ten": "12"}
    marks = chain(first, again)
    assert {name: mark.marks for name, mark in marks.items()} == {
        "width": 2, "rise": 2, "area": 2, "infill": 2, "packs_of_ten": 1,
    }  # fmt: skip
    assert marks["rise"].written == "1210", "a part that was fully right is not opened again"


def test_a_resubmitted_blank_leaves_what_was_earned(chain: Callable[..., dict[str, Mark]]) -> None:
    marks = chain({"width": "1575", "rise": "1200"}, {"width": "1585"})
    assert (marks["width"].marks, marks["rise"].marks) == (2, 1)


def test_a_decision_stands_over_the_figure_and_carries_its_reason(chain: Callable[..., dict[str, Mark]]) -> None:
    written = {"width": "1600", "rise": "1200"}
    marks = chain(written, decisions=(("width", 1, "the working is right, the sum is not"), ("rise", None, "")))
    assert (marks["width"].marks, marks["width"].how) == (1, "decided")
    assert "the working is right" in marks["width"].why
    assert (marks["rise"].marks, marks["rise"].how, marks["rise"].comment) == (1, "slip", "seen")


def test_a_decision_settles_what_could_not_be_read(chain: Callable[..., dict[str, Mark]]) -> None:
    sitting = sitting_of(CHAIN[0], CHAIN[1])
    scripts = scripts_of(sitting, exercise_at(CHAIN[0])[1], {"width": "see back"})
    label = sitting.papers[0].exercises[0].parts[0].label
    assert [question.label for question in mark_scripts(sitting, scripts).questions] == [label]
    decision = Decision(code=sitting.papers[0].code, label=label, marks=2, reason="right, on the back")
    marked = mark_scripts(sitting, scripts, [decision])
    assert (marked.papers[0].marks[0].marks, marked.questions) == (2, ())


def test_an_absent_learner_has_no_marks_and_a_late_one_has_them_all() -> None:
    sitting = sitting_of(CHAIN[0], CHAIN[1], {"bricks": whole_as_int(8), "courses": whole_as_int(16)})
    away, late = (paper.code for paper in sitting.papers)
    label = sitting.papers[1].exercises[0].parts[0].label
    scripts = [Script(code=late, status="late", cells={label: "1810"}), Script(code=away, status="absent", cells={})]
    papers = mark_scripts(sitting, scripts).papers
    assert [(paper.code, paper.status, paper.total) for paper in papers] == [(away, "absent", 0), (late, "late", 2)]
    assert papers[0].marks == ()
