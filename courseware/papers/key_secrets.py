"""What a learner's sheet must not show: the figures and words that stand on its key alone."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass

from courseware.papers.sheets import Key, Paper

_FIGURE = re.compile(r"\d+(?:\.\d+)?")
_SHORTEST_FIGURE, _SHORTEST_SAYING = 3, 12  # shorter ones stand on any sheet: page numbers, single words


@dataclass(frozen=True, slots=True, kw_only=True)
class Secrets:
    """Figures as written, and sayings with their spaces taken out."""

    figures: frozenset[str]
    sayings: frozenset[str]


def secrets(paper: Paper, key: Key, margins: Iterable[str] = ()) -> Secrets:
    """What the key says and the paper does not; `margins` is what stands in the margins of every page."""
    open_words = [*_texts(paper), *margins]
    told = "\n".join(open_words)
    open_figures = set(_FIGURE.findall(told))
    answers = [answer for exercise in key.exercises for part in exercise.answers for answer in part]
    figures = {figure for answer in answers for figure in _FIGURE.findall(answer.answer)}
    sayings = {line.say for answer in answers for line in answer.working}
    sayings |= {slip.says for answer in answers for slip in (*answer.slips, *answer.accepts)}
    sayings |= {note for answer in answers for note in answer.notes}
    return Secrets(
        figures=frozenset(f for f in figures - open_figures if len(f) >= _SHORTEST_FIGURE),
        sayings=frozenset(
            squeezed(saying) for saying in sayings if len(saying) >= _SHORTEST_SAYING and saying not in told
        ),
    )


def squeezed(text: str) -> str:
    """`text` without its spaces, since a page keeps none between lines."""
    return "".join(text.split())


def shows(text: str, hidden: Secrets) -> str | None:
    """The first secret that stands in `text`, or None."""
    figures: frozenset[str] = hidden.figures & set(_FIGURE.findall(text))
    if figures:
        return min(figures)
    close = squeezed(text)
    return next((saying for saying in sorted(hidden.sayings) if saying in close), None)


def _texts(value: object) -> Iterator[str]:
    """Every text anywhere in a model."""
    if isinstance(value, str):
        yield value
    elif is_dataclass(value):
        for field in fields(value):
            yield from _texts(getattr(value, field.name))
    elif isinstance(value, Mapping):
        for name, inner in value.items():
            yield from _texts(name)
            yield from _texts(inner)
    elif isinstance(value, tuple):
        for inner in value:
            yield from _texts(inner)
