"""What is taught again first, and the question that each ten minutes start with."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.class_report.figures import SlipSeen, class_figures
from courseware.class_report.teach_again import Starter, numbered_slips, seen, teach_again

WIDTH = Starter("A panel is 7 bricks wide.", "How wide must the opening be?", "1585 mm")
HEIGHT = Starter("A panel is 9 courses high.", "How high must the opening be?", "685 mm")


def slip(part: str, papers: int, perhaps: int = 0, label: str = "1a") -> SlipSeen:
    return SlipSeen(
        key=f"opening-for-a-panel/{part}/1",
        says=f"The joint was left out of the {part}",
        exercise="opening-for-a-panel",
        part=part,
        label=label,
        codes=tuple(f"PAPER-{n}" for n in range(papers)),
        perhaps=tuple(f"PERHAPS-{n}" for n in range(perhaps)),
    )


@pytest.fixture
def of_twelve(class_of):
    figures = class_figures(*class_of(12))

    def blocks(slips: list[SlipSeen], starters=()):
        return teach_again(replace(figures, slips=tuple(slips)), numbered_slips(slips, dict(starters)))

    return blocks


def test_slips_are_numbered_those_to_teach_again_before_single_ones() -> None:
    found = numbered_slips([slip("width", 4), slip("height", 1), slip("area", 0, 3)], {})
    assert [(one.number, one.slip.part) for one in found] == [(1, "width"), (2, "area"), (3, "height")]


def test_a_starter_goes_by_its_part_and_else_by_its_exercise() -> None:
    starters = {"opening-for-a-panel": WIDTH, "opening-for-a-panel/height": HEIGHT}
    found = numbered_slips([slip("width", 4), slip("height", 3), slip("area", 1)], starters)
    assert [one.starter for one in found] == [WIDTH, HEIGHT, None], "a slip seen once needs no starter"


def test_the_table_says_on_how_many_papers(of_twelve) -> None:
    first, *_ = of_twelve([slip("width", 5), slip("height", 3, 1, "1b")])
    assert first.heading == "Teach again first"
    assert first.table.rows == (
        ("1", "The joint was left out of the width", "1a opening for a panel", "5 of 12"),
        ("2", "The joint was left out of the height", "1b opening for a panel", "3 of 12, perhaps 1 more"),
    )
    assert first.text[0].endswith("Perhaps: the figure on these papers is one that another slip gives too.")
    assert seen(slip("width", 0, 2), 12) == "perhaps 2 of 12"


def test_slips_that_share_a_starter_are_named_together_and_the_answer_stands_with_it(of_twelve) -> None:
    _, starter = of_twelve(
        [slip("width", 5), slip("height", 3), slip("area", 2)], {"opening-for-a-panel": WIDTH}.items()
    )
    assert starter.heading == "Ten-minute starter for slips 1, 2 and 3"
    assert starter.text == (WIDTH[0], WIDTH[1], "Answer, for the tutor: 1585 mm")


def test_what_is_asked_of_one_wall_stands_together_each_ask_with_its_slips(of_twelve) -> None:
    wall = "A panel is 7 bricks wide and 9 courses high."
    starters = {
        f"opening-for-a-panel/{part}": (wall, *asked[1:]) for part, asked in (("width", WIDTH), ("height", HEIGHT))
    }
    slips = [slip("width", 5), slip("height", 3), replace(slip("width", 2), key="opening-for-a-panel/width/2")]
    _, starter = of_twelve(slips, starters.items())
    assert starter.heading == "Ten-minute starter for slips 1, 2 and 3"
    assert starter.text == (
        wall,
        "For slips 1 and 3: How wide must the opening be?",
        "Answer, for the tutor: 1585 mm",
        "For slip 2: How high must the opening be?",
        "Answer, for the tutor: 685 mm",
    )


def test_slips_without_a_starter_say_what_to_do(of_twelve) -> None:
    _, without = of_twelve([slip("width", 5)])
    assert without.text == ("No fresh question was made for slip 1: set the same question with other sizes.",)


def test_the_commonest_ten_and_their_starters_come_before_the_rest(of_twelve) -> None:
    many = [slip(f"part_{n}", 12 - n // 2) for n in range(14)]
    first, starter, rest = of_twelve(many, {"opening-for-a-panel": WIDTH}.items())
    assert (len(first.table.rows), rest.heading, len(rest.table.rows)) == (10, "Also seen on more than one paper", 4)
    assert starter.heading.endswith("13 and 14")


def test_slips_seen_once_are_called_slips(of_twelve) -> None:
    nothing, once = of_twelve([slip("width", 1)])
    assert nothing.text == ("No slip was seen on more than one paper.",)
    assert (once.heading, len(once.table.rows)) == ("Slips seen once", 1)
