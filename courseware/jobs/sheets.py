"""The sheets of a job as finished text: what each says, block by block, for printing and for the stores' workbook."""

from __future__ import annotations

from courseware.banks import SafetyNotes
from courseware.banks.figures import half_up, write_out
from courseware.jobs import pictures
from courseware.jobs.observation import JUDGED
from courseware.jobs.order import order_rows
from courseware.jobs.plan import Plan, counted, gauge_courses, shown_size
from courseware.jobs.plan_view import plan_view
from courseware.jobs.risks import out_of_reach, risk_prompts
from courseware.jobs.support import support_says
from courseware.papers.dates import in_full
from courseware.reports.report import Block, Report, Table
from courseware.settings.upright_joint import with_own_word
from courseware.trade import Format, height

DEFERS = (
    "Local codes, the makers' instructions and the centre's own risk assessment come first; some work is for trained "
    "or licensed people only."
)
_PROMPTS_ALONE = "These are prompts, not an assessment. A named assessor writes down what is done here."
_TOOLS = (
    "trowel", "spirit level and a short one", "line and pins", "tape", "square", "pencil", "gauge rod", "straight-edge",
    "template board", "hammer and bolster, or a saw with water or extraction", "jointer", "brush", "spot boards",
    "sheeting",
)  # fmt: skip
_PPE = ("eye protection", "hearing protection", "face-fitted mask for cutting", "gloves", "safety boots")
_SEQUENCE = (
    "Set out the wall and the opening; square it by both diagonals.",
    "Raise the wall and both reveals to one line, so that the faces agree when the wall closes above.",
    "Cut the pieces of the surround; lay surround and panel dry.",
    "Bed the bottom run with its corners; level it on the arris named above.",
    "Raise the uprights, never more than {ahead} above the panel.",
    "Lay the panel course by course, each complete across before the next; soldiers when three courses stand.",
    "Go on with uprights and panel by turns; step back and look from a distance.",
    "Bed the upper corners and the top run; level it on the arris named above.",
    "Check the diagonals; finish the joints; clean; protect.",
)
_GOOD = (
    "No brick cut where a whole or a half would do", "All joints alike, full, and in line up and across",
    "The surround level, plumb and square, its corners closed evenly", "The face clean, nothing smeared",
    "Frogs up and filled, where the bricks have them",
)  # fmt: skip
_SUNDRIES = {
    "practice": "Chalk; marking tape; clean water.",
    "cement": "Plasticiser as the maker says, where the mix has no lime; chalk; marking tape; clean water.",
}
_USED_AGAIN = {
    "practice": "The wall is in practice mortar, lime and sand: bricks are cleaned and stacked, the mortar is knocked "
    "up again, halves are kept for the next surround.",
    "cement": "The wall is in cement mortar: its bricks are not laid again. Halves and bats not laid are kept.",
}
_VARY = {True: "BS EN 771-1, category T2, a size of 102 mm", False: "ten of these bricks, measured dry"}
_HEIGHT_NOTE = "height"
_SIGNED = "Signed, assessor: ____________________________   learner: ____________________________"


def job_sheets(plan: Plan, notes: SafetyNotes | None, date: str) -> tuple[Report, ...]:
    """Every sheet of the job."""
    shape = plan.task.shape
    about = (
        f"{in_full(date)}. Time allowed: {counted(shape.hours, 'hour')}. Learners: {shape.learners}. "
        f"Bays: {shape.bays}. {plan.task.brick.name} bricks, "
        f"{with_own_word(_joints(plan.task.brick), plan.task.settings.upright_joint)}.",
    )
    sheets = (
        ("job-sheet", shape.job, _job(plan, about)),
        ("templates", f"{shape.job}: templates at true size", _templates(plan)),
        ("stores-order", f"{shape.job}: order for the stores", _order(plan)),
        ("risk-prompts", f"{shape.job}: risk prompts", _risks(plan, notes)),
        ("observation-sheet", f"{shape.job}: observation sheet", _observation(plan)),
    )
    centre = plan.task.settings.name
    return tuple(Report(file=file, title=title, blocks=blocks, centre=centre) for file, title, blocks in sheets)


def _job(plan: Plan, about: tuple[str, ...]) -> tuple[Block, ...]:
    steps = (*safe_steps(plan), *(step.format(ahead=counted(plan.task.shape.ahead, "course")) for step in _SEQUENCE))
    figures = Table(headings=("Figure, in the order of use", "Size"), rows=plan.figures, widths=(0, 42))
    return (
        Block(text=about, picture=pictures.elevation(plan)),
        Block(heading="Setting out", table=figures),
        Block(heading="Gauge rod, from the floor", table=_gauge(plan)),
        Block(heading="The wall from above", picture=plan_view(plan)),
        Block(heading="Section through the frame", picture=pictures.section(plan)),
        Block(heading="Sequence", steps=steps),
        Block(heading="What good looks like", text=tuple(f"• {line}" for line in _GOOD)),
        Block(text=(DEFERS,)),
    )


def safe_steps(plan: Plan) -> tuple[str, ...]:
    """The steps that keep the wall from going over, before those that build it."""
    shape, days = plan.task.shape, plan.days
    step = f"In a day the wall goes up {shown_size(shape.day_height)} mm at most, which is {counted(days[0], 'course')}"
    if len(days) > 1:
        step += f": stop at course {' and '.join(map(str, days[:-1]))}, and go on when the mortar below has set"
    support = (
        support_says(shape.support, shown_size(shape.free_height), counted(shape.return_bricks, "brick"))
        if shape.support
        else ""
    )
    return (*([f"Support: {support}."] if support else []), f"{step}.")


def _gauge(plan: Plan) -> Table:
    """Tops of every fourth course where four are 300 mm, else of every third, and those of the opening's ends."""
    shape, brick = plan.task.shape, plan.task.brick
    marked = {shape.wall.below, shape.wall.below + shape.opening.courses, shape.wall.courses}
    apart = gauge_courses(brick)
    wanted = sorted({*range(apart, shape.wall.courses + 1, apart), *marked})
    rows = [(str(n), shown_size(height(n, brick))) for n in wanted]
    third = -(-len(rows) // 3)
    rows += [("", "")] * (3 * third - len(rows))
    columns = [rows[start : start + third] for start in range(0, len(rows), third)]
    return Table(
        headings=("Course", "Top, mm") * 3,
        rows=tuple(tuple(text for pair in line for text in pair) for line in zip(*columns, strict=True)),
        widths=(0, 28, 28, 28, 28, 28),
    )


def _templates(plan: Plan) -> tuple[Block, ...]:
    bat = plan.template
    says = (
        f"The cut takes {write_out(half_up(bat.leg, 1))} mm off the inner end; it is "
        f"{write_out(half_up(bat.cut_length, 1))} mm long, at {write_out(bat.angle)}°. "
        f"Cut {plan.surround.bats // 2} of each hand for a bay. Print at 100 %, measure both "
        "lines, then stick the outline on a thin board and cut it out.",
    )
    strips = tuple(
        Block(
            heading="Gauge rod",
            text=("Cut out the strips and tape them together, each on the mark that it names.",),
            picture=picture,
            new_page=True,
        )
        for picture in pictures.rod_strips(plan)
    )
    corner = tuple(
        Block(
            heading="Corner of the surround",
            text=("Join the tiles on their crosses; lay the pieces on them dry.",),
            picture=tile,
            new_page=True,
        )
        for tile in pictures.corner_at_true_size(plan)
    )
    if plan.task.shape.corner != "mitred":
        return (*corner, *strips)
    bats = Block(heading="Mitred bat, left and right hand", text=says, picture=pictures.bats_at_true_size(plan))
    return (bats, *corner, *strips)


def _order(plan: Plan) -> tuple[Block, ...]:
    rows = tuple(
        (
            f"– {what.strip()}" if what.startswith(" ") else what,
            write_out(one) if one else "",
            write_out(for_class),
            unit,
        )
        for what, one, for_class, unit in order_rows(plan)
    )
    table = Table(
        headings=("Item", "One bay", counted(plan.task.shape.bays, "bay"), "Unit"), rows=rows, widths=(0, 24, 24, 18)
    )
    return (
        Block(table=table),
        Block(heading="Tools", text=(_listed(_TOOLS),)),
        Block(heading="Sundries", text=(_SUNDRIES[plan.task.shape.mortar],)),
        Block(heading=f"Protection, for each of {plan.task.shape.learners}", text=(_listed(_PPE),)),
        Block(
            heading="What can be used again",
            text=(_USED_AGAIN[plan.task.shape.mortar],),
        ),
        Block(text=(f"Dry materials are taken as 1.33 times the wet volume. {_frogs(plan.task.shape.frog)} {DEFERS}",)),
    )


def _listed(things: tuple[str, ...]) -> str:
    """`Trowel, spirit level, tape.`"""
    said = ", ".join(things)
    return f"{said[:1].upper()}{said[1:]}."


def _frogs(percent: int) -> str:
    if percent:
        return f"Frogs and holes, {percent} % of each brick, are taken as filled with mortar."
    return "Bricks are taken as solid: frogs and holes take more mortar."


def _joints(brick: Format) -> str:
    if brick.bed == brick.perpend:
        return f"{shown_size(brick.bed)} mm joints"
    return f"{shown_size(brick.perpend)} mm perpends, {shown_size(brick.bed)} mm beds"


def _risks(plan: Plan, notes: SafetyNotes | None) -> tuple[Block, ...]:
    """Prompts with blanks, then the notes that this job needs."""
    rows = tuple((*prompt, "", "") for prompt in risk_prompts(plan))
    headings = ("Operation", "What can hurt", "Think of", "Ours here", "Who")
    blanks = ("Assessor: ____________________   Date: ______________   Review by: ______________",)
    return (
        Block(text=(_PROMPTS_ALONE, DEFERS, *blanks)),
        Block(table=Table(headings=headings, rows=rows, widths=(28, 34, 0, 40, 18))),
        *(Block(heading=title, text=(says,)) for title, says in cautions(plan, notes)),
    )


def cautions(plan: Plan, notes: SafetyNotes | None) -> tuple[tuple[str, str], ...]:
    """The safety notes that this job needs, each with its title and its source."""
    return tuple(
        (title, " ".join(lines) + (f" Source: {source}." if source else ""))
        for name, (title, lines, source) in (notes.notes.items() if notes else ())
        if out_of_reach(plan) or name != _HEIGHT_NOTE
    )


def _observation(plan: Plan) -> tuple[Block, ...]:
    profile, signed = plan.task.profile, plan.task.settings.signatures.observation
    measured = Table(
        headings=("Line", "Target", "Allowed", "Measured", "Pass"),
        rows=tuple((n.what, shown_size(n.target), f"± {shown_size(n.allowed)}", "", "") for n in plan.lines),
        widths=(0, 22, 22, 26, 18),
    )
    judged = Table(
        headings=("Line", "Good", "Enough", "Not yet", "Given"),
        rows=tuple((*line, "") for line in JUDGED),
        widths=(22, 0, 38, 38, 16),
    )
    tolerances = (
        f"Tolerances: {profile.name} ({profile.source}). No line allows less than {shown_size(plan.least)} mm, since "
        f"the bricks themselves may differ by as much ({_VARY[plan.task.shape.bricks_vary is None]}).",
    )
    ruled = ("_" * 80, "_" * 80)
    return (
        Block(text=("Learner: ______________________________   Paper or bay: ____________   Date: ______________",)),
        Block(heading="Measured, in mm", text=tolerances, table=measured),
        Block(heading="Judged", table=judged),
        Block(heading="Assessor's comment", text=ruled),
        Block(heading="Learner's comment", text=ruled, signed=signed),
        *(() if signed.signed else (Block(text=(_SIGNED,)),)),
    )
