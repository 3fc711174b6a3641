"""A bank with an author's own drawing: issued, made again from its sitting.json alone, practised; its file in its folder."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from courseware.cli import main
from tests.practice.packed_kind import unpacked_kind

BANK = Path(__file__).parents[1].joinpath("banks", "own_drawing_bank.yaml").read_text(encoding="utf-8")


def svg(inside: str) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="20mm" viewBox="0 0 90 20">\n{inside}</svg>\n'


PICTURE = svg(
    '<rect width="80" height="12" fill="none" stroke="black"/><text x="9" y="9" font-size="5">lintel A</text>'
)


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    (tmp_path / "lintels.yaml").write_text(BANK, encoding="utf-8")
    (tmp_path / "lintel.svg").write_text(PICTURE, encoding="utf-8")
    return tmp_path


def run(*words: object) -> str:
    done = CliRunner().invoke(main, [str(word) for word in words])
    assert done.exit_code == 0, done.output
    return done.output


def issued(desk: Path) -> Path:
    run("issue", desk / "lintels.yaml", "--learners", 1, "--date", "2026-01-05", "--out", desk / "out", "--jobs", 1)
    [sitting] = desk.glob("out/*/sitting.json")
    return sitting


def test_it_is_printed_with_its_alternative_text_and_made_again_from_the_record_alone(desk: Path) -> None:
    sitting = issued(desk)
    [paper], [key] = sitting.parent.glob("for-learners/paper-*.pdf"), sitting.parent.glob("for-tutor/key-*.pdf")
    assert "lintel A" in PdfReader(paper).pages[0].extract_text()
    assert "Drawing: A lintel over an opening." in alternatives(paper)
    assert "lintel A" not in PdfReader(key).pages[0].extract_text()  # nothing is filled in that is not on the paper
    (desk / "lintel.svg").unlink()
    (desk / "lintels.yaml").unlink()
    run("again", sitting, "--out", desk / "again", "--jobs", 1)
    [made] = (desk / "again").glob("*/sitting.json")
    for file in sitting.parent.rglob("*.pdf"):
        assert (made.parent / file.relative_to(sitting.parent)).read_bytes() == file.read_bytes()


def test_the_practice_page_has_it_with_its_words_as_its_own_title(desk: Path) -> None:
    run("practise", desk / "lintels.yaml", "--out", desk / "page.html")
    [packed] = re.findall(r'id="kind-0"[^>]*>([^<]+)<', (desk / "page.html").read_text(encoding="utf-8"))
    kind = unpacked_kind(packed)
    drawing = [kind["lines"][line] for line in kind["variants"][0]["drawing"]["wide"]]
    assert drawing[0].startswith("<svg ")
    assert drawing[1] == "<title>Drawing: A lintel over an opening.</title>"
    assert any("lintel A" in line for line in drawing)


def test_a_link_is_not_followed(desk: Path) -> None:
    secret = desk / "elsewhere" / "lintel.svg"
    secret.parent.mkdir()
    (desk / "lintel.svg").rename(secret)
    (desk / "lintel.svg").symlink_to(secret)
    done = CliRunner().invoke(main, ["check", str(desk / "lintels.yaml")])
    assert done.exit_code == 2
    assert "lintels.yaml:8:32: there is no drawing `lintel.svg`" in done.output


def test_a_fault_in_the_file_names_the_file_and_its_line(desk: Path) -> None:
    (desk / "lintel.svg").write_text(svg("<script/>"), encoding="utf-8")
    done = CliRunner().invoke(main, ["check", str(desk / "lintels.yaml")])
    assert done.exit_code == 2
    assert "lintel.svg:2:1: the element `script` is not drawn" in done.output


def alternatives(pdf: Path) -> list[str]:
    """Every alternative text of a tagged PDF's structure."""
    found: list[str] = []
    left = [PdfReader(pdf).trailer["/Root"]["/StructTreeRoot"]]
    while left:
        thing = left.pop().get_object()
        if isinstance(thing, list):
            left += thing
        elif isinstance(thing, dict):
            found += [str(thing["/Alt"])] if "/Alt" in thing else []
            left += [thing["/K"]] if "/K" in thing else []
    return found
