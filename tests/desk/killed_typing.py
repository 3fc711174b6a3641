"""A desk in a process of its own that is killed while somebody types into its grid; and what the record has then."""

from __future__ import annotations

import os
import random
import re
import signal
import subprocess
import sys
import threading
from pathlib import Path

import httpx

from courseware.database.opening import open_record
from courseware.database.typed_cells import on_screen
from courseware.papers.sitting import Sitting

Cells = dict[tuple[str, str], str]


def type_until_killed(folder: Path, sitting: Sitting, seed: int) -> Cells:
    """Starts the desk over a folder, types cells of the sitting one after another, kills it meanwhile.

    Returns what the desk had answered to be saved, by paper and part.
    """
    rng = random.Random(seed)
    command = [sys.executable, "-m", "courseware.cli", "desk", str(folder), "--no-browser", "--name", "J. Marsh"]
    environment = {**os.environ, "XDG_CONFIG_HOME": str(folder / "config"), "XDG_STATE_HOME": str(folder / "state")}
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=environment) as process:
        assert process.stdout is not None
        address = next(found[0] for line in process.stdout if (found := re.findall(r"http://\S+", line)))
        origin = re.findall(r"http://[^/]+", address)[0]
        client = httpx.Client(base_url=origin, headers={"origin": origin, "sec-fetch-site": "same-origin"}, timeout=60)
        client.get(address)
        token = re.findall(r'data-token="([^"]*)"', client.get("/keys").text)[0]
        end = threading.Timer(rng.uniform(0.05, 0.6), os.kill, (process.pid, signal.SIGKILL))
        acknowledged: Cells = {}
        at = f"/sittings/{sitting.code}/grid/cell"
        try:
            for number in range(10_000):
                paper = rng.choice(sitting.papers)
                label = rng.choice(paper.parts).label
                text, seen = f"{seed}.{number}", acknowledged.get((paper.code, label), "")
                fields = {"token": token, "paper": paper.code, "attempt": 1, "part": label, "text": text, "seen": seen}
                answer = client.post(at, data=fields).json()
                if answer["saved"] == "otherwise":  # typed in an earlier start of the desk: seen now
                    answer = client.post(at, data={**fields, "seen": answer["stands"]}).json()
                assert (answer["saved"], answer["stands"]) == ("entered", text)
                acknowledged[paper.code, label] = text
                if number == 0:
                    end.start()
        except httpx.TransportError:
            pass  # it is dead
        finally:
            process.kill()
            client.close()
    return acknowledged


def lost(folder: Path, sitting: Sitting, answered: Cells) -> Cells:
    """What was answered to be saved and does not stand: neither it nor what was being sent after it, when it died."""
    engine = open_record(f"sqlite:///{folder / 'output/record.sqlite'}")
    scripts = on_screen(engine, sitting.code, "first").scripts
    engine.dispose()
    stands = {(script.code, label): text for script in scripts.values() for label, text in script.cells.items()}
    return {key: text for key, text in answered.items() if _order(stands.get(key, "0.0")) < _order(text)}


def _order(text: str) -> tuple[int, ...]:
    return tuple(map(int, (text or "0.0").split(".")))
