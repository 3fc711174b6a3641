"""Learners who join a sitting after it was issued: papers of their own, and nobody else's changed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from courseware.banks import Space
from courseware.banks.solve import Given
from courseware.papers.codes import code
from courseware.papers.deal import Chosen, issue_exercise
from courseware.papers.group import Learner
from courseware.papers.names import same_name
from courseware.papers.sitting import IssuedPaper, Sitting
from courseware.papers.unused_variants import CannotDeal, VariantsHad, unused_variants


def with_learners(
    sitting: Sitting, learners: Sequence[Learner], chosen: Sequence[Chosen], spaces: Sequence[Space],
    had: Sequence[VariantsHad],
) -> Sitting:  # fmt: skip
    """The sitting with a paper for each of `learners` after the others: the next variants of the same spaces.

    `had` is empty, or what each of them has had before. Raises `CannotDeal` where one has a paper already, or the
    papers are numbered: each of those says of how many it is.
    """
    _refuse(sitting, learners)
    mark = "".join(bank.sha256 for bank in sitting.banks)
    dealt = [
        unused_variants(
            space, len(learners), had, sitting.seed, mark, bank.sha256, exercise.name,
            dealt=[frozenset(paper.exercises[place].given.items()) for paper in sitting.papers],
        )
        for place, ((bank, exercise), space) in enumerate(zip(chosen, spaces, strict=True))
    ]  # fmt: skip
    papers = []
    for place, (learner, own_code) in enumerate(zip(learners, _codes(sitting, mark), strict=False)):
        givens = [space.variant(own[place]) for space, own in zip(spaces, dealt, strict=True)]
        papers.append(_paper(sitting, learner, own_code, chosen, givens))
    return replace(sitting, papers=(*sitting.papers, *papers))


def _paper(
    sitting: Sitting, learner: Learner, own_code: str, chosen: Sequence[Chosen], givens: Sequence[Given]
) -> IssuedPaper:
    first = sitting.papers[0].exercises
    exercises = tuple(
        issue_exercise(place + 1, bank, exercise, givens[place], first[place].site, sitting.seed, own_code)
        for place, (bank, exercise) in enumerate(chosen)
    )
    return IssuedPaper(code=own_code, learner=learner, exercises=exercises)


def _codes(sitting: Sitting, mark: str) -> Iterator[str]:
    """Codes that no paper of the sitting has; not those of papers taken out of it either."""
    taken = {paper.code for paper in sitting.papers}
    turn = 0
    while True:
        own = code(sitting.seed, "joined", mark, sitting.papers[-1].code, str(turn))
        turn += 1
        if own not in taken:
            taken.add(own)
            yield own


def _refuse(sitting: Sitting, learners: Sequence[Learner]) -> None:
    if not all(paper.learner.name for paper in sitting.papers):
        raise CannotDeal("these papers are numbered, each as one of so many; issue more of them with `--like`")
    known = {
        (same_name(paper.learner.name), paper.learner.reference): f"the paper {paper.code} already"
        for paper in sitting.papers
    }
    for learner in learners:
        own = _who(learner)
        if own in known:
            raise CannotDeal(f"{learner.name} has {known[own]}; to a namesake give a reference")
        known[own] = "been named twice"


def _who(learner: Learner) -> tuple[str, str]:
    return same_name(learner.name), learner.reference
