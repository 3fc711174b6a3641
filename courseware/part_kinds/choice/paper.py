"""A choice on a paper: its choices in an order drawn for each paper, by letters."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

from courseware.banks.part import Solved
from courseware.papers.codes import shuffled
from courseware.papers.compose_parts import key_lines
from courseware.papers.part_kind import LETTERS, Entries, KindOnPaper, Scope, Seal, Site, entry_of, question
from courseware.papers.sheets import AskedPart, KeyAnswer
from courseware.papers.sitting import IssuedPart
from courseware.papers.sitting_file import SittingFaulty
from courseware.part_kinds.choice.bank import ChoicePart, SolvedChoice

_TICKS = {False: "Tick one.", True: "Tick every one that is right."}


def _issue(solved: Solved, own: tuple[str, ...], _: Scope, __: Site, seal: Seal) -> list[IssuedPart]:
    choice = cast("SolvedChoice", solved)
    shown = shuffled(range(len(choice.part.choices)), *seal, choice.part.name)
    letters = [LETTERS[place] for place, index in enumerate(shown) if choice.right[index]]
    return [entry_of(choice.part, own[0], ",".join(letters), shown)]


def _asked(solved: Solved, own: Entries, scope: Scope, site: Site) -> AskedPart:
    part = cast("ChoicePart", solved.part)
    says = [part.choices[index].say.render(scope, site) for index in own[0].shown]
    options = tuple(zip(LETTERS, says, strict=False))
    return replace(question(part, own, scope, site), note=_TICKS[part.several], options=options)


def _key(solved: Solved, own: Entries, scope: Scope, site: Site) -> tuple[KeyAnswer, ...]:
    choice, entry = cast("SolvedChoice", solved), own[0]
    part = choice.part
    right = [(LETTERS[place], index) for place, index in enumerate(entry.shown) if choice.right[index]]
    letters = [letter for letter, _ in right]
    if ",".join(letters) != entry.answer:
        told = f"the sitting says {entry.answer}, this program finds {','.join(letters)}"
        raise SittingFaulty(f"part {entry.label}: {told}")
    notes = [
        f"{LETTERS[place]}: {says.render(scope, site)}"
        for place, index in enumerate(entry.shown)
        if not choice.right[index] and (says := part.choices[index].says)
    ]
    return (
        KeyAnswer(
            label=entry.label,
            answer=" and ".join(letters),
            chosen=tuple(part.choices[index].say.render(scope, site) for _, index in right),
            working=key_lines(part.working, choice.working, "", part.marks, scope, site),
            notes=tuple(notes),
        ),
    )


def why_wrong(answer: KeyAnswer) -> dict[str, str]:
    """What a key says of each wrong choice that it says anything of, by letter."""
    return dict(note.split(": ", 1) for note in answer.notes)


KIND = KindOnPaper(issue=_issue, asked=_asked, key=_key)
