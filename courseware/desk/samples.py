"""Where what is only looked at stands while the desk runs, papers and sheets sent: a folder for this user alone."""

from __future__ import annotations

import atexit
import itertools
from functools import cache
from pathlib import Path
from shutil import rmtree
from tempfile import mkdtemp

from courseware.desk.forms import Upload
from courseware.desk.sent_files import TABLES
from courseware.files.atomic import PRIVATE, slug, write_whole
from courseware.workflows.writing_banks import SampleSheets

_MOST = 30  # samples and sheets that can still be looked at
_numbers = itertools.count(1)


@cache
def _folder() -> Path:
    folder = Path(mkdtemp(prefix="courseware-desk-"))
    atexit.register(rmtree, folder, ignore_errors=True)
    return folder


def keep_sample(found: SampleSheets) -> dict[str, tuple[Path, ...]]:
    """Writes a sample's files. Returns the pages of `paper` and `key`, and their PDFs as `pdf`."""
    folder = _new_folder()
    written: dict[str, tuple[Path, ...]] = {}
    for name, pages in (("paper", found.paper_pages), ("key", found.key_pages)):
        paths = tuple(folder / f"{name}-{place}.png" for place in range(1, len(pages) + 1))
        for path, data in zip(paths, pages, strict=True):
            write_whole(path, data)
        written[name] = paths
    pdfs = (folder / "paper.pdf", folder / "key.pdf")
    for path, data in zip(pdfs, (found.paper, found.key), strict=True):
        write_whole(path, data)
    return {**written, "pdf": pdfs}


def keep_sent(upload: Upload) -> Path:
    """Writes a workbook or table that was sent, under a name like its own, to be entered once it was looked at."""
    name = Path(upload.name.replace("\\", "/")).name
    suffix = next((one for one in TABLES if name.lower().endswith(one)), ".csv")
    path = _new_folder() / f"{slug(Path(name).stem) or 'sheet'}{suffix}"
    write_whole(path, upload.data, PRIVATE)
    return path


def _new_folder() -> Path:
    number = next(_numbers)
    rmtree(_folder() / str(number - _MOST), ignore_errors=True)
    folder = _folder() / str(number)
    folder.mkdir()
    return folder
