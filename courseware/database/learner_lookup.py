"""Which papers are one learner's: asked for by paper code, by reference or by exact name, never guessed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from courseware.database.errors import RecordRefuses
from courseware.papers.codes import read_code
from courseware.papers.names import printable_text

Identity = tuple[str, str]  # name and reference
_NOBODY: Identity = ("", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A paper that is held somewhere, and for whom."""

    sitting: str
    paper: str
    name: str
    reference: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Papers:
    """One learner's papers, and the names and references that stand on them.

    `others` are papers that bear the same name and reference but may be a namesake's.
    """

    codes: tuple[str, ...]
    identities: tuple[Identity, ...]
    others: tuple[str, ...] = ()

    @property
    def words(self) -> tuple[str, ...]:
        """All that tells who the learner is: codes, names, references."""
        return tuple(dict.fromkeys((*self.codes, *(word for pair in self.identities for word in pair if word))))


def whose(held: Iterable[Held], who: str) -> Papers:
    """The papers of the learner `who`.

    Raises `RecordRefuses` where there is none, and where more than one learner may be meant.
    """
    asked, code = printable_text(who), read_code(who)
    known: dict[str, set[Identity]] = {}
    sitting_of: dict[str, str] = {}
    for paper in held:
        known.setdefault(paper.paper, set()).add((paper.name, paper.reference))
        sitting_of[paper.paper] = paper.sitting
    if code in known:
        meant = [known[code] - {_NOBODY}]
    else:
        meant = _joined([found for found in known.values() if any(asked and asked in pair for pair in found)])
    if not meant:
        raise RecordRefuses(f"no learner goes by {who}; give a paper code, the reference, or the name as on the paper")
    if len(meant) > 1:
        raise RecordRefuses(f"{who} may be more than one learner: {_told(known, meant)}; give a paper code")
    codes = [paper for paper, found in known.items() if found & meant[0] or paper == code]
    if max(Counter(sitting_of[paper] for paper in codes).values()) > 1:
        if code is None or code not in known:
            raise RecordRefuses(f"{who} stands on two papers of one sitting: {', '.join(codes)}; give a paper code")
        others = tuple(paper for paper in codes if paper != code)
        return Papers(codes=(code,), identities=tuple(sorted(meant[0])), others=others)
    return Papers(codes=tuple(codes), identities=tuple(sorted(meant[0])))


def _joined(found: Sequence[set[Identity]]) -> list[set[Identity]]:
    """The learners in these: a paper on which a name was put right joins the two names."""
    learners: list[set[Identity]] = []
    for identities in found:
        same = [learner for learner in learners if learner & identities]
        learners = [learner for learner in learners if not learner & identities]
        learners.append(identities.union(*same))
    return learners


def _told(known: dict[str, set[Identity]], learners: Sequence[set[Identity]]) -> str:
    told = []
    for learner in learners[:5]:
        name, reference = min(learner)
        code = next(paper for paper, found in known.items() if found & learner)
        told.append(f"{name or '(no name)'}{f', reference {reference}' if reference else ''} (paper {code})")
    return "; ".join(told) + ("; …" if len(learners) > 5 else "")
