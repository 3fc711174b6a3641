"""The practice page of all shipped topics: how large it is, and how soon its first question is there on a slow phone.

The processor is throttled six-fold by the browser, from opening the file to the question on the screen, drawing and
all; each run is a fresh browser profile. The first screen is measured too.

python tests/benchmarks/practice.py [RUNS]
"""

from __future__ import annotations

import sys
import tempfile
import time
from pathlib import Path
from statistics import median
from zlib import compress

from playwright.sync_api import Browser, sync_playwright

from courseware.commands.terminal import TERMINAL
from courseware.files.bank_files import read_banks, shipped_banks
from courseware.papers.shares import for_practice
from courseware.practice.kinds import practice_kinds
from courseware.practice.one_file import practice_page
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


def main(runs: int) -> None:
    """Prints the size of the page and the times of each run."""
    banks, notes = read_banks(shipped_banks())
    chosen = [(bank, exercise) for bank in banks for exercise in bank.exercises]
    begun = time.perf_counter()
    spaces = [for_practice(proof.space) for proof in prove_all(chosen, 2, lambda _: None)]
    proved = time.perf_counter()
    kinds = practice_kinds(chosen, spaces, notes)
    page = practice_page(kinds, "all topics", find_glossary(None, None, TERMINAL)).encode()
    print(f"proved in {proved - begun:.1f} s, composed in {time.perf_counter() - proved:.1f} s")
    print(f"{len(kinds)} kinds of question, {len(page):,} bytes, {len(compress(page, 9)):,} as a server would send it")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        file = Path(folder) / "practice.html"
        file.write_bytes(page)
        browser = playwright.chromium.launch(executable_path="/usr/bin/chromium", args=list(QUIET))
        for screen, selector in (("", "fieldset"), ("#practise", "main[data-kind] section")):
            times = [shown(browser, file.as_uri() + screen, selector) for _ in range(runs)]
            told = ", ".join(f"{spent:.0f}" for spent in times)
            print(f"{screen or 'topics'}: {median(times):.0f} ms at a processor {SLOWER} times slower ({told})")
        browser.close()


def shown(browser: Browser, address: str, selector: str) -> float:
    """Milliseconds from opening the page until this stands on it and has been painted."""
    context = browser.new_context(viewport={"width": 320, "height": 640}, offline=True)
    context.add_init_script(SHOWN.replace("SELECTOR", f"'{selector}'"))
    page = context.new_page()
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.goto(address, wait_until="commit")
    spent = float(page.evaluate("shown"))
    context.close()
    return spent


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
