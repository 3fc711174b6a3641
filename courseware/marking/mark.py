"""Scripts marked: part by part, each later part from the learner's own earlier answers, so a slip is charged once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from courseware.banks.figures import exact_text
from courseware.banks.part import Part
from courseware.marking.attempts import numbered_attempts
from courseware.marking.judge import Verdict
from courseware.marking.marks import WHOLE_PAPER, Decision, Mark, MarkedPaper, Query, Script
from courseware.marking.part_kind import NotRead, Others, Work, mark_entry
from courseware.marking.read_answer import read_figure
from courseware.papers.compose import Sources, issued_from, read_sources
from courseware.papers.part_kind import holds_figure
from courseware.papers.sitting import IssuedPaper, IssuedPart, Sitting
from courseware.words import count

_FEWEST_ELSEWHERE = 3  # answers of one other paper before a whole script is held back
_SAY_SO = f"if not, say so on the sheet of decisions, with `{WHOLE_PAPER}` in place of the part"


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """Scripts marked, in the order of the sitting's papers; what a person must settle. Papers not in are left out.

    `papers` has each paper as it stands now, `attempts` also what stood before it was resubmitted, and both are without
    those `held` back because their row may be another paper's. `withdrawn` are codes of papers that nobody waits for.
    """

    papers: tuple[MarkedPaper, ...]
    attempts: tuple[MarkedPaper, ...]
    held: tuple[MarkedPaper, ...]
    questions: tuple[Query, ...]
    withdrawn: frozenset[str] = frozenset()


def mark_scripts(
    sitting: Sitting, scripts: Sequence[Script], decisions: Sequence[Decision] = (), sources: Sources | None = None
) -> Marked:
    """Every script of a sitting marked. A script that stands again, resubmitted, opens the parts not yet right.

    Raises `SittingFaulty` where the sitting's answers are not those that this program finds.
    """
    sources = sources or read_sources(sitting)
    attempts: dict[str, list[tuple[int, Script]]] = {}
    for attempt, script in numbered_attempts(scripts):
        attempts.setdefault(script.code, []).append((attempt, script))
    decided: dict[tuple[str, int], dict[str, Decision]] = {}
    for decision in decisions:
        decided.setdefault((decision.code, decision.attempt), {})[decision.label] = decision
    others = _others(sitting)
    rows: list[_MarkedRow] = []
    for paper in sitting.papers:
        own_scripts = attempts.get(paper.code, [])
        own: list[MarkedPaper] = []
        cells: dict[str, str] = {}
        asked: list[Query] = []
        for attempt, script in own_scripts:
            asked = []
            before = own[-1] if own else None
            cells = _opened(before, cells, script)
            opened = replace(script, cells=cells)
            own.append(
                _mark_paper(paper, opened, sources, others, decided.get((paper.code, attempt), {}), before, asked)
            )
        if own:
            attempt, script = own_scripts[-1]
            sure = WHOLE_PAPER in decided.get((paper.code, attempt), {})
            rows.append(_MarkedRow(paper, script, tuple(own), tuple(asked), sure))
    held_back = _held_back(rows, others)
    free = [row for row in rows if row.paper.code not in held_back]
    return Marked(
        papers=tuple(row.attempts[-1] for row in free),
        attempts=tuple(paper for row in free for paper in row.attempts),
        held=tuple(paper for row in rows if row.paper.code in held_back for paper in row.attempts),
        questions=tuple(one for row in rows for one in _questions(row, held_back.get(row.paper.code, ""))),
    )


@dataclass(frozen=True, slots=True)
class _MarkedRow:
    """A paper with its attempts marked; `sure` where an assessor said that the answers are its learner's."""

    paper: IssuedPaper
    script: Script
    attempts: tuple[MarkedPaper, ...]
    asked: tuple[Query, ...]
    sure: bool


def _questions(row: _MarkedRow, why: str) -> Iterator[Query]:
    """What is asked about a row; `why` it is held back, where it is, comes last."""
    yield from row.asked
    if why:
        yield _question(row.script, "", "", f"{why}; {_SAY_SO}")


def _held_back(rows: Sequence[_MarkedRow], others: Others) -> dict[str, str]:
    """Why rows may stand under the wrong code, by code: most figures of each are another paper's.

    Of two rows that were exchanged one may show it plainly and the other with too few figures: both are held.
    """
    plain: dict[str, tuple[str, int]] = {}
    hint: dict[str, tuple[str, int]] = {}
    for row in rows:
        code, many, own = _other_paper(row.paper, row.attempts[-1].marks, others)
        if not row.sure and many > own:
            (plain if many >= _FEWEST_ELSEWHERE else hint)[row.paper.code] = (code, many)
    exchanged = {own: told for own, told in hint.items() if told[0] in plain and plain[told[0]][0] == own}
    return {
        own: f"{count(many, 'answer')} {'is' if many == 1 else 'are'} of the paper {code}: if they belong to it, "
        "move them to its row"
        for own, (code, many) in {**plain, **exchanged}.items()
    }


def _opened(marked: MarkedPaper | None, earlier: Mapping[str, str], script: Script) -> dict[str, str]:
    """The cells that count: all of a first script; of a resubmitted one those of parts that were not fully right."""
    if marked is None:
        return dict(script.cells)
    open_now = {mark.label for mark in marked.marks if mark.marks < mark.of}
    again = {label: text for label, text in script.cells.items() if label in open_now and text.strip()}
    return {**earlier, **again}


def _mark_paper(
    paper: IssuedPaper,
    script: Script,
    sources: Sources,
    others: Others,
    decided: Mapping[str, Decision],
    before: MarkedPaper | None,
    asked: list[Query],
) -> MarkedPaper:
    if script.status == "absent":
        if any(text.strip() for text in script.cells.values()):
            asked.append(_question(script, "", "", "the learner is marked absent, yet answers stand in the row"))
        return MarkedPaper(code=paper.code, status="absent", marks=())
    marks: list[Mark] = []
    for issued in paper.exercises:
        _, exercise = issued_from(issued, sources)
        work = Work(issued, exercise)
        for part, entries in zip(exercise.parts, work.entries, strict=True):
            marks += _mark_cells(part, entries, work, script, others, asked)
    closed = {mark.label: mark for mark in before.marks if mark.marks == mark.of} if before else {}
    marks = [closed.get(mark.label) or _decide(mark, decided.get(mark.label)) for mark in marks]
    settled_by_hand = {mark.label for mark in marks if mark.how == "decided" or mark.label in closed}
    asked[:] = [question for question in asked if question.label not in settled_by_hand]
    return MarkedPaper(code=paper.code, status=script.status, marks=tuple(marks))


def _mark_cells(
    part: Part, entries: tuple[IssuedPart, ...], work: Work, script: Script, others: Others, asked: list[Query]
) -> Iterator[Mark]:
    for row, entry in zip(part.entries, entries, strict=True):
        typed = script.cells.get(entry.label, "")
        try:
            if entry.label in script.unread:
                raise NotRead(script.unread[entry.label])
            verdict = mark_entry(row, entry, work, typed, others)
        except NotRead as why:
            asked.append(_question(script, entry.label, typed, str(why)))
            verdict = Verdict(how="asked", marks=0, why=f"Not read: {why}.")
        yield Mark(
            label=entry.label,
            marks=verdict.marks,
            of=entry.marks,
            how=verdict.how,
            why=verdict.why,
            written=typed,
            slips=verdict.slips,
            carried=verdict.carried,
        )


def _decide(mark: Mark, decision: Decision | None) -> Mark:
    """The assessor's own mark in place of the one worked out, which stays in its reason."""
    if decision is None:
        return mark
    if decision.marks is None:
        return replace(mark, comment=decision.comment)
    why = f"{decision.reason.rstrip('.')}. (Worked out: {mark.marks}. {mark.why})"
    marks = max(0, min(decision.marks, mark.of))
    return replace(mark, marks=marks, how="decided", why=why, comment=decision.comment)


def _others(sitting: Sitting) -> dict[str, dict[str, list[str]]]:
    """By part, the answers that stand on the sitting's papers, each with the codes of the papers that have it."""
    found: dict[str, dict[str, list[str]]] = {}
    for paper in sitting.papers:
        for part in paper.parts:
            if holds_figure(part):
                found.setdefault(part.label, {}).setdefault(part.answer, []).append(paper.code)
    return found


def _other_paper(paper: IssuedPaper, marks: Sequence[Mark], others: Others) -> tuple[str, int, int]:
    """The other paper that has most of a row's figures, how many, and how many are right on the row's own paper."""
    units = {part.label: part.unit for part in paper.parts}
    elsewhere = [mark for mark in marks if mark.how == "elsewhere"]
    read = {mark.label: read_figure(mark.written, units[mark.label]).figures for mark in elsewhere}
    texts = {(label, exact_text(figure)) for label, figures in read.items() for figure in figures}
    codes = Counter(code for label, text in texts for code in others[label].get(text, ()))
    own = sum(mark.how in {"right", "carried", "route"} for mark in marks if mark.label in others)
    code, many = codes.most_common(1)[0] if codes else ("", 0)
    return code, many, own


def _question(script: Script, label: str, written: str, why: str) -> Query:
    return Query(code=script.code, label=label, line=script.line, written=written, why=why)
