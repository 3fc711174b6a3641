"""Drawings on a phone 320 pixels wide, measured in the browser: words of 12 pixels or more, none over another, all in sight."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.drawings import to_svg
from courseware.drawings.fitted import Sizes, on_phone
from tests.drawings.conftest import call_for
from tests.drawings.test_table_of_kinds import MIDDLING, _at_its_limits

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
    [(100, 150, "3 times"), (100, 120, "2.4 times"), (100, 50, "1 times"), (50, 500, "6 times")],
)
def test_a_larger_drawing_opens_on_its_middle_and_goes_by_two_fingers(phone, apart, to, times) -> None:
    learner = phone()
    learner.put("rise-of-a-lift")
    learner.press(learner.button("Enlarge the drawing"))
    before = learner.page.evaluate(PINCH, {"from": apart, "to": apart})
    after = learner.page.evaluate(PINCH, {"from": apart, "to": to})
    assert (before["told"], after["told"]) == ("2 times", times)
    for found in (before, after):
        assert found["across"] == pytest.approx(0.5, abs=0.02)
        assert found["down"] == pytest.approx(0.5, abs=0.02)
