"""A second marker's work by keyboard alone: marks in the grid, what two gave differently settled; looked over by axe."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from playwright.sync_api import expect

from courseware.database.given_marks import given_marks
from courseware.database.opening import open_record
from courseware.files.sitting_folders import read_folder
from tests.desk.pages.test_jobs_in_a_browser import to
from tests.desk.pages.test_marking_in_a_browser import saved


def test_two_who_mark_by_hand_settle_what_they_gave_differently(
    open_desk: Callable[..., Any], axe_finds: Callable[[Any], list[str]], work: Path
) -> None:
    [folder] = work.glob("output/2026-01-05*")
    code = read_folder(folder).sitting.code
    page, desk = open_desk(work, viewport={"width": 1280, "height": 800})
    address = f"{desk.address.origin}/sittings/{code}/second"
    faults = []
    for who, marks in (("P. Dunn", "1 no unit"), ("R. Holt", "*")):
        page.goto(f"{desk.address.origin}/settings")
        page.locator("[name=who]").fill(who)
        page.keyboard.press("Enter")
        expect(page.locator(".notes")).to_contain_text(who)
        page.goto(address)
        expect(page.locator("#reading")).to_contain_text("0 to 2")
        page.keyboard.type(marks)
        if marks != "*":
            expect(page.locator("#reading")).to_have_text("1 mark: no unit")
            page.keyboard.press("Enter")
        page.keyboard.type("*")
        saved(page)
        faults += axe_finds(page)
    engine = open_record(f"sqlite:///{work / 'output/record.sqlite'}")
    given = [(one.by, one.label, one.marks, one.note) for one in given_marks(engine, code, "second")]
    engine.dispose()
    assert [one[:1] + one[2:] for one in given if one[1] == "1a"] == [("P. Dunn", 1, "no unit"), ("R. Holt", 2, "")]
    page.goto(f"{address}/differences")
    faults += axe_finds(page)
    to(page, "Marks agreed, of 2")
    page.keyboard.type("2")
    page.keyboard.press("Tab")
    page.keyboard.type("The question gives the unit")
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_contain_text("2 marks by R. Holt: The question gives the unit")
    page.set_viewport_size({"width": 360, "height": 740})
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert faults == []
