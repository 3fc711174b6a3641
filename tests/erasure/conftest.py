"""A sitting's folder as it is issued and filled in, and a search through all that its files say."""

from __future__ import annotations

import re
import shutil
import zipfile
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner
from pikepdf import Dictionary, Pdf, Stream
from pypdf import PdfReader

from courseware.cli import main
from courseware.database.learner_lookup import Papers, whose
from courseware.files.sitting_folders import read_folder

NAME, REFERENCE = "Łukasz O'Brien & Söhne", "B-0013/x"  # invented, with characters that files write otherwise
CLASS = f'Ref;Name\nA-0012;Amara Okafor\n{REFERENCE};"{NAME}"\nA-0014;=1+1\n'
BANK = """\
topic: Piers
aim: Work out the length of a pier
exercises:
  - name: pier-length
    level: 1
    given: {bricks: 2 to 9}
    pose: A pier is {{ bricks }} bricks long.
    parts:
      - name: length
        ask: How long is it?
        answer: pier(bricks)
        unit: mm
        marks: 2
        working:
          - {say: "Bricks and joints", value: bricks * module, earns: method}
          - {say: "One joint fewer", value: bricks * module - joint, earns: accuracy}
"""


@pytest.fixture(scope="session")
def issued(tmp_path_factory) -> Path:
    """An output folder as `issue` leaves it, with a sitting of three learners."""
    desk = tmp_path_factory.mktemp("desk")
    (desk / "class.csv").write_text(CLASS, encoding="utf-8")
    (desk / "piers.yaml").write_text(BANK, encoding="utf-8")
    words = ["issue", str(desk / "piers.yaml"), "--group", str(desk / "class.csv"), "--date", "2026-01-05", "--word"]
    done = CliRunner().invoke(main, [*words, "--out", str(desk / "output")])
    assert done.exit_code == 0, done.output
    return desk / "output"


@pytest.fixture
def folder(issued, tmp_path) -> Path:
    """A copy of the sitting's folder, its marking sheet filled in, and with what else may lie in one."""
    [made] = [path for path in issued.iterdir() if path.is_dir()]
    here = tmp_path / "output" / made.name
    shutil.copytree(issued, tmp_path / "output")
    sheet = here / "for-tutor/marking-sheet.xlsx"
    book = openpyxl.load_workbook(sheet)
    for row in range(2, 5):
        cell = next(cell for cell in book["Answers"][row] if heading(book, cell.column) == "1a")
        cell.value = f"typed in row {row}"
    book.save(sheet)
    shutil.copy(sheet, here / "for-tutor/second-marking-sheet.xlsx")
    return here


def heading(book, column: int) -> str:
    return str(book["Answers"].cell(1, column).value)


def papers_of(folder: Path, who: str = NAME) -> Papers:
    return whose(read_folder(folder).held, who)


def nobody() -> None:
    raise AssertionError("nobody else works in this folder")


def everything_in(file: Path) -> Iterator[str]:
    """All that a file says, packed or not: its name, its bytes, its pieces, its streams, the text of its pages."""
    data = file.read_bytes()
    yield str(file)
    yield data.decode("utf-8", "replace")
    yield data.decode("latin-1")
    if zipfile.is_zipfile(BytesIO(data)):
        with zipfile.ZipFile(BytesIO(data)) as pieces:
            for piece in pieces.namelist():
                yield piece
                yield unescaped(pieces.read(piece).decode("utf-8", "replace"))
    if data.startswith(b"%PDF"):
        with Pdf.open(file) as opened:
            for thing in opened.objects:
                if isinstance(thing, Stream):
                    yield thing.read_bytes().decode("latin-1") if "/Filter" not in thing or decodes(thing) else ""
                if isinstance(thing, Dictionary):
                    yield from (str(value) for value in thing.as_dict().values() if isinstance(value, str))
                yield str(thing)[:20000]
        yield from (page.extract_text() for page in PdfReader(BytesIO(data)).pages)


def decodes(stream: Stream) -> bool:
    return str(stream.get("/Filter")) in {"/FlateDecode", "[ /FlateDecode ]"}


def unescaped(text: str) -> str:
    from html import unescape

    return unescape(text)


def mentions(folder: Path, words: tuple[str, ...]) -> list[str]:
    """The files of a folder that hold any of the words, letters alone compared."""
    plain = [re.sub(r"\W", "", word).casefold() for word in words]
    return [
        str(file.relative_to(folder))
        for file in sorted(folder.rglob("*"))
        if file.is_file()
        for text in ["\n".join(everything_in(file))]
        if any(word in re.sub(r"\W", "", text).casefold() for word in plain)
    ]
