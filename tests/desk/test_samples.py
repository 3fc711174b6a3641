"""Papers that are only looked at: kept for this user alone, the oldest let go."""

from __future__ import annotations

import pytest

from courseware.desk import samples
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
