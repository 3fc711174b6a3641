"""An author's own SVG: drawn as it stands in the file, refused where it holds more than lines and words."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from weasyprint import HTML

from courseware.banks import BankFaulty, files_named, prove, read_bank, with_drawings
from courseware.banks.svg_read import read_svg
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
