"""Whether a file names a learner, and what is to be done with it: cleaned, removed, or looked at by a person."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from courseware.database.learner_lookup import Papers
from courseware.database.learners import telling
from courseware.erasure.table_rows import Unreadable, without_in_csv, without_in_workbook

_LARGEST = 50_000_000  # bytes of a file that is looked into
_TEXTS = {".txt", ".md", ".json", ".html", ".htm", ".xml", ".svg", ".yaml", ".yml"}


@dataclass(frozen=True, slots=True, kw_only=True)
class FileFinding:
    """What is to be done with a file: '' is nothing, since it names nobody; `data` is the file without the learner."""

    do: Literal["", "clean", "remove", "look", "unreadable"]
    data: bytes = b""


def look_into(path: Path, papers: Papers) -> FileFinding:
    """The verdict on one file. Tables can be cleaned; a PDF has to be made again; a text is its writer's own."""
    kind = path.suffix.lower()
    try:
        if path.stat().st_size > _LARGEST:
            raise Unreadable
        if kind == ".pdf":
            return FileFinding(do="remove" if _pdf_names(path, telling(papers)) else "")
        if kind in {".xlsx", ".csv"}:
            clean = (without_in_workbook if kind == ".xlsx" else without_in_csv)(path.read_bytes(), papers)
            return FileFinding(do="") if clean is None else FileFinding(do="clean", data=clean)
        if kind in _TEXTS:
            named = telling(papers).search(path.read_bytes().decode("utf-8", "replace"))
            return FileFinding(do="look" if named else "")
    except Unreadable:
        return FileFinding(do="unreadable")
    return FileFinding(do="" if path.name.startswith(".") else "unreadable")


def _pdf_names(path: Path, learner: re.Pattern[str]) -> bool:
    """Whether a PDF names the learner. Raises `Unreadable` for one that this program did not make, such as a scan."""
    from pikepdf import Pdf

    from courseware.printing.leak_check import page_text

    try:
        with Pdf.open(path) as opened:
            texts = [page_text(page) for page in opened.pages]
    except Exception:  # another program's PDF may be of any make
        raise Unreadable from None
    if not any(text.strip() for text in texts):
        raise Unreadable
    return any(learner.search(text) for text in texts)
