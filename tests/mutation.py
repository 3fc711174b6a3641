"""Mutation testing by sample: places of a room's modules, drawn with a seed, each changed once; do the room's tests see it?

Run in a copy of the repository, since modules are changed in place, with cosmic-ray installed beside what the tests
need: `python tests/mutation.py ROOM PLACES SEED`. The rooms are in `mutation.toml`. Each change is tried in a process
of its own, forked from one that has the large libraries in memory. Ends with the score and a diff of each survivor.
"""

from __future__ import annotations

import ast
import difflib
import os
import random
import resource
import signal
import sys
import tomllib
from collections import defaultdict
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # beside the tests' packages only where this is run
    from cosmic_ray.work_item import MutationSpec

Spot = tuple[int, int]  # line from 1, column from 0
_WAITING = 1800  # seconds on a clock, for a test that waits for what never comes


def left_alone(module: Path) -> list[tuple[Spot, Spot]]:
    """Where a module's annotations stand, which are never run, and its decorators, which keep or freeze what is made."""
    found: list[ast.expr] = []
    for node in ast.walk(ast.parse(module.read_text("utf-8"))):
        found += [part for name in ("annotation", "returns") if (part := getattr(node, name, None)) is not None]
        found += getattr(node, "decorator_list", [])
    return [((n.lineno, n.col_offset - 1), (n.end_lineno or 0, n.end_col_offset or 0)) for n in found]


def mutations(modules: list[Path]) -> Iterator[MutationSpec]:
    from cosmic_ray.commands.init import _all_work_items

    spared = {module: left_alone(module) for module in modules}
    for item in _all_work_items(modules, {}):
        (mutation,) = item.mutations
        if not any(start <= mutation.start_pos <= end for start, end in spared[mutation.module_path]):
            yield mutation


def sample(modules: list[Path], places: int, seed: int) -> list[MutationSpec]:
    """One mutation of each of so many places, so that an operator with many others in its place counts once."""
    at: dict[tuple[str, Spot], list[MutationSpec]] = defaultdict(list)
    for mutation in mutations(modules):
        at[str(mutation.module_path), mutation.start_pos].append(mutation)
    print(f"{len(at)} places in {len(modules)} modules, {sum(map(len, at.values()))} mutations")
    draw = random.Random(seed)
    return [draw.choice(at[place]) for place in draw.sample(sorted(at), min(places, len(at)))]


def survives(tests: list[str], seconds: int) -> bool:
    """Whether all tests pass, within so many seconds of the processor, in a process forked from this one."""
    child = os.fork()
    if child:
        return os.waitpid(child, 0)[1] == 0
    resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
    signal.alarm(_WAITING)
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)
    import pytest

    plain = ["-x", "-q", "-n0", "--assert=plain", "-p", "no:randomly", "-p", "no:cacheprovider"]
    os._exit(pytest.main([*tests, *plain]))


def main(room: str, places: str, seed: str) -> None:
    from cosmic_ray.mutating import use_mutation
    from cosmic_ray.plugins import get_operator

    told = tomllib.loads(Path("tests/mutation.toml").read_text("utf-8"))
    asked = told["rooms"][room]
    sys.path.insert(0, str(Path.cwd()))
    for library in told["libraries"]:
        import_module(library)
    if not survives(asked["tests"], _WAITING):
        sys.exit("the tests fail, or take too long, without any change")
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    seconds = 10 + 4 * int(used.ru_utime + used.ru_stime)  # a change that takes longer has made something endless
    sys.dont_write_bytecode = True  # what was compiled just now is used again; what is changed is compiled for itself
    os.environ["PYTHONDONTWRITEBYTECODE"] = "1"
    modules = sorted(path for name in asked["modules"] for path in Path().glob(name))
    drawn, lived = sample(modules, int(places), int(seed)), 0
    for number, mutation in enumerate(drawn, 1):
        with use_mutation(mutation.module_path, get_operator(mutation.operator_name)(), mutation.occurrence) as texts:
            alive = survives(asked["tests"], seconds)
        print("." if not alive else "s", end="", file=sys.stderr, flush=True)
        if alive:
            lived += 1
            lines = (text.splitlines() for text in texts)
            diff = difflib.unified_diff(*lines, lineterm="", n=1, fromfile=str(mutation.module_path))
            print("\n".join(["", f"{number}: {mutation.operator_name}", *diff]), flush=True)
    killed = len(drawn) - lived
    print(f"\n{room}: {killed} of {len(drawn)} killed, {killed / len(drawn):.0%}, seed {seed}")


if __name__ == "__main__":
    main(*sys.argv[1:])
