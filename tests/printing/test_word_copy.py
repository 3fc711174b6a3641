"""Editable copies: all that a sheet says, nothing of the key on a learner's, readable by another program."""

from __future__ import annotations

import re
import shutil
import subprocess
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

import pytest
from docx import Document
from pypdf import PdfReader

from courseware.papers.key_secrets import Secrets, secrets
from courseware.printing.leak_check import Leak
from courseware.printing.word_copy import UNPROVED, key_word, paper_word, release_word

TOPICS = ("opening_sizes", "mitre_template", "safe_cutting")  # figures and tables, a template at true size, orders


def told(copy: bytes) -> str:
    """Everything written in a copy, its tables too, each text apart by spaces."""
    return squeezed(
        " ".join(text.text or "" for text in Document(BytesIO(copy)).element.body.iter() if text.tag.endswith("}t"))
    )


def squeezed(text: str) -> str:
    return re.sub(r"\s", "", text)


@pytest.mark.parametrize("topic", TOPICS)
def test_a_copy_says_all_that_its_paper_asks_and_has_its_drawings(printed, topic) -> None:
    paper = printed(topic).paper
    copy = paper_word(paper)
    said = told(copy)
    for exercise in paper.exercises:
        for part in exercise.parts:
            assert squeezed(part.ask) in said, part.label
            assert all(squeezed(words) in said for _, words in part.options)
            assert all(squeezed(row.say) in said for row in part.rows)
    drawn = [exercise for exercise in paper.exercises if exercise.drawing]
    assert len(Document(BytesIO(copy)).inline_shapes) >= len(drawn)
    assert squeezed(UNPROVED) in said


@pytest.mark.parametrize("topic", TOPICS)
def test_a_keys_copy_has_every_answer_line_and_slip_and_the_learners_none_of_them(printed, topic) -> None:
    sheets = printed(topic)
    said = told(key_word(sheets.key))
    for exercise in sheets.key.exercises:
        for part in exercise.answers:
            for answer in part:
                assert answer.by_eye or squeezed(answer.answer) in said
                assert all(squeezed(line.say) in said and squeezed(line.figure) in said for line in answer.working)
                assert all(squeezed(slip.says) in said for slip in answer.slips)
    copy = paper_word(sheets.paper)
    assert release_word(copy, secrets(sheets.paper, sheets.key)) is copy


@pytest.mark.parametrize("answer", ["2000", "2013", "14.0000"])
def test_figures_of_the_files_own_making_are_no_leak(printed, answer) -> None:
    """The days that a file was made and changed on, and the version of its writer, are no answer to a learner."""
    sheet = printed("mitre_template")
    hidden = secrets(sheet.paper, sheet.key)
    copy = paper_word(replace(sheet.paper, heading=replace(sheet.paper.heading, date="in spring"), exercises=()))
    assert release_word(copy, replace(hidden, figures=frozenset({answer}))) is copy


def test_a_learners_copy_that_shows_a_secret_or_reaches_outside_is_not_released(printed) -> None:
    copy = paper_word(printed("opening_sizes").paper)
    word = printed("opening_sizes").paper.exercises[0].topic
    with pytest.raises(Leak, match="only its key may"):
        release_word(copy, Secrets(figures=frozenset(), sayings=frozenset({squeezed(word)})))
    outside = BytesIO(copy)
    with ZipFile(outside, "a") as parts:
        parts.writestr("word/_rels/more.xml.rels", '<a><b TargetMode="External"/></a>')
    with pytest.raises(Leak, match="outside"):
        release_word(outside.getvalue(), Secrets(figures=frozenset(), sayings=frozenset()))


@pytest.mark.skipif(not shutil.which("soffice"), reason="LibreOffice is not installed (apt: libreoffice-writer-nogui)")
def test_libreoffice_reads_a_copy_with_the_same_words_and_all_its_pictures(printed, tmp_path: Path) -> None:
    paper = printed("opening_sizes").paper
    file = tmp_path / "paper.docx"
    file.write_bytes(paper_word(paper))
    subprocess.run(
        ["soffice", f"-env:UserInstallation=file://{tmp_path}/profile", "--headless", "--convert-to", "pdf", "--outdir", tmp_path, file],
        check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    pdf = PdfReader(file.with_suffix(".pdf"))
    read = squeezed("".join(page.extract_text() for page in pdf.pages))
    assert sorted(read) == sorted(told(file.read_bytes()))
    pictures = {image.name for page in pdf.pages for image in page.images}  # all pages name all of them
    assert len(pictures) == len(Document(file).inline_shapes) > 0
