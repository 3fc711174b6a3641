"""The files that a class is printed from: every sheet once, in order, for whom they are meant."""

from __future__ import annotations

import stat
from io import BytesIO
from pathlib import Path

import pytest
from pikepdf import Pdf

from courseware.printing.join_pdfs import AT_ONCE
from courseware.workflows.joined_files import Joined, write_joined


def sheet(file: Path, wide: int) -> Path:
    """A page of its own width, to be known by."""
    with Pdf.new() as made:
        made.add_blank_page(page_size=(wide, 300))
        made.save(file)
    return file


def widths(file: Path) -> list[int]:
    with Pdf.open(BytesIO(file.read_bytes())) as found:
        return [int(page.mediabox[2]) for page in found.pages]


@pytest.fixture
def sheets(tmp_path: Path) -> tuple[Path, ...]:
    return tuple(sheet(tmp_path / f"{wide}.pdf", wide) for wide in (210, 220, 230))


@pytest.mark.parametrize("processes", [1, 2])
def test_every_file_has_its_own_sheets_in_their_order(tmp_path: Path, sheets: tuple[Path, ...], processes: int) -> None:
    one, other = tmp_path / "papers.pdf", tmp_path / "keys.pdf"
    files = (Joined(path=one, sheets=sheets, mode=0o644), Joined(path=other, sheets=sheets[::-1], mode=0o600))
    write_joined(files, processes)
    assert [width for width in widths(one) if width in (210, 220, 230)] == [210, 220, 230]
    assert [width for width in widths(other) if width in (210, 220, 230)] == [230, 220, 210]
    assert [stat.S_IMODE(file.stat().st_mode) for file in (one, other)] == [0o644, 0o600]


@pytest.mark.parametrize("many", [AT_ONCE, AT_ONCE + 1])
def test_a_large_class_is_joined_whole(tmp_path: Path, many: int) -> None:
    """At the number that is joined at once, and one over it."""
    one = sheet(tmp_path / "one.pdf", 200)
    write_joined((Joined(path=tmp_path / "all.pdf", sheets=(one,) * many, mode=0o644),), 2)
    assert widths(tmp_path / "all.pdf").count(200) >= many


def test_what_cannot_be_read_leaves_no_file_behind(tmp_path: Path, sheets: tuple[Path, ...]) -> None:
    whole = tmp_path / "all.pdf"
    with pytest.raises(OSError, match="missing"):
        write_joined((Joined(path=whole, sheets=(*sheets, tmp_path / "missing.pdf"), mode=0o644),), 1)
    assert not whole.exists()


def test_it_is_named_by_its_file_alone() -> None:
    """As it is told where a process that joined it died."""
    assert str(Joined(path=Path("output/sitting/all-papers.pdf"), sheets=(), mode=0o644)) == "all-papers.pdf"
