"""Learners and the group they make."""

from __future__ import annotations

from dataclasses import dataclass, field

from courseware.papers.sheet_format import STANDARD, SheetFormat


@dataclass(frozen=True, slots=True, kw_only=True)
class Learner:
    """A learner by name and by the college's own reference; both '' on a numbered paper.

    `sheets` says how the learner's sheets are set; it does not tell one learner from another.
    """

    name: str
    reference: str = ""
    sheets: SheetFormat = field(default=STANDARD, compare=False)

    @property
    def known(self) -> bool:
        """Whether this learner can be told from others."""
        return bool(self.name or self.reference)


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """A group of learners, in the order of its class list."""

    name: str
    learners: tuple[Learner, ...]


def numbered(count: int) -> Group:
    """A group of `count` papers without names."""
    return Group(name="", learners=(Learner(name=""),) * count)
