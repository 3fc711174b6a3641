"""Makes again the manual's pictures of the desk in output/desk/: `python tests/make_desk_pictures.py`."""

from __future__ import annotations

import io
import re
import shutil
import sys
import tempfile
from pathlib import Path

from PIL import Image
from playwright.sync_api import Page, sync_playwright

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))

from courseware.files.sitting_folders import sitting_folder
from courseware.papers.group import Group, Learner
from courseware.settings.settings import DEFAULTS
from courseware.workflows.exercises_at_hand import Pick
from courseware.workflows.issue import IssueOptions, issue_sitting
from courseware.workflows.mark_sitting import MarkOptions, fill_with_invented_answers, mark_sitting
from courseware.workflows.papers_begun import PapersBegun, begin_papers
from tests.browser import CHROMIUM, QUIET
from tests.desk.conftest import running
from tests.workflows.conftest import Heard

PICTURES = Path(__file__).parents[1] / "output" / "desk"
NAMES = (
    "Priya Nair",
    "Tomasz Lewandowski",
    "Amara Okafor",
    "Kofi Mensah",
    "Zoë Smythe",
    "Ewan Ross",
    "Mei Chen",
    "Łukasz Wójcik",
)  # fmt: skip - invented
BANKS = ("opening_sizes", "course_gauge")
PICKS = (
    Pick(bank="opening_sizes", exercise="opening-for-a-panel"),
    Pick(bank="course_gauge", exercise="rise-of-a-lift"),
)


def work(folder: Path) -> str:
    """A folder of work with a sitting issued and marked, another issued, and papers begun. The marked one's code."""
    learners = tuple(Learner(name=name, reference=f"10{place}") for place, name in enumerate(NAMES, 41))
    folder.mkdir()
    code = ""
    for date, title in (("2026-01-12", "Setting out, week 3"), ("2026-01-19", "Setting out, week 4")):
        options = IssueOptions(
            out=folder / "output", settings=DEFAULTS, processes=2, title=title, seed=title, exercises=4
        )
        issued = issue_sitting(BANKS, Group(name="Evening group", learners=learners), date, options, Heard())
        if not code:
            where = sitting_folder(str(issued.folder))
            code = where.sitting.code
            fill_with_invented_answers(where)
            marked = MarkOptions(assessor="J. Marsh", processes=2)
            mark_sitting(where, None, (), marked, Heard(), when_marked=lambda *_: None)
    begin_papers(folder, PapersBegun(learners=8, picks=PICKS, title="Setting out, week 5"))
    return code


def take(page: Page, name: str) -> None:
    """A picture of what the screen shows."""
    picture = Image.open(io.BytesIO(page.screenshot()))
    picture.convert("RGB").quantize(48).save(PICTURES / f"{name}.png", optimize=True)


def make() -> None:
    """The screens, on a laptop's screen; two of them on a phone and in the dark."""
    shutil.rmtree(PICTURES, ignore_errors=True)
    PICTURES.mkdir(parents=True)
    with tempfile.TemporaryDirectory() as place, sync_playwright() as playwright:
        folder = Path(place) / "Year 1"
        code = work(folder)
        with running(folder) as desk, playwright.chromium.launch(executable_path=CHROMIUM, args=list(QUIET)) as browser:
            here = desk.address.origin
            page = browser.new_page(viewport={"width": 1120, "height": 760})
            page.goto(f"{here}/enter/{desk.sessions.offer()[0]}")
            take(page, "start")
            page.goto(f"{here}/papers")
            begun = re.findall(r'href="(/papers/[0-9a-f]{8})', page.content())[0]
            page.goto(f"{here}{begun}/exercises?topic=opening_sizes")
            take(page, "make-papers")
            page.goto(f"{here}/sittings/{code}/grid")
            page.wait_for_selector("#beside .key")
            take(page, "mark")
            page.goto(f"{here}/sittings/{code}/picture")
            take(page, "see")
            page.goto(f"{here}/jobs/examples/porch-panel")
            take(page, "job")
            page.set_viewport_size({"width": 390, "height": 760})
            page.emulate_media(color_scheme="dark")
            page.goto(f"{here}/sittings/{code}")
            take(page, "sitting-on-a-phone")


if __name__ == "__main__":
    make()
