"""The eye of an eye line: a lid with its pupil inside, looking to the right."""

from shapely.geometry import Polygon

from courseware.drawings.eye import eye


def test_the_pupil_lies_within_the_lid_and_to_the_right() -> None:
    lid, pupil = (Polygon(stroke.outlines[0]) for stroke in eye((10.0, 20.0)))
    assert lid.contains(pupil)
    assert lid.centroid.x < pupil.centroid.x
    assert abs(lid.centroid.y - 20) < 0.01
