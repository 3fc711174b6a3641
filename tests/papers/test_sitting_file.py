"""A sitting's file: there and back without loss, figures exact; what is not one is refused."""

from __future__ import annotations

import contextlib
import json
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.papers.sheet_format import STANDARD, SheetFormat
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import SittingFaulty, read_sitting, write_sitting

CHANGED = "it is not a sitting.json, or it has been changed by hand"


def test_a_sitting_reads_back_the_same(dealt) -> None:
    sitting = dealt("opening_sizes")
    assert read_sitting(write_sitting(sitting)) == sitting
    assert write_sitting(read_sitting(write_sitting(sitting))) == write_sitting(sitting)


def test_a_sitting_says_who_has_what_and_from_which_banks(dealt) -> None:
    data = json.loads(write_sitting(dealt("opening_sizes")))
    head = data["sitting"]
    assert {"code", "title", "date", "group", "seed", "banks", "version"} <= set(head)
    assert all({"file", "sha256"} <= set(bank) for bank in head["banks"])
    for paper in data["papers"]:
        assert set(paper) == {"code", "learner", "exercises"}
        assert set(paper["learner"]) == {"name", "ref"}
        for exercise in paper["exercises"]:
            assert {"topic", "exercise", "given", "setting", "parts"} <= set(exercise)
            for part in exercise["parts"]:
                assert {"label", "name", "answer", "unit", "within", "marks", "slips"} <= set(part)
                assert all(set(slip) == {"value", "says"} for slip in part["slips"])


def test_figures_are_exact_text_and_no_float_stands_anywhere(dealt) -> None:
    def no_float(figure: str) -> None:
        raise AssertionError(figure)

    text = write_sitting(dealt("opening_sizes"))
    data = json.loads(text, parse_float=no_float)
    parts = [part for paper in data["papers"] for exercise in paper["exercises"] for part in exercise["parts"]]
    figures = [part["answer"] for part in parts if part["kind"] in ("number", "table")]
    figures += [slip["value"] for part in parts for slip in part["slips"]] + [part["within"] or "0" for part in parts]
    assert all(isinstance(figure, str) and Fraction(figure) >= -(10**9) for figure in figures)


def test_a_paper_keeps_how_it_is_set_and_a_standard_one_says_nothing_of_it(dealt) -> None:
    sitting = dealt()
    first, *others = sitting.papers
    large = replace(first, learner=replace(first.learner, sheets=SheetFormat(size=18, ground="cream")))
    text = write_sitting(replace(sitting, papers=(large, *others)))
    assert [paper.get("format") for paper in json.loads(text)["papers"]][:2] == ["large-18 cream", None]
    assert [paper.learner.sheets for paper in read_sitting(text).papers][:2] == [large.learner.sheets, STANDARD]
    with pytest.raises(SittingFaulty, match="changed by hand"):
        read_sitting(text.replace("large-18 cream", "large-19"))


def test_names_are_kept_as_they_are_written(dealt) -> None:
    text = write_sitting(dealt("opening_sizes"))
    assert "Łukasz Wójcik" in text
    assert text.endswith("}\n")


def changed(text: str, *path: str | int, to: object = None) -> str:
    """The sitting with one place of it changed, or taken out."""
    data = json.loads(text)
    inside = data
    for step in path[:-1]:
        inside = inside[step]
    if to is None:
        del inside[path[-1]]
    else:
        inside[path[-1]] = to
    return json.dumps(data)


@pytest.mark.parametrize(
    ("path", "to"),
    [
        (("sitting",), None),
        (("papers",), None),
        (("sitting", "seed"), None),
        (("sitting", "banks"), "none"),
        (("sitting", "form"), None),
        (("sitting", "title"), 5.5),
        (("papers",), [5]),
        (("papers", 0, "learner"), None),
        (("papers", 0, "learner"), "Amara Okafor"),
        (("papers", 0, "exercises", 0, "given"), [1]),
        (("papers", 0, "exercises", 0, "parts", 0, "slips"), [1]),
        (("papers", 0, "exercises", 0, "parts", 0, "marks"), "two"),
    ],
    ids=str,
)
def test_a_sitting_changed_out_of_shape_is_refused(dealt, path: tuple[str | int, ...], to: object) -> None:
    with pytest.raises(SittingFaulty) as faulty:
        read_sitting(changed(write_sitting(dealt("opening_sizes")), *path, to=to))
    assert str(faulty.value) == CHANGED


def test_a_sitting_of_a_later_form_is_refused(dealt) -> None:
    with pytest.raises(SittingFaulty, match="written by a later version"):
        read_sitting(changed(write_sitting(dealt("opening_sizes")), "sitting", "form", to=2))


@pytest.mark.parametrize("text", ["", "{", "[]", "null", "5", '"a"', "[" * 100_000, '{"sitting": 5}', '{"sitting": {}, "papers": []}',
                                  '{"sitting": [1], "papers": []}', '{"sitting": "ab", "papers": []}', "NaN", "1" * 5000], ids=lambda t: t[:12])  # fmt: skip
def test_what_is_not_a_sitting_is_refused(text: str) -> None:
    with pytest.raises(SittingFaulty):
        read_sitting(text)


ODD = st.sampled_from([None, 5, -1, 1.5, True, "", "x", "1/0", [], ["x"], [[]], {}, {"x": "x"}, 10**400, "\ud800"])


def places(inside: Any) -> Iterator[tuple[Any, str | int]]:
    """Every place in a sitting, as the list or map and the key in it."""
    for key in list(inside) if isinstance(inside, dict) else range(len(inside)):
        yield inside, key
        if isinstance(inside[key], dict | list):
            yield from places(inside[key])


@settings(max_examples=2 * settings.default.max_examples)
@given(st.data())
def test_whatever_stands_in_a_sitting_it_is_read_or_refused(dealt, data: st.DataObject) -> None:
    sitting = json.loads(write_sitting(dealt(exercises=1)))
    found = list(places(sitting))
    inside, key = found[data.draw(st.integers(0, len(found) - 1))]
    inside[key] = data.draw(ODD)
    with contextlib.suppress(SittingFaulty):
        assert isinstance(read_sitting(json.dumps(sitting)), Sitting)


@pytest.mark.parametrize("kept", [0, 1, 100, -2, -3])
def test_half_a_sitting_is_refused(dealt, kept: int) -> None:
    with pytest.raises(SittingFaulty):
        read_sitting(write_sitting(dealt("opening_sizes"))[:kept])
