"""Which marked papers a quality assurer looks at, why each of them, and how likely that finds an error."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain
from types import MappingProxyType

from courseware.papers.codes import shuffled
from courseware.words import count

_SUPPOSED = (Fraction(0), Fraction(1, 20), Fraction(1, 10))  # shares of papers with an error; at least one paper
MOST_WEIGHT = 5
_SURE = Fraction(95, 100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A marked paper as a sample sees it: whose marking, on what, its marks, what was looked at twice."""

    code: str
    sitting: str
    assessors: tuple[str, ...]
    topics: tuple[str, ...]
    total: int
    of: int
    decided: int = 0  # marks that an assessor put in the place of those worked out
    differing: int = 0  # parts that a second marker marked otherwise
    provisional: int = 0  # parts that an assessor is still to look at
    open_action: bool = False  # of an earlier sample

    @property
    def share(self) -> Fraction:
        """Its marks as a share of all there are."""
        return Fraction(self.total, self.of) if self.of else Fraction(0)

    @property
    def flagged(self) -> bool:
        """Whether a person's judgement went into it twice."""
        return bool(self.decided or self.differing or self.open_action)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pick:
    """A paper in the sample, and every reason it is there."""

    paper: Candidate
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Chance:
    """If `wrong` of all papers carried an error: the chance that the sample holds one of these, exactly."""

    wrong: int
    chance: Fraction
    for_sure: int  # how many papers would hold one with 95 % certainty


@dataclass(frozen=True, slots=True, kw_only=True)
class SamplingPlan:
    """A sample, repeatable from its seed and the same papers."""

    seed: str
    asked: int
    of: int
    picks: tuple[Pick, ...]
    chances: tuple[Chance, ...]
    flagged_outside: int  # flagged papers that there was no room for
    not_shown: tuple[str, ...]  # what a sample of this size has no room to show
    provisional: int  # papers, of all, with marks that an assessor is still to look at


@dataclass(frozen=True, slots=True, kw_only=True)
class _Need:
    """Something the sample must show, and the papers that show it."""

    reason: str
    codes: frozenset[str]


def sampling_plan(
    papers: Sequence[Candidate],
    *,
    size: int,
    seed: str,
    pass_lines: Sequence[Fraction] = (),
    not_agreed: Mapping[str, int] = MappingProxyType({}),
) -> SamplingPlan:
    """`size` of the papers, in any order given: flagged ones first, then what shows each assessor, topic and the spread
    of marks, then a draw. Never more than `size`: what it has no room to show is told.

    `not_agreed` counts by assessor the papers of earlier samples that were not agreed with: in the draw a paper counts
    once more for each of those of its assessors, up to `MOST_WEIGHT` times.
    `pass_lines` are shares of the marks. Raises `ValueError` where there are no papers, or one code comes twice.
    """
    if not papers:
        raise ValueError("there are no marked papers to sample from")
    if len({paper.code for paper in papers}) < len(papers):
        raise ValueError("a paper stands twice among those to sample from")
    ordered = sorted(
        _drawn(papers, seed, not_agreed),
        key=lambda paper: (not paper.open_action, not paper.differing, not paper.decided),
    )
    covering = list(_covering(ordered, _needs(papers, pass_lines)).items())
    reasons, left_out = dict(covering[:size]), covering[size:]
    for paper in ordered:
        if len(reasons) < size:
            reasons.setdefault(paper.code, ())
    sample = sorted((p for p in ordered if p.code in reasons), key=lambda p: not (p.flagged or reasons[p.code]))
    picks = tuple(
        Pick(paper=paper, reasons=(*_flags(paper, not_agreed), *reasons[paper.code]) or ("drawn by the seed",))
        for paper in sample
    )
    return SamplingPlan(
        seed=seed,
        asked=size,
        of=len(papers),
        picks=picks,
        chances=chances(len(papers), len(picks)),
        flagged_outside=sum(paper.flagged for paper in papers if paper.code not in reasons),
        not_shown=tuple(reason for _, needs in left_out for reason in needs),
        provisional=sum(paper.provisional > 0 for paper in papers),
    )


def weight(paper: Candidate, not_agreed: Mapping[str, int]) -> int:
    """How often a paper counts in the draw: once, and once more for each disagreement with one of its assessors."""
    return min(MOST_WEIGHT, 1 + max((not_agreed.get(name, 0) for name in paper.assessors), default=0))


def _drawn(papers: Sequence[Candidate], seed: str, not_agreed: Mapping[str, int]) -> list[Candidate]:
    """The papers in the order of the draw: each holds as many tickets as it counts, and goes by the first drawn.

    So the chance of being drawn next is a paper's share of the tickets that are left.
    """
    ordered = sorted(papers, key=lambda paper: paper.code)
    tickets = [paper for paper in ordered for _ in range(weight(paper, not_agreed))]
    return list({paper.code: paper for paper in shuffled(tickets, seed, "sample")}.values())


def size_of_share(papers: int, share: Fraction) -> int:
    """How many papers a share of them comes to: at least one, parts of a paper counted whole."""
    return max(1, math.ceil(papers * share))


def chance_of_catching(papers: int, wrong: int, looked_at: int) -> Fraction:
    """The chance that a draw of `looked_at` from `papers` holds one of the `wrong` ones, by the hypergeometric law.

    It is 1 − C(N−k, n)/C(N, n), which is 1 − C(N−n, k)/C(N, k).
    """
    return 1 - Fraction(math.comb(papers - looked_at, wrong), math.comb(papers, wrong))


def papers_to_be_sure(papers: int, wrong: int) -> int:
    """The fewest papers whose draw holds one of the `wrong` ones with 95 % certainty."""
    sizes = range(1, papers + 1)
    return sizes[bisect_left(sizes, _SURE, key=lambda size: chance_of_catching(papers, wrong, size))]


def chances(papers: int, looked_at: int) -> tuple[Chance, ...]:
    """The chances for one paper with an error, for 5 % and for 10 % of the papers."""
    supposed = dict.fromkeys(size_of_share(papers, share) for share in _SUPPOSED)
    return tuple(
        Chance(
            wrong=wrong,
            chance=chance_of_catching(papers, wrong, looked_at),
            for_sure=papers_to_be_sure(papers, wrong),
        )
        for wrong in supposed
    )


def _covering(ordered: Sequence[Candidate], needs: Sequence[_Need]) -> dict[str, tuple[str, ...]]:
    """Papers that together meet every need, by code with the needs each was taken for.

    The paper that meets most of what is left is taken next; of those alike, the first in order.
    """
    taken: dict[str, tuple[str, ...]] = {}
    left = list(needs)
    while left:
        met = Counter(chain.from_iterable(need.codes for need in left))
        best = max(ordered, key=lambda paper: met[paper.code])
        taken[best.code] = tuple(need.reason for need in left if best.code in need.codes)
        left = [need for need in left if best.code not in need.codes]
    return taken


def _needs(papers: Sequence[Candidate], pass_lines: Sequence[Fraction]) -> list[_Need]:
    at: dict[Fraction, list[Candidate]] = {}
    same: dict[tuple[int, int], list[Candidate]] = {}
    for paper in papers:
        same.setdefault((paper.total, paper.of), []).append(paper)
    for alike in same.values():  # a share is worked out once for all papers that have the same marks
        at.setdefault(alike[0].share, []).extend(alike)
    shares = [share for share in sorted(at) for _ in at[share]]
    middle = (shares[(len(shares) - 1) // 2] + shares[len(shares) // 2]) / 2
    nearest_middle = min(abs(share - middle) for share in at)
    needs = [
        *(
            _need(f"marked by {name}", [paper for paper in papers if name in paper.assessors])
            for name in sorted({name for paper in papers for name in paper.assessors})
        ),
        *(
            _need(f"on {topic}", [paper for paper in papers if topic in paper.topics])
            for topic in sorted({topic for paper in papers for topic in paper.topics})
        ),
        _need("the lowest mark", at[shares[0]]),
        _need("the highest mark", at[shares[-1]]),
        _need("in the middle", [p for share in at if abs(share - middle) == nearest_middle for p in at[share]]),
    ]
    for line in pass_lines:
        passed, failed = [s for s in at if s >= line], [s for s in at if s < line]
        for side, nearest in (
            ("nearest at or above", min(passed, default=None)),
            ("nearest below", max(failed, default=None)),
        ):
            if nearest is not None:
                needs.append(_need(f"{side} the pass line of {_percent(line)}", at[nearest]))
    return needs


def _need(reason: str, papers: Sequence[Candidate]) -> _Need:
    return _Need(reason=reason, codes=frozenset(paper.code for paper in papers))


def _flags(paper: Candidate, not_agreed: Mapping[str, int]) -> tuple[str, ...]:
    told = ((paper.differing, "second marker differs on"), (paper.decided, "assessor's own mark on"))
    before = [name for name in paper.assessors if not_agreed.get(name)]
    return (
        *(["an action of an earlier sample is open"] if paper.open_action else []),
        *(f"{says} {count(parts, 'part')}" for parts, says in told if parts),
        *(f"earlier samples did not agree with {name} on {count(not_agreed[name], 'paper')}" for name in before),
    )


def _percent(share: Fraction) -> str:
    return f"{float(100 * share):g} %"
