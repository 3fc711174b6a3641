"""Drawings on a phone 320 pixels wide, measured in the browser: words of 12 pixels or more, none over another, all in sight."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from playwright.sync_api import expect

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.drawings import to_svg
from courseware.drawings.fitted import Sizes, on_phone
from tests.checkers import TAGS
from tests.drawings.conftest import call_for
from tests.drawings.test_table_of_kinds import MIDDLING, _at_its_limits
from tests.practice.conftest import phones

# Between them every way of setting words in a drawing: `test_fitted` holds all kinds to it by the widths of letters.
SHOWN = (
    "opening", "pier", "returned", "gauge_rod", "projection", "wall", "panel", "surround", "herringbone", "soldiers", "sill",
    "dentils", "dog_tooth", "stack_bond", "corbel", "square_corner", "diagonals",
)  # fmt: skip
MEASURED = """svg => {
  const words = [...svg.querySelectorAll("text")], frame = svg.getBoundingClientRect();
  const sizes = words.map(word => parseFloat(getComputedStyle(word).fontSize) * svg.getScreenCTM().a);
  const boxes = words.map(word => word.getBoundingClientRect()), faults = [];
  boxes.forEach((a, n) => {
    if (a.left < frame.left - 1 || a.right > frame.right + 1) faults.push(["out of sight", words[n].textContent]);
    boxes.slice(n + 1).forEach((b, m) => {
      const across = Math.min(a.right, b.right) - Math.max(a.left, b.left), down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      const high = Math.min(a.height, b.height, a.width, b.width);
      if (across > 1 && down > high / 3) faults.push([words[n].textContent, words[n + 1 + m].textContent]);
    });
  });
  return {least: Math.min(...sizes, 99), faults, wide: frame.width, over: document.documentElement.scrollWidth - innerWidth};
}"""  # a face's box is higher than its letters: a third of it may be shared
PUT = """(paper, svg) => {
  paper.innerHTML = svg;
  const drawn = paper.querySelector("svg");
  drawn.removeAttribute("width"), drawn.removeAttribute("height"), drawn.setAttribute("class", "narrow");
}"""


def check(found) -> None:
    assert found["faults"] == []
    assert found["over"] <= 0
    assert found["least"] >= 12


@pytest.mark.parametrize("name", ["rise-of-a-lift", "three-heights-of-one-wall"])
def test_a_drawing_on_the_page_is_the_phones_own_layout(phone, name) -> None:
    learner = phone()
    learner.put(name)
    shown = [svg for svg in learner.page.locator("figure[data-role=drawing] svg").all() if svg.is_visible()]
    assert [svg.get_attribute("class") for svg in shown] == ["narrow"] * len(shown)
    assert shown
    for svg in shown:
        check(svg.evaluate(MEASURED))


def test_a_wide_screen_has_the_layout_of_the_sheet(phone) -> None:
    learner = phone()
    learner.put("rise-of-a-lift")
    learner.page.set_viewport_size({"width": 900, "height": 700})
    shown = [svg for svg in learner.page.locator("figure[data-role=drawing] svg").all() if svg.is_visible()]
    assert [svg.get_attribute("class") for svg in shown] == ["wide"]


@pytest.mark.parametrize("kind", SHOWN)
def test_every_kind_of_drawing_is_read_on_a_phone(one_phone, kind) -> None:
    learner = one_phone()
    learner.put("rise-of-a-lift")
    paper = learner.page.locator("figure[data-role=drawing] .paper").first
    names = DRAWING_KINDS[kind].dimensions
    limits = _at_its_limits(kind)
    for figures in (MIDDLING[kind], limits[0], limits[-1]):
        for text in ("1234.5", None):
            call = call_for(kind, dict.fromkeys(names, text), **figures)
            if kind == "wall":
                call = replace(call, figures=call.figures | {"opening_height": min(1050, call.figures["height"])})
            if kind == "projection":
                call = replace(call, figures=call.figures | {"lay": "stretcher"})
            paper.evaluate(PUT, to_svg(on_phone(Sizes(call))))
            check(paper.locator("svg").evaluate(MEASURED))


PINCH = """({from, to}) => {
  const sheet = document.querySelector("dialog .sheet"), box = sheet.getBoundingClientRect();
  const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
  const tell = (name, id, dx) => sheet.dispatchEvent(new PointerEvent(name, {pointerId: id, clientX: x + dx, clientY: y, bubbles: true}));
  tell("pointerdown", 1, -from / 2); tell("pointerdown", 2, from / 2);
  tell("pointermove", 1, -to / 2); tell("pointermove", 2, to / 2);
  tell("pointerup", 1, 0); tell("pointerup", 2, 0);
  const middle = (scroll, seen, whole) => (scroll + seen / 2) / whole;
  return {told: document.querySelector("dialog .times").textContent,
          across: middle(sheet.scrollLeft, sheet.clientWidth, sheet.scrollWidth), down: middle(sheet.scrollTop, sheet.clientHeight, sheet.scrollHeight)};
}"""


@pytest.mark.parametrize(
    ("apart", "to", "times"),
    [(100, 150, "3 times"), (100, 120, "2.4 times"), (100, 50, "once"), (50, 500, "6 times")],
)
def test_a_larger_drawing_goes_by_two_fingers_and_what_lies_between_them_stays(phone, apart, to, times) -> None:
    learner = phone()
    learner.put("heights-that-weave")  # whose drawing has no place for an answer: it opens on its middle
    learner.press(learner.button("Enlarge the drawing"))
    before = learner.page.evaluate(PINCH, {"from": apart, "to": apart})
    after = learner.page.evaluate(PINCH, {"from": apart, "to": to})
    assert (before["told"], after["told"]) == ("2 times", times)
    for found in (before, after):
        assert found["across"] == pytest.approx(0.5, abs=0.02)
        assert found["down"] == pytest.approx(0.5, abs=0.02)


@pytest.mark.parametrize(("wide", "high"), [(320, 568), (320, 300), (1280, 720)])
def test_a_larger_drawing_opens_at_what_is_asked(phone, wide, high) -> None:
    """The box of the open part is in sight, and in the middle as far as the drawing reaches; of another part, its own."""
    learner = phone(viewport={"width": wide, "height": high})
    learner.put("opening-for-a-panel")
    stands = learner.question()["stands"]
    for _ in range(2):
        at = stands[learner.state()["open"]]
        learner.press(learner.button("Enlarge the drawing").first)
        off = learner.page.evaluate(AT, at)
        assert max(off["across"], off["down"]) <= 0.02, "its middle, or as near as it scrolls"
        assert off["seen"]
        learner.page.keyboard.press("Escape")
        learner.answer()
        learner.on()
    assert len(set(map(tuple, stands.values()))) == 2


AT = """([x, y]) => {
  const sheet = document.querySelector("dialog .sheet"), drawn = sheet.querySelector("svg");
  const off = (scroll, seen, whole, at) => Math.abs(Math.max(0, Math.min(whole - seen, at - seen / 2)) - scroll) / whole;
  const [left, top] = [drawn.clientWidth * x / 100 - sheet.scrollLeft, drawn.clientHeight * y / 100 - sheet.scrollTop];
  return {across: off(sheet.scrollLeft, sheet.clientWidth, sheet.scrollWidth, drawn.clientWidth * x / 100),
          down: off(sheet.scrollTop, sheet.clientHeight, sheet.scrollHeight, drawn.clientHeight * y / 100),
          seen: left >= 0 && left <= sheet.clientWidth && top >= 0 && top <= sheet.clientHeight};
}"""
ID_1 = (85.60, 53.98)  # mm: tests/authorities/iso-7810.txt
ACROSS = """path => { const box = path.getBBox(), by = path.getScreenCTM(); return [box.width * by.a, box.width]; }"""


@pytest.fixture
def at_true_size(browser, true_size_file) -> Iterator:
    """Learners with a page whose exercise is drawn in at true size."""
    with phones(browser, true_size_file) as give:
        yield give


def test_a_screen_measured_by_a_card_shows_true_size_where_it_fits_and_else_asks_for_the_printed_one(
    at_true_size, npm
) -> None:
    """By keyboard alone. A card 400 pixels long makes a mm of 400 / 85.60 pixels."""
    learner = at_true_size(keyboard=True, viewport={"width": 1280, "height": 720})
    figure = learner.page.locator("figure[data-role=drawing]")
    learner.put("draw-the-template")
    expect(figure).to_contain_text("draw and measure in the printed one")
    assert figure.locator("svg").count() == 0
    learner.press(figure.get_by_role("link", name="measure the screen"))
    expect(learner.main).to_have_attribute("data-screen", "size")
    slider = learner.page.get_by_label("Size of the outline")
    slider.fill("399")
    learner.press(learner.button("Smaller"))
    learner.tab_to(slider)
    for _ in range(2):
        learner.page.keyboard.press("ArrowRight")
    card = learner.page.get_by_role("img", name="Outline of a bank card").bounding_box()
    assert (card["width"], card["height"]) == pytest.approx((400, 400 * ID_1[1] / ID_1[0]), abs=0.1)
    rule = learner.page.get_by_role("img", name="Line of 100 mm").bounding_box()
    assert rule["width"] == pytest.approx(100 * 400 / ID_1[0], abs=0.1)
    learner.press(learner.button("The card fits"))
    learner.reload()
    assert learner.kept()["screen"] == {"card": 400, "ratio": 1}
    learner.page.evaluate("location.hash = '#practise'")
    expect(figure).to_contain_text("At true size here")
    square = figure.locator("svg path").first
    assert square.evaluate(ACROSS) == pytest.approx([150 * 400 / ID_1[0], 150], rel=0.001)  # the square is of 150 mm
    assert learner.page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    learner.page.set_viewport_size({"width": 320, "height": 568})
    expect(figure).to_contain_text("too small for it")
    assert figure.locator("svg").count() == 0
    learner.page.evaluate((npm / "axe-core" / "axe.min.js").read_text(encoding="utf-8"))
    for width in (320, 1280):
        learner.page.set_viewport_size({"width": width, "height": 720})
        assert learner.page.evaluate("tags => axe.run(document, {runOnly: tags})", TAGS)["violations"] == []


@pytest.mark.parametrize(
    ("kept", "shown"),
    [
        ({"card": 400, "ratio": 1}, True),
        ({"card": 400, "ratio": 2}, False),  # measured at another zoom
        ({"card": 149, "ratio": 1}, False),
        ({"card": 150, "ratio": 1}, True),
        ({"card": 1001, "ratio": 1}, False),
        ("x", False),
    ],
)
def test_a_measure_that_cannot_be_or_was_taken_at_another_zoom_shows_nothing_at_true_size(
    at_true_size, kept, shown
) -> None:
    learner = at_true_size(viewport={"width": 1280, "height": 720})
    learner.put("draw-the-template")
    learner.remember(learner.kept() | {"screen": kept})
    learner.page.evaluate("location.hash = '#practise'")
    expect(learner.page.locator("figure[data-role=drawing]")).to_have_attribute(
        "data-size", "true" if shown else "printed"
    )
