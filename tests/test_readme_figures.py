"""The README's table on speed is the one that its command prints: the same rows, in the same order, and none beside."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[1]
TEXT = (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def figures() -> ModuleType:
    spec = importlib.util.spec_from_file_location("readme_figures", ROOT / "tests/benchmarks/readme_figures.py")
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    sys.modules["readme_figures"] = module
    spec.loader.exec_module(module)
    return module


def test_the_readme_states_what_its_command_measures(figures) -> None:
    assert figures.rows(TEXT) == figures.ROWS


def test_nothing_on_speed_stands_outside_what_is_measured() -> None:
    section = TEXT[TEXT.index("## Speed") : TEXT.index("## Licence")]
    outside = section[: section.index("<!-- speed:")] + section[section.index("<!-- end of speed -->") :]
    assert not any(letter.isdigit() for letter in outside)


def test_a_table_written_is_the_table_read(figures) -> None:
    made = "| what | figure |\n|---|---|\n| a thing | 1 ms |\n| another | 2 MB |"
    text = figures.with_table(TEXT, made)
    assert figures.rows(text) == ("a thing", "another")
    assert text.count(figures.BEGIN) == text.count(figures.END) == 1
    assert figures.with_table(text, made) == text


@pytest.mark.parametrize(
    ("times", "says"),
    [
        ({"plain": 0.4, "ours": 0.2}, "200 ms: 0.50 of WeasyPrint used plainly"),
        (
            {"plain": 0.4, "ours": 0.2, "chromium": 0.1, "chromium started": 0.8},
            "200 ms: 0.50 of WeasyPrint used plainly, 2.00 of Chromium kept open, 0.25 of Chromium started for each",
        ),
    ],
)
def test_ratios_are_ours_to_the_others(figures, times, says) -> None:
    assert figures.told_of(times) == says
