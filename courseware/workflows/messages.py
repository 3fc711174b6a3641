"""What may go wrong, as one message and an exit code: 1 a failed proof, 2 what was given, 3 what stopped the run."""

from __future__ import annotations

import contextlib
import errno
import os

from courseware import __version__
from courseware.banks import Exercise, Failure, FileFaulty, harmless
from courseware.class_report.distance import CannotCompare
from courseware.course.scheme import CannotPlan
from courseware.database.errors import RecordFaulty
from courseware.files.bank_files import NotFound
from courseware.papers.sitting_file import SittingFaulty
from courseware.papers.unused_variants import CannotDeal
from courseware.printing.leak_check import Leak
from courseware.printing.workers import WorkersDied
from courseware.text_files.faults import visible
from courseware.words import count, listed
from courseware.workflows.in_a_child import TookTooLong
from courseware.workflows.proving import ProofsFailed

FAILED, _FAULTY, _STOPPED = 1, 2, 3
FAULT_OF_PROGRAM = 4  # exit code
_MOST_NAMED = 6  # pieces of work in one line
_ADVICE = {
    errno.ENOSPC: "the disk is full; free some space",
    errno.EDQUOT: "the disk quota is used up; free some space",
    errno.EACCES: "this folder may not be written to; choose another",
    errno.EROFS: "this disk may not be written to; choose another folder",
    errno.EEXIST: "something else stands where this would be written; move it away",
    errno.EISDIR: "a folder stands where a file would be written; move it away",
    errno.ENOTDIR: "a file stands where a folder would be; move it away",
    errno.ELOOP: "a link there leads round in circles; take it away",
    errno.EFBIG: "a file is larger than this disk allows",
}
_LIBRARIES = """Stopped: this computer lacks Pango, the library that lays out text. It is free:
  Debian, Ubuntu  sudo apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0
  macOS           brew install pango
  Windows         install MSYS2 from its own site, then in its shell: pacman -S mingw-w64-x86_64-pango,
                  and set WEASYPRINT_DLL_DIRECTORIES to C:\\msys64\\mingw64\\bin
Then do the same again."""


def keep_details(error: BaseException) -> str:
    """Writes what a fault of the program was to a new file, for whoever mends it. Returns one line that says where."""
    import platform
    import tempfile
    import traceback
    from importlib.metadata import PackageNotFoundError, version

    told = "".join(traceback.format_exception(error))
    head = f"courseware {__version__}, Python {platform.python_version()}, {platform.platform()}"
    for name in ("weasyprint", "pydantic", "sqlalchemy", "openpyxl"):
        with contextlib.suppress(PackageNotFoundError):  # as in a zip
            head += f", {name} {version(name)}"
    what = f"This is a fault of the program ({type(error).__name__}); nothing that was made earlier is touched."
    try:
        handle, file = tempfile.mkstemp(prefix="courseware-fault-", suffix=".txt")
        with os.fdopen(handle, "w", encoding="utf-8", errors="backslashreplace") as details:
            details.write(f"{head}\n\n{told}")
    except OSError:
        return f"{what} Its details could not be written to a file: {harmless(str(error))}"
    return (
        f"{what} Its details are in {file}: send them to whoever looks after it (they may hold names; read them first)."
    )


def explain(error: BaseException) -> tuple[str | None, int | None]:
    """The message and exit code for an expected error; (None, None) for one that is a fault of the program."""
    if isinstance(error, FileFaulty):
        return f"{error}\n{count(len(error.faults), 'fault')} found; nothing was made.", _FAULTY
    if isinstance(error, ProofsFailed):
        lines = [failure_line(*failure) for failure in error.failures]
        return "\n".join([*lines, f"A bank that fails its proof {error.refused}; nothing was made."]), FAILED
    if isinstance(error, NotFound | CannotDeal | CannotPlan | CannotCompare | TookTooLong):
        return f"{visible(str(error))}. Nothing was made.", _FAULTY
    if isinstance(error, SittingFaulty):
        return f"The sitting cannot be used: {visible(str(error))}.", _FAULTY
    if isinstance(error, RecordFaulty):
        return f"The record cannot be used: {visible(str(error))}.", _FAULTY
    if isinstance(error, Leak):
        return (
            f"Stopped: {error}. It was not released. This is a fault of the program or of a bank: report it.",
            _STOPPED,
        )
    if isinstance(error, WorkersDied):
        more = [f"{len(error.items) - _MOST_NAMED} more"] if len(error.items) > _MOST_NAMED else []
        named = listed([*(str(item) for item in error.items[:_MOST_NAMED]), *more])
        return (
            f"Stopped: {named} could not be made: the process that made it was ended each time, as it is when "
            "the memory is used up. The others are done. Close other programs, or use one process alone, and do the "
            "same again: it goes on where it stopped.",
            _STOPPED,
        )
    if isinstance(error, OSError) and "cannot load library" in str(error):
        return _LIBRARIES, _STOPPED
    if isinstance(error, OSError) and error.errno == errno.ENAMETOOLONG:
        return f"{harmless(str(error.filename))}: this name is too long for a file. Nothing was made.", _FAULTY
    if isinstance(error, OSError) and (advice := advice_on(error)):
        return (
            f"Stopped: {advice}. What was made earlier is untouched; "
            "do the same again and it goes on where it stopped.",
            _STOPPED,
        )
    return None, None


def advice_on(error: OSError) -> str:
    """What a disk or a folder lacks, with what to do about it; '' where nothing is known of it."""
    where = f" ({harmless(str(error.filename))})" if error.filename else ""
    return f"{_ADVICE[error.errno]}{where}" if error.errno in _ADVICE else ""


def failure_line(exercise: Exercise, failure: Failure) -> str:
    """The first failing variant with its figures."""
    return f"{exercise.file}:{exercise.line}: {exercise.name}, variant {failure.raw} ({failure.given}): {failure.why}"
