"""The page as a file: one request, nothing from outside, its questions packed, small enough to send."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from functools import lru_cache
from html.parser import HTMLParser
from pathlib import Path

import pytest

from courseware.banks import prove, read_bank
from courseware.glossary.sheets import compose_glossary
from courseware.glossary.words_file import Word
from courseware.papers.shares import for_practice
from courseware.practice.kinds import PracticeKind, practice_kinds
from courseware.practice.one_file import page_modules, page_script, practice_page
from tests.practice.packed_kind import unpacked_kind

SHIPPED = Path(__file__).parents[2] / "question_banks" / "opening_sizes.yaml"
MODULES = page_modules()
GLOSSARY = compose_glossary([Word(word="bed", says="A level joint.", picture="bed", source="common practice")])
NAMES = ("opening-for-a-panel", "setting-out-order")


@lru_cache(maxsize=1)
def kinds() -> tuple[PracticeKind, ...]:
    bank = read_bank(SHIPPED.read_bytes(), SHIPPED.name)
    chosen = [(bank, exercise) for exercise in bank.exercises if exercise.name in NAMES]
    return practice_kinds(chosen, [for_practice(prove(exercise).space) for _, exercise in chosen], None, 5)


@lru_cache(maxsize=2)
def page(most_bytes: int = 2_000_000) -> str:
    return practice_page(kinds(), "Opening <sizes>", GLOSSARY, most_bytes)


def block(text: str, name: str) -> str:
    found = re.search(rf'id="{name}">(.*?)</script>', text, re.DOTALL)
    assert found
    return found[1]


def unpacked(text: str, place: int) -> dict[str, list[object]]:
    return unpacked_kind(block(text, f"kind-{place}"))


def test_nothing_on_the_page_names_another_address() -> None:
    class Addresses(HTMLParser):
        found: tuple[str, ...] = ()

        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            self.found += tuple(value or "" for name, value in attrs if name in {"src", "href", "srcset", "action"})

    parser = Addresses()
    parser.feed(page())
    assert set(parser.found) == {"data:,", "#topics", "#practise", "#progress", "#save"}
    assert "url(" not in page()
    assert "@import" not in page()


def test_the_policy_lets_nothing_run_but_the_pages_own_script_and_style() -> None:
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', page())
    assert policy
    assert policy[1].startswith("default-src 'none';")
    script = re.search(r'<script id="page">(.*?)</script>', page(), re.DOTALL)
    style = re.search(r"<style>(.*?)</style>", page(), re.DOTALL)
    assert script
    assert style
    for text in (script[1], style[1]):
        assert f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'" in policy[1]


def test_the_page_is_in_ascii_so_that_a_slow_phone_reads_it_sooner() -> None:
    """Whatever is none is written so that it reads the same: HTML 13.5 (references), ECMA-262 12.9.4 (escapes)."""
    named = practice_page(kinds(), "Öffnungen ½", GLOSSARY)
    assert named.isascii()
    assert "<title>Practise: &#214;ffnungen &#189;</title>" in named
    assert json.loads(block(named, "index"))["title"] == "Öffnungen ½"


def test_the_first_question_is_there_before_the_script_and_all_others_after_it() -> None:
    places = [page().index(f'id="{name}"') for name in ("index", "kind-0", "page", "kind-1", "glossary")]
    assert places == sorted(places)


def test_the_title_is_text_and_no_markup() -> None:
    assert "<title>Practise: Opening &lt;sizes&gt;</title>" in page()
    assert "<sizes>" not in page()


def test_the_index_and_the_packed_questions_go_together() -> None:
    index = json.loads(block(page(), "index"))
    assert [kind["exercise"] for kind in index["kinds"]] == list(NAMES)
    for place, kind in enumerate(index["kinds"]):
        assert len(unpacked(page(), place)["variants"]) == kind["variants"] == 5


def test_the_same_questions_make_the_same_bytes() -> None:
    assert practice_page(kinds(), "Opening <sizes>", GLOSSARY) == page()


def test_a_page_that_would_be_too_large_has_fewer_variants_of_each_kind() -> None:
    """As many as fit, the first ones, with the lines of their drawings alone."""
    most = len(page().encode())
    assert page(most) == page()
    small = page(most - 1)
    assert {kind["variants"] for kind in json.loads(block(small, "index"))["kinds"]} == {4}
    whole, less = (unpacked(text, 0) for text in (page(), small))
    assert less["variants"] == whole["variants"][:4]
    assert less["lines"] == whole["lines"][: len(less["lines"])]
    places = [place for one in less["variants"] for layout in one["drawing"].values() for place in layout]
    assert max(places) < len(less["lines"]) <= len(whole["lines"])
    assert {kind["variants"] for kind in json.loads(block(page(1), "index"))["kinds"]} == {1}


@pytest.mark.parametrize("name", list(MODULES))
def test_a_module_takes_only_from_those_before_it(name: str) -> None:
    text, names = MODULES[name], list(MODULES)
    taken = re.findall(r'^import \{ .+? \} from "(?:\.|\.\./\.\./practice/page)/(\w+)\.js";$', text, re.MULTILINE)
    assert len(taken) == len(re.findall(r"^import ", text, re.MULTILINE)), "an import is one line, so that it can go"
    assert set(taken) <= set(names[: names.index(name)])


def test_no_two_modules_give_one_name_at_their_top() -> None:
    names = re.findall(r"^(?:async )?(?:function|const|let|class) (\w+)", page_script(), re.MULTILINE)
    assert len(names) > 100
    assert sorted(names) == sorted(set(names))


def test_no_script_ends_before_its_end() -> None:
    assert "</script" not in page_script()
