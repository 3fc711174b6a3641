""" "My test is on …": what it is about and when; the plan stays on the phone and chooses what is practised."""

from __future__ import annotations

from playwright.sync_api import expect

TODAY = "2026-03-02"  # a Monday


def test_a_plan_is_made_kept_followed_and_given_up(phone) -> None:
    learner = phone(day=TODAY)
    learner.press(learner.main.get_by_role("link", name="My test is on …"))
    expect(learner.page.locator("h1")).to_be_focused()
    learner.press(learner.button("Make the plan"))
    expect(learner.main.locator("[data-role=told]")).to_contain_text("tomorrow or later")
    learner.page.get_by_label("The day of the test").fill("2026-03-11")
    learner.press(learner.main.get_by_role("checkbox", name="Course gauge", exact=True))
    learner.press(learner.main.get_by_role("checkbox", name="Level 1", exact=True))
    learner.press(learner.button("Make the plan"))
    meant = [kind for kind in learner.index["kinds"] if kind["topic"] == "Course gauge" and kind["level"] == 1]
    told = learner.main.locator("[data-role=plan]")
    expect(told).to_have_text(f"Your test is on 11 March, in 9 days. 0 of {len(meant)} exercises begun.")
    fresh = [text.split()[0] for text in learner.main.locator("table td").all_inner_texts() if "new" in text]
    assert sum(map(int, fresh)) == len(meant)
    learner.reload()
    expect(told).to_contain_text("in 9 days")
    learner.press(learner.button("Go on"))
    expect(learner.main).to_have_attribute("data-stage", "worked")
    for _ in range(4):
        assert learner.kind()["topic"] == "Course gauge"
        learner.finish()
    learner.go("Topics")
    expect(learner.main.locator("[data-role=plan]")).to_contain_text("in 9 days")
    learner.set_day("2026-03-12")
    learner.reload()
    expect(learner.main.locator("[data-role=plan]")).to_have_count(0)
    learner.set_day("2026-03-10")
    learner.open("#plan")
    learner.reload()
    expect(told).to_contain_text("on 11 March, tomorrow")
    learner.press(learner.button("No more plan"))
    expect(told).to_have_count(0)
    assert learner.kept()["plan"] is None


def test_one_topic_of_many_is_chosen_by_two_presses(phone) -> None:
    learner = phone()
    names = [topic["topic"] for topic in learner.index["topics"]]
    learner.press(learner.button("Untick all"))
    learner.press(learner.button("Start"))
    expect(learner.main.get_by_role("alert")).to_have_text("Tick at least one topic.")
    learner.press(learner.main.get_by_role("checkbox", name=names[1]))
    assert learner.kept()["topics"] == [names[1]]
    learner.press(learner.button("Tick all"))
    assert learner.kept()["topics"] is None
    expect(learner.button("Untick all")).to_be_visible()
