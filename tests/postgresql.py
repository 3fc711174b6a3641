"""A PostgreSQL server of the tests' own: in a folder of its own, run by a user who may do nothing else, gone afterwards."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

import pytest

USER = "assessors"
_QUICK = ("fsync=off", "synchronous_commit=off", "full_page_writes=off", "shared_buffers=16MB", "max_connections=20")


def program(name: str) -> str | None:
    """A program of PostgreSQL: Debian puts them apart, by version."""
    apart = sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"))
    return str(apart[-1]) if apart else shutil.which(name)


def _who() -> dict[str, str | int]:
    """Who runs the server: it refuses the administrator."""
    if os.geteuid() != 0:
        return {}
    import pwd

    names = {one.pw_name for one in pwd.getpwall()}
    return {"user": "postgres" if "postgres" in names else "nobody"}


@pytest.fixture(scope="session")
def postgresql() -> Iterator[Callable[[], str]]:
    """Makes an empty schema at each call, and gives its URL. Skips where no PostgreSQL is installed."""
    initdb, pg_ctl = program("initdb"), program("pg_ctl")
    if initdb is None or pg_ctl is None:
        pytest.skip("PostgreSQL is not installed")
    folder = Path(tempfile.mkdtemp(prefix="pg-"))  # its socket's path has to be short
    who = _who()
    if who:
        shutil.chown(folder, str(who["user"]))
    data = str(folder / "data")

    def run(name: str, *words: str) -> None:
        subprocess.run([name, "-D", data, *words], check=True, stdout=subprocess.DEVNULL, cwd="/", **who)

    run(initdb, "-U", USER, "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync")
    settings = " ".join(f"-c {one}" for one in _QUICK)
    listening = f"-k {folder} -c listen_addresses='' {settings}"
    run(pg_ctl, "-l", str(folder / "log"), "-w", "-o", listening, "start")
    numbers = count(1)

    def schema() -> str:
        import psycopg

        name = f"record_{next(numbers)}"
        with psycopg.connect(host=str(folder), user=USER, dbname="postgres", autocommit=True) as connection:
            connection.execute(f"CREATE SCHEMA {name}")
        return f"postgresql+psycopg://{USER}@/postgres?host={folder}&options=-csearch_path%3D{name}"

    try:
        yield schema
    finally:
        run(pg_ctl, "-m", "immediate", "stop")
        shutil.rmtree(folder, ignore_errors=True)
