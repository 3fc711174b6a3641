"""The drawings of the shipped banks, as a paper and its key have them: large enough to read, and nothing written twice over.

The variants looked at are those with the smallest, the middling and the largest givens.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from shapely.geometry import Polygon, box

from courseware import printing
from courseware.banks.exercise import Exercise
from courseware.banks.solve import scope_of, solve
from courseware.banks.space import walk
from courseware.drawings import draw
from courseware.drawings.fitted import Sizes
from courseware.drawings.picture import Label, Picture, Stroke, extent
from courseware.files.bank_files import read_banks, shipped_banks
from courseware.papers.compose_drawing import drawing_call
from courseware.papers.sheets import DrawingCall
from courseware.settings.settings import Settings

FACES = Path(printing.__file__).parent / "fonts" / "atkinson-hyperlegible-next"
TOPICS = [path.stem for path in shipped_banks()]
EIGHT_POINTS = 2.82  # mm of type: a point is 25.4/72 mm
LARGEST = (163.0, 170.0)  # mm, of a sheet; a drawing to draw in is at true size
# Exercises that say nothing which could be drawn from their figures.
WITHOUT = {"safe_cutting": {"match-the-controls"}}  # hours that blades last, and a sketch of the place from above


@cache
def exercises() -> dict[str, tuple[Exercise, ...]]:
    banks, _ = read_banks(shipped_banks(), Settings())
    return {bank.file.removesuffix(".yaml").rpartition("/")[2]: bank.exercises for bank in banks}


def calls(topic: str) -> Iterator[tuple[str, DrawingCall]]:
    for exercise in exercises()[topic]:
        if exercise.drawing is None or exercise.drawing.own is not None:
            continue
        variants = [given for given in walk(exercise) if exercise.where is None or exercise.where.value(given)]
        variants.sort(key=lambda given: sum(float(x) for x in given.values() if not isinstance(x, str)))
        for given in (variants[0], variants[len(variants) // 2], variants[-1]):
            scope = scope_of(given, solve(exercise, given))
            for filled in (False, True):
                yield f"{exercise.name} {given}", drawing_call(exercise, scope, filled=filled)


def taken(picture: Picture) -> list[tuple[str, float, float, float, float]]:
    """What each label takes up, and each box to write in."""
    found = []
    for mark in picture.marks:
        if isinstance(mark, Label):
            found.append((mark.text, *_lettered(mark)))
        elif mark.fill == 1.0 and len(mark.outlines) == 1 and _box_to_write_in(mark.outlines[0]):
            xs, ys = zip(*extent(mark), strict=True)
            found.append(("a box to write in", min(xs), min(ys), max(xs), max(ys)))
    return found


def _lettered(label: Label) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a label's letters, by the widths that its face gives them."""
    wide = sum(widths(label.bold).get(letter, 0.6) for letter in label.text) * label.size
    start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[label.anchor]
    (x, y), up = label.at, 0.75 * label.size
    if label.turn == 90:
        return x - up, y - start - wide, x, y - start
    return x + start, y - up, x + start + wide, y


@cache
def widths(bold: bool) -> dict[str, float]:
    """The width of each letter to its size."""
    with TTFont(FACES / ("Bold.ttf" if bold else "Regular.ttf")) as face:
        em, across = face["head"].unitsPerEm, face["hmtx"]
        return {chr(code): across[glyph][0] / em for code, glyph in face.getBestCmap().items()}


def _box_to_write_in(points) -> bool:
    xs, ys = zip(*points, strict=True)
    return len(points) == 4 and sorted((round(max(xs) - min(xs), 1), round(max(ys) - min(ys), 1))) == [7.5, 20.0]


@pytest.mark.parametrize("topic", TOPICS)
def test_no_two_labels_or_boxes_lie_on_one_another_and_all_are_large_enough(topic) -> None:
    for name, call in calls(topic):
        picture = draw(call)
        assert picture.width <= LARGEST[0], name
        assert picture.height <= LARGEST[1], name
        assert all(mark.size >= EIGHT_POINTS for mark in picture.marks if isinstance(mark, Label)), name
        for (one, a, b, c, d), (other, e, f, g, h) in combinations(taken(picture), 2):
            apart = c <= e + 0.3 or g <= a + 0.3 or d <= f + 0.3 or h <= b + 0.3
            assert apart, f"{name}: {one!r} and {other!r}"


@pytest.mark.parametrize("room", [(1e6, 1e6), (84.0, 50.0), (60.0, 36.0)], ids=["whole", "beside", "small"])
@pytest.mark.parametrize("topic", TOPICS)
def test_no_word_runs_over_the_edge_of_a_brick(topic, room) -> None:
    """On papers and beside the words of feedback: it stands off the brickwork, or within one brick."""
    for name, call in calls(topic):
        made = Sizes(call).fitting(room)
        for mark in made.marks if made else ():
            if isinstance(mark, Label) and len(mark.text) > 2:
                left, top, right, bottom = _lettered(mark)
                letters = box(left + 0.3, top + 0.3, right - 0.3, bottom - 0.3)
                assert [piece for piece in toned(made) if over_its_edge(letters, piece)] == [], f"{name}: {mark.text!r}"


def toned(picture: Picture) -> list[Polygon]:
    """What of a picture is filled with a tone: bricks seen or cut."""
    filled = [
        mark for mark in picture.marks if isinstance(mark, Stroke) and mark.closed and mark.fill not in (None, 1.0)
    ]
    return [Polygon(outline) for mark in filled for outline in mark.outlines]


def over_its_edge(letters: Polygon, piece: Polygon) -> bool:
    return piece.intersects(letters) and not piece.contains(letters) and piece.intersection(letters).area > 0.05


@pytest.mark.parametrize("topic", TOPICS)
def test_every_exercise_has_a_drawing_but_those_that_are_words_alone(topic) -> None:
    assert {exercise.name for exercise in exercises()[topic] if exercise.drawing is None} == WITHOUT.get(topic, set())


@pytest.mark.parametrize("topic", TOPICS)
def test_who_cannot_see_a_drawing_is_told_the_sizes_that_it_shows(topic) -> None:
    for name, call in calls(topic):
        for dimension, text in call.labels.items():
            if text is not None:
                assert text in call.alt, name
                assert text == text.strip(), name
            elif dimension.replace("_", " ") in call.alt:
                assert "left blank" in call.alt, name


def test_a_size_in_another_unit_than_mm_is_told_with_it() -> None:
    told = {name.split(" ")[0]: call.alt for name, call in calls("sequence_of_work") if None in call.labels.values()}
    assert told["uprights-and-infill"].endswith(
        "their middle broken out. It says: infill 36 courses, ahead 3 courses. Sizes asked for are left blank."
    )
    assert told["before-the-first-brick"].endswith(
        "those over it broken out. Sizes in mm: lift 1500. It says: each 20 courses. Sizes asked for are left blank."
    )
