"""What holds for every command: none loads heavy libraries for its help, none shows a traceback."""

from __future__ import annotations

import subprocess
import sys

import pytest

from courseware.cli import main
from tests.commands.conftest import run


def test_help_loads_nothing_heavy() -> None:
    script = (
        "import sys; sys.argv = ['courseware', '--help']\n"
        "from courseware.cli import main\n"
        "try: main()\n"
        "except SystemExit: print(sorted({'weasyprint', 'pydantic', 'yaml', 'faker', 'openpyxl', 'rich'} & set(sys.modules)))\n"
    )
    told = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True).stdout
    assert told.splitlines()[-1] == "[]"


class _NoException(BaseException):
    """As the page engine's own: it is not an `Exception`."""


@pytest.mark.parametrize("fault", [KeyError("x"), RecursionError(), MemoryError(), AssertionError(), _NoException("x")])
@pytest.mark.parametrize("command", list(main.commands))
def test_no_command_shows_a_traceback_whatever_goes_wrong(
    desk, monkeypatch, command: str, fault: BaseException
) -> None:
    def fail(*_: object, **__: object) -> None:
        raise fault

    monkeypatch.setattr("tempfile.tempdir", str(desk))
    monkeypatch.setattr(type(main.commands[command]), "invoke", fail)
    done = run(command)
    assert done.exit_code == 4
    assert "This is a fault of the program" in done.output
    assert "Traceback" not in done.output
    assert "\n" not in done.output.rstrip()
