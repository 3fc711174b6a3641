"""A mock test: a paper of the practice share put together as `issue` does, no help until the end, then marks as on paper."""

from __future__ import annotations

import json
import re
from itertools import combinations, permutations

import pytest
from playwright.sync_api import expect

from courseware.part_kinds.choice.marking import mark_several
from courseware.part_kinds.order.marking import mark_order
from courseware.practice.one_file import page_script

TODAY = "2026-03-02"
NAMES = (
    "blueprint, freshMock, countTime, timeLeft, marksOf, checkedMock, freshMemory, freshKind, judgeChoice, judgeOrder"
)
SHELF = """
const kinds = [[1, 2, 3], [1, 1, 2, 3], [2, 3]].flatMap((levels, topic) => levels.map((level, place) => ({topic: `T${topic}`, level, place: topic * 10 + place, key: `T${topic}/${place}`, marks: 4, variants: 20})));
let state = 7; const chance = () => (state = (state * 1103515245 + 12345) & 0x7fffffff) / 0x80000000;
"""


@pytest.fixture(scope="module")
def js(browser):
    page = browser.new_page()
    script = page_script(
        ("figures", "elements", "look", "true_size", "mock", "memory", "part_kinds", "choice", "order")
    )
    page.evaluate(f"() => {{ {script}\nglobalThis.own = {{ {NAMES} }}; }}")
    yield lambda code: page.evaluate(f"() => {{ const {{ {NAMES} }} = globalThis.own;\n{SHELF}\n{code} }}")
    page.close()


@pytest.mark.parametrize(("wanted", "number"), [(1, 3), (3, 3), (6, 6), (9, 9), (99, 9)])
def test_its_exercises_are_chosen_as_for_a_paper(js, wanted, number) -> None:
    """`papers.deal.choose`: from each topic in turn, none twice, rising in level."""
    found = js(f"return blueprint(kinds, {wanted}, chance)")
    assert len(found) == number == len({kind["key"] for kind in found})
    assert [kind["level"] for kind in found] == sorted(kind["level"] for kind in found)
    by_topic = [sum(kind["topic"] == topic for kind in found) for topic in ("T0", "T1", "T2")]
    assert max(by_topic) - min(by_topic) <= 1 or number == 9


@pytest.mark.parametrize(("extra", "seconds"), [(0, 1080), (25, 1350), (50, 1620), (100, 2160)])
def test_a_mark_has_a_minute_and_a_half_and_there_may_be_extra_time(js, extra, seconds) -> None:
    assert js(f"return freshMock(freshMemory(0), kinds.slice(0, 3), {extra}).seconds") == seconds


def test_its_variants_are_those_that_practice_would_meet_last(js) -> None:
    found = js("""
      const memory = freshMemory(3); memory.kinds["T0/0"] = {...freshKind(), seen: 5};
      return [freshMock(memory, kinds.slice(0, 2), 0).items.map(({variant}) => variant), memory.kinds["T0/0"].seen]""")
    assert found == [[8, 2], 6]  # begun: the next, which practice then skips; not begun: the one before its first


@pytest.mark.parametrize(("passed", "used"), [(1, 1), (2, 2), (3, 2), (3600, 2), (-5, 0)])
def test_a_locked_phone_uses_no_time(js, passed, used) -> None:
    assert js(f"const m = {{seconds: 100, used: 0}}; countTime(m, {passed}); return m.used") == used


@pytest.mark.parametrize(
    ("used", "words"),
    [(0, "2 min left"), (59, "2 min left"), (60, "60 s left"), (119.5, "1 s left"), (120, "0 s left")],
)
def test_the_clock_says_minutes_then_seconds(js, used, words) -> None:
    assert js(f"return timeLeft({{seconds: 120, used: {used}}})") == words


@pytest.mark.parametrize(
    ("how", "marks"),
    [("right", 4), ("route", 4), ("unit", 3), ("rounding", 3), ("tens", 2), ("swapped", 2), ("slip", 1), ("family", 0),
     ("unknown", 0), ("partly", 0), ("wrong", 0), ("asked", 0), ("blank", 0)],
)  # fmt: skip
def test_an_answer_earns_what_it_earns_on_paper(js, how, marks) -> None:
    """The rules of `marking.judge`; of several slips that fit, the one that earns least."""
    slips = "['a']" if how == "slip" else "['a', 'b']"
    part = "{marks: 4, method: 2, slips: [{says: 'a', earns: 1}, {says: 'b'}]}"
    assert js(f"return marksOf({{how: '{how}', slips: {slips}}}, {part})") == marks


@pytest.mark.parametrize(("right", "of"), [("AB", 2), ("AB", 3), ("ACD", 4), ("ABCD", 2)])
def test_ticks_that_are_right_in_part_earn_what_they_earn_on_paper(js, right, of) -> None:
    """Every way to tick some of four, by the page and by the marking of papers."""
    ways = ["".join(ticked) for count in (1, 2, 3, 4) for ticked in combinations("ABCD", count)]
    part = {"right": ",".join(right), "several": True, "options": [[one, ""] for one in "ABCD"], "marks": of}
    found = js(f"return {ways}.map((way) => marksOf(judgeChoice([...way], {json.dumps(part)}), {json.dumps(part)}))")
    assert found == [mark_several(way, right, "ABCD", of, ()).marks for way in ways]
    assert {0, of} < set(found) or right == "ABCD"


@pytest.mark.parametrize("of", [1, 2, 3])
@pytest.mark.parametrize("before", [["AB"], ["AB", "BC"], ["AB", "AC", "AD", "BD"]])
def test_an_order_that_is_right_in_part_earns_what_it_earns_on_paper(js, before, of) -> None:
    """Every order of four steps, by the page and by the marking of papers."""
    ways = ["".join(way) for way in permutations("ABCD")]
    part = {"right": "A,B,C,D", "before": [list(pair) for pair in before], "marks": of}
    found = js(f"return {ways}.map((way) => marksOf(judgeOrder([...way], {json.dumps(part)}), {json.dumps(part)}))")
    assert found == [mark_order(way, [tuple(pair) for pair in before], 4, of).marks for way in ways]


def test_one_wrong_tick_where_one_is_right_earns_nothing(js) -> None:
    part = json.dumps({"right": "A", "options": [["A", ""], ["B", ""]], "marks": 2})
    assert js(f"return marksOf(judgeChoice(['B'], {part}), {part})") == 0


def test_what_was_kept_of_it_may_be_anything(js) -> None:
    assert js("return [null, 3, 'x', [], {}, {items: 3}].map(checkedMock)") == [None] * 6
    found = js(
        "return checkedMock({items: [null, {kind: 7, variant: -1}], answers: {a: 'x', b: 3}, seconds: 'many', used: NaN, over: 1})"
    )
    assert found == {
        "items": [{"kind": "", "variant": 0}, {"kind": "7", "variant": 0}],
        "answers": {"a": "x"}, "seconds": 0, "used": 0, "over": False,
    }  # fmt: skip


def shown(learner) -> dict:
    """The question of the exercise that is shown."""
    place = int(learner.page.locator("h1").inner_text().split()[0]) - 1
    item = learner.kept()["mock"]["items"][place]
    kind = next(
        i for i, kind in enumerate(learner.index["kinds"]) if f"{kind['topic']}/{kind['exercise']}" == item["kind"]
    )
    return learner._question({"kind": str(kind), "variant": str(item["variant"])})


def answer_figures(learner, *, right: bool) -> int:
    """Writes into every field for a figure; the marks of those that are right."""
    rows = [row for part in shown(learner)["parts"] for row in part.get("rows", [part]) if row["kind"] == "number"]
    fields = learner.main.locator("input[type=text]").all()
    for row, field in zip(rows, fields, strict=True):
        field.fill(row["answer"] if right else "1")
    return sum(row["marks"] for row in rows) if right else 0


def test_a_mock_test_from_beginning_to_end(phone) -> None:
    learner = phone(day=TODAY)
    learner.press(learner.main.get_by_role("link", name="Mock test"))
    learner.page.get_by_label("Exercises").fill("3")
    learner.choose(learner.main.get_by_role("radio", name="25 %"))
    learner.press(learner.button("Begin the test"))
    expect(learner.page.locator("h1")).to_have_text(re.compile("^1 of 3"))
    expect(learner.page.locator("h1")).to_be_focused()
    expect(learner.main.locator("[data-role=clock]")).to_contain_text("min left")
    for helper in ("Check", "Show the working", "Words", "Card"):
        expect(learner.button(helper)).to_have_count(0)
    due = answer_figures(learner, right=True)
    learner.press(learner.button("Next"))
    due += answer_figures(learner, right=True)
    learner.reload()
    expect(learner.page.locator("h1")).to_have_text(re.compile("^1 of 3"))
    kept = [field.input_value() for field in learner.main.locator("input[type=text]").all()]
    assert kept == [
        row["answer"] for part in shown(learner)["parts"] for row in part.get("rows", [part]) if row["kind"] == "number"
    ]
    ids = learner.page.evaluate("[...document.querySelectorAll('[id]')].map(element => element.id)")
    assert len(ids) == len(set(ids))
    learner.press(learner.button("Hand in"))
    learner.press(learner.button("Not yet"))
    learner.press(learner.button("Hand in"))
    learner.press(learner.button("Yes, hand in"))
    expect(learner.page.locator("h1")).to_have_text(re.compile(rf"^{due} of \d+ marks"))
    expect(learner.main.locator("[data-how=blank]").first).to_contain_text("Not answered.")
    learner.reload()
    expect(learner.page.locator("h1")).to_have_text(re.compile(rf"^{due} of"))
    learner.press(learner.button("Another mock test"))
    expect(learner.button("Begin the test")).to_be_visible()


def test_the_paper_is_handed_in_when_its_time_is_over(phone) -> None:
    learner = phone()
    key = "Opening sizes/opening-for-a-panel"
    mock = {"items": [{"kind": key, "variant": 0}], "answers": {}, "seconds": 100, "used": 99.9, "over": False}
    learner.remember({"form": 1, "kinds": {}, "mock": mock})
    learner.page.evaluate("location.hash = '#mock'")
    expect(learner.page.locator("h1")).to_have_text(re.compile("^0 of"))
    expect(learner.page.locator("#said")).to_have_text("The time is over.")


def test_what_was_ticked_and_ordered_is_told_in_words_with_its_part_marks(phone) -> None:
    learner = phone()
    names = ("heights-that-weave", "setting-out-order")
    items, answers, due = [], {}, 0
    for place, name in enumerate(names):
        at = next(i for i, kind in enumerate(learner.index["kinds"]) if kind["exercise"] == name)
        kind = learner.index["kinds"][at]
        items.append({"kind": f"{kind['topic']}/{name}", "variant": 0})
        part = next(
            part
            for part in learner._question({"kind": str(at), "variant": "0"})["parts"]
            if part["kind"] == "order" or part.get("several")
        )
        letters = part["right"].split(",")
        given = letters[:1] if part.get("several") else [letters[1], letters[0], *letters[2:]]
        answers[f"{place}:{part['name']}"] = ",".join(given)
        marks = (
            mark_several(given, letters, [letter for letter, _ in part["options"]], part["marks"], ()).marks
            if part.get("several")
            else mark_order(given, [tuple(pair) for pair in part["before"]], len(letters), part["marks"]).marks
        )
        due += marks
    mock = {"items": items, "answers": answers, "seconds": 100, "used": 9, "over": True}
    learner.remember({"form": 1, "kinds": {}, "mock": mock})
    learner.page.evaluate("location.hash = '#mock'")
    expect(learner.page.locator("h1")).to_have_text(re.compile(rf"^{due} of \d+ marks"))
    assert due > 0
    expect(learner.main.get_by_text(re.compile(r"^You ticked: [A-E], "))).to_be_visible()
    expect(learner.main.locator(".gave ol > li").first).not_to_be_empty()
    expect(learner.main.get_by_text("Right in part.").first).to_be_visible()
