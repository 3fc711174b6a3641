"""A ratio as data of the practice page."""

from __future__ import annotations

from courseware.practice.part_kind import KindInPractice


def data(asked, answers, solved, own, before) -> dict[str, object]:
    return {"right": own[0].answer}


KIND = KindInPractice(data=data)
