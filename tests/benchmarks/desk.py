"""The grid of 200 learners and 40 parts in Debian's chromium at six-fold throttle, and 50 kills while somebody types.

    python tests/benchmarks/desk.py [--kills 50] [--keys 200]

A key: from the press to the next frame painted, while cells are saved and read behind it. A page: to the frame painted
after its load event, with what is in sight there to be typed into; what the grid fills in afterwards, a slice at a time, is
told by itself. Counted is the processor time of the page's main thread, times six: what a machine six times slower takes,
whatever else this one is busy with. The clock is told beside it.
"""

from __future__ import annotations

import argparse
import random
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from statistics import median
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[2]))

from courseware.banks import Bank, Exercise, prove
from courseware.files.bank_files import read_banks, shipped_banks
from courseware.files.sitting_folders import sitting_folder
from courseware.marking.invented_scripts import invented_scripts
from courseware.marking.script_sheet import Scripts
from courseware.papers.deal import Heads, deal_sitting
from courseware.papers.group import numbered
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import write_sitting
from tests.browser import CHROMIUM, QUIET

LEARNERS, PARTS, THROTTLE = 200, 40, 6
MOST_KEY, MOST_PAGE = 50, 300  # ms

Times = tuple[list[float], list[float]]

FRAME = "new Promise(done => requestAnimationFrame(() => setTimeout(done)))"
HOLD = (
    "held = []; requestIdleCallback = work => held.push(work)"  # what the grid fills in when nothing else is to be done
)
SLICE = f"async () => {{ held.shift()?.(); await {FRAME}; }}"


def chosen(banks: tuple[Bank, ...]) -> list[tuple[Bank, Exercise]]:
    """Exercises with 40 parts between them."""
    rng, everything = random.Random("the desk"), [(bank, one) for bank in banks for one in bank.exercises]
    while True:
        rng.shuffle(everything)
        found: list[tuple[Bank, Exercise]] = []
        left = PARTS
        for bank, one in everything:
            size = sum(len(part.entries) for part in one.parts)
            if size <= left:
                found.append((bank, one))
                left -= size
        if not left:
            return found


def large_class(folder: Path) -> Sitting:
    """A folder of work with a sitting of 200 learners and 40 parts, each answer typed in."""
    from datetime import UTC, datetime

    from courseware.database.opening import open_record
    from courseware.workflows.marking import enter_and_mark

    banks, notes = read_banks(shipped_banks())
    picked = chosen(banks)
    heads = Heads(title="Large", date="2026-01-05", group=numbered(LEARNERS), seed="the desk", version="0")
    sitting = deal_sitting(heads, banks, notes, picked, [prove(one).space for _, one in picked])
    place = folder / "output" / "large"
    place.mkdir(parents=True)
    (place / "sitting.json").write_text(write_sitting(sitting), encoding="utf-8")
    engine = open_record(f"sqlite:///{folder / 'output/record.sqlite'}")
    sheet = Scripts(scripts=tuple(invented_scripts(sitting)), decisions=(), notes=())
    enter_and_mark(
        engine,
        sitting_folder(str(place)),
        sheet,
        (),
        assessor="J. Marsh",
        role="first",
        source="s",
        at=datetime.now(UTC),
    )
    engine.dispose()
    return sitting


def measure(folder: Path, sitting: Sitting, keys: int) -> None:
    """Prints the time of each page and of a key: on the clock at the throttle, and by processor time."""
    from playwright.sync_api import sync_playwright

    from tests.desk.conftest import running

    with running(folder) as desk, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
        page = browser.new_page(viewport={"width": 1280, "height": 800})
        page.goto(f"{desk.address.origin}/enter/{desk.sessions.offer()[0]}")
        tools = page.context.new_cdp_session(page)
        tools.send("Performance.enable", {"timeDomain": "threadTicks"})
        at = f"{desk.address.origin}/sittings/{sitting.code}"
        paper = sitting.papers[0].code
        page.add_init_script(HOLD)
        for name, address in (
            ("grid", f"{at}/grid"), ("one script", f"{at}/grid/{paper}/1"), ("what waits", f"{at}/waiting"),
            ("class picture", f"{at}/picture"), ("a learner", f"{at}/learners/{paper}"),
        ):  # fmt: skip
            page.goto(address)  # the desk has read the sitting
            told("page", name, MOST_PAGE, _each(tools, partial(_load, page, address), 9, anew=True))
        page.goto(f"{at}/grid")
        page.wait_for_selector("#reading")
        told("slice", "of the rows out of sight", MOST_KEY, _each(tools, partial(page.evaluate, SLICE), LEARNERS // 4))
        for name, typed in (
            ("a figure", "1" * keys), ("Enter", ["Enter"] * keys), ("a figure, then Enter", "7\n" * (keys // 4)),
            ("down", ["ArrowDown"] * (keys // 2)),
        ):  # fmt: skip
            presses = iter(typed)
            told("key", name, MOST_KEY, _each(tools, lambda left=presses: _press(page, next(left)), len(typed)))
        page.locator("#saved", has_text="All saved").wait_for()
        browser.close()


def _press(page: Any, key: str) -> None:
    page.keyboard.press("Enter" if key == "\n" else key)
    page.evaluate(FRAME)


def _load(page: Any, address: str) -> None:
    page.goto(address)
    page.evaluate(FRAME)


def _each(tools: Any, do: Callable[[], object], times: int, *, anew: bool = False) -> Times:
    """Does it so often: ms of the page's main thread by processor time, times the throttle; and ms on the clock.

    A page that is loaded `anew` begins to count at nothing.
    """
    busy, clock = [], []
    for _ in range(times):
        begun, before = time.perf_counter(), _ticks(tools)
        do()
        busy.append((_ticks(tools) - (0 if anew else before)) * 1000 * THROTTLE)
        clock.append((time.perf_counter() - begun) * 1000)
    return busy, clock


def _ticks(tools: Any) -> float:
    """Seconds of processor time that the page's main thread took."""
    found = tools.send("Performance.getMetrics")["metrics"]
    return next(float(one["value"]) for one in found if one["name"] == "TaskDuration")


def told(what: str, name: str, most: int, found: Times) -> None:
    """Prints both, and whether the first is over what is promised."""
    busy, clock = (sorted(one) for one in found)
    over = sum(one >= most for one in busy)
    print(
        f"{what} {name}: {THROTTLE} × processor time median {median(busy):.0f} ms, 95 % {busy[int(len(busy) * 0.95)]:.0f} "
        f"({over} of {len(busy)} over {most}); unthrottled on the clock median {median(clock):.0f} ms",
        flush=True,
    )


def kill(folder: Path, sitting: Sitting, times: int) -> None:
    """Kills the desk so often while somebody types, and prints what was lost."""
    from tests.desk.killed_typing import Cells, lost, type_until_killed

    answered: Cells = {}
    count = 0
    for seed in range(times):
        done = type_until_killed(folder, sitting, seed)
        answered |= done
        count += len(done)
        gone = lost(folder, sitting, answered)
        if gone:
            sys.exit(f"after kill {seed + 1}: lost {gone}")
    print(f"{times} kills while typing: {count} cells answered, none lost")


def main() -> None:
    """Measures and prints."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--kills", type=int, default=50)
    asked.add_argument("--keys", type=int, default=200)
    given = asked.parse_args()
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        sitting = large_class(folder)
        measure(folder, sitting, given.keys)
        if given.kills:
            kill(folder, sitting, given.kills)


if __name__ == "__main__":
    main()
