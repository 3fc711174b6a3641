"""A job at the desk: drawn as it is chosen, saved as one's own, its sheets printed; hostile values are values."""

from __future__ import annotations

import re
from html import unescape
from itertools import cycle
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import pytest
from click.testing import CliRunner

from courseware.cli import main
from courseware.settings.settings import DEFAULTS
from courseware.workflows.own_jobs import JOBS, open_example, open_own, save_job, task_of
from tests.desk.conftest import Sitter, finished, words

PORCH = "/jobs/examples/porch-panel"


@pytest.fixture
def own(client: Sitter) -> str:
    """The address of a job of the tutor's own."""
    name = save_job(client.desk.folder, "A porch", open_example("porch-panel").text, DEFAULTS)
    return f"/jobs/own/{name}"


def fields(client: Sitter, address: str) -> dict[str, str]:
    """What a browser would send of the job's form as it stands."""
    text = client.get(address).text
    form = text[text.index('class="job"') : text.index("</form>", text.index('class="job"'))]
    found = dict(re.findall(r'<input [^>]*name="([^"]+)"[^>]* value="([^"]*)"', form))
    for name, options in re.findall(r'<select [^>]*name="([^"]+)">(.*?)</select>', form, re.DOTALL):
        found[name] = re.findall(r'value="([^"]*)" selected', options)[0]
    return {name: unescape(value) for name, value in found.items() if name != "token"}


def test_an_empty_folder_says_what_to_do_first(client: Sitter) -> None:
    said = words(client.get("/jobs").text)
    assert "You have no job of your own yet. First open one of these" in said
    assert "A framed panel beside a porch" in said


def test_a_shipped_job_is_changed_and_saved_as_ones_own(client: Sitter) -> None:
    form = {**fields(client, PORCH), "opening.courses": "15", "wall.courses": "24", "job": "A panel by the gate"}
    said = client.done(f"{PORCH}/new", form)
    assert "Saved as a job of your own: A panel by the gate." in said
    saved = open_own(client.desk.folder, "a-panel-by-the-gate")
    example = open_example("porch-panel").text
    changed = example.replace("courses: 12}", "courses: 15}").replace("courses: 21", "courses: 24")
    assert saved.text == changed.replace("job: A framed panel beside a porch", 'job: "A panel by the gate"')
    assert "A panel by the gate" in words(client.get("/jobs").text)


def test_a_form_sent_as_it_stands_changes_nothing(client: Sitter, own: str) -> None:
    before = open_own(client.desk.folder, "a-porch").text
    assert "Saved." in client.done(f"{own}/save", fields(client, own))
    assert open_own(client.desk.folder, "a-porch").text == before


def test_what_cannot_be_built_is_told_with_what_would_work_at_an_address_of_its_own(client: Sitter, own: str) -> None:
    """Courses of a weave go in threes, and the surround takes three: common practice, no source."""
    answer = client.fill(f"{own}/draw", {**fields(client, own), "opening.courses": "13"})
    page = client.get(answer.headers["location"]).text
    assert "courses go in threes" in words(page)
    assert "<svg" not in page
    link = unescape(re.findall(r'<a href="([^"]*)">Opening, high: 12 courses</a>', page)[0])
    mended = client.get(link).text
    assert "<svg" in mended
    assert 'name="opening.courses" type="number" step="1" value="12"' in mended
    refused = client.fill(f"{own}/save", {**fields(client, own), "opening.courses": "13", "bays": "6"})
    assert refused.status_code == 422
    assert re.search(r'href="[^"]*bays=6[^"]*">Opening, high: 12 courses', refused.text)  # with all that was typed
    assert "nothing was saved" in words(refused.text)
    assert 'value="13"' in refused.text  # what was typed stands there still
    assert task_of(open_own(client.desk.folder, "a-porch"), DEFAULTS).shape.opening.courses == 12


def test_the_part_that_is_drawn_again_is_the_pages_own(client: Sitter, own: str) -> None:
    part = client.get(f"{own}/drawing?opening.courses=15&wall.courses=24").text
    assert part.strip() in client.get(f"{own}?opening.courses=15&wall.courses=24").text
    assert "1135 mm" in words(part)  # 15 courses of 75 mm and a joint: Sheet 9


def test_what_is_measured_on_site_leads_to_an_opening_and_is_not_saved(client: Sitter, own: str) -> None:
    form = {**fields(client, own), "measured.wide": "900", "wall.bricks": "8"}
    page = client.get(client.fill(f"{own}/draw", form).headers["location"]).text
    link = unescape(re.findall(r'<a href="([^"]*)">Opening, wide: 4 bricks, 910 mm, 10 mm more</a>', page)[0])
    chosen = fields(client, link)
    assert (chosen["opening.bricks"], chosen["measured.wide"]) == ("4", "900")
    assert "Saved." in client.done(f"{own}/save", chosen)
    saved = open_own(client.desk.folder, "a-porch").text
    assert "measured" not in saved
    assert "opening: {bricks: 4, courses: 12}" in saved


def test_cautions_stand_on_the_page(client: Sitter, own: str) -> None:
    said = words(client.get(own).text)
    assert "In a day the wall goes up 1200 mm at most" in said
    assert "Local codes, the makers' instructions and the centre's own risk assessment come first" in said
    assert "Silica dust" in said


def test_another_windows_changes_are_not_written_over(client: Sitter, own: str) -> None:
    old = fields(client, own)
    client.done(f"{own}/save", {**old, "bays": "6"})
    refused = client.fill(f"{own}/save", {**old, "bays": "7"})
    assert refused.status_code == 409
    assert "was changed in another window" in words(refused.text)
    assert task_of(open_own(client.desk.folder, "a-porch"), DEFAULTS).shape.bays == 6


def test_the_sheets_are_printed_by_the_queue_as_the_command_prints_them(
    client: Sitter, own: str, tmp_path: Path
) -> None:
    said = finished(client, client.fill(f"{own}/sheets"))
    assert "The sheets of the job are in" in said
    assert "Enter what was measured and judged" in said
    assert "observation-sheet.xlsx for the assessor" in said
    [folder] = client.desk.out.glob("*-a-framed-panel-beside-a-porch")
    assert sorted(path.name for path in folder.iterdir()) == sorted(re.findall(r"[a-z-]+\.(?:pdf|xlsx)", said))
    job = client.desk.folder / JOBS / "a-porch.yaml"
    commanded = CliRunner().invoke(main, ["job", str(job), "--date", folder.name[:10], "--out", str(tmp_path / "out")])
    assert commanded.exit_code == 0, commanded.output
    for path in folder.iterdir():
        assert path.read_bytes() == (tmp_path / "out" / folder.name / path.name).read_bytes(), path.name


HOSTILE = [
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "{{ 7*7 }}",
    "a: b\n  - c",
    "9" * 5000,
    "1e999",
    "\u202e123",
    "\x00",
    "&anchor *alias",
    "../../etc/passwd",
]


def test_hostile_values_are_shown_as_text_and_save_nothing(client: Sitter, own: str) -> None:
    there = fields(client, own)
    for value, name in zip(HOSTILE, cycle(("opening.bricks", "format", "mix", "tolerances")), strict=False):
        form: dict[str, Any] = {**there, "job": value, name: value}
        refused = client.fill(f"{own}/save", form)
        assert refused.status_code == 422
        assert "<script>alert" not in refused.text
        assert "<img src=x" not in refused.text
    assert client.get(f"{own}?{urlencode({'job': HOSTILE[0], 'mix': HOSTILE[1]})}").status_code == 200
    assert open_own(client.desk.folder, "a-porch").text == open_example("porch-panel").text
    assert sorted(path.name for path in (client.desk.folder / JOBS).glob("*.yaml")) == ["a-porch.yaml"]


@pytest.mark.parametrize(
    "address",
    ["/jobs/own/nothing", "/jobs/examples/nothing", "/jobs/elsewhere/porch-panel", "/jobs/own/..%2f..%2fetc%2fpasswd",
     "/jobs/own/%2e%2e", "/jobs/examples/tolerances", "/jobs/examples/worksheet"],
)  # fmt: skip
def test_an_address_finds_jobs_alone(client: Sitter, address: str) -> None:
    assert client.get(address).status_code == 404
    assert client.get(f"{address}/drawing").status_code == 404
    assert client.fill(f"{address}/sheets").status_code == 404


def test_the_list_has_a_small_picture_of_each_job_that_can_be_built(client: Sitter, work: Path) -> None:
    (work / "jobs").mkdir(exist_ok=True)
    (work / "jobs" / "broken.yaml").write_text("job: Broken\nopening: {bricks: none}\n", encoding="utf-8")
    pictures = re.findall(r'<img src="(/jobs/[^"]+)"', client.get("/jobs").text)
    assert len(pictures) > 3
    assert client.get("/jobs/own/broken/picture").status_code == 404
    shown = client.get(next(one for one in pictures if "porch-panel" in one))
    assert shown.headers["content-type"] == "image/svg+xml"
    assert "<path" in shown.text
    assert "<text" not in shown.text  # no size, which would be too small to read
