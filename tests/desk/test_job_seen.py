"""What a job's page shows: the drawings and figures of its sheets, its cautions, or what would work."""

from __future__ import annotations

import xml.etree.ElementTree as ET

from courseware.desk.job_seen import job_seen, nearest
from courseware.files.bank_files import shipped_notes
from courseware.jobs.plan import plan_of
from courseware.jobs.sheets import job_sheets
from courseware.jobs.tried import try_job
from courseware.settings.settings import DEFAULTS
from tests.jobs.a_panel import JOB, PROFILES


def test_the_page_says_what_the_sheets_say() -> None:
    """Four bricks wide are 910 mm, brick to brick: Sheet 9, Table 1, CO + Joint."""
    tried = try_job(JOB, "job.yaml", PROFILES, DEFAULTS)
    seen = job_seen(tried)
    labels = {text.text for text in ET.fromstring(seen.elevation).iter("{http://www.w3.org/2000/svg}text")}
    assert "910" in labels
    assert ("Width of the opening, brick to brick", "910 mm") in seen.figures
    sheets = {sheet.file: sheet for sheet in job_sheets(plan_of(tried.task), shipped_notes(), "2026-01-05")}
    printed = {text for block in sheets["risk-prompts"].blocks for text in (block.heading, *block.text)}
    for title, says in seen.cautions[:-1]:
        assert {title, says} <= printed
    assert seen.cautions[-1][1] in printed
    assert set(seen.steps) <= {step for block in sheets["job-sheet"].blocks for step in block.steps}
    assert (seen.told, seen.instead) == ((), ())


def test_a_job_that_cannot_be_has_no_drawing_but_a_way_out() -> None:
    seen = job_seen(try_job(JOB.replace("courses: 15", "courses: 14"), "job.yaml", PROFILES, DEFAULTS))
    assert seen.elevation == ""
    [(about, says)] = seen.told
    assert about == "The opening"
    assert "courses go in threes" in says
    assert seen.instead


def test_an_opening_measured_on_site_has_its_nearest_in_brickwork() -> None:
    """Sheet 9, Table 1, CO + Joint: three bricks are 685 mm, four 910 mm; 12 courses of 75 mm and a bed are 910 mm."""
    assert nearest({"measured.wide": "900", "measured.high": "910"}, "UK_METRIC") == (
        ("opening.bricks", "3", "Opening, wide: 3 bricks, 685 mm, 215 mm less"),
        ("opening.bricks", "4", "Opening, wide: 4 bricks, 910 mm, 10 mm more"),
        ("opening.courses", "12", "Opening, high: 12 courses, 910 mm, as measured"),
    )
    for strange in ("", "0", "-5", "1e9", "99999", "x", "9" * 200):
        assert nearest({"measured.wide": strange}, "UK_METRIC") == ()
    assert nearest({"measured.wide": "900"}, "AUSTRALIAN") == ()
