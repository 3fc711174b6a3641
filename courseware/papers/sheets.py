"""What is printed, as finished text: a paper for the learner and a key for the tutor.

Two families of types, so that a learner's sheet has no field an answer could sit in.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from courseware.banks.exercise import SKETCH_SIZE
from courseware.banks.own_picture import OwnPicture
from courseware.papers.sheet_format import STANDARD, SheetFormat
from courseware.settings.settings import UNSIGNED, Signed
from courseware.trade import Format


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawingCall:
    """A drawing still to be made: its kind, the figures it is drawn from, and what its dimensions say.

    `figures` are exact (mm, courses, bricks) or words. `labels` has every dimension that is shown:
    its text, or None for a blank to be filled in by the learner. A dimension not named is not drawn.
    """

    kind: str
    figures: Mapping[str, Fraction | str]
    labels: Mapping[str, str | None]
    format: Format
    alt: str  # alternative text that gives no answer away
    own: OwnPicture | None = None  # the author's own picture, where it is one
    to_draw_in: bool = False  # made for the learner to draw in
    share: float = 1.0  # of the room that its kind takes on a page; less beside words, on a key and on a phone
    narrow: bool = False  # whether its views stand one below another, as on a phone

    @property
    def alt_filled(self) -> str:
        """The alternative text where answers stand beside the drawing; an author's own has nothing to fill in."""
        return self.alt if self.own else "The drawing, with the sizes asked for shown in"


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedRow:
    """One row of a table part: `1b(i)`, what it is, its unit and marks."""

    label: str
    say: str
    unit: str
    marks: int
    note: str = ""  # how to round, as `to 2 decimal places`


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedPart:
    """A part as the learner meets it. `kind` names its kind, as in the sitting."""

    label: str  # "1a"
    kind: str
    ask: str
    marks: int
    unit: str = ""
    note: str = ""  # how to answer: "to 3 decimal places", "tick two", "write the letters in order"
    options: tuple[tuple[str, str], ...] = ()  # choice and order: letter, wording
    rows: tuple[AskedRow, ...] = ()  # table
    lines: int = 0  # to write a few words on, of a part that is not drawn
    size: tuple[int, int] = SKETCH_SIZE  # of the space to draw in, in mm


@dataclass(frozen=True, slots=True, kw_only=True)
class SafetyNote:
    """One caution: what it is about, what it says, and whose figure it is ('' where none)."""

    title: str
    lines: tuple[str, ...]
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedExercise:
    """An exercise as the learner meets it."""

    number: int
    topic: str
    level: int
    setting: str
    pose: str
    brick: str  # "UK metric bricks 215 × 102.5 × 65 mm, 10 mm joints"; empty where no line is printed
    parts: tuple[AskedPart, ...]
    marks: int
    format: Format | None = None  # the brick in the question, where there is one
    drawing: DrawingCall | None = None
    safety: tuple[SafetyNote, ...] = ()

    @property
    def drawn_in_place(self) -> bool:
        """Whether a drawn part is drawn into the exercise's own drawing, so that no other room is wanted."""
        return self.drawing is not None and self.drawing.to_draw_in


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """What stands at the head of a paper and of its key."""

    title: str
    group: str
    date: str  # "25 November 2026"
    code: str  # paper code, as printed
    learner: str  # name, or "" for a numbered paper
    reference: str  # the college's own reference, or ""
    number: str  # "Paper 3 of 12", for numbered papers, or ""
    marks: int
    centre: str = ""  # the centre's name
    due: str = ""  # "2 December 2026": when it is to be handed in, '' where no day was set


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """One learner's paper: never holds an answer."""

    heading: Heading
    exercises: tuple[AskedExercise, ...]
    cautions: tuple[str, ...]  # the deferring lines of the whole paper
    signed: Signed = UNSIGNED
    set_as: SheetFormat = STANDARD


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyLine:
    """A line of the working: words, figure with unit, and the marks it earns as `M1` or `A1`."""

    say: str
    figure: str
    earns: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeySlip:
    """A slip to look for: the figure it gives on this paper, its name and the marks it still earns."""

    figure: str
    says: str
    earns: int


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyAnswer:
    """The key to one part, or to one row of a table part."""

    label: str
    answer: str  # "910 mm", "B", "C, A, D, B"
    within: str = ""  # "± 2 mm"
    chosen: tuple[str, ...] = ()  # of a choice, the words of what is right
    accepts: tuple[KeySlip, ...] = ()  # other accepted routes: figure, route, marks
    working: tuple[KeyLine, ...] = ()
    slips: tuple[KeySlip, ...] = ()
    notes: tuple[str, ...] = ()  # "A must come before C", points of a drawing, why an option is wrong
    by_eye: bool = False  # a drawing, marked against its points
    open_order: bool = False  # an order of which more than one sequence is right


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyExercise:
    """An exercise with its key: the question as asked, the answers, the drawing filled in."""

    asked: AskedExercise
    answers: tuple[tuple[KeyAnswer, ...], ...]  # a part at a time; of a table, one for each row
    drawing: DrawingCall | None = None

    @property
    def by_part(self) -> tuple[tuple[AskedPart, tuple[KeyAnswer, ...]], ...]:
        """Each part with its answers."""
        return tuple(zip(self.asked.parts, self.answers, strict=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """The marked key of one paper."""

    heading: Heading
    exercises: tuple[KeyExercise, ...]
    cautions: tuple[str, ...]
    scale: Format | None


@dataclass(frozen=True, slots=True, kw_only=True)
class GridColumn:
    """A part on the class grid."""

    label: str  # "1a"
    unit: str
    marks: int


@dataclass(frozen=True, slots=True, kw_only=True)
class GridBlock:
    """As many parts as stand side by side on one sheet, and each learner's answers to them."""

    columns: tuple[GridColumn, ...]
    rows: tuple[tuple[str, str, tuple[str, ...]], ...]  # code, name, answers
    last: bool  # the totals stand on the last


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """The class grid: learners down, parts across, every answer with room for its mark."""

    title: str
    group: str
    date: str
    marks: int
    span: str  # "learners 1 to 50 of 100"; '' where all are on it
    centre: str  # '' prints none
    blocks: tuple[GridBlock, ...]
