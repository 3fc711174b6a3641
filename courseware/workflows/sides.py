"""What a sitting's folder takes to print: sides, white space and drawings, counted on the PDFs that are there."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from courseware.files.sitting_files import GRID, MARKED, PICTURE, feedback_file, key_file, paper_file
from courseware.files.sitting_folders import SittingFolder
from courseware.papers.compose import compose_paper
from courseware.papers.sitting import Sitting
from courseware.printing.page_census import Margins, PageCensus, PdfDamaged, margins_of, margins_of_paper, page_census
from courseware.printing.page_format import page_for
from courseware.printing.workers import each, sitting_in
from courseware.words import listed, plural
from courseware.workflows.issuing import fitting_its_banks
from courseware.workflows.watch import Watch

_PAPERS, _KEYS = "papers", "keys"
_WORTH_A_POOL = 40  # files: a file takes a tenth of a second, a second process half a second to start
_MOST_NAMED = 6  # files in one line


@dataclass(frozen=True, slots=True, kw_only=True)
class KindCounted:
    """All files of a kind that are there and whole. `drawings` are those of each paper; () for what is no paper."""

    kind: str
    files: tuple[PageCensus, ...]
    drawings: tuple[int, ...] = ()

    @property
    def sides(self) -> int:
        """Of all files together."""
        return sum(file.sides for file in self.files)

    @property
    def sheets(self) -> int:
        """Of paper, each file printed on both sides and begun on a new sheet."""
        return sum(file.sheets for file in self.files)

    @property
    def white(self) -> float:
        """The share of the area between the margins that is white, 0 to 1."""
        return sum(file.white for file in self.files) / sum(file.rows for file in self.files)


@dataclass(frozen=True, slots=True, kw_only=True)
class SidesCounted:
    """A row for each kind of file; and in a line each, what could not be counted."""

    kinds: tuple[KindCounted, ...]
    faults: tuple[str, ...]

    @property
    def in_all(self) -> KindCounted:
        """All files that were counted."""
        return KindCounted(kind="in all", files=tuple(file for kind in self.kinds for file in kind.files))


@dataclass(frozen=True, slots=True, kw_only=True)
class _File:
    """A file that the sitting may have, by its path in the folder."""

    kind: str
    name: str
    margins: Margins


def count_sides(where: SittingFolder, processes: int, watch: Watch) -> SidesCounted:
    """Counts papers, keys, class grid, feedback sheets and class picture, as far as they are there.

    A paper or key is missing where others of its kind are there; a feedback sheet never is, since whoever was absent
    has none. Raises `SittingFaulty`.
    """
    files = tuple(_files(where.sitting))
    there = tuple(file for file in files if (where.path / file.name).is_file())
    counted: dict[_File, PageCensus] = {}
    with watch.progress("Counting", len(there)) as tell:
        for file, found in each(_count, where.path, there, processes, _WORTH_A_POOL):
            if found:
                counted[file] = found
            tell(1)
    drawings = _drawings(where.text, {file.name for file in counted})
    kinds = tuple(
        KindCounted(
            kind=kind,
            files=tuple(found for file, found in counted.items() if file.kind == kind),
            drawings=drawings if kind == _PAPERS else (),
        )
        for kind in dict.fromkeys(file.kind for file in counted)
    )
    return SidesCounted(kinds=kinds, faults=tuple(_faults(where.path, files, there, counted)))


def _files(sitting: Sitting) -> Iterator[_File]:
    """Every file to be counted that the sitting may have, kind by kind; the joined ones hold the same pages again."""
    for paper in sitting.papers:
        yield _File(kind=_PAPERS, name=paper_file(paper.code), margins=margins_of_paper(page_for(paper.learner.sheets)))
    for paper in sitting.papers:
        yield _File(kind=_KEYS, name=key_file(paper.code), margins=margins_of("key"))
    yield _File(kind="class grid", name=GRID, margins=margins_of("grid"))
    for paper in sitting.papers:
        yield _File(kind="feedback", name=feedback_file(paper.code), margins=margins_of("feedback"))
    yield _File(kind="class picture", name=f"{MARKED}/{PICTURE}.pdf", margins=margins_of("job"))


def _count(folder: Path, file: _File) -> PageCensus | None:
    """The pages of a file; None where it is damaged or cannot be read."""
    try:
        return page_census((folder / file.name).read_bytes(), file.margins)
    except (OSError, PdfDamaged):
        return None


def _drawings(text: str, names: Collection[str]) -> tuple[int, ...]:
    """How many exercises have a drawing, on each of the papers with these names."""
    with fitting_its_banks():
        sitting, sources = sitting_in(text)
        places = [place for place, paper in enumerate(sitting.papers) if paper_file(paper.code) in names]
        papers = [compose_paper(sitting, place, sources) for place in places]
    return tuple(sum(exercise.drawing is not None for exercise in paper.exercises) for paper in papers)


def _faults(
    folder: Path, files: Sequence[_File], there: Collection[_File], counted: Collection[_File]
) -> Iterator[str]:
    """What could not be counted, and what to do about it."""
    if not there:
        yield f"None of the sitting's PDFs is in {folder}."
    if damaged := [file.name for file in there if file not in counted]:
        yield f"{_named(damaged)} cannot be read: damaged, or no sheet of this program."
    for kind in (_PAPERS, _KEYS):
        own = [file for file in files if file.kind == kind]
        missing = [file.name for file in own if file not in there]
        if 0 < len(missing) < len(own):
            yield f"{_named(missing)} {plural(len(missing), 'is', 'are')} not there."


def _named(names: Sequence[str]) -> str:
    more = [f"{len(names) - _MOST_NAMED} more"] if len(names) > _MOST_NAMED else []
    return listed([*names[:_MOST_NAMED], *more])
