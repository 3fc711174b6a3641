"""The practice page as one file: its modules put together, the questions packed, nothing fetched from anywhere."""

from __future__ import annotations

import base64
import hashlib
import html
import json
import re
from collections.abc import Sequence
from importlib.resources import files

from courseware.banks.part_kinds import kind_folders
from courseware.glossary.sheets import Glossary
from courseware.papers.compose import CAUTIONS
from courseware.practice.glossary_data import glossary_data
from courseware.practice.kinds import PracticeKind
from courseware.practice.packed import packed, packed_kind
from courseware.practice.part_kind import Data
from courseware.practice.payload import fewer_variants, kind_data, kind_heading

LARGEST = 2_000_000  # bytes: what mail servers and old phones take without a thought
_BEFORE_KINDS = (
    "figures", "units", "written", "sums", "judge", "elements", "look", "true_size", "mock", "memory", "plan", "choose",
    "data", "part_kinds", "drawing", "glossary", "words", "working", "aloud", "answers", "sight",
)  # fmt: skip  # each after those it takes from
_AFTER_KINDS = (
    "rule", "step", "parts", "question", "sitting", "plan_screen", "mock_screen", "screens", "saved_file",
    "save_screen", "storage", "main",
)  # fmt: skip
_BOOKLET = "practice booklet: the same exercises on paper, with the answers at its back"
_ASKED = f"ask your tutor for the printed {_BOOKLET}"
_LINKED = f'take the <a href="{{}}">booklet to print (PDF)</a>, a {_BOOKLET}'
_IMPORT = re.compile(r"^import .*;\n", re.MULTILINE)
_EXPORT = re.compile(r"^export ", re.MULTILINE)
_REMARK = re.compile(r"^ *(?:/\*\*(?:(?!\*/).)*\*/|//[^\n]*)\n", re.MULTILINE | re.DOTALL)
_NO_ASCII = re.compile(r"[^\x00-\x7f]")  # in strings and patterns alone
_PLACE = re.compile(r"\{\{(\w+)\}\}")


def practice_page(kinds: Sequence[PracticeKind], title: str, glossary: Glossary, most_bytes: int = LARGEST) -> str:
    """The page with these kinds, one at least, the words and the centre's name.

    Where it would pass `most_bytes`, each kind has fewer variants: as many as fit.
    """
    return page_of_data(kinds, [kind_data(kind) for kind in kinds], title, glossary, most_bytes)


def page_of_data(
    kinds: Sequence[PracticeKind], data: Sequence[Data], title: str, glossary: Glossary, most_bytes: int = LARGEST
) -> str:
    """The same where the kinds are plain data already."""
    words = packed_words(kinds, glossary)
    most = max(len(_variants(kind)) for kind in data)
    while len(page := _whole(kinds, data, title, glossary, words)) > most_bytes and most > 1:  # it is in ASCII
        most = max(1, min(most - 1, most * most_bytes // len(page)))
        data = [fewer_variants(kind, most) for kind in data]
    return page


def packed_words(kinds: Sequence[PracticeKind], glossary: Glossary) -> str:
    """The words and the card, packed."""
    return packed(glossary_data(glossary, kinds[0].bank.settings.arris_rule))


def filled_page(
    kinds: Sequence[PracticeKind],
    data: Sequence[Data],
    title: str,
    glossary: Glossary,
    blocks: Sequence[str],
    *,
    head: str = "",
    allowed: str = "",
    booklet: str = "",
) -> str:
    """The page's HTML: what it holds by `blocks`, what more its head has, what more its policy allows.

    `booklet` is the address of the booklet to print, where it has one: the way on for a browser that is too old.
    """
    style, script = page_asset("page.css"), f'"use strict";\n{{\n{_ascii_script(page_script())}\n}}'
    index, name = _index(kinds, data, title, glossary), kinds[0].bank.settings.name
    places = {
        "policy": _policy(script, style, allowed),
        "title": html.escape(f"Practise: {title}"),
        "centre": f'<p class="centre">{html.escape(name)}</p>\n' if name else "",
        "head": head,
        "booklet": _LINKED.format(html.escape(booklet)) if booklet else _ASKED,
        "style": style,
        "script": script,
        "index": _block("index", "application/json", _json(index)),
        "first": "".join(blocks[:1]),  # what a learner who is new here meets
        "data": "\n".join(blocks[1:]),  # after the script, which need not wait for all of it
    }
    page = _PLACE.sub(lambda place: places[place[1]], page_asset("index.html"))
    return page.encode("ascii", "xmlcharrefreplace").decode()  # in ASCII it is there in half the time


def page_modules() -> dict[str, str]:
    """The page's modules by name, each after those it takes from; that of a kind of part has the kind's name."""
    kinds = {name: files(f"courseware.part_kinds.{name}").joinpath("page.js") for name in kind_folders()}
    return {
        **{name: page_asset(f"{name}.js") for name in _BEFORE_KINDS},
        **{name: page.read_text(encoding="utf-8") for name, page in kinds.items() if page.is_file()},
        **{name: page_asset(f"{name}.js") for name in _AFTER_KINDS},
    }


def page_script(modules: Sequence[str] = ()) -> str:
    """Modules, or all of them, in one script: imports, exports and remarks are for their readers and checkers."""
    texts = page_modules()
    return "\n".join(_EXPORT.sub("", _IMPORT.sub("", _REMARK.sub("", texts[name]))) for name in modules or texts)


def _whole(kinds: Sequence[PracticeKind], data: Sequence[Data], title: str, glossary: Glossary, words: str) -> str:
    """The page with all it holds inside it."""
    blocks = [_block(f"kind-{place}", "text/plain", packed_kind(kind)) for place, kind in enumerate(data)]
    return filled_page(kinds, data, title, glossary, (*blocks, _block("glossary", "text/plain", words)))


def _block(name: str, form: str, data: str) -> str:
    """Data that stands in the page and is never run."""
    return f'<script type="{form}" id="{name}">{data}</script>'


def _index(kinds: Sequence[PracticeKind], data: Sequence[Data], title: str, glossary: Glossary) -> Data:
    topics: dict[str, list[int]] = {}
    for place, kind in enumerate(kinds):
        topics.setdefault(kind.bank.topic, []).append(place)
    aims = {kind.bank.topic: kind.bank.aim for kind in kinds}
    headings = [kind_heading(kind) | {"variants": len(_variants(own))} for kind, own in zip(kinds, data, strict=True)]
    return {
        "title": title,
        "caution": CAUTIONS[0],
        "words": [name for entry in glossary.entries for name in (entry.word.word, *entry.word.also)],
        "topics": [{"topic": topic, "aim": aims[topic], "kinds": own} for topic, own in topics.items()],
        "kinds": headings,
    }


def _policy(script: str, style: str, allowed: str) -> str:
    """Nothing but this script and this style, and nothing is sent or fetched but what is allowed."""
    script_hash, style_hash = (
        base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() for text in (script, style)
    )
    return (
        f"default-src 'none'; script-src 'sha256-{script_hash}'; style-src 'sha256-{style_hash}'; img-src data:; "
        f"{allowed}base-uri 'none'; form-action 'none'"
    )


def _ascii_script(script: str) -> str:
    return _NO_ASCII.sub(lambda found: f"\\u{ord(found[0]):04x}", script)


def _json(data: Data) -> str:
    return json.dumps(data, separators=(",", ":")).replace("<", "\\u003c")


def _variants(kind: Data) -> list[object]:
    return kind["variants"]  # type: ignore[return-value]  # made by `kind_data`


def page_asset(name: str) -> str:
    return files("courseware.practice").joinpath("page", name).read_text(encoding="utf-8")
