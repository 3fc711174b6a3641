"""A scheme of work seen at once: a row a topic, a column a week, a mark where they meet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from courseware.course.scheme import Lesson
from courseware.drawings.dimension import box
from courseware.drawings.picture import Label, Picture, Point, Stroke
from courseware.reports.in_short import cut
from courseware.words import count

WIDE = 176.0  # mm
SIZE = 2.9  # mm of type: 8 pt and a little
_LEFT, _RIGHT, _ROW, _HEAD = (
    52.0,
    1.0,
    6.0,
    6.0,
)  # mm: the topics' names, half a week's number, a row, the weeks' numbers
_LONGEST = 34  # characters of a topic
_WIDEST = 7.0  # mm of a week
_NEW, _BACK = 0.45, 0.82  # greys of a topic met first, and of one that comes back


def scheme_chart(lessons: Sequence[Lesson], titles: Mapping[str, str], weeks: int) -> Picture:
    """The chart: `N` on a dark cell where a topic is new, on a light one which time it comes back."""
    topics = list(dict.fromkeys(lesson.topic for lesson in lessons))
    wide = min(_WIDEST, (WIDE - _LEFT - _RIGHT) / weeks)
    right, foot = _LEFT + wide * weeks, _HEAD + _ROW * len(topics)
    cells: dict[float, list[tuple[Point, ...]]] = {}
    words: list[Label] = []
    for line, topic in enumerate(topics):
        y = _HEAD + _ROW * line
        base = y + _ROW / 2 + SIZE * 0.36
        words.append(Label(at=(_LEFT - 1.5, base), text=cut(titles[topic], _LONGEST), size=SIZE, anchor="end"))
        for lesson in lessons:
            if lesson.topic == topic:
                x = _LEFT + wide * (lesson.week - 1)
                new = lesson.meeting == 1
                cells.setdefault(_NEW if new else _BACK, []).append(box(x, y, x + wide, y + _ROW))
                told = "N" if new else str(lesson.meeting - 1)
                words.append(Label(at=(x + wide / 2, base), text=told, size=SIZE, bold=new))
    step = 1 if wide >= 2 * SIZE * 0.67 + 0.6 else 2 if wide * 2 >= 2 * SIZE * 0.67 + 0.6 else 5
    for week in range(1, weeks + 1):
        if week == 1 or week % step == 0:
            words.append(Label(at=(_LEFT + wide * (week - 0.5), _HEAD - 1.5), text=str(week), size=SIZE))
    grid = [((_LEFT + wide * week, _HEAD), (_LEFT + wide * week, foot)) for week in range(weeks + 1)]
    grid += [((_LEFT, _HEAD + _ROW * line), (right, _HEAD + _ROW * line)) for line in range(len(topics) + 1)]
    shades = [
        Stroke(outlines=tuple(outlines), closed=True, weight=0, fill=grey) for grey, outlines in sorted(cells.items())
    ]
    marks: tuple[Stroke | Label, ...] = (*shades, Stroke(outlines=tuple(grid), weight=0.12, grey=0.45), *words)
    return Picture(width=WIDE, height=foot + 0.4, marks=marks, alt=_alt(lessons, topics, titles, weeks))


def _alt(lessons: Sequence[Lesson], topics: Sequence[str], titles: Mapping[str, str], weeks: int) -> str:
    met = "; ".join(
        f"{titles[topic]} in weeks {', '.join(str(one.week) for one in lessons if one.topic == topic)}"
        for topic in topics
    )
    return f"{count(len(topics), 'topic')} over {count(weeks, 'week')}, each new first and coming back after: {met}."
