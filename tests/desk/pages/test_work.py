"""Long work on its page: how far it is, what came of it, stopped by a button."""

from __future__ import annotations

import json
import threading
from pathlib import Path

from courseware.desk.job_queue import Made, MadeFile
from courseware.workflows.watch import Watch
from tests.desk.conftest import Sitter, finished, words


def start(client: Sitter, work, title: str = "Papers for Group A"):
    id = client.desk.jobs.start(title, work)

    class Answer:
        status_code, headers, text = 303, {"location": f"/work/{id}"}, ""

    return Answer()


def test_what_came_of_it_is_shown_with_its_files(client: Sitter, work: Path) -> None:
    made = Made(
        says="4 papers made.",
        files=(MadeFile(path=work / "piers.yaml", use="the bank"),),
        onward=(("To the settings", "/settings"),),
    )
    shown = finished(client, start(client, lambda _: made))
    assert "Papers for Group A 4 papers made." in shown
    assert "piers.yaml the bank" in shown
    assert "To the settings" in shown
    assert "Papers for Group A done" in words(client.get("/work").text)


def test_it_is_followed_while_it_goes_on_and_stopped(client: Sitter) -> None:
    begun, gate = threading.Event(), threading.Event()

    def work(watch: Watch) -> Made:
        with watch.progress("Printing", 8) as tell:
            tell(3)
            begun.set()
            gate.wait(10)
            tell(1)
        return Made(says="never")

    answer = start(client, work)
    begun.wait(10)
    address = answer.headers["location"]
    assert "3 of 8" in words(client.get(address).text)
    assert "Papers for Group A" in words(client.get("/").text)
    assert client.fill(f"{address}/stop").headers["location"] == address
    assert "Stopping" in words(client.get(address).text)
    gate.set()
    assert "Stopped, as you asked" in finished(client, answer)


def test_events_tell_how_far_it_is_and_end_with_it(client: Sitter) -> None:
    answer = start(client, lambda _: Made(says="done"))
    finished(client, answer)
    told = client.get(f"{answer.headers['location']}/events")
    assert told.headers["content-type"].startswith("text/event-stream")
    last = json.loads(told.text.strip().split("data: ")[-1])
    assert last["state"] == "done"


def test_work_of_an_earlier_start_is_not_there(client: Sitter) -> None:
    assert client.get("/work/0123456789abcdef").status_code == 404
    assert client.fill("/work/0123456789abcdef/stop").status_code == 404
