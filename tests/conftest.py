"""What more than one room's tests share: which tests are slow, and sittings dealt from the shipped banks."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from fnmatch import fnmatch
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

from courseware.banks import Bank, Exercise, Space
from courseware.database import connection
from courseware.files.bank_files import find_banks, read_banks, shipped_banks
from courseware.papers.compose import read_sources
from courseware.papers.deal import Choosing, Heads, choose, deal_sitting
from courseware.papers.group import Group, Learner
from courseware.papers.sitting import Sitting
from courseware.settings.settings import Settings

if TYPE_CHECKING:
    from tests.proofs import KeptProofs

pytest_plugins = [
    "tests.browser",
    "tests.checkers",
    "tests.invented_class",
    "tests.marked_sitting",
    "tests.one_exercise",
    "tests.piers_sitting",
    "tests.postgresql",
    "tests.bank_of_piers",
    "tests.proofs",
]


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--refresh", action="store_true", help="write the golden and expected texts again; read the diff")


# What makes a test slow, here and nowhere else: where it stands (it prints, starts processes, opens a browser, or proves all
# shipped banks), what its module imports (libraries that the extra `quick` does without), or a fixture it uses.
# `-m "not slow"` is the quick set: it does not even import the rest, and tries fewer examples of what is drawn by chance.
TESTS = Path(__file__).parent
QUICK = "not slow"
EVERYDAY = "not long"
SLOW_PLACES = (
    "benchmarks", "commands", "desk", "journeys", "practice", "printing", "workflows",
    "banks/test_any_bank.py", "banks/test_shipped_*.py", "drawings/test_fitted.py", "drawings/test_large_type_of_every_kind.py", "drawings/test_shipped_drawings.py",
    "database/test_changed_by_hand.py", "database/test_row_checks.py", "database/test_stopped.py", "erasure/test_from_folder*.py", "marking/test_mark.py", "part_kinds/test_a_kind_of_ones_own.py", "test_installed.py", "test_readme*.py",
)  # fmt: skip
SLOW_IMPORTS = re.compile(
    r"^(?:from|import) (?:PIL|page|playwright|pypdfium2|scipy|sklearn|statsmodels|zxingcpp)\b", re.MULTILINE
)
SERVER = "postgresql"  # a database that tests marked `each_database` run on too
SLOW_FIXTURES = {"composed"}  # sittings of every exercise of a topic


# What makes a test long, here and nowhere else: it does over all shipped topics, or in a browser once more, what others show in small.
# `.ci/run` leaves these out, so that it stays under ten minutes; `.ci/newest` runs them, and so does plain `pytest`.
LONG_PLACES = (
    "commands/test_again.py::test_editable_copies*", "commands/test_join.py::test_a_sitting_issued_with_editable*",
    "commands/test_demo.py", "commands/test_distance.py::test_a_course_s_start*", "commands/test_issue.py::test_a_killed_worker*",
    "commands/test_issue.py::test_a_title_of_many*", "commands/test_issue.py::test_without_a_typed_seed*",
    "commands/test_issue.py::test_another_request_does_not_go_on*", "commands/test_issue.py::test_two_runs_at_once*",
    "commands/test_options_centre.py", "commands/test_practise.py", "desk/pages/test_*_in_a_browser.py",
    "desk/pages/test_keep_appeals.py", "desk/pages/test_markers.py", "desk/test_a_week.py", "desk/test_both_ways.py",
    "desk/test_every_page.py", "desk/test_hostile_forms.py", "desk/test_killed.py", "drawings/test_fitted.py", "drawings/test_large_type_of_every_kind.py",
    "drawings/test_shipped_drawings.py",
    "journeys/test_a_term.py", *(f"practice/test_page_{of}.py" for of in (
        "drawings", "firefox", "glossary", "look", "memory", "mock", "month", "plan", "progress", "sight", "sitting", "sums",
    )),
    "printing/test_engine.py", "printing/test_feedback_height.py::test_it_is_right_more*", "printing/test_leak_check.py::test_the_key_itself*",
    "printing/test_joined_tags.py::test_sheets_joined_a_few*", "printing/test_leak_check.py::test_no_paper_of_any_topic*",
    "printing/test_leak_check.py::test_what_is_read_back_is_what_another_reader_reads*",
    "printing/test_render_b*.py",
    "printing/test_render_layout.py", "printing/test_workers*.py", "test_installed.py", "test_readme_commands.py",
    "workflows/test_changes.py::test_a_run_stopped_at_any_write*", "workflows/test_jobs.py::test_the_worksheets_bank_proves*",
)  # fmt: skip


def long(item: pytest.Item) -> bool:
    """Whether a test stands in a long place: a module, or a test of one after `::`."""
    if not item.path.is_relative_to(TESTS):
        return False
    module = item.path.relative_to(TESTS).as_posix()
    return any(fnmatch(f"{module}::{item.name}" if "::" in one else module, one) for one in LONG_PLACES)


def more_of_the_same(items: list[pytest.Item]) -> Iterator[pytest.Item]:
    """Of tests marked `each_value`, those that bring no value of a parameter that those before them did not.

    Values that are listed first are taken first: list the cheapest so.
    """
    met: dict[str, set[tuple[str, object]]] = {}
    for item in sorted((one for one in items if one.get_closest_marker("each_value")), key=_place):
        values = {(name, repr(value)) for name, value in item.callspec.params.items()}  # type: ignore[attr-defined]
        seen = met.setdefault(item.nodeid.partition("[")[0], set())
        if values <= seen:
            yield item
        seen |= values


def _place(item: pytest.Item) -> tuple[str, list[tuple[str, int]], str]:
    indices = item.callspec.indices  # type: ignore[attr-defined]
    return item.nodeid.partition("[")[0], sorted(indices.items()), item.nodeid


def slow(path: Path) -> bool:
    """Whether all tests of a folder or module are slow."""
    if not path.is_relative_to(TESTS):
        return False
    place = path.relative_to(TESTS)
    if any(fnmatch(part.as_posix(), pattern) for part in (place, *place.parents) for pattern in SLOW_PLACES):
        return True
    return path.suffix == ".py" and SLOW_IMPORTS.search(path.read_text(encoding="utf-8")) is not None


def pytest_configure(config: pytest.Config) -> None:
    fewer = {QUICK: "quick", EVERYDAY: "everyday"}.get(config.option.markexpr)
    if fewer and not config.getoption("--hypothesis-profile"):
        settings.load_profile(fewer)


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    return True if config.option.markexpr == QUICK and slow(collection_path) else None


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        on_server = getattr(item, "callspec", None) and item.callspec.params.get("database") == SERVER
        if on_server or slow(item.path) or SLOW_FIXTURES & set(getattr(item, "fixturenames", ())):
            item.add_marker("slow")
        if long(item):
            item.add_marker("long")
    for item in more_of_the_same(items):
        item.add_marker("long")


settings.register_profile("untimed", deadline=None)  # a busy machine is no fault of the program
settings.register_profile("long", parent=settings.get_profile("untimed"), max_examples=1000)
settings.register_profile("everyday", parent=settings.get_profile("untimed"), max_examples=50)
settings.register_profile("quick", parent=settings.get_profile("untimed"), max_examples=25)
settings.load_profile("untimed")

LEARNERS = ("Amara Okafor", "Łukasz Wójcik", "Zoë O'Brien-Smythe")  # invented
SEED = "a seed for tests"
# Which exercises a topic's few are, whatever else its bank grows: figures first, whose slips and units tests go by.
FEW = {"opening_sizes": ("opening-for-a-panel", "what-fits-the-gap", "square-the-frame")}


@pytest.fixture(scope="session")
def space_of(proofs: KeptProofs) -> Callable[[Bank, Exercise], Space]:
    """The proved space of an exercise of a bank."""
    return proofs.space


@pytest.fixture(scope="session")
def dealt(space_of) -> Callable[..., Sitting]:
    """A sitting for three invented learners: of one shipped topic, of every exercise in it unless told otherwise.

    A few exercises are those of `FEW`, or else, and from any other seed, drawn as for a class.
    """
    made: dict[tuple[str, int | None, str, str], Sitting] = {}

    def deal(topic: str = "", exercises: int | None = None, seed: str = SEED, rule: str = "outline") -> Sitting:
        asked = (topic, exercises, seed, rule)
        if asked not in made:
            paths = find_banks([topic]) if topic else shipped_banks()
            banks, notes = read_banks(paths, Settings(arris_rule=rule))
            everything = sum(len(bank.exercises) for bank in banks)
            few = FEW.get(topic, ()) if seed == SEED else ()
            if exercises and len(few) >= exercises:
                choosing = Choosing(picked=few[-exercises:])
            else:
                choosing = Choosing(exercises=exercises or everything)
            chosen = choose(banks, choosing, seed)
            group = Group(name="Group T", learners=tuple(Learner(name=name, reference="") for name in LEARNERS))
            heads = Heads(title="Setting out", date="2026-01-05", group=group, seed=seed, version="0")
            made[asked] = deal_sitting(heads, banks, notes, chosen, [space_of(*pair) for pair in chosen])
        return made[asked]

    return deal


PRAGMAS = connection._PRAGMAS  # as the program sets them


@pytest.fixture(scope="session", autouse=True)
def without_waiting_for_the_disk() -> Iterator[None]:
    """Records are not forced on to the disk: no test cuts the power, and a killed program loses nothing by it."""
    with pytest.MonkeyPatch.context() as patch:
        pragmas = tuple(one for one in PRAGMAS if "synchronous" not in one)
        patch.setattr(connection, "_PRAGMAS", (*pragmas, "synchronous = OFF"))
        yield


@pytest.fixture(scope="session", autouse=True)
def one_process() -> Iterator[None]:
    """Commands take one process unless a test says otherwise: a second takes longer to start than most tests print."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("os.cpu_count", lambda: 1)
        yield


@pytest.fixture
def few_questions(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two variants of each kind on a practice page, whose drawings take most of the time that a page takes."""
    monkeypatch.setattr("courseware.practice.kinds.MOST", 2)


@pytest.fixture
def same_text(request) -> Callable[[Path, str], None]:
    """Compares a text with the one kept in a file; `pytest --refresh` writes the file again."""

    def compare(file: Path, text: str) -> None:
        if request.config.getoption("--refresh"):
            file.parent.mkdir(exist_ok=True)
            file.write_text(text, encoding="utf-8")
        assert text == file.read_text(encoding="utf-8")

    return compare


@pytest.fixture(scope="session")
def composed(dealt) -> Callable[..., tuple]:
    """A sitting with its sources read."""

    def compose(*asked: object, **more: object) -> tuple:
        sitting = dealt(*asked, **more)
        return sitting, read_sources(sitting)

    return compose
