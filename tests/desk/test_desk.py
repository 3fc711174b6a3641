"""What one run of the desk holds."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.desk.desk import NoFolder
from courseware.settings.settings import DEFAULTS
from tests.desk.conftest import desk_over


def test_without_a_folder_there_is_nothing_to_work_in() -> None:
    desk = desk_over(None)
    assert not desk.chosen
    with pytest.raises(NoFolder):
        _ = desk.out


def test_a_chosen_folder_is_worked_in_and_remembered(tmp_path: Path) -> None:
    desk = desk_over(None, remembered=tmp_path / "last")
    desk.choose(tmp_path)
    assert desk.out == tmp_path / "output"
    assert (tmp_path / "last").read_text() == str(tmp_path)


def test_settings_are_those_of_the_folder_as_they_stand_now(tmp_path: Path) -> None:
    desk = desk_over(tmp_path)
    assert desk.settings() == DEFAULTS
    (tmp_path / "centre.yaml").write_text("name: Brookfield Trades College\n")
    assert desk.settings().name == "Brookfield Trades College"


def test_one_address_is_on_offer_at_a_time() -> None:
    told: list[str] = []
    desk = desk_over(None, say=told.append)
    desk.offer()
    desk.offer()
    [address] = told
    token = address.removeprefix("http://127.0.0.1:8123/enter/")
    assert desk.sessions.enter(token) is not None
    desk.offer()
    assert len(told) == 2
