"""A picture written as SVG: each mark as it is, and nothing that the words of a bank could break."""

from __future__ import annotations

from xml.etree import ElementTree

from courseware.drawings import to_svg
from courseware.drawings.picture import Label, Picture, Stroke
from courseware.drawings.svg import figure

SVG = "{http://www.w3.org/2000/svg}"
PICTURE = Picture(
    width=40.0, height=20.5, alt='5 < 6 & "so"',
    marks=(
        Stroke(outlines=(((0.0, 0.0), (10.0, 0.0)), ((1.0, 1.0), (2.0, 2.12345))), weight=0.18, dash=(2.0, 0.8)),
        Stroke(outlines=(((0.0, 0.0), (4.0, 0.0), (4.0, 4.0)),), closed=True, weight=0.0, fill=0.8),
        Label(at=(3.0, 4.0), text="a < b", size=2.9, anchor="end", turn=90, bold=True),
        Label(at=(3.0, 4.0), text="plain", size=3.5, anchor="start"),
    ),
)  # fmt: skip


def test_every_mark_is_written_as_it_is() -> None:
    root = ElementTree.fromstring(to_svg(PICTURE))
    assert (root.get("width"), root.get("viewBox")) == ("40mm", "0 0 40 20.5")
    lines, filled = root.iter(f"{SVG}path")
    assert lines.attrib == {"d": "M0 0L10 0M1 1L2 2.123", "fill": "none", "stroke": "#000000", "stroke-width": "0.18",
                            "stroke-dasharray": "2 0.8"}  # fmt: skip
    assert filled.attrib == {"d": "M0 0L4 0L4 4Z", "fill": "#cccccc"}
    turned, plain = root.iter(f"{SVG}text")
    assert (turned.text, turned.get("transform"), turned.get("font-weight")) == ("a < b", "rotate(-90 3 4)", "bold")
    assert (turned.get("text-anchor"), plain.get("text-anchor")) == ("end", None)
    assert (plain.get("font-size"), plain.get("transform")) == ("3.5", None)


def test_its_own_words_are_its_title_and_break_nothing() -> None:
    root = ElementTree.fromstring(to_svg(PICTURE))
    assert root[0].tag == f"{SVG}title"
    assert root[0].text == '5 < 6 & "so"'


def test_a_length_is_written_without_noughts_that_say_nothing() -> None:
    assert [figure(value) for value in (1.0, 0.1234, -0.0004, 10.5)] == ["1", "0.123", "0", "10.5"]
