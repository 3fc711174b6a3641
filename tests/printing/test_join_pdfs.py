"""Print-all files: each paper starts on a right-hand page."""

from io import BytesIO
from pathlib import Path

import pytest
from pikepdf import Pdf

from courseware.printing.join_pdfs import AT_ONCE, gather, gather_into


def pages(count: int, width: int = 595) -> bytes:
    with Pdf.new() as made:
        for _ in range(count):
            made.add_blank_page(page_size=(width, 842))
        written = BytesIO()
        made.save(written)
    return written.getvalue()


def test_every_paper_starts_on_an_odd_page(tmp_path) -> None:
    sheets = []
    for place, count in enumerate((3, 2, 1)):
        sheets.append(tmp_path / f"{place}.pdf")
        sheets[-1].write_bytes(pages(count))
    with Pdf.open(BytesIO(gather(sheets))) as joined:
        assert len(joined.pages) == 4 + 2 + 2
        assert str(joined.Root.ViewerPreferences.PrintScaling) == "/None"


def test_gathering_twice_gives_the_same_bytes(tmp_path) -> None:
    (tmp_path / "one.pdf").write_bytes(pages(1))
    assert gather([tmp_path / "one.pdf"]) == gather([tmp_path / "one.pdf"])


@pytest.mark.parametrize("count", [AT_ONCE - 1, AT_ONCE, AT_ONCE + 1, 2 * AT_ONCE + 1])
def test_many_papers_keep_their_order_and_their_right_hand_pages(tmp_path, count) -> None:
    sheets = [tmp_path / f"{place}.pdf" for place in range(count)]
    for place, sheet in enumerate(sheets):
        sheet.write_bytes(pages(1, width=300 + place))
    with Pdf.open(BytesIO(gather(sheets))) as joined:
        widths = [int(page.mediabox[2]) for page in joined.pages]
        assert str(joined.Root.ViewerPreferences.PrintScaling) == "/None"
    assert widths[::2] == [300 + place for place in range(count)]
    assert set(widths[1::2]) == {595}
    assert len(widths) == 2 * count


def test_many_papers_gathered_twice_give_the_same_bytes(tmp_path) -> None:
    (tmp_path / "one.pdf").write_bytes(pages(3))
    many = [tmp_path / "one.pdf"] * (AT_ONCE + 1)
    assert gather(many) == gather(many)


def test_slices_of_one_document_follow_without_blank_pages() -> None:
    joined = BytesIO()
    gather_into(joined, [BytesIO(pages(1)), BytesIO(pages(2))], right_hand=False)
    with Pdf.open(joined) as opened:
        assert len(opened.pages) == 3


@pytest.mark.skipif(not Path("/dev/fd").exists(), reason="open files are counted there")
def test_few_files_are_open_however_many_are_gathered(tmp_path) -> None:
    (tmp_path / "one.pdf").write_bytes(pages(1))
    counted = Counting()
    gather_into(counted, [tmp_path / "one.pdf"] * (6 * AT_ONCE))
    assert counted.most < AT_ONCE


def open_files() -> int:
    return len(list(Path("/dev/fd").iterdir()))


class Counting(BytesIO):
    """What is written, and the most files that were open meanwhile, above those open before."""

    def __init__(self) -> None:
        super().__init__()
        self.most, self._before = 0, open_files()

    def write(self, data) -> int:
        self.most = max(self.most, open_files() - self._before)
        return super().write(data)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a disk that is always full")
def test_a_full_disk_is_an_error_that_the_program_can_tell(tmp_path) -> None:
    (tmp_path / "one.pdf").write_bytes(pages(40))
    with pytest.raises(OSError, match="No space left"), Path("/dev/full").open("wb", buffering=0) as full:
        gather_into(full, [tmp_path / "one.pdf"])
