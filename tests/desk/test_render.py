"""Pages: what is said is said once, nothing typed is markup, and nobody is sent elsewhere."""

from __future__ import annotations

import pytest

from courseware.desk.render import said
from tests.desk.conftest import Sitter, words


def test_a_note_is_shown_on_the_next_page_and_then_no_more(client: Sitter) -> None:
    assert "kept under the name Ann Field" in client.done("/settings/name", {"who": "Ann Field"})
    assert "kept under the name" not in words(client.get("/settings").text)


def test_what_was_typed_is_never_markup(client: Sitter) -> None:
    client.done("/settings/name", {"who": '<script>alert("1")</script>'})
    shown = client.get("/settings").text
    assert "<script>alert" not in shown
    assert "&lt;script&gt;alert(&#34;1&#34;)" in shown


@pytest.mark.parametrize("to", ["https://example.org/", "//example.org/", "/\\example.org", "settings", ""])
def test_nobody_is_sent_to_another_address(to: str) -> None:
    with pytest.raises(ValueError, match="not an address of the desk"):
        said(None, "", to=to)  # type: ignore[arg-type]
