"""An assessor's work from the first page to the class picture by keyboard alone; every page of it looked over."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from courseware.database.opening import open_record
from courseware.database.scripts import scripts_of
from courseware.files.sitting_folders import sitting_folder
from courseware.marking.invented_scripts import invented_scripts
from courseware.marking.marks import Script
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import write_sitting
from courseware.workflows.marking import marked_as_it_stands
from courseware.workflows.seeing import class_on_screen
from tests.desk.conftest import Sitter
from tests.desk.pages.test_jobs_in_a_browser import to


@pytest.fixture
def seven(class_of, tmp_path: Path) -> tuple[Path, Sitting]:
    """A folder of work with a sitting of seven papers, nothing typed in yet."""
    sitting = class_of(7, exercises=3).sitting
    folder = tmp_path / "work" / "output" / "sitting"
    folder.mkdir(parents=True)
    (folder / "sitting.json").write_text(write_sitting(sitting), encoding="utf-8")
    return tmp_path / "work", sitting


def filled(script: Script) -> dict[str, str]:
    """What stands in a script's cells; nothing in an absent learner's."""
    return {} if script.status == "absent" else {label: text for label, text in script.cells.items() if text}


def saved(page: Any) -> None:
    expect(page.locator("#saved")).to_have_text("All saved")
    expect(page.locator("#grid td.unsaved")).to_have_count(0)


def go_to(page: Any, name: str, heading: str) -> None:
    """Follows a link or button by keyboard, to the page with that heading."""
    to(page, name)
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_contain_text(heading)


def walk_to_the_ends(page: Any, sitting: Sitting) -> None:
    """From the first cell left to the status and no further; to the last cell; Tab goes to what stands beside it."""
    page.keyboard.press("Control+Home")
    for _ in range(3):
        page.keyboard.press("ArrowLeft")
    expect(page.locator("input:focus")).to_have_accessible_name(f"{sitting.papers[0].code}, status")
    page.keyboard.press("Control+End")
    last = sitting.papers[-1]
    expect(page.locator("input:focus")).to_have_accessible_name(f"{last.code}, {last.parts[-1].label}")
    expect(page.locator("#beside h2")).to_contain_text(f"{last.code}, {last.parts[-1].label}")
    page.keyboard.press("Tab")
    expect(page.locator("#beside :focus")).to_have_text("The whole script")
    page.keyboard.press("Shift+Tab")


def type_in(page: Any, sitting: Sitting, scripts: Mapping[str, Script]) -> None:
    """One script after another: Enter goes on to the next part, and from the last one to the next learner."""
    for paper in sitting.papers:
        script = scripts.get(paper.code, Script(code=paper.code, cells={}))
        if script.status:
            page.keyboard.press("ArrowLeft")
            page.keyboard.type(script.status[0])
            page.keyboard.press("ArrowDown" if script.status == "absent" else "ArrowRight")
        if script.status == "absent":
            page.keyboard.press("ArrowRight")
            continue
        for part in paper.parts:
            text = script.cells.get(part.label, "")
            page.keyboard.type("*" if text == "nr" else text)
            if text != "nr":
                page.keyboard.press("Enter")


def settle_all(page: Any, waiting: int) -> None:
    """Each answer that waits gets no marks, with a reason; Enter decides and goes on to the next."""
    for left in range(waiting, 0, -1):
        expect(page.get_by_role("link", name=f"All that waits ({left})")).to_be_visible()
        to(page, page.locator("label", has_text="Marks, of").inner_text())
        page.keyboard.type("0")
        page.keyboard.press("Tab")
        page.keyboard.type("Nothing to be seen")
        page.keyboard.press("Enter")
    expect(page.locator("main")).to_contain_text("Nothing waits")


def test_an_assessor_marks_a_class_of_seven_by_keyboard_alone(
    open_desk: Callable[..., Any], axe_finds: Callable[[Any], list[str]], seven: tuple[Path, Sitting]
) -> None:
    folder, sitting = seven
    scripts = {script.code: script for script in invented_scripts(sitting)}
    where = sitting_folder(str(folder / "output" / "sitting"))
    page, _ = open_desk(folder, viewport={"width": 1280, "height": 800})
    go_to(page, "Mark", "Mark")
    go_to(page, sitting.title, sitting.title)
    expect(page.locator("#reading")).to_be_visible()
    type_in(page, sitting, scripts)
    saved(page)
    walk_to_the_ends(page, sitting)
    engine = open_record(f"sqlite:///{folder / 'output/record.sqlite'}")
    kept = {one.code: (one.status, filled(one)) for one in scripts_of(engine, sitting.code, "first")}
    assert kept == {code: (one.status, filled(one)) for code, one in scripts.items()}
    faults = axe_finds(page)
    go_to(page, "What waits for a look", "What waits for a look")
    faults += axe_finds(page)
    waiting = page.locator("tbody tr").count()
    assert waiting
    go_to(page, "Look at one after another", ", ")
    faults += axe_finds(page)
    settle_all(page, waiting)
    assert not any(paper.provisional for paper in marked_as_it_stands(engine, where, "first").papers)
    go_to(page, "Class picture", "Class picture")
    expect(page.locator(".heat tbody tr")).to_have_count(len(class_on_screen(engine, where).figures.codes))
    faults += axe_finds(page)
    engine.dispose()
    code = page.locator(".heat tbody a").first.inner_text()
    go_to(page, code, code)
    faults += axe_finds(page)
    assert faults == []


def test_two_windows_on_a_phones_width_lose_nothing_to_each_other(
    open_desk: Callable[..., Any], axe_finds: Callable[[Any], list[str]], seven: tuple[Path, Sitting]
) -> None:
    """The reading is shown while it is typed; the same cell typed otherwise in a second window is told in both."""
    folder, sitting = seven
    page, desk = open_desk(folder, viewport={"width": 360, "height": 740})
    address = f"{desk.address.origin}/sittings/{sitting.code}/grid"
    page.goto(address)
    other = page.context.new_page()
    other.goto(address)
    places = [place for place, part in enumerate(sitting.papers[0].parts) if part.unit == "mm"]
    part = sitting.papers[0].parts[places[0]]
    page.bring_to_front()
    for _ in range(places[0]):
        page.keyboard.press("Enter")
    page.keyboard.type(f"{int(part.answer) / 1000} m")
    expect(page.locator("#reading")).to_contain_text(f"= {part.answer} mm ✓")
    page.keyboard.press("Enter")
    saved(page)
    other.bring_to_front()
    for _ in range(places[0]):
        other.keyboard.press("Enter")
    other.keyboard.type("7")
    other.keyboard.press("ArrowDown")
    expect(other.locator("#others")).to_contain_text("typed 7 without having seen it")
    expect(other.locator("#grid td.otherwise")).to_have_count(1)
    page.bring_to_front()
    expect(page.locator("#others")).to_contain_text("typed 7 without having seen it")
    faults = axe_finds(page)
    page.keyboard.type("*")
    page.keyboard.press("ArrowUp")
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    go_to(page, f"{sitting.papers[0].code}, {part.label}", sitting.papers[0].code)
    to(page, "7 is right")
    page.keyboard.press("Enter")
    expect(page.locator(".notes")).to_have_text(f"Settled: {part.label} is 7.")
    for way in (
        "grid",
        "waiting",
        f"waiting/{sitting.papers[0].code}/1a",
        "picture",
        f"learners/{sitting.papers[0].code}",
        "board/0",
    ):
        page.goto(f"{desk.address.origin}/sittings/{sitting.code}/{way}")
        assert page.evaluate("document.documentElement.scrollWidth") <= 360, way
    faults += axe_finds(page)
    assert faults == []


def test_without_scripts_a_learner_is_typed_in_by_a_form(
    open_desk: Callable[..., Any], seven: tuple[Path, Sitting]
) -> None:
    folder, sitting = seven
    page, desk = open_desk(folder, java_script_enabled=False)
    page.goto(f"{desk.address.origin}/sittings/{sitting.code}/grid")
    page.get_by_role("link", name=sitting.papers[0].code, exact=True).click()
    page.locator("#cell-1a").fill(sitting.papers[0].parts[0].answer)
    page.get_by_role("button", name="Save, and on to the next learner").click()
    expect(page.locator(".notes")).to_have_text("1 cell saved.")
    expect(page.locator("h1")).to_have_text(sitting.papers[1].code)


def test_the_pages_are_sound_html(
    client: Sitter, work: Path, html_validate: Callable[..., str], tmp_path: Path
) -> None:
    marked, blank = (sitting_folder(str(path)).sitting for path in sorted(work.glob("output/2026-*")))
    code = marked.papers[0].code
    pages = ["/mark", "/see"] + [
        f"/sittings/{sitting.code}/{way}" for sitting in (marked, blank) for way in ("grid", "waiting", "picture")
    ]
    pages += [
        f"/sittings/{marked.code}/{way}"
        for way in (f"grid/{code}/1", f"learners/{code}", "board/0", f"waiting/{code}/1a")
    ]
    files = []
    for number, way in enumerate(pages):
        answer = client.get(way)
        assert answer.status_code == 200, way
        files.append(tmp_path / f"page-{number}.html")
        files[-1].write_text(answer.text, encoding="utf-8")
    assert html_validate(*files) == ""
    shutil.rmtree(work)
