"""Long work: one piece after another, with how far it is, and ended when it is asked to."""

from __future__ import annotations

import ast
import threading
import time
from pathlib import Path

from courseware.desk import pages
from courseware.desk.job_queue import Job, Jobs, Made, MadeFile
from courseware.files.bank_files import NotFound
from courseware.workflows.watch import Watch


def over(jobs: Jobs, id: str) -> Job:
    job = jobs.find(id)
    assert job is not None
    for _ in range(1000):
        if job.over:
            return job
        time.sleep(0.01)
    raise AssertionError("the work did not end")


def test_work_is_done_and_what_came_of_it_stays() -> None:
    jobs = Jobs()

    def work(watch: Watch) -> Made:
        watch.note("some are shared")
        with watch.progress("Printing", 3) as tell:
            tell(2)
        return Made(says="2 papers", files=(MadeFile(path=Path("a.pdf"), use="to hand out"),))

    job = over(jobs, jobs.start("Papers", work))
    assert (job.state, job.what, job.done, job.total, job.notes) == ("done", "Printing", 2, 3, ["some are shared"])
    assert job.made is not None
    assert job.made.says == "2 papers"


def test_pieces_of_work_wait_for_one_another_and_the_newest_is_listed_first() -> None:
    jobs, order, gate = Jobs(), [], threading.Event()

    def first(_: Watch) -> Made:
        gate.wait(10)
        order.append(1)
        return Made(says="")

    def second(_: Watch) -> Made:
        order.append(2)
        return Made(says="")

    ids = [jobs.start("first", first), jobs.start("second", second)]
    assert [job.title for job in jobs.all()] == ["second", "first"]
    gate.set()
    over(jobs, ids[1])
    assert order == [1, 2]


def test_work_aside_waits_only_for_other_work_aside() -> None:
    """A long proof holds up no printing, nor printing a proof."""
    jobs, gate = Jobs(), threading.Event()

    def held(_: Watch) -> Made:
        gate.wait(10)
        return Made(says="")

    def quick(_: Watch) -> Made:
        return Made(says="done meanwhile")

    jobs.start("a proof", held, aside=True)
    second = jobs.start("a second proof", quick, aside=True)
    assert over(jobs, jobs.start("papers", quick)).state == "done"
    assert jobs.find(second).state == "waiting"
    gate.set()
    assert over(jobs, second).state == "done"
    jobs.close()


def test_work_ends_at_its_next_step_once_it_is_asked_to() -> None:
    jobs, begun, gate = Jobs(), threading.Event(), threading.Event()

    def work(watch: Watch) -> Made:
        with watch.progress("Printing", 9) as tell:
            begun.set()
            gate.wait(10)
            tell(1)
        return Made(says="never")

    id = jobs.start("Papers", work)
    begun.wait(10)
    jobs.stop(id)
    gate.set()
    job = over(jobs, id)
    assert job.state == "stopped"
    assert job.made is None


def test_work_instead_of_earlier_work_of_its_title_stops_that_and_takes_its_place() -> None:
    jobs, begun, go_on = Jobs(), threading.Event(), threading.Event()

    def long(watch: Watch) -> Made:
        begun.set()
        go_on.wait(10)
        watch.note("one step more")
        return Made(says="too late")

    first = jobs.start("Proof", long, aside=True)
    begun.wait(10)
    old = jobs.find(first)
    assert old is not None
    second = jobs.start("Proof", lambda _: Made(says="proved"), aside=True, instead=True)
    go_on.set()
    new = over(jobs, second)
    assert (old.state, new.state) == ("stopped", "done")
    assert [job.id for job in jobs.all()] == [second]
    jobs.close()


def test_work_that_waits_is_stopped_before_it_begins() -> None:
    jobs, gate = Jobs(), threading.Event()

    def wait(_: Watch) -> Made:
        gate.wait(10)
        return Made(says="")

    jobs.start("first", wait)
    id = jobs.start("second", wait)
    jobs.stop(id)
    gate.set()
    assert over(jobs, id).state == "stopped"


def test_what_goes_wrong_is_one_plain_line_and_the_next_work_is_done(tmp_path, monkeypatch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    jobs = Jobs()

    def missing(_: Watch) -> Made:
        raise NotFound("there is no bank x")

    def faulty(_: Watch) -> Made:
        raise KeyError("x")

    assert over(jobs, jobs.start("a", missing)).trouble == "there is no bank x. Nothing was made."
    assert over(jobs, jobs.start("b", faulty)).trouble.startswith("This is a fault of the program (KeyError)")
    assert over(jobs, jobs.start("c", lambda _: Made(says="done"))).state == "done"


def test_closing_ends_what_is_going_on() -> None:
    jobs = Jobs()

    def work(watch: Watch) -> Made:
        while True:
            watch.note("on and on")
            time.sleep(0.005)

    id = jobs.start("for ever", work)
    jobs.close()
    assert over(jobs, id).state == "stopped"


def test_no_work_looks_at_the_desk_while_it_goes_on() -> None:
    """The tutor may work in another folder by then: what work needs is taken out of the desk before it starts."""
    seen = 0
    for path in sorted(Path(pages.__path__[0]).parent.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef) and "Watch" in {
                ast.unparse(a.annotation or a) for a in node.args.args
            }:
                seen += 1
                of_desk = {ast.unparse(one) for one in ast.walk(node) if ast.unparse(one).startswith("desk.")}
                assert of_desk <= {"desk.processes"}, (path.name, node.name)  # which stays as it is
    assert seen > 5
