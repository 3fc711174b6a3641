"""The class picture printed: of each of its two sides the fullest choice that fits."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from courseware.class_report.report import ClassPicture, Side
from courseware.printing.render import job_pdf, lay_out_job
from courseware.reports.report import Report

FILE = "class-picture"


def class_picture_pdf(picture: ClassPicture) -> bytes:
    """The class picture on two sides, on one where nothing is marked yet."""
    first = _fitting(picture, picture.first)
    head, *rest = _fitting(picture, picture.second) if picture.second else (None,)
    second = (replace(head, new_page=True), *rest) if head else ()
    return job_pdf(_report(picture, (*first, *second)))


def _report(picture: ClassPicture, blocks: Side) -> Report:
    return Report(file=FILE, title=picture.title, blocks=blocks, centre=picture.centre)


def _fitting(picture: ClassPicture, choices: Sequence[Callable[[], Side]]) -> Side:
    """The fullest choice that takes one page; the last where none does. The title counts on both sides."""
    for choice in choices[:-1]:
        blocks = choice()
        if lay_out_job(_report(picture, blocks)).pages == 1:
            return blocks
    return choices[-1]()
