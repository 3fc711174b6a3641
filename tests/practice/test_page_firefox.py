"""The page in Debian's firefox: it starts, a question is answered, and what was done is kept. Skipped where there is none."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from tests.practice.learner import KEPT
from tests.practice.marionette import Firefox

PROGRAM = Path(os.environ.get("COURSEWARE_FIREFOX", "/usr/bin/firefox-esr"))
PRESS = "[...document.querySelectorAll('main button')].find((button) => button.textContent === %s).click();"


@pytest.mark.skipif(not PROGRAM.exists(), reason=f"{PROGRAM} is not installed")
def test_the_page_starts_in_firefox_and_a_question_is_answered(practice_file, tmp_path) -> None:
    firefox = Firefox(PROGRAM, tmp_path)
    try:
        firefox.ask("WebDriver:Navigate", url=practice_file.as_uri())
        firefox.until("return document.querySelector('main h1')?.textContent.startsWith('Practise')")
        firefox.run(PRESS % json.dumps("Start"))
        firefox.until("return document.querySelector('main').dataset.stage === 'worked'")
        firefox.run(PRESS % json.dumps("Next question"))
        firefox.until("return document.querySelector('main').dataset.stage === 'part'")
        firefox.until("return Boolean(document.querySelector('#answer'))")
        firefox.run(
            "const field = document.querySelector('#answer'); field.value = '7*225+10'; field.dispatchEvent(new Event('input', {bubbles: true}));"
        )
        firefox.run(PRESS % json.dumps("Check"))
        told = firefox.until("return document.querySelector('[data-role=feedback]')?.textContent")
        assert "Your working: 7 × 225 + 10 = 1585" in told
        firefox.ask("WebDriver:Refresh")
        firefox.until("return document.querySelector('main').dataset.stage === 'part'")
        kept = json.loads(firefox.run(f"return localStorage.getItem('{KEPT}')"))
        assert kept["now"]["helped"] in {True, False}
        assert kept["kinds"]
    finally:
        firefox.close()
