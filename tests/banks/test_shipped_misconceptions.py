"""What slips are counted by over parts, exercises and banks: every shipped slip names one, each is spelled one way."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from difflib import SequenceMatcher
from itertools import combinations
from pathlib import Path

from courseware.banks import Bank, read_bank
from courseware.banks.number_part import NumberPart
from courseware.banks.part import Part
from courseware.part_kinds.choice.bank import ChoicePart
from courseware.settings.settings import Settings
from tests.banks.shipped import READ

_JOBS = Path(__file__).parents[2] / "question_banks" / "jobs" / "worksheet.yaml"
BANKS = {**READ, "worksheet": read_bank(_JOBS.read_bytes(), _JOBS.name)}
LONGEST = 60  # characters: what fits beside a bar

# The words of the shipped banks: take one of these before you add another, so that the same slip counts together.
VOCABULARY = """\
3-4-5 was used wrongly
a bed too many was counted
a bed was added on top
a bed was dropped
a fault was put down to the wrong cause
a joint too many was counted
a part was given for the whole
a pier or panel was treated as an opening
a size or joint was changed without asking
a whole brick was taken for each half or bat
added where it is multiplied
adding and taking off were mixed up
an error that adds up was counted once
an opening was not taken off
an opening was taken off where it should not be
an opening was treated as a pier
bays, courses and bricks were mixed up
brick, bed and gauge were mixed up
height and distance changed places
height, face height and clear height were mixed up
materials or tools did not fit the job
measured to the underside, not the top
multiplied, doubled or halved the wrong way
nothing was taken off for the surround
one side alone was taken
one was counted where there are more
rounded down where it goes up
rounded too early, or not at all
rounded up where it goes down
sand and cement were mixed up
something was counted that does not belong
something was counted twice
something was left out
square and out of square were mixed up
stretchers, headers and soldiers were mixed up
the bearings of the lintel were miscounted
the beds were left out
the bulking of damp sand was mixed up
the controls of dust, noise and lifting were mixed up
the corner pieces were counted twice
the corner was not halved for the mitre
the count was out by one
the courses laid already were counted in
the difference was not shared out over the beds
the distance round was taken for the area
the end joint was left on
the extra joint of an opening was left out
the first bed was dropped
the frogs were forgotten
the gauge rod was marked or read wrongly
the half brick was taken wrongly
the hands of the bats were mixed up
the joint at the mitre was left out
the joint between pieces was taken wrongly
the joints were left out
the leg was taken for the cut
the missing joint was not added before dividing
the rate of the other wall thickness was taken
the reason for a step was mistaken
the reason for one true arris was missed
the sides were added
the site rate was taken, not the count
the size of another brick was taken
the square root was not taken
the top bed was left out
the usual 75 mm course or 10 mm bed was taken
the wall below or beside was left out
the waste was added twice
the waste was left out
the waste was taken off, not added
the whole was given, not the share or the difference
the wrong limit was used
the wrong side of the eye line was taken
the wrong size of the brick was taken
the wrong weight was taken
too much or too little was taken off for the surround
two datums were mixed up
two figures were not compared
units or per cent were changed wrongly
wet and dry volumes were mixed up
what counts as waste was mixed up
what is kept back for waste was mixed up"""

BANK = """\
topic: Piers
aim: Work out the length of a pier
exercises:
  - name: pier-length
    level: 1
    given: {bricks: 2 to 9}
    pose: A pier is {{ bricks }} bricks long.
    parts:
      - name: length
        ask: How long is it?
        answer: pier(bricks)
        marks: 1
        working: [{say: Multiply out, value: bricks * module - joint}]
        slips:
          - {value: bricks * module, says: A joint too many, misconception: "  the last perpend   was left on. "}
          - {value: bricks, says: No size at all}
"""


def slips(bank: Bank) -> Iterator[tuple[Part, str, str]]:
    """Every part or row with the words of each of its slips, and what the slip is counted by."""
    for exercise in bank.exercises:
        for _, part in exercise.entries:
            if isinstance(part, NumberPart):
                yield from ((part, str(slip.says.pieces), slip.misconception) for slip in part.slips)
            elif isinstance(part, ChoicePart):
                yield from ((part, str(one.says.pieces), one.misconception) for one in part.choices if one.says)


def test_every_shipped_slip_says_what_it_is_counted_by() -> None:
    without = [
        (name, part.name, says) for name, bank in BANKS.items() for part, says, words in slips(bank) if not words
    ]
    assert without == []


def test_the_vocabulary_is_the_one_listed_here() -> None:
    used = Counter(words for bank in BANKS.values() for _, _, words in slips(bank))
    assert "\n".join(sorted(used)) == VOCABULARY
    assert sum(used.values()) / len(used) > 8, "so many slips share a name that the class picture's bars are few"


def test_each_is_spelled_one_way_and_fits_beside_a_bar() -> None:
    words = VOCABULARY.splitlines()
    assert all(len(one) <= LONGEST and not one.endswith(".") and one[0] == one[0].lower() for one in words)
    alike = [(one, other) for one, other in combinations(words, 2) if SequenceMatcher(None, one, other).ratio() > 0.93]
    assert alike == []


def test_a_part_knows_its_misconceptions_by_the_last_step_of_a_slips_key() -> None:
    (exercise,) = read_bank(BANK.encode(), "piers.yaml", Settings(upright_joint="perp")).exercises
    assert exercise.parts[0].misconceptions == {"1": "the last perp was left on"}
