"""Every figure in the README's section on speed, measured again: the table it prints is the table that stands there.

    python tests/benchmarks/readme_figures.py [--write]

Each is measured cold, in processes of its own: papers read back before they are released, on the same pages as the
yardstick (see printing.py). Takes some minutes. `--write` puts the table into README.md between its markers.
"""

from __future__ import annotations

import json
import os
import re
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
README = ROOT / "README.md"
BEGIN, END = "<!-- speed: written by `tests/benchmarks/readme_figures.py --write` -->", "<!-- end of speed -->"
PAPERS, LEARNERS, CLASSES, RUNS = 12, 60, (8, 200), 3
ROWS = (
    "a paper of six exercises, read back, one process",
    "its key",
    f"two processes against one, a class of {LEARNERS}",
    "proofs of all shipped banks, from a cold start",
    *(f"memory at its most, of the process that runs a class of {size}" for size in CLASSES),
    "start-up, as `--help` shows it",
)
COMMAND = (sys.executable, "-m", "courseware.cli")
FRESH = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"}


def table() -> str:
    """The table as the README has it."""
    figures = (
        *printed(), two_against_one(), proofs(), *(f"{memory(size):.0f} MB" for size in CLASSES), start_up(),
    )  # fmt: skip
    lines = [f"| {row} | {figure} |" for row, figure in zip(ROWS, figures, strict=True)]
    return "\n".join(["| what | figure |", "|---|---|", *lines])


def rows(text: str) -> tuple[str, ...]:
    """What the README's table between its markers is about, row by row. Raises `ValueError` without markers."""
    between = text[text.index(BEGIN) + len(BEGIN) : text.index(END)]
    return tuple(re.findall(r"^\| (.+?) \| .+ \|$", between, re.MULTILINE)[1:])


def with_table(text: str, made: str) -> str:
    """The README's text with this table between its markers."""
    before, after = text[: text.index(BEGIN)], text[text.index(END) :]
    return f"{before}{BEGIN}\n\n{made}\n\n{after}"


def printed() -> tuple[str, str]:
    """A paper and a key: milliseconds, and the ratios to the other ways of printing the same pages."""
    code = f"import json, printing; print(json.dumps(printing.both_kinds({PAPERS})))"
    told = subprocess.run([sys.executable, "-c", code], cwd=HERE, env=FRESH, check=True, capture_output=True, text=True)
    found = json.loads(told.stdout)
    return told_of(found["paper"]), told_of(found["key"])


def told_of(times: dict[str, float]) -> str:
    """One kind of sheet in words.

    >>> told_of({"plain": 0.4, "ours": 0.2, "chromium": 0.25, "chromium started": 1.0})
    '200 ms: 0.50 of WeasyPrint used plainly, 0.80 of Chromium kept open, 0.20 of Chromium started for each'
    """
    others = {"plain": "WeasyPrint used plainly", "chromium": "Chromium kept open",
              "chromium started": "Chromium started for each"}  # fmt: skip
    ratios = [f"{times['ours'] / times[way]:.2f} of {name}" for way, name in others.items() if way in times]
    return f"{1000 * times['ours']:.0f} ms: {', '.join(ratios)}"


def two_against_one() -> str:
    """A class issued by one process and by two."""
    one, two = (issued(LEARNERS, processes)[0] for processes in (1, 2))
    return f"{one / two:.1f} times as fast"


def proofs() -> str:
    """Processor time of `check`, the median of some runs, and the variants it walks a second."""
    spent, told = zip(*(timed(*COMMAND, "check") for _ in range(RUNS)), strict=True)
    walked = int(re.search(r"(\d+) variants walked", told[0])[1])  # type: ignore[index]  # check says so at its end
    middle = statistics.median(spent)
    return f"{middle:.1f} s of processor time, {round(walked / middle, -2):,.0f} variants a second"


def memory(size: int) -> float:
    """The most memory, in MB, of the process that runs a class of so many; two others print."""
    return issued(size, 2)[1]


def start_up() -> str:
    """Elapsed time of `--help`, the median of some runs."""
    taken = []
    for _ in range(RUNS + 2):
        begun = time.perf_counter()
        subprocess.run([*COMMAND, "--help"], env=FRESH, check=True, capture_output=True)
        taken.append(time.perf_counter() - begun)
    return f"{statistics.median(taken):.2f} s"


def issued(size: int, processes: int) -> tuple[float, float]:
    """Seconds that issuing a class of so many takes, and MB that its own process holds at its most."""
    with tempfile.TemporaryDirectory() as folder:
        asked = ["issue", "opening_sizes", "--seed", "figures", "--learners", str(size), "--title", "Speed",
                 "--date", "2026-01-05", "--jobs", str(processes), "--out", folder]  # fmt: skip
        begun = time.perf_counter()
        own = subprocess.run([sys.executable, "-c", _ASKED_OF_ITSELF, *asked], cwd=folder, env=FRESH, check=True,
                             capture_output=True, text=True)  # fmt: skip
        return time.perf_counter() - begun, int(own.stdout.splitlines()[-1]) / 1024


_ASKED_OF_ITSELF = """
import resource, sys
from courseware.cli import main
if __name__ == "__main__":
    main(sys.argv[1:], standalone_mode=False)
    print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""


def timed(*command: str) -> tuple[float, str]:
    """Processor time of a command, its own and its processes', and what it prints."""
    before = os.times()
    told = subprocess.run(command, env=FRESH, check=True, capture_output=True, text=True).stdout
    after = os.times()
    spent = after.children_user + after.children_system - before.children_user - before.children_system
    return spent, told


if __name__ == "__main__":
    made = table()
    print(made)
    if "--write" in sys.argv[1:]:
        README.write_text(with_table(README.read_text(encoding="utf-8"), made), encoding="utf-8")
