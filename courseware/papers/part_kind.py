"""What papers ask of a kind of part: its entry in the sitting, its question as the learner meets it, its key."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from courseware.banks.exercise import Exercise, part_label
from courseware.banks.formulas import Value
from courseware.banks.part import Part, Solved
from courseware.banks.part_kinds import RoomKinds
from courseware.papers.sheets import AskedPart, KeyAnswer
from courseware.papers.sitting import IssuedExercise, IssuedPart

Scope = Mapping[str, Value]
Site = Mapping[str, str]
Seal = tuple[str, str, str]  # seed, paper and exercise: what an order of printing is drawn from
Entries = tuple[IssuedPart, ...]
LETTERS = "ABCDEFGHIJ"


@dataclass(frozen=True, slots=True, kw_only=True)
class KindOnPaper:
    """A kind of part on a paper, on its key and in a sitting.

    `issue` takes the labels of the part's entries. `asked` and `key` take the entries, and raise `SittingFaulty` where
    the sitting says otherwise than this program finds.
    """

    issue: Callable[[Solved, tuple[str, ...], Scope, Site, Seal], Sequence[IssuedPart]]
    asked: Callable[[Solved, Entries, Scope, Site], AskedPart]
    key: Callable[[Solved, Entries, Scope, Site], tuple[KeyAnswer, ...]]
    figures: bool = False  # whether the answers in its entries are figures


PAPER_KINDS = RoomKinds("paper", KindOnPaper)


def holds_figure(entry: IssuedPart) -> bool:
    """Whether the answer of an entry is a figure."""
    return PAPER_KINDS[entry.kind].figures


def labels(number: int, part: Part, place: int) -> tuple[str, ...]:
    """The label of a part of exercise `number`, as `1a`; of a table, one for each row, as `1a(ii)`."""
    if part.entries == (part,):
        return (f"{number}{part_label(place)}",)
    return tuple(f"{number}{part_label(place, row)}" for row in range(len(part.entries)))


def entries_by_part(
    exercise: Exercise, issued: IssuedExercise, number: int | None = None
) -> tuple[Entries, ...] | None:
    """The sitting's entries of each part; None where the two do not go together, or are not labelled by `number`."""
    left = issued.parts
    found: list[Entries] = []
    for place, part in enumerate(exercise.parts):
        rows = part.entries
        own, left = left[: len(rows)], left[len(rows) :]
        if len(own) < len(rows) or not all(map(_is_of, rows, own)):
            return None
        if number is not None and tuple(entry.label for entry in own) != labels(number, part, place):
            return None
        found.append(own)
    return tuple(found)


def _is_of(row: Part, entry: IssuedPart) -> bool:
    """Whether an entry of the sitting is this part, or row, as its bank has it."""
    figure = [number.unit for number in row.numbers]
    _, offered = row.offers
    return (
        (entry.name, entry.marks, sorted(entry.shown)) == (row.name, row.marks, list(range(len(offered))))
        and holds_figure(entry) == bool(figure)
        and figure in ([], [entry.unit])
    )


def entry_of(
    part: Part,
    label: str,
    answer: str = "",
    shown: Sequence[int] = (),
    before: tuple[tuple[str, str], ...] = (),
) -> IssuedPart:
    """The entry of a part that is answered by letters, or by nothing that can be written down."""
    return IssuedPart(
        label=label,
        name=part.name,
        kind=part.kind,
        answer=answer,
        unit="",
        within="",
        marks=part.marks,
        slips=(),
        shown=tuple(shown),
        before=before,
    )


def question(part: Part, own: Entries, scope: Scope, site: Site) -> AskedPart:
    """A part as the learner meets it, as far as every kind has it."""
    label = own[0].label.partition("(")[0]
    return AskedPart(label=label, kind=part.kind, ask=part.ask.render(scope, site), marks=part.marks)
