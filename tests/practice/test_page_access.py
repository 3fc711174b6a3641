"""Everyone can use the page: WCAG 2.2 AA by axe-core on every screen, sizes, spacing, zoom; and its HTML is valid."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

import pytest
from playwright.sync_api import expect

from tests.checkers import TAGS

SPACING = """* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important; }
p { margin-bottom: 2em !important; }"""  # WCAG 2.2, 1.4.12
SPACED = "css => { const sheet = new CSSStyleSheet(); sheet.replaceSync(css); document.adoptedStyleSheets = [sheet]; }"
CLIPPED = """() => {
  const seen = element => element.checkVisibility({checkOpacity: true, checkVisibilityCSS: true}) && element.clientWidth > 2;
  const texts = [...document.body.querySelectorAll("*")].filter(element =>
    !element.closest("svg, dialog .sheet") && seen(element) && [...element.childNodes].some(node => node.nodeType === 3 && node.data.trim()));
  const wrong = [];
  for (const element of texts) {
    const box = element.getBoundingClientRect();
    if (box.right > innerWidth + 1 || box.left < -1) wrong.push(["outside", element.outerHTML.slice(0, 120)]);
    const letter = parseFloat(getComputedStyle(element).fontSize), words = element.innerText.length;
    if (element.clientWidth && box.width < 2.5 * letter && words > 6) wrong.push(["squeezed", element.outerHTML.slice(0, 120)]);
    for (let around = element; around !== document.body; around = around.parentElement) {
      const style = getComputedStyle(around);
      const cut = [style.overflowX, style.overflowY].some(value => value === "hidden" || value === "clip");
      if (cut && around.clientWidth > 2 && (around.scrollWidth > around.clientWidth + 1 || around.scrollHeight > around.clientHeight + 1))
        wrong.push(["clipped", around.outerHTML.slice(0, 120)]);
    }
  }
  if (document.documentElement.scrollWidth > innerWidth) wrong.push(["wider than the screen", [...document.body.querySelectorAll("*")].filter(element => element.getBoundingClientRect().right > innerWidth + 1).map(element => element.outerHTML.slice(0, 80)).join(" ")]);
  return wrong;
}"""
SMALL = """() => [...document.querySelectorAll("a[href], button:not(.word), input:not([type=radio]):not([type=checkbox]), summary, label:has(input[type=radio], input[type=checkbox])")]
  .filter(element => element.checkVisibility() && element.getBoundingClientRect().width > 2)
  .map(element => [element.outerHTML.slice(0, 90), element.getBoundingClientRect()])
  .filter(([, box]) => box.width < 44 || box.height < 44).map(([text, box]) => [text, box.width, box.height])"""


HTML = """() => {
  const copy = document.documentElement.cloneNode(true);
  copy.querySelectorAll("script, style").forEach(element => element.remove());
  return copy.outerHTML;
}"""
STATES = {
    "number": "opening-for-a-panel",
    "one choice": "which-rule",
    "several choices": "heights-that-weave",
    "order": "setting-out-order",
    "table": "three-heights-of-one-wall",
    "drawn": "marks-on-a-new-rod",
}


def screens(learner) -> Iterator[str]:
    """Leads a learner through every screen and every state of a question, and names each."""
    yield "topics, first time"
    learner.start()
    yield "worked example"
    learner.put("rise-of-a-lift", "part")
    yield "part-worked, with a drawing"
    learner.put("opening-for-a-panel", rule=True)
    yield "which rule"
    learner.choose(learner.page.get_by_role("radio", name=learner.rules()[1], exact=True))
    learner.check()
    yield "the rule, wrong"
    learner.press(learner.button("Go on"))
    yield "after the rule"
    for name, exercise in STATES.items():
        learner.put(exercise)
        while name == "drawn" and learner.part()["kind"] != "drawn":
            learner.answer()
            learner.on()
        yield f"{name} asked"
        learner.answer(right=False)
        yield f"{name} wrong"
        if learner.button("Show the working").count():
            learner.press(learner.button("Show the working"))
            yield f"{name} with its working"
    learner.put("rise-of-a-lift")
    learner.press(learner.button("Enlarge the drawing"))
    yield "drawing enlarged"
    learner.page.keyboard.press("Escape")
    for name in ("Words", "Card"):
        learner.press(learner.button(name))
        yield name
        learner.page.keyboard.press("Escape")
    learner.press(learner.button("Words"))
    learner.page.get_by_label("Find a word").fill("zzz")
    yield "no such word"
    learner.press(learner.page.get_by_role("button", name="Close"))
    learner.put("opening-for-a-panel", due=True)
    yield "a question that comes back"
    learner.finish(right=False)
    learner.page.evaluate("location.hash = '#end'")
    expect(learner.main).to_have_attribute("data-screen", "end")
    yield "the end of a sitting"
    yield from screens_of_the_test(learner)
    for name in ("Progress", "Topics", "Save or load"):
        learner.go(name)
        yield name
        if name == "Progress":
            learner.open_topics()
            yield "progress with its rows"
    learner.press(learner.button("Forget all my practice"))
    yield "asked whether to forget"


def screens_of_the_test(learner) -> Iterator[str]:
    """The plan to a test, a mock one, and how the page looks."""
    for name in ("plan", "look", "size", "mock"):
        learner.open(f"#{name}")
        yield name
    learner.press(learner.button("Begin the test"))
    yield "an exercise of a mock test"
    learner.press(learner.button("Hand in"))
    learner.press(learner.button("Yes, hand in"))
    yield "what came of a mock test"


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """What one look through every screen found; each fault with its screen."""

    screens: list[str]
    broken: list[tuple[str, ...]]  # rules of WCAG, in light and in dark
    passed: int  # rules that axe could try on the screen with the fewest
    clipped: list[tuple[str, str, str]]
    small: list[tuple[str, str]]
    texts: list[str]  # the HTML of each as the browser holds it, without the packed questions


@pytest.fixture
def looked(one_phone, npm) -> Looked:
    """Every screen looked at once, at 320 px: by axe in light and dark, for size, spacing and zoom, and as HTML."""
    axe = (npm / "axe-core" / "axe.min.js").read_text(encoding="utf-8")
    learner = one_phone()
    page = learner.page
    page.evaluate(axe)
    found = Looked(screens=[], broken=[], passed=100, clipped=[], small=[], texts=[])
    passed = []
    for screen in screens(learner):
        found.screens.append(screen)
        found.texts.append(page.evaluate(HTML))
        found.small.extend((screen, str(fault)) for fault in page.evaluate(SMALL))
        found.clipped.extend((screen, "as it is", str(fault)) for fault in page.evaluate(CLIPPED))
        page.evaluate(SPACED, SPACING)
        found.clipped.extend((screen, "spaced", str(fault)) for fault in page.evaluate(CLIPPED))
        page.evaluate("document.adoptedStyleSheets = []; document.documentElement.style.fontSize = '200%'")
        found.clipped.extend((screen, "200 %", str(fault)) for fault in page.evaluate(CLIPPED))
        page.evaluate("document.documentElement.style.fontSize = ''")
        report = page.evaluate("tags => axe.run(document, {runOnly: tags})", TAGS)
        page.emulate_media(color_scheme="dark")
        dark = page.evaluate(
            "axe.run(document, {runOnly: {type: 'rule', values: ['color-contrast', 'link-in-text-block']}})"
        )
        page.emulate_media(color_scheme="light")
        passed.append(len(report["passes"]))
        found.broken.extend(
            (screen, scheme, rule["id"], rule["nodes"][0]["html"][:150], rule["nodes"][0]["failureSummary"])
            for scheme, told in (("light", report), ("dark", dark))
            for rule in told["violations"]
        )
    return replace(found, passed=min(passed))


def test_every_screen_can_be_seen_pressed_enlarged_and_read_by_machines(looked, html_validate, tmp_path) -> None:
    """In one test, so that one process looks. At 320 px, which is 1280 px at 400 % (WCAG 2.2, 1.4.10); with the spacing
    of 1.4.12; with letters of twice the size (1.4.4)."""
    assert len(looked.screens) == len(set(looked.screens)) > 25
    assert looked.passed > 10
    assert looked.broken == [], "axe, in light and dark"
    assert looked.clipped == [], "clipped, or scrolled sideways"
    assert looked.small == [], "pressed, and under 44 px"
    files = [tmp_path / f"{screen.replace(' ', '-')}.html" for screen in looked.screens]
    for file, text in zip(files, looked.texts, strict=True):
        file.write_text(f"<!DOCTYPE html>\n{text}", encoding="utf-8")
    assert html_validate(*files) == ""


def test_axe_can_find_something(phone, npm) -> None:
    axe = (npm / "axe-core" / "axe.min.js").read_text(encoding="utf-8")
    learner = phone(bypass_csp=True)
    learner.page.evaluate(axe)
    learner.page.evaluate(
        "document.querySelector('main').insertAdjacentHTML('beforeend', '<img src=\"data:,\"><p style=\"color: #ccc; background: #fff\">pale</p>')"
    )
    report = learner.page.evaluate("tags => axe.run(document, {runOnly: tags})", TAGS)
    assert {rule["id"] for rule in report["violations"]} >= {"image-alt", "color-contrast"}


def test_the_page_works_zoomed_to_200_percent(phone) -> None:
    """A desk's browser at 640 px zoomed to 200 % gives the page 320 px with two device pixels each."""
    learner = phone(device_scale_factor=2)
    learner.start()
    learner.finish()
    assert learner.page.evaluate(CLIPPED) == []


def test_the_checks_can_fail(phone) -> None:
    learner = phone(bypass_csp=True)
    learner.page.evaluate(
        "document.querySelector('main').insertAdjacentHTML('beforeend', '<div style=\"width: 40px; height: 10px; overflow: hidden\">far too long for this box</div><button style=\"width: 20px; height: 20px; min-height: 0; min-width: 0; padding: 0\">x</button><p style=\"width: 900px\">wide</p>')"
    )
    assert {kind for kind, _ in learner.page.evaluate(CLIPPED)} == {
        "clipped",
        "outside",
        "squeezed",
        "wider than the screen",
    }
    assert len(learner.page.evaluate(SMALL)) == 1


def test_the_focus_is_always_seen_and_goes_where_the_screen_goes(phone) -> None:
    learner = phone(keyboard=True)
    for _ in range(8):
        learner.page.keyboard.press("Tab")
        outline = learner.page.evaluate(
            "(({outlineStyle, outlineWidth}) => outlineStyle + ' ' + outlineWidth)(getComputedStyle(document.activeElement))"
        )
        assert re.fullmatch(r"(?!none)\w+ ([2-9]|\d\d)(\.\d+)?px", outline), outline
    learner.go("Progress")
    expect(learner.page.locator("h1")).to_be_focused()
    learner.go("Topics")
    expect(learner.page.locator("h1")).to_be_focused()
    learner.start()
    expect(learner.page.locator("h1")).to_be_focused()
    learner.finish()
    expect(learner.page.locator("h1")).to_be_focused()
    assert learner.page.locator("h1").count() == 1


def test_right_and_wrong_are_told_in_words(phone) -> None:
    """Not by colour alone (1.4.1): without any colour the words say it."""
    learner = phone(forced_colors="active")
    learner.put("opening-for-a-panel")
    learner.answer()
    expect(learner.page.locator("section[data-state=right]").first).to_contain_text("Right")
    learner.on()
    learner.answer(right=False)
    expect(learner.page.locator("section[data-state=open]")).to_contain_text("Not yet")


def test_the_file_is_valid_html(html_validate, practice_file) -> None:
    assert html_validate(practice_file) == ""


def test_html_validate_can_find_something(html_validate, tmp_path) -> None:
    file = tmp_path / "faulty.html"
    file.write_text(
        "<!DOCTYPE html><html lang='en'><head><title>t</title></head><body><p>x</div></body></html>",
        encoding="utf-8",
    )
    assert html_validate(file)
