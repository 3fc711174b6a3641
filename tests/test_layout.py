"""Tests are laid out like the package: `tests/ROOM/test_MODULE.py`, or `test_MODULE_MORE.py`, is of `courseware/ROOM/MODULE.py`.

What goes through more than one module is a journey, with its reason. Modules that no test stands beside are listed too: they
are tested from further away. That list may only shrink.
"""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

TESTS = Path(__file__).parent
PACKAGE = TESTS.parent / "courseware"

JOURNEYS = {
    "test_installed.py": "pyproject.toml: the package as it is built and installed",
    "test_layout.py": "the tests themselves",
    "test_locked.py": ".ci/locked.txt and pyproject.toml",
    "test_readme.py": "README.md: the manual's reference, its bank and its commands",
    "test_readme_commands.py": "README.md: its commands, run",
    "test_readme_figures.py": "README.md: its table on speed",
    "banks/test_any_bank.py": "what holds for every bank, shipped or not, whichever module proves it",
    "banks/test_good_and_faulty.py": "banks as files with what is said of each, from reading to proof",
    "banks/test_shipped_decorative.py": "the shipped banks against the trade's own books",
    "banks/test_shipped_setting_out.py": "the shipped banks against the trade's own books",
    "banks/test_shipped_misconceptions.py": "what the shipped banks' slips are counted by",
    "banks/test_shipped_words.py": "the words of the shipped banks",
    "commands/test_every_command.py": "what all commands have from cli.py",
    "database/test_changed_by_hand.py": "records that something else than the program changed, whichever module reads them",
    "database/test_stopped.py": "stops of any kind, whichever module was writing",
    "desk/test_a_week.py": "a tutor's and an assessor's week from screen to screen",
    "desk/test_both_ways.py": "the desk and the commands, each thing done by both",
    "desk/test_killed.py": "a desk killed at work and started again, whichever module was writing",
    "desk/test_every_page.py": "what holds for every page of the desk, whichever module gives it",
    "desk/test_hostile_forms.py": "forms, addresses and files from somebody who means harm, whichever module reads them",
    "desk/test_hostile_requests.py": "requests from strangers to a running desk, whichever module refuses them",
    "drawings/test_a_kind_of_ones_own.py": "a kind of drawing, from what a bank may ask of it to print and practice",
    "drawings/test_shipped_drawings.py": "the drawings of the shipped banks, whichever kind they are",
    "drawings/test_table_of_kinds.py": "the kinds that banks know and drawings draw",
    "hostile/test_hostile_files.py": "files from a stranger, through the command line",
    "journeys/test_a_term.py": "a class over a term, through every command of the assessor",
    "journeys/test_in_a_few_words.py": "one kind of part, from its bank to marks and practice",
    "journeys/test_own_drawing_goes_all_the_way.py": "an author's drawing, from its bank to print, `again` and practice",
    "marking/test_decided_answers.py": "answers decided by hand, through all of marking",
    "marking/test_hostile_answers.py": "sheets that nobody would type on purpose, through all of marking",
    "trade/test_what_cannot_be.py": "what the trade core refuses, whichever module is asked",
    "part_kinds/test_a_kind_of_ones_own.py": "a kind of part, from its keys in a bank to marks, feedback and practice",
}

# Of these the behaviour is tested where it is used.
NOTHING_BESIDE = """

"""


def nothing_beside() -> set[str]:
    listed, room = set(), ""
    for word in NOTHING_BESIDE.split():
        if word.endswith(":"):
            room = word[:-1]
        else:
            listed.add(word if room == "." else f"{room}/{word}")
    return listed


def has_behaviour(module: Path) -> bool:
    """Whether a module works something out: a table of constants or a plain record does not."""
    return any(isinstance(node, ast.FunctionDef) for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))))


@cache
def modules() -> dict[str, Path]:
    """Every module by room and name, and folders of another language's modules with it."""
    found = [path for path in PACKAGE.rglob("*.py") if path.name != "__init__.py"]
    folders = [path.parent for path in PACKAGE.rglob("*/main.js")]
    return {path.relative_to(PACKAGE).with_suffix("").as_posix(): path for path in (*found, *folders)}


def beside(test: Path) -> str | None:
    """The module that a test module stands beside: the longest name that its own begins with."""
    words = test.relative_to(TESTS).with_name(test.stem.removeprefix("test_")).as_posix().split("_")
    names = ("_".join(words[:count]) for count in range(len(words), 0, -1))
    return next((name for name in names if name in modules()), None)


def of_tests() -> list[Path]:
    return sorted(TESTS.rglob("test_*.py"))


def test_every_test_module_stands_beside_its_module_or_is_a_journey() -> None:
    astray = {test.relative_to(TESTS).as_posix() for test in of_tests() if beside(test) is None}
    assert sorted(astray - set(JOURNEYS)) == [], "name it after its module, or give the journey's reason here"
    assert sorted(set(JOURNEYS) - astray) == [], "no journey any more: take it off the list"


def test_every_module_with_behaviour_has_a_test_module_or_is_known_to_have_none() -> None:
    tested = {beside(test) for test in of_tests()}
    alone = {name for name, path in modules().items() if path.suffix == ".py" and has_behaviour(path)} - tested
    assert sorted(alone - nothing_beside()) == [], "write the test module: this list may only shrink"
    assert sorted(nothing_beside() - alone) == [], "tested now: take it off the list"


def test_no_test_needs_a_folder_outside_the_project() -> None:
    """Paths start from a module's own place; none leaves the project's folder."""
    depth = {path: len(path.relative_to(TESTS.parent).parts) for path in TESTS.rglob("*.py")}
    for path, steps in depth.items():
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Subscript) and ast.unparse(node.value) == "Path(__file__).parents":
                assert ast.literal_eval(node.slice) < steps, path
