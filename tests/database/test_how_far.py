"""How far a record is: another value with each row added or taken away, the same while nothing is done."""

from __future__ import annotations

from courseware.database.how_far import how_far
from courseware.database.learner_lookup import whose
from courseware.database.learners import delete_papers, held
from courseware.database.scripts import enter_scripts


def test_it_is_the_same_until_something_is_entered_or_deleted(record, sitting, written, later) -> None:
    seen = [how_far(record)]
    assert how_far(record) == seen[0]
    first, second = sitting.papers[:2]
    for minute, paper in ((1, first), (2, second)):
        script = written(paper, "910")
        enter_scripts(
            record, sitting.code, [script], (), assessor="J. Marsh", role="first", source="s", at=later(minute)
        )
        seen.append(how_far(record))
    delete_papers(record, whose(held(record), first.learner.name))
    seen.append(how_far(record))
    assert len(set(seen)) == 4
