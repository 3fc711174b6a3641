"""The command line as a whole: its commands, its help, its version, and what may go wrong before any of them runs."""

from __future__ import annotations

import click
import pytest
from click.testing import CliRunner, Result

from courseware import __version__
from courseware.cli import main
from courseware.files.bank_files import NotFound


def run(*words: str) -> Result:
    return CliRunner().invoke(main, words)


def test_every_command_stands_in_the_help_with_one_line() -> None:
    told = run("--help").output
    listed = told[told.index("Commands:") :].splitlines()[1:]
    assert [line.split()[0] for line in listed if line.strip()] == sorted(main.commands)
    assert all(len(line.split()) > 1 for line in listed if line.strip())


@pytest.mark.parametrize("command", [(), *((name,) for name in main.commands)])
def test_help_is_given_by_both_its_options(command: tuple[str, ...]) -> None:
    long, short = run(*command, "--help"), run(*command, "-h")
    assert (long.exit_code, short.exit_code) == (0, 0)
    assert long.output == short.output
    assert long.output.startswith("Usage: ")


def test_the_version_is_told() -> None:
    assert run("--version").output == f"courseware, version {__version__}\n"


@pytest.mark.parametrize(
    ("words", "says"),
    [(("isue",), "isue"), (("check", "--no-such"), "--no-such"), (("record", "nonsense"), "nonsense")],
)  # fmt: skip
def test_a_word_that_is_no_command_or_option_is_told(words: tuple[str, ...], says: str) -> None:
    done = run(*words)
    assert done.exit_code == 2
    assert "No such" in done.output
    assert says in done.output


@pytest.mark.parametrize(
    ("error", "code", "says"),
    [
        (NotFound("there is no bank x"), 2, "there is no bank x. Nothing was made.\n"),
        (click.ClickException("say which"), 1, "Error: say which\n"),
        (click.Abort(), 1, "Aborted!\n"),
        (KeyError("x"), 4, "This is a fault of the program (KeyError)"),
    ],
)
def test_what_goes_wrong_is_one_message_and_an_exit_code(tmp_path, monkeypatch, error, code: int, says: str) -> None:
    def fail(*_: object, **__: object) -> None:
        raise error

    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    monkeypatch.setattr(main.commands["topics"], "invoke", fail)
    done = run("topics")
    assert done.exit_code == code
    assert says in done.output
    assert "Traceback" not in done.output


def test_a_message_goes_where_messages_go_and_not_among_results(monkeypatch) -> None:
    def fail(*_: object, **__: object) -> None:
        raise NotFound("there is no bank x")

    monkeypatch.setattr(main.commands["topics"], "invoke", fail)
    done = run("topics")
    assert done.stdout == ""
    assert "there is no bank x" in done.stderr


@pytest.mark.parametrize("words", [("check", "b\udce9nk.yaml"), ("issue", "piers.yaml", "--out", "w\udcff/output")])
def test_a_name_whose_bytes_are_no_letters_is_refused_before_any_work(words: tuple[str, ...]) -> None:
    """As a file named on an old disk or by another system: the record and the sheets could not say it."""
    done = run(*words)
    assert done.exit_code == 2
    assert "these letters are not UTF-8; give the file or folder another name" in done.output
    assert "\\udc" in done.output


def test_letters_of_any_language_are_letters() -> None:
    assert "there is no bank Bänk-王.yaml" in run("check", "Bänk-王.yaml").output
