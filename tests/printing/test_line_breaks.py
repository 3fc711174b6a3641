"""Where a line may not break: within a size and within a short sum."""

from __future__ import annotations

import re

import pytest

from courseware.papers.compose import compose_key, compose_paper
from courseware.printing.line_breaks import kept_together
from courseware.printing.render import key_sheet, paper_sheet


@pytest.mark.parametrize(
    ("says", "kept"),
    [
        ("Beds are 10 mm.", "Beds are 10_mm."),
        ("0.02 m³ to 1 m²", "0.02_m³ to 1_m²"),
        ("7⅝ in", "7⅝_in"),
        ("85 dB(A), 0.1 mg/m³, 2.5 m/s² A(8)", "85_dB(A), 0.1_mg/m³, 2.5_m/s² A(8)"),
        ("25 % of 20 kg", "25_% of 20_kg"),
        ("5 minutes, 3 mixes, 2 metres", "5 minutes, 3 mixes, 2 metres"),  # words may go to the next line
        ("Groups of four to 300 mm, or 19 × 75", "Groups of four to 300_mm, or 19_×_75"),
        ("Cuts: 90 − 48", "Cuts: 90_−_48"),
        ("215 × 102.5 × 65 mm", "215 ×_102.5 ×_65_mm"),
        ("course 3 − the first", "course 3 − the first"),
        ("BS EN ISO 16321-1 new", "BS EN ISO 16321-1 new"),
        ("mm", "mm"),
    ],
)
def test_a_size_and_a_short_sum_stand_on_one_line(says: str, kept: str) -> None:
    assert kept_together(says).replace("\u00a0", "_") == kept


def test_every_sheet_is_filled_so(composed) -> None:
    sitting, sources = composed("opening_sizes", 3)
    for markup, _ in (paper_sheet(compose_paper(sitting, 0, sources)), key_sheet(compose_key(sitting, 0, sources))):
        assert "\u00a0mm" in markup
        assert not re.search(r"\d mm\b", re.sub(r'alt="[^"]*"', "", markup))
