"""Where YAML needs quotes: plain text that it would turn into something else, and text that it cannot read."""

from __future__ import annotations

import re

QUOTES = "put quotes round it"
MOST_DIGITS = 15

_NUMBER = re.compile(r"[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)")
_TURNED: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern, re.ASCII | re.IGNORECASE), says)
    for pattern, says in (
        (r"[+-]?[0-9]+(:[0-9]+)+(\.[0-9]*)?", "YAML reads it as a time or a number to base 60"),
        (r"[+-]?0[0-9]+(\.[0-9]*)?", "YAML may read a number that starts with 0 as octal"),
        (r"[+-]?[0-9][0-9_]*_[0-9_]*(\.[0-9_]*)?", "YAML drops the underscores"),
        (r"[+-]?0[xob][0-9a-f_]+", "YAML reads it as another number"),
        (r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}([t ].*)?", "YAML reads it as a date"),
        (r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)e[+-]?[0-9]+", "YAML reads it as a power of ten; write the digits out"),
        (r"[+-]?\.(inf|nan)", "YAML reads it as no number at all"),
        (r"yes|no|on|off", "YAML reads it as true or false, for which only true and false are taken"),
    )
)
_LONGEST_TURNED = 40  # longer text is read as text, digits apart


def turned(value: str) -> str | None:
    """Why a plain scalar needs quotes, or None where it reads as it stands."""
    if sum(character.isdigit() for character in value) > MOST_DIGITS and _NUMBER.fullmatch(value):
        return f"it has more than {MOST_DIGITS} digits"
    if len(value) > _LONGEST_TURNED:
        return None
    if value in ("Null", "NULL"):
        return "YAML reads it as nothing, for which only ~, null or an empty place are taken"
    if value in ("True", "TRUE", "False", "FALSE"):
        return "only true and false, in small letters, are taken as truths"
    return next((says for pattern, says in _TURNED if pattern.fullmatch(value)), None)


def cut_off(value: str, rest: str) -> bool:
    """Whether the comment behind a plain scalar may be its text: of several words, with one blank before the # or none
    behind it, as in `the wall is #3 of five`. A comment stands two blanks off.
    """
    blanks = len(rest) - len(rest.lstrip(" "))
    after = rest.lstrip(" ")
    return " " in value.strip() and after.startswith("#") and (blanks < 2 or after[1:2].strip() != "")


def unreadable(line: str, problem: str) -> tuple[str, str]:
    """What is wrong with a line that does not read as YAML, and what to do; `problem` is YAML's own word for it."""
    shown = line.strip()
    if re.match(r" *\t", line):
        return "a tab stands in the indentation", "use spaces"
    if not shown:
        return "the file ends in the middle of something", "check quotes and brackets"
    value = _value(shown)
    if re.search(r"\s#", value):
        return "a # after a blank begins a comment, so the rest of the line is cut off", f"if it is text, {QUOTES}"
    if value[:1] in ("{", "[") and "{{" in value[1:]:
        return "text with {{ inside [ ] or { } does not read", QUOTES
    if value[:1] in tuple("{[%@`*&!|>"):
        return f"text that starts with {value[0]} does not read", QUOTES
    if value[:1] in ("'", '"') and value[:1] in value[1:]:
        return "text stands after a closing quotation mark", "put quotes round the whole of it"
    if ": " in value or value.endswith(":"):
        return "text with ': ' in it does not read", QUOTES
    return f"this does not read as YAML ({problem})", "check indentation, quotes and brackets"


def _value(shown: str) -> str:
    """What stands after the key, or after the dash of a list."""
    item = re.sub(r"\A(- +)+", "", shown[:2000])
    key, colon, value = item.partition(": ")
    return value.strip() if colon and key[:1] not in ("'", '"', "{", "[") else item
