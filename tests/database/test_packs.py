"""Packs of a sitting: the newest counts."""

from __future__ import annotations

import pytest

from courseware.database.learner_lookup import whose
from courseware.database.learners import delete_papers, held
from courseware.database.packs import InPack, keep_pack, pack_of


@pytest.mark.each_database
def test_the_newest_pack_of_a_sitting_counts(record, sitting, later) -> None:
    first, second, _ = (paper.code for paper in sitting.papers)
    assert pack_of(record, sitting.code) == ()
    one = [InPack(letter="B", code=first, attempt=1), InPack(letter="A", code=second, attempt=2)]
    assert keep_pack(record, sitting.code, one, at=later(1)) == 1
    assert pack_of(record, sitting.code) == tuple(sorted(one, key=lambda each: each.letter))
    assert keep_pack(record, sitting.code, one[:1], at=later(2)) == 2
    assert pack_of(record, sitting.code) == (one[0],)


def test_a_deleted_learners_script_leaves_the_pack(record, sitting, later) -> None:
    first, second, _ = (paper.code for paper in sitting.papers)
    keep_pack(
        record,
        sitting.code,
        [InPack(letter="A", code=first, attempt=1), InPack(letter="B", code=second, attempt=1)],
        at=later(1),
    )
    delete_papers(record, whose(held(record), first))
    assert [one.code for one in pack_of(record, sitting.code)] == [second]
