"""`courseware board`: what it makes of banks and of a marked sitting, what it says, and what it refuses."""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path

import pytest
from pikepdf import Pdf

from courseware.printing.leak_check import page_text
from tests.commands.conftest import run


def text(file: str) -> str:
    with Pdf.open(BytesIO(Path(file).read_bytes())) as opened:
        return "\n".join(page_text(sheet) for sheet in opened.pages)


def made(*words: object) -> str:
    done = run("board", *words)
    assert done.exit_code == 0, done.output
    return done.output


def test_a_bank_of_ones_own_makes_its_pages(desk) -> None:
    """Of piers of 5 to 9 bricks some are for practice once there are twelve sizes and more."""
    own = Path("piers.yaml").read_text(encoding="utf-8").replace("2 to 9", "5 to 40")
    Path("piers.yaml").write_text(own, encoding="utf-8")
    assert re.fullmatch(r"\d+ pages for the whiteboard in output/board\.pdf\n", made("piers.yaml", "--jobs", "1"))
    said = text("output/board.pdf")
    assert "Whiteboard: Piers" in said
    assert "The joint at the end was left on" in said


def test_the_same_seed_makes_the_same_bytes_and_another_other_figures(desk) -> None:
    for seed, file in (("plumb", "one.pdf"), ("plumb", "two.pdf"), ("level", "three.pdf")):
        made("opening_sizes", "--pick", "opening-for-a-panel", "--seed", seed, "--out", file, "--jobs", "1")
    one, two, three = (Path(name).read_bytes() for name in ("one.pdf", "two.pdf", "three.pdf"))
    assert one == two != three


def test_only_the_exercises_picked_are_on_it(desk) -> None:
    made("opening_sizes", "--pick", "opening-for-a-panel", "--out", "one.pdf", "--jobs", "1")
    with Pdf.open("one.pdf") as opened, opened.open_outline() as outline:
        assert [item.title for item in outline.root] == ["Whiteboard: Opening sizes", "1 Opening for a panel"]


def test_an_exercise_too_small_to_share_is_kept_for_papers(desk) -> None:
    done = run("board", "piers.yaml", "--jobs", "1")
    assert done.exit_code == 2
    assert "all kept for papers" in done.output
    assert not Path("output/board.pdf").exists()


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ((), "Missing argument"),
        (("opening_sizes", "--out", "."), "is a folder; name a file in it"),
        (("opening_sizes", "--pick", "nothing"), "no exercise is named nothing"),
        (("nowhere",), "there is no bank nowhere"),
        (("output/sitting", "--seed", "a"), "SITTING brings its own exercises"),
        (("output/sitting", "--arris-rule", "near"), "SITTING brings its own exercises"),
        (("output/sitting", "opening_sizes"), "SITTING brings its own exercises"),
    ],
)
def test_what_cannot_be_is_said_before_any_work(place, arguments: tuple[str, ...], says: str) -> None:
    done = run("board", *arguments)
    assert done.exit_code == 2
    assert says in " ".join(done.output.replace("│", " ").split())


def test_a_class_that_made_no_slip_twice_has_nothing_to_be_taught_again(place) -> None:
    done = run("board", place.path)
    assert done.exit_code == 2
    assert "nothing to teach the class again" in done.output
