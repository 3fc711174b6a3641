"""A sitting has an end: so many questions, what went right, the slip to watch, when to come back; what returns says so."""

from __future__ import annotations

import re
from typing import Any

import pytest
from playwright.sync_api import expect

from courseware.practice.one_file import page_script
from tests.practice.learner import SLIP

TODAY = "2026-03-02"


@pytest.fixture(scope="module")
def js(browser):
    """The page's own module, called in the browser with its functions in reach."""
    page = browser.new_page()
    names = "freshMemory, freshKind, takeSlip, freshSitting, sittingFor, countAnswered, countSlip, isOver, slipToWatch, whenToComeBack"
    script = page_script(("figures", "elements", "look", "true_size", "mock", "memory", "sitting"))
    page.evaluate(f"() => {{ {script}\nglobalThis.own = {{ {names} }}; }}")
    yield lambda code: page.evaluate(f"() => {{ const {{ {names} }} = globalThis.own;\n{code} }}")
    page.close()


def answered(js, of: int, times: int) -> bool:
    code = f"const s = freshSitting({of}, 1); for (let i = 0; i < {times}; i += 1) countAnswered(s, 'k', true); return isOver(s)"
    return bool(js(code))


@pytest.mark.parametrize(
    ("of", "times", "over"),
    [(10, 9, False), (10, 10, True), (10, 11, True), (5, 4, False), (5, 5, True), (0, 99, False)],
)
def test_a_sitting_is_over_after_its_last_question(js, of, times, over) -> None:
    assert answered(js, of, times) is over


def test_another_day_or_a_sitting_that_is_over_begins_a_new_one(js) -> None:
    found = js("""
      const memory = freshMemory(0);
      memory.sitting = { ...freshSitting(5, 7), done: 4 };
      const days = [sittingFor(memory, 7), sittingFor(memory, 8)].map(({ done }) => done);
      memory.sitting.done = 5;
      return [...days, sittingFor(memory, 7).done, sittingFor(memory, 7).of]""")
    assert found == [4, 0, 0, 10]


def watched(js, *slips: tuple[str, str]) -> Any:
    told = "".join(f"countSlip(s, {kind!r}, {says!r});" for kind, says in slips)
    return js(f"const s = freshSitting(10, 1); {told} return slipToWatch(s)")


def test_the_slip_to_watch_is_the_commonest_then_the_last_and_named_before_unknown(js) -> None:
    assert watched(js) is None
    assert watched(js, ("a", "x"), ("b", "y"), ("c", "x"))["says"] == "x"
    assert watched(js, ("a", "x"), ("b", "y"))["says"] == "y"
    assert watched(js, ("a", "x"), ("b", ""), ("b", ""), ("b", ""))["says"] == "x"
    assert watched(js, ("a", ""), ("b", ""), ("a", ""))["kind"] == "a"


@pytest.mark.parametrize(
    ("due", "words"),
    [(100, "still come back today"), (101, "Come back tomorrow: what went wrong"), (103, "asked again on")],
)
def test_when_to_come_back_goes_by_the_next_return(js, due, words) -> None:
    code = f"const m = freshMemory(0); m.kinds.a = freshKind(); takeSlip(m.kinds.a, 'p', '', 0, 100); m.kinds.a.slips.p.due = {due};"
    assert words in js(f"{code} return whenToComeBack(m, 100)")
    assert js("return whenToComeBack(freshMemory(0), 100)").startswith("Come back tomorrow")


def sit_down(phone, length: str):
    learner = phone(day=TODAY)
    learner.stops = True
    learner.press(learner.main.get_by_role("radio", name=length))
    learner.start("Opening sizes", "Course gauge")
    return learner


def test_five_questions_then_an_end_that_says_how_it_went(phone) -> None:
    learner = sit_down(phone, "Five questions")
    asked, wrong = 0, ""
    while learner.screen() == "question":
        if learner.stage() != "worked":
            asked += 1
            expect(learner.main.locator("[data-role=place]")).to_contain_text(f"Question {asked} of 5")
        fails = learner.stage() == "alone" and not wrong
        if fails:
            wrong = learner.kind()["title"]
        learner.finish(right=not fails)
        assert asked <= 5
    expect(learner.page.locator("h1")).to_have_text("5 questions answered")
    expect(learner.page.locator("h1")).to_be_focused()
    expect(learner.main.locator("[data-role=right]")).to_have_text("Right without help: 4 of 5.")
    expect(learner.main.locator("[data-role=watch]")).to_contain_text(wrong)
    expect(learner.main.locator("[data-role=back]")).to_contain_text("Come back tomorrow")
    learner.page.reload()
    expect(learner.page.locator("h1")).to_have_text("5 questions answered")
    expect(learner.main.locator("button.next")).to_have_text("Another five questions")
    learner.another_sitting()
    assert learner.kept()["sitting"]["done"] == 0


def test_a_learner_may_stop_and_go_on_with_the_same_question(phone) -> None:
    learner = sit_down(phone, "Until I stop")
    learner.finish()
    learner.page.locator("#answer").fill("12")
    variant = learner.state()["variant"]
    learner.press(learner.main.get_by_role("link", name="Stop here"))
    expect(learner.page.locator("h1")).to_have_text("Nothing answered yet")
    learner.press(learner.button("Go on"))
    expect(learner.main).to_have_attribute("data-variant", variant)
    expect(learner.page.locator("#answer")).to_have_value("12")
    for _ in range(11):
        learner.finish()
        assert learner.screen() == "question"


def test_what_returns_says_so_with_the_slip_of_last_time(phone) -> None:
    learner = phone(day=TODAY)
    learner.put("opening-for-a-panel", due=True)
    expect(learner.main.locator("[data-role=stage]")).to_contain_text("comes back")
    first, second = (part["name"] for part in learner.question()["parts"][:2])
    note = learner.page.locator(f"section[data-part={first}] [data-role=returned]")
    expect(note).to_contain_text(f"It went wrong last time: {SLIP}.")
    learner.answer()
    learner.on()
    expect(learner.page.locator(f"section[data-part={second}]")).to_be_visible()
    expect(learner.page.locator(f"section[data-part={second}] [data-role=returned]")).to_have_count(0)
    learner.put("opening-for-a-panel")
    expect(learner.page.locator("[data-role=returned]")).to_have_count(0)
    expect(learner.main.locator("[data-role=stage]")).not_to_contain_text("comes back")


def test_the_step_after_a_slip_says_what_the_slip_was(phone) -> None:
    learner = phone(day=TODAY)
    learner.put("opening-for-a-panel")
    slip = next(s for s in learner.part()["slips"] if re.fullmatch(r"\d+", s["right"]))
    learner.write(slip["right"])
    learner.check()
    says = learner.words().inner_text()
    learner.press(learner.button("Show the working"))
    while learner.on():
        learner.answer()
    assert learner.stage() == "part"
    told = learner.page.locator("[data-role=returned]").inner_text()
    assert told.partition("last time: ")[2].rstrip(".") in says
