"""What is asked of a large record: sampling, criteria and one paper's audit, over 10,000 papers in sittings of 14.

    python tests/benchmarks/record.py [papers]

Each paper has 15 parts or so, marked once; every tenth has a mark that was changed and a decision. Timed apart: opening the
record with its checks, and each question put to it. Times are of the processor. Nothing is printed: the PDFs take what they take, whatever the record holds.
"""

from __future__ import annotations

import json
import random
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path

from sqlalchemy import Engine, insert

from courseware.banks import prove
from courseware.database.connection import stamp, writing
from courseware.database.history import history
from courseware.database.opening import open_record
from courseware.database.outlines import many_plain_objects, outlines
from courseware.database.sittings import sitting_of
from courseware.database.tables import DECISION, MARK, PAPER, PERSON, REGISTER, SCRIPT, SITTING
from courseware.files.bank_files import find_banks, read_banks
from courseware.papers.codes import code
from courseware.papers.deal import Heads, deal_sitting
from courseware.papers.group import numbered
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import write_sitting
from courseware.quality.criteria import Criterion, PartEvidence
from courseware.quality.criteria_map import criteria_map
from courseware.quality.sampling import sampling_plan
from courseware.settings.settings import Settings
from courseware.workflows.quality import candidates

CLASS = 14
AT = stamp(datetime(2026, 1, 12, 9, tzinfo=UTC))
HOW = ("right", "right", "right", "slip", "carried", "unknown", "blank")


def class_sitting(learners: int = CLASS) -> Sitting:
    """The sitting that all others are copies of, with other codes and names."""
    banks, notes = read_banks(find_banks(["opening_sizes"]))
    chosen = tuple((banks[0], exercise) for exercise in banks[0].exercises[1:6])
    group = replace(numbered(learners), name="Group T")
    heads = Heads(title="Setting out", date="2026-01-12", group=group, seed="a large record", version="0")
    return deal_sitting(heads, banks, notes, chosen, [prove(exercise).space for _, exercise in chosen])


def fill(engine: Engine, sittings: int, like: Sitting) -> None:
    """So many sittings like this one, each script marked."""
    chance = random.Random(12)
    data = json.loads(write_sitting(like))
    labels = [(part.label, part.marks) for part in like.papers[0].parts]
    numbers = iter(range(1, 10_000_000))
    for sitting in range(sittings):
        own = code("a large record", str(sitting))
        head = {**data["sitting"], "code": own}
        codes = [code("a large record", str(sitting), str(place)) for place in range(len(like.papers))]
        scripts = [next(numbers) for _ in codes]
        tables = {
            SITTING: [
                {"code": own, "title": f"Sitting {sitting}", "date": "2026-01-12", "class_name": "Group T",
                 "head": json.dumps(head), "retake_of": None, "taken_at": AT}
            ],
            PAPER: [
                {"code": each, "sitting": own, "place": place, "issued": json.dumps(
                    {"code": each, **{key: value for key, value in data["papers"][place].items() if key not in ("code", "learner")}}
                )}
                for place, each in enumerate(codes)
            ],
            PERSON: [
                {"paper": each, "name": f"Learner {sitting} {place}", "reference": f"R-{sitting}-{place}", "at": AT}
                for place, each in enumerate(codes)
            ],
            REGISTER: [
                {"paper": each, "entry": "issued", "attempt": 1, "due": None, "sheets": "", "reason": "", "by": "J. Marsh",
                 "at": AT}
                for each in codes
            ],
            SCRIPT: [
                {"id": script, "paper": each, "attempt": 1, "role": "first", "status": "", "unread": "{}", "line": 2,
                 "cells": json.dumps({label: "910" for label, _ in labels}), "source": "marking-sheet.xlsx",
                 "assessor": chance.choice(("J. Marsh", "A. Boateng", "Q. Adeyemi")), "at": AT}
                for script, each in zip(scripts, codes, strict=True)
            ],
            MARK: [
                _mark(script, label, of, chance.choice(HOW))
                for script in scripts
                for label, of in labels
            ] + [_mark(script, *labels[0], "decided") for script in scripts[::10]],
            DECISION: [
                {"paper": each, "label": labels[0][0], "role": "first", "attempt": 1, "marks": 1, "reason": "shown",
                 "comment": "", "by": "A. Boateng", "at": AT, "source": None}
                for each in codes[::10]
            ],
        }  # fmt: skip
        with writing(engine) as connection:
            for table, rows in tables.items():
                connection.execute(insert(table), rows)


def _mark(script: int, label: str, of: int, how: str) -> dict[str, object]:
    marks = of if how in ("right", "carried") else 0
    return {"script": script, "label": label, "marks": marks, "of": of, "how": how, "why": "As the key has it.",
            "slips": "[]", "written": "910", "comment": "", "by": "J. Marsh", "at": AT}  # fmt: skip


def criterion_of_all(like: Sitting) -> tuple[Criterion, ...]:
    """A criterion for each exercise of the sitting, shown by all of its parts."""
    return tuple(
        Criterion(
            code=f"BRK-{place}", says="Sets out", jobs=(),
            parts=(
                PartEvidence(topic=issued.topic, exercise=issued.exercise, part="",
                             marked_as=tuple(part.name for part in issued.parts)),
            ),
        )
        for place, issued in enumerate(like.papers[0].exercises)
    )  # fmt: skip


def questions(engine: Engine, like: Sitting, codes: list[str], paper: str) -> dict[str, Callable[[], object]]:
    """What is asked of the record, by what it is for."""

    def sample() -> object:
        papers, _ = candidates(engine, codes, Settings())
        return sampling_plan(papers, size=100, seed="x", pass_lines=(Fraction(2, 5),))

    def criteria() -> object:
        with many_plain_objects():
            return criteria_map(criterion_of_all(like), outlines(engine, codes))

    def audit() -> object:
        return sitting_of(engine, codes[0]), history(engine, paper)

    return {"sampling": sample, "criteria": criteria, "audit": audit}


def _timed(ask: Callable[[], object]) -> float:
    began = time.process_time()
    ask()
    return time.process_time() - began


def main(papers: int) -> None:
    like = class_sitting()
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "record.sqlite"
        engine = open_record(f"sqlite:///{file}")
        sittings = -(-papers // CLASS)
        fill(engine, sittings, like)
        engine.dispose()
        print(f"{sittings * CLASS:,} papers of {len(like.papers[0].parts)} parts; {file.stat().st_size / 1e6:.0f} MB")
        began = time.process_time()
        engine = open_record(f"sqlite:///{file}")
        print(f"  opening: {time.process_time() - began:.2f} s")
        codes = [code("a large record", str(sitting)) for sitting in range(sittings)]
        for name, ask in questions(engine, like, codes, code("a large record", "0", "0")).items():
            print(f"  {name}: {min(_timed(ask) for _ in range(3)):.2f} s")
        engine.dispose()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
