"""Whose papers these are is never guessed: what may be two people is asked about."""

from __future__ import annotations

import pytest

from courseware.database.errors import RecordRefuses
from courseware.database.learner_lookup import Held, whose
from courseware.papers.codes import code

CODES = [code("a seed", str(turn)) for turn in range(8)]


def held(place: int, name: str, reference: str = "", sitting: str = "S") -> Held:
    return Held(sitting=sitting, paper=CODES[place], name=name, reference=reference)


AMARA = [held(0, "Amara Okafor", "12"), held(1, "Łukasz Wójcik", "13"), held(2, "Amara Okafor", "12", sitting="T")]


@pytest.mark.parametrize("who", [CODES[0], CODES[2].lower().replace("-", " "), "12", "Amara Okafor", " Amara  Okafor "])
def test_a_code_a_reference_or_a_name_finds_all_papers_of_the_learner(who) -> None:
    assert whose(AMARA, who).codes == (CODES[0], CODES[2])


@pytest.mark.parametrize("who", ["", "Amara", "amara okafor", "1", "AAAA-AAAA-A", CODES[7]])
def test_anything_else_finds_nobody(who) -> None:
    with pytest.raises(RecordRefuses, match="no learner goes by"):
        whose(AMARA, who)


def test_a_reference_that_two_groups_count_by_is_asked_about() -> None:
    papers = [held(0, "Amara Okafor", "1"), held(1, "Łukasz Wójcik", "1", sitting="T")]
    with pytest.raises(
        RecordRefuses, match=rf"may be more than one learner: Amara Okafor, reference 1 \(paper {CODES[0]}\)"
    ):
        whose(papers, "1")
    assert whose(papers, CODES[0]).codes == (CODES[0],)


def test_two_of_one_name_with_their_own_references_are_two_learners() -> None:
    papers = [held(0, "Sam Hill", "1"), held(1, "Sam Hill", "2")]
    with pytest.raises(RecordRefuses, match="give a paper code"):
        whose(papers, "Sam Hill")
    assert whose(papers, "2").codes == (CODES[1],)


def test_two_that_nothing_tells_apart_are_taken_by_their_codes_alone() -> None:
    papers = [held(0, "Sam Hill"), held(1, "Sam Hill"), held(2, "Sam Hill", sitting="T")]
    with pytest.raises(RecordRefuses, match="stands on two papers of one sitting"):
        whose(papers, "Sam Hill")
    found = whose(papers, CODES[0])
    assert found.codes == (CODES[0],)
    assert found.others == (CODES[1], CODES[2])


def test_a_name_put_right_on_one_paper_joins_both_names() -> None:
    papers = [held(0, "Amara Okafor", "12"), held(0, "Amara Lind", "12"), held(1, "Amara Lind", "12", sitting="T")]
    for who in ("Amara Okafor", "Amara Lind", "12", CODES[1]):
        assert set(whose(papers, who).codes) >= {CODES[1]}
    assert whose(papers, "Amara Okafor").codes == (CODES[0], CODES[1])
    assert whose(papers, "Amara Okafor").words == (CODES[0], CODES[1], "Amara Lind", "12", "Amara Okafor")


def test_a_numbered_paper_is_found_by_its_code_and_alone() -> None:
    papers = [held(0, ""), held(1, "")]
    assert whose(papers, CODES[1]).codes == (CODES[1],)
