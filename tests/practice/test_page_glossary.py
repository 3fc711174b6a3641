"""Words and card on the page: looked at over a question, which stays as it is."""

from __future__ import annotations

import re

from playwright.sync_api import expect

MOCK = {
    "items": [{"kind": "Opening sizes/opening-for-a-panel", "variant": 0}],
    "answers": {}, "seconds": 100, "used": 0, "over": False,
}  # fmt: skip


def entries(page):
    return page.locator("dialog .words > li:not([hidden])")


def test_words_are_looked_up_over_a_question_and_it_stays(phone) -> None:
    learner = phone()
    learner.put("opening-for-a-panel")
    learner.page.get_by_role("textbox").first.fill("12")
    learner.press(learner.button("Words"))
    dialog = learner.page.get_by_role("dialog", name="Words")
    expect(dialog.get_by_role("heading", name="Words")).to_be_focused()
    expect(entries(learner.page)).to_have_count(75)
    expect(dialog.locator("svg").first).to_be_visible()
    learner.page.keyboard.press("Escape")
    expect(dialog).to_have_count(0)
    expect(learner.button("Words")).to_be_focused()
    expect(learner.page.get_by_role("textbox").first).to_have_value("12")


def test_a_word_is_found_in_either_language(phone) -> None:
    learner = phone()
    learner.start()
    learner.press(learner.button("Words"))
    find = learner.page.get_by_label("Find a word")
    for typed, found in (("Perp", ["perp"]), ("مفصل", ["bed"]), ("  BAT", ["bat", "mitred bat", "three-quarter bat"])):
        find.fill(typed)
        assert entries(learner.page).locator("h3").all_inner_texts() == found
    find.fill("zzz")
    expect(learner.page.get_by_text("No such word here.")).to_be_visible()
    find.fill("")
    expect(entries(learner.page)).to_have_count(75)


def test_a_second_language_says_which_it_is_and_how_it_is_read(phone) -> None:
    learner = phone()
    learner.press(learner.button("Words"))
    second = learner.page.locator("dialog .second")
    assert [(each.get_attribute("lang"), each.get_attribute("dir")) for each in second.all()] == [("ar", "rtl")] * 2


def test_the_card_has_a_rule_of_each_topic_and_is_closed_by_its_button(phone) -> None:
    learner = phone(keyboard=True)
    learner.press(learner.button("Card"))
    dialog = learner.page.get_by_role("dialog", name="Card")
    expect(dialog).to_contain_text("Opening = bricks × 225 + 10")
    expect(dialog).to_contain_text("For UK metric bricks")
    expect(dialog.locator("li")).to_have_count(12)
    learner.press(dialog.get_by_role("button", name="Close"))
    expect(learner.button("Card")).to_be_focused()


def test_a_word_of_the_trade_in_a_question_is_a_tap_away(phone) -> None:
    """The first time it stands there, in any form; the question stays as it is."""
    learner = phone()
    learner.put("opening-for-a-panel")
    asked = learner.page.locator("[data-role=asked]")
    words = learner.question()
    assert asked.locator("p").all_inner_texts() == [
        words[name] for name in ("setting", "pose", "brick") if name in words
    ]
    marked = asked.locator("button.word")
    names = [text.lower().removesuffix("s") for text in marked.all_inner_texts()]
    assert "course" in names
    assert len(names) == len(set(names))
    learner.page.get_by_role("textbox").first.fill("12")
    word = marked.first
    told = word.inner_text()
    learner.press(word)
    dialog = learner.page.get_by_role("dialog", name=told)
    expect(dialog.locator(".words > li")).to_have_count(1)
    expect(dialog.locator("svg")).to_be_visible()
    learner.page.keyboard.press("Escape")
    expect(word).to_be_focused()
    expect(learner.page.get_by_role("textbox").first).to_have_value("12")


def test_words_are_a_tap_away_in_headings_feedback_and_working_too_and_in_a_test_they_are_not(phone) -> None:
    learner = phone()
    learner.put("opening-for-a-panel")
    asked = learner.page.locator("section[data-state=open] h2")
    expect(asked).to_contain_text(learner.question()["parts"][0]["ask"])
    expect(asked.locator("button.word").first).to_be_visible()
    slip = next(slip for slip in learner.part()["slips"] if "joint" in slip["says"])
    learner.write(slip["right"])
    learner.check()
    told = learner.feedback()
    expect(told).to_contain_text(slip["says"])
    learner.press(told.locator("button.word").first)
    expect(learner.page.get_by_role("dialog").locator(".words > li")).to_have_count(1)
    learner.page.keyboard.press("Escape")
    learner.press(learner.button("Show the working"))
    expect(learner.page.locator(".worked button.word").first).to_be_visible()
    learner.remember({"form": 1, "kinds": {}, "mock": MOCK})
    learner.page.evaluate("location.hash = '#mock'")
    expect(learner.page.locator("h1")).to_have_text("1 of 1: Opening for a panel")
    expect(learner.page.locator("button.word")).to_have_count(0)


def trade_words(learner, texts) -> list[str]:
    """The glossary's words in some texts, longest first where two begin alike; by their own spelling, in small letters."""
    longest = sorted(learner.index["words"], key=len, reverse=True)
    found = re.finditer(
        rf"(?<![\w-])({'|'.join(map(re.escape, longest))})(?:e?s)?(?![\w-])", "\n".join(texts), re.IGNORECASE
    )
    return list(dict.fromkeys(one[1].lower() for one in found))


def test_words_of_choices_stand_in_a_list_under_them_since_no_button_may_stand_in_a_label(phone) -> None:
    """By keyboard alone, as large as WCAG 2.5.5 asks (44 px), with the second language; what was ticked stays."""
    learner = phone(keyboard=True, viewport={"width": 320, "height": 300})
    learner.put("heights-that-weave")
    words = trade_words(learner, [says for _, says in learner.part()["options"]])
    assert words
    box = learner.main.get_by_role("checkbox").first
    learner.press(box)
    group = learner.main.get_by_role("group", name="Words here")
    buttons = group.get_by_role("button").all()
    assert [button.inner_text().lower() for button in buttons] == words
    assert all(min(button.bounding_box()[side] for side in ("width", "height")) >= 44 for button in buttons)
    expect(learner.main.locator("label button")).to_have_count(0)
    learner.press(buttons[0])
    expect(learner.page.get_by_role("dialog").locator(".words > li h3")).to_have_text(words[0])
    learner.page.keyboard.press("Escape")
    expect(buttons[0]).to_be_focused()
    expect(box).to_be_checked()
    learner.answer()
    expect(group.get_by_role("button")).to_have_count(len(words))  # what was asked is still there to be read


def test_words_of_steps_are_a_tap_away_while_they_are_moved_and_after(phone) -> None:
    learner = phone()
    learner.put("setting-out-order")
    steps = [says for _, says in learner.part()["options"]]
    words = learner.main.locator(".order .words")
    marked = trade_words(learner, steps)
    assert marked
    assert sorted(trade_words(learner, words.locator("button.word").all_inner_texts())) == sorted(marked)
    learner.press(learner.button(f"Move down: {steps[0]}"))
    expect(learner.button(f"Move down: {steps[0]}")).to_be_focused()
    learner.press(words.locator("button.word").first)
    expect(learner.page.get_by_role("dialog").locator(".words > li")).to_have_count(1)
    learner.page.keyboard.press("Escape")
    learner.answer()
    assert sorted(words.all_inner_texts()) == sorted(steps)
    expect(words.locator("button.word")).to_have_count(len(marked))


def test_words_of_a_table_s_rows_are_a_tap_away(phone) -> None:
    learner = phone()
    learner.put("three-heights-of-one-wall")
    part = next(part for part in learner.question()["parts"] if part.get("rows"))
    while not learner.main.locator("table").count():
        learner.answer()
        learner.on()
    said = [trade_words(learner, texts) for texts in ([part["ask"]], [row["ask"] for row in part["rows"]])]
    there = learner.main.locator("table th button.word").all_inner_texts()
    assert trade_words(learner, there) == [word for word in said[1] if word not in said[0]] != []


def test_another_name_of_a_word_leads_to_it(phone) -> None:
    learner = phone()
    learner.put("which-rule")
    learner.answer()
    learner.on()
    perpend = learner.page.get_by_role("button", name=re.compile("^perpends?$", re.IGNORECASE)).first
    learner.press(perpend)
    expect(learner.page.get_by_role("dialog").locator(".words > li h3")).to_have_text("perp")
