"""Pictures as PNG: at their own size, in grey, what is drawn where it is drawn."""

from __future__ import annotations

from io import BytesIO

import pytest
from PIL import Image

from courseware.drawings.picture import Label, Picture, Stroke
from courseware.printing.rasters import rasters

BRICK = Picture(
    width=50.8, height=25.4, alt="", marks=(Stroke(outlines=(((0, 0), (25.4, 0), (25.4, 25.4), (0, 25.4)),), closed=True, weight=0, fill=0.5),),
)  # fmt: skip


def test_a_picture_of_two_inches_by_one_has_400_by_200_dots_and_its_left_half_is_grey() -> None:
    with Image.open(BytesIO(rasters({"brick": BRICK})["brick"])) as image:
        assert (image.mode, image.size) == ("L", (400, 200))
        assert image.getpixel((100, 100)) == pytest.approx(128, abs=2)
        assert image.getpixel((300, 100)) == 255


def test_several_pictures_are_told_apart_and_the_same_bytes_each_time() -> None:
    word = Picture(width=20, height=10, alt="", marks=(Label(at=(10, 7), text="215"),))
    found = rasters({"word": word, "brick": BRICK})
    assert list(found) == ["word", "brick"]
    assert found["brick"] == rasters({"brick": BRICK})["brick"]
    with Image.open(BytesIO(found["word"])) as image:
        assert image.size[0] == pytest.approx(20 / 25.4 * 200, abs=1)
        assert min(image.get_flattened_data() if hasattr(image, "get_flattened_data") else image.getdata()) < 60


def test_no_pictures_make_no_file() -> None:
    assert rasters({}) == {}
