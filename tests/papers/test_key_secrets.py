"""What a learner's sheet must not show: the figures of the key that the paper has not, from three characters on."""

from __future__ import annotations

import re

from courseware.papers.compose import compose_key, compose_paper
from courseware.papers.key_secrets import secrets, shows


def test_every_figure_of_three_signs_or_more_that_is_the_keys_alone_is_hidden(composed) -> None:
    sitting, sources = composed("opening_sizes")
    paper, key = compose_paper(sitting, 0, sources), compose_key(sitting, 0, sources)
    hidden = secrets(paper, key)
    told = set(re.findall(r"\d+(?:\.\d+)?", str(paper)))
    answers = {
        f for e in key.exercises for part in e.answers for a in part for f in re.findall(r"\d+(?:\.\d+)?", a.answer)
    }
    own = answers - told
    lengths = {len(figure) for figure in own}
    assert 3 in lengths, "the sitting must have an answer of three characters"
    assert {f for f in own if len(f) >= 3} <= hidden.figures
    assert min(len(f) for f in hidden.figures) == 3
    for figure in hidden.figures:
        assert shows(f"It is {figure} mm.", hidden) == figure
