"""Tables that were sent, as files of their own for as long as they are read by what reads files."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from courseware.desk.forms import Upload
from courseware.files.atomic import slug, write_whole

TABLES = (".xlsx", ".xlsm", ".csv")


@contextmanager
def sent_as_files(uploads: Sequence[Upload]) -> Iterator[Mapping[str, str]]:
    """The path of each in a folder of its own, under a name like its own, with the name it was sent by."""
    with TemporaryDirectory(prefix="courseware-sheets-") as folder:
        found: dict[str, str] = {}
        for place, upload in enumerate(uploads, 1):
            name = Path(upload.name.replace("\\", "/")).name
            suffix = next((one for one in TABLES if name.lower().endswith(one)), ".csv")
            path = Path(folder) / str(place) / f"{slug(Path(name).stem) or 'sheet'}{suffix}"
            path.parent.mkdir()
            write_whole(path, upload.data, 0o600)
            found[str(path)] = name
        yield found
