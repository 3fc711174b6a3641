"""An author's own SVG: drawn as it stands in the file, refused where it holds more than lines and words."""

from __future__ import annotations

import io
import json
import re
from math import cos, radians, sin
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from weasyprint import HTML

from courseware.banks import BankFaulty, files_named, prove, read_bank, with_drawings
from courseware.banks.own_picture import ROOM, SMALLEST_TYPE, OwnLine, OwnWords
from courseware.banks.svg_paths import path_runs
from courseware.banks.svg_read import MOST_BYTES, MOST_DEPTH, MOST_ELEMENTS, MOST_POINTS, MOST_WORDS, read_svg
from courseware.banks.svg_style import grey_of
from courseware.drawings.own import draw_own
from courseware.drawings.svg import to_svg

BANK = Path(__file__).with_name("own_drawing_bank.yaml").read_text(encoding="utf-8")
SHAPES = """\
  <g style="fill:none;stroke:#000000;stroke-width:0.8" transform="translate(0,5)">
    <rect x="5" y="30" width="30" height="35" style="fill:#dddddd"/>
    <rect x="85" y="30" width="30" height="35" fill="rgb(90,90,90)" rx="6" ry="3"/>
    <path d="M 35 30 a 30 25 15 0 1 50 0" stroke-dasharray="4 2"/>
    <path d="m20,10 80,0 M20 7 v6 M100 7 V13 H110"/>
    <path d="M60 60 C 65 50 75 50 75 60 S 85 70 85 60 Q 87 50 90 60 T 95 60z" transform="skewX(10) scale(.9)"/>
    <circle cx="60" cy="45" r="5"/><ellipse cx="60" cy="45" rx="8" ry="3" transform="rotate(30 60 45)"/>
    <polygon points="50,60 55,65 45,65"/><polyline points="1 1, 9 1 9 9"/><line x2="70" y1="2" y2="3"/>
    <path d="M10 50a4 4 0 1120 3" transform="matrix(.5 0 0 .5 10 10)"/>
  </g>
"""


def svg(inside: str, root: str = 'width="120mm" height="75mm" viewBox="0 0 120 75"') -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" {root}>\n{inside}</svg>\n'


def drawn(inside: str, **keys: str) -> tuple[OwnLine | OwnWords, ...]:
    return read_svg(svg(inside, **keys), "a.svg", "Something").marks


def _long(size: int) -> str:
    """A line and a comment that make a file of so many bytes."""
    line = '<line x2="9" stroke="red"/>'
    return f"{line}<!--{'x' * (size - len(svg(f'{line}<!---->')))}-->"


def refused(inside: str, **keys: str) -> str:
    with pytest.raises(BankFaulty) as faulty:
        drawn(inside, **keys)
    return str(faulty.value)


def ink(markup: str) -> np.ndarray:
    """What is dark of an SVG as WeasyPrint draws it, cut to where it is dark."""
    pdf = HTML(string=f"<style>@page{{size:200mm 120mm;margin:5mm}}</style>{markup}").write_pdf()
    grey = np.asarray(pypdfium2.PdfDocument(io.BytesIO(pdf))[0].render(scale=4).to_pil().convert("L"))
    rows, columns = np.where(grey < 250)
    return 255 - grey[rows.min() : rows.max() + 1, columns.min() : columns.max() + 1].astype(int)


def _near(dark: np.ndarray) -> np.ndarray:
    """What lies within 2 dots, a fifth of a mm, of what is dark."""
    wide = np.pad(dark, 2)
    high, across = dark.shape
    return np.any([wide[y : y + high, x : x + across] for y in range(5) for x in range(5)], axis=0)


def test_it_looks_as_another_program_draws_its_file() -> None:
    picture = draw_own(read_svg(svg(SHAPES), "a.svg", "Shapes"), "Shapes")
    wanted, got = ink(svg(SHAPES)), ink(to_svg(picture))
    assert abs(wanted.shape[0] - got.shape[0]) <= 2
    assert abs(wanted.shape[1] - got.shape[1]) <= 2
    high, wide = (min(a, b) for a, b in zip(wanted.shape, got.shape, strict=True))
    wanted, got = wanted[:high, :wide] > 64, got[:high, :wide] > 64
    assert (wanted & ~_near(got)).sum() == 0
    assert (got & ~_near(wanted)).sum() == 0
    assert got.sum() > 50_000


def test_a_quarter_turn_by_arc_lies_on_its_circle() -> None:
    [(run, closed)] = path_runs("M 10 0 A 10 10 0 0 1 0 10")
    assert not closed
    assert all(x * x + y * y == pytest.approx(100) for x, y in run)
    assert (run[0], run[-1]) == ((10, 0), (0, 10))
    middle = run[len(run) // 2]
    assert middle == pytest.approx((10 * cos(radians(45)), 10 * sin(radians(45))))  # sweep 1 goes by +x, +y


# Points a quarter, a half and three quarters along, as Chromium's getPointAtLength gives them.
@pytest.mark.parametrize(
    ("data", "points"),
    [
        ("M 35 30 a 25 20 15 0 1 50 0", [(41.720, 14.156), (58.720, 9.295), (75.514, 15.204)]),  # radii too small
        ("M 10 10 A 9 4 -40 1 0 16 12", [(3.430, 15.304), (3.451, 22.102), (11.106, 18.794)]),
    ],
)
def test_a_tilted_arc_runs_as_in_a_browser(data: str, points: list[tuple[float, float]]) -> None:
    [(run, _)] = path_runs(data)
    along = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(np.array(run), axis=0).T))])
    places = along[-1] * np.array([0.25, 0.5, 0.75])
    got = [tuple(np.interp(places, along, side)) for side in np.array(run).T]
    assert np.allclose(np.array(got).T, points, atol=0.01)


def test_a_colour_prints_as_its_grey() -> None:
    # ITU-R BT.709, item 3.2: 0.2126 red + 0.7152 green + 0.0722 blue
    assert [grey_of(c) for c in ("#f00", "lime", "rgb(0, 0, 255)", "none")] == [0.213, 0.715, 0.072, None]


def test_words_stand_where_they_are_put() -> None:
    [one, two, up] = drawn(
        '<text x="60" y="12" font-size="4" text-anchor="middle">the  <tspan>lintel</tspan>'
        '<tspan x="5" y="30" font-weight="bold">B</tspan></text>'
        '<text transform="translate(8 65) rotate(-90)" font-size="4">wall</text>'
    )
    assert (one.text, one.anchor, one.size, one.bold, one.turn) == ("the lintel", "middle", 4, False, 0)
    assert (two.text, two.bold, up.turn) == ("B", True, 90)
    assert (one.at[0] - two.at[0], two.at[1] - one.at[1]) == pytest.approx((55, 18))


HOSTILE = [
    ("<script>alert(1)</script>", "2:1: the element `script` is not drawn"),
    ("<style>*{fill:red}</style>", "the element `style` is not drawn"),
    ("<defs><style>*{fill:red}</style></defs>", "the element `style` is not drawn"),
    ('<use href="#a"/>', "the element `use` is not drawn"),
    ("<foreignObject><p/></foreignObject>", "the element `foreignObject` is not drawn"),
    ('<image href="file:///etc/passwd"/>', "the element `image` is not drawn"),
    ('<a href="https://example.org"><rect width="9" height="9"/></a>', "the element `a` is not drawn"),
    ('<rect width="9" height="9"><animate attributeName="x"/></rect>', "the element `animate` is not drawn"),
    ('<g xmlns:x="http://www.w3.org/1999/xlink" x:href="//example.org"/>', "a link (href)"),
    ('<rect width="9" height="9" onload="go()"/>', "the attribute `onload`"),
    ('<rect width="9" height="9" class="a"/>', "the attribute `class`"),
    ('<rect width="9" height="9" fill="url(#a)"/>', "`url(#a)` is not a plain colour"),
    ('<rect width="9" height="9" style="fill:url(//example.org)"/>', "is not a plain colour"),
    ('<rect width="9" height="9" filter="url(#a)"/>', "`filter` is `url(#a)`"),
    ('<rect width="9" height="9" opacity="0"/>', "`opacity` is `0`"),
    ('<text x="1" y="9" fill="#fff">20</text>', "a pale one"),
    ('<text x="1" y="9" display="none">20</text>', "`display` is `none`"),
    ('<text x="1" y="9" transform="scale(-1 1)">20</text>', "mirrored"),
    ('<g transform="rotate(1 2)"/>', "`rotate` has 2 numbers"),
    ('<line x2="1e9" stroke="red"/>', "not a number that can be drawn"),
    ('<path d="M0 0 L 1 1 e" stroke="red"/>', "cannot be read"),
    ('<path d="L 1 1" stroke="red"/>', "does not begin with a move"),
    ('<line x2="9"/>', "nothing is drawn"),
    ("<tspan>a</tspan>", "`tspan` in `svg`"),
    ("<g>", "not well-formed SVG"),
    ("<?php go() ?>", "a processing instruction"),
]


@pytest.mark.parametrize(("inside", "told"), HOSTILE, ids=[inside[:24] for inside, _ in HOSTILE])
def test_what_is_not_lines_and_words_is_refused(inside: str, told: str) -> None:
    assert told in refused(inside)


def test_a_document_type_is_refused_before_its_entities() -> None:
    lines = "".join(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 12))
    text = f'<!DOCTYPE svg [<!ENTITY a0 "lol">{lines}<!ENTITY x SYSTEM "file:///etc/passwd">]>{svg("&a11;&x;")}'
    with pytest.raises(BankFaulty, match="a document type"):
        read_svg(text, "a.svg", "Something")


@pytest.mark.parametrize(
    ("inside", "most"),
    [
        (lambda n: "<g/>" * (n - 2) + '<line x2="9" stroke="red"/>', MOST_ELEMENTS),
        (lambda n: "<g>" * (n - 2) + '<line x2="9" stroke="red"/>' + "</g>" * (n - 2), MOST_DEPTH),
        (lambda n: f'<polyline points="{"1 2 " * n}" stroke="red"/>', MOST_POINTS),
        (lambda n: '<text y="9">a</text>' * n, MOST_WORDS),
        (lambda n: f'<text y="9" font-size="2.2">{"i" * n}</text>', 80),
        (_long, MOST_BYTES),
    ],
    ids=["elements", "depth", "points", "labels", "letters", "bytes"],
)
def test_there_is_a_most_of_everything(inside, most: int) -> None:
    assert drawn(inside(most - 1))
    assert drawn(inside(most))
    assert "at most" in refused(inside(most + 1))


def test_a_picture_keeps_its_size_and_a_large_one_is_made_smaller() -> None:
    for wide, kept in ((ROOM[0] - 1, True), (ROOM[0], True), (ROOM[0] + 1, False)):
        [line] = drawn(f'<line x2="{wide}" stroke="red"/>', root='width="400mm" viewBox="0 0 400 9"')
        assert line.runs[0][1][0] == pytest.approx(wide if kept else ROOM[0])


def test_words_too_small_to_read_are_refused() -> None:
    for size, fits in ((SMALLEST_TYPE + 0.1, True), (SMALLEST_TYPE, True), (SMALLEST_TYPE - 0.1, False)):
        inside = f'<text y="9" font-size="{size}">brick</text>'
        assert drawn(inside) if fits else "2.00 mm high" in refused(inside)


def test_the_bank_holds_the_file_and_its_hash_is_that_of_both() -> None:
    data = BANK.encode()
    assert files_named(data, "lintels.yaml") == ("lintel.svg",)
    whole = with_drawings(data, {"lintel.svg": svg(SHAPES).encode()}, "lintels.yaml")
    bank = read_bank(whole, "lintels.yaml")
    assert whole.startswith(data)
    assert files_named(whole, "lintels.yaml") == ()
    again = read_bank(bank.text.encode(), "lintels.yaml")
    assert (again.sha256, again.exercises[0].drawing) == (bank.sha256, bank.exercises[0].drawing)
    other = svg(SHAPES.replace('r="5"', 'r="6"')).encode()
    assert read_bank(with_drawings(data, {"lintel.svg": other}, "l"), "l").sha256 != bank.sha256
    with pytest.raises(BankFaulty, match=r"lintels.yaml:8:32: there is no drawing `lintel.svg`"):
        read_bank(data, "lintels.yaml")


def test_a_bank_in_braces_and_a_file_that_is_no_text_are_told() -> None:
    braces = json.dumps({"topic": "x"}).encode()
    with pytest.raises(BankFaulty, match="put the drawing's text under `drawings`"):
        with_drawings(braces, {"a.svg": b"<svg/>"}, "b.yaml")
    with pytest.raises(BankFaulty, match=re.escape("a.svg:1:1: byte 0xff is not UTF-8")):
        with_drawings(BANK.encode(), {"a.svg": b"\xff<svg/>"}, "b.yaml")
    with pytest.raises(BankFaulty, match=re.escape("a.svg:2:1: the unseen character <U+202E>")):
        with_drawings(BANK.encode(), {"a.svg": "<svg>\n\u202e</svg>".encode()}, "b.yaml")


@pytest.mark.parametrize(("words", "told"), [("about {}", True), ("clear span", False)])
def test_an_answer_in_its_words_fails_the_proof(words: str, told: bool) -> None:
    text = BANK.replace("given: {bricks: 4 to 23}", "given: {bricks: [4]}").replace(
        "marks: 1", "marks: 1\n        fixed: true"
    )
    label = words.format(4 * 225 + 10 + 300)
    inside = f'<line x2="9" stroke="red"/><text y="9" font-size="4">{label}</text>'
    bank = read_bank(with_drawings(text.encode(), {"lintel.svg": svg(inside).encode()}, "l.yaml"), "l.yaml")
    failure = prove(bank.exercises[0]).failure
    assert (failure is not None and "the drawing gives the answer to length" in failure.why) == told
    assert bank.exercises[0].drawing.own.words == ("A lintel over an opening", label)


def test_a_part_may_say_that_its_drawing_tells_the_answer() -> None:
    """It stands before all parts, so also before the first."""
    text = BANK.replace("given: {bricks: 4 to 23}", "given: {bricks: [4]}").replace(
        "marks: 1", "marks: 1\n        fixed: true\n        told: true"
    )
    inside = '<line x2="9" stroke="red"/><text y="9" font-size="4">1210</text>'  # 910 + 300
    bank = read_bank(with_drawings(text.encode(), {"lintel.svg": svg(inside).encode()}, "l.yaml"), "l.yaml")
    assert prove(bank.exercises[0]).failure is None
