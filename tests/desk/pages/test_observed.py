"""Results of a job at the desk: typed or by sheet, the same row of the record as the command enters."""

from __future__ import annotations

import re
from datetime import date
from html import unescape
from pathlib import Path

import pytest

from courseware.database.observations import observations_of
from courseware.files.record_location import opened
from courseware.jobs.plan import plan_of
from courseware.workflows.jobs import find_job
from tests.desk.conftest import Sitter, words
from tests.jobs.filled_sheet import filled

PAGE = "/jobs/examples/porch-panel/results"
PLAN = plan_of(find_job("porch-panel"))


def entered(client: Sitter):
    with opened(client.desk.record(), make=False) as engine:
        return observations_of(engine)


@pytest.fixture
def form(client: Sitter) -> dict[str, str]:
    """The form for a learner, every measured line at its target and every judged line good."""
    text = client.get(PAGE).text
    fields = {name: unescape(value) for name, value in re.findall(r'name="([^"]+)" value="([^"]*)"', text)}
    fields |= {name.removeprefix("target-"): value for name, value in fields.items() if name.startswith("target-")}
    judged = dict.fromkeys(re.findall(r'name="(judged-\d)"', text), "good")
    return {**fields, **judged, "learner": "A1", "by": "J. Marsh", "day": "2026-02-03", "bay": "2"}


def test_a_page_without_results_says_what_to_do(client: Sitter) -> None:
    page = client.get(PAGE).text
    assert "Nothing is entered of this job yet." in words(page)
    assert "Amara Okafor" in page  # to choose from, of the record's own
    assert f'value="{date.today().isoformat()}"' in page
    assert "Enter what was measured and judged" in words(client.get("/jobs/examples/porch-panel").text)


def test_what_is_typed_stands_in_the_record(client: Sitter, form: dict[str, str]) -> None:
    said = client.done(f"{PAGE}/enter", form)
    [one] = entered(client)
    assert (one.verdict, one.job, one.by, one.bay) == ("pass", "porch-panel", "J. Marsh", "2")
    assert f"Entered: {one.code}, 2026-02-03: pass." in said
    assert "Amara Okafor 2026-02-03 J. Marsh pass" in said
    said = client.done(f"{PAGE}/enter", {**form, "measured-0": "691"})  # 6 mm over 685 ± 5
    assert "Put right" in said
    assert "Amara Okafor 2026-02-03 J. Marsh not yet" in said


def test_photographs_are_chosen_on_the_page_and_kept_by_file_and_hash(
    client: Sitter, work: Path, form: dict[str, str]
) -> None:
    """SHA-256 of `abc`: FIPS 180-4, the example of its publisher for one block."""
    assert "put them into the folder" in words(client.get(PAGE).text)
    (work / "photographs").mkdir()
    photo = work / "photographs" / "mitre.jpg"
    photo.write_bytes(b"abc")
    (work / "photographs" / "notes.txt").write_bytes(b"no photograph")
    [handle] = re.findall(r'name="photo" value="(\w+)"', client.get(PAGE).text)
    assert client.get(f"/file/{handle}").headers["content-type"] == "image/jpeg"
    said = client.done(f"{PAGE}/enter", {**form, "photo": handle, f"shows-{handle}": "the mitre"})
    [one] = entered(client)
    assert [(kept.file, kept.shows) for kept in one.photos] == [(str(photo.resolve()), "the mitre")]
    assert one.photos[0].sha256 == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert "pass, 1 photograph" in said
    assert [path.name for path in work.rglob("*.jpg")] == ["mitre.jpg"]  # no copy


def test_each_fault_is_told_at_its_line_and_what_was_typed_stays(client: Sitter, form: dict[str, str]) -> None:
    wrong = {**form, "measured-0": "six hundred", "learner": "Nobody <b>", "day": "yesterday"}
    refused = client.fill(f"{PAGE}/enter", wrong)
    assert refused.status_code == 422
    assert "`six hundred` is not a size in mm" in words(refused.text)
    assert "`yesterday` is not a date" in words(refused.text)
    assert 'value="six hundred" aria-invalid="true" aria-describedby="measured-0-wrong"' in refused.text
    assert "Nobody <b>" not in refused.text
    strange = client.fill(f"{PAGE}/enter", {**form, "learner": "Nobody"})
    assert strange.status_code == 422
    assert "Nobody" in words(strange.text)
    assert entered(client) == ()


def test_a_page_of_other_sizes_is_refused(client: Sitter, form: dict[str, str]) -> None:
    """The job was changed, or the centre's profile, since the page was loaded."""
    refused = client.fill(f"{PAGE}/enter", {**form, "target-measured-0": "910"})
    assert "the sheet has 910 ± 5, the job 685 ± 5" in words(refused.text)


def test_filled_in_workbooks_are_entered_whole_or_not_at_all(client: Sitter) -> None:
    assert client.fill(f"{PAGE}/sheets").headers["location"] == f"{PAGE}#sheets"
    good, bad = filled(PLAN), filled(PLAN, {"Face": "splendid"}, learner="Łukasz Wójcik")
    sent = [("sheets", ("amara.xlsx", good)), ("sheets", ("łukasz.xlsx", bad))]
    refused = client.fill(f"{PAGE}/sheets", files=sent)
    assert refused.status_code == 422
    assert "łukasz.xlsx:4:1: Face: `splendid` is no grade" in words(refused.text)
    assert entered(client) == ()
    said = client.done(f"{PAGE}/sheets", files=[sent[0]])
    assert "2026-02-03: pass." in said
    assert [one.verdict for one in entered(client)] == ["pass"]
    assert (
        client.fill(f"{PAGE}/sheets", files=[("sheets", ("x.xlsx", b"PK\x03\x04 not a workbook"))]).status_code == 422
    )


def test_a_result_entered_by_mistake_is_withdrawn_for_a_reason(client: Sitter, form: dict[str, str]) -> None:
    client.done(f"{PAGE}/enter", form)
    [one] = entered(client)
    given = {"paper": one.code, "on": one.day}
    assert "for a reason: write it" in words(client.fill(f"{PAGE}/withdraw", {**given, "reason": ""}).text)
    said = client.done(f"{PAGE}/withdraw", {**given, "reason": "another learner's panel"})
    assert f"Withdrawn: {one.code}, 2026-02-03." in said
    assert entered(client) == ()
    assert "nothing is observed" in words(client.fill(f"{PAGE}/withdraw", {**given, "reason": "again"}).text)
