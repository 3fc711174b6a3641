"""One learner's export: a folder with all that the record has of them, once as data and once to read."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from courseware.database.learners import export_learner
from courseware.database.written_files import note_files
from courseware.files.atomic import PRIVATE, begin, finish, one_at_a_time, write_whole
from courseware.files.record_location import opened
from courseware.spreadsheets.xlsx_out import Page, Value, safe_workbook

if TYPE_CHECKING:
    from sqlalchemy import URL

    from courseware.workflows.watch import Watch


def export_everything(url: URL, out: Path, who: str, day: str, watch: Watch) -> tuple[Path, int]:
    """Writes all that the record has of a learner to a folder. Returns it, and how many papers there are.

    Raises `NotFound` where `who` is nobody, or may be several.
    """
    with opened(url, make=False) as engine:
        data = export_learner(engine, who)
        folder = write_export(data, out, day, watch.waiting)
        note_files(engine, sorted(folder.iterdir()), [paper["code"] for paper in data["papers"]])
    return folder, len(data["papers"])


def write_export(data: Mapping[str, Any], out: Path, day: str, waiting: Callable[[], None]) -> Path:
    """Writes the folder under `out`, named by the first paper's code. Returns it."""
    text = json.dumps(data, ensure_ascii=False, indent=1) + "\n"
    with one_at_a_time(out, waiting):
        making = begin(out, f"learner-{data['papers'][0]['code']}", hashlib.sha256(text.encode()).hexdigest())
        write_whole(making.path / "learner.json", text.encode(), PRIVATE)
        write_whole(making.path / "learner.xlsx", safe_workbook(export_pages(data), day), PRIVATE)
        return finish(making)


def export_pages(data: Mapping[str, Any]) -> tuple[Page, ...]:
    """The sheets to read: who and which papers, what was asked, written, marked and decided, and the history."""
    papers: Sequence[Mapping[str, Any]] = data["papers"]
    return (
        Page(
            title="Papers",
            columns={"paper": 14, "name": 28, "reference": 16, "sitting": 14, "date": 12, "title": 30, "group": 20},
            rows=[row for paper in papers for row in _people(paper)],
        ),
        Page(
            title="Questions",
            columns={"paper": 14, "part": 10, "exercise": 28, "given": 40, "answer": 16, "unit": 10, "marks": 8},
            rows=[row for paper in papers for row in _questions(paper)],
        ),
        Page(
            title="As written",
            columns={"paper": 14, "attempt": 9, "marker": 9, "part": 10, "written": 20, "status": 14} | _WHO,
            rows=[row for paper in papers for row in _written(paper)],
        ),
        Page(
            title="Marks",
            columns={"paper": 14, "attempt": 9, "marker": 9, "part": 10, "marks": 8, "of": 8, "how": 12} | _WHY | _WHO,
            rows=[row for paper in papers for row in _marks(paper)],
        ),
        Page(
            title="Decisions",
            columns={"paper": 14, "marker": 9, "part": 10, "marks": 8} | _WHY | _WHO,
            rows=[row for paper in papers for row in _decisions(paper)],
        ),
        Page(
            title="Observed",
            columns={"paper": 14, "job": 22, "day": 12, "line": 44, "target": 10, "allowed": 10, "found": 12} | _WHO,
            rows=[row for paper in papers for row in _observed(paper)],
        ),
        Page(
            title="History",
            columns={"paper": 14, "when": 34, "who": 20, "what": 28, "before": 30, "after": 30, "reason": 40},
            rows=[row for paper in papers for row in _history(paper)],
        ),
    )


_WHO = {"by": 20, "at": 34}
_WHY = {"why": 50, "comment": 30}
_Rows = Iterator[tuple[Value, ...]]


def _people(paper: Mapping[str, Any]) -> _Rows:
    sitting = paper["sitting"]
    for person in paper["names"] or [{"name": "", "reference": ""}]:
        names = (person["name"], person["reference"])
        yield (paper["code"], *names, sitting["code"], sitting["date"], sitting["title"], sitting["group"])


def _questions(paper: Mapping[str, Any]) -> _Rows:
    for exercise in paper["issued"]:
        given = ", ".join(f"{name} {value}" for name, value in exercise["given"].items())
        for part in exercise["parts"]:
            end = (part["answer"], part["unit"], part["marks"])
            yield (paper["code"], part["label"], exercise["exercise"], given, *end)


def _written(paper: Mapping[str, Any]) -> _Rows:
    for script in paper["scripts"]:
        for label, text in script["cells"].items():
            place = (paper["code"], script["attempt"], script["role"], label)
            yield (*place, text, script["status"], script["assessor"], script["at"])


def _marks(paper: Mapping[str, Any]) -> _Rows:
    for mark in paper["marks"]:
        place = (paper["code"], mark["attempt"], mark["role"], mark["label"])
        why = f"{mark['why']} {', '.join(says for _, says in mark['slips'])}".strip()
        yield (*place, mark["marks"], mark["of"], mark["how"], why, mark["comment"], mark["by"], mark["at"])


def _decisions(paper: Mapping[str, Any]) -> _Rows:
    for one in paper["decisions"]:
        place = (paper["code"], one["role"], one["label"], one["marks"])
        yield (*place, one["reason"], one["comment"], one["by"], one["at"])


def _observed(paper: Mapping[str, Any]) -> _Rows:
    for one in paper["observations"]:
        for what, *sizes, found in one["results"]:
            target, allowed = sizes or ("", "")
            yield (paper["code"], one["job"], one["day"], what, target, allowed, found, one["by"], one["at"])


def _history(paper: Mapping[str, Any]) -> _Rows:
    for event in paper["history"]:
        change = (event["what"], event["before"], event["after"], event["reason"])
        yield (paper["code"], event["at"], event["by"], *change)
