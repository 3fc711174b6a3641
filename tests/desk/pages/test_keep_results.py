"""Results of a sample: looked at, entered as the command enters them, and actions listed until somebody closes them."""

from __future__ import annotations

import re
from pathlib import Path

from courseware.database.sample_results import results_of
from courseware.files.record_location import opened
from courseware.quality.sample_results import SampleResult
from courseware.settings.settings import DEFAULTS
from courseware.workflows.quality import sample, sittings_meant
from tests.desk.conftest import Sitter, desk_over, words
from tests.workflows.filled_marks import filled_in


def stand(client: Sitter) -> list[SampleResult]:
    with opened(client.desk.record(), make=False) as engine:
        return list(results_of(engine))


def drawn(client: Sitter) -> Path:
    """The workbook of a sample of all that is marked."""
    with opened(client.desk.record(), make=False) as engine:
        found = sample(
            engine, sittings_meant(engine, ()), 2, DEFAULTS, seed="seed", pass_lines=(), names=False,
            out=client.desk.out, day="2026-01-25",
        )  # fmt: skip
    return found.files[1]


def test_without_any_it_is_said_what_to_do_first(tmp_path: Path) -> None:
    sitter = Sitter(desk_over(tmp_path)).come_in()
    assert "fill in its workbook" in words(sitter.get("/keep/results").text)


def test_a_workbook_is_looked_at_before_it_is_entered_and_its_action_stands_until_it_is_closed(client: Sitter) -> None:
    plan = drawn(client)
    code = filled_in(plan)
    looked = client.fill("/keep/results/look", files={"plan": ("Plan.xlsx", plan.read_bytes())}).text
    assert "1 result new, 0 changed, 0 there already" in words(looked)
    assert stand(client) == []
    [sheet] = re.findall(r'name="sheet" value="(\w+)"', looked)
    told = client.done("/keep/results/enter", {"sheet": sheet})
    assert "1 result new, 0 changed: entered." in told
    assert "Mark 1a again" in told
    [asked] = stand(client)
    early = client.fill("/keep/results/close", {"paper": code, "plan": asked.plan, "day": "2026-01-01", "note": "x"})
    assert (early.status_code, "Nothing was closed" in words(early.text)) == (422, True)
    closing = {"paper": code, "plan": asked.plan, "day": "2026-02-03", "note": "marked again"}
    assert f"The action on {code} is closed." in client.done("/keep/results/close", closing)
    assert [(one.done, one.note) for one in stand(client)] == [("2026-02-03", "marked again")]


def test_what_is_no_plan_is_told_and_nothing_is_entered(client: Sitter) -> None:
    for files in ({"plan": ("Plan.csv", b"Name\nAmara\n")}, {"plan": ("Plan.xlsx", b"no workbook")}, {}):
        refused = client.fill("/keep/results/look", files=files or {"other": ("a.csv", b"")})
        assert refused.status_code == 422, refused.text
    assert client.fill("/keep/results/enter", {"sheet": "unknown"}).status_code == 422
    assert stand(client) == []
