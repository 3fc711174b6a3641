"""Print-all files: each paper starts on a right-hand page."""

from io import BytesIO

from pikepdf import Pdf

from courseware.printing.gather import gather


def pages(count: int) -> bytes:
    with Pdf.new() as made:
        for _ in range(count):
            made.add_blank_page(page_size=(595, 842))
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
