"""The fresh question on a feedback sheet: which exercise it is of, and a variant that the learner never had."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace

from courseware.feedback.compose import feedback_sheet
from courseware.feedback.fresh_question import variant_had
from courseware.papers.compose import read_sources
from courseware.papers.deal import issue_exercise
from tests.feedback.marked_papers import SITE, UNKNOWN, marked, only, other


def fresh_of(case, lost=None, **more):
    sitting, sources, spaces = case
    paper = marked(sitting, UNKNOWN if lost is None else lost)
    return feedback_sheet(sitting, 0, paper, sources, more.pop("spaces", spaces), **more).fresh


def test_it_is_of_the_same_exercise_as_far_as_the_part_that_slipped(on_openings) -> None:
    fresh = fresh_of(on_openings)
    assert fresh.had[:2] == ("Opening sizes", "opening-for-a-panel")
    assert [part.ask for part in fresh.asked.parts] == ["How wide must the opening be, brick to brick?"]
    assert (fresh.asked.marks, len(fresh.key.answers)) == (2, 1)
    assert fresh.key.asked == fresh.asked


def test_it_comes_the_same_every_time(on_openings) -> None:
    assert fresh_of(on_openings) == fresh_of(on_openings)


def test_it_is_none_of_this_sitting_and_none_that_the_learner_has_had(on_openings) -> None:
    sitting = on_openings[0]
    dealt = {variant_had(e) for paper in sitting.papers for e in paper.exercises}
    had: set = set()
    for _ in range(12):
        had.add(fresh_of(on_openings, had=frozenset(had)).had)
    assert len(had) == 12
    assert not had & dealt


def test_it_is_another_learners_only_where_the_space_leaves_no_other(on_openings) -> None:
    sitting, _, spaces = on_openings
    name = ("Opening sizes", "opening-for-a-panel")
    space = spaces[name]
    issued = [e for paper in sitting.papers for e in paper.exercises if e.exercise == name[1]]
    theirs = [i for i in range(len(space)) if {k: str(v) for k, v in space.variant(i).items()} in
              [dict(e.given) for e in issued]]  # fmt: skip
    tight = replace(space, indices=[space.indices[i] for i in theirs])
    fresh = fresh_of(on_openings, spaces={**spaces, name: tight})
    assert fresh.had in {variant_had(e) for e in issued[1:]}


def test_it_is_of_another_exercise_once_the_learner_has_had_them_all(on_openings) -> None:
    _, sources, spaces = on_openings
    name = ("Opening sizes", "opening-for-a-panel")
    bank, exercise = sources.exercises[name]
    all_had = frozenset(
        variant_had(issue_exercise(1, bank, exercise, spaces[name].variant(i), SITE, "seed", "paper"))
        for i in range(len(spaces[name]))
    )
    sitting = only(on_openings[0], "opening-for-a-panel", "which-rule")
    fresh = feedback_sheet(sitting, 0, marked(sitting, UNKNOWN), read_sources(sitting), spaces, had=all_had).fresh
    assert fresh
    assert fresh.had[1] not in ("opening-for-a-panel", "which-rule")
    assert fresh.lead == "From the same topic."


def test_it_is_a_level_up_where_everything_is_right(on_openings) -> None:
    sitting = only(on_openings[0], "opening-for-a-panel", "which-rule")
    sources = read_sources(sitting)
    sheet = feedback_sheet(sitting, 0, marked(sitting), sources, on_openings[2])
    assert sheet.wrong == ()
    assert sheet.fresh
    assert sheet.fresh.asked.level == 2
    assert len(sheet.fresh.asked.parts) == len(sources.exercises[sheet.fresh.had[:2]][1].parts)


def test_it_is_the_hardest_anew_where_nothing_harder_is_left(on_openings) -> None:
    fresh = fresh_of(on_openings, lost={})
    assert fresh.asked.level == max(e.level for _, e in on_openings[1].exercises.values())
    assert fresh.lead == "The hardest of these, with other numbers."


def test_it_is_left_out_where_no_space_is_proved(on_openings) -> None:
    assert fresh_of(on_openings, spaces={}) is None


def test_it_carries_the_cautions_of_its_exercise(on_openings) -> None:
    name = ("thick-bricks-in-an-old-opening", "bricks_wide")
    fresh = fresh_of(on_openings, lost={name: other("unknown")})
    assert [note.title for note in fresh.asked.safety] == ["Eyes, hands, feet", "Cutting", "Silica dust", "Noise"]


def test_it_has_no_field_for_an_answer_on_the_side_the_learner_sees(on_openings) -> None:
    fresh = fresh_of(on_openings)
    answer = fresh.key.answers[0][0].answer.split()[0]
    assert answer not in " ".join(_texts(fresh.asked))


def _texts(value):
    if isinstance(value, str):
        yield value
    elif is_dataclass(value):
        for field in fields(value):
            yield from _texts(getattr(value, field.name))
    elif isinstance(value, tuple):
        for inner in value:
            yield from _texts(inner)
