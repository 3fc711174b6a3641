"""A practical task as a tutor writes it: YAML read to a frozen task, all faults at once with their places."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from pydantic import BeforeValidator, Field
from pydantic_core import PydanticCustomError

from courseware.banks import BankFaulty, Fault, harmless
from courseware.banks.figures import half_up, write_out
from courseware.jobs.support import DAY_HEIGHT, FREE_HEIGHT, KINDS, RETURN_BRICKS
from courseware.settings.settings import DEFAULTS, Settings
from courseware.settings.settings import MORTARS as _MORTARS
from courseware.text_files.did_you_mean import near
from courseware.text_files.shapes import Shape, Whole, Yes, shaped
from courseware.text_files.yaml_text import beside, read_on
from courseware.text_files.yaml_tree import place
from courseware.trade import (
    FORMATS,
    UK_METRIC,
    Format,
    TradeError,
    basket_weave,
    height,
    number,
    projecting_frame,
    surround,
)
from courseware.trade.batching import parts_of


def _figure(value: Any) -> Fraction:
    try:
        return number(value if isinstance(value, str) else "")
    except TradeError:
        raise PydanticCustomError("plain", "{wrong}", {"wrong": "it is not a figure"}) from None


_MOST_BRICKS, _MOST_COURSES = 40, 60
Figure = Annotated[Fraction, BeforeValidator(_figure)]


class OpeningShape(Shape):
    """The opening."""

    bricks: Whole = Field(description="its width in whole bricks")
    courses: Whole = Field(description="its clear height in courses")


class WallShape(Shape):
    """The wall around it."""

    bricks: Figure = Field(description="its length in bricks, halves allowed")
    courses: Whole = Field(description="its height in courses")
    below: Whole = Field(description="how many courses stand below the opening")


class JobShape(Shape):
    """A practical task."""

    job: str = Field(description="what is built, in a few words")
    hours: Figure = Field(description="hours allowed")
    bays: Whole = Field(description="how many are built by the class")
    learners: Whole = Field(1, description="how many learners build them")
    opening: OpeningShape = Field(description="{bricks: 4, courses: 15}")
    wall: WallShape = Field(description="{bricks: 8, courses: 24, below: 4}")
    corner: str = Field(description="mitred or butted")
    starts: str = Field(description="stretcher or soldier: the panel's lower left bay")
    projects: Figure = Field(description="how far the surround stands out, in mm")
    eye_height: Figure = Field(description="the eye line above the floor, in mm")
    ahead: Whole = Field(description="how many courses the uprights may stand above the panel")
    waste: Whole = Field(description="waste on bricks and mortar, in whole percent, such as 10")
    mix: str = Field(description='the mortar by volume: "1:5", or "1:1:6" for cement to lime to sand')
    tolerances: str = Field("", description="a tolerance profile by its name (the centre's unless given)")
    format: str = Field("UK_METRIC", description="a brick format by name")
    mortar: str = Field("", description="practice (lime and sand, bricks used again; so unless given) or cement")
    support: str = Field("", description="what keeps the wall from going over: returns, piers or props")
    return_bricks: Figure = Field(RETURN_BRICKS, description="how far returns run back from the face, in bricks")
    day_height: Figure = Field(DAY_HEIGHT, description="how high the wall may go up in a day, in mm")
    frog: Whole = Field(0, description="frogs or holes filled with mortar, in whole percent of the brick")
    bricks_vary: Figure | None = Field(None, description="longest less shortest of ten bricks measured dry, in mm")
    free_height: Figure = Field(FREE_HEIGHT, description="how high it may stand without support, in mm")


class AllowedShape(Shape):
    """A deviation that is allowed."""

    mm: Figure = Field(description="mm either way")
    over: Figure = Field(description="the length in mm that it holds for")
    pro_rata: Yes = Field(description="true when a shorter length is allowed its share alone")


class ProfileShape(Shape):
    """A tolerance profile."""

    name: str = Field(description="its name")
    level: AllowedShape = Field(description="for beds that should be level")
    size: AllowedShape = Field(description="for sizes and diagonals")
    source: str = Field(description="whose figures they are")


class ProfilesShape(Shape):
    """The file of tolerance profiles."""

    profiles: list[ProfileShape] = Field(description="a list of profiles", min_length=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """A task whose parts are known to be buildable together."""

    shape: JobShape
    profile: ProfileShape
    brick: Format
    settings: Settings


def read_profiles(data: bytes, file: str) -> tuple[ProfileShape, ...]:
    """The profiles in a file's bytes. Raises `BankFaulty`."""
    node, told = read_on(data, file)
    shape, faults, _ = shaped(ProfilesShape, node, file, _STAND_IN)
    if told or faults or shape is None:
        raise BankFaulty(beside(told, faults))
    return tuple(shape.profiles)


def read_task(
    data: bytes, file: str, profiles: tuple[ProfileShape, ...], settings: Settings = DEFAULTS, *, shipped: bool = False
) -> Task:
    """The task in a file's bytes, by the centre's settings.

    What a job's file says of mortar and tolerances stands over what the centre says, unless it is `shipped`: then the
    centre has not written it. The lower of both days' heights holds. Raises `BankFaulty` with every fault that can be
    told at once.
    """
    node, told = read_on(data, file)
    shape, faults, repaired = shaped(JobShape, node, file, _STAND_IN)
    if shape is None:
        raise BankFaulty(beside(told, faults))
    stand_ins = {path[0] for path in repaired}
    named = bool(shape.tolerances) and not (shipped and settings.tolerances)
    shape = _by_centre(shape, settings, shipped=shipped)

    def fault(key: str, wrong: str, expected: str) -> tuple[str, Fault]:
        line, column = place(node, (key,))
        return key, Fault(file, line, column, wrong, expected)

    found: list[tuple[str, Fault]] = []
    brick = FORMATS.get(shape.format, UK_METRIC)
    if shape.format not in FORMATS:
        known = near(shape.format, list(FORMATS), "expected one of")
        found.append(fault("format", f"no brick format is named `{harmless(shape.format)}`", known))
    profile = next((p for p in profiles if p.name == shape.tolerances), None)
    if profile is None:
        wrong, known = _no_profile(shape.tolerances, profiles)
        by_centre = settings.tolerances and not named
        own = ("tolerances", settings.fault(("tolerances",), wrong, known))
        found.append(own if by_centre else fault("tolerances", wrong, known))
    opening, wall = shape.opening, shape.wall
    if wall.bricks < opening.bricks + 1 or wall.bricks > _MOST_BRICKS or (2 * wall.bricks).denominator != 1:
        expected = f"half a brick or more either side, at most {_MOST_BRICKS} bricks, in halves"
        found.append(fault("wall", "the wall is not long enough for the opening, or too long", expected))
    if wall.courses < wall.below + opening.courses + 1 or wall.courses > _MOST_COURSES:
        expected = f"a course or more above the opening, at most {_MOST_COURSES} courses"
        found.append(fault("wall", "the wall is not high enough for the opening, or too high", expected))
    for key, least, most in _LIMITS:
        if not least <= getattr(shape, key) <= most:
            found.append(fault(key, f"`{key}` is out of all reason", f"expected {least} to {most}"))
    if shape.hours <= 0:
        found.append(fault("hours", "`hours` is out of all reason", "expected hours above 0"))
    for build in (
        lambda: _panel(shape, brick),
        lambda: projecting_frame(
            opening.courses, wall.below, shape.eye_height, shape.projects, brick, settings.arris_rule
        ),
    ):
        try:
            build()
        except TradeError as impossible:
            found.append(fault("opening", str(impossible), "change the opening, the panel or the projection"))
    found += _unsafe(shape, brick, fault)
    more = (*faults, *(one for key, one in found if key not in stand_ins and not stand_ins & _GO_BY[key]))
    if told or more or profile is None:
        raise BankFaulty(beside(told, more))
    return Task(shape=shape, profile=profile, brick=brick, settings=settings)


def _by_centre(shape: JobShape, settings: Settings, *, shipped: bool) -> JobShape:
    """The job with what the centre settles for it."""
    centres = {key: getattr(settings, key) for key in ("mortar", "tolerances") if getattr(settings, key)}
    settled: dict[str, object] = {key: own for key, own in centres.items() if shipped or not getattr(shape, key)}
    if settings.day_height is not None:
        settled["day_height"] = min(shape.day_height, Fraction(settings.day_height))
    return shape.model_copy(update={"mortar": shape.mortar or _MORTARS[0], **settled})


def _no_profile(asked: str, profiles: tuple[ProfileShape, ...]) -> tuple[str, str]:
    """What is wrong with a profile's name, and what was expected."""
    known = [profile.name for profile in profiles]
    if not asked:
        expected = JobShape.model_fields["tolerances"].description
        return "the key `tolerances` is missing", f"expected {expected}"
    return f"no tolerance profile is named `{harmless(asked)}`", near(asked, known, "expected one of")


def _panel(shape: JobShape, brick: Format) -> None:
    """Raises `TradeError` where the surround or the panel inside it does not close."""
    built = surround(shape.opening.bricks, shape.opening.courses, brick, shape.corner)
    basket_weave(built.panel_bricks, built.panel_courses, brick, shape.starts)


_Keyed = tuple[str, Fault]


def _unsafe(shape: JobShape, brick: Format, fault: Callable[[str, str, str], _Keyed]) -> Iterator[_Keyed]:
    """What would let the wall go over, and words that are not known."""
    if shape.mortar not in _MORTARS:
        yield fault(
            "mortar", f"there is no mortar `{harmless(shape.mortar)}`", near(shape.mortar, _MORTARS, "expected")
        )
    try:
        parts_of(shape.mix)
    except TradeError as impossible:
        yield fault("mix", str(impossible), 'expected it in quotes, such as "1:5"')
    if shape.mortar == "practice" and shape.mix.count(":") > 1:
        yield fault("mix", "practice mortar is lime and sand alone", 'write lime to sand as "1:5", or `mortar: cement`')
    if shape.support and shape.support not in KINDS:
        known = near(shape.support, list(KINDS), "expected one of")
        yield fault("support", f"there is no support `{harmless(shape.support)}`", known)
    if not 1 <= shape.return_bricks <= _LONGEST_RETURN or (2 * shape.return_bricks).denominator != 1:
        wrong = "returns so long or so short are out of all reason, or go in no halves"
        yield fault("return_bricks", wrong, f"expected 1 to {_LONGEST_RETURN} bricks, in halves")
    if shape.bricks_vary is not None and not 0 < shape.bricks_vary <= _MOST_VARY:
        yield fault("bricks_vary", "`bricks_vary` is out of all reason", f"expected above 0, at most {_MOST_VARY} mm")
    if not (brick.course <= shape.day_height <= _HIGHEST_DAY):
        yield fault("day_height", "a day's height is less than a course or out of all reason",
                    f"expected {write_out(brick.course)} to {_HIGHEST_DAY} mm")  # fmt: skip
    high = height(shape.wall.courses, brick) if shape.wall.courses > 0 else Fraction(0)
    if not shape.support and high > shape.free_height:
        wrong = f"a half-brick wall {write_out(half_up(high, 0))} mm high would stand free and can go over"
        expected = f"above {write_out(shape.free_height)} mm add `support: returns`, `piers` or `props`"
        yield fault("wall", wrong, expected)


_LIMITS = (("bays", 1, 40), ("learners", 1, 1000), ("waste", 0, 50), ("ahead", 1, 12), ("frog", 0, 50))
# What stands in for a faulty key, so that the rest is read on; any other key is left out, and is as when not given.
_STAND_IN: Mapping[str | int, Any] = {
    **dict.fromkeys(("hours", "bays", "learners", "waste", "ahead", "projects", "eye_height", "mm", "over"), "1"),
    "job": "x", "name": "unnamed", "corner": "mitred", "starts": "stretcher", "mix": "1:5", "tolerances": "x",
    "opening": {"bricks": "4", "courses": "15"}, "wall": {"bricks": "8", "courses": "24", "below": "4"},
    "bricks": "4", "courses": "15", "below": "4",
}  # fmt: skip
_HIGHEST_DAY, _MOST_VARY = 3000, 20  # mm
_LONGEST_RETURN = 6  # bricks
# What a fault under a key goes by besides: where one of these is faulty itself, the fault may come of that.
_GO_BY: Mapping[str, frozenset[str]] = {
    "format": frozenset(), "tolerances": frozenset(), "mortar": frozenset(), "support": frozenset(),
    "mix": frozenset({"mortar"}), "day_height": frozenset({"format"}), "return_bricks": frozenset(),
    **dict.fromkeys(("bays", "learners", "hours", "waste", "ahead", "frog", "bricks_vary"), frozenset()),
    "wall": frozenset({"opening", "format", "support", "free_height"}),
    "opening": frozenset({"wall", "corner", "starts", "projects", "eye_height", "format"}),
}  # fmt: skip


def own_givens(task: Task) -> dict[str, int | str]:
    """What a worksheet's givens are set to, by their names."""
    shape = task.shape
    return {
        "bricks": shape.opening.bricks,
        "courses": shape.opening.courses,
        "below": shape.wall.below,
        "corner": shape.corner,
        "bays": shape.bays,
        "waste": shape.waste,
    }
