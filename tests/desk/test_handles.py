"""Files by handle."""

from __future__ import annotations

from pathlib import Path

from courseware.desk.handles import Handles


def test_a_path_keeps_its_handle_and_a_handle_its_path(tmp_path: Path) -> None:
    handles = Handles()
    one, other = handles.of(tmp_path / "a"), handles.of(tmp_path / "b")
    assert handles.of(tmp_path / "a") == one != other
    assert handles.path(one) == tmp_path / "a"


def test_a_handle_of_another_run_is_none(tmp_path: Path) -> None:
    assert Handles().path(Handles().of(tmp_path)) is None


def test_a_handle_tells_nothing_of_its_path_and_fits_an_address(tmp_path: Path) -> None:
    handle = Handles().of(tmp_path / "Łukasz")
    assert handle.isascii()
    assert handle.isalnum()
    assert handle != Handles().of(tmp_path / "Łukasz")
