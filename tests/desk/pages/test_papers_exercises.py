"""Exercises chosen from real questions, and put in order."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from courseware.desk.pages.papers_exercises import Filter, filter_of
from courseware.workflows.exercises_at_hand import Pick
from tests.desk.conftest import Sitter, words
from tests.desk.making import LENGTH, kept, newly_begun

TWO = (LENGTH, Pick(bank="safe_cutting", exercise="hazard-and-control"))
PUT = {"bank": LENGTH.bank, "exercise": LENGTH.exercise, "do": "on", "topic": "banks/piers.yaml", "number": "1"}


@pytest.fixture
def key(work: Path) -> str:
    return newly_begun(work)


def test_every_topic_has_a_picture_and_the_tutors_own_stand_with_them(client: Sitter, key: str) -> None:
    shown = client.get(f"/papers/{key}/exercises").text
    assert shown.count("<svg") > 10
    assert "Piers Work out the length of a pier" in words(shown)
    assert "1 exercise, level 1, your own" in words(shown)


def test_a_bank_with_a_fault_is_shown_with_it(client: Sitter, key: str, work: Path) -> None:
    (work / "banks" / "odd.yaml").write_text("topic: <b>Odd</b>\n", encoding="utf-8")
    shown = client.get(f"/papers/{key}/exercises").text
    assert "odd.yaml:1:" in words(shown)
    assert "<b>Odd" not in shown
    [mend] = re.findall(r'href="(/banks/own/[^"]+)">Mend it', shown)
    assert client.get(mend).status_code == 200


def test_an_exercise_is_a_real_question_with_its_key_beside_it(client: Sitter, key: str) -> None:
    shown = words(client.get(f"/papers/{key}/exercises?topic=banks/piers.yaml").text)
    bricks = int(re.findall(r"A pier is (\d+) bricks long", shown)[0])
    assert (
        f"1a {bricks * 225 - 10} mm" in shown
    )  # sheet-9.txt: a pier is a joint less than its bricks with a joint each
    assert "Put it on the paper : Pier length" in shown


def test_another_variant_is_at_an_address_of_its_own(client: Sitter, key: str) -> None:
    first = client.get(f"/papers/{key}/exercises?topic=banks/piers.yaml").text
    [onward] = re.findall(r'data-swap="exercise-1"[^>]*href="([^"#]*)', first)
    second = client.get(onward.replace("&amp;", "&")).text
    assert re.findall(r"A pier is (\d+)", first) != re.findall(r"A pier is (\d+)", second)


def test_an_exercise_is_put_on_the_paper_and_taken_off(client: Sitter, key: str, work: Path) -> None:
    answer = client.fill(f"/papers/{key}/exercises/put", PUT)
    assert answer.headers["location"] == f"/papers/{key}/exercises?topic=banks%2Fpiers.yaml#exercise-1"
    assert kept(work, key).picks == (LENGTH,)
    shown = words(client.get(answer.headers["location"]).text)
    assert "On the paper Take it off" in shown
    assert "1 exercise , 3 marks , about 4 minutes and 1 side a paper" in shown
    client.done(f"/papers/{key}/exercises/put", PUT | {"do": "off"})
    assert kept(work, key).picks == ()


@pytest.mark.parametrize("bank", ["nothing", "../piers.yaml", "/etc/passwd"])
def test_only_what_stands_in_a_bank_is_put_on_a_paper(client: Sitter, key: str, bank: str, work: Path) -> None:
    assert client.fill(f"/papers/{key}/exercises/put", PUT | {"bank": bank}).status_code == 422
    assert kept(work, key).picks == ()


def test_exercises_are_looked_through_by_level_and_marks(client: Sitter, key: str) -> None:
    shown = words(client.get(f"/papers/{key}/exercises?topic=all&level=3&marks=many").text)
    facts = re.findall(r"Level (\d), (\d+) marks?, about", shown)
    assert len(facts) == 6
    assert all(level == "3" and int(marks) >= 7 for level, marks in facts)
    assert "Page 2" in shown


def test_a_filter_that_nothing_passes_says_so(client: Sitter, key: str) -> None:
    assert "No exercise is like that" in words(client.get(f"/papers/{key}/exercises?topic=nothing&level=3").text)


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ({"level": "2", "marks": "few", "page": "3"}, Filter(level="2", marks="few", page=3)),
        ({"level": "9", "marks": "<b>", "page": "0", "of": "x", "turn": "-1"}, Filter()),
        ({"of": "2", "turn": "999999999999"}, Filter(of="2")),
    ],
)
def test_what_makes_no_sense_in_an_address_is_not_asked(asked: dict[str, str], found: Filter) -> None:
    assert filter_of(asked) == found


def test_the_order_is_changed_step_by_step(client: Sitter, work: Path) -> None:
    key = newly_begun(work, picks=TWO)
    move = {"bank": LENGTH.bank, "exercise": LENGTH.exercise, "do": "down"}
    shown = client.done(f"/papers/{key}/order/move", move)
    assert kept(work, key).picks == TWO[::-1]
    assert "2. Pier length" in shown
    client.done(f"/papers/{key}/exercises/put", move | {"do": "off", "back": "order"})
    assert kept(work, key).picks == TWO[1:]


def test_an_exercise_that_is_gone_is_named_to_be_taken_off(client: Sitter, work: Path) -> None:
    key = newly_begun(work, picks=(Pick(bank="gone", exercise="old-one"),))
    assert "1. old-one This is in no bank any more; take it off." in words(client.get(f"/papers/{key}/order").text)


def test_an_exercise_that_fails_its_proof_cannot_be_chosen(client: Sitter, key: str, work: Path) -> None:
    bank = work / "banks" / "piers.yaml"
    bank.write_text(
        bank.read_text(encoding="utf-8").replace("value: bricks * module - joint", "value: 1"), encoding="utf-8"
    )
    shown = words(client.get(f"/papers/{key}/exercises?topic=banks/piers.yaml").text)
    assert "fails its proof and cannot be on a paper: with bricks = 5" in shown
    assert "Put it on the paper" not in shown
