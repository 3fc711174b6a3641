"""The desk's templates: every value escaped, nothing inline that the policy would refuse."""

from __future__ import annotations

import re

from courseware.desk.templates import bare, html, templates

# SVG that `drawings/` wrote: words in it are escaped there.
OWN_DRAWINGS = {"scheme.svg", "seen.elevation", "seen.section", "drawn.wide", "drawn.narrow"}


def test_no_template_has_a_style_or_a_script_in_it() -> None:
    for name in templates().list_templates():
        text = (templates().loader.get_source(templates(), name))[0].casefold()  # type: ignore[union-attr]
        assert "<style" not in text, name
        assert " style=" not in text, name
        assert " onclick" not in text, name
        assert "<script>" not in text, name
        passed_on = set(re.findall(r"([\w.]+)\|safe", text.replace(" ", "")))
        assert passed_on <= OWN_DRAWINGS, (name, passed_on)


def test_a_page_for_whoever_is_not_let_in_shows_what_is_said_and_no_more() -> None:
    shown = bytes(bare(403, "<b>Not you</b>").body).decode()
    assert "&lt;b&gt;Not you" in shown
    assert "passphrase" not in shown
    assert 'name="passphrase"' in bytes(bare(401, "Locked", passphrase=True).body).decode()


def test_a_name_whose_bytes_are_no_letters_is_shown_with_signs_in_their_place() -> None:
    assert bytes(html("<p>w\udcff</p>").body) == b"<p>w?</p>"
