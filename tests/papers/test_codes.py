"""Codes that check themselves and tell nothing, and draws that repeat only when they must."""

from __future__ import annotations

import random
from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_36

from courseware.papers.codes import LETTERS, check_letter, code, keyed, keyed_shuffle, read_code, shuffled

letters = st.text(LETTERS, min_size=8, max_size=8)


def test_no_letter_is_taken_for_another_or_for_a_figure() -> None:
    assert not set(LETTERS) & set("ILOU0123456789")  # and no code of letters alone is read as a number by a spreadsheet
    assert len(set(LETTERS)) == len(LETTERS) == 22


@settings(deadline=None)
@given(letters)
def test_the_check_letter_is_that_of_iso_7064(eight: str) -> None:
    """Source: ISO/IEC 7064, hybrid system, as python-stdnum works it out with these letters."""
    assert check_letter(eight) == mod_37_36.calc_check_digit(eight, LETTERS)


@settings(deadline=None)
@given(letters)
def test_any_one_wrong_letter_shows(eight: str) -> None:
    right = eight + check_letter(eight)
    wrong = [right[:n] + letter + right[n + 1 :] for n in range(9) for letter in LETTERS if letter != right[n]]
    assert [text for text in wrong if read_code(text)] == []


def test_nearly_every_swap_of_neighbours_shows() -> None:
    """ISO/IEC 7064 promises nearly all for its hybrid systems: with 22 letters, 230 of 231."""
    chance = random.Random(5)
    swaps = missed = 0
    for _ in range(2000):
        eight = "".join(chance.choices(LETTERS, k=8))
        right = eight + check_letter(eight)
        swapped = {right[:n] + right[n + 1] + right[n] + right[n + 2 :] for n in range(8)} - {right}
        swaps += len(swapped)
        missed += sum(1 for text in swapped if read_code(text))
    assert missed / swaps == pytest.approx(1 / 231, rel=0.3)


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("KTRA-WGHM-{}", True),
        ("ktra-wghm-{}", True),
        ("  KTRA WGHM {} ", True),
        ("KTRA–WGHM–{}", True),
        ("KTRAWGHM{}.", True),
        ("KTRB-WGHM-{}", False),
        ("KTRA-WGHM", False),
        ("KTRA-WGHM-{}A", False),
        ("KTR0-WGHM-{}", False),
        ("KTRA-WGHM-1", False),
        ("", False),
        ("ＫTRA-WGHM-{}", False),
    ],
)
def test_a_code_is_read_as_people_type_it(typed: str, read: bool) -> None:
    letter = check_letter("KTRAWGHM")
    found = read_code(typed.format(letter))
    assert found == (f"KTRA-WGHM-{letter}" if read else None)


def test_a_code_reads_back() -> None:
    for n in range(100):
        assert read_code(code("seed", str(n))) == code("seed", str(n))


def test_every_part_of_what_is_drawn_counts() -> None:
    drawn = {
        keyed(*parts)
        for parts in [("s", "ab", "c"), ("s", "a", "bc"), ("s", "abc"), ("s", "abc", ""), ("t", "abc"), ("sa", "bc")]
    }
    assert len(drawn) == 6  # each part stands with its length, so no two run together
    assert max(drawn).bit_length() > 240


def test_codes_tell_nothing_of_the_order_they_were_drawn_in() -> None:
    codes = [code("seed", "paper", str(n)) for n in range(4400)]
    assert len(set(codes)) == len(codes)
    for place in (0, 1, 2, 3, 5, 6, 7, 8, 10):
        seen = Counter(text[place] for text in codes)
        assert set(seen) == set(LETTERS)
        assert all(130 < count < 280 for count in seen.values())  # 200 each, five standard deviations either way
    later = sum(1 for one, other in pairwise(codes) if one < other)
    assert 2050 < later < 2350
    shared = sum(a == b for one, other in pairwise(codes) for a, b in zip(one[:4], other[:4], strict=True))
    assert 650 < shared < 950  # one letter in 22 alike, as of strangers


@settings(deadline=None)
@given(st.integers(1, 60), st.integers(0, 150))
def test_none_comes_again_before_all_have_come(size: int, count: int) -> None:
    drawn = list(keyed_shuffle(size, count, "seed", "exercise"))
    assert len(drawn) == count
    for start in range(0, count, size):
        turn = drawn[start : start + size]
        assert len(set(turn)) == len(turn)
        assert set(turn) <= set(range(size))
    often = Counter(drawn)
    assert max(often.values(), default=0) - min((often[n] for n in range(size)), default=0) <= 1


def test_each_turn_comes_in_a_new_order() -> None:
    drawn = list(keyed_shuffle(20, 40, "seed"))
    assert drawn[:20] != drawn[20:]


def test_every_index_comes_first_equally_often() -> None:
    first = Counter(next(keyed_shuffle(7, 1, f"seed {n}")) for n in range(7000))
    assert all(850 < first[index] < 1150 for index in range(7))  # 1000 each, five standard deviations either way


def test_the_same_seed_draws_the_same() -> None:
    assert list(keyed_shuffle(100, 30, "seed", "a")) == list(keyed_shuffle(100, 30, "seed", "a"))
    assert list(keyed_shuffle(100, 30, "seed", "a"))[:10] == list(
        keyed_shuffle(100, 10, "seed", "a")
    )  # a learner added changes no other
    assert list(keyed_shuffle(100, 30, "seed", "a")) != list(keyed_shuffle(100, 30, "seed", "b"))
    assert list(keyed_shuffle(100, 30, "seed", "a")) != list(keyed_shuffle(100, 30, "seeds", "a"))


def test_a_shuffle_keeps_every_item() -> None:
    items = list("abcdefgh")
    assert sorted(shuffled(items, "seed")) == items
    assert shuffled([], "seed") == []
    assert len({"".join(shuffled(items, str(n))) for n in range(50)}) > 45


def test_these_draws_never_change() -> None:
    """A sitting made again must give the same papers, on any machine and in any year."""
    assert code("seed", "paper", "0") == "GVRD-SAZV-H"
    assert list(keyed_shuffle(1000, 5, "seed", "exercise")) == [349, 229, 817, 506, 512]
