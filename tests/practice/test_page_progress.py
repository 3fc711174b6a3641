"""Progress in one screen, by topic with its rows under it; practice starts from any row; the step left open is a real one."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

from courseware.practice.one_file import page_script


def test_progress_is_one_screen_of_topics_with_rows_under_each(phone) -> None:
    learner = phone(viewport={"width": 320, "height": 568}, keyboard=True)
    learner.go("Progress")
    topics = learner.main.locator("details.topic")
    expect(topics).to_have_count(len(learner.index["topics"]))
    assert learner.main.get_by_role("row").count() == 0
    assert all("secure" in line for line in topics.locator("summary").all_inner_texts())
    learner.press(topics.first.locator("summary"))
    assert learner.main.get_by_role("row").count() == 1 + len(learner.index["topics"][0]["kinds"])


def test_the_lines_of_ten_topics_fit_a_small_phone(phone) -> None:
    """Ten of them, as the shipped banks have: their lines are no higher than the screen, and large enough to press."""
    learner = phone(viewport={"width": 320, "height": 568})
    learner.go("Progress")
    lines = learner.main.locator("details.topic > summary")
    high = sum(line.bounding_box()["height"] for line in lines.all()) / lines.count()
    assert 44 <= high <= 50
    assert high * 10 <= 568


@pytest.mark.parametrize("keyboard", [False, True])
def test_practice_starts_from_any_row(phone, keyboard) -> None:
    """Also of a topic that is not ticked; a kind not begun starts with its worked example."""
    learner = phone(keyboard=keyboard)
    learner.start("Opening sizes")
    learner.go("Progress")
    learner.open_topics()
    wanted = next(kind for kind in learner.index["kinds"] if kind["exercise"] == "setting-out-order")
    learner.press(learner.button(wanted["title"]))
    expect(learner.main).to_have_attribute("data-stage", "worked")
    assert learner.kind()["exercise"] == "setting-out-order"
    expect(learner.page.locator("h1")).to_be_focused()
    learner.reload()
    expect(learner.main).to_have_attribute("data-stage", "worked")
    assert learner.kind()["exercise"] == "setting-out-order"


def test_the_row_of_the_question_at_hand_goes_on_with_it(phone) -> None:
    learner = phone()
    learner.put("opening-for-a-panel")
    learner.page.locator("#answer").fill("12")
    learner.go("Progress")
    learner.open_topics()
    learner.press(learner.button(title_of(learner)))
    expect(learner.page.locator("#answer")).to_have_value("12")


def title_of(learner) -> str:
    key = learner.kept()["now"]["kind"]
    return next(k["title"] for k in learner.index["kinds"] if f"{k['topic']}/{k['exercise']}" == key)


def test_a_topic_says_how_many_are_secure_and_what_is_to_repeat(phone) -> None:
    learner = phone(day="2026-03-02")
    kinds = [kind for kind in learner.index["kinds"] if kind["topic"] == "Opening sizes"]
    fresh = {"stage": "alone", "seen": 3, "rights": [], "slips": {}, "open": "", "failed": 0, "turn": 1}
    slip = {"p": {"step": 0, "due": 20514, "says": "", "line": 0}}  # 2 March 2026 is day 20,514 since 1970
    own = [fresh | {"rights": [20510, 20511, 20511]}, fresh | {"slips": slip}]
    learner.remember(
        {"form": 1, "kinds": {f"Opening sizes/{k['exercise']}": o for k, o in zip(kinds, own, strict=False)}}
    )
    learner.go("Progress")
    line = learner.main.locator("details.topic > summary", has_text="Opening sizes")
    expect(line).to_contain_text(f"1 of {len(kinds)} secure, 1 begun, 1 to repeat today")


@pytest.fixture(scope="module")
def js(browser):
    page = browser.new_page()
    text = page_script(("part_kinds",))
    question = page_script(("question",))
    start = question.index("function openLine")
    page.evaluate(
        f"() => {{ {text}\nPART_KINDS.number = {{opensLine: true}}; PART_KINDS.choice = {{}};\n"
        f"{question[start : question.index('async function askLine')]}\nglobalThis.own = {{ openLine, printsItsSum, openWords }}; }}"
    )
    yield lambda code, given: page.evaluate(f"given => {{ const own = globalThis.own;\n{code} }}", given)
    page.close()


@pytest.mark.parametrize(
    ("say", "prints"),
    [
        ("7 × 225", True),
        ("Four courses: 312 ÷ 4", True),
        ("Take off the sill's bed: 1318 − 10", True),
        ("12 courses × 75 mm", True),
        ("(7 + 1) × 10", True),
        ("Add the extra joint at the far end", False),
        ("Add 375", False),
        ("× 65", False),
        ("Up to the next whole course", False),
        ("One course is a brick and its bed", False),
        ("Joints: 3. Bricks: 4 × the length", False),
    ],
)
def test_a_line_that_prints_its_sum_is_known(js, say, prints) -> None:
    assert js("return own.printsItsSum(given)", say) is prints


@pytest.mark.parametrize(
    ("say", "asked"),
    [
        ("6 × (12 + 3)", "6 × (12 + 3) = ?"),
        ("Two more than 16", "Two more than 16 = ?"),
        ("Add the extra joint.", "Add the extra joint: what does it come to?"),
        ("There are 1000 mm in a metre", "There are 1000 mm in a metre: what does it come to?"),
    ],
)
def test_a_line_left_open_is_asked_as_a_sum_or_in_words(js, say, asked) -> None:
    assert js("return own.openWords(given)", say) == asked


def test_a_line_that_prints_its_sum_is_never_the_one_left_open(js) -> None:
    lines = [{"say": "One brick and its joint", "right": "225"}, {"say": "7 × 225", "right": "1575"}]
    last = {"say": "Add the extra joint", "right": "1585"}
    open_line = "return own.openLine({ kind: 'number', working: given[0] }, given[1])"
    assert js(open_line, [[*lines, last], None]) == 2
    assert js(open_line, [lines, None]) == 0
    assert js(open_line, [[*lines, last], {"line": 0}]) == 0
    assert js(open_line, [[*lines, last], {"line": 1}]) == 2, "the slip's line prints its sum"
    assert js(open_line, [[lines[1]], None]) == -1, "the part is asked whole"
    assert js(open_line, [[], None]) == -1
    assert js("return own.openLine({ kind: 'choice', working: given }, undefined)", [last]) == -1


def test_a_part_whose_only_line_prints_its_sum_is_asked_whole(phone) -> None:
    learner = phone()
    whole = lined = 0
    for kind in learner.index["kinds"]:
        learner.put(kind["exercise"], "part")
        state, part = learner.state(), learner.part()
        if part["kind"] != "number":
            continue
        if "line" in state:
            assert not re.search(r"\d [×÷+−] \d", part["working"][int(state["line"])]["say"]), kind["exercise"]
            lined += 1
        else:
            assert all(
                re.search(r"\d[^:.;,]*[×÷+−][^:.;,]*\d", line["say"]) for line in part["working"] if "right" in line
            )
            assert learner.page.locator("section[data-state=open] [data-role=working]").count() == 0
            whole += 1
    assert whole
    assert lined
