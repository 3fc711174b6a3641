"""A bank at the desk: written with its faults beside it, proved and set on paper as typed, saved whole in one's own folder."""

from __future__ import annotations

import re
import time
from html import unescape
from pathlib import Path
from typing import Any

import pytest

from courseware.files.bank_files import OWN_BANKS, shipped_banks
from courseware.files.own_files import own_files
from courseware.workflows.own_banks import NEW_BANK, begin_bank, open_bank
from tests.desk.conftest import Sitter, finished, words

FAULTY = NEW_BANK.replace("level: 1", "level: 9").replace("pier(bricks)", "peir(bricks)")


@pytest.fixture
def own(client: Sitter) -> str:
    """The address of a bank of the tutor's own."""
    return f"/banks/own/{begin_bank(client.desk.folder, 'My piers')}"


def typed(client: Sitter, own: str, text: str) -> dict[str, str]:
    """The fields of the bank's form once something was typed."""
    was = re.findall(r'name="was" value="([^"]*)"', client.get(own).text)[0]
    return {"was": was, "text": text}


def test_a_bank_is_begun_and_a_shipped_one_copied(client: Sitter) -> None:
    assert "You have no bank of your own yet. First begin one here" in words(client.get("/banks").text)
    assert "A new bank with one exercise." in client.done("/banks/new", {"name": "My piers"})
    assert "This copy is yours to change." in client.done("/banks/shipped/mitre_template/copy")
    [shipped] = [path for path in shipped_banks() if path.stem == "mitre_template"]
    assert open_bank(client.desk.folder, "mitre-template").text == shipped.read_text(encoding="utf-8")
    listed = words(client.get("/banks").text)
    assert "The mitre template mitre-template.yaml A topic of my own my-piers.yaml" in listed


def test_a_shipped_bank_is_read_with_its_lines_and_cannot_be_saved(client: Sitter) -> None:
    page = client.get("/banks/shipped/mitre_template").text
    [shipped] = [path for path in shipped_banks() if path.stem == "mitre_template"]
    before = shipped.read_bytes()
    lines = re.findall(r"<span>(.*?)</span>\n", page[page.index("<pre") :])
    assert [unescape(line) for line in lines] == shipped.read_text(encoding="utf-8").split("\n")
    assert "<textarea" not in page
    assert client.fill("/banks/shipped/mitre_template/save", {"text": "x", "was": "x"}).status_code == 404
    assert shipped.read_bytes() == before


@pytest.mark.parametrize("where", ["look", "faults"])
def test_faults_are_told_by_line_and_nothing_is_saved(client: Sitter, own: str, where: str) -> None:
    seen = client.fill(f"{own}/{where}", typed(client, own, FAULTY))
    assert seen.status_code == 200
    assert re.findall(r'data-line="(\d+)" data-column="(\d+)"', seen.text) == [("6", "12"), ("12", "17")]
    assert "Line 12 answer: peir(bricks) there is no function `peir`; did you mean `pier`?" in words(seen.text)
    assert open_bank(client.desk.folder, "my-piers").text == NEW_BANK


def test_the_text_that_is_looked_at_stands_there_as_it_was_typed(client: Sitter, own: str) -> None:
    text = "\n\n  topic: <b>&amp;</b>\r\n</textarea><script>alert(1)</script>\n\n"
    page = client.fill(f"{own}/look", typed(client, own, text)).text
    area = re.findall(r"<textarea [^>]*>\n(.*?)</textarea>", page, re.DOTALL)[0]
    assert unescape(area) == text.replace("\r\n", "\n")
    assert "<script>alert" not in page


def test_a_text_is_saved_whole_with_its_faults_told(client: Sitter, own: str) -> None:
    said = client.done(f"{own}/save", typed(client, own, FAULTY))
    assert "Saved. It has 2 faults, so no papers can be made of it yet." in said
    assert open_bank(client.desk.folder, "my-piers").text == FAULTY
    assert "Saved." in client.done(f"{own}/save", typed(client, own, NEW_BANK))
    assert open_bank(client.desk.folder, "my-piers").text == NEW_BANK


def test_another_windows_text_is_not_written_over(client: Sitter, own: str) -> None:
    old = typed(client, own, NEW_BANK + "# one\n")
    client.done(f"{own}/save", old)
    refused = client.fill(f"{own}/save", {**old, "text": NEW_BANK + "# other\n"})
    assert refused.status_code == 409
    assert "was changed in another window" in words(refused.text)
    assert "# other" in refused.text
    assert open_bank(client.desk.folder, "my-piers").text == NEW_BANK + "# one\n"


def test_the_proof_of_what_is_typed_goes_on_in_the_queue(client: Sitter, own: str) -> None:
    said = finished(client, client.fill(f"{own}/prove", typed(client, own, NEW_BANK)))
    assert "All 1 exercise proved, with 36 variants to issue." in said
    wrong = NEW_BANK.replace("bricks * module - joint", "bricks * module")
    said = finished(client, client.fill(f"{own}/prove", typed(client, own, wrong)))
    assert "1 of 1 exercise failed" in said
    assert "Line 5: length-of-a-pier failed. variant 0 (bricks = 5)" in said
    said = finished(client, client.fill(f"{own}/prove", typed(client, own, FAULTY)))
    assert "my-piers.yaml:6:12: " in said


def test_an_exercise_is_seen_as_it_prints_and_is_not_issued(client: Sitter, own: str) -> None:
    answer = client.fill(f"{own}/paper", {**typed(client, own, NEW_BANK), "exercise": "length-of-a-pier"})
    address = answer.headers["location"]
    job = client.desk.jobs.find(address.rpartition("/")[2])
    assert job is not None
    until = time.monotonic() + 60
    while not job.over and time.monotonic() < until:
        time.sleep(0.02)
    page = client.get(address).text
    pictures = re.findall(r'<img class="sheet" src="(/file/[^"]+)" alt="([^"]+)"', page)
    assert [unescape(alt).split(";")[0] for _, alt in pictures] == [
        "The learner's paper, page 1 of 1",
        "The key, page 1 of 1",
    ]
    for source, _ in pictures:
        picture = client.get(source)
        assert picture.headers["content-type"] == "image/png"
        assert picture.content.startswith(b"\x89PNG")
    assert len(re.findall(r'href="/file/[^"]+">(?:paper|key)\.pdf', page)) == 2
    assert list(own_files(client.desk.folder / OWN_BANKS)) == ["my-piers"]
    assert client.get(f"{own}/paper/nothing").status_code == 404


def test_a_bank_whose_author_means_harm_is_told_like_any_other(client: Sitter, own: str, tmp_path: Path) -> None:
    nasty: list[Any] = [
        "a: " + "[" * 5000,
        "x: &a [*a, *a]",
        "!!python/object/apply:os.system ['true']",
        NEW_BANK.replace("pier(bricks)", "9**9**9**9"),
        NEW_BANK.replace("pier(bricks)", "__import__('os')"),
        NEW_BANK.replace("{bricks: 5 to 40}", "{bricks: 1 to 2000, b: 1 to 2000, c: 1 to 2000}"),
        "drawing: {kind: own, file: ../../../etc/passwd}\n",
        "\ufeff\ufeff",
        "",
    ]
    for text in nasty:
        seen = client.fill(f"{own}/faults", typed(client, own, text))
        assert seen.status_code == 200
        assert "fault" in words(seen.text)
        assert "root:" not in seen.text


@pytest.mark.parametrize(
    "address",
    ["/banks/own/nothing", "/banks/shipped/safety_notes", "/banks/elsewhere/my-piers", "/banks/own/..%2f..%2fetc%2fpasswd",
     "/banks/shipped/jobs%2fworksheet"],
)  # fmt: skip
def test_an_address_finds_banks_alone(client: Sitter, own: str, address: str) -> None:
    assert client.get(address).status_code == 404
    for to in ("look", "faults", "save", "prove", "paper"):
        assert client.fill(f"{address}/{to}", {"text": NEW_BANK}).status_code == 404
