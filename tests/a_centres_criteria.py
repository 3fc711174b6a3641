"""Criteria of an invented centre, and what a report of them says."""

from __future__ import annotations

from pathlib import Path

from pypdf import PdfReader

NAMES = ("Amara Okafor", "Łukasz Wójcik", "Zoë O'Brien-Smythe")  # as the shared fixture deals them; invented
CRITERIA = """\
criteria:  # invented codes
  - code: BRK-1.1
    says: Works out openings and piers so that no brick is cut
    evidence:
      - {topic: Opening sizes, exercise: opening-for-a-panel}
      - {topic: opening_sizes, exercise: wall-between-two-wings, part: pier_length}
  - code: BRK-1.2
    says: Builds a panel within the tolerances
    evidence: [{job: porch-panel, line: joints}]
  - code: BRK-1.3
    says: Works safely
"""


def text_of(file: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(file).pages)
