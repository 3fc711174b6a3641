"""A ratio on a paper: its entry in the record is the ratio as it is written."""

from __future__ import annotations

from dataclasses import replace

from courseware.papers.part_kind import KindOnPaper, entry_of, question
from courseware.papers.sheets import AskedPart, KeyAnswer


def issue(solved, own, scope, site, seal):
    return [entry_of(solved.part, own[0], solved.written)]


def asked(solved, own, scope, site) -> AskedPart:
    return replace(question(solved.part, own, scope, site), note="as a ratio")


def key(solved, own, scope, site) -> tuple[KeyAnswer, ...]:
    return (KeyAnswer(label=own[0].label, answer=solved.written),)


KIND = KindOnPaper(issue=issue, asked=asked, key=key)
