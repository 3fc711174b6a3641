"""A sitting as the JSON of its sitting.json, there and back. Nothing here touches a file."""

from __future__ import annotations

import json
from dataclasses import asdict
from functools import lru_cache
from textwrap import indent
from typing import Any

from pydantic import TypeAdapter

from courseware.papers.sheet_format import format_words, read_format
from courseware.papers.sitting import (
    IssuedExercise,
    IssuedPaper,
    IssuedPart,
    Sitting,
    SourceFile,
)
from courseware.papers.sitting_checks import check_sitting
from courseware.settings.settings import SITTING_KEYS, Settings

FORM = 1  # of a sitting.json; a later form is refused rather than misread


class SittingFaulty(ValueError):
    """A sitting.json that cannot be used, and why."""


def write_sitting(sitting: Sitting) -> str:
    """The sitting as JSON text."""
    head = {
        "code": sitting.code,
        "title": sitting.title,
        "date": sitting.date,
        "group": sitting.group,
        "seed": sitting.seed,
        "arris_rule": sitting.settings.arris_rule,
        "banks": [_source(bank) for bank in sitting.banks],
        "safety": _source(sitting.safety) if sitting.safety else None,
        "version": sitting.version,
        "form": FORM,
        **({"retake_of": sitting.retake_of} if sitting.retake_of else {}),
        **({"due": sitting.due} if sitting.due else {}),
        **({"approved_by": sitting.approved_by} if sitting.approved_by else {}),
        **({"made_with": dict(sitting.made_with)} if sitting.made_with else {}),
        **({"settings": own} if (own := settings_told(sitting.settings)) else {}),
    }
    # Paper by paper: a large class is large in memory.
    told = [_text({"sitting": head}).removesuffix("\n}"), ',\n "papers": [']
    for place, paper in enumerate(sitting.papers):
        told += [",\n" if place else "\n", indent(_text(_paper(paper)), "  ")]
    return "".join([*told, "\n ]\n}\n"])


def settings_told(settings: Settings) -> dict[str, Any]:
    """The settings of a sitting beside its arris rule, as JSON has them: those alone that are not as by default."""
    own = settings.of_a_sitting()
    found: dict[str, Any] = {key: getattr(own, key) for key in own.changed(SITTING_KEYS) if key != "arris_rule"}
    if "signatures" in found:
        found["signatures"] = {sheet: signed for sheet, signed in asdict(own.signatures).items() if signed["signed"]}
    return found


def _text(data: dict[str, Any]) -> str:
    return json.dumps(data, ensure_ascii=False, indent=1)


@lru_cache(maxsize=1)  # what a command has read is what its sheets are printed from
def read_sitting(text: str) -> Sitting:
    """The sitting in a sitting.json's text. Raises `SittingFaulty` where it is not one, or was changed out of shape."""
    try:
        seen: dict[str, str] = {}
        data = json.loads(text, object_hook=lambda found: _once(found, seen))
        head = dict(data["sitting"])
        if head.pop("form") != FORM:
            raise SittingFaulty("it was written by a later version of this program; bring the program up to date")
        told = {**head.pop("settings", {}), "arris_rule": head.pop("arris_rule")}
        head["settings"] = {key: told[key] for key in SITTING_KEYS if key in told}
        papers = [_read_paper(paper) for paper in data["papers"]]
        sitting = TypeAdapter(Sitting).validate_python({**head, "papers": papers})
        check_sitting(sitting)
    except SittingFaulty:
        raise
    except (LookupError, TypeError, AttributeError, RecursionError, ValueError):  # as are JSON's and pydantic's
        raise SittingFaulty("it is not a sitting.json, or it has been changed by hand") from None
    return sitting


def _once(found: dict[str, Any], seen: dict[str, str]) -> dict[str, Any]:
    """A map whose texts are each in memory once: a class's papers say the same of every slip."""
    return {key: seen.setdefault(value, value) if isinstance(value, str) else value for key, value in found.items()}


def _source(source: SourceFile) -> dict[str, str]:
    return {"file": source.file, "sha256": source.sha256, "text": source.text}


def _paper(paper: IssuedPaper) -> dict[str, Any]:
    learner = {"name": paper.learner.name, "ref": paper.learner.reference}
    return {
        "code": paper.code,
        "learner": learner,
        **({"format": words} if (words := format_words(paper.learner.sheets)) else {}),
        "exercises": [_exercise(e) for e in paper.exercises],
    }


def _exercise(exercise: IssuedExercise) -> dict[str, Any]:
    return {
        "topic": exercise.topic,
        "exercise": exercise.exercise,
        "given": dict(exercise.given),
        "site": dict(exercise.site),
        "setting": exercise.setting,
        "parts": [_part(part) for part in exercise.parts],
    }


def _part(part: IssuedPart) -> dict[str, Any]:
    found: dict[str, Any] = {
        "label": part.label,
        "name": part.name,
        "kind": part.kind,
        "answer": part.answer,
        "unit": part.unit,
        "within": part.within,
        "marks": part.marks,
        "slips": [{"value": value, "says": says} for value, says in part.slips],
    }
    if part.shown:
        found["shown"] = list(part.shown)
    if part.before:
        found["before"] = [list(pair) for pair in part.before]
    return found


def _read_paper(paper: dict[str, Any]) -> dict[str, Any]:
    learner = {
        "name": paper["learner"]["name"],
        "reference": paper["learner"]["ref"],
        "sheets": read_format(paper.get("format", "")),
    }
    return {"code": paper["code"], "learner": learner, "exercises": [_lined(e) for e in paper["exercises"]]}


def _lined(exercise: dict[str, Any]) -> dict[str, Any]:
    parts = [{**part, "slips": [(slip["value"], slip["says"]) for slip in part["slips"]]} for part in exercise["parts"]]
    return {**exercise, "parts": parts}
