"""A learner's month by the page's own code, in one page and without a click: the clock moved, storage blocked at times.

The exercises are those of the shipped banks, each with as many variants as the page of all topics has of it.
"""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest

from courseware.files.bank_files import read_banks, shipped_banks
from courseware.papers.shares import for_practice
from courseware.practice.one_file import page_script

IN_TWENTY = 6  # variants of each in one file of twice the topics
FITS = 18  # variants of each exercise, and more, are on the page of all topics: tests/commands/test_practise.py
NAMES = "chooseNext, finishQuestion, freshMemory, takeSlip, putRight, takeRight, isSecure, checkedMemory, kindsToday, freshLeft, planDays, plannedKinds, isRunning"
MONTH = """
({kinds, days, each, wrong, topics = null, plan = null, blocked = [], seed = 1}) => {
  let state = seed;
  const chance = () => (state = (state * 1103515245 + 12345) & 0x7fffffff) / 0x7fffffff;
  let kept = JSON.stringify({...freshMemory(seed * 37), topics, plan});
  const asked = [];
  for (let day = 20000; day < 20000 + days; day += 1) {
    const memory = checkedMemory(JSON.parse(kept));
    for (let done = 0, turns = 0; done < each; turns += 1) {
      if (turns > 10 * each) throw new Error("a dead end");
      const now = chooseNext(memory, kindsToday(memory, kinds, day), day);
      const kind = kinds.find(one => one.key === now.kind), own = memory.kinds[now.kind], right = chance() >= wrong;
      asked.push({day, key: now.kind, topic: kind.topic, level: kind.level, stage: now.stage, variant: now.variant});
      if (now.stage !== "worked" && !right) takeSlip(own, kind.parts[0], "", 0, day);
      if (now.stage === "alone" && right) { kind.parts.forEach(part => putRight(own, part, day)); takeRight(own, day); }
      finishQuestion(memory, now, now.stage === "worked" || right);
      done += now.stage === "worked" ? 0 : 1;
    }
    if (!blocked.includes(day - 20000)) kept = JSON.stringify(memory);
  }
  const memory = checkedMemory(JSON.parse(kept));
  return {asked, secure: Object.values(memory.kinds).filter(isSecure).length};
}
"""


@pytest.fixture(scope="module")
def kinds(space_of) -> list[dict[str, Any]]:
    banks, _ = read_banks(shipped_banks())
    pairs = [(bank, exercise) for bank in banks for exercise in bank.exercises]
    return [
        {"key": f"{bank.topic}/{e.name}", "topic": bank.topic, "exercise": e.name, "level": e.level, "place": place,
         "variants": min(FITS, len(for_practice(space_of(bank, e)))), "parts": [part.name for part in e.parts], "rule": e.name, "asks": False}
        for place, (bank, e) in enumerate(pairs)
    ]  # fmt: skip


@pytest.fixture(scope="module")
def js(browser):
    """The page's own modules, called in the browser with their functions in reach."""
    page = browser.new_page()
    script = page_script(("figures", "elements", "look", "true_size", "mock", "memory", "plan", "choose"))
    page.evaluate(f"() => {{ {script}\nglobalThis.own = {{ {NAMES} }}; }}")
    yield lambda code, given=None: page.evaluate(
        f"given => {{ const {{ {NAMES} }} = globalThis.own;\nreturn ({code})(given); }}", given
    )
    page.close()


@pytest.fixture(scope="module")
def month(js, kinds):
    return lambda **more: js(MONTH, {"kinds": kinds, "days": 30, "each": 10, "wrong": 0.1, **more})


def repeats(asked) -> int:
    return len(asked) - len({(one["key"], one["variant"]) for one in asked})


@pytest.mark.parametrize("seed", [1, 2, 3])
@pytest.mark.parametrize("wrong", [0, 0.1, 0.3, 0.5])
def test_a_month_meets_no_variant_twice_in_eighty_exercises(month, kinds, wrong, seed) -> None:
    """300 questions on 30 days: what keeps going wrong comes oftener than it has variants, up to twelve exercises of 92."""
    asked = month(wrong=wrong, seed=seed)["asked"]
    assert sum(one["stage"] != "worked" for one in asked) == 300
    met = Counter((one["key"], one["variant"]) for one in asked)
    again = {key for (key, _), times in met.items() if times > 1}
    often = Counter(one["key"] for one in asked)
    assert again == {kind["key"] for kind in kinds if often[kind["key"]] > kind["variants"]}
    assert len(kinds) - len(again) >= (80 if wrong else len(kinds))


@pytest.mark.parametrize("wrong", [0, 0.1, 0.3, 0.5])
def test_twenty_topics_in_one_file_meet_no_variant_twice_in_eighty_exercises_either(month, kinds, wrong) -> None:
    """Six variants of each fit there (tests/benchmarks/practice.py): what keeps going wrong comes again, as README says."""
    again_named = [kind | {name: f"{kind[name]} again" for name in ("key", "topic", "rule")} for kind in kinds]
    twenty = [kind | {"variants": IN_TWENTY, "place": place} for place, kind in enumerate([*kinds, *again_named])]
    asked = month(kinds=twenty, wrong=wrong)["asked"]
    met = Counter((one["key"], one["variant"]) for one in asked)
    again = {key for (key, _), times in met.items() if times > 1}
    assert len(again) <= (22 if wrong else 0)
    assert len(twenty) - len(again) >= 80


def test_levels_mix_and_every_level_and_topic_is_met_in_a_week(month, kinds) -> None:
    asked = month()["asked"]
    assert {one["level"] for one in asked if one["day"] < 20007} == {1, 2, 3}
    assert {one["topic"] for one in asked} == {kind["topic"] for kind in kinds}
    assert {one["level"] for one in asked[:6]} == {1}
    shares = [sum(one["level"] == level for one in asked) / len(asked) for level in (1, 2, 3)]
    assert min(shares) > 0.2


def test_most_exercises_are_met_by_someone_who_is_mostly_right(month) -> None:
    found = month(wrong=0)
    assert len({one["key"] for one in found["asked"]}) > 70
    assert found["secure"] > 60


def test_someone_mostly_wrong_goes_on_to_other_exercises_too(month) -> None:
    asked = month(wrong=0.6)["asked"]
    assert len({one["key"] for one in asked}) >= 12
    by_day = [(one["key"], one["day"]) for one in asked]
    assert max(map(by_day.count, set(by_day))) <= 8


def test_what_a_blocked_store_forgets_is_asked_again_and_nothing_stops(month) -> None:
    blocked = [3, 4, 11, 20]
    asked = month(blocked=blocked)["asked"]
    lost = [one for one in asked if one["day"] - 20000 in blocked]
    assert sum(one["stage"] != "worked" for one in asked) == 300
    assert repeats(asked) <= len(lost)


def test_one_topic_alone_lasts_a_month(month, kinds) -> None:
    topic = kinds[0]["topic"]
    asked = month(topics=[topic])["asked"]
    assert {one["topic"] for one in asked} == {topic}
    assert {one["key"] for one in asked} == {kind["key"] for kind in kinds if kind["topic"] == topic}


@pytest.mark.parametrize("days", [1, 3, 10, 30])
def test_a_plan_spreads_its_exercises_over_the_days_left(month, kinds, days) -> None:
    topics = [kinds[0]["topic"], kinds[-1]["topic"]]
    meant = {kind["key"] for kind in kinds if kind["topic"] in topics and kind["level"] < 3}
    plan = {"made": 20000, "test": 20000 + days, "topics": topics, "levels": [1, 2], "exercises": []}
    asked = month(days=days, each=8, wrong=0, plan=plan)["asked"]
    assert {one["key"] for one in asked} <= meant
    first = {}
    for one in asked:
        first.setdefault(one["key"], one["day"])
    if days >= 10:
        assert set(first) == meant
        assert max(first.values()) - 20000 < -(-days * 2 // 3)  # the last third is for repeating
        per_day = [list(first.values()).count(day) for day in range(20000, 20000 + days)]
        assert (
            max(per_day) <= -(-len(meant) // max(1, days * 2 // 3)) + 2
        )  # more where a day has more questions than its share
        assert len({one["day"] for one in asked}) == days


def test_the_plan_names_exercises_or_topics_and_levels(js, kinds) -> None:
    meant = "({plan, kinds}) => plannedKinds(plan, kinds).map(kind => kind.key)"
    plan = {"made": 0, "test": 1, "topics": [], "levels": [], "exercises": []}
    assert len(js(meant, {"plan": plan, "kinds": kinds})) == len(kinds)
    assert js(meant, {"plan": {**plan, "exercises": [kinds[5]["key"]], "levels": [9]}, "kinds": kinds}) == [
        kinds[5]["key"]
    ]
    threes = js(meant, {"plan": {**plan, "levels": [3]}, "kinds": kinds})
    assert threes == [kind["key"] for kind in kinds if kind["level"] == 3]


@pytest.mark.parametrize(("today", "holds"), [(19999, True), (20000, True), (20001, False)])
def test_a_plan_holds_until_its_test(js, today, holds) -> None:
    assert js("({today}) => isRunning({test: 20000}, today)", {"today": today}) is holds


def test_the_days_of_a_plan_have_all_its_exercises_between_them(js, kinds) -> None:
    days = js(
        "({kinds}) => planDays({made: 20000, test: 20009, topics: [], levels: [], exercises: []}, freshMemory(0), kinds, 20000)",
        {"kinds": kinds[:20]},
    )
    assert [day["day"] for day in days] == list(range(20000, 20009))
    assert sum(day["fresh"] for day in days) == 20
    assert [day["fresh"] for day in days[:5]] == [4, 4, 3, 3, 3]
    assert all(day["fresh"] == 0 for day in days[6:])
