"""The typeface of drawings."""

from __future__ import annotations

from tests.desk.conftest import Sitter


def test_both_faces_are_given_and_nothing_else(client: Sitter) -> None:
    faces = [client.get(f"/type/{name}.ttf") for name in ("regular", "bold")]
    assert {face.headers["content-type"] for face in faces} == {"font/ttf"}
    assert faces[0].content[:4] == b"\0\1\0\0"  # TrueType outlines, OpenType specification 1.9, table directory
    assert faces[0].content != faces[1].content
    assert client.get("/type/OFL.txt").status_code == 404
