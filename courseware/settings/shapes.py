"""The keys of `centre.yaml`, each with its line of the manual."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator, Field
from pydantic_core import PydanticCustomError

from courseware.settings.settings import MOST_MONTHS
from courseware.text_files.shapes import Shape, Whole

ALWAYS = "always"


def _months(value: Any) -> str:
    whole = isinstance(value, str) and value.isascii() and value.isdigit() and 1 <= len(value) <= 4
    if value == ALWAYS or (whole and 0 < int(value) <= MOST_MONTHS):
        return str(value)
    raise PydanticCustomError("plain", "{wrong}", {"wrong": "it is neither `always` nor a number of months"})


Months = Annotated[str, BeforeValidator(_months)]


class SignedShape(Shape):
    """What is signed on a kind of sheet."""

    says: str | None = Field(None, description="a sentence over the lines, such as `This is all my own work.`")
    signed: list[str] = Field(description="a list of who signs, such as [Learner, Assessor]", min_length=1)


class SignaturesShape(Shape):
    """The sheets that are signed."""

    papers: SignedShape | None = Field(None, description="at the end of every paper: says, signed")
    feedback: SignedShape | None = Field(None, description="at the end of every feedback sheet: says, signed")
    observation: SignedShape | None = Field(
        None, description="at the end of a job's observation sheet, in place of its own line: says, signed"
    )
    audit: SignedShape | None = Field(None, description="on the front sheet of an audit copy: says, signed")


class RetentionShape(Shape):
    """How long each kind of record is kept."""

    names: Months = Field(ALWAYS, description=f"months for names, 1 to {MOST_MONTHS}, or `always`")
    scripts: Months = Field(ALWAYS, description="months for what learners wrote, or `always`")
    marks: Months = Field(ALWAYS, description="months for marks, or `always`")
    papers: Months = Field(ALWAYS, description="months for the papers as issued, or `always`")


class EvidenceShape(Shape):
    """Where a criterion can be shown: in an exercise or one part of it, or at a job or one line of its sheet."""

    topic: str | None = Field(None, description="a topic by its title or short name, as `courseware topics` lists them")
    exercise: str | None = Field(None, description="an exercise of the topic by its name")
    part: str | None = Field(None, description="a part of the exercise, or a row of a table, by its name")
    job: str | None = Field(None, description="a job by its short name")
    line: str | None = Field(None, description="a line of the job's observation sheet, word for word")


class CriterionShape(Shape):
    """One of the centre's criteria."""

    code: str = Field(description="the centre's own code")
    says: str = Field(description="what the criterion says")
    rule: str | None = Field(
        None, description="how much of its evidence is enough: all (unless given), any, or such as `two of three`"
    )
    evidence: list[EvidenceShape] = Field([], description="a list of evidence: topic, exercise, part; or job, line")


class CourseShape(Shape):
    """The weeks of the centre's course, for its scheme of work."""

    starts: str = Field(description='a day of its first week, in quotes, such as "2026-09-07"')
    weeks: Whole = Field(description="how many weeks are taught")
    without: list[str] = Field([], description="a list of days, in quotes, in whose weeks nothing is taught")
    topics: list[str] = Field(
        [], description="a list of topics in order, by their short names or files (all shipped ones unless given)",
        min_length=1,
    )  # fmt: skip


class CentreShape(Shape):
    """The centre's settings."""

    name: str | None = Field(None, description="the centre's name, at the head of every sheet and of the practice page")
    arris_rule: str | None = Field(
        None, description="outline or near: the arris of a projecting course that is levelled (outline unless given)"
    )
    upright_joint: str | None = Field(
        None, description="the centre's word for the upright joint, printed wherever a bank or a sheet says perpend"
    )
    mortar: str | None = Field(
        None, description="practice (lime and sand) or cement: for shipped jobs, and for your own that name none"
    )
    day_height: Whole | None = Field(
        None, description="mm that a wall goes up in a day at most; a job that asks for less keeps to its own"
    )
    tolerances: str | None = Field(
        None, description="a tolerance profile by its name: for shipped jobs, and for your own that name none"
    )
    signatures: SignaturesShape | None = Field(
        None, description="who signs what: papers, feedback, observation, audit, each with says and signed"
    )
    retention: RetentionShape | None = Field(
        None, description="months for which names, scripts, marks and papers are kept, unless the record says otherwise"
    )
    first_marker: str | None = Field(
        None,
        description="person or program: whether the program's own reading is one of the two marks that second marking "
        "compares, or an assessor's own marks alone (person unless given)",
    )
    approval: str | None = Field(
        None, description="required: no papers are printed before somebody has approved them (`issue --approved-by`)"
    )
    criteria: list[CriterionShape] = Field(
        [], description="a list of the centre's criteria: code, says, rule, evidence", min_length=1
    )
    course: CourseShape | None = Field(
        None, description="the weeks of your course, for `courseware plan`: starts, weeks, without, topics"
    )
