"""Papers that are only looked at: kept for this user alone, the oldest let go."""

from __future__ import annotations

import pytest

from courseware.desk import samples
from courseware.desk.forms import Upload
from courseware.workflows.writing_banks import SampleSheets

SHEETS = SampleSheets(paper=b"%PDF-paper", key=b"%PDF-key", paper_pages=(b"1", b"2"), key_pages=(b"3",))


def test_each_page_and_both_pdfs_are_files_of_their_own() -> None:
    kept = samples.keep_sample(SHEETS)
    assert [path.read_bytes() for path in (*kept["paper"], *kept["key"], *kept["pdf"])] == [
        b"1", b"2", b"3", b"%PDF-paper", b"%PDF-key",
    ]  # fmt: skip
    assert kept["pdf"][0].parent.parent.stat().st_mode & 0o077 == 0


def test_old_samples_go(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(samples, "_MOST", 2)
    first, second, third = (samples.keep_sample(SHEETS)["pdf"][0] for _ in range(3))
    assert [path.exists() for path in (first, second, third)] == [False, True, True]


@pytest.mark.parametrize(
    ("name", "kept"),
    [
        ("Re-mark KKKK.XLSX", "re-mark-kkkk.xlsx"),
        ("..\\..\\a/b/plan.csv", "plan.csv"),
        ("x.exe", "x.csv"),
        ("", "sheet.csv"),
    ],
)
def test_a_sheet_that_was_sent_is_kept_under_a_name_like_its_own_for_this_user_alone(name: str, kept: str) -> None:
    path = samples.keep_sent(Upload(name=name, data=b"Name\n"))
    assert (path.name, path.read_bytes()) == (kept, b"Name\n")
    assert path.stat().st_mode & 0o077 == 0
