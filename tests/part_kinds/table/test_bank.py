"""A table in a bank: rows that are number parts, each able to use those above it; its marks are theirs."""

from __future__ import annotations

import pytest

from courseware.banks import prove, solve

GIVEN = {"bricks": 4}


def row(name: str, answer: str, **keys: object) -> dict[str, object]:
    return {"name": name, "say": "How many?", "answer": answer, "marks": 1,
            "working": [{"say": "So", "value": answer}], **keys}  # fmt: skip


def table(*rows: dict[str, object], **keys: object) -> dict[str, object]:
    return {"name": "order", "kind": "table", "ask": "Work out the order.", "rows": list(rows), **keys}


def test_each_row_of_a_table_can_use_those_above_it_and_later_parts_any(exercise, number) -> None:
    part = table(row("net", "bricks * 60"), row("waste", "net / 20"))
    [solved, total] = solve(exercise(parts=[part, number("total", "net + waste")]), GIVEN)
    assert [one.answer for one in solved.rows] == [240, 12]
    assert (total.answer, solved.part.marks) == (252, 2)


def test_rows_follow_a_learners_own_answer(exercise) -> None:
    [solved] = solve(exercise(parts=[table(row("net", "bricks * 60"), row("waste", "net / 20"))]), GIVEN, {"net": 200})
    assert [one.answer for one in solved.rows] == [240, 10]


def test_a_table_has_the_marks_figures_and_questions_of_its_rows(exercise) -> None:
    [part] = exercise(
        parts=[table(row("net", "bricks", marks=2, unit="bricks"), row("waste", "bricks + 1", marks=3))]
    ).parts
    assert part.marks == 5
    assert part.entries == part.numbers == part.rows
    assert [one.unit for one in part.rows] == ["bricks", ""]
    assert [wording.render({}, {}) for wording in part.asks] == ["Work out the order.", "How many?", "How many?"]


def test_its_difficulty_is_that_of_all_its_rows(exercise) -> None:
    [solved] = solve(exercise(parts=[table(row("net", "bricks * 60"), row("part", "bricks / 8"))]), GIVEN)
    assert solved.signature == solved.rows[0].signature + solved.rows[1].signature


def test_a_row_fails_its_proof_as_a_part_does(exercise) -> None:
    wrong = row("net", "bricks", working=[{"say": "So", "value": "bricks + 1"}])
    assert prove(exercise(parts=[table(wrong)])).failure.why == "net: `answer` gives 2, the last line of the working 3"


@pytest.mark.parametrize(("count", "told"), [(12, []), (13, ["13 rows; at most 12"])])
def test_there_are_at_most_twelve_rows(faults, count: int, told: list[str]) -> None:
    assert faults(table(*(row(f"row_{n}", f"bricks + {n}") for n in range(count)))) == told


@pytest.mark.parametrize(
    ("part", "told"),
    [
        (table(), ["`rows` is empty; a part of kind table needs rows"]),
        (table(row("net", "bricks"), marks=3), ["a table's marks are those of its rows; expected no `marks` here"]),
        (table(row("net", "bricks", marks=0)), ["0 marks; expected 1 to 20"]),
        (table(row("net", "bricks", marks=21)), ["21 marks; expected 1 to 20"]),
        (table(row("net", "waste", working=[{"say": "So", "value": "1"}]), row("waste", "bricks")), ["`waste` is not known here"]),  # it stands below
    ],
)  # fmt: skip
def test_what_a_table_cannot_have_is_told(faults, part, told: list[str]) -> None:
    found = faults(part)
    assert len(found) == len(told)
    assert all(one.startswith(start) for one, start in zip(found, told, strict=True))
