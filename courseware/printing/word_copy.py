"""Editable copies of a paper and its key, as DOCX (ISO/IEC 29500): the same questions, in plain paragraphs and tables.

The template `word.html` sets them, with the rooms that the kinds of part have on a sheet.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from io import BytesIO
from xml.etree import ElementTree
from zipfile import ZipFile

from courseware.papers.key_secrets import Secrets, shows
from courseware.papers.sheets import Key, Paper
from courseware.printing.docx_writer import docx
from courseware.printing.leak_check import Leak
from courseware.printing.page_format import page_for
from courseware.printing.render import filled, key_pictures, paper_pictures
from courseware.settings.settings import UNSIGNED

UNPROVED = (
    "An editable copy. Once anything in it is changed, nothing in it is proved any more: check every figure again, "
    "in the key too."
)
_OUTSIDE = re.compile(r'TargetMode="External"')
_OF_ITS_OWN = {"created", "modified", "revision"}  # properties whose figures are of the file's own making
_COUNTS = "docProps/app.xml"  # the writer's own too: pages, words, its version


def paper_word(paper: Paper) -> bytes:
    """The learner's paper as DOCX."""
    drawings = {exercise.number: exercise.drawing.alt for exercise in paper.exercises if exercise.drawing}
    markup = filled(
        "word.html", key=False, heading=paper.heading, cautions=paper.cautions, signed=paper.signed,
        exercises=[(exercise, ()) for exercise in paper.exercises], drawings=_each(drawings, paper), unproved=UNPROVED,
    )  # fmt: skip
    return docx(markup, paper_pictures(paper), page_for(paper.set_as).type_size)


def key_word(key: Key) -> bytes:
    """The tutor's key as DOCX."""
    drawings = {exercise.asked.number: exercise.drawing.alt_filled for exercise in key.exercises if exercise.drawing}
    markup = filled(
        "word.html", key=True, heading=key.heading, cautions=key.cautions, signed=UNSIGNED,
        exercises=[(exercise.asked, exercise.answers) for exercise in key.exercises], drawings=_each(drawings, key),
        unproved=UNPROVED,
    )  # fmt: skip
    return docx(markup, key_pictures(key))


def release_word(copy: bytes, hidden: Secrets) -> bytes:
    """A learner's `copy` itself. Raises `Leak` where one of its parts shows a secret or reaches outside the file."""
    with ZipFile(BytesIO(copy)) as parts:
        for name in parts.namelist():
            if not name.endswith((".xml", ".rels")) or name == _COUNTS:
                continue
            text = parts.read(name).decode("utf-8")
            if _OUTSIDE.search(text):
                raise Leak("a learner's editable copy reaches outside its file")
            if found := shows(" ".join(_words(text)), hidden):
                raise Leak(f"a learner's editable copy shows what only its key may: {found!r}")
    return copy


def _each(drawings: Mapping[int, str], sheet: Paper | Key) -> Mapping[int, str]:
    """The alternative text of every exercise's drawing, '' where it has none."""
    return {number: drawings.get(number, "") for number in range(1, len(sheet.exercises) + 1)}


def _words(part: str) -> Iterator[str]:
    """What an XML part of a DOCX says: its text, and the texts that describe pictures."""
    for element in ElementTree.fromstring(part).iter():
        if element.tag.rpartition("}")[2] not in _OF_ITS_OWN:
            yield element.text or ""
        yield from (element.attrib[name] for name in ("descr", "title", "name") if name in element.attrib)
