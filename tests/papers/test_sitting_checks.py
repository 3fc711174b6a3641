"""A sitting that this program cannot have written is refused before anything is made of it."""

import json
from collections.abc import Callable
from typing import Any

import pytest

from courseware.papers.sitting_file import SittingFaulty, read_sitting, write_sitting
from courseware.settings.settings import Signed


def changed(**keys: Any) -> Callable[[dict[str, Any]], None]:
    """Puts values into the head of a sitting, its first paper, exercise or part, by the key's own prefix."""

    def change(data: dict[str, Any]) -> None:
        paper = data["papers"][0]
        places = {"head": data["sitting"], "paper": paper, "learner": paper["learner"]}
        numbers = [part for e in paper["exercises"] for part in e["parts"] if part["kind"] == "number"]
        places |= {"exercise": paper["exercises"][0], "part": numbers[0]}
        for key, value in keys.items():
            place, _, name = key.partition("_")
            places[place][name] = value

    return change


@pytest.mark.parametrize(
    "change",
    [
        changed(head_code="KTRA-WGHM-A"), changed(paper_code="../../escape"), changed(paper_code="x" * 300),
        changed(head_date="tomorrow"), changed(head_date="2026-W01-1"), changed(head_date="../.."),
        changed(head_arris_rule="zz"), changed(head_title="a\x1bb"), changed(head_title="word " * 5000),
        changed(head_group="\u202e"), changed(learner_name="a" * 200_000), changed(learner_name="\x00"),
        changed(learner_ref="\ud800"), changed(exercise_site={}), changed(exercise_parts=[]),
        changed(exercise_setting="\t" * 100_000), changed(exercise_given={"bricks": "9" * 1000}),
        changed(part_answer="1e1000000000"), changed(part_answer="abc"), changed(part_answer=""),
        changed(part_answer="1/0"), changed(part_within="1e9"), changed(part_marks=-(10**30)),
        changed(part_kind="another"), changed(part_slips=[{"value": "1e999999", "says": "x"}]),
        changed(head_made_with={"pango": "a\x1bb"}), changed(head_made_with={"x" * 101: "1"}),
        changed(head_settings="none"), changed(head_settings={"name": 5}), changed(head_settings={"name": "a\x1bb"}),
        changed(head_settings={"name": "x" * 101}), changed(head_settings={"upright_joint": "{{ bricks }}"}),
        changed(head_settings={"signatures": {"papers": {"says": "x" * 301, "signed": ["Learner"]}}}),
        changed(head_settings={"signatures": {"papers": {"signed": ["Learner"] * 7}}}),
        changed(head_settings={"signatures": {"feedback": {"signed": ["\u202e"]}}}),
        changed(head_settings={"signatures": {"audit": {"signed": ["Assurer"]}}}),
        changed(head_made_with={str(n): "1" for n in range(51)}), changed(head_made_with={"pango": 1}),
        lambda data: data.update(papers=[]),
        lambda data: data["papers"][0].update(exercises=[]),
        lambda data: data["papers"].append(data["papers"][0]),
        lambda data: data.update(papers=data["papers"] * 500),
        lambda data: data["sitting"].pop("seed"),
    ],
)  # fmt: skip
def test_what_cannot_be_printed_is_refused(dealt, change) -> None:
    data = json.loads(write_sitting(dealt("opening_sizes", 3)))
    change(data)
    with pytest.raises(SittingFaulty, match="changed by hand"):
        read_sitting(json.dumps(data))


def test_a_sitting_without_versions_or_with_as_many_as_there_may_be_is_taken(dealt) -> None:
    data = json.loads(write_sitting(dealt("opening_sizes")))
    assert "made_with" not in data["sitting"]
    data["sitting"]["made_with"] = {f"{n:02}": "1" * 98 for n in range(50)}
    assert len(read_sitting(json.dumps(data)).made_with) == 50


def test_settings_are_taken_up_to_their_limits(dealt) -> None:
    data = json.loads(write_sitting(dealt("opening_sizes")))
    assert "settings" not in data["sitting"]
    signed = {"says": "x" * 300, "signed": ["L" * 40] * 6}
    data["sitting"]["settings"] = {"name": "x" * 100, "upright_joint": "p" * 30, "signatures": {"papers": signed}}
    assert read_sitting(json.dumps(data)).settings.signatures.papers == Signed(says="x" * 300, signed=("L" * 40,) * 6)


def test_what_this_program_writes_is_taken(composed) -> None:
    sitting, _ = composed()
    assert read_sitting(write_sitting(sitting)) == sitting
