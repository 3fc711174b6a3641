"""Whether a sitting as read can be printed at all: its texts short and plain, its codes and figures well formed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date

from courseware.papers.class_list import MOST_LEARNERS
from courseware.papers.codes import read_code
from courseware.papers.names import LONGEST_NAME, LONGEST_REFERENCE
from courseware.papers.part_kind import PAPER_KINDS
from courseware.papers.sitting import IssuedPaper, IssuedPart, Sitting
from courseware.settings import read as limits
from courseware.settings.settings import Settings
from courseware.text_files.faults import unseen
from courseware.trade import ARRIS_RULES

LONGEST_TITLE = 100
_LONGEST_SETTING = 2000
_LONGEST_SEED = 300
_MOST_VERSIONS = 50
_MOST_EXERCISES, _MOST_PARTS, _MOST_MARKS = 500, 200, 200
_FIGURE = re.compile(r"-?[0-9]{1,30}(\.[0-9]{1,30}|/0{0,9}[1-9][0-9]{0,20})?")
_SITE = {"place", "street", "client"}


class _Unsound(ValueError):
    """A sitting that cannot be printed."""


def check_sitting(sitting: Sitting) -> None:
    """Raises `ValueError` for a sitting that this program cannot have written."""
    sources = (*sitting.banks, *([sitting.safety] if sitting.safety else []))
    codes = [sitting.code, *(paper.code for paper in sitting.papers)]
    _hold(
        1 <= len(sitting.papers) <= MOST_LEARNERS,
        len({paper.code for paper in sitting.papers}) == len(sitting.papers),
        all(read_code(code) == code for code in codes),
        not sitting.retake_of or read_code(sitting.retake_of) == sitting.retake_of,
        date.fromisoformat(sitting.date).isoformat() == sitting.date,
        not sitting.due or date.fromisoformat(sitting.due).isoformat() == sitting.due >= sitting.date,
        is_plain(sitting.approved_by, LONGEST_NAME),
        *_settings(sitting.settings),
        is_plain(sitting.title, LONGEST_TITLE),
        is_plain(sitting.seed, _LONGEST_SEED),
        is_plain(sitting.version, LONGEST_TITLE),
        all(is_plain(source.file, _LONGEST_SEED) for source in sources),
        all(_labels(paper) == _labels(sitting.papers[0]) for paper in sitting.papers),
        is_plain(sitting.group, LONGEST_TITLE),
        len(sitting.made_with) <= _MOST_VERSIONS,
        all(is_plain(f"{name}{number}", LONGEST_TITLE) for name, number in sitting.made_with.items()),
    )
    for paper in sitting.papers:
        _check_paper(paper)


def _settings(settings: Settings) -> Iterator[bool]:
    signed = (settings.signatures.papers, settings.signatures.feedback)
    yield settings == settings.of_a_sitting()
    yield settings.arris_rule in ARRIS_RULES
    yield limits.WORD.fullmatch(settings.upright_joint) is not None
    yield is_plain(settings.name, limits.LONGEST_NAME)
    yield all(is_plain(one.says, limits.LONGEST_SAYS) and len(one.signed) <= limits.MOST_WHO for one in signed)
    yield all(is_plain(who, limits.LONGEST_WHO) for one in signed for who in one.signed)


def _labels(paper: IssuedPaper) -> list[str]:
    return [part.label for part in paper.parts]


def is_plain(text: str, most: int) -> bool:
    """Whether a text is short and every character of it shows."""
    return len(text) <= most and not any(unseen(character) for character in text)


def _check_paper(paper: IssuedPaper) -> None:
    _hold(
        1 <= len(paper.exercises) <= _MOST_EXERCISES,
        is_plain(paper.learner.name, LONGEST_NAME),
        is_plain(paper.learner.reference, LONGEST_REFERENCE),
    )
    for exercise in paper.exercises:
        _hold(
            set(exercise.site) == _SITE,
            all(is_plain(word, LONGEST_TITLE) for word in exercise.site.values()),
            is_plain(exercise.setting, _LONGEST_SETTING),
            1 <= len(exercise.parts) <= _MOST_PARTS,
            all(len(value) <= LONGEST_TITLE for value in exercise.given.values()),
        )
        for part in exercise.parts:
            _hold(PAPER_KINDS.get(part.kind) is not None, 0 <= part.marks <= _MOST_MARKS, *_figures(part))


def _figures(part: IssuedPart) -> Iterator[bool]:
    if PAPER_KINDS[part.kind].figures:
        for text in (part.answer, part.within or "0", *(value for value, _ in part.slips)):
            yield bool(_FIGURE.fullmatch(text))


def _hold(*truths: bool) -> None:
    if not all(truths):
        raise _Unsound
