"""The glossary and the card printed: a tutor's words or the shipped ones, with a second language beside them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from courseware.files.atomic import write_whole
from courseware.files.bank_files import NotFound, read_file, shipped_folder, shipped_notes
from courseware.glossary.second_language import SecondLanguage, read_second_language
from courseware.glossary.sheets import Entry, Glossary, compose_card, compose_glossary
from courseware.glossary.words_file import Word, read_words
from courseware.printing.glyph_coverage import prints
from courseware.printing.render import card_pdf, glossary_pdf
from courseware.settings.settings import Settings
from courseware.words import count, listed
from courseware.workflows.watch import Watch

_SHIPPED = ("glossary", "words.yaml")
_MOST_NAMED = 6


def find_glossary(named: str | None, second: str | None, watch: Watch) -> Glossary:
    """The words of a file, or the shipped ones, with the second language of another.

    Raises `NotFound`, `FileFaulty` or `TableFaulty`.
    """
    words = _words(named)
    if second is None:
        return compose_glossary(words)
    return compose_glossary(words, _second_language(Path(second), words, watch))


def write_glossary(file: Path, glossary: Glossary, watch: Watch) -> int:
    """Writes the glossary to print. Returns how many words it has.

    What the shipped fonts cannot print stays off the sheet and is told.
    """
    if lacking := [entry.second for entry in glossary.entries if not prints(entry.second)]:
        more = [f"{len(lacking) - _MOST_NAMED} more"] if len(lacking) > _MOST_NAMED else []
        named = listed([*lacking[:_MOST_NAMED], *more])
        watch.note(f"the shipped fonts cannot print {named}: the sheet leaves them out. The practice page shows them.")
    printed = tuple(_printable(entry) for entry in glossary.entries)
    _write(file, glossary_pdf(replace(glossary, entries=printed)))
    return len(printed)


def write_card(file: Path, settings: Settings) -> None:
    """Writes the card of the rules to print, by the centre's own rule for projecting courses."""
    _write(file, card_pdf(compose_card(shipped_notes(), settings.arris_rule)))


def _printable(entry: Entry) -> Entry:
    return entry if prints(entry.second) else replace(entry, second="")


def _write(file: Path, pdf: bytes) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    write_whole(file, pdf)


def _words(named: str | None) -> tuple[Word, ...]:
    path = Path(named) if named else shipped_folder().joinpath(*_SHIPPED)
    if not path.is_file():
        raise NotFound(f"there is no glossary {path}")
    return read_words(read_file(path), path.name)


def _second_language(path: Path, words: tuple[Word, ...], watch: Watch) -> SecondLanguage:
    if not path.is_file():
        raise NotFound(f"there is no table {path}")
    second, notes = read_second_language(read_file(path), path.name, [word.word for word in words])
    for note in notes:
        watch.note(note)
    if without := len(words) - len(second.words):
        watch.note(f"{count(without, 'word')} of the glossary {'has' if without == 1 else 'have'} no second language.")
    return second
