"""Appeals as they are looked at."""

from __future__ import annotations

from sqlalchemy import make_url

from courseware.files.record_location import opened
from courseware.settings.settings import DEFAULTS
from courseware.workflows.appeal import begin_appeal
from courseware.workflows.appeals_seen import appeal_seen, appeals_seen


def test_open_ones_stand_with_their_learner_and_the_marked_papers_to_choose_from(place) -> None:
    url, paper = make_url("sqlite:///output/record.sqlite"), place.sitting.papers[1]
    before = appeals_seen(url, place.sitting.code)
    assert (before.appeals, appeals_seen(url, "KKKKKKKK").papers) == ((), ())
    assert (paper.code, paper.learner.name) in before.papers
    assert appeal_seen(url, place, paper.code).appeal is None
    with opened(url, make=False) as engine:
        begun = begin_appeal(engine, place, paper.code, DEFAULTS, reason="1a", by="J. Marsh", day="2026-02-01")
    assert appeals_seen(url, "").appeals == ((begun.appeal, paper.learner.name),)
    seen = appeal_seen(url, place, paper.code)
    assert seen.appeal == begun.appeal
    assert [path.resolve() for path, _ in seen.files] == [begun.sheet.resolve(), begun.frozen.resolve()]


def test_without_a_record_there_is_nothing(tmp_path) -> None:
    nothing = make_url(f"sqlite:///{tmp_path}/record.sqlite")
    assert appeals_seen(nothing, "").sittings == ()
    assert not (tmp_path / "record.sqlite").exists()
