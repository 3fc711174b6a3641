"""Seeds, keyed draws and paper codes: nothing about one paper tells anything about another.

Every draw is a keyed hash (BLAKE2b, RFC 7693) of the sitting's secret seed, the banks' hash and what is drawn, each
part with its length before it. A code is eight letters and a check letter (ISO/IEC 7064, hybrid system, here with
22 letters); its letters leave out I, L, O and U, and there are no digits, so no spreadsheet reads it as a number.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Sequence
from typing import TypeVar

LETTERS = "ABCDEFGHJKMNPQRSTVWXYZ"
_BASE = len(LETTERS)
_LENGTH = 8
_Item = TypeVar("_Item")


def keyed(seed: str, *parts: str) -> int:
    """A number of 256 bits that only the seed's holder can work out."""
    return int.from_bytes(_hashed(seed, parts).digest(), "big")


def _hashed(seed: str, parts: Iterable[str]) -> hashlib.blake2b:
    key = hashlib.sha256(seed.encode()).digest()
    return hashlib.blake2b(b"".join(map(_with_length, parts)), key=key, digest_size=32)


def _with_length(part: str) -> bytes:
    data = part.encode()
    return len(data).to_bytes(4, "big") + data


def code(seed: str, *parts: str) -> str:
    """A code such as `KTRA-WGHM-B`, derived one way."""
    number = keyed(seed, "code", *parts)
    letters = ""
    for _ in range(_LENGTH):
        number, place = divmod(number, _BASE)
        letters += LETTERS[place]
    return printed(letters + check_letter(letters))


def check_letter(letters: str) -> str:
    """The letter that makes a code check itself: one wrong letter always shows, two neighbours swapped nearly always.

    Of all swaps of unlike neighbours 1 in 231 does not show, as ISO/IEC 7064 allows its hybrid systems.
    """
    state = _BASE
    for letter in letters:
        state = (state + LETTERS.index(letter)) % _BASE or _BASE
        state = state * 2 % (_BASE + 1)
    return LETTERS[(1 - state) % _BASE]


def printed(letters: str) -> str:
    """Nine letters in groups, as printed."""
    return f"{letters[:4]}-{letters[4:8]}-{letters[8:]}"


def read_code(typed: str) -> str | None:
    """A code as typed by hand, put right as to case, spaces and hyphens; None where it cannot be one."""
    letters = "".join(character for character in typed.upper() if character not in " -–.")
    if len(letters) != _LENGTH + 1 or not set(letters) <= set(LETTERS):
        return None
    return printed(letters) if check_letter(letters[:-1]) == letters[-1] else None


def keyed_shuffle(size: int, count: int, seed: str, *parts: str) -> Iterator[int]:
    """`count` indices below `size`, none twice before all have come once; then all again in a new order."""
    for start in range(0, count, size):
        moved: dict[int, int] = {}
        begun = _hashed(seed, ("deal", *parts, str(start)))
        for place in range(min(size, count - start)):
            drawn = begun.copy()
            drawn.update(_with_length(str(place)))
            other = place + int.from_bytes(drawn.digest(), "big") % (size - place)
            yield moved.get(other, other)
            moved[other] = moved.get(place, place)


def shuffled(items: Sequence[_Item], seed: str, *parts: str) -> list[_Item]:
    """The items in an order drawn from the seed."""
    return [items[index] for index in keyed_shuffle(len(items), len(items), seed, "shuffle", *parts)] if items else []
