"""The proof of an exercise: every variant walked and proved, those of the commonest difficulty kept."""

from __future__ import annotations

from array import array
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from courseware.banks.exercise import Exercise
from courseware.banks.figures import Figure
from courseware.banks.formulas import FormulaImpossible
from courseware.banks.guards import Guards
from courseware.banks.leaks import AnswerTold
from courseware.banks.part import Signature, Solved
from courseware.banks.solve import Given
from courseware.banks.space import Space, raw_size, walk
from courseware.banks.variant_proof import Fails, LeftOut, asked_once, formulas_in_words, prove_variant, shown
from courseware.trade import TradeError

OTHER_DIFFICULTY = "of another difficulty (digits, halves or rounding)"
_TELL_EVERY = 500


@dataclass(frozen=True, slots=True, kw_only=True)
class Failure:
    """The first variant that fails: its raw index, its givens written out, and why."""

    raw: int
    given: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What walking an exercise showed. `left_out` counts variants by reason; `ranges` are answers by part."""

    space: Space
    walked: int
    left_out: Mapping[str, int]
    ranges: Mapping[str, tuple[Figure, Figure]]
    failure: Failure | None


def prove(exercise: Exercise, tell: Callable[[int], None] = lambda _: None) -> Proof:
    """Walk every variant of `exercise`, stopping at the first that fails. `tell` hears how many more are done."""
    kept: dict[Signature, _Band] = {}
    left_out: Counter[str] = Counter()
    writes_out = asked_once()
    wordings = formulas_in_words(exercise)
    guards = Guards(exercise)
    done = 0
    for raw, given in enumerate(walk(exercise)):
        if raw - done == _TELL_EVERY:
            tell(_TELL_EVERY)
            done = raw
        try:
            solved, scope = prove_variant(exercise, given, wordings, writes_out)
            if why := guards.misleads(solved, scope):
                raise Fails(why)
            leaks = guards.leaks(solved, scope)
        except LeftOut as reason:
            left_out[str(reason)] += 1
        except (Fails, FormulaImpossible, TradeError) as why:
            failure = Failure(raw=raw, given=_written_givens(given), why=str(why))
            return _proof(exercise, {}, left_out, raw + 1, failure)
        else:
            kept.setdefault(_difficulty(solved), _Band()).take(raw, solved, leaks)
    tell(raw_size(exercise) - done)
    return _proof(
        exercise,
        kept,
        left_out,
        raw_size(exercise),
        _nothing_left(kept, left_out) or _guarded(guards, _commonest(kept)),
    )


def _guarded(guards: Guards, band: _Band) -> Failure | None:
    why = guards.fault(band.indices, band.ranges, band.leaks)
    return Failure(raw=0, given="all variants", why=why) if why else None


class _Band:
    """The variants of one difficulty as they are found, with the range of each answer."""

    def __init__(self) -> None:
        self.indices = array("L")
        self.ranges: dict[str, tuple[Figure, Figure]] = {}
        self.leaks: Counter[AnswerTold] = Counter()

    def take(self, raw: int, solved: tuple[Solved, ...], leaks: Sequence[AnswerTold]) -> None:
        self.indices.append(raw)
        self.leaks.update(set(leaks))
        for part in solved:
            for number in part.numbers:
                low, high = self.ranges.get(number.part.name, (number.answer, number.answer))
                self.ranges[number.part.name] = (min(low, number.answer), max(high, number.answer))


def _proof(
    exercise: Exercise,
    kept: Mapping[Signature, _Band],
    left_out: Counter[str],
    walked: int,
    failure: Failure | None,
) -> Proof:
    band = _commonest(kept)
    if other := sum(len(found.indices) for found in kept.values()) - len(band.indices):
        left_out[OTHER_DIFFICULTY] = other
    space = Space(exercise=exercise, indices=band.indices)
    return Proof(space=space, walked=walked, left_out=dict(left_out), ranges=band.ranges, failure=failure)


def _commonest(kept: Mapping[Signature, _Band]) -> _Band:
    """The space is the commonest difficulty; on a tie, the one met first."""
    return max(kept.values(), key=lambda found: len(found.indices), default=_Band())


def _nothing_left(kept: Mapping[Signature, _Band], left_out: Counter[str]) -> Failure | None:
    if kept:
        return None
    reasons = "; ".join(f"{count} left out {reason}" for reason, count in left_out.items())
    merge = " Two that always give one figure are one slip: name them together." if "slip" in reasons else ""
    return Failure(raw=0, given="all variants", why=f"no variant is left to issue: {reasons}.{merge}")


def _difficulty(solved: tuple[Solved, ...]) -> Signature:
    """What must be alike for two variants to be equally hard: how many choices fit, and of each figure its digits."""
    return tuple([one for part in solved for one in part.signature])


def _written_givens(given: Given) -> str:
    return ", ".join(f"{name} = {value if isinstance(value, str) else shown(value)}" for name, value in given.items())
