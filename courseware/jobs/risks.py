"""What can hurt on a job, from its own operations: prompts for whoever writes the risk assessment."""

from __future__ import annotations

from courseware.jobs.plan import Plan, shown_size
from courseware.trade import height

_ABOVE_GROUND, _PROPS = "Working above the ground", "Props"
_WITHIN_REACH = 1500  # mm: common practice, no source
_PROMPTS = (
    ("Cutting", "dust", "avoid cuts; water or extraction; face-fitted mask"),
    ("Cutting", "noise", "cut away from others; hearing protection for the whole of it"),
    ("Cutting", "flying pieces and blades", "eye protection; guard; trained people only"),
    ("Mixing and laying", "wet cement or lime on the skin", "gloves; wash at once; look at the skin"),
    ("Carrying", "back and hands", "small loads; help; stack close by"),
    (_ABOVE_GROUND, "falls, falling bricks", "inspected platform; nothing near the edge"),
    (
        "The wall while green",
        "a green wall can go over",
        "{support}no more than {day} mm up in a day; nobody leans on it or stands where it can fall",
    ),
    (_PROPS, "tripping; a prop knocked away", "marked and kept clear; moved by one named person"),
    ("Projecting work", "fresh bricks that tip", "no more than the drawing; no weight on them while green"),
)


def risk_prompts(plan: Plan) -> tuple[tuple[str, str, str], ...]:
    """Operation, what can hurt, what to think of; work above the ground and props only where the job has them."""
    shape = plan.task.shape
    support = f"{shape.support} as drawn; " if shape.support else ""
    left_out = {*(() if out_of_reach(plan) else (_ABOVE_GROUND,)), *(() if shape.support == "props" else (_PROPS,))}
    return tuple(
        (operation, hurts, think.format(support=support, day=shown_size(shape.day_height)))
        for operation, hurts, think in _PROMPTS
        if operation not in left_out
    )


def out_of_reach(plan: Plan) -> bool:
    """Whether the wall is higher than is reached from the floor."""
    return height(plan.task.shape.wall.courses, plan.task.brick) > _WITHIN_REACH
