"""A figure on a paper: its entry in the sitting, how it is to be written, and its key."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import cast

from courseware.banks.figures import DoesNotWriteOut, Figure, exact_text, half_up, write_out
from courseware.banks.number_part import NumberPart, Route, SolvedNumber, shown_lines
from courseware.banks.part import Solved
from courseware.papers.compose_parts import key_lines, shown_figure, with_unit
from courseware.papers.part_kind import Entries, KindOnPaper, Scope, Seal, Site, question
from courseware.papers.sheets import AskedPart, KeyAnswer, KeySlip
from courseware.papers.sitting import IssuedPart
from courseware.papers.sitting_file import SittingFaulty
from courseware.words import count


def _issue(solved: Solved, own: tuple[str, ...], scope: Scope, site: Site, _: Seal) -> list[IssuedPart]:
    return [issue_figure(cast("SolvedNumber", solved), own[0], "number", scope, site)]


def issue_figure(
    solved: SolvedNumber,
    label: str,
    kind: str,
    scope: Scope,
    site: Site,
) -> IssuedPart:
    """The entry of a figure, asked for alone or in a row of a table, as `kind` says."""
    part = solved.part
    return IssuedPart(
        label=label,
        name=part.name,
        kind=kind,
        answer=exact_text(solved.answer),
        unit=part.unit,
        within=exact_text(solved.within) if part.within else "",
        marks=part.marks,
        slips=tuple(
            (exact_text(figure), slip.says.render(scope, site))
            for figure, slip in zip(solved.slips, part.slips, strict=True)
        ),
    )


def _asked(solved: Solved, own: Entries, scope: Scope, site: Site) -> AskedPart:
    part = cast("NumberPart", solved.part)
    return replace(question(part, own, scope, site), unit=part.unit, note=how_to_write(part))


def _key(solved: Solved, own: Entries, scope: Scope, site: Site) -> tuple[KeyAnswer, ...]:
    return (key_figure(cast("SolvedNumber", solved), own[0], scope, site),)


def how_to_write(part: NumberPart) -> str:
    """How the answer is to be written; and where the paper gives it, what is to be shown instead."""
    notes = (_rounding(part), "the figure is given: show how it comes" if part.told else "")
    return "; ".join(note for note in notes if note)


def _rounding(part: NumberPart) -> str:
    if part.places is None:
        return ""
    if part.places == 0:
        return "to the nearest whole number"
    return f"to {count(part.places, 'decimal place')}"


def key_figure(solved: SolvedNumber, own: IssuedPart, scope: Scope, site: Site) -> KeyAnswer:
    """The key to a figure. Raises `SittingFaulty` where the sitting has another."""
    part = solved.part
    if Fraction(own.answer) != solved.answer:
        raise SittingFaulty(
            f"part {own.label}: the sitting says {own.answer}, this program finds {shown_figure(part, solved.answer)}; "
            "it was issued by another version of the program or has been changed"
        )
    return KeyAnswer(
        label=own.label,
        answer=with_unit(shown_figure(part, solved.answer), part.unit),
        within=f"± {with_unit(write_out(solved.within), part.unit)}" if solved.within else "",
        accepts=_routes(part, solved.accept, part.accept, scope, site),
        working=key_lines(part.working, shown_lines(solved), part.unit, part.marks, scope, site),
        slips=_routes(part, solved.slips, part.slips, scope, site),
    )


def _routes(
    part: NumberPart, figures: tuple[Figure, ...], routes: tuple[Route, ...], scope: Scope, site: Site
) -> tuple[KeySlip, ...]:
    return tuple(
        KeySlip(
            figure=with_unit(_near(part, figure), part.unit), says=route.says.render(scope, site), earns=route.earns
        )
        for figure, route in zip(figures, routes, strict=True)
    )


def _near(part: NumberPart, figure: Figure) -> str:
    """A slip's figure, which need not write out: then to two places, as `about 4.23`."""
    try:
        return shown_figure(part, figure)
    except DoesNotWriteOut:
        return f"about {write_out(half_up(figure, 2))}"


KIND = KindOnPaper(issue=_issue, asked=_asked, key=_key, figures=True)
