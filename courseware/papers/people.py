"""Who is the same learner over several sittings."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from courseware.papers.group import Learner
from courseware.papers.sitting import Sitting

LearnerKey = tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """A learner over several sittings: every paper's code, the earliest first, and the name, '' on numbered papers."""

    codes: tuple[str, ...]
    name: str

    @property
    def label(self) -> str:
        """The code that stands for the learner."""
        return self.codes[0]


def learner_key(learner: Learner, sitting: Sitting) -> LearnerKey | None:
    """What is the same for one learner in every sitting: the reference, or without one the name in the same group.

    None for a learner who is not known.
    """
    if learner.reference:
        return (learner.reference.casefold(),)
    return (learner.name.casefold(), sitting.group.casefold()) if learner.name else None


def people_of(sittings: Sequence[Sitting]) -> tuple[Person, ...]:
    """The learners of these sittings.

    Papers of nobody known, and namesakes that one sitting cannot tell apart, each stand for a learner of their own.
    """
    keys = [[learner_key(paper.learner, sitting) for paper in sitting.papers] for sitting in sittings]
    unclear = {key for own in keys for key, times in Counter(own).items() if times > 1}
    codes: dict[LearnerKey, list[str]] = {}
    names: dict[LearnerKey, str] = {}
    for sitting, own in zip(sittings, keys, strict=True):
        for paper, key in zip(sitting.papers, own, strict=True):
            who = ("", "", paper.code) if key is None or key in unclear else key
            if paper.code not in codes.setdefault(who, []):
                codes[who].append(paper.code)
            names[who] = paper.learner.name
    return tuple(Person(codes=tuple(found), name=names[who]) for who, found in codes.items())
