"""The last look at a learner's PDF before it is released: nothing in it comes from the key, and nothing in it acts.

Read back from the finished bytes: what its pages draw (white, tiny or off the page as well), every text string, and
every name that could carry a file or an action.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from io import BytesIO
from typing import Any

from courseware.papers.key_secrets import Secrets, shows

_ACTING = {"/JavaScript", "/JS", "/Launch", "/EmbeddedFile", "/EmbeddedFiles", "/URI", "/SubmitForm", "/GoToR", "/AA"}
_TOKEN = re.compile(rb"/(\S+) [\d.]+ Tf|\[([^\]]*)\] ?TJ|<([0-9a-fA-F]+)> ?Tj|(\bET\b)", re.DOTALL)
_OWN_ID = re.compile(r"\d+-\d+-\d+|/.*")  # of table cells, as WeasyPrint counts them; and names
_BETWEEN_TAGS = re.compile(r">([^<>]+)<")
_MAKER = "WeasyPrint 70.0"
_HEX = re.compile(rb"<([0-9a-fA-F]*)>")
_PAIR = re.compile(rb"<([0-9a-fA-F]+)> <([0-9a-fA-F]+)>")


class Leak(RuntimeError):
    """A learner's sheet that holds what it may not. It is not released."""


def release(pdf: bytes, hidden: Secrets) -> bytes:
    """`pdf` itself. Raises `Leak` where it shows a secret or holds an action or a file."""
    from pikepdf import Pdf

    with Pdf.open(BytesIO(pdf)) as opened:
        for thing in opened.objects:
            for text in (*_strings(thing), _form_text(thing)):
                if text in _ACTING:
                    raise Leak(f"a learner's sheet holds {text}")
                if not _OWN_ID.fullmatch(text) and (found := shows(text, hidden)):
                    raise Leak(f"a learner's sheet holds what only its key may: {found!r}")
        for page in opened.pages:
            if found := shows(page_text(page), hidden):
                raise Leak(f"a learner's sheet shows what only its key may: {found!r}")
    return pdf


def page_text(page: Any) -> str:
    """Everything a page draws as text, however placed, in the order it is drawn."""
    return text_drawn(page.Contents.read_bytes(), page.Resources)


def text_drawn(stream: bytes, resources: Any) -> str:
    """Everything that a content stream, or a piece of one, draws as text with the fonts of `resources`."""
    return "".join(_drawn(stream, _fonts(resources)))


def _form_text(thing: Any) -> str:
    """What a drawing kept apart from its page draws as text; '' for every other object."""
    from pikepdf import Name, Stream

    if not isinstance(thing, Stream) or thing.get("/Subtype") != Name.Form or "/Resources" not in thing:
        return ""
    return text_drawn(thing.read_bytes(), thing.Resources)


def _fonts(resources: Any) -> dict[bytes, dict[bytes, str]]:
    return {str(name)[1:].encode(): _letters(font) for name, font in resources.get("/Font", {}).items()}


def _drawn(stream: bytes, fonts: dict[bytes, dict[bytes, str]]) -> Iterator[str]:
    letters: dict[bytes, str] = {}
    for font, many, one, end in _TOKEN.findall(stream):
        if font:
            letters = fonts[font]
        elif end:
            yield " "
        else:
            for run in _HEX.findall(many) if many else (one,):
                yield "".join(letters.get(run[i : i + 4].lower(), "") for i in range(0, len(run), 4))


def _letters(font: Any) -> dict[bytes, str]:
    table = font.ToUnicode.read_bytes()
    return {glyph.lower(): bytes.fromhex(letter.decode()).decode("utf-16-be") for glyph, letter in _PAIR.findall(table)}


def _strings(thing: Any) -> Iterator[str]:
    """The text strings and names in one object, and what it holds directly."""
    from pikepdf import Array, Dictionary, Name, Stream, String

    if isinstance(thing, String | Name):
        yield str(thing).replace(_MAKER, "")
    elif isinstance(thing, Array):
        for inner in thing:
            if not _apart(inner):
                yield from _strings(inner)
    elif isinstance(thing, Stream):
        if thing.get("/Type") == Name.Metadata:
            told = thing.read_bytes().decode("utf-8", "replace")
            yield " ".join(_BETWEEN_TAGS.findall(told)).replace(_MAKER, "")  # without the addresses of its own names
        yield from _strings(thing.stream_dict)
    elif isinstance(thing, Dictionary):
        for name, inner in thing.items():
            yield name
            if not _apart(inner):
                yield from _strings(inner)


def _apart(thing: Any) -> bool:
    return bool(getattr(thing, "is_indirect", False))
