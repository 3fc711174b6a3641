"""One sitting's page."""

from __future__ import annotations

import re
from pathlib import Path

from courseware.files.sitting_files import paper_file
from courseware.files.sitting_folders import find_folders
from tests.desk.conftest import Sitter, words


def codes(work: Path) -> list[str]:
    return [one.sitting.code for one in find_folders([work / "output"])[0]]


def test_every_file_says_what_it_is_for_and_opens(client: Sitter, work: Path) -> None:
    marked, _ = codes(work)
    shown = client.get(f"/sittings/{marked}").text
    for words_of_it in (
        "Print this for the class",
        "For you alone",
        "A workbook to type answers into",
        "Class picture",
    ):
        assert words_of_it in words(shown)
    handles = re.findall(r'href="(/file/[0-9a-f]+)"', shown)
    assert len(handles) == 1 + 3 + 3 + 2 * 4 + ("To be looked at" in words(shown))
    assert {client.get(handle).status_code for handle in handles} == {200}


def test_each_learner_has_a_paper_a_key_and_its_sides(client: Sitter, work: Path) -> None:
    shown = words(client.get(f"/sittings/{codes(work)[1]}").text)
    assert re.search(r"Amara Okafor A1 \w{4}-\w{4}-\w , paper of Amara Okafor Key of Amara Okafor 1", shown)


def test_a_paper_that_is_gone_can_be_made_again(client: Sitter, work: Path) -> None:
    where = find_folders([work / "output"])[0][1]
    (where.path / paper_file(where.sitting.papers[0].code)).unlink()
    shown = words(client.get(f"/sittings/{where.sitting.code}").text)
    assert "1 paper no longer in the folder: make them again." in shown
    assert "Make all papers again" in shown


def test_a_name_to_be_put_right_has_its_form(client: Sitter, work: Path) -> None:
    where = find_folders([work / "output"])[0][1]
    shown = client.get(f"/sittings/{where.sitting.code}?rename={where.sitting.papers[1].code}").text
    assert 'value="Łukasz Wójcik"' in shown


def test_a_sitting_that_is_not_there_is_not_found(client: Sitter) -> None:
    for code in ("AAAA-AAAA-A", "output", "%2e%2e%2foutput"):
        assert client.get(f"/sittings/{code}").status_code == 404
