"""What the phone keeps: progress, slips that come back, what is secure; and what is survived when it keeps nothing."""

from __future__ import annotations

import json
import re
from datetime import date, timedelta

import pytest
from playwright.sync_api import expect

from courseware.practice.saved_file import read_practice

BEGUN = "2026-03-02"  # a Monday; the clocks go forward four weeks later
NO_STORAGE = """
Object.defineProperty(window, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } });
"""
FULL_STORAGE = """
Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); };
"""
NO_TIME = "Date.now = () => NaN; { const Real = Date; window.Date = class extends Real { constructor(...a) { super(...(a.length ? a : [NaN])); } }; }"


def later(days: int, since: str = BEGUN) -> str:
    return (date.fromisoformat(since) + timedelta(days=days)).isoformat()


def test_a_reload_keeps_the_question_and_the_progress(phone) -> None:
    learner = phone()
    learner.start("Opening sizes")
    learner.finish()
    learner.finish()
    assert learner.stage() == "alone"
    learner.reload()
    expect(learner.main).to_have_attribute("data-stage", "alone")
    before = learner.main.get_attribute("data-variant")
    learner.reload()
    expect(learner.main).to_have_attribute("data-variant", str(before))
    learner.finish()
    learner.open("#progress")
    learner.reload()
    expect(learner.main).to_contain_text("Right once")


def test_a_page_closed_and_opened_again_goes_on(phone) -> None:
    learner = phone()
    learner.start("Opening sizes")
    learner.finish()
    learner.page.close()
    learner.page = learner.page.context.new_page()
    learner.main = learner.page.locator("main")
    learner.open()
    assert [box.is_checked() for box in learner.main.get_by_role("checkbox").all()] == [False, True, False]
    learner.start("Opening sizes")
    assert learner.stage() == "part"


def slip_once(learner) -> str:
    """A slip in one exercise, its working looked at, then a step and a question alone put right; the exercise."""
    exercise = "opening-for-a-panel"
    learner.put(exercise)
    learner.finish(right=False)
    assert (learner.kind()["exercise"], learner.stage()) == (exercise, "part")
    learner.finish()
    assert (learner.kind()["exercise"], learner.stage()) == (exercise, "alone")
    learner.finish()
    return exercise


def put_right(learner, exercise: str) -> None:
    """Opens the page on a day when the slip is due; after what was left over, its question alone and rightly."""
    learner.reload()
    learner.open("#topics")
    learner.start()
    for _ in range(6):  # a turn that was begun is ended first
        if learner.kind()["exercise"] == exercise:
            break
        learner.finish()
    assert (learner.kind()["exercise"], learner.stage()) == (exercise, "alone")
    learner.finish()


def test_a_slip_comes_back_after_1_day_and_then_after_3(phone) -> None:
    """The later returns, 7, 14 and 28 days, are those of test_page_logic.py."""
    learner = phone(day=BEGUN)
    exercise = slip_once(learner)
    learner.go("Progress")
    expect(learner.main).to_contain_text("comes back on 3 March")
    learner.go("Topics")
    expect(learner.main.locator("[data-role=due]")).to_have_text("Nothing comes back today.")
    learner.set_day(later(1))
    learner.reload()
    expect(learner.main.locator("[data-role=due]")).to_have_text("1 step that went wrong before comes back today.")
    put_right(learner, exercise)
    learner.set_day(later(3))
    learner.open("#topics")
    learner.reload()
    expect(learner.main.locator("[data-role=due]")).to_have_text("Nothing comes back today.")
    learner.set_day(later(4))
    learner.reload()
    expect(learner.main.locator("[data-role=due]")).to_have_text("1 step that went wrong before comes back today.")
    put_right(learner, exercise)
    (slip,) = (slip for kind in learner.kept()["kinds"].values() for slip in kind["slips"].values())
    assert slip["due"] - (date.fromisoformat(later(4)) - date(1970, 1, 1)).days == 7


def state_of(learner, exercise: str) -> str:
    title = next(kind["title"] for kind in learner.index["kinds"] if kind["exercise"] == exercise)
    learner.open("#progress")
    learner.reload()
    learner.open_topics()
    return str(learner.main.get_by_role("row", name=re.compile(re.escape(title))).inner_text())


def alone_again(learner, exercise: str) -> None:
    """One more question of the exercise alone, right, as a later turn brings it."""
    kept = learner.kept()
    key = next(key for key in kept["kinds"] if key.endswith(f"/{exercise}"))
    seen = kept["kinds"][key]["seen"]
    kept["now"] = {"kind": key, "stage": "alone", "variant": seen, "rule": False}
    learner.remember(kept)
    learner.page.evaluate("location.hash = '#practise'")
    expect(learner.main).to_have_attribute("data-stage", "alone")
    assert (learner.kind()["exercise"], learner.stage()) == (exercise, "alone")
    learner.finish()


def test_secure_is_right_three_times_on_two_days(phone) -> None:
    learner = phone(day=BEGUN)
    exercise = "what-fits-the-gap"
    learner.put(exercise)
    learner.finish()
    alone_again(learner, exercise)
    assert "Right twice" in state_of(learner, exercise)
    alone_again(learner, exercise)
    assert "Right three times, all on one day" in state_of(learner, exercise)
    learner.set_day(later(1))
    alone_again(learner, exercise)
    assert "Secure" in state_of(learner, exercise)


@pytest.mark.parametrize("help", ["a second try", "the working", "a second try after a reload"])
def test_help_does_not_count_towards_secure(phone, help) -> None:
    learner = phone(day=BEGUN)
    exercise = "opening-for-a-panel"
    learner.put(exercise)
    if help == "the working":
        learner.press(learner.button("Show the working"))
    else:
        learner.write(learner.wrong_text())
        learner.check()
        expect(learner.words()).to_contain_text("Not yet")
        if "reload" in help:
            learner.reload()
            expect(learner.main).to_have_attribute("data-stage", "alone")
        learner.write(learner.right_text())
        learner.check()
    while learner.on():
        learner.answer()
    assert "Right" not in state_of(learner, exercise)


@pytest.mark.parametrize("script", [NO_STORAGE, FULL_STORAGE], ids=["blocked", "full"])
def test_a_phone_that_lets_nothing_be_kept_is_told_and_practised_on(phone, script) -> None:
    learner = phone(before=script)
    learner.start("Opening sizes")
    learner.finish()
    learner.finish()
    learner.finish()
    expect(learner.page.locator("[data-role=unkept]")).to_be_visible()
    learner.go("Progress")
    expect(learner.page.locator("[data-role=unkept]")).to_be_visible()
    expect(learner.main).to_contain_text("Right once")
    learner.go("Save or load")
    with learner.page.expect_download() as download:
        learner.press(learner.button("Save my practice"))
    assert json.loads(download.value.path().read_text(encoding="utf-8"))["memory"]["kinds"]


@pytest.mark.parametrize("day", ["1970-01-01", "2099-12-31"])
def test_a_wrong_clock_is_survived(phone, day) -> None:
    learner = phone(day=day)
    exercise = slip_once(learner)
    learner.set_day(BEGUN)  # the clock is put right
    learner.open("#topics")
    learner.reload()
    expect(learner.main.locator("[data-role=due]")).to_have_text("1 step that went wrong before comes back today.")
    put_right(learner, exercise)
    title = next(kind["title"] for kind in learner.index["kinds"] if kind["exercise"] == exercise)
    learner.go("Progress")
    learner.open_topics()
    expect(learner.main.get_by_role("row", name=title)).not_to_contain_text("Not begun")
    assert all("Invalid" not in row.inner_text() for row in learner.main.get_by_role("row").all())


def test_a_clock_that_shows_no_time_is_survived(phone) -> None:
    learner = phone(before=NO_TIME)
    learner.start("Opening sizes")
    learner.finish()
    learner.finish()
    learner.finish()
    learner.go("Progress")
    expect(learner.main).to_contain_text("Right once")


HOSTILE = [
    "not json",
    "null",
    "[]",
    '{"form": 2, "kinds": {}}',
    '{"form": 1, "kinds": {"Opening sizes/opening-for-a-panel": {"stage": "flown", "slips": {"opening_width": {"due": "soon"}}, "rights": "many"}}}',
    '{"form": 1, "kinds": {"__proto__": {"stage": "alone"}, "No such topic/none": {"stage": "alone"}}, "now": {"kind": "No such topic/none", "stage": "alone", "variant": 9999999, "rule": true}, "last": 7, "topics": ["<img src=x onerror=alert(1)>"]}',
]


def test_what_is_kept_may_be_anything(phone) -> None:
    """Another page on the same site, or an older one, may have written it."""
    learner = phone()
    for found in HOSTILE:
        learner.open("#topics")
        learner.page.evaluate("found => localStorage.setItem('courseware-practice', found)", found)
        learner.reload()
        learner.go("Progress")
        learner.go("Topics")
        learner.start("Opening sizes")
        assert learner.kept()["form"] == 1


def saved(learner, folder):
    """The file that `Save my practice` gives."""
    learner.go("Save or load")
    with learner.page.expect_download() as download:
        learner.press(learner.button("Save my practice"))
    file = folder / download.value.suggested_filename
    download.value.save_as(file)
    return file


def test_practice_is_saved_to_a_file_and_loaded_on_another_phone(phone, tmp_path) -> None:
    learner = phone()
    learner.start("Opening sizes")
    for _ in range(3):
        learner.finish()
    learner.go("Save or load")
    learner.page.get_by_label("Your name").fill("Zoë O'Neill")
    file = saved(learner, tmp_path)
    assert file.name == "practice-zoe-o-neill.json"
    assert json.loads(file.read_text(encoding="utf-8"))["memory"]["kinds"] == learner.kept()["kinds"]
    other = phone()
    other.go("Save or load")
    other.page.get_by_label("Load a saved practice").set_input_files(file)
    expect(other.page.locator("#said")).to_have_text(re.compile("."))
    other.go("Progress")
    expect(other.main).to_contain_text("Right once")
    other.reload()
    expect(other.main).to_contain_text("Right once")


def test_the_tutor_reads_in_the_file_who_practised_what_and_when(phone, tmp_path) -> None:
    """Also in it: a name in any script, and a slip that is still to come."""
    learner = phone(day=BEGUN)
    learner.put("opening-for-a-panel")
    learner.finish(right=False)
    learner.finish()
    learner.go("Save or load")
    learner.page.get_by_label("Your name").fill("Łukasz 𝒩 حافة")
    file = saved(learner, tmp_path)
    found = read_practice(file.read_bytes(), file.name, date.fromisoformat(BEGUN))
    assert (found.name, found.saved.isoformat(), found.doubts) == ("Łukasz 𝒩 حافة", BEGUN, ())
    assert [(str(day.day), day.questions, day.right) for day in found.days] == [(BEGUN, 2, 1)]
    [kind] = found.practised
    assert (kind.exercise, kind.secure, len(kind.slips)) == ("Opening for a panel", False, 1)


def test_a_file_that_is_no_practice_is_refused_and_nothing_lost(phone, tmp_path) -> None:
    learner = phone()
    learner.start("Opening sizes")
    learner.finish()
    before = learner.kept()["kinds"]
    learner.go("Save or load")
    for number, text in enumerate(("", "hello", "[1]", '{"form": "courseware-practice", "version": 1, "memory": 3}')):
        file = tmp_path / f"other-{number}.json"
        file.write_text(text, encoding="utf-8")
        learner.page.evaluate("document.querySelector('[data-role=told]').textContent = ''")
        learner.page.get_by_label("Load a saved practice").set_input_files(file)
        expect(learner.main.locator("[data-role=told]")).to_contain_text("nothing was changed")
        assert learner.kept()["kinds"] == before


def test_everything_is_forgotten_when_asked_twice(phone) -> None:
    learner = phone()
    learner.start("Opening sizes")
    learner.finish()
    learner.go("Save or load")
    learner.press(learner.button("Forget all my practice"))
    learner.press(learner.button("No, keep it"))
    assert learner.kept()["kinds"]
    learner.press(learner.button("Forget all my practice"))
    learner.press(learner.button("Yes, forget it"))
    learner.go("Progress")
    assert not learner.kept().get("kinds")
    expect(learner.main).not_to_contain_text("Begun")


def test_nothing_is_written_anywhere_else(phone) -> None:
    """No cookie, no database, no second name: one entry that the learner can throw away."""
    learner = phone()
    learner.start("Opening sizes")
    learner.finish()
    assert learner.page.evaluate("Object.keys(localStorage)") == ["courseware-practice"]
    assert learner.page.evaluate("[document.cookie, sessionStorage.length]") == ["", 0]
    assert learner.page.evaluate("indexedDB.databases().then(found => found.length)") == 0


def go_away(learner, how: str) -> None:
    """Leaves the page and comes back, as by a reload, Back, another screen, or a phone that throws the page away."""
    if how == "a reload":
        learner.reload()
    elif how == "Back":
        learner.page.go_back()
        expect(learner.main).to_have_attribute("data-screen", "topics")
        learner.page.go_forward()
    elif how == "another screen":
        learner.go("Progress")
        learner.go("Practise")
    else:  # the lock screen or a call: the system ends the page without a word
        old = learner.page
        learner.page = old.context.new_page()
        learner.main = learner.page.locator("main")
        old.close(run_before_unload=False)
        learner.open("#practise")
    expect(learner.main).to_have_attribute("data-stage", "alone")


AWAY = ("a reload", "Back", "another screen", "the page is ended")


@pytest.mark.parametrize("how", AWAY)
def test_what_is_typed_and_the_parts_that_are_done_outlive_the_page(phone, how) -> None:
    learner = phone()
    learner.put("opening-for-a-panel")
    learner.answer()
    learner.on()
    first, second = (part["name"] for part in learner.question()["parts"][:2])
    assert learner.part()["name"] == second
    learner.page.locator("#answer").press_sequentially("12 × 7")
    go_away(learner, how)
    expect(learner.main).to_have_attribute("data-open", second)
    expect(learner.page.locator("#answer")).to_have_value("12 × 7")
    expect(learner.page.locator(f"section[data-part={first}]")).to_have_attribute("data-state", "right")
    learner.answer()
    expect(learner.page.locator("#answer")).to_have_count(0)
    while learner.on():
        learner.answer()
    key = next(iter(learner.kept()["kinds"]))
    assert len(learner.kept()["kinds"][key]["rights"]) == 1, "a question interrupted is still right without help"


@pytest.mark.parametrize("how", AWAY)
def test_an_order_and_ticks_outlive_the_page(phone, how) -> None:
    learner = phone()
    learner.put("setting-out-order")
    first, second, *rest = learner.letters()
    learner.press(learner.button(f"Move down: {dict(learner.part()['options'])[first]}"))
    go_away(learner, how)
    assert learner.letters() == [second, first, *rest]
    learner.put("heights-that-weave")
    box = learner.main.get_by_role("checkbox").nth(1)
    box.check()
    go_away(learner, how)
    ticked = [one.is_checked() for one in learner.main.get_by_role("checkbox").all()]
    assert [place for place, one in enumerate(ticked) if one] == [1]


def test_a_figure_written_by_a_button_outlives_the_page(phone) -> None:
    learner = phone(has_touch=True)
    learner.put("opening-for-a-panel")
    learner.press(learner.button("½"))
    learner.reload()
    expect(learner.page.locator("#answer")).to_have_value("½")
