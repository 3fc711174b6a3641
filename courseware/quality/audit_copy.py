"""The sheets round one learner's paper in its audit copy: what is in it, each mark with its why, its history."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from courseware.marking.marks import How, Mark, MarkedPaper
from courseware.papers.sitting import IssuedPaper, Sitting
from courseware.reports.as_typed import as_typed, by_code
from courseware.reports.report import Block, Report, Table
from courseware.settings.settings import Settings

HOW_SAID: Mapping[How, str] = {
    "right": "right",
    "route": "by an accepted route",
    "carried": "right from an earlier answer",
    "slip": "a known slip",
    "family": "one of several known slips",
    "unit": "another unit",
    "rounding": "rounded otherwise",
    "tens": "wrong power of ten",
    "swapped": "figures swapped",
    "elsewhere": "another paper's answer",
    "unknown": "not recognised",
    "withheld": "earlier answer cannot be carried",
    "partly": "right in part",
    "wrong": "not right",
    "blank": "left blank",
    "unreached": "not reached",
    "asked": "put to the assessor",
    "decided": "decided by the assessor",
}
_STATUS_SAID = {"": "handed in", "absent": "absent", "late": "handed in late", "resubmitted": "handed in again"}
_SETTLED = (
    "Where the two differ and it has been settled, the mark that stands is the reconciled one. Every earlier mark is "
    "in the history."
)
_DEFERS = "A copy made from the record; the record itself is what counts."
_Clean = Callable[[str], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Marking:
    """One marking of the paper: whose, as a heading (`First marker: J. Marsh`), and the marks as they stand.

    `cells` is the script as typed, by label; it is shown where nothing has been marked yet.
    """

    title: str
    paper: MarkedPaper
    cells: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class EventRow:
    """One thing that happened to the paper."""

    when: str
    who: str
    what: str
    before: str
    after: str
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """A piece of the audit copy and the pages it stands on."""

    title: str
    first: int
    last: int


def front_sheet(
    sitting: Sitting, issued: IssuedPaper, contents: Sequence[Contents], made: str, settings: Settings, *, named: bool
) -> Report:
    """The front sheet: which paper, what is in the copy, the fingerprints of the files that it was made from.

    It has the centre's name, and the lines that the centre has signed on an audit copy.
    """
    learner = issued.learner
    who = (("Learner", learner.name), ("Reference", learner.reference)) if named else ()
    about = (
        ("Paper", issued.code),
        *((what, text) for what, text in who if text),
        ("Sitting", f"{sitting.title}, {sitting.code}"),
        ("Group", sitting.group),
        ("Date of the sitting", sitting.date),
        ("Issued by version", sitting.version),
        ("This copy made", made),
    )
    files = (*sitting.banks, *([sitting.safety] if sitting.safety else []))
    signed = settings.signatures.audit
    return Report(
        file="front",
        title=f"Audit copy of paper {issued.code}",
        centre=settings.name,
        blocks=(
            Block(text=(_DEFERS,), table=Table(headings=("What", "Which"), rows=about, widths=(44, 0))),
            Block(
                heading="What is in it",
                table=Table(
                    headings=("Piece", "Pages"),
                    rows=tuple((piece.title, _pages(piece)) for piece in contents),
                    widths=(0, 30),
                ),
            ),
            Block(
                heading="Files that the paper was made from",
                text=("SHA-256 of each file as it was when the paper was issued.",),
                table=Table(
                    headings=("File", "SHA-256"),
                    rows=tuple((file.file, _grouped(file.sha256)) for file in files),
                    widths=(62, 0),
                ),
            ),
            *([Block(signed=signed)] if signed.signed else []),
        ),
    )


def marks_sheet(issued: IssuedPaper, first: Sequence[Marking], second: Sequence[Marking], *, named: bool) -> Report:
    """The script as typed with each mark, how it was reached and why; then, where there is one, the second marker's.

    Each of `first` and `second` holds the paper's attempts in order; the last marks are those that stand.
    """
    clean = _cleaner(issued, named=named)
    blocks = [block for marking in (*first, *second) for block in _marking(marking, clean)]
    if first and second:
        blocks.append(_both(first[-1].paper, second[-1].paper, clean))
    if not blocks:
        blocks.append(Block(text=("No script of this paper has been marked.",)))
    return _sheet("marks", f"Script and marks, paper {issued.code}", tuple(blocks))


def history_sheet(issued: IssuedPaper, changes: Sequence[EventRow], *, named: bool) -> Report:
    """Every change to the paper's script and marks, the earliest first: what, from what to what, why, who and when."""
    clean = _cleaner(issued, named=named)
    rows = [(change.when, change.who or "–", change.what, _became(change), change.reason or "–") for change in changes]
    table = Table(
        headings=("When, UTC", "Who", "What", "From and to", "Reason"),
        rows=tuple(tuple(map(clean, row)) for row in rows),
        widths=(31, 36, 27, 42, 0),
    )
    return _sheet("history", f"History of paper {issued.code}", (Block(table=table),))


def _marking(marking: Marking, clean: _Clean) -> tuple[Block, ...]:
    paper = marking.paper
    told = f"{_STATUS_SAID[paper.status]}; {paper.total} of {paper.of} marks"
    if not paper.marks:
        typed = tuple((label, clean(text) or "–") for label, text in marking.cells.items())
        cells = Table(headings=("Part", "As typed"), rows=typed, widths=(16, 0)) if typed else None
        return (Block(heading=marking.title, text=(f"{_STATUS_SAID[paper.status]}; no marks",), table=cells),)
    table = Table(
        headings=("Part", "As typed", "Mark", "How reached", "Why"),
        rows=tuple(
            (
                mark.label,
                clean(mark.written) or "–",
                f"{mark.marks} of {mark.of}",
                HOW_SAID[mark.how],
                clean(_why(mark)),
            )
            for mark in paper.marks
        ),
        widths=(16, 32, 16, 30, 0),
    )
    return (Block(heading=marking.title, text=(told,), table=table),)


def _both(first: MarkedPaper, second: MarkedPaper, clean: _Clean) -> Block:
    """Part by part: the mark that stands, the second marker's, and how the standing one was reached."""
    others = {mark.label: mark for mark in second.marks}
    rows = tuple(
        (
            mark.label,
            f"{others[mark.label].marks} of {mark.of}" if mark.label in others else "–",
            f"{mark.marks} of {mark.of}",
            HOW_SAID[mark.how],
            clean(mark.why) if mark.how == "decided" else "",
        )
        for mark in first.marks
    )
    return Block(
        heading="Both markers",
        text=(_SETTLED,),
        table=Table(
            headings=("Part", "Second marker", "Mark that stands", "How reached", "Reason"),
            rows=rows,
            widths=(16, 28, 30, 40, 0),
        ),
    )


def _why(mark: Mark) -> str:
    slips = [f"Slip: {slip.says}." for slip in mark.slips if slip.says not in mark.why]
    comment = [f"Comment: {mark.comment}"] if mark.comment else []
    return " ".join([mark.why, *slips, *comment]).strip()


def _became(change: EventRow) -> str:
    return f"{change.before} → {change.after or '(nothing)'}" if change.before else change.after or "–"


def _cleaner(issued: IssuedPaper, *, named: bool) -> _Clean:
    """What makes text fit for the sheet; in a copy by codes the learner's name gives way to the paper's code."""
    if named:
        return as_typed
    return lambda text: as_typed(by_code(text, issued.learner.name, issued.code))


def _sheet(file: str, title: str, blocks: tuple[Block, ...]) -> Report:
    return Report(file=file, title=title, blocks=blocks)


def _pages(piece: Contents) -> str:
    return str(piece.first) if piece.first == piece.last else f"{piece.first} to {piece.last}"


def _grouped(digest: str) -> str:
    return " ".join(digest[start : start + 16] for start in range(0, len(digest), 16))
