"""The fields of a job's form: which keys of a job's file they are, in the trade's words, with what may be chosen."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from courseware.jobs.support import KINDS
from courseware.jobs.tried import Instead
from courseware.settings.settings import MORTARS
from courseware.text_files.yaml_edit import Path
from courseware.trade import FORMATS

LONGEST = 200  # characters of a value
_Choices = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class JobField:
    """A key of a job's file as a form has it. `needed` stays in the file though it is empty; `step` is of a figure."""

    key: Path
    label: str
    unit: str = ""
    choices: _Choices = ()
    needed: bool = True
    step: str = ""

    @property
    def name(self) -> str:
        """Its name in the form: `opening.bricks`."""
        return ".".join(self.key)


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldGroup:
    """Fields that belong together."""

    title: str
    fields: tuple[JobField, ...]


def _one(key: str, label: str, **more: object) -> JobField:
    return JobField(key=tuple(key.split(".")), label=label, **more)  # type: ignore[arg-type]  # as the class has them


_FORMATS = tuple((key, found.name) for key, found in FORMATS.items())
_SAME = (("", "as the centre's settings say"),)

GROUPS = (
    FieldGroup(
        title="The opening and its panel",
        fields=(
            _one("opening.bricks", "Opening, wide", unit="bricks", step="1"),
            _one("opening.courses", "Opening, high", unit="courses", step="1"),
            _one("starts", "Panel starts with", choices=(("stretcher", "stretchers"), ("soldier", "soldiers"))),
            _one("corner", "Corners of the surround", choices=(("mitred", "mitred"), ("butted", "butted"))),
            _one("projects", "The surround stands out by", unit="mm", step="any"),
            _one("format", "Brick", choices=_FORMATS),
        ),
    ),
    FieldGroup(
        title="The wall around it",
        fields=(
            _one("wall.bricks", "Wall, long", unit="bricks", step="0.5"),
            _one("wall.courses", "Wall, high", unit="courses", step="1"),
            _one("wall.below", "Wall below the opening", unit="courses", step="1"),
            _one("eye_height", "Eye line above the floor", unit="mm", step="any"),
            _one("support", "What keeps it from going over", needed=False,
                 choices=(("", "nothing: it stands free"), *((kind, kind) for kind in KINDS))),
            _one("day_height", "In a day the wall goes up at most", unit="mm", needed=False, step="any"),
        ),
    ),
    FieldGroup(
        title="The class and the stores",
        fields=(
            _one("job", "What is built"),
            _one("hours", "Time allowed", unit="hours", step="any"),
            _one("bays", "Built by the class", unit="bays", step="1"),
            _one("learners", "Learners", needed=False, step="1"),
            _one("ahead", "Uprights above the panel at most", unit="courses", step="1"),
            _one("waste", "Waste on bricks and mortar", unit="%", step="1"),
            _one("mortar", "Mortar", needed=False,
                 choices=(*_SAME, *((one, f"{one} mortar") for one in MORTARS))),
            _one("mix", "Mix by volume, as 1:5"),
            _one("tolerances", "Tolerances", needed=False, choices=_SAME),
        ),
    ),
)  # fmt: skip
MEASURED = ("measured.wide", "measured.high")  # mm, of an opening on site: they choose, and are no keys of a job's file
FIELDS: Mapping[str, JobField] = {field.name: field for group in GROUPS for field in group.fields}


def choices_of(field: JobField, value: str, profiles: Iterable[str]) -> _Choices:
    """What may be chosen in a field; what stands in the file is among it, whatever it is."""
    choices = field.choices
    if field.name == "tolerances":
        choices += tuple((name, name) for name in profiles)
    known = {key for key, _ in choices}
    return choices if value in known else ((value, value), *choices)


def shown(values: Mapping[Path, str]) -> dict[str, str]:
    """What the form shows of a job's values; a brick that is not named is UK metric."""
    return {**{name: values.get(field.key, "") for name, field in FIELDS.items()},
            "format": values.get(("format",), "UK_METRIC")}  # fmt: skip


def typed(
    text: Callable[[str], str], asked: Callable[[str], bool], there: Mapping[Path, str]
) -> dict[Path, str | None]:
    """The changes that a form or an address asks of a job's file; `asked` says whether it has a field at all.

    What is empty and not needed is taken out of the file; what the file leaves out as the form shows it stays left out.
    """
    found: dict[Path, str | None] = {}
    for name, field in FIELDS.items():
        if not asked(name):
            continue
        value = " ".join(text(name).split())[:LONGEST]
        if field.key not in there and (not value or value == shown(there)[name]):
            continue
        found[field.key] = value if value or field.needed else None
    return found


def label_of(key: Path) -> str:
    """What the form calls a key; of a key with several fields, or with none, its own name."""
    name = ".".join(key)
    return FIELDS[name].label if name in FIELDS else {"opening": "The opening", "wall": "The wall"}.get(name, name)


def offered(one: Instead) -> tuple[str, str]:
    """A value that would work, in words and as the form has it."""
    field = FIELDS[".".join(one.key)]
    words = dict(field.choices).get(one.value, f"{one.value} {field.unit}".strip())
    return f"{field.label}: {words}", one.value
