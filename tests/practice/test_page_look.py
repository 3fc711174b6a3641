"""Letters and colours as the learner likes them, kept on the phone; questions read aloud by a voice of its own."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

SHOWN = """() => { const style = getComputedStyle(document.body);
  return {face: style.fontFamily, size: style.fontSize, spacing: style.letterSpacing, tint: style.backgroundColor}; }"""
CONTRAST = """() => {
  const light = (css) => { const c = css.match(/[0-9.]+/g).slice(0, 3).map((v) => { const s = v / 255; return s <= 0.04045 ? s / 12.92 : ((s + 0.055) / 1.055) ** 2.4; }); return 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2]; };
  const probe = document.body.appendChild(document.createElement("p"));
  const colour = (name) => { probe.style.color = `var(--${name})`; return light(getComputedStyle(probe).color); };
  const grounds = ["paper", "sheet"].map(colour);
  const least = Math.min(...["ink", "quiet", "clay", "good", "bad"].map(colour).flatMap((c) => grounds.map((g) => (Math.max(c, g) + 0.05) / (Math.min(c, g) + 0.05))));
  probe.remove();
  return least;
}"""  # relative luminance and contrast as WCAG 2.2 defines them
VOICES = """
  window.spoken = [];
  Object.defineProperty(window, "speechSynthesis", {value: {getVoices: () => VOICES, cancel: () => {}, speak: (told) => window.spoken.push(told.text), addEventListener: () => {}}});
  window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } set voice(v) { this.chosen = v; } get voice() { return null; } };
"""


def test_the_look_is_chosen_and_kept(phone) -> None:
    learner = phone()
    before = learner.page.evaluate(SHOWN)
    learner.press(learner.main.get_by_role("link", name="Letters and colours"))
    for group, choice in (
        ("Typeface", "With serifs"),
        ("Size", "Larger"),
        ("Spacing", "Wider"),
        ("Background", "Cream"),
    ):
        learner.choose(learner.main.get_by_role("group", name=group).get_by_role("radio", name=choice))
    after = learner.page.evaluate(SHOWN)
    assert all(before[name] != after[name] for name in before)
    learner.reload()
    assert learner.page.evaluate(SHOWN) == after
    learner.choose(learner.main.get_by_role("group", name="Background").get_by_role("radio", name="As it is"))
    assert learner.page.evaluate(SHOWN)["tint"] == before["tint"]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_background_has_contrast_enough_for_all_that_is_written(phone, scheme) -> None:
    """WCAG 2.2, 1.4.3: 4.5 to 1."""
    learner = phone(color_scheme=scheme)
    learner.open("#look")
    for box in learner.main.get_by_role("group", name="Background").get_by_role("radio").all():
        box.check()
        assert learner.page.evaluate(CONTRAST) >= 4.5


def test_a_look_that_is_not_known_is_left_out(phone) -> None:
    learner = phone()
    learner.page.evaluate(
        """localStorage.setItem("courseware-practice", '{"form": 1, "kinds": {}, "look": {"tint": "x", "toString": "y", "size": "large"}}')"""
    )
    learner.reload()
    assert learner.page.evaluate("({...document.documentElement.dataset})") == {"size": "large"}


def test_a_question_is_read_aloud_by_a_voice_on_the_device(phone) -> None:
    learner = phone(before=VOICES.replace("VOICES,", "[{lang: 'en-GB', localService: true}],"))
    learner.put("opening-for-a-panel")
    learner.press(learner.button("Read aloud"))
    [spoken] = learner.page.evaluate("window.spoken")
    question = learner.question()
    assert question["pose"] in spoken
    assert question["parts"][0]["ask"] in re.sub(r"\s+", " ", spoken)
    expect(learner.button("Stop reading")).to_be_visible()
    learner.press(learner.button("Stop reading"))


@pytest.mark.parametrize(
    "voices", ["[]", "[{lang: 'de-DE', localService: true}]", "[{lang: 'en-US', localService: false}]"]
)
def test_without_an_english_voice_on_the_device_there_is_no_button(phone, voices) -> None:
    """A voice that is not on the device would send the question to somebody."""
    learner = phone(before=VOICES.replace("VOICES,", f"{voices},"))
    learner.put("opening-for-a-panel")
    expect(learner.button("Read aloud")).to_have_count(0)
