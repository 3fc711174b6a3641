"""A shelf looks files up by the words of an address: own or shipped, nothing else, and no name leads anywhere else."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from anyio.from_thread import start_blocking_portal
from starlette.exceptions import HTTPException

from courseware.desk.shelf import Shelf
from courseware.files.bank_files import NotFound

KNOWN = {"piers": "own piers", "piers / 2": "own too"}


def own(_: Path, name: str) -> str:
    if name not in KNOWN:
        raise NotFound(name)
    return KNOWN[name]


SHELF = Shelf(address="/banks", shipped="shipped", open_own=own, open_shipped=lambda name: f"shipped {name}")


def asked(name: str, **more: str) -> Any:
    desk = SimpleNamespace(folder=Path())
    app = SimpleNamespace(state=SimpleNamespace(desk=desk))
    return SimpleNamespace(path_params={"name": name, **more}, app=app)


def opened(request: Any) -> object:
    """What the shelf opens, in a thread of its own: a browser of another test may have an event loop in this one."""
    with start_blocking_portal() as portal:
        return portal.call(SHELF.opened, request)


def test_a_file_is_found_among_its_own_kind() -> None:
    assert opened(asked("piers")) == "own piers"
    assert opened(asked("piers", whose="shipped")) == "shipped piers"
    assert (SHELF.is_own(asked("piers", whose="own")), SHELF.is_own(asked("piers", whose="shipped"))) == (True, False)


def test_an_address_holds_a_name_whatever_it_is() -> None:
    assert SHELF.at(asked("piers / 2")) == "/banks/own/piers%20%2F%202"
    assert SHELF.at(asked("piers", whose="shipped")) == "/banks/shipped/piers"


@pytest.mark.parametrize(("name", "more"), [("piers", {"whose": "theirs"}), ("../piers", {}), ("", {"whose": "own"})])
def test_what_is_not_there_is_no_page(name: str, more: dict[str, str]) -> None:
    with pytest.raises(HTTPException) as refused:
        opened(asked(name, **more))
    assert refused.value.status_code == 404
