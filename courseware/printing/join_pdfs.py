"""One file to print from: every sheet in it starts on a right-hand page."""

from __future__ import annotations

import tempfile
from collections.abc import Iterable, Sequence
from contextlib import ExitStack
from io import BytesIO, RawIOBase
from pathlib import Path
from typing import IO, Any, BinaryIO, cast

from courseware.printing.joined_tags import JoinedTags

AT_ONCE = 40  # sheets open at the same time; some systems let a program have 256 files open
TAGGED = 60  # sheets whose tags are joined
Source = Path | IO[bytes]


def gather(sheets: Iterable[Path]) -> bytes:
    """The joined file of `gather_into`, in memory."""
    written = BytesIO()
    gather_into(written, list(sheets))
    return written.getvalue()


def gather_into(target: IO[bytes], sheets: Sequence[Source], *, right_hand: bool = True) -> None:
    """Writes the PDFs joined, with a blank page after an odd count (where `right_hand`), and true size asked for.

    Many sheets are joined a few at a time by way of temporary files, so that few are open or in memory at once. Their
    tags are joined too, up to `TAGGED` sheets: a larger file is for printing alone, since tags are most of what
    would be held in memory. Raises `OSError` where a file cannot be read or written.
    """
    _gather(target, sheets, right_hand, len(sheets) <= TAGGED)


def _gather(target: IO[bytes], sheets: Sequence[Source], right_hand: bool, tagged: bool) -> None:
    if len(sheets) <= AT_ONCE:
        _join(target, sheets, right_hand, tagged)
        return
    with ExitStack() as kept:
        some: list[Source] = []
        for start in range(0, len(sheets), AT_ONCE):
            part = kept.enter_context(tempfile.TemporaryFile())
            _join(part, sheets[start : start + AT_ONCE], right_hand, tagged)
            some.append(part)
        _gather(target, some, False, tagged)


class _Writing(RawIOBase):
    """A file as pikepdf writes it. An error (a full disk) waits here: raised amid the writing it ends the program."""

    def __init__(self, file: IO[bytes]) -> None:
        self._file = file
        self.error: OSError | None = None

    def writable(self) -> bool:
        return True

    def write(self, data: Any) -> int:
        if not self.error:
            try:
                self._file.write(data)
            except OSError as error:
                self.error = error
        return len(data)


def _join(target: IO[bytes], sheets: Sequence[Source], right_hand: bool, tagged: bool) -> None:
    from pikepdf import Dictionary, Name, Pdf

    writing = _Writing(target)
    with Pdf.new() as joined:
        tags = JoinedTags(joined)
        for sheet in sheets:
            with Pdf.open(cast("Path | BinaryIO", sheet)) as one:
                first = len(joined.pages)
                joined.pages.extend(one.pages)
                if tagged:
                    tags.take(one, first)
            if right_hand and len(joined.pages) % 2:
                joined.add_blank_page(page_size=(595.28, 841.89))
        joined.Root.ViewerPreferences = Dictionary(PrintScaling=Name("/None"))
        if tagged:
            tags.put()
        joined.save(cast("BinaryIO", writing), deterministic_id=True)
    if writing.error:
        raise writing.error
