"""The shared table of written answers, against the page's own reading code in the browser.

tests/marking/written_cases.csv is what marking is tested with too: one table, two readers.
"""

from __future__ import annotations

import csv
import json
from fractions import Fraction
from pathlib import Path

import pytest

CASES = Path(__file__).parents[1] / "marking" / "written_cases.csv"
READ = """
cases => cases.map(({typed, unit, expected, asked}) => {
  const {readFigure, settled, exact} = globalThis.code;
  const written = readFigure(typed, unit, asked ?? "");
  const value = written.figures.length === 0 ? null : expected === "" ? (written.figures.length === 1 ? written.figures[0] : null) : settled(written, exact(expected));
  const text = figure => `${figure.n}/${figure.d}`;
  return {reading: written.reading, figures: written.figures.map(text), bare: written.bare.map(text), value: value && text(value), decimals: written.decimals};
})
"""


@pytest.fixture(scope="module")
def cases() -> list[dict[str, str]]:
    with CASES.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_the_page_reads_as_marking_does(own_code, cases) -> None:
    assert len(cases) > 100
    wrong = []
    for case, found in zip(cases, own_code.evaluate(READ, cases), strict=True):
        reading = found["reading"]
        if reading == "figure" and found["value"] is None:
            reading = "person"  # a comma that may mean either
        expected = (case["reading"], Fraction(case["value"]) if case["value"] else None)
        value = found["value"] if reading == "figure" else found["bare"][0] if reading == "wrong unit" else None
        if (reading, Fraction(value) if value else None) != expected:
            wrong.append((case["typed"], case["unit"], expected, json.dumps(found)))
        elif len(found["figures"]) == 1 and case["decimals"] and found["decimals"] != int(case["decimals"]):
            wrong.append((case["typed"], "decimals", case["decimals"], found["decimals"]))
    assert wrong == []
