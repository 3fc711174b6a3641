"""A kind of part that exists in these tests alone goes all the way: checked, issued, marked, fed back, practised.

It is the folder `of_ones_own/ratio`, and nothing in the program knows of it: a mix, answered as 1:4.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from courseware import part_kinds
from courseware.banks import BankFaulty, read_bank
from courseware.cli import main
from courseware.papers.sitting_file import SittingFaulty, read_sitting
from courseware.practice.one_file import page_modules, page_script
from tests.practice.packed_kind import unpacked_kind

OWN = Path(__file__).with_name("of_ones_own")
BANK = """\
topic: Mixes
aim: Say a mix as a ratio
exercises:
  - name: mix-of-a-batch
    level: 1
    given: {cement: 2 to 9, sand: 3 to 6}
    pose: A batch takes {{ cement }} buckets of cement, and {{ sand }} times as many of sand.
    parts:
      - name: mix
        kind: ratio
        ask: What is the mix, cement to sand, in lowest terms?
        terms: ["1", "sand"]
        checks: ["cement / cement", "sand * cement / cement"]
        marks: 2
      - name: buckets
        ask: How many buckets of sand is that?
        answer: sand * cement
        marks: 1
        working: [{say: Times as many, value: cement * sand}]
"""


@pytest.fixture(scope="module")
def known() -> Iterator[None]:
    """The kinds of the program and, for this module's tests, the one of its own."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(part_kinds, "__path__", [*part_kinds.__path__, str(OWN)])
        yield
    read_bank.cache_clear()


@pytest.fixture(scope="module")
def desk(known: None, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("desk")
    (folder / "mixes.yaml").write_text(BANK, encoding="utf-8")
    return folder


def run(*words: object) -> str:
    done = CliRunner().invoke(main, [*map(str, words), "--jobs", "1"])
    assert done.exit_code == 0, done.output
    return done.output


@pytest.fixture(scope="module")
def issued(desk: Path) -> Path:
    run("issue", desk / "mixes.yaml", "--learners", 2, "--date", "2026-01-05", "--seed", "s", "--out", desk / "output")
    [record] = desk.glob("output/*/sitting.json")
    return record.parent


def text_of(pdf: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(pdf).pages)


def test_nobody_knows_it_without_its_folder(monkeypatch) -> None:
    monkeypatch.setattr(part_kinds, "__path__", [place for place in part_kinds.__path__ if place != str(OWN)])
    read_bank.cache_clear()
    with pytest.raises(BankFaulty, match="no part is of kind `ratio`; expected one of number, choice, order, table,"):
        read_bank(BANK.encode(), "mixes.yaml")


def test_its_bank_is_checked_and_proved(desk: Path) -> None:
    assert "all 1 exercises proved: 32 variants walked" in run("check", desk / "mixes.yaml")


@pytest.mark.parametrize(
    ("sound", "faulty", "told"),
    [
        ("        marks: 2\n", "        marks: 2\n        unit: mm\n", "a part of kind ratio has no `unit`"),
        ('        terms: ["1", "sand"]\n', "", "the key `terms` is missing"),
        ('terms: ["1", "sand"]', 'terms: ["1"]', "1 formulas; expected two"),
        ('terms: ["1", "sand"]', 'term: ["1", "sand"]', "did you mean `terms`?"),
    ],
)
def test_a_fault_in_its_own_keys_is_told(known: None, sound: str, faulty: str, told: str) -> None:
    with pytest.raises(BankFaulty, match=re.escape(told)):
        read_bank(BANK.replace(sound, faulty).encode(), "mixes.yaml")


def test_what_it_proves_is_asked_of_every_variant(desk: Path) -> None:
    wrong = desk / "wrong.yaml"
    wrong.write_text(BANK.replace("cement / cement", "cement / 2"), encoding="utf-8")
    done = CliRunner().invoke(main, ["check", str(wrong), "--jobs", "1"])
    assert done.exit_code != 0
    assert "mix: `terms` and `checks` give two ratios" in done.output


def test_it_is_printed_with_its_room_and_its_key(issued: Path) -> None:
    sitting = read_sitting((issued / "sitting.json").read_text(encoding="utf-8"))
    [entry, _] = sitting.papers[0].parts
    assert (entry.kind, entry.answer[:2]) == ("ratio", "1:")
    [paper, *_] = sorted(issued.glob("for-learners/paper-*.pdf"))
    [key, *_] = sorted(issued.glob("for-tutor/key-*.pdf"))
    assert "as a ratio" in text_of(paper)
    assert "Ratio" in text_of(paper)
    assert not re.search(r"1:\d", text_of(paper))
    assert re.search(r"1:\d", text_of(key))


def test_the_sitting_of_a_kind_that_is_not_known_is_refused(issued: Path) -> None:
    text = (issued / "sitting.json").read_text(encoding="utf-8")
    with pytest.raises(SittingFaulty):
        read_sitting(text.replace('"kind": "ratio"', '"kind": "../ratio"'))


def test_it_is_marked_and_fed_back(issued: Path, tmp_path: Path) -> None:
    folder = shutil.copytree(issued, tmp_path / issued.name)
    sitting = read_sitting((folder / "sitting.json").read_text(encoding="utf-8"))
    sheet = folder / "for-tutor/marking-sheet.xlsx"
    book = openpyxl.load_workbook(sheet)
    told = [[cell.value for cell in row] for row in book["Parts"].iter_rows()]
    assert any("the ratio: 1:4, or 1 to 4" in row for row in told)
    columns = {cell.value: cell.column for cell in book.active[1]}
    right = sitting.papers[0].parts[0].answer.replace("1:", "")
    for row, written in ((2, f"2 to {2 * int(right)}"), (3, "7:1")):
        book.active.cell(row, columns["1a"]).value = written
    book.save(sheet)
    run("mark", folder, "--assessor", "J. Marsh", "--record", tmp_path / "record.sqlite")
    one, other = (text_of(next(folder.glob(f"marked/feedback-*{paper.code}*.pdf"))) for paper in sitting.papers)
    assert "2 out of 3" in one
    assert "0 out of 3" in other
    assert "These two do not stand to each other as they should." in other


def test_it_is_practised(desk: Path) -> None:
    page = desk / "practice.html"
    run("practise", desk / "mixes.yaml", "--out", page)
    text = page.read_text(encoding="utf-8")
    [packed] = re.findall(r'id="kind-0"[^>]*>([^<]+)<', text)
    part = unpacked_kind(packed)["variants"][0]["parts"][0]
    assert (part["kind"], part["right"][:2]) == ("ratio", "1:")
    assert "PART_KINDS.ratio = {" in text
    assert list(page_modules()).index("ratio") > list(page_modules()).index("part_kinds")


@pytest.mark.parametrize(
    ("typed", "how"), [("1:4", "right"), ("2 to 8", "right"), ("4:1", "wrong"), ("four", "asked"), ("", "blank")]
)
def test_the_page_judges_it_by_its_own_module(known, browser, typed: str, how: str) -> None:
    modules = [name for name in page_modules() if name not in {"screens", "storage", "main"}]
    page = browser.new_page()
    page.evaluate(f"() => {{ {page_script(modules)}\nglobalThis.kindOf = kindOf; }}")
    judged = page.evaluate(
        """typed => {
            const place = kindOf({ kind: "ratio" }).place({ right: "1:4" }, () => null);
            document.body.append(place.element);
            document.getElementById("answer").value = typed;
            return place.judge().how;
        }""",
        typed,
    )
    page.close()
    assert judged == how


def test_its_booklet_is_printed(desk: Path) -> None:
    run("practise", desk / "mixes.yaml", "--print", "--out", desk / "practice.pdf")
    assert re.search(r"1:\d", text_of(desk / "practice.pdf"))
