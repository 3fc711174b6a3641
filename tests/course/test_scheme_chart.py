"""The chart read back: a cell at the crossing of topic and week, dark and `N` where it is new, light where it returns."""

from __future__ import annotations

from itertools import pairwise

from courseware.course.scheme import lay
from courseware.course.scheme_chart import scheme_chart
from courseware.drawings.picture import SMALLEST_TYPE, Label, Picture, Stroke, extent
from tests.course.test_scheme import topics, weeks_of

TITLES = {topic.named: topic.title for topic in topics(40)}


def labels(picture: Picture) -> list[Label]:
    return [mark for mark in picture.marks if isinstance(mark, Label)]


def shaded(picture: Picture) -> dict[float, int]:
    return {
        mark.fill: len(mark.outlines) for mark in picture.marks if isinstance(mark, Stroke) and mark.fill is not None
    }


def test_a_cell_for_each_meeting_and_the_first_is_darker() -> None:
    lessons = lay(topics(6), 20)
    picture = scheme_chart(lessons, TITLES, 20)
    dark, light = min(shaded(picture)), max(shaded(picture))
    assert shaded(picture) == {dark: 6, light: len(lessons) - 6}
    assert sum(label.text == "N" and label.bold for label in labels(picture)) == 6


def test_each_mark_stands_in_its_week_and_in_its_topic_s_row() -> None:
    lessons = lay(topics(3), 12)
    picture = scheme_chart(lessons, TITLES, 12)
    weeks = {int(label.text): label.at[0] for label in labels(picture) if label.at[1] < 6}
    rows = {label.text: label.at[1] for label in labels(picture) if label.anchor == "end"}
    for topic in topics(3):
        own = [label for label in labels(picture) if label.at[1] == rows[topic.title] and label.anchor == "middle"]
        met = [weeks.get(week) for week in weeks_of(topic.named, lessons)]
        assert [label.at[0] for label in own] == met


def test_sixty_weeks_and_forty_topics_fit_the_page_in_type_that_can_be_read() -> None:
    picture = scheme_chart(lay(topics(40), 60), TITLES, 60)
    assert min(label.size for label in labels(picture)) >= SMALLEST_TYPE
    points = [point for mark in picture.marks for point in extent(mark)]
    assert min(x for x, _ in points) >= -0.01
    assert max(x for x, _ in points) <= picture.width + 0.01
    numbers = sorted((label for label in labels(picture) if label.at[1] < 6), key=lambda label: label.at[0])
    for before, after in pairwise(numbers):
        assert before.at[0] + before.width / 2 <= after.at[0] - after.width / 2


def test_the_alternative_text_has_every_week_of_every_topic() -> None:
    lessons = lay(topics(3), 12)
    alt = scheme_chart(lessons, TITLES, 12).alt
    for topic in topics(3):
        assert f"{topic.title} in weeks {', '.join(map(str, weeks_of(topic.named, lessons)))}" in alt
