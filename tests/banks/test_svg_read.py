"""An author's SVG read element by element: lines and words in, anything else refused, a most of everything."""

from __future__ import annotations

import pytest

from courseware.banks import BankFaulty
from courseware.banks.own_picture import OwnLine, OwnWords
from courseware.banks.svg_read import MOST_BYTES, MOST_DEPTH, MOST_ELEMENTS, MOST_POINTS, MOST_WORDS, read_svg


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
        (lambda n: f'<polyline points="9 9 {"1 2 " * (n - 1)}" stroke="red"/>', MOST_POINTS),
        (lambda n: '<text y="9">a</text>' * n, MOST_WORDS),
        (lambda n: f'<text y="9" font-size="2.9">{"i" * n}</text>', 80),
        (_long, MOST_BYTES),
    ],
    ids=["elements", "depth", "points", "labels", "letters", "bytes"],
)
def test_there_is_a_most_of_everything(inside, most: int) -> None:
    assert drawn(inside(most - 1))
    assert drawn(inside(most))
    assert "at most" in refused(inside(most + 1))


def test_words_that_are_only_turned_keep_their_size_and_their_turn() -> None:
    inside = '<line x2="9" stroke="red"/><text transform="rotate(-90) scale(2)" font-size="4" x="-20" y="9">wall</text>'
    [_, words] = drawn(inside)
    assert (words.size, words.turn) == (8, 90)


def test_shapes_that_are_neither_drawn_nor_filled_leave_nothing() -> None:
    marks = drawn('<rect width="9" height="9" fill="none"/><rect width="9" height="9"/><rect width="0" height="9"/>')
    assert len(marks) == 1
    assert isinstance(marks[0], OwnLine)
    assert (marks[0].weight, marks[0].fill, marks[0].closed) == (0, 0, True)


def test_a_line_is_never_filled_and_a_pen_is_told_in_mm() -> None:
    [line] = drawn('<line x2="50" stroke="black" stroke-width="0.5" fill="red" stroke-dasharray="4 2"/>')
    assert (line.weight, line.fill, line.dash) == (0.5, None, (4, 2))


def test_what_another_program_keeps_of_its_own_is_passed_over() -> None:
    own = (
        '<title>A wall</title><desc>Drawn by hand</desc><metadata><x:y xmlns:x="urn:x" id="a"/></metadata>'
        '<x:grid xmlns:x="urn:x"><line x2="900" stroke="red"/></x:grid><defs><rect width="99" height="99"/></defs>'
    )
    assert drawn(own + '<line x2="9" stroke="red"/>') == drawn('<line x2="9" stroke="red"/>')


def test_every_fault_is_told_with_its_line_up_to_twenty() -> None:
    assert refused("<use/>\n<image/>").splitlines()[1].startswith("a.svg:3:1: the element `image`")
    assert len(refused("<use/>" * 30).splitlines()) == 20


def test_text_outside_of_words_says_nothing() -> None:
    [line] = drawn('loose words<g>more</g><line x2="9" stroke="red"/>')
    assert isinstance(line, OwnLine)
    assert not any(isinstance(mark, OwnWords) for mark in drawn('<line x2="9" stroke="red"/><text y="9">  </text>'))
