"""`courseware desk`: one address printed, the pages behind it, ended by Ctrl+C."""

from __future__ import annotations

import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from http.cookiejar import CookieJar
from pathlib import Path
from urllib.request import HTTPCookieProcessor, ProxyHandler, build_opener

import pytest

from tests.commands.conftest import run


@contextmanager
def started(*words: str) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """The command as a process of its own, and the address that it prints first."""
    command = [sys.executable, "-m", "courseware.cli", "desk", "--no-browser", *words]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as process:
        try:
            assert process.stdout is not None
            line = process.stdout.readline()
            found = re.fullmatch(r"The desk is open at (http://127\.0\.0\.1:\d+/enter/[\w-]+)\n", line)
            assert found, line
            yield process, found[1]
        finally:
            process.kill()


def test_the_address_printed_opens_the_folder_and_ctrl_c_ends_it(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    (tmp_path / "Year 1").mkdir()
    with started(str(tmp_path / "Year 1")) as (process, address):
        browser = build_opener(HTTPCookieProcessor(CookieJar()), ProxyHandler({}))
        with browser.open(address, timeout=20) as shown:
            assert "First make papers" in shown.read().decode()
            assert shown.url == address[: address.index("/enter/")] + "/"
        process.send_signal(signal.SIGINT)
        rest, _ = process.communicate(timeout=20)
        assert rest == "The desk is closed.\n"
        assert process.returncode == 0


def test_a_folder_that_is_not_there_is_refused() -> None:
    refused = run("desk", "no-such-folder", "--no-browser")
    assert refused.exit_code == 2
    assert "no-such-folder is not a folder" in refused.output


def test_other_machines_are_let_in_only_by_a_passphrase_and_with_a_warning(monkeypatch) -> None:
    monkeypatch.setenv("COURSEWARE_PASSPHRASE", "short")
    refused = run("desk", "--no-browser", "--listen", "192.0.2.1")  # RFC 5737: nobody's
    assert refused.exit_code == 2
    assert "Warning: other machines can reach this desk at 192.0.2.1" in refused.output
    assert "at least 12 characters" in refused.output


@pytest.mark.parametrize("typed", ["0.0.0.0", "::", "my-laptop"])
def test_only_one_address_of_this_machine_is_listened_on(typed: str) -> None:
    refused = run("desk", "--no-browser", "--listen", typed)
    assert refused.exit_code == 2
    assert "write one of this machine" in refused.output


def test_a_shortcut_is_written_to_the_desktop_and_starts_this_program(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.delenv("XDG_CONFIG_HOME", raising=False)
    (tmp_path / "Desktop").mkdir()
    done = run("desk", "--shortcut", str(tmp_path))
    [made] = (tmp_path / "Desktop").iterdir()
    assert done.output.startswith(f"Double-click to open the desk: {made}\n")
    assert f'"{tmp_path}"' in made.read_text(encoding="utf-8")
