"""What forms bring, bounded; and never without their token."""

from __future__ import annotations

from courseware.desk.forms import MOST_FIELDS, Form, Upload
from tests.desk.conftest import Sitter, words


def test_the_last_field_of_a_name_counts_and_ticked_boxes_all() -> None:
    form = Form(fields={"a": (" x ", " y "), "b": ("",)}, files={"f": (Upload(name="a.csv", data=b"1"),)})
    assert (form.text("a"), form.text("b"), form.text("c")) == ("y", "", "")
    assert form.texts("a") == (" x ", " y ")
    assert form.ticked("b")
    assert not form.ticked("c")
    upload = form.upload("f")
    assert upload is not None
    assert upload.data == b"1"
    assert form.upload("g") is None


def test_a_form_without_its_token_changes_nothing(client: Sitter) -> None:
    for token in ("", "x", client.token + "x", "é", "\ud800".encode("utf-8", "replace").decode()):
        refused = client.post("/settings/name", data={"token": token, "who": "Somebody"})
        assert refused.status_code == 403
        assert "nothing of it was saved" in words(refused.text)
    assert "Somebody" not in client.get("/settings").text


def test_forms_of_two_windows_are_both_good(client: Sitter) -> None:
    one, other = client.token, client.token
    assert client.post("/settings/name", data={"token": one, "who": "A"}).status_code == 303
    assert client.post("/settings/name", data={"token": other, "who": "B"}).status_code == 303


def test_anything_but_a_form_is_refused(client: Sitter) -> None:
    assert client.post("/settings/name", json={"who": "A"}).status_code == 415
    assert client.post("/settings/name", content=b"x", headers={"content-type": "text/plain"}).status_code == 415


def test_more_fields_than_any_page_has_are_refused(client: Sitter) -> None:
    token = client.token
    most = {"token": token, "who": "A", **{f"f{n}": "" for n in range(MOST_FIELDS - 2)}}
    assert client.post("/settings/name", data=most).status_code == 303
    assert client.post("/settings/name", data={**most, "g": ""}).status_code == 413


def test_a_form_that_cannot_be_read_is_refused_in_a_line(client: Sitter) -> None:
    broken = client.post(
        "/settings/name", content=b"--x\r\nnonsense", headers={"content-type": "multipart/form-data; boundary=x"}
    )
    assert broken.status_code in {400, 403}
    assert "Traceback" not in broken.text
