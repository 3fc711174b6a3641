"""`courseware issue` as its users do it: through the command line, in a fresh folder."""

from __future__ import annotations

import json
import os
import resource
import signal
import stat
import subprocess
import sys
import time
from fractions import Fraction
from pathlib import Path

import openpyxl
import pytest
from pikepdf import Pdf

from courseware.commands.issue import tell_issued
from courseware.files.bank_files import read_banks, shipped_banks
from courseware.papers.sitting_checks import LONGEST_TITLE
from courseware.workflows.issue import Issued
from tests.commands.conftest import files, issue, only_folder, run


def test_issue_writes_the_folder_of_a_sitting(desk) -> None:
    folder = issue("--title", "Piers, week 3")
    assert folder.name == "2026-01-05-piers-week-3-group-a"
    sitting = json.loads((folder / "sitting.json").read_text(encoding="utf-8"))
    codes = [paper["code"] for paper in sitting["papers"]]
    assert sorted(files(folder)) == sorted(
        ["sitting.json", "for-learners/all-papers.pdf", "for-tutor/all-keys.pdf", "for-tutor/class-grid.pdf",
         "for-tutor/marking-sheet.xlsx"]
        + [f"for-learners/paper-{code}.pdf" for code in codes]
        + [f"for-tutor/key-{code}.pdf" for code in codes]
    )  # fmt: skip
    assert [paper["learner"]["name"] for paper in sitting["papers"]] == [
        "Amara Okafor",
        "Łukasz Wójcik",
        "Zoë O'Brien-Smythe",
        "=1+1",
    ]
    assert [paper["learner"]["ref"] for paper in sitting["papers"]] == ["0012", "0013", "0014", "0015"]


def test_the_sitting_holds_what_marking_needs(desk) -> None:
    sitting = json.loads((issue() / "sitting.json").read_text(encoding="utf-8"))
    assert {"code", "title", "date", "group", "seed", "banks", "version"} <= set(sitting["sitting"])
    assert len(sitting["sitting"]["seed"]) == 64  # 256 bits
    for paper in sitting["papers"]:
        [exercise] = paper["exercises"]
        bricks = int(exercise["given"]["bricks"])
        [part] = exercise["parts"]
        assert part["label"] == "1a"
        assert Fraction(part["answer"]) == 225 * bricks - 10  # Technical Information Sheet 9, Table 1, "CO - Joint"
        assert [Fraction(slip["value"]) for slip in part["slips"]] == [225 * bricks]


def test_no_two_learners_share_a_variant_while_the_space_lasts(desk) -> None:
    sitting = json.loads((issue() / "sitting.json").read_text(encoding="utf-8"))
    given = [paper["exercises"][0]["given"]["bricks"] for paper in sitting["papers"]]
    assert len(set(given)) == len(given) == 4


def test_repeats_are_told_and_spread(desk) -> None:
    done = run("issue", "piers.yaml", "--learners", "13")
    assert "pier-length has" in done.output
    assert "some are shared" in done.output
    sitting = json.loads((only_folder(Path("output")) / "sitting.json").read_text(encoding="utf-8"))
    given = [paper["exercises"][0]["given"]["bricks"] for paper in sitting["papers"]]
    counts = {given.count(value) for value in given}
    assert max(counts) - min(counts) <= 1


def test_names_that_the_fonts_cannot_print_are_told(desk) -> None:
    Path("group-b.csv").write_text("Name\nAmara Okafor\n王小明\n", encoding="utf-8")
    done = run("issue", "piers.yaml", "--group", "group-b.csv")
    assert "the shipped fonts lack letters of 王小明" in done.output
    assert "Okafor" not in done.output


def test_names_that_are_markup_formulas_paths_or_devices_are_names_and_nothing_more(desk) -> None:
    names = (
        "<img src=file:///etc/passwd>",
        "=cmd|' /C calc'!A0",
        "-rf",
        "../../x",
        "CON",
        "$(id)",
        "An\x1b[2Jn",
    )  # invented
    Path("group-a.csv").write_text("name\n" + "\n".join(names) + "\n", encoding="utf-8")
    done = run("issue", "piers.yaml", "--group", "group-a.csv", "--date", "2026-01-05", "--jobs", "1")
    assert done.exit_code == 0, done.output
    assert "\x1b" not in done.output
    folder = only_folder(Path("output"))
    sitting = json.loads((folder / "sitting.json").read_text(encoding="utf-8"))
    codes = {f"paper-{paper['code']}.pdf" for paper in sitting["papers"]}
    assert {path.name for path in (folder / "for-learners").iterdir()} == codes | {"all-papers.pdf"}
    assert [paper["learner"]["name"] for paper in sitting["papers"]][:6] == list(names[:6])
    sheet = openpyxl.load_workbook(folder / "for-tutor" / "marking-sheet.xlsx").worksheets[0]
    assert {cell.data_type for row in sheet.iter_rows(min_row=2, max_row=8, max_col=2) for cell in row} == {"s"}


def test_a_title_is_made_of_the_topics_that_are_asked(desk) -> None:
    run("issue", "course_gauge", "opening_sizes", "resource_lists", "--learners", "1", "--date", "2026-01-05")
    sitting = json.loads((only_folder(Path("output")) / "sitting.json").read_text(encoding="utf-8"))
    assert sitting["sitting"]["title"] == "Course gauge, opening sizes and resource lists"
    assert only_folder(Path("output")).name == "2026-01-05-course-gauge-opening-sizes"


def test_a_title_of_many_topics_names_as_many_as_fit(desk) -> None:
    every = [path.stem for path in shipped_banks()]
    done = run("issue", *every, "--learners", "1", "--exercises", str(len(every)), "--date", "2026-01-05")
    assert done.exit_code == 0, done.output
    sitting = json.loads((only_folder(Path("output")) / "sitting.json").read_text(encoding="utf-8"))
    title = sitting["sitting"]["title"]
    assert title.startswith("Course gauge, decorative courses, ")
    assert title.endswith(" more topics")
    assert len(title) <= LONGEST_TITLE


def test_names_stand_in_no_file_name_and_in_no_other_learners_file(desk) -> None:
    folder = issue()
    assert not [name for name in files(folder) if any(word in name.lower() for word in ("amara", "okafor", "smythe"))]


@pytest.mark.skipif(os.name != "posix", reason="permissions of this kind")
def test_what_holds_answers_is_for_its_owner_alone(desk) -> None:
    folder = issue()
    assert stat.S_IMODE((folder / "for-tutor").stat().st_mode) == 0o700
    for name in ("sitting.json", *(f"for-tutor/{path.name}" for path in (folder / "for-tutor").iterdir())):
        assert stat.S_IMODE((folder / name).stat().st_mode) == 0o600, name


def test_the_marking_sheet_keeps_what_is_typed_as_text(desk) -> None:
    sheet = openpyxl.load_workbook(issue() / "for-tutor" / "marking-sheet.xlsx").worksheets[0]
    assert [cell.value for cell in sheet[1]] == ["code", "name", "reference", "status", "1a"]
    assert sheet["B5"].value == "=1+1"
    assert sheet["B5"].data_type == "s"
    assert sheet["B5"].quotePrefix
    assert {sheet.cell(row, 5).number_format for row in range(2, 12)} == {"@"}


def test_print_all_starts_every_paper_on_a_right_hand_page(desk) -> None:
    folder = issue()
    counts = []
    for path in sorted((folder / "for-learners").glob("paper-*.pdf")):
        with Pdf.open(path) as opened:
            counts.append(len(opened.pages))
    with Pdf.open(folder / "for-learners" / "all-papers.pdf") as opened:
        assert len(opened.pages) == sum(count + count % 2 for count in counts)


def test_the_same_typed_seed_deals_the_same_and_is_warned_of(desk) -> None:
    first = run("issue", "piers.yaml", "--learners", "3", "--seed", "wall", "--out", "a")
    run("issue", "piers.yaml", "--learners", "3", "--seed", "wall", "--out", "b")
    assert "can be guessed" in first.output
    assert files(only_folder(Path("a"))) == files(only_folder(Path("b")))


def test_without_a_seed_two_sittings_differ(desk) -> None:
    for out in ("a", "b"):
        run("issue", "piers.yaml", "--learners", "3", "--out", out)
    assert not set(files(only_folder(Path("a")))) & set(files(only_folder(Path("b")))) & {"for-learners/paper-*.pdf"}
    one, two = (json.loads((only_folder(Path(out)) / "sitting.json").read_text(encoding="utf-8")) for out in "ab")
    assert one["sitting"]["seed"] != two["sitting"]["seed"]
    assert not {paper["code"] for paper in one["papers"]} & {paper["code"] for paper in two["papers"]}


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (["issue", "peirs.yaml", "--learners", "2"], 2, "did you mean piers.yaml?"),
        (["issue", "opening_size", "--learners", "2"], 2, "did you mean opening_sizes?"),
        (["issue", "."], 2, "--group"),
        (["issue", ".", "--learners", "2"], 2, "name the bank files in it"),
        (["issue", "piers.yaml"], 2, "--group"),
        (["issue", "piers.yaml", "--group", "group-a.csv", "--learners", "2"], 2, "either --group"),
        (["issue", "piers.yaml", "--group", "none.csv"], 2, "none.csv cannot be read"),
        (["issue", "piers.yaml", "--group", "piers.yaml"], 2, "piers.yaml:1"),
        (["issue", "piers.yaml", "--learners", "2", "--date", "5/1/2026"], 2, "write it as"),
        (["issue", "piers.yaml", "--learners", "2", "--level", "3"], 2, "no exercise of level 3"),
        (["issue", "piers.yaml", "--learners", "2", "--exercises", "5"], 2, "these banks hold 1"),
        (["issue", "piers.yaml", "--learners", "2", "--pick", "none"], 2, "no exercise is named none"),
        (["issue", "piers.yaml", "--learners", "2", "--title", "a\x1bb"], 2, "all of which can be seen"),
        (["issue", "piers.yaml", "--learners", "2", "--title", "word " * 50], 2, "at most 100 characters"),
        (["issue", "piers.yaml", "--learners", "2", "--out", "piers.yaml"], 2, "is a file, not a folder"),
        (["issue", "piers.yaml", "--learners", "2", "--out", "piers.yaml/x"], 2, "is a file, not a folder"),
        (["issue", "piers.yaml", "--learners", "2", "--out", "gone"], 2, "it is a link to nothing"),
        (
            ["issue", "piers.yaml", "--learners", "2", "--pick", "pier-length", "--pick", "pier-length"],
            2,
            "each exercise once",
        ),
        (
            ["issue", "piers.yaml", "--learners", "2", "--pick", "pier-length", "--level", "1"],
            2,
            "leave --level and --exercises out",
        ),
        (["check", "x" * 300], 2, "too long for a file"),
        (["again", "x" * 300], 2, "too long for a file"),
        (["check", "none.yaml"], 2, "there is no bank none.yaml"),
        (["again", "none"], 2, "there is no sitting none"),
    ],
)
def test_what_was_asked_wrongly_is_told_in_one_plain_message(desk, words, code, says) -> None:
    Path("gone").symlink_to("nowhere")
    done = run(*words)
    assert done.exit_code == code
    assert says in done.output
    assert not Path("output").exists() or not [path for path in Path("output").iterdir() if path.name[0] != "."]


@pytest.mark.skipif(not Path("/proc").is_dir(), reason="processes listed as on Linux")
def test_a_killed_worker_costs_nothing_but_its_own_sheets_which_are_made_again(desk) -> None:
    printing = start("issue", "piers.yaml", "--learners", "30", "--jobs", "2", "--date", "2026-01-05")
    deadline = time.monotonic() + 60
    while not list(Path("output").glob(".*/for-learners/*.pdf")) and time.monotonic() < deadline:
        time.sleep(0.02)
    [*_, last] = [pid for pid in children(printing.pid) if b"spawn_main" in Path(f"/proc/{pid}/cmdline").read_bytes()]
    os.kill(last, signal.SIGKILL)
    told, _ = printing.communicate(timeout=120)
    assert printing.returncode == 0, told
    assert "Traceback" not in told
    [folder] = Path("output").glob("[!.]*/")
    assert len(list((folder / "for-learners").iterdir())) == 31


def start(*words: str, **more: object) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "courseware.cli", *words],
        env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])},
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, **more,
    )  # fmt: skip


@pytest.mark.skipif(os.name != "posix", reason="kill -9")
def test_a_run_that_is_killed_goes_on_where_it_stopped(desk) -> None:
    words = ("issue", "piers.yaml", "--learners", "12", "--jobs", "1", "--date", "2026-01-05")
    stopped = start(*words)
    deadline = time.monotonic() + 60
    while len(list(Path("output").glob(".*/for-learners/*.pdf"))) < 3 and time.monotonic() < deadline:
        time.sleep(0.02)
    stopped.send_signal(signal.SIGKILL)
    stopped.communicate()
    assert not list(Path("output").glob("[!.]*/"))
    begun = {path.name for path in Path("output").glob(".*/for-learners/paper*.pdf")}
    assert begun
    done = run(*words)
    assert "Went on from a run that had been stopped" in done.output
    [folder] = Path("output").glob("[!.]*/")
    assert begun <= {path.name for path in (folder / "for-learners").iterdir()}
    assert len(list((folder / "for-learners").iterdir())) == 13
    assert not list(folder.rglob(".*"))
    assert not list(Path("output").glob(".*unfinished"))


@pytest.mark.skipif(os.name != "posix", reason="kill -9")
def test_another_request_does_not_go_on_from_a_run_that_was_killed(desk) -> None:
    words = ("issue", "opening_sizes", "--learners", "8", "--jobs", "1", "--title", "T", "--pick")
    stopped = start(*words, "opening-for-a-panel")
    deadline = time.monotonic() + 60
    while not list(Path("output").glob(".*/for-learners/*.pdf")) and time.monotonic() < deadline:
        time.sleep(0.02)
    stopped.send_signal(signal.SIGKILL)
    stopped.communicate()
    done = run(*words, "half-brick-opening")
    assert "Went on" not in done.output
    [folder] = Path("output").glob("[!.]*/")
    sitting = json.loads((folder / "sitting.json").read_text(encoding="utf-8"))
    assert {e["exercise"] for paper in sitting["papers"] for e in paper["exercises"]} == {"half-brick-opening"}


@pytest.mark.skipif(not Path("/proc").is_dir(), reason="processes listed as on Linux")
def test_workers_end_with_the_run_that_is_killed(desk) -> None:
    stopped = start("issue", "piers.yaml", "--learners", "40", "--jobs", "2")
    deadline = time.monotonic() + 60
    while not list(Path("output").glob(".*/for-learners/*.pdf")) and time.monotonic() < deadline:
        time.sleep(0.02)
    workers = children(stopped.pid)
    assert workers
    stopped.send_signal(signal.SIGKILL)
    stopped.communicate()
    while [pid for pid in workers if Path(f"/proc/{pid}").exists()] and time.monotonic() < deadline:
        time.sleep(0.1)
    assert not [pid for pid in workers if Path(f"/proc/{pid}").exists()]


def children(parent: int) -> list[int]:
    return [
        int(pid) for task in Path(f"/proc/{parent}/task").iterdir() for pid in (task / "children").read_text().split()
    ]


@pytest.mark.skipif(os.name != "posix", reason="limits of this kind")
def test_a_full_disk_is_told_plainly_and_nothing_half_made_is_left_for_whole(desk) -> None:
    """A limit on the size of files stands in for the disk: the same kind of error, at the same calls."""

    def small() -> None:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))

    stopped = start("issue", "piers.yaml", "--learners", "2", "--jobs", "1", preexec_fn=small)
    told, _ = stopped.communicate(timeout=60)
    assert stopped.returncode == 3, told
    assert "Stopped: " in told
    assert "Traceback" not in told
    assert not list(Path("output").glob("[!.]*/"))
    assert run("issue", "piers.yaml", "--learners", "2").exit_code == 0


def test_two_runs_at_once_both_end_whole(desk) -> None:
    runs = [
        start("issue", "piers.yaml", "--learners", "3", "--title", title, "--jobs", "1") for title in ("one", "two")
    ]
    for each in runs:
        told, _ = each.communicate(timeout=120)
        assert each.returncode == 0, told
    folders = list(Path("output").glob("[!.]*/"))
    assert len(folders) == 2
    for folder in folders:
        assert len(list((folder / "for-learners").iterdir())) == 4


def test_without_a_typed_seed_nobody_can_know_which_exercises_are_asked(desk) -> None:
    """Twelve papers of four exercises out of fifteen: the same four each time would be no chance."""
    chosen = set()
    for number in range(4):
        run("issue", "opening_sizes", "--learners", "1", "--exercises", "4", "--title", f"T{number}", "--jobs", "1")
    for sitting in Path("output").glob("*/sitting.json"):
        [paper] = json.loads(sitting.read_text(encoding="utf-8"))["papers"]
        chosen.add(tuple(exercise["exercise"] for exercise in paper["exercises"]))
    assert len(chosen) > 1


def test_a_paper_over_several_banks_rises_in_level(desk) -> None:
    words = ("issue", "opening_sizes", "course_gauge", "resource_lists", "--learners", "1", "--exercises", "9")
    assert run(*words, "--jobs", "1").exit_code == 0
    [sitting] = Path("output").glob("*/sitting.json")
    data = json.loads(sitting.read_text(encoding="utf-8"))
    banks, _ = read_banks([path for path in shipped_banks() if path.stem in words])
    levels = {exercise.name: exercise.level for bank in banks for exercise in bank.exercises}
    asked = [levels[exercise["exercise"]] for exercise in data["papers"][0]["exercises"]]
    assert asked == sorted(asked)
    assert len(set(asked)) > 1


def test_sheets_are_set_as_the_list_says_or_all_as_asked_with_the_same_code_variant_and_key(desk) -> None:
    usual = issue("--seed", "a")
    Path("group-a.csv").write_text(
        "Ref;Name;Paper\n0012;Amara Okafor;large 18\n0013;Łukasz Wójcik;\n", encoding="utf-8"
    )
    done = run(
        "issue",
        "piers.yaml",
        "--group",
        "group-a.csv",
        "--date",
        "2026-01-05",
        "--seed",
        "a",
        "--format",
        "cream",
        "--out",
        "own",
    )
    assert done.exit_code == 0, done.output
    own = only_folder(Path("own"))
    papers = json.loads((own / "sitting.json").read_text(encoding="utf-8"))["papers"]
    assert [paper["format"] for paper in papers] == ["large-18 cream", "cream"]
    before, after = files(usual), files(own)
    for paper in papers:
        assert before[f"for-tutor/key-{paper['code']}.pdf"] == after[f"for-tutor/key-{paper['code']}.pdf"]
        assert before[f"for-learners/paper-{paper['code']}.pdf"] != after[f"for-learners/paper-{paper['code']}.pdf"]
    again = run("again", own, "--out", "again", "--jobs", "1")
    assert again.exit_code == 0, again.output
    assert files(only_folder(Path("again"))) == after


def test_words_that_say_no_format_are_told_with_those_that_do(desk) -> None:
    done = run("issue", "piers.yaml", "--learners", "1", "--format", "bigger")
    assert done.exit_code == 2
    assert "large-18" in done.output
    assert not Path("output").exists()


@pytest.mark.parametrize(
    ("folder", "command"),
    [
        ("output/piers", "issue --approved output/piers --approved-by NAME"),
        ("term 2/piers", 'issue --approved "term 2/piers" --approved-by NAME --out "term 2"'),
    ],
)
def test_papers_dealt_for_approval_are_told_how_they_are_printed_beside_one_another(folder, command, capsys) -> None:
    tell_issued(Issued(folder=Path(folder), papers=3, resumed=False, arris_rule="", printed=False))
    assert capsys.readouterr().out.endswith(f"  then: courseware {command}\n")
