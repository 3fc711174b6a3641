"""What a learner's sheet must not show: the figures of the key that the paper has not, from three characters on."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from courseware.papers.compose import compose_key, compose_paper
from courseware.papers.key_secrets import Secrets, secrets, shows
from courseware.papers.sheets import Key, KeyLine, KeySlip


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


def saying(key: Key, where: str, words: str) -> Key:
    """The key of which the first answer says nothing but `words`, in one of the places where a key says something."""
    first = key.exercises[0].answers[0][0]
    slip = KeySlip(figure="1", says=words, earns=0)
    says = {
        "working": {"working": (KeyLine(say=words, figure="1"),)},
        "slips": {"slips": (slip,)},
        "accepts": {"accepts": (slip,)},
        "notes": {"notes": (words,)},
    }[where]
    bare = replace(first, working=(), slips=(), accepts=(), notes=(), answer="1 mm")
    return replace(key, exercises=(replace(key.exercises[0], answers=((replace(bare, **says),),)),))


@pytest.mark.parametrize("where", ["working", "slips", "accepts", "notes"])
@pytest.mark.parametrize(("words", "hidden"), [("a joint less", {"ajointless"}), ("joint less.", set())])
def test_what_the_key_alone_says_in_twelve_letters_or_more_is_hidden(composed, where, words, hidden) -> None:
    """Twelve signs, spaces among them, and eleven."""
    sitting, sources = composed("opening_sizes")
    paper, key = compose_paper(sitting, 0, sources), compose_key(sitting, 0, sources)
    assert secrets(paper, saying(key, where, words)) == Secrets(figures=frozenset(), sayings=frozenset(hidden))


def test_what_the_paper_or_its_margin_says_as_well_is_no_secret(composed) -> None:
    sitting, sources = composed("opening_sizes")
    paper, key = compose_paper(sitting, 0, sources), compose_key(sitting, 0, sources)
    asked = str(paper.exercises[0].parts[0].ask)
    assert len(asked) >= 12
    assert secrets(paper, saying(key, "notes", asked)).sayings == frozenset()
    margin = "Centre of the town, 4321"
    assert secrets(paper, saying(key, "notes", margin), [margin]).sayings == frozenset()
    with_figure = replace(key.exercises[0].answers[0][0], answer="4321 mm", working=(), slips=(), accepts=(), notes=())
    told = replace(key, exercises=(replace(key.exercises[0], answers=((with_figure,),)),))
    assert secrets(paper, told).figures == {"4321"}
    assert secrets(paper, told, [margin]).figures == frozenset()


def test_a_saying_is_found_however_a_page_breaks_it_and_figures_only_whole() -> None:
    hidden = Secrets(figures=frozenset({"1585", "1.5"}), sayings=frozenset({"ajointless"}))
    assert shows("There is a joint\nless than bricks.", hidden) == "ajointless"
    assert shows("A width of 1585 mm, a joint less", hidden) == "1585"
    assert shows("1585 mm by 1.5 m", hidden) == "1.5"  # the first of them in order
    assert shows("11585 mm, 1.55 m, a joint more", hidden) is None
