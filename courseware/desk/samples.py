"""Where papers that are only looked at stand while the desk runs: a folder for this user alone, gone at its end."""

from __future__ import annotations

import atexit
import itertools
from functools import cache
from pathlib import Path
from shutil import rmtree
from tempfile import mkdtemp

from courseware.files.atomic import write_whole
from courseware.workflows.writing_banks import SampleSheets

_MOST = 30  # samples that can still be looked at
_numbers = itertools.count(1)


@cache
def _folder() -> Path:
    folder = Path(mkdtemp(prefix="courseware-desk-"))
    atexit.register(rmtree, folder, ignore_errors=True)
    return folder


def keep_sample(found: SampleSheets) -> dict[str, tuple[Path, ...]]:
    """Writes a sample's files. Returns the pages of `paper` and `key`, and their PDFs as `pdf`."""
    number = next(_numbers)
    rmtree(_folder() / str(number - _MOST), ignore_errors=True)
    folder = _folder() / str(number)
    folder.mkdir()
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
