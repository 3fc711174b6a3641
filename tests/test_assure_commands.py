"""What a quality assurer asks for, through the command line: a sample, an audit copy, criteria against evidence."""

from __future__ import annotations

import re
import stat
from datetime import UTC, datetime
from fractions import Fraction
from io import BytesIO
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner, Result
from pypdf import PdfReader

from courseware.banks.figures import write_out
from courseware.cli import main
from courseware.commands.sample import _Percent
from courseware.database.opening import open_record
from courseware.database.sittings import take
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.marks import Decision, Script
from courseware.marking.script_sheet import Scripts, read_scripts
from courseware.papers.sitting import IssuedPaper, IssuedPart, Sitting
from courseware.papers.sitting_file import write_sitting
from courseware.workflows.marking import enter_and_mark
from courseware.workflows.quality import write_second

WHEN = datetime(2026, 1, 6, 9, 30, tzinfo=UTC)
NAMES = ("Amara Okafor", "Łukasz Wójcik", "Zoë O'Brien-Smythe")  # as the shared fixture deals them; invented
CRITERIA = """\
criteria:  # invented codes
  - code: BRK-1.1
    says: Works out openings and piers so that no brick is cut
    evidence:
      - {topic: Opening sizes, exercise: opening-for-a-panel}
      - {topic: opening_sizes, exercise: wall-between-two-wings, part: pier_length}
  - code: BRK-1.2
    says: Builds a panel within the tolerances
    evidence: [{job: porch-panel, line: joints}]
  - code: BRK-1.3
    says: Works safely
"""


def run(*words: object) -> Result:
    done = CliRunner().invoke(main, [str(word) for word in words])
    assert "Traceback" not in done.output
    if done.exception and not isinstance(done.exception, SystemExit):
        raise done.exception
    return done


def parts(paper: IssuedPaper) -> list[IssuedPart]:
    return [part for exercise in paper.exercises for part in exercise.parts]


def figure(paper: IssuedPaper) -> str:
    """The label of the first part that asks for a figure."""
    return next(part.label for part in parts(paper) if part.kind == "number")


def right(part: IssuedPart) -> str:
    """The answer as a learner would write it."""
    return write_out(Fraction(part.answer)) if part.kind in {"number", "table"} else part.answer or "all"


def script(paper: IssuedPaper, line: int, **other: str) -> Script:
    """A script with every answer right but those given otherwise, by label with a leading underscore."""
    cells = {part.label: other.get(f"_{part.label}", right(part)) for part in parts(paper)}
    return Script(code=paper.code, cells=cells, line=line)


def text_of(file: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(file).pages)


@pytest.fixture
def sitting(dealt) -> Sitting:
    return dealt("opening_sizes", exercises=3)


@pytest.fixture
def place(tmp_path, monkeypatch, sitting) -> SittingFolder:
    """A record with one marked sitting: the first learner all right, the second with a wrong start, the third absent."""
    monkeypatch.chdir(tmp_path)
    folder = Path("output", "sitting")
    folder.mkdir(parents=True)
    place = SittingFolder(path=folder, text=write_sitting(sitting), sitting=sitting)
    (folder / "sitting.json").write_text(place.text, encoding="utf-8")
    first, second, third = sitting.papers
    label = figure(first)
    away = Script(code=third.code, cells={}, status="absent", line=4)
    scripts = (script(first, 2), script(second, 3, **{f"_{label}": "7"}), away)
    decided = Decision(code=second.code, label=label, marks=1, reason="Łukasz Wójcik showed the working aloud")
    enter(place, scripts, (decided,), "J. Marsh", "first")
    return place


def enter(
    place: SittingFolder, scripts: tuple[Script, ...], decisions: tuple[Decision, ...], who: str, role: str
) -> None:
    engine = open_record("sqlite:///output/record.sqlite")
    sheet = Scripts(scripts=scripts, decisions=decisions, notes=())
    enter_and_mark(engine, place, sheet, (), assessor=who, role=role, source="marking-sheet.xlsx", at=WHEN)
    engine.dispose()


# ------------------------------------------------------------------ sample


def test_a_sample_names_its_seed_and_gives_itself_again_from_it(place) -> None:
    done = run("sample", "--papers", "2", "--pass-line", "60")
    assert done.exit_code == 0, done.output
    seed = re.search(r"drawn with the seed (\w+)", done.output)[1]
    (file,) = Path("output").glob("sampling-plan-*.pdf")
    first = file.read_bytes()
    assert f"the seed {seed}" in text_of(file)
    run("sample", place.path, "--papers", "2", "--pass-line", "60", "--seed", seed)
    assert file.read_bytes() == first
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


def test_absent_learners_are_not_sampled_and_names_are_asked_for(place, sitting) -> None:
    run("sample", "--share", "100", "--seed", "QX")
    (book,) = Path("output").glob("*.xlsx")
    rows = list(openpyxl.load_workbook(book)["Sample"].values)
    assert {row[0] for row in rows[1:]} == {paper.code for paper in sitting.papers[:2]}
    decided = next(row for row in rows if row[0] == sitting.papers[1].code)
    assert "assessor's own mark on 1 part" in decided[5]
    assert decided[2] == "J. Marsh"
    (sheet,) = Path("output").glob("*.pdf")
    assert not any(name in text_of(sheet) for name in NAMES)
    run("sample", "--share", "100", "--seed", "QX", "--names")
    assert NAMES[1] in text_of(sheet)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--papers", "2", "--share", "10"), "either --papers or --share"),
        (("--share", "0"), "in percent"),
        (("--share", "nan"), "in percent"),
        (("--share", "1/0"), "in percent"),
        (("--pass-line", "101"), "in percent"),
        (("--papers", "0"), "0 is not in the range"),
        (("--seed", ""), "1 to 100 characters"),
        (("NOWHERE",), "has no sitting NOWHERE"),
        (("--record", "nowhere.sqlite"), "no record at nowhere.sqlite"),
    ],
)
def test_what_cannot_be_sampled_is_said_plainly(place, words, says) -> None:
    done = run("sample", *words)
    assert done.exit_code == 2
    assert says in done.output
    assert not list(Path("output").glob("sampling-plan*"))


def test_nothing_marked_is_nothing_to_sample(tmp_path, monkeypatch, sitting) -> None:
    monkeypatch.chdir(tmp_path)
    engine = open_record("sqlite:///output/record.sqlite")
    take(engine, sitting, write_sitting(sitting), at=WHEN)
    engine.dispose()
    done = run("sample")
    assert (done.exit_code, "no marked papers" in done.output) == (2, True)


@pytest.mark.parametrize(("typed", "share"), [("10", "1/10"), ("62.5 %", "5/8"), ("100%", "1")])
def test_a_share_is_read_exactly(typed, share) -> None:
    assert _Percent().convert(typed, None, None) == Fraction(share)


# ------------------------------------------------------------------ audit


def test_an_audit_copy_holds_paper_key_script_marks_and_history(place, sitting) -> None:
    paper = sitting.papers[1]
    done = run("audit", paper.code.lower().replace("-", ""))
    assert done.exit_code == 0, done.output
    file = Path("output", f"audit-{paper.code}.pdf")
    pdf = PdfReader(file)
    assert [item.title for item in pdf.outline] == [
        "Front sheet", "The paper as issued", "Its key", "The script and its marks", "History of the marks",
    ]  # fmt: skip
    assert pdf.metadata.title == f"Audit copy of paper {paper.code}"
    text = text_of(file)
    flat = " ".join(text.split())
    for bank in sitting.banks:
        assert bank.sha256 in "".join(flat.split())
    assert "decided by the assessor" in flat
    assert "First marker: J. Marsh" in flat
    assert "2026-01-06 09:30 J. Marsh" in flat
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


def test_the_front_sheet_tells_the_pages_where_each_piece_is(place, sitting) -> None:
    paper = sitting.papers[0]
    run("audit", paper.code)
    pdf = PdfReader(Path("output", f"audit-{paper.code}.pdf"))
    front = " ".join(pdf.pages[0].extract_text().split())
    starts = [pdf.get_destination_page_number(item) + 1 for item in pdf.outline] + [len(pdf.pages) + 1]
    pieces = zip(pdf.outline[1:], starts[1:], starts[2:], strict=False)
    for item, first, after in pieces:
        pages = str(first) if after == first + 1 else f"{first} to {after - 1}"
        assert f"{item.title} {pages}" in front


def test_an_audit_copy_goes_by_codes_unless_names_are_asked_for(place, sitting) -> None:
    paper = sitting.papers[1]
    file = Path("output", f"audit-{paper.code}.pdf")
    run("audit", paper.code)
    assert NAMES[1] not in " ".join(text_of(file).split())
    assert f"{paper.code} showed the working aloud" in " ".join(text_of(file).split())
    run("audit", paper.code, "--names")
    assert " ".join(text_of(file).split()).count(NAMES[1]) >= 3  # paper, key, front sheet, and the reason


def test_the_second_markers_marks_stand_in_it(place, sitting) -> None:
    first, second, _ = sitting.papers
    label = figure(first)
    scripts = (script(first, 2, **{f"_{label}": "7"}), script(second, 3, **{f"_{label}": "7"}))
    enter(place, scripts, (), "P. Dunn", "second")
    run("audit", first.code)
    flat = " ".join(text_of(Path("output", f"audit-{first.code}.pdf")).split())
    assert "Second marker: P. Dunn" in flat
    assert "Both markers" in flat


def test_a_paper_without_a_script_has_its_audit_copy_too(tmp_path, monkeypatch, sitting) -> None:
    monkeypatch.chdir(tmp_path)
    engine = open_record("sqlite:///output/record.sqlite")
    take(engine, sitting, write_sitting(sitting), at=WHEN)
    engine.dispose()
    assert run("audit", sitting.papers[0].code).exit_code == 0
    assert "No script of this paper" in text_of(Path("output", f"audit-{sitting.papers[0].code}.pdf"))


def test_a_paper_that_is_not_there_is_told(place) -> None:
    done = run("audit", "AAAA-AAAA-A")
    assert (done.exit_code, "has no paper AAAA-AAAA-A" in done.output) == (2, True)


# ------------------------------------------------------------------ criteria


def test_the_map_tells_who_has_secure_evidence_and_what_has_none(place, sitting) -> None:
    issued, other, _ = sitting.papers[0].exercises
    own = CRITERIA.replace("opening-for-a-panel", issued.exercise)
    own = own.replace("wall-between-two-wings, part: pier_length", f"{other.exercise}, part: {other.parts[0].name}")
    Path("centre.yaml").write_text(own, encoding="utf-8")
    done = run("criteria", "centre.yaml", "--names")
    assert done.exit_code == 0, done.output
    assert "No evidence yet for BRK-1.2: seen at a job only." in done.output
    assert "No evidence yet for BRK-1.3: no part serves it." in done.output
    (book,) = Path("output").glob("criteria-map-*.xlsx")
    rows = list(openpyxl.load_workbook(book)["Map"].values)
    states = {row[1]: row[3] for row in rows[1:]}
    assert states[NAMES[0]] == "secure"
    assert states[NAMES[2]] == "–"  # absent
    (sheet,) = Path("output").glob("criteria-map-*.pdf")
    assert "BRK-1.1" in text_of(sheet)
    run("criteria", "centre.yaml", place.path)
    assert not any(name in text_of(sheet) for name in NAMES)


def test_without_a_record_criteria_are_mapped_to_parts_alone(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("centre.yaml").write_text(CRITERIA, encoding="utf-8")
    done = run("criteria", "centre.yaml")
    assert done.exit_code == 0, done.output
    assert "3 criteria, 0 learners" in done.output


def test_a_bank_of_ones_own_may_be_named(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    shipped = Path(__file__).parents[1] / "question_banks" / "opening_sizes.yaml"
    own = shipped.read_text(encoding="utf-8").replace("topic: Opening sizes", "topic: Our own openings")
    Path("own.yaml").write_text(own, encoding="utf-8")
    Path("centre.yaml").write_text(
        CRITERIA.replace("topic: Opening sizes", "topic: Our own openings"), encoding="utf-8"
    )
    assert "no topic is named `Our own openings`" in run("criteria", "centre.yaml").output
    assert run("criteria", "centre.yaml", "--bank", "own.yaml").exit_code == 0


def test_faults_in_a_criteria_file_are_told_with_their_places(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("centre.yaml").write_text(CRITERIA.replace("part: pier_length", "part: pier_lenght"), encoding="utf-8")
    done = run("criteria", "centre.yaml")
    assert done.exit_code == 2
    assert "centre.yaml:6:" in done.output
    assert "did you mean `pier_length`?" in done.output
    assert "nothing was made" in done.output
    assert not Path("output").exists()


# ------------------------------------------------------------------ two markers


def test_nothing_of_the_first_markers_is_written_before_the_second_has_finished(place, sitting) -> None:
    engine = open_record("sqlite:///output/record.sqlite")
    assert list(write_second(engine, place, names=False)) == [
        "No paper is marked in full by both yet, so nothing of the first marker's is shown."
    ]
    engine.dispose()
    assert not list(place.path.rglob("two-markers*"))


def test_differences_go_out_and_the_agreed_marks_come_back(place, sitting) -> None:
    first, second, _ = sitting.papers
    label = figure(first)
    enter(place, (script(first, 2), script(second, 3, **{f"_{label}": "7"})), (), "P. Dunn", "second")
    engine = open_record("sqlite:///output/record.sqlite")
    told = list(write_second(engine, place, names=False))
    assert told[0].startswith("1 of ")
    file = place.path / "marked" / "two-markers.xlsx"
    book = openpyxl.load_workbook(file)
    rows = list(book["Decisions"].values)
    assert rows[1][:2] == (second.code, label)
    book["Decisions"]["C2"] = 0
    book["Decisions"]["D2"] = "Agreed: no working on the paper"
    written = BytesIO()
    book.save(written)
    sheet = read_scripts(written.getvalue(), "two-markers.xlsx", sitting)
    assert sheet.scripts == ()
    (agreed,) = sheet.decisions
    assert (agreed.code, agreed.label, agreed.marks) == (second.code, label, 0)
    list(write_second(engine, place, names=False))
    engine.dispose()
    assert (place.path / "marked" / "two-markers-2.xlsx").exists()
