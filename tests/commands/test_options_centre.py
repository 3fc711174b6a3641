"""Each of the centre's settings changes what is printed or kept, and nothing changes where the centre sets nothing."""

from __future__ import annotations

import json
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner, Result
from pypdf import PdfReader

from courseware.cli import main
from courseware.commands.options import cores
from courseware.files.bank_files import shipped_folder
from courseware.marking.invented_scripts import invented_scripts
from courseware.marking.marking_sheet import marking_sheet
from courseware.marking.marks import Script
from courseware.papers.sitting_file import read_sitting, write_sitting
from courseware.settings.settings import DEFAULTS

BANK = """\
topic: Joints
aim: Count the joints of a course
exercises:
  - name: joints-of-a-course
    level: 1
    given: {bricks: 4 to 60, short: [1]}
    pose: >-
      A pier is {{ bricks }} bricks long; there is a perpend (upright joint) between two of them.
      Rule of this centre for projecting courses: {{ arris_rule }}.
    parts:
      - name: perpends
        ask: How many perpends has one course?
        answer: bricks - short
        unit: joints
        marks: 1
        working: [{say: "One fewer than the {{ bricks }} bricks", value: bricks - short, earns: accuracy}]
        slips: [{value: bricks, says: "One for each brick was counted"}]
"""
WHOLE = """\
name: Brookfield Trades College
arris_rule: near
upright_joint: cross joint
mortar: cement
day_height: 900
tolerances: Training bench
signatures:
  papers: {says: These answers are all my own work., signed: [Learner, Invigilator]}
  feedback: {says: I have read this., signed: [Learner]}
  observation: {signed: [Witness]}
  audit: {says: Seen and agreed., signed: [Internal quality assurer]}
retention: {scripts: 1, names: 36}
criteria: [{code: BRK-1, says: Counts joints, evidence: [{topic: Opening sizes}]}]
"""  # invented


def run(*words: object) -> Result:
    done = CliRunner().invoke(main, [str(word) for word in words])
    if done.exception and not isinstance(done.exception, SystemExit):
        raise done.exception
    return done


def issue(*more: str) -> Path:
    """A sitting for one, of the bank above. Returns its folder."""
    done = run(
        "issue", "joints.yaml", "--learners", "1", "--seed", "typed", "--date", "2026-01-05", "--jobs", "1", *more
    )
    assert done.exit_code == 0, done.output
    [folder] = Path("output").glob("2026-01-05*")
    return folder


def text_of(file: Path) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(file).pages)


def paper(folder: Path) -> str:
    return text_of(folder / "for-learners" / "all-papers.pdf")


def key(folder: Path) -> str:
    return text_of(folder / "for-tutor" / "all-keys.pdf")


@pytest.fixture(autouse=True)
def desk(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    Path("joints.yaml").write_text(BANK, encoding="utf-8")


def centre(text: str, file: str = "centre.yaml") -> None:
    Path(file).write_text(text, encoding="utf-8")


# ------------------------------------------------------------------ papers


def test_without_a_file_papers_and_their_sitting_are_as_they_always_were() -> None:
    folder = issue()
    head = json.loads((folder / "sitting.json").read_text(encoding="utf-8"))["sitting"]
    assert (head["arris_rule"], "settings" in head) == ("outline", False)
    assert "How many perpends has one course?" in paper(folder)
    assert "Date" not in paper(folder)


@pytest.mark.parametrize(
    ("line", "printed", "on_key"),
    [
        ("name: Brookfield Trades College", "Brookfield Trades College Joints", True),
        ("arris_rule: near", "for projecting courses: near.", False),
        ("upright_joint: upright joint", "there is an upright joint between two", True),
        ("upright_joint: perp", "How many perps has one course?", True),
        ("signatures: {papers: {says: All my own work., signed: [Learner]}}", "All my own work.", False),
    ],
)
def test_a_setting_is_printed_and_kept_with_the_sitting(line: str, printed: str, on_key: bool) -> None:
    """Made again where the centre's file is another, the papers are the same byte for byte."""
    before = issue()
    assert printed not in paper(before)
    before.rename("before")
    centre(f"{line}\n")
    folder = issue()
    assert printed in paper(folder)
    assert (printed in key(folder)) is on_key
    centre("name: Another College\n")
    assert run("again", folder, "--out", "second", "--jobs", "1").exit_code == 0
    [again] = Path("second").glob("[!.]*")
    for file in folder.rglob("*.pdf"):
        assert (again / file.relative_to(folder)).read_bytes() == file.read_bytes(), file.name


def test_which_file_was_used_for_what_is_told_in_one_line() -> None:
    centre("name: Brookfield\nmortar: cement\n", "ours.yaml")
    asked = ("issue", "joints.yaml", "--learners", "1", "--jobs", "1")
    assert run(*asked, "--centre", "ours.yaml").output.startswith("The centre's settings in ours.yaml: name.\n")
    centre("mortar: cement\n")
    assert "settings" not in run(*asked).output


def test_the_option_for_the_arris_rule_stands_over_the_file() -> None:
    centre("arris_rule: near\n")
    assert "for projecting courses: outline." in paper(issue("--arris-rule", "outline"))


def test_faults_of_the_file_are_told_with_their_places_and_nothing_is_made() -> None:
    centre("name: Brookfield\narris_rule: nera\nupright_jiont: perp\n")
    done = run("issue", "joints.yaml", "--learners", "1")
    assert done.exit_code == 2
    assert "centre.yaml:2:13: `arris_rule` is `nera`; did you mean `near`?" in done.output
    assert "centre.yaml:3:1: the key `upright_jiont` is not known; did you mean `upright_joint`?" in done.output
    assert "2 faults found; nothing was made." in done.output
    assert not Path("output").exists()
    missing = run("check", "joints.yaml", "--centre", "none.yaml")
    assert (missing.exit_code, "none.yaml cannot be read" in missing.output) == (2, True)


def test_another_setting_does_not_go_on_from_a_stopped_run_but_is_a_sitting_of_its_own() -> None:
    one = issue().name
    centre("name: Brookfield\n")
    done = run("issue", "joints.yaml", "--learners", "1", "--seed", "typed", "--date", "2026-01-05", "--jobs", "1")
    assert done.exit_code == 0
    assert "Went on" not in done.output
    assert len(list(Path("output").glob(f"{one}*"))) == 2


def test_a_sitting_issued_again_goes_by_the_rules_of_then_on_sheets_of_today() -> None:
    centre("arris_rule: near\nname: Old College\n")
    folder = issue()
    centre("upright_joint: perp\nname: New College\n")
    done = run("issue", "--like", folder, "--learners", "1", "--date", "2027-01-05", "--jobs", "1")
    assert done.exit_code == 0, done.output
    [new] = Path("output").glob("2027-01-05*")
    assert "for projecting courses: near." in paper(new)
    assert "How many perpends has one course?" in paper(new)
    assert "New College" in paper(new)


def test_banks_are_proved_by_the_centres_rule_in_every_process() -> None:
    """`where: arris_rule == "near"` leaves no variant by any other rule; 60 000 variants are worth two processes."""
    text = BANK.replace(
        "{bricks: 4 to 60, short: [1]}",
        '{bricks: 4 to 60, short: 1 to 600}\n    where: arris_rule == "near" and short == 1',
    )
    twin = text.split("exercises:\n")[1].replace("joints-of-a-course", "joints-of-another")
    Path("near.yaml").write_text(text + twin, encoding="utf-8")
    assert run("check", "near.yaml", "--jobs", "2").exit_code == 1
    centre("arris_rule: near\n")
    done = run("check", "near.yaml", "--jobs", "2")
    assert done.exit_code == 0, done.output


def test_what_is_practised_at_home_has_the_centres_word() -> None:
    centre("upright_joint: cross joint\n")
    done = run("practise", "joints.yaml", "--print", "--jobs", "1")
    assert done.exit_code == 0, done.output
    booklet = text_of(Path("output/practice.pdf"))
    assert "How many cross joints has one course?" in booklet
    assert "perpend" not in booklet


def test_what_is_practised_at_home_has_the_centres_name_at_its_head() -> None:
    centre("name: Brookfield <Trades> College\n")
    done = run("practise", "joints.yaml", "--print", "--jobs", "1")
    assert "The centre's settings in centre.yaml: name." in done.output
    assert text_of(Path("output/practice.pdf")).startswith("Brookfield <Trades> College Practice booklet")
    run("practise", "joints.yaml", "--jobs", "1")
    page = Path("output/practice.html").read_text(encoding="utf-8")
    assert '<p class="centre">Brookfield &lt;Trades&gt; College</p>' in page


def test_the_class_grid_has_the_centres_name_at_its_head() -> None:
    assert text_of(issue() / "for-tutor/class-grid.pdf").startswith("Joints: class grid")
    Path("output").rename("before")
    centre("name: Brookfield Trades College\n")
    assert text_of(issue() / "for-tutor/class-grid.pdf").startswith("Brookfield Trades College Joints: class grid")


# ------------------------------------------------------------------ marked papers


def test_what_an_assurer_is_handed_has_the_centres_name_at_its_head() -> None:
    """Sampling plan, criteria map, and the comparison of two markers, which goes by the sitting."""
    centre("name: Brookfield Trades College\ncriteria: [{code: BRK-1, says: Counts joints}]\n")
    folder = issue()
    sitting = read_sitting((folder / "sitting.json").read_text(encoding="utf-8"))
    sheet, [paper] = folder / "for-tutor/marking-sheet.xlsx", sitting.papers
    right = Script(code=paper.code, cells={part.label: part.answer for part in paper.parts})
    sheet.write_bytes(marking_sheet(sitting, [right]))
    assert run("mark", folder, "--assessor", "J. Marsh", "--jobs", "1").exit_code == 0
    assert run("mark", folder, "--second").exit_code == 0
    second = openpyxl.load_workbook(folder / "for-tutor/second-marking-sheet.xlsx")
    for line in range(2, second["Marks"].max_row + 1):
        second["Marks"].cell(line, 9, 0)
    second.save("second.xlsx")
    assert run("mark", folder, "second.xlsx", "--second", "--assessor", "P. Dunn").exit_code == 0
    assert "The centre's settings in centre.yaml: name." in run("sample", "--papers", "1").output
    assert run("criteria").exit_code == 0
    name = "Brookfield Trades College"
    for pattern, title in (
        ("output/sampling-plan-*.pdf", "Sampling plan"),
        ("output/criteria-map-*.pdf", "Criteria map"),
        ("output/*/marked/two-markers.pdf", "Two markers: Joints"),
    ):
        [file] = Path().glob(pattern)
        assert text_of(file).startswith(f"{name} {title}"), file


def test_feedback_and_audit_copy_have_the_centres_name_and_are_signed() -> None:
    centre(WHOLE)
    folder = issue()
    sitting = read_sitting((folder / "sitting.json").read_text(encoding="utf-8"))
    (folder / "for-tutor" / "marking-sheet.xlsx").write_bytes(marking_sheet(sitting, invented_scripts(sitting)))
    assert run("mark", folder, "--assessor", "J. Marsh", "--jobs", "1").exit_code == 0
    [feedback] = folder.glob("marked/feedback-*.pdf")
    assert "Brookfield Trades College Feedback: Joints" in text_of(feedback)
    assert "I have read this." in text_of(feedback)
    done = run("audit", sitting.papers[0].code)
    assert done.exit_code == 0, done.output
    [audit] = Path("output").glob("audit-*.pdf")
    told = text_of(audit)
    assert "Brookfield Trades College Audit copy of paper" in told
    assert "Seen and agreed." in told
    assert "Internal quality assurer" in told


# ------------------------------------------------------------------ jobs


def job(named: str = "garden-wall-panel") -> dict[str, str]:
    """The sheets of a job as texts, by the names of their files."""
    done = run("job", named, "--date", "2026-01-05", "--jobs", "1")
    assert done.exit_code == 0, done.output
    [folder] = Path("output").glob("2026-01-05*")
    found = {file.stem: text_of(file) for file in folder.glob("*.pdf")}
    folder.rename(f"{len(list(Path().glob('seen-*')))}".join(("seen-", "")))
    return found


@pytest.mark.parametrize(
    ("line", "sheet", "printed"),
    [
        ("name: Brookfield Trades College", "stores-order", "Brookfield Trades College A panel low in a garden wall"),
        ("mortar: cement", "stores-order", "The wall is in cement mortar: its bricks are not laid again."),
        ("day_height: 900", "job-sheet", "In a day the wall goes up 900 mm at most, which is 12 courses"),
        ("tolerances: Training bench", "observation-sheet", "Tolerances: Training bench"),
        ("upright_joint: cross joint", "observation-sheet", "Widest cross joint of the panel"),
        ("signatures: {observation: {signed: [Witness]}}", "observation-sheet", "Witness Date"),
    ],
)
def test_a_shipped_job_goes_by_the_centre(line: str, sheet: str, printed: str) -> None:
    assert printed not in job()[sheet]
    centre(f"{line}\n")
    assert printed in job()[sheet]


def test_a_job_of_ones_own_keeps_what_it_names_and_the_centre_fills_the_rest() -> None:
    """The lower of both days' heights holds: the shipped job asks for 1200 mm."""
    text = (shipped_folder() / "jobs" / "garden-wall-panel.yaml").read_text(encoding="utf-8")
    Path("mine.yaml").write_text(text, encoding="utf-8")
    centre("mortar: cement\ntolerances: Training bench\nday_height: 1500\n")
    named = job("mine.yaml")
    assert "Tolerances: LABC Warranty manual v8" in named["observation-sheet"]
    assert "practice mortar" in named["stores-order"]
    assert "goes up 1200 mm at most" in named["job-sheet"]
    for key in ("mortar: practice\n", "tolerances: LABC Warranty manual v8\n"):
        text = text.replace(key, "")
    Path("mine.yaml").write_text(text, encoding="utf-8")
    filled = job("mine.yaml")
    assert "Tolerances: Training bench" in filled["observation-sheet"]
    assert "cement mortar" in filled["stores-order"]


def test_a_profile_that_nobody_has_is_told_where_it_stands() -> None:
    centre("# ours\ntolerances: Training bnech\n")
    done = run("job", "garden-wall-panel")
    assert done.exit_code == 2
    assert (
        "centre.yaml:2:13: no tolerance profile is named `Training bnech`; did you mean `Training bench`?"
        in done.output
    )


# ------------------------------------------------------------------ approval


def test_where_papers_have_to_be_approved_they_are_dealt_first_and_printed_with_a_name() -> None:
    centre("approval: required\n")
    asked = ("issue", "joints.yaml", "--learners", "1", "--date", "2026-01-05", "--jobs", "1")
    refused = run(*asked)
    assert refused.exit_code == 2
    assert "your centre prints no papers before they are approved" in refused.output
    assert run(*asked, "--for-approval").exit_code == 0
    [dealt] = Path("output").glob("*-for-approval")
    assert "Assurer: ___" in text_of(dealt / "assurer-sheet.pdf")
    assert run("issue", "--approved", dealt).exit_code == 2
    assert run("issue", "joints.yaml", "--approved", dealt, "--approved-by", "Q. Adeyemi").exit_code == 2
    assert run("issue", "--approved", dealt, "--approved-by", "Q. Adeyemi", "--jobs", "1").exit_code == 0
    [folder] = Path("output").glob("2026-01-05*")
    assert "Approved by Q. Adeyemi." in text_of(folder / "for-tutor" / "assurer-sheet.pdf")


# ------------------------------------------------------------------ the record and criteria


def test_records_are_kept_as_long_as_the_centre_says() -> None:
    folder = issue()
    assert run("record", "take", folder).exit_code == 0
    assert "No time is set" in run("record", "past").output
    centre("retention: {papers: 1, scripts: 36}\n")
    told = run("record", "keep").output
    assert told.startswith("The centre's settings in centre.yaml: retention.\n")
    assert "papers: 1 months after the sitting" in told
    assert "marks: always" in told
    assert "papers of " in run("record", "past").output  # the sitting was on 5 January 2026
    assert run("record", "keep", "papers", "always").exit_code == 0
    assert "papers: always" in run("record", "keep").output


def test_criteria_stand_in_the_centres_file_or_in_one_of_their_own() -> None:
    own = "criteria: [{code: BRK-1, says: Counts joints, evidence: [{topic: Joints, exercise: joints-of-a-course}]}]\n"
    centre(f"name: Brookfield\n{own}")
    centre(f"{own[:-2]}, {{code: BRK-2, says: Works safely}}]\n", "criteria.yaml")
    here = run("criteria", "--bank", "joints.yaml")
    assert here.exit_code == 0, here.output
    assert "1 criterion, 0 learners" in here.output
    assert "2 criteria, 0 learners" in run("criteria", "criteria.yaml", "--bank", "joints.yaml").output
    assert "2 criteria, 0 learners" in run("criteria", "--centre", "criteria.yaml", "--bank", "joints.yaml").output
    centre("name: Brookfield\n")
    done = run("criteria")
    assert done.exit_code == 2
    assert "centre.yaml:1:1: the key `criteria` is missing" in done.output


# ------------------------------------------------------------------ the sitting's file


def test_a_sitting_keeps_what_it_was_printed_by_and_no_other_setting() -> None:
    centre(WHOLE)
    folder = issue()
    text = (folder / "sitting.json").read_text(encoding="utf-8")
    head = json.loads(text)["sitting"]
    assert head["arris_rule"] == "near"
    assert head["settings"] == {
        "name": "Brookfield Trades College",
        "upright_joint": "cross joint",
        "signatures": {
            "papers": {"says": "These answers are all my own work.", "signed": ["Learner", "Invigilator"]},
            "feedback": {"says": "I have read this.", "signed": ["Learner"]},
        },
    }
    sitting = read_sitting(text)
    assert write_sitting(sitting) == text
    assert sitting.settings.retention == DEFAULTS.retention


@pytest.mark.parametrize(
    ("jobs", "there", "at_work"), [(None, 1, 1), (None, 2, 2), (None, 16, 2), (5, 2, 5), (1, 2, 1)]
)
def test_processes_at_work_are_those_asked_for_else_two_where_there_are_two_cores(
    monkeypatch, jobs: int | None, there: int, at_work: int
) -> None:
    monkeypatch.setattr("os.cpu_count", lambda: there)
    assert cores(jobs) == at_work
