"""Which decisions are new: what stands on a sheet as it stood when it was entered last is no decision made again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from courseware.marking.marks import Decision

TYPED = "--decide"  # in place of a sheet's name
_Key = tuple[str, str]  # paper and part


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A decision as a row of the record has it: who made it, and the sheet it stood on, `TYPED`, or '' if not noted."""

    decision: Decision
    by: str
    source: str


def added(
    rows: Sequence[Said],
    on_sheet: Sequence[Decision],
    typed: Sequence[Decision],
    *,
    standing: Sequence[Decision],
    by: str,
    source: str,
) -> tuple[Said, ...]:
    """What `by` newly decides with the sheet `source`, and with what was typed beside it, which comes after the sheet.

    `rows` are those that the record has, oldest first; `standing` those of them that hold for the answers as they are
    now. A comment typed without a mark leaves the mark that stands; it joins a comment of the sheet, and takes the
    place of one that was typed.
    """
    had: dict[_Key, list[Said]] = {}
    for row in rows:
        had.setdefault(_key(row.decision), []).append(row)
    sheet = one_a_part(on_sheet)
    new = [
        Said(decision=decision, by=by, source=source)
        for key, decision in sheet.items()
        if not _is_had(decision, had.get(key, ()), by, source)
    ]
    for one in new:
        had.setdefault(_key(one.decision), []).append(one)
    stands = {_key(decision): decision for decision in (*standing, *(one.decision for one in new))}
    for key in dict.fromkeys(map(_key, typed)):
        own = [decision for decision in typed if _key(decision) == key]
        decision = one_a_part([*_beneath(stands.get(key), own, on_sheet=key in sheet), *own])[key]
        if not _is_had(decision, had.get(key, ()), by, TYPED):
            new.append(Said(decision=decision, by=by, source=TYPED))
    return tuple(new)


def _beneath(stands: Decision | None, typed: Sequence[Decision], *, on_sheet: bool) -> Iterator[Decision]:
    """What of the decision that stands is kept under what was typed for its part."""
    if stands is not None and on_sheet:
        yield stands
    elif stands is not None and all(one.marks is None for one in typed):
        yield replace(stands, comment="")


def differing(on_sheet: Sequence[Decision], standing: Sequence[Decision]) -> tuple[tuple[Decision, Decision], ...]:
    """What a sheet says otherwise than what stands: its own decision, and the one that was made since."""
    stand: dict[_Key, list[Decision]] = {}
    for decision in standing:
        stand.setdefault(_key(decision), []).append(decision)
    return tuple(
        (decision, stand[key][-1])
        for key, decision in one_a_part(on_sheet).items()
        if key in stand and decision.words not in [one.words for one in stand[key]]
    )


def one_a_part(decisions: Sequence[Decision]) -> dict[_Key, Decision]:
    """One decision for each part: a comment given apart from the mark joins it."""
    found: dict[_Key, Decision] = {}
    for decision in decisions:
        key = _key(decision)
        other = found.get(key, decision)
        settled = decision if decision.marks is not None else other
        found[key] = Decision(
            code=decision.code,
            label=decision.label,
            marks=settled.marks,
            reason=settled.reason or decision.reason,
            comment=_joined(other.comment, decision.comment),
        )
    return found


def _joined(comment: str, more: str) -> str:
    return comment if more in comment else f"{comment} {more}".strip()


def _is_had(decision: Decision, rows: Sequence[Said], by: str, source: str) -> bool:
    """Whether it stands, or is what `by`, or the sheet, said last."""
    return decision.words in {row.decision.words for row in _last_said(rows, by, source)}


def _last_said(rows: Sequence[Said], by: str, source: str) -> Iterator[Said]:
    yield from rows[-1:]
    yield from [row for row in rows if row.by == by][-1:]
    if source == TYPED:
        return
    from_it = [row for row in rows if row.source == source]
    yield from from_it[-1:]
    yield from [row for row in from_it if row.by == by][-1:]
    if not from_it:  # any of these may have stood on it
        yield from (row for row in rows if not row.source)


def _key(decision: Decision) -> _Key:
    return decision.code, decision.label
