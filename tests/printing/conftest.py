"""Printed sheets for the tests of this room, each printed once a run."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO
from typing import Any

import pytest
from pikepdf import Dictionary, Pdf

from courseware.papers.compose import compose_key, compose_paper
from courseware.papers.compose_grid import compose_grid
from courseware.papers.sheets import Key, Paper
from courseware.printing.leak_check import text_drawn
from courseware.printing.render import grid_pdf, key_pdf, paper_pdf


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """One learner's sheets of a topic, and the class grid."""

    paper: Paper
    key: Key
    paper_pdf: bytes
    key_pdf: bytes
    grid_pdf: bytes


@pytest.fixture(scope="session")
def printed(composed) -> Callable[[str], Printed]:
    made: dict[str, Printed] = {}

    def sheets(topic: str) -> Printed:
        if topic not in made:
            sitting, sources = composed(topic)
            paper, key = compose_paper(sitting, 1, sources), compose_key(sitting, 1, sources)
            made[topic] = Printed(
                paper=paper,
                key=key,
                paper_pdf=paper_pdf(paper),
                key_pdf=key_pdf(key),
                grid_pdf=grid_pdf(compose_grid(sitting, sources)),
            )
        return made[topic]

    return sheets


@pytest.fixture(scope="session")
def read_aloud() -> Callable[[bytes], str]:
    """The text of a tagged PDF in the order of its structure, as a screen reader meets it: a line an element."""
    return _read_aloud


_LINES = {"/P", "/H1", "/H2", "/TR", "/Figure"}  # elements that end a line
_MARKED = re.compile(rb"<</MCID (\d+)>>\nBDC(.*?)EMC", re.DOTALL)


def _read_aloud(pdf: bytes) -> str:
    with Pdf.open(BytesIO(pdf)) as opened:
        said = {
            (page.objgen, int(number)): text_drawn(content, page.Resources)
            for page in opened.pages
            for number, content in _MARKED.findall(page.Contents.read_bytes())
        }
        text = "".join(_said(opened.Root.StructTreeRoot, said)).replace("\u00a0", " ")
    return re.sub(r" *\n\s*", "\n", text).strip() + "\n"


def _said(element: Any, said: dict[Any, str]) -> list[str]:
    words: list[str] = []
    for inner in element.get("/K", []):
        if isinstance(inner, Dictionary):
            words += _said(inner, said)
        else:
            words.append(said[element.Pg.objgen, int(inner)])
    kind = str(element.get("/S", ""))
    if kind == "/Figure":
        words = [f"[{element.get('/Alt', '')}]"]
    if kind in {"/TH", "/TD"}:
        words.append(" | ")
    return [*words, "\n"] if kind in _LINES else words
