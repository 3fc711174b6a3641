"""One more question for a learner, a variant never had before: drawn from the sitting's seed, so repeatable."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from courseware.banks import Space
from courseware.banks.solve import Given
from courseware.feedback.feedback_text import FreshQuestion, VariantKey
from courseware.feedback.marked_part import MarkedPart
from courseware.papers.codes import keyed_shuffle, shuffled
from courseware.papers.compose import Sources, compose_exercise
from courseware.papers.deal import issue_exercise
from courseware.papers.sheets import KeyExercise
from courseware.papers.sitting import IssuedExercise, IssuedPaper, Sitting
from courseware.papers.unused_variants import given_texts

ExerciseName = tuple[str, str]  # topic and exercise
Spaces = Mapping[ExerciseName, Space]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Whom a fresh question is for and what it may be drawn from: exercises whose spaces are proved."""

    sitting: Sitting
    place: int  # of the learner, from 0
    sources: Sources
    spaces: Spaces
    had: frozenset[VariantKey]

    @property
    def paper(self) -> IssuedPaper:
        return self.sitting.papers[self.place]

    def level(self, name: ExerciseName) -> int:
        """The level of an exercise."""
        return self.sources.exercises[name][1].level


def variant_had(issued: IssuedExercise) -> VariantKey:
    """The variant of an issued exercise, as `had` names it."""
    return issued.topic, issued.exercise, tuple(sorted(issued.given.items()))


def same_kind(stock: Stock, part: MarkedPart) -> FreshQuestion | None:
    """A fresh variant of the part's own exercise, asked up to that part; else another of its topic, or None."""
    own = stock.paper.exercises[part.number - 1]
    name = (own.topic, own.exercise)
    if found := _fresh(stock, name):
        issued, key = found
        return _question(
            f"Of the same kind as {part.mark.label}, with other numbers.", issued, _up_to(key, part.place + 1)
        )
    others = sorted(_untried(stock, [own.topic]), key=lambda other: abs(stock.level(other) - stock.level(name)))
    return _first(stock, "From the same topic.", others)


def next_level(stock: Stock) -> FreshQuestion | None:
    """An exercise of the next level of a topic on the paper; else another as hard, or the paper's hardest again."""
    tried = dict.fromkeys((issued.topic, issued.exercise) for issued in stock.paper.exercises)
    top: dict[str, int] = {}
    for name in tried:
        top[name[0]] = max(stock.level(name), top.get(name[0], 0))
    others = _untried(stock, shuffled(sorted(top), stock.sitting.seed, "fresh topic", stock.paper.code))
    steps = {name: stock.level(name) - top[name[0]] for name in others}
    up = sorted((name for name in others if steps[name] > 0), key=lambda name: steps[name])
    return (
        _first(stock, "The next step up in this topic.", up)
        or _first(stock, "Another question as hard as these.", [name for name in others if steps[name] == 0])
        or _first(
            stock, "The hardest of these, with other numbers.", sorted(tried, key=lambda name: -stock.level(name))
        )
    )


def _untried(stock: Stock, topics: Sequence[str]) -> tuple[ExerciseName, ...]:
    """Exercises of the topics, in their order, that are not on the paper and whose variants are proved."""
    on_paper = {(issued.topic, issued.exercise) for issued in stock.paper.exercises}
    return tuple(
        name
        for topic in topics
        for name in stock.sources.exercises
        if name[0] == topic and name not in on_paper and name in stock.spaces
    )


def _first(stock: Stock, lead: str, names: Sequence[ExerciseName]) -> FreshQuestion | None:
    for name in names:
        if found := _fresh(stock, name):
            return _question(lead, *found)
    return None


def _fresh(stock: Stock, name: ExerciseName) -> tuple[IssuedExercise, KeyExercise] | None:
    """A variant of an exercise, issued and composed; None where the learner has had them all or none is proved."""
    own = stock.had | {variant_had(issued) for issued in stock.paper.exercises}
    whole = own | {variant_had(issued) for paper in stock.sitting.papers for issued in paper.exercises}
    given = next((given for taken in (whole, own) for given in _drawn(stock, name, taken)), None)
    if given is None:
        return None
    bank, exercise = stock.sources.exercises[name]
    sites = {(issued.topic, issued.exercise): issued.site for issued in stock.paper.exercises}
    site = sites.get(name, stock.paper.exercises[0].site)  # from the sitting: it is the same whatever invents places
    number, seal = len(stock.paper.exercises) + 1, f"{stock.paper.code} fresh"
    issued = issue_exercise(number, bank, exercise, given, site, stock.sitting.seed, seal)
    return issued, compose_exercise(number, issued, stock.sources)


def _drawn(stock: Stock, name: ExerciseName, taken: frozenset[VariantKey]) -> Iterator[Given]:
    """Variants in an order drawn from the seed, without those that are taken."""
    if (space := stock.spaces.get(name)) is None:
        return
    for index in keyed_shuffle(len(space), len(space), stock.sitting.seed, "fresh", stock.paper.code, *name):
        given = space.variant(index)
        if (*name, tuple(sorted(given_texts(given).items()))) not in taken:
            yield given


def _up_to(key: KeyExercise, parts: int) -> KeyExercise:
    """The exercise as far as its first `parts` parts."""
    asked = key.asked.parts[:parts]
    kept = replace(key.asked, parts=asked, marks=sum(part.marks for part in asked))
    return replace(key, asked=kept, answers=key.answers[:parts])


def _question(lead: str, issued: IssuedExercise, key: KeyExercise) -> FreshQuestion:
    return FreshQuestion(lead=lead, asked=key.asked, key=key, had=variant_had(issued))
