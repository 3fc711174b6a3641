"""What tests of pages ask other people's checkers: axe-core (WCAG 2.2) and html-validate, from npm.

They are as tests/practice/npm/package-lock.json pins them: looked for in .venv/npm or where COURSEWARE_NPM says.
"""

from __future__ import annotations

import os
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.browser import missing

NPM = Path(os.environ.get("COURSEWARE_NPM", Path(__file__).parents[1] / ".venv" / "npm")) / "node_modules"
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
_COLOURS = ["color-contrast", "link-in-text-block"]


@pytest.fixture(scope="session")
def npm() -> Path:
    """Where the checkers from npm are."""
    if not (NPM / "axe-core").exists() or not (NPM / "html-validate").exists():
        missing(
            f"axe-core and html-validate are not in {NPM}; `.ci/run` puts them there with `npm ci --prefix .venv/npm`"
        )
    return NPM


@pytest.fixture(scope="session")
def html_validate(npm: Path) -> Callable[..., str]:
    """`validated`, where the checker is there."""
    return validated


def validated(*files: Path) -> str:
    """What html-validate finds in files: '' where nothing."""
    command = [NPM / ".bin" / "html-validate", "--preset", "standard,a11y", *files]
    checked = subprocess.run(command, capture_output=True, text=True, check=False, cwd=files[0].parent)
    assert checked.returncode in {0, 1}, checked.stderr
    return checked.stdout


@pytest.fixture(scope="session")
def axe_finds(npm: Path) -> Callable[[Any], list[str]]:
    """What axe finds on a page as it stands, a line each; in dark it looks at colours alone."""
    code = (npm / "axe-core" / "axe.min.js").read_text(encoding="utf-8")

    def look(page: Any) -> list[str]:
        found: list[str] = []
        if not page.evaluate("() => globalThis.axe !== undefined"):
            page.evaluate(code)
        for scheme, rules in (("light", TAGS), ("dark", {"type": "rule", "values": _COLOURS})):
            page.emulate_media(color_scheme=scheme)
            report = page.evaluate("rules => axe.run(document, {runOnly: rules})", rules)
            assert report["passes"], "axe could try no rule"
            found += [
                f"{page.url}, {scheme}: {fault['id']}: {node['html'][:200]}"
                for fault in report["violations"]
                for node in fault["nodes"]
            ]
        page.emulate_media(color_scheme="light")
        return found

    return look
