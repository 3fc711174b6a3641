"""What is seen on a small phone, with and without a keyboard over half of it: feedback, figures, one part at a time.

A viewport of 320 × 300 px stands for a phone of 320 × 568 with a keyboard open: where the browser lays the page out above
the keyboard (`interactive-widget=resizes-content`, CSS Viewport Module Level 1) it is just that.
"""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

WIDE, HIGH, ABOVE_KEYBOARD = 320, 568, 300
HIDDEN = """selector => {
  const told = [...document.querySelectorAll(selector)].at(-1), seen = visualViewport, hidden = [];
  const walk = document.createTreeWalker(told, NodeFilter.SHOW_TEXT);
  for (let text = walk.nextNode(); text; text = walk.nextNode()) {
    for (const found of text.data.matchAll(/[^.;]+[.;]?/g)) {
      if (!found[0].trim()) continue;
      const range = document.createRange();
      range.setStart(text, found.index);
      range.setEnd(text, found.index + found[0].length);
      for (const box of range.getClientRects()) {
        const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
        const within = box.top >= seen.offsetTop && box.bottom <= seen.offsetTop + seen.height;
        if (!within || !told.contains(document.elementFromPoint(x, y))) hidden.push([found[0].trim(), box.top, box.bottom]);
      }
    }
  }
  return hidden;
}"""
TOLD = "[data-role=feedback] > p:first-child"
TRIED = (
    "opening-for-a-panel",
    "rise-of-a-lift",
    "what-fits-the-gap",
    "which-rule",
    "setting-out-order",
    "heights-that-weave",
)


def longest_slip(part) -> str | None:
    """The figure of the slip of most words, typed as it is."""
    slips = [slip for slip in part.get("slips", ()) if re.fullmatch(r"[\d.]+", slip["right"])]
    return max(slips, key=lambda slip: len(slip["says"]))["right"] if slips else None


@pytest.mark.parametrize("high", [HIGH, ABOVE_KEYBOARD])
@pytest.mark.parametrize("exercise", TRIED)
def test_every_sentence_of_feedback_is_seen(phone, exercise, high) -> None:
    """After a first wrong answer, after a second with the working, and after a right one; nothing lies over it."""
    learner = phone(viewport={"width": WIDE, "height": high})
    learner.put(exercise)
    slip = longest_slip(learner.part())
    if slip:
        learner.write(slip)
        learner.check()
        expect(learner.feedback()).to_have_attribute("data-how", re.compile("."))
    else:
        learner.answer(right=False)
    assert learner.page.evaluate(HIDDEN, TOLD) == []
    if learner.page.locator("#answer").count():
        expect(learner.page.locator("#answer")).to_be_in_viewport(ratio=1)
        expect(learner.button("Check")).to_be_in_viewport(ratio=1)
    learner.answer(right=False)
    assert learner.page.evaluate(HIDDEN, TOLD) == []
    expect(learner.main.locator("section button.next")).to_be_in_viewport(ratio=1)
    if learner.on():
        learner.answer()
        assert learner.page.evaluate(HIDDEN, TOLD) == []


@pytest.mark.parametrize("sentences", [1, 8, 30])
def test_feedback_of_any_length_begins_in_sight_and_the_figures_give_way_to_it(phone, sentences) -> None:
    """A stranger's slip may be long: one that fits beside the figures, one that does not, one longer than the screen."""
    learner = phone(viewport={"width": WIDE, "height": ABOVE_KEYBOARD})
    learner.put("opening-for-a-panel")
    learner.write("7")
    learner.check()
    learner.page.evaluate(
        """count => { const told = document.querySelector('#feedback > p');
        told.textContent = 'The joint at the far end was left out. '.repeat(count);
        visualViewport.dispatchEvent(new Event('resize')); }""",
        sentences,
    )
    hidden = learner.page.evaluate(HIDDEN, TOLD)
    assert (hidden == []) is (sentences < 30)
    assert learner.page.locator(TOLD).bounding_box()["y"] >= 0
    strip = learner.page.locator("[data-role=sight] .inside")
    assert strip.is_visible() is (sentences == 1)


def test_feedback_stays_in_sight_when_the_keyboard_opens_after_it(phone) -> None:
    learner = phone(viewport={"width": WIDE, "height": HIGH})
    learner.put("opening-for-a-panel")
    learner.write(longest_slip(learner.part()) or "")
    learner.check()
    learner.page.set_viewport_size({"width": WIDE, "height": ABOVE_KEYBOARD})
    learner.page.wait_for_function(f"({HIDDEN})({TOLD!r}).length === 0")
    expect(learner.page.locator("#answer")).to_be_in_viewport(ratio=1)


def test_the_figures_and_a_thumb_of_the_drawing_stay_and_open_the_whole_question(phone) -> None:
    learner = phone(viewport={"width": WIDE, "height": HIGH}, keyboard=True)
    learner.put("rise-of-a-lift")
    strip = learner.page.locator("[data-role=sight] .inside")
    expect(strip).to_be_hidden()  # the question itself is seen
    learner.write("1")
    learner.check()
    expect(strip).to_be_visible()
    expect(strip.locator("svg")).to_be_in_viewport(ratio=1)
    figure = r"\d+(?:\.\d+)?"
    asked = " ".join(learner.page.locator("[data-role=asked] p").all_inner_texts())
    assert sorted(re.findall(figure, asked)) == sorted(re.findall(figure, strip.locator(".figures").inner_text()))
    whole = learner.button("The whole question")
    learner.press(whole)
    dialog = learner.page.get_by_role("dialog", name="The question")
    for words in learner.page.locator("[data-role=asked] p").all_inner_texts():
        expect(dialog).to_contain_text(words)
    expect(dialog.locator("svg").first).to_have_attribute("role", "img")
    learner.page.keyboard.press("Escape")
    expect(dialog).to_have_count(0)
    expect(whole).to_be_focused()


@pytest.mark.parametrize(("wide", "folded"), [(320, True), (640, True), (641, False), (1280, False)])
def test_a_part_that_is_done_is_a_line_on_a_small_screen_and_can_be_opened(phone, wide, folded) -> None:
    learner = phone(viewport={"width": wide, "height": 900})
    learner.put("opening-for-a-panel")
    first = learner.question()["parts"][0]
    learner.answer()
    learner.on()
    line = learner.page.locator("details.folded > summary")
    if not folded:
        expect(line).to_have_count(0)
        return
    expect(line).to_have_text(re.compile(rf"^{first['label']} ✓{re.escape(first['answer'])}$"))
    expect(learner.page.get_by_role("heading", level=2)).to_have_count(1)
    line.click()
    expect(learner.page.locator("details.folded")).to_contain_text(first["ask"])


def test_the_next_part_comes_to_the_top_under_the_figures(phone) -> None:
    learner = phone(viewport={"width": WIDE, "height": HIGH})
    learner.put("opening-for-a-panel")
    learner.answer()
    learner.on()
    heading = learner.page.locator("section[data-state=open] h2")
    expect(heading).to_be_focused()
    strip = learner.page.locator("[data-role=sight] .inside")
    expect(strip).to_be_visible()
    under = strip.bounding_box()["y"] + strip.bounding_box()["height"]
    assert under <= heading.bounding_box()["y"] <= under + 24
    expect(learner.page.locator("#answer")).to_be_in_viewport(ratio=1)
