"""Long work followed in the browser, and keys that are good on every page; without scripts by loading again."""

from __future__ import annotations

import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

from playwright.sync_api import expect

from courseware.desk.job_queue import Made
from courseware.workflows.watch import Watch


def test_work_is_followed_as_it_goes_on_and_a_reload_loses_nothing(
    open_desk: Callable[..., Any], tmp_path: Path
) -> None:
    page, desk = open_desk(tmp_path)
    on, end = threading.Event(), threading.Event()

    def work(watch: Watch) -> Made:
        with watch.progress("Printing", 8) as tell:
            tell(3)
            on.wait(60)
            tell(2)
            end.wait(60)
        return Made(says="4 papers and keys.")

    page.goto(f"{desk.address.origin}/work/{desk.jobs.start('Papers for Group A', work)}")
    figures = page.locator("#figures")
    expect(figures).to_have_text("3 of 8")
    page.reload()
    expect(figures).to_have_text("3 of 8")
    on.set()
    expect(figures).to_have_text("5 of 8")
    expect(page.locator("#what")).to_have_text("Printing")
    end.set()
    expect(page.get_by_text("4 papers and keys.")).to_be_visible()
    page.wait_for_load_state()  # the page of what came of it, with its script
    page.keyboard.press("?")
    expect(page.get_by_role("dialog", name="Keys")).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_have_count(0)
    page.goto(f"{desk.address.origin}/settings")
    page.get_by_label("Your name").fill("Who?")
    page.get_by_label("Your name").press("?")
    expect(page.get_by_role("dialog")).to_have_count(0)  # a question mark that is typed is a letter


def test_without_scripts_work_is_stopped_and_looked_at_again_by_plain_links_and_buttons(
    open_desk: Callable[..., Any], tmp_path: Path
) -> None:
    page, desk = open_desk(tmp_path, java_script_enabled=False)
    end = threading.Event()

    def work(watch: Watch) -> Made:
        with watch.progress("Printing", 8) as tell:
            tell(3)
            end.wait(60)
            tell(1)
        return Made(says="never")

    page.goto(f"{desk.address.origin}/work/{desk.jobs.start('Papers for Group A', work)}")
    page.get_by_role("link", name="Look again").click()
    expect(page.locator("#figures")).to_have_text("3 of 8")
    page.get_by_role("button", name="Stop this work").click()
    expect(page.get_by_role("button", name="Stopping")).to_be_disabled()
    end.set()
    for job in desk.jobs.all():
        while not job.over:
            page.wait_for_timeout(20)
    page.reload()
    expect(page.get_by_text("Stopped, as you asked.")).to_be_visible()
