"""Whose papers the figures of a class are taken from, and how many papers are left out of them, and why."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from courseware.marking.marks import MarkedPaper
from courseware.papers.sitting import IssuedPaper, Sitting


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassPapers:
    """The papers that count, in order of code, each beside the paper as issued; and those that do not."""

    counted: tuple[tuple[IssuedPaper, MarkedPaper], ...]
    absent: int
    missing: int  # neither handed in nor marked absent
    unfinished: int  # handed in, but not marked in every part
    withdrawn: int = 0  # and not expected


def class_papers(sitting: Sitting, marked: Sequence[MarkedPaper], withdrawn: Collection[str] = ()) -> ClassPapers:
    """The papers of a sitting that were written and marked in every part; `withdrawn` are codes of those given up.

    A code that comes twice counts once, by its first paper: one handed in again shows what was mended since, not what
    the class is to be taught.
    """
    counted: list[tuple[IssuedPaper, MarkedPaper]] = []
    absent = missing = unfinished = gone = 0
    for issued in sorted(sitting.papers, key=lambda paper: paper.code):
        own = [paper for paper in marked if paper.code == issued.code]
        written = [paper for paper in own if paper.status != "absent"]
        whole = [paper for paper in written if _labels(issued) == [mark.label for mark in paper.marks]]
        if whole:
            counted.append((issued, min(whole, key=lambda paper: paper.status == "resubmitted")))
        elif written:
            unfinished += 1
        elif own:
            absent += 1
        elif issued.code in withdrawn:
            gone += 1
        else:
            missing += 1
    return ClassPapers(counted=tuple(counted), absent=absent, missing=missing, unfinished=unfinished, withdrawn=gone)


def _labels(issued: IssuedPaper) -> list[str]:
    return [part.label for part in issued.parts]
