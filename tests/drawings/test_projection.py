"""A projecting course read back: which course stands forward, to which side and how far, and where the eye line runs."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.trade import FORMATS, UK_METRIC, TradeError
from tests.drawings.conftest import SVG, body_of, call_for, read

CASES = [(5, 900, 25), (12, 1500, 10), (20, 1550, 75), (30, 1800, 40)]  # course, eye height, projection in mm
BRICK = UK_METRIC


def sheet_of(course: int, eye: int, out: int):
    return read(body_of(call_for("projection", course=course, eye_height=eye, projects=out)))


def enlarged(sheet):
    """The course cut through and enlarged, with the bricks below and above it."""
    forward = max(sheet.projecting, key=lambda r: r.width * r.height if r.width > r.height else 0)
    back = [r for r in sheet.bricks if r.width == pytest.approx(forward.width, abs=0.01)
            and r.height == pytest.approx(forward.height, abs=0.01)]  # fmt: skip
    return forward, sorted(back, key=lambda r: r.top)


@pytest.mark.parametrize(("course", "eye", "out"), CASES)
def test_the_course_stands_forward_of_the_face_by_its_projection(course: int, eye: int, out: int) -> None:
    """Forward is to the left, where the eye is: the bricks above and below keep the face, one joint away."""
    sheet = sheet_of(course, eye, out)
    forward, (above, below) = enlarged(sheet)
    n = float(BRICK.width) / forward.width
    for back in (above, below):
        assert back.left - forward.left == pytest.approx(out / n, abs=0.02)
        assert back.right - forward.right == pytest.approx(out / n, abs=0.02)
    assert forward.top - above.bottom == pytest.approx(float(BRICK.bed) / n, abs=0.02)
    assert below.top - forward.bottom == pytest.approx(float(BRICK.bed) / n, abs=0.02)


def in_section(sheet):
    """The small section: its bricks one above another, the projecting one among them by its top."""
    by_left: dict[tuple[float, float], list] = {}
    for brick in sheet.bricks:
        by_left.setdefault((round(brick.left, 1), round(brick.width, 1)), []).append(brick)
    rows = max(by_left.values(), key=lambda found: (len(found), found[0].left))
    return sorted(rows, key=lambda b: -b.top)


@pytest.mark.parametrize(("course", "eye", "out"), CASES)
def test_it_is_the_course_of_that_number_and_no_other(course: int, eye: int, out: int) -> None:
    """In the section the wall's own bricks leave one course out, counted from the datum: the projecting one is there."""
    sheet = sheet_of(course, eye, out)
    rows = in_section(sheet)
    n = float(BRICK.height) / rows[0].height
    foot = rows[0].bottom
    missing = [k for k in range(1, len(rows) + 2)
               if not any(abs(foot - r.bottom - (k - 1) * 75 / n) < 0.1 for r in rows)]  # fmt: skip
    assert missing[0] == course
    forward = [p for p in sheet.projecting if p.width == pytest.approx(rows[0].width, abs=0.05)]
    assert len(forward) == 1
    assert foot - forward[0].bottom == pytest.approx((course - 1) * 75 / n, abs=0.1)
    assert rows[0].left - forward[0].left == pytest.approx(out / n, abs=0.05)


@pytest.mark.parametrize(("course", "eye", "out"), [*CASES, (12, 912, 25), (12, 888, 25)])
def test_the_eye_line_runs_at_the_eyes_height_above_the_datum(course: int, eye: int, out: int) -> None:
    """One bed below the lowest brick is the datum; the line is dashed, across elevation and section."""
    sheet = sheet_of(course, eye, out)
    rows = in_section(sheet)
    n = float(BRICK.height) / rows[0].height
    datum = rows[0].bottom + float(BRICK.bed) / n
    [dashed] = [path for path in sheet.root.iter(f"{SVG}path") if path.attrib.get("stroke-dasharray")]
    (x1, y1), (x2, y2) = [tuple(map(float, point.split())) for point in dashed.attrib["d"].strip("M").split("L")]
    assert y1 == y2
    assert datum - y1 == pytest.approx(eye / n, abs=0.1)
    assert min(x1, x2) <= min(b.left for b in sheet.bricks) + 0.1
    assert max(x1, x2) >= rows[0].right - 0.1


def test_a_course_below_the_eye_is_drawn_below_its_line_and_one_above_it_above() -> None:
    for course, eye in ((10, 1500), (30, 1500)):
        sheet = sheet_of(course, eye, 25)
        rows = in_section(sheet)
        [forward] = [p for p in sheet.projecting if p.width == pytest.approx(rows[0].width, abs=0.05)]
        [dashed] = [path for path in sheet.root.iter(f"{SVG}path") if path.attrib.get("stroke-dasharray")]
        line = float(dashed.attrib["d"].strip("M").split("L")[0].split()[1])
        assert (forward.top > line) is (Fraction(course * 75) < eye)


@pytest.mark.parametrize(("course", "eye", "out"), [(12, 1500, 25), (24, 1600, 40), (4, 900, 10)])
def test_where_soldiers_stand_the_section_shows_soldiers(course: int, eye: int, out: int) -> None:
    """A soldier is 215 high where three courses would lie (sheet-9: 3 x 65 and two beds of 10), a brick's width thick."""
    sheet = read(body_of(call_for("projection", course=course, eye_height=eye, projects=out, lay="soldier")))
    rows = in_section(sheet)
    n = float(BRICK.height) / rows[0].height
    [cut] = [p for p in sheet.projecting if p.width == pytest.approx(rows[0].width, abs=0.02)]
    assert cut.height == pytest.approx(215 / n, abs=0.02)
    foot = rows[0].bottom
    assert foot - cut.bottom == pytest.approx((course - 3) * 75 / n, abs=0.1)
    assert rows[0].left - cut.left == pytest.approx(out / n, abs=0.05)
    standing = [p for p in sheet.projecting if p.height == pytest.approx(215 / n, abs=0.02) and p is not cut]
    assert len(standing) > 3
    assert all(p.width == pytest.approx(65 / n, abs=0.02) for p in standing)
    assert {round(p.bottom, 2) for p in standing} == {round(cut.bottom, 2)}
    assert not any(
        abs(b.bottom - p.bottom) < 0.01 and b.left < p.right and b.right > p.left for b in rows for p in [cut]
    )


@pytest.mark.parametrize(("format", "course", "says"), [
    ("GERMAN_NF", 12, "not as high as three courses"), ("UK_METRIC", 3, "course is 4 or more"),
])  # fmt: skip
def test_soldiers_that_do_not_course_or_have_nothing_below_are_refused(format: str, course: int, says: str) -> None:
    call = call_for("projection", course=course, eye_height=1500, projects=25, lay="soldier")
    with pytest.raises(TradeError, match=says):
        DRAWING_KINDS["projection"].builds(call.figures, FORMATS[format])
