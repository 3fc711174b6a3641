"""Wording with places for figures: `A pier {{ bricks }} bricks long`. Filled in one pass, never scanned again."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from courseware.banks.figures import DoesNotWriteOut, Figure, write_out
from courseware.banks.formulas import Formula, FormulaFault, FormulaImpossible, Value
from courseware.text_files.did_you_mean import near

SITE_WORDS = ("place", "street", "client")  # invented for the sitting, in wording only
LONGEST_WORD = 60
NUMBER = "number"  # among the site words: the number of the exercise, where it stands on a paper
_SINGLE = re.compile(r"(?<!\{)\{\s*([a-z][a-z0-9_]*)\s*\}(?!\})", re.ASCII)
_LABEL = re.compile(r"\s*label\(\s*([a-z][a-z0-9_]*)\s*\)\s*\Z", re.ASCII)


@dataclass(frozen=True, slots=True)
class SiteWord:
    """A place for one of the sitting's invented words."""

    name: str


@dataclass(frozen=True, slots=True)
class PartLabel:
    """A place for another part's label: `5a` on a paper, whose site words hold the exercise's number; else `part a`."""

    label: str


@dataclass(frozen=True, slots=True)
class Wording:
    """Plain text, formulas and site words in the order they are read."""

    pieces: tuple[str | Formula | SiteWord | PartLabel, ...]

    def render(self, scope: Mapping[str, Value], site: Mapping[str, str]) -> str:
        """The finished text for a variant. Raises `FormulaImpossible` where a figure does not write out."""
        return "".join([_say(piece, scope, site) for piece in self.pieces])

    def retold(self, say: Callable[[str], str]) -> Wording:
        """The wording with each piece of its plain text said anew."""
        return Wording(tuple(say(piece) if isinstance(piece, str) else piece for piece in self.pieces))

    @property
    def formulas(self) -> tuple[Formula, ...]:
        return tuple(piece for piece in self.pieces if isinstance(piece, Formula))


def read_wording(
    text: str, compiled: Callable[[str], Formula | PartLabel], most: int, known: Collection[str] = ()
) -> Wording:
    """`text` split at its `{{ … }}` places. Raises `FormulaFault` for a place that does not read.

    `known` are names that are surely meant for a place: `{bricks}` would print as it stands.
    """
    if len(text) > most:
        raise FormulaFault(f"the text has {len(text)} characters", f"at most {most} are allowed here")
    if any(len(word) > LONGEST_WORD for word in text.split() if "{{" not in word):
        raise FormulaFault(f"a word of more than {LONGEST_WORD} characters", "shorter words, which fit a line")
    pieces: list[str | Formula | SiteWord | PartLabel] = []
    rest = text
    while "{{" in rest:
        before, _, after = rest.partition("{{")
        inside, closed, rest = after.partition("}}")
        if not closed:
            raise FormulaFault("a place opened by {{ is not closed", "expected }} after the formula")
        name = inside.strip()
        pieces += [before, SiteWord(name) if name in SITE_WORDS else _checked(compiled(inside))]
    if "}}" in rest:
        raise FormulaFault("}} without a {{ before it", "expected {{ formula }}")
    whole = (*(piece for piece in pieces if piece), *([rest] if rest else []))
    for piece in whole:
        if isinstance(piece, str):
            _refuse_single_braces(piece, known)
    return Wording(whole)


def _refuse_single_braces(text: str, known: Collection[str]) -> None:
    for name in _SINGLE.findall(text):
        if meant := get_close_matches(name, known, n=1, cutoff=0.8):
            raise FormulaFault(f"`{{{name}}}` would print as it stands", f"write two braces, as {{{{ {meant[0]} }}}}")


def say_value(value: Value, why: str = "") -> str:
    """A figure or word as wording shows it. Raises `FormulaImpossible` where it does not write out."""
    if isinstance(value, str):
        return value
    try:
        return write_out(value)
    except DoesNotWriteOut as fault:
        raise FormulaImpossible(f"`{why or value}` gives {_rough(value)}: {fault}") from None


def label_of(inside: str, labels: Mapping[str, str]) -> PartLabel | None:
    """The label that a place such as `label(width)` asks for; None for any other place.

    Raises `FormulaFault` where the exercise has no such part.
    """
    asked = _LABEL.match(inside)
    if asked is None:
        return None
    if asked[1] not in labels:
        raise FormulaFault(f"`{asked[1]}` is not a part", near(asked[1], list(labels), "expected one of"))
    return PartLabel(labels[asked[1]])


def _checked(formula: Formula | PartLabel) -> Formula | PartLabel:
    if isinstance(formula, PartLabel):
        return formula
    if formula.kind == "truth":
        raise FormulaFault(f"`{formula.text}` is a truth", "expected a figure or a word to print")
    return formula


def _say(piece: str | Formula | SiteWord | PartLabel, scope: Mapping[str, Value], site: Mapping[str, str]) -> str:
    if isinstance(piece, str):
        return piece
    if isinstance(piece, SiteWord):
        return site[piece.name]
    if isinstance(piece, PartLabel):
        return site.get(NUMBER, "part ") + piece.label
    return say_value(piece.value(scope), piece.text)


def _rough(value: Figure) -> str:
    return f"about {float(value):.4g}" if -(10**24) < value < 10**24 else "a very long figure"
