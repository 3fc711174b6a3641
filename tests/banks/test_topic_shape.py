"""The bank format as the kinds of part make it: a part may have the keys of any kind, its own first."""

from __future__ import annotations

from courseware.banks.part_kinds import BANK_KINDS, listed_kinds
from courseware.banks.shapes import PartShape, TopicShape
from courseware.banks.topic_shape import topic_shape


def part_shape():
    exercise = topic_shape().model_fields["exercises"].annotation.__args__[0]
    return exercise.model_fields["parts"].annotation.__args__[0]


def test_a_part_may_have_the_keys_of_every_kind_after_those_of_any() -> None:
    keys = list(part_shape().model_fields)
    assert keys[: len(PartShape.model_fields)] == list(PartShape.model_fields)
    for name in listed_kinds():
        assert set(BANK_KINDS[name].keys.model_fields) <= set(keys)


def test_keys_stand_in_the_order_of_the_kinds() -> None:
    keys = list(part_shape().model_fields)
    own = dict.fromkeys(key for name in listed_kinds() for key in BANK_KINDS[name].keys.model_fields)
    assert keys[len(PartShape.model_fields) :] == list(own)


def test_the_kinds_are_told_where_a_kind_is_asked_for() -> None:
    *others, last = listed_kinds()
    assert part_shape().model_fields["kind"].description == f"{', '.join(others)} or {last}"


def test_it_is_a_topic_with_its_own_descriptions_and_made_once() -> None:
    assert issubclass(topic_shape(), TopicShape)
    assert topic_shape() is topic_shape()
    for name, field in TopicShape.model_fields.items():
        assert topic_shape().model_fields[name].description == field.description
