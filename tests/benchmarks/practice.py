"""The practice page of all shipped topics: how large it is, and how soon its first question is there on a slow phone.

The processor is throttled six-fold by the browser, from opening the file to the question on the screen, drawing and
all; each run is a fresh browser profile. The first screen is measured too, and a page with twice the topics. Beside the
clock stands six times the processor time that the page's own thread takes unthrottled: a busy machine disturbs it less.

An older page is measured in turn with these, and told as a ratio.

python tests/benchmarks/practice.py [RUNS [OLDER_PAGE]]
"""

from __future__ import annotations

import re
import sys
import tempfile
import time
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from statistics import median
from zlib import compress

from playwright.sync_api import Browser, sync_playwright

from courseware.commands.terminal import TERMINAL
from courseware.files.bank_files import read_banks, shipped_banks
from courseware.papers.shares import for_practice
from courseware.practice.kinds import PracticeKind, practice_kinds
from courseware.practice.one_file import page_of_data
from courseware.practice.payload import kind_data
from courseware.workflows.glossary import find_glossary
from courseware.workflows.proving import prove_all

SLOWER = 6
QUIET = ("--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-sync")
SHOWN = """
globalThis.shown = new Promise(done => new MutationObserver((_, seen) => {
  if (!document.querySelector(SELECTOR)) return;
  seen.disconnect();
  requestAnimationFrame(() => { const port = new MessageChannel(); port.port1.onmessage = () => done(performance.now()); port.port2.postMessage(0); });
}).observe(document, {childList: true, subtree: true, attributes: true}));
"""  # the frame that has it is painted when the message comes


SCREENS = (("topics", "", "fieldset"), ("first question", "#practise", "main[data-kind] section"))


def main(runs: int, older: Path | None) -> None:
    """Prints the size of the pages and the times of the runs, least and median."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        pages = made_pages(Path(folder)) | ({"older page": older.resolve()} if older else {})
        browser = playwright.chromium.launch(executable_path="/usr/bin/chromium", args=list(QUIET))
        for screen, fragment, selector in SCREENS:
            found: dict[str, list[tuple[float, float]]] = {name: [] for name in pages}
            for _ in range(runs):
                for name, file in pages.items():
                    address = file.as_uri() + fragment
                    clock, busy = (shown(browser, address, selector, slower) for slower in (SLOWER, 1))
                    found[name].append((clock[0], SLOWER * busy[1]))
            tell(screen, found)
        browser.close()


def made_pages(folder: Path) -> Mapping[str, Path]:
    """The page of all shipped topics, and one of twice as many: the same again under other names."""
    banks, notes = read_banks(shipped_banks())
    chosen = [(bank, exercise) for bank in banks for exercise in bank.exercises]
    begun = time.perf_counter()
    spaces = [for_practice(proof.space) for proof in prove_all(chosen, 2, lambda _: None)]
    proved = time.perf_counter()
    kinds = practice_kinds(chosen, spaces, notes)
    data = [kind_data(kind) for kind in kinds]
    print(f"proved in {proved - begun:.1f} s, composed in {time.perf_counter() - proved:.1f} s")
    glossary = find_glossary(None, None, TERMINAL)
    pages = {}
    for name, times in (("all topics", 1), ("twice the topics", 2)):
        many = [again(kind, time) for time in range(times) for kind in kinds]
        page = page_of_data(many, data * times, name, glossary).encode()
        most = max(map(int, re.findall(rb'"variants":(\d+)', page)))
        file = folder / f"{times}.html"
        file.write_bytes(page)
        pages[name] = file
        sent = len(compress(page, 9))
        print(
            f"{name}: {len(many)} kinds of question of {most} variants at most, {len(page):,} bytes, {sent:,} as a server would send it"
        )
    return pages


def again(kind: PracticeKind, time: int) -> PracticeKind:
    """The kind, of a topic of another name the second time."""
    return replace(kind, bank=replace(kind.bank, topic=f"{kind.bank.topic} {time}" if time else kind.bank.topic))


def tell(screen: str, found: Mapping[str, list[tuple[float, float]]]) -> None:
    older = found.get("older page")
    for name, times in found.items():
        for place, words in enumerate(("ms by the clock", "ms of processor time")):
            least, middle = min(one[place] for one in times), median(one[place] for one in times)
            before = median(one[place] for one in older) if older else 0
            ratio = f", {middle / before:.2f} of the older page" if older and times is not older else ""
            print(f"{screen}, {name}: {middle:.0f} (least {least:.0f}) {words}, {SLOWER} times slower{ratio}")


def shown(browser: Browser, address: str, selector: str, slower: int) -> tuple[float, float]:
    """Milliseconds from opening the page until this stands on it and has been painted, and those of its thread."""
    context = browser.new_context(viewport={"width": 320, "height": 640}, offline=True)
    context.add_init_script(SHOWN.replace("SELECTOR", f"'{selector}'"))
    page = context.new_page()
    session = context.new_cdp_session(page)
    session.send("Performance.enable", {"timeDomain": "threadTicks"})
    session.send("Emulation.setCPUThrottlingRate", {"rate": slower})
    page.goto(address, wait_until="commit")
    spent = float(page.evaluate("shown"))
    metrics = {one["name"]: one["value"] for one in session.send("Performance.getMetrics")["metrics"]}
    context.close()
    return spent, 1000 * metrics["TaskDuration"]


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5, Path(sys.argv[2]) if len(sys.argv) > 2 else None)
