"""What a browser keeps: style, scripts and typeface. Directives of cache-control: RFC 9111 and RFC 8246."""

from __future__ import annotations

import re

from courseware.desk.static_files import address
from tests.desk.conftest import Sitter


def test_static_files_are_the_ones_that_are_there(client: Sitter) -> None:
    folder = address("desk.css").removesuffix("desk.css")
    assert client.get(f"{folder}desk.css").headers["content-type"] == "text/css; charset=utf-8"
    for name in ("nothing.css", "..%2fapp.py", "%2e%2e/app.py", "desk.css/", "OFL.txt"):
        assert client.get(f"{folder}{name}").status_code in {404, 307}, name


def test_the_typeface_of_drawings_is_there_in_both_weights(client: Sitter) -> None:
    style = client.get(address("desk.css")).text
    faces = [client.get(address(name)) for name in re.findall(r'url\("(.*?)"\)', style)]
    assert {face.headers["content-type"] for face in faces} == {"font/ttf"}
    assert all(face.content[:4] == b"\0\1\0\0" for face in faces)  # TrueType outlines: OpenType 1.9, table directory
    assert len({face.content for face in faces}) == 2


def test_a_browser_keeps_them_since_a_change_has_another_address(client: Sitter) -> None:
    kept = client.get(address("desk.js"))
    assert set(kept.headers["cache-control"].split(", ")) == {"private", "max-age=31536000", "immutable"}
    assert client.get("/static/another/desk.js").status_code == 404
    assert f'src="{address("desk.js")}"' in client.get("/keys").text
