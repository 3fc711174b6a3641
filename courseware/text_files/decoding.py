"""A bank's bytes as text: decoded or refused, and the characters that no bank may hold named with their places."""

from __future__ import annotations

import re
from codecs import BOM_UTF8
from collections.abc import Iterator

from courseware.text_files.faults import BankFaulty, Fault, harmless, unseen

MOST_BYTES = 1_000_000
TAKE_OUT = "take it out"
_SUSPECT = re.compile(r"[^\n\t -~]")  # plain ASCII is never looked at twice


def decoded(data: bytes, file: str) -> str:
    """The text in `data`, its lines ending in one newline each. Raises `BankFaulty` for what is not UTF-8."""
    if len(data) > MOST_BYTES:
        raise _refusal(file, 1, 1, f"the file has {len(data)} bytes", f"at most {MOST_BYTES} are read")
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise _refusal(file, 1, 1, "the file is UTF-16", "save it as UTF-8")
    if data.count(0) * 10 > len(data) * 3:
        raise _refusal(file, 1, 1, "the file looks like UTF-16 without its mark, or is not text", "save it as UTF-8")
    data = data.removeprefix(BOM_UTF8)
    try:
        return data.decode().replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError as error:
        before = data[: error.start].replace(b"\r\n", b"\n").replace(b"\r", b"\n")
        column = len(before[before.rfind(b"\n") + 1 :].decode()) + 1
        wrong = f"byte 0x{data[error.start]:02x} is not UTF-8; the file may be in a Windows or Latin encoding"
        raise _refusal(file, before.count(b"\n") + 1, column, wrong, "save as UTF-8") from None


def strange_signs(text: str, file: str) -> Iterator[Fault]:
    """A fault for the first unseen character of each line."""
    for number, line in enumerate(text.split("\n"), 1):
        found = next((match for match in _SUSPECT.finditer(line) if unseen(match[0])), None)
        if found:
            wrong = f"the unseen character {harmless(found[0])}"
            yield Fault(file, number, found.start() + 1, wrong, TAKE_OUT)


def _refusal(file: str, line: int, column: int, wrong: str, expected: str) -> BankFaulty:
    return BankFaulty((Fault(file, line, column, wrong, expected),))
