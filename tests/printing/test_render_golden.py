"""Golden text: the words of a paper and its key for three seeds, as a screen reader meets them.

Refresh with `pytest tests/printing/test_render_golden.py --refresh`, then read the diff: it is what changes on the paper.
"""

from pathlib import Path

import pytest

from courseware.papers.compose import compose_key, compose_paper
from courseware.printing.render import key_pdf, paper_pdf

GOLDEN = Path(__file__).parent / "golden"


@pytest.mark.parametrize(
    ("seed", "topic"), [("plumb", "opening_sizes"), ("level", "projection_levelling"), ("gauge", "course_gauge")]
)
def test_the_words_of_a_paper_and_its_key(composed, read_aloud, same_text, seed, topic) -> None:
    sitting, sources = composed(topic, 4, seed)
    same_text(GOLDEN / f"{seed}-paper.txt", read_aloud(paper_pdf(compose_paper(sitting, 0, sources))))
    same_text(GOLDEN / f"{seed}-key.txt", read_aloud(key_pdf(compose_key(sitting, 0, sources))))
