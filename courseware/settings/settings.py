"""What a centre settles once for all that it prints and keeps. The defaults are what holds where it settles nothing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, fields, replace

from courseware.text_files.faults import Fault
from courseware.text_files.yaml_tree import Keyed, place

PERPEND = "perpend"  # what banks and sheets call the upright joint unless the centre has its own word


@dataclass(frozen=True, slots=True, kw_only=True)
class Signed:
    """What is signed at the end of a sheet: a sentence ('' for none), and who signs (nobody: no lines)."""

    says: str = ""
    signed: tuple[str, ...] = ()


UNSIGNED = Signed()


@dataclass(frozen=True, slots=True, kw_only=True)
class Signatures:
    """Who signs each kind of sheet."""

    papers: Signed = UNSIGNED
    feedback: Signed = UNSIGNED
    observation: Signed = UNSIGNED
    audit: Signed = UNSIGNED


@dataclass(frozen=True, slots=True, kw_only=True)
class Retention:
    """Months for which each kind of record is kept after its sitting; none where it is kept without end."""

    names: int | None = None
    scripts: int | None = None
    marks: int | None = None
    papers: int | None = None

    @property
    def months(self) -> dict[str, int | None]:
        """Months by kind."""
        return {kind.name: getattr(self, kind.name) for kind in fields(self)}


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenEvidence:
    """Where a criterion can be shown, as the centre wrote it: what it names may or may not be there."""

    topic: str | None = None
    exercise: str | None = None
    part: str | None = None
    job: str | None = None
    line: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenCriterion:
    """One of the centre's own criteria, as it wrote it."""

    code: str
    says: str
    rule: str = ""  # '' for all of its evidence
    evidence: tuple[WrittenEvidence, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """The weeks of a course: a day of its first, how many are taught, days in whose weeks nothing is, topics in order.

    Days are ISO 8601; no topics are all that come with the program.
    """

    starts: str
    weeks: int
    without: tuple[str, ...] = ()
    topics: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """The centre's settings by the keys of its file.

    `file` and `node` are where they were read from, so that a fault found later is told at its place.
    """

    name: str = ""  # '' prints none
    arris_rule: str = "outline"  # one of `trade.ARRIS_RULES`
    upright_joint: str = PERPEND
    mortar: str = ""  # one of `MORTARS`; '' as each job says
    day_height: int | None = None  # mm; none as each job says
    tolerances: str = ""  # a profile's name; '' as each job says
    signatures: Signatures = Signatures()
    retention: Retention = Retention()
    first_marker: str = "person"  # one of `FIRST_MARKERS`
    approval: str = ""  # one of `APPROVALS`; '' where papers are printed without
    criteria: tuple[WrittenCriterion, ...] = ()
    course: Course | None = None
    file: str = field(default="", compare=False)
    node: Keyed | None = field(default=None, compare=False, repr=False)

    def changed(self, keys: Iterable[str]) -> tuple[str, ...]:
        """Those of `keys` that are set otherwise than by default.

        >>> Settings(name="Brookfield College", upright_joint="perp").changed(["upright_joint", "mortar"])
        ('upright_joint',)
        """
        return tuple(key for key in keys if getattr(self, key) != getattr(DEFAULTS, key))

    def fault(self, path: tuple[str | int, ...], wrong: str, expected: str) -> Fault:
        """A fault of what stands at `path` of the file."""
        line, column = place(self.node, path) if self.node is not None else (1, 1)
        return Fault(self.file, line, column, wrong, expected)

    def of_a_sitting(self) -> Settings:
        """What a sitting's papers, keys and feedback are printed by; all else is as by default."""
        signed = Signatures(papers=self.signatures.papers, feedback=self.signatures.feedback)
        return Settings(**{key: getattr(self, key) for key in SITTING_KEYS} | {"signatures": signed})

    def by_the_rules_of(self, other: Settings) -> Settings:
        """These settings with the other's rules for banks: what an exercise asks and answers is then the other's."""
        return replace(self, **{key: getattr(other, key) for key in BANK_KEYS})


DEFAULTS = Settings()
MOST_MONTHS = 1200  # for which a record may be kept
FIRST_MARKERS = ("person", "program")
MORTARS = ("practice", "cement")
APPROVALS = ("required",)
BANK_KEYS = ("arris_rule", "upright_joint")  # what a bank's formulas and words go by
SITTING_KEYS = ("name", *BANK_KEYS, "signatures")  # what papers, keys and feedback are printed by
KEYS: Mapping[str, tuple[str, ...]] = {  # that each kind of thing made goes by
    "banks": BANK_KEYS,
    "practice": ("name", *BANK_KEYS),
    "card": ("arris_rule",),
    "sitting": (*SITTING_KEYS, "approval"),
    "job": (*SITTING_KEYS, "approval", "mortar", "day_height", "tolerances"),
    "observe": ("name", "upright_joint", "tolerances"),
    "audit": ("name", "signatures"),
    "record": ("retention",),
    "mark": ("first_marker",),
    "sample": ("name", "first_marker"),
    "progress": ("name",),
    "criteria": ("name", "upright_joint", "criteria"),
    "plan": ("name", "course"),
}
