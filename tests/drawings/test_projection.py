"""A projecting course read back: which course stands forward, to which side and how far, and where the eye line runs."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.drawings import draw, to_svg
from courseware.trade import UK_METRIC
from tests.drawings.conftest import SVG, call_for, read

CASES = [(5, 900, 25), (12, 1500, 10), (20, 1550, 75), (30, 1800, 40)]  # course, eye height, projection in mm
BRICK = UK_METRIC


def sheet_of(course: int, eye: int, out: int):
    return read(to_svg(draw(call_for("projection", course=course, eye_height=eye, projects=out))))


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
