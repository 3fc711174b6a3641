"""Which variant each learner gets: dealt without replacement, and on a retake none that they have had before."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from courseware.banks import Space
from courseware.banks.figures import exact_text
from courseware.banks.solve import Given
from courseware.papers.codes import keyed_shuffle
from courseware.papers.sitting import IssuedPaper, Sitting

Variant = frozenset[tuple[str, str]]  # givens as texts
VariantsHad = Mapping[str, frozenset[Variant]]  # by exercise, what a learner has had


class CannotDeal(ValueError):
    """The banks hold nothing that was asked for; the message says what to do."""


def unused_variants(
    space: Space, learners: int, had: Sequence[VariantsHad], *key: str, dealt: Sequence[Variant] = ()
) -> list[int]:
    """The index of a variant for each learner; none comes twice while the space lasts.

    `had` is empty, or one a learner; `dealt` are the variants of those who got theirs earlier. Raises `CannotDeal`
    where a learner has had every variant.
    """
    if not had and not dealt:
        return list(keyed_shuffle(len(space), learners, *key))
    order = list(keyed_shuffle(len(space), len(space), *key))
    texts = [frozenset(given_texts(space.variant(index)).items()) for index in range(len(space))]
    times = Counter(dealt)
    most = max((times[text] for text in texts), default=0)
    left = [index for index in order if times[texts[index]] < most]
    found: list[int] = []
    for own in had or ({},) * learners:
        before = own.get(space.exercise.name, frozenset())
        if not any(texts[index] not in before for index in left):
            left += order  # dealt through: it begins again
        index = next((index for index in left if texts[index] not in before), None)
        if index is None:
            raise CannotDeal(
                f"{space.exercise.name}: a learner has had all of its {len(space)} variants; "
                "issue another exercise instead, with --pick"
            )
        left.remove(index)
        found.append(index)
    return found


def had_by(paper: IssuedPaper, sittings: Iterable[Sitting]) -> VariantsHad:
    """What the learner of a paper has had in these sittings, by exercise; without a name, what anyone has had."""
    found: dict[str, set[Variant]] = {}
    for sitting in sittings:
        for other in sitting.papers:
            if not paper.learner.known or other.learner == paper.learner:
                for issued in other.exercises:
                    found.setdefault(issued.exercise, set()).add(frozenset(issued.given.items()))
    return {exercise: frozenset(variants) for exercise, variants in found.items()}


def given_texts(given: Given) -> dict[str, str]:
    """A variant's givens as the sitting keeps them."""
    return {name: value if isinstance(value, str) else exact_text(value) for name, value in given.items()}
