"""The manual is right: its reference comes from the code, its bank proves, its commands are the program's.

Refresh the reference with `pytest tests/test_readme.py --refresh`.
"""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from courseware.cli import main
from courseware.files.centre_file import find_settings
from courseware.jobs.plan import plan_of
from courseware.workflows.bank_reference import bank_reference
from courseware.workflows.jobs import find_job
from tests.jobs.filled_sheet import filled
from tests.practice.saved_practices import as_bytes, saved

README = Path(__file__).parents[1] / "README.md"
TEXT = README.read_text(encoding="utf-8")
BEGIN, END = "<!-- reference: written by `pytest tests/test_readme.py --refresh` -->", "<!-- end of reference -->"


def reference_text() -> str:
    """The reference of the code, as the manual has it."""
    found = bank_reference()
    tables = [
        "\n".join([
            f"**{title}**", "", "| key | what it holds |", "|---|---|",
            *(f"| `{key.name}` | {'' if key.needed else 'optional: '}{key.says} |" for key in keys),
        ])
        for title, keys in found.keys.items()
    ]  # fmt: skip
    assert all(says for _, says in found.functions)
    functions = [
        "**Names in every formula**: " + ", ".join(f"`{name}`" for name in found.names)
        + " (`joint` where perpend and bed agree; lengths in mm).",
        "",
        "**Functions** (what stands in brackets may be left out; lengths in mm):",
        "",
        "| function | gives |",
        "|---|---|",
        *(f"| `{written}` | {says} |" for written, says in found.functions),
        "",
        "**Limits on a projection**: " + ", ".join(f'`"{name}"`' for name in found.limits) + ".",
        "",
        "**Brick formats**: " + ", ".join(f"`{name}`" for name in found.formats) + ".",
    ]  # fmt: skip
    drawings = [
        "| drawing | shows | arguments | dimensions |",
        "|---|---|---|---|",
        *(
            f"| `{one.name}` | {one.says} | "
            + "; ".join(f"`{name}` {limits}{'' if needed else ' (optional)'}" for name, limits, needed in one.arguments)
            + f" | {', '.join(f'`{dimension}`' for dimension in one.dimensions)} |"
            for one in found.drawings
        ),
    ]
    return "\n\n".join([*tables, "\n".join(functions), "\n".join(drawings)])


def test_the_reference_is_that_of_the_code(request) -> None:
    reference = reference_text()
    before, _, rest = TEXT.partition(BEGIN)
    after = rest.partition(END)[2]
    wanted = f"{before}{BEGIN}\n\n{reference}\n\n{END}{after}"
    if request.config.getoption("--refresh"):
        README.write_text(wanted, encoding="utf-8")
    assert README.read_text(encoding="utf-8") == wanted


@pytest.fixture
def fresh_folder(tmp_path, monkeypatch) -> Path:
    """A folder with the manual's own bank, class list and criteria in it."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    Path("centre.yaml").write_text(block("yml"), encoding="utf-8")
    Path("piers.yaml").write_text(block("yaml"), encoding="utf-8")
    Path("group-a.csv").write_text(block("csv"), encoding="utf-8")
    Path("amara.xlsx").write_bytes(filled(plan_of(find_job("porch-panel", find_settings(None)))))
    Path("practice-amira-khan.json").write_bytes(as_bytes(saved()))
    return tmp_path


def block(language: str) -> str:
    [found] = re.findall(rf"^ *```{language}\n(.*?)^ *```", TEXT, re.DOTALL | re.MULTILINE)
    return "".join(line.removeprefix("   ") if language == "csv" else line for line in found.splitlines(keepends=True))


def test_the_worked_bank_proves(fresh_folder) -> None:
    done = CliRunner().invoke(main, ["check", "piers.yaml"])
    assert done.exit_code == 0, done.output
    assert "all 1 exercises proved: 64 variants walked" in done.output


def commands() -> list[str]:
    blocks = re.findall(r"```console\n(.*?)```", TEXT, re.DOTALL)
    lines = [line.strip() for text in blocks for line in text.splitlines()]
    return [line for line in lines if line] + re.findall(r"\| `(courseware [^`]+)` \|", TEXT)


def test_every_command_of_the_manual_is_one_that_the_program_takes(fresh_folder) -> None:
    """Its names, options and numbers of arguments; `test_readme_commands.py` runs them."""
    assert {line.split()[1] for line in commands()} == set(main.commands)
    for line in commands():
        words = shlex.split(line)[1:]
        command: click.Command = main.commands[words.pop(0)]
        if isinstance(command, click.Group):
            command = command.commands[words.pop(0)]
        with click.Context(command, parent=click.Context(main, **main.context_settings)) as context:
            command.parse_args(context, words)


def test_every_option_of_issue_is_in_the_manual_or_its_help() -> None:
    issue = main.commands["issue"]
    assert all(option.help for option in issue.params if getattr(option, "opts", [""])[0].startswith("--"))


def test_every_picture_file_and_section_that_the_manual_points_to_is_there() -> None:
    """A section goes by its heading in small letters, hyphens for spaces, other signs left out."""
    headings = re.findall(r"^#+ (.+)$", TEXT, re.MULTILINE)
    sections = {"#" + re.sub(r"[^\w -]", "", heading.lower()).replace(" ", "-") for heading in headings}
    for target in re.findall(r"\]\(([^):]+)\)", TEXT):
        assert target in sections or (README.parent / target).exists(), target
