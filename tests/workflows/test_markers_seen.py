"""How far other people's marking is."""

from __future__ import annotations

from courseware.database.opening import open_record
from courseware.settings.settings import DEFAULTS
from courseware.workflows.markers_seen import markers_seen
from courseware.workflows.second_marking import enter_second, write_second_sheet
from tests.workflows.filled_marks import fill


def test_who_has_marked_how_much_and_the_files_for_it(place) -> None:
    engine = open_record("sqlite:///output/record.sqlite")
    before = markers_seen(engine, place)
    assert (before.marked, before.second, before.in_pack, before.files) == (2, (), 0, ())
    path, _ = write_second_sheet(engine, place)
    sheet = fill(path, "second.xlsx")
    entered = enter_second(engine, place, sheet, DEFAULTS, marker="P. Dunn", names=False)
    after = markers_seen(engine, place)
    assert after.second == (("P. Dunn", entered.added),)
    assert [one.name for one, _ in after.files] == [path.name]
    engine.dispose()
