"""When a question comes, comes back, and is secure: the page's own modules, without a page, in the browser."""

from __future__ import annotations

import itertools
from typing import Any

import pytest

from courseware.practice.one_file import page_script

HOUSE = """() => {
  %s
  globalThis.house = { freshMemory, freshKind, takeSlip, putRight, takeRight, isSecure, isDue, hasDue, checkedMemory,
                       joined, dayOf, chooseNext, finishQuestion, lineAfter };
}"""
SHELF = """
const { freshMemory, freshKind, takeSlip, putRight, takeRight, isSecure, isDue, hasDue, checkedMemory, joined, dayOf,
        chooseNext, finishQuestion, lineAfter } = globalThis.house;
const kinds = (topics, each, rules = 99) => [...Array(topics * each).keys()].map((place) => {
  const topic = `T${place % topics}`;
  return { topic, exercise: `e${place}`, key: `${topic}/e${place}`, title: "", level: 1, variants: 5, parts: ["p"],
           rule: `r${place % rules}`, asks: true, place };
});
const run = (memory, shelf, turns, today, clean = () => true) => [...Array(turns).keys()].map((turn) => {
  const now = { ...chooseNext(memory, shelf, today) };
  const right = clean(turn, now);
  const own = memory.kinds[now.kind];
  if (!right) takeSlip(own, "p", "says", 0, today);
  if (right && now.stage === "alone") { putRight(own, "p", today); takeRight(own, today); }
  finishQuestion(memory, now, right);
  return now;
});
"""


@pytest.fixture(scope="module")
def js(browser):
    page = browser.new_page()
    page.evaluate(
        HOUSE % page_script(("figures", "elements", "look", "true_size", "mock", "memory", "plan", "choose", "words"))
    )
    yield lambda code: page.evaluate(f"() => {{ {SHELF}\n{code} }}")
    page.close()


def turns(asked: list[dict[str, Any]]) -> list[list[dict[str, Any]]]:
    """Questions put together as long as the kind stays the same."""
    found: list[list[dict[str, Any]]] = []
    for now in asked:
        if found and found[-1][0]["kind"] == now["kind"]:
            found[-1].append(now)
        else:
            found.append([now])
    return found


def test_a_new_kind_comes_worked_then_part_worked_then_alone(js) -> None:
    for turn in turns(js("return run(freshMemory(0), kinds(3, 4), 30, 100)")):
        assert [now["stage"] for now in turn] in (["worked", "part", "alone"], ["alone"])


def test_topics_change_from_turn_to_turn_and_no_rule_comes_twice_running(js) -> None:
    asked = turns(js("return run(freshMemory(7), kinds(3, 6, 5), 200, 100)"))
    kinds = [turn[0]["kind"] for turn in asked]
    assert all(one.split("/")[0] != other.split("/")[0] for one, other in itertools.pairwise(kinds))
    rules = [int(kind.split("/e")[1]) % 5 for kind in kinds]
    assert all(one != other for one, other in itertools.pairwise(rules))


def test_with_one_kind_alone_it_comes_again_and_again(js) -> None:
    asked = js("return run(freshMemory(0), kinds(1, 1), 6, 100)")
    assert [now["stage"] for now in asked] == ["worked", "part", "alone", "alone", "alone", "alone"]
    assert len({now["variant"] for now in asked[:5]}) == 5, "a fresh variant each time, while they last"


def test_after_a_slip_a_fresh_question_of_the_same_kind_with_a_step_open_comes_next(js) -> None:
    asked = js("return run(freshMemory(0), kinds(2, 3), 5, 100, (turn) => turn !== 2)")
    assert [now["stage"] for now in asked] == ["worked", "part", "alone", "part", "alone"]
    assert len({now["kind"] for now in asked}) == 1
    assert len({now["variant"] for now in asked}) == 5


def test_a_kind_that_will_not_come_right_gives_way_to_another(js) -> None:
    asked = turns(js("return run(freshMemory(0), kinds(2, 3), 40, 100, (turn, now) => now.stage === 'worked')"))
    assert max(len(turn) for turn in asked) == 5
    assert "worked" in [now["stage"] for now in asked[0][1:]], "an example again after two that went wrong"


def test_a_slip_comes_back_after_1_3_7_14_and_28_days_and_is_then_gone(js) -> None:
    waits = js("""
      const kind = freshKind(); takeSlip(kind, "p", "says", 0, 100);
      const days = []; let today = 100;
      while (kind.slips.p) { days.push(kind.slips.p.due - today); today = kind.slips.p.due; putRight(kind, "p", today); }
      return days""")
    assert waits == [1, 3, 7, 14, 28]


def test_right_before_the_day_moves_nothing_and_wrong_again_begins_anew(js) -> None:
    steps = js("""
      const kind = freshKind(); takeSlip(kind, "p", "", 0, 100);
      putRight(kind, "p", 100); const early = kind.slips.p.step;
      putRight(kind, "p", 101); const once = kind.slips.p.step;
      takeSlip(kind, "p", "", 0, 104);
      return [early, once, kind.slips.p.step, kind.slips.p.due]""")
    assert steps == [0, 1, 0, 105]


def test_what_is_due_comes_before_anything_new_and_alone(js) -> None:
    now = js("""
      const memory = freshMemory(0), shelf = kinds(3, 4);
      run(memory, shelf, 4, 100, (turn) => turn !== 2);
      run(memory, shelf, 4, 100);
      return chooseNext(memory, shelf, 101)""")
    assert (now["kind"], now["stage"]) == ("T0/e0", "alone")


@pytest.mark.parametrize(
    ("days", "secure"), [([1, 1, 1], False), ([1, 2], False), ([1, 1, 2], True), ([1, 2, 3], True), ([5, 4, 4], True)]
)
def test_secure_is_right_three_times_on_two_days_or_more(js, days: list[int], secure: bool) -> None:
    found = js(f"const kind = freshKind(); for (const day of {days}) takeRight(kind, day); return isSecure(kind)")
    assert found is secure


def test_a_slip_ends_being_secure(js) -> None:
    code = "const k = freshKind(); [1, 2, 3].forEach((d) => takeRight(k, d)); takeSlip(k, 'p', '', 0, 4);"
    assert js(f"{code} return isSecure(k)") is False


@pytest.mark.parametrize("today", [0, 100, 20_000, 40_000])
def test_a_clock_that_jumps_far_locks_nothing_away(js, today: int) -> None:
    """A slip made while the clock said 2099 (day 47,000) still comes back, and so does one from 1970 (day 0)."""
    code = (
        f"const k = freshKind(); takeSlip(k, 'p', '', 0, 47000); takeSlip(k, 'q', '', 0, -1); return hasDue(k, {today})"
    )
    assert js(code) is True
    assert js(f"const k = freshKind(); takeSlip(k, 'p', '', 0, 47000); return isDue(k.slips.p, {today})") is True


def test_a_clock_that_shows_no_time_is_day_0(js) -> None:
    assert js("return dayOf(new Date(NaN))") == 0


def test_which_rule_is_asked_now_and_then_of_what_is_secure_unless_switched_off(js) -> None:
    days = "for (const day of [100, 101, 102]) run(memory, shelf, 24, day); return run(memory, shelf, 12, 103);"
    asked = js(f"const memory = freshMemory(0), shelf = kinds(2, 3); {days}")
    assert [now["rule"] for now in asked[:9]].count(True) == 3
    assert not any(now["rule"] for now in asked if now["stage"] != "alone")
    off = js(f"const memory = {{...freshMemory(0), rules: false}}, shelf = kinds(2, 3); {days}")
    assert not any(now["rule"] for now in off)
    assert not any(now["rule"] for now in js("return run(freshMemory(0), kinds(3, 6), 60, 100)")), (
        "nothing is secure on the first day"
    )


def test_a_kept_practice_is_checked_piece_by_piece(js) -> None:
    found = js("""
      const kind = { stage: "tomorrow", seen: -4, rights: [1, "2", 3], open: 7, failed: 1.5,
                     slips: { p: { step: 99, due: 5, says: {}, line: 0 }, q: { due: "soon" }, r: null } };
      return checkedMemory({ form: 1, start: "x", turn: 2, kinds: { "T/e": kind, "T/f": 3 }, now: { stage: "never" } })""")
    now = js("""
      const now = { kind: "T/e", stage: "alone", variant: 1, done: { a: "right", b: "flown", c: 3 }, at: 5, draft: "7" };
      return checkedMemory({ form: 1, kinds: {}, now }).now""")
    assert (now["done"], now["at"], now["draft"]) == ({"a": "right"}, "", "7")
    assert found["kinds"]["T/e"]["stage"] == "worked"
    assert found["kinds"]["T/e"]["rights"] == [1, 3]
    assert found["kinds"]["T/e"]["slips"] == {"p": {"step": 4, "due": 5, "says": "", "line": 0}}
    assert (found["start"], found["turn"], found["now"]) == (0, 2, None)
    assert js("return [null, 3, [], {form: 2, kinds: {}}, {form: 1}].map(checkedMemory)") == [None] * 5
    assert (
        js("""return checkedMemory(JSON.parse('{"form":1,"kinds":{"__proto__":{"seen":1}}}')).kinds.seen ?? null""")
        is None
    )


def test_loading_a_file_keeps_of_each_kind_whichever_is_further_on(js) -> None:
    seen = js("""
      const [one, other] = [freshMemory(1), freshMemory(2)];
      one.kinds.a = { ...freshKind(), seen: 5 }; other.kinds.a = { ...freshKind(), seen: 3 };
      one.kinds.b = { ...freshKind(), seen: 1 }; other.kinds.b = { ...freshKind(), seen: 9 };
      other.kinds.c = { ...freshKind(), seen: 2 };
      const both = joined(one, other);
      return [both.kinds.a.seen, both.kinds.b.seen, both.kinds.c.seen]""")
    assert seen == [5, 9, 2]


def test_the_step_left_open_is_the_one_after_the_figure_that_was_reached(js) -> None:
    part = "{working: [{say: 'a', right: '225'}, {say: 'b', right: '1800'}, {say: 'c', right: '1810'}]}"
    assert js(f"return ['225', '1800', '1720'].map((figure) => lineAfter({part}, figure))") == [1, 2, 2]
