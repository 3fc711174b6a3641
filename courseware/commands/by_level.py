"""A mixed group: a sitting for each level that its class list's column `Level` names."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from courseware.errands import group_name, issue_sitting, listed

if TYPE_CHECKING:
    from courseware.papers.group import Group


def groups_by_level(file: str, name: str | None) -> dict[int, Group]:
    """The group of a class list in parts, by its column `Level`; levels that nobody has are left out."""
    from courseware.papers.group import Group

    found = listed(file, levels=True)
    return {
        level: Group(
            name=f"{name or group_name(file)}, level {level}",
            learners=tuple(who for who, own in zip(found.learners, found.levels, strict=True) if own == level),
        )
        for level in sorted(set(found.levels))
    }


def issue_by_level(named: tuple[str, ...], groups: dict[int, Group], date: str, options: dict[str, Any]) -> None:
    """A sitting for each level of a mixed group; refused whole where the banks hold too little of a level."""
    from courseware.desk.shelf import find_banks, read_shelf
    from courseware.papers.deal import Choosing, choose

    banks, _ = read_shelf(find_banks(named), options["arris_rule"])
    for level in groups:
        choose(banks, Choosing(level=level, exercises=options["exercises"]), "any")
    for level, group in groups.items():
        issue_sitting(named, group, date, {**options, "level": level, "group_name": group.name})
