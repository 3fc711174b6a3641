"""The bank format as the kinds of part there are make it: a part may have the keys of any of them."""

from __future__ import annotations

from functools import lru_cache
from typing import cast

from pydantic import Field, create_model

from courseware.banks.part_kinds import BANK_KINDS, listed_kinds
from courseware.banks.shapes import ExerciseShape, PartShape, TopicShape


def topic_shape() -> type[TopicShape]:
    """The shape of a topic's file."""
    return _topic_shape(listed_kinds())


@lru_cache(maxsize=8)
def _topic_shape(kinds: tuple[str, ...]) -> type[TopicShape]:
    *others, last = kinds
    described = f"{', '.join(others)} or {last}"
    own = dict.fromkeys(BANK_KINDS[name].keys for name in reversed(kinds))  # in a model the last one's keys come first
    part: type[PartShape] = create_model(
        "PartShape",
        __base__=cast("tuple[type[PartShape], ...]", (*own, PartShape)),
        kind=(str, Field("number", description=described)),
    )
    fields = {"parts": ExerciseShape.model_fields["parts"], "exercises": TopicShape.model_fields["exercises"]}
    exercise = create_model("ExerciseShape", __base__=ExerciseShape, parts=(list[part], fields["parts"]))  # type: ignore[valid-type]  # made above
    return create_model("TopicShape", __base__=TopicShape, exercises=(list[exercise], fields["exercises"]))  # type: ignore[valid-type]  # made above
