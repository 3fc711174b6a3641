"""Scripts marked a second by one process: sittings of 15 parts, answered as a class answers them.

    python tests/benchmarks/marking.py [scripts]

Each part is right, a slip of the bank, carried on from an earlier slip, a stray figure, blank or not reached, and written
in one of several ways. Timed apart: reading the banks that a sitting holds, once, and marking every script.
"""

from __future__ import annotations

import random
import sys
import time
from collections import Counter
from fractions import Fraction

from courseware.banks import Bank, Exercise, Space, prove
from courseware.banks.figures import exact_text
from courseware.banks.formulas import FormulaImpossible
from courseware.banks.solve import solve
from courseware.files.bank_files import read_banks, shipped_banks
from courseware.marking.mark import mark_scripts
from courseware.marking.marks import Script
from courseware.papers.compose import given_of, read_sources
from courseware.papers.deal import Heads, deal_sitting
from courseware.papers.group import numbered
from courseware.papers.sitting import IssuedExercise, IssuedPaper, IssuedPart, Sitting
from courseware.trade import TradeError

PARTS = 15
IN_A_SITTING = 1000
RIGHT, SLIP, STRAY, BLANK = 0.60, 0.20, 0.08, 0.07  # of the first tries; the rest is not reached
Chosen = list[tuple[Bank, Exercise]]


def cells_of(exercise: Exercise) -> int:
    return sum(len(part.entries) for part in exercise.parts)


def fifteen_parts(banks: tuple[Bank, ...], rng: random.Random) -> Chosen:
    """Exercises of different topics with 15 cells to fill in all."""
    everything = [(bank, exercise) for bank in banks for exercise in bank.exercises]
    while True:
        rng.shuffle(everything)
        chosen: Chosen = []
        left = PARTS
        for bank, exercise in everything:
            if cells_of(exercise) <= left and bank not in [other for other, _ in chosen]:
                chosen.append((bank, exercise))
                left -= cells_of(exercise)
        if not left:
            return chosen


def sittings(count: int) -> list[tuple[Sitting, Chosen]]:
    """Sittings of at most 1000 papers, `count` in all."""
    banks, notes = read_banks(shipped_banks())
    spaces: dict[str, Space] = {}
    made: list[tuple[Sitting, Chosen]] = []
    for place in range(0, count, IN_A_SITTING):
        chosen = fifteen_parts(banks, random.Random(place))
        for _, exercise in chosen:
            if exercise.name not in spaces:
                spaces[exercise.name] = prove(exercise).space
        heads = Heads(title="Benchmark", date="2026-01-05", group=numbered(min(IN_A_SITTING, count - place)),
                      seed=f"benchmark {place}", version="0")  # fmt: skip
        made.append((deal_sitting(heads, banks, notes, chosen, [spaces[e.name] for _, e in chosen]), chosen))
    return made


def answered(paper: IssuedPaper, chosen: Chosen, rng: random.Random) -> Script:
    cells: dict[str, str] = {}
    for issued, (_, exercise) in zip(paper.exercises, chosen, strict=True):
        cells |= answered_exercise(issued, exercise, rng)
    return Script(code=paper.code, cells=cells)


def answered_exercise(issued: IssuedExercise, exercise: Exercise, rng: random.Random) -> dict[str, str]:
    """The cells of one exercise; after a slip the later figures are worked out from it, as learners do."""
    given = given_of(exercise, issued)
    own = {number.part.name: number for part in solve(exercise, given) for number in part.numbers}
    carried: dict[str, Fraction | int] = {}
    cells: dict[str, str] = {}
    for part in issued.parts:
        if part.name not in own:
            cells[part.label] = lettered(part, rng)
            continue
        number, luck = own[part.name], rng.random()
        figure = number.answer
        if luck >= RIGHT + SLIP + STRAY:
            cells[part.label] = "" if luck < RIGHT + SLIP + STRAY + BLANK else "nr"
            continue
        if luck >= RIGHT + SLIP:
            figure = number.answer + rng.choice((1, -1, 3, 7, 100, number.answer * 9))
        elif luck >= RIGHT and number.slips:
            figure = rng.choice(number.slips)
        if figure != number.answer:
            carried[part.name] = figure
            try:
                own = {n.part.name: n for p in solve(exercise, given, carried) for n in p.numbers}
            except (TradeError, FormulaImpossible):
                del carried[part.name]
        cells[part.label] = written(exact_text(figure), part, rng)
    return cells


def written(figure: str, part: IssuedPart, rng: random.Random) -> str:
    return rng.choice(
        (figure, figure, figure, f"{figure} {part.unit}", f"{figure}{part.unit}", figure.replace(".", ","))
    )


def lettered(part: IssuedPart, rng: random.Random) -> str:
    if part.kind == "drawn":
        return rng.choice(("all", "all", "none", "yyn"))
    letters = part.answer.split(",")
    if rng.random() > RIGHT:
        letters = rng.sample("ABC", len(letters)) if len(letters) < 4 else rng.sample(letters, len(letters))
    return ",".join(letters)


def main(named: list[str]) -> None:
    """Prints seconds, scripts a second and how the marks were reached."""
    count = int(named[0]) if named else 10_000
    made = sittings(count)
    rng = random.Random("answers")
    classes = [(sitting, [answered(paper, chosen, rng) for paper in sitting.papers]) for sitting, chosen in made]
    hows: Counter[str] = Counter()
    earned = of = 0
    spent = busy = 0.0
    begun = time.perf_counter()
    sources = read_sources(classes[0][0])  # every sitting holds the same banks
    reading = time.perf_counter() - begun
    for sitting, scripts in classes:
        begun, begun_busy = time.perf_counter(), time.process_time()
        papers = mark_scripts(sitting, scripts, sources=sources).papers
        spent, busy = spent + time.perf_counter() - begun, busy + time.process_time() - begun_busy
        hows.update(mark.how for paper in papers for mark in paper.marks)
        earned, of = earned + sum(paper.total for paper in papers), of + sum(paper.of for paper in papers)
    cells = sum(hows.values())
    print(
        f"{count} scripts of {cells / count:g} parts in {len(classes)} sittings; {earned / of:.0%} of the marks earned"
    )
    print(", ".join(f"{how} {number / cells:.1%}" for how, number in hows.most_common()))
    print(f"banks read in {reading:.2f} s")
    print(f"marked in {spent:.2f} s: {count / spent:.0f} scripts a second; {busy:.2f} s of them on the processor")


if __name__ == "__main__":
    main(sys.argv[1:])
