"""Papers set and issued at the desk: the sitting is the command's own. Learners are invented."""

from __future__ import annotations

import re
import threading
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest
from click.testing import CliRunner

from courseware.cli import main
from courseware.desk.job_queue import Made
from courseware.files.sitting_files import TUTOR
from courseware.files.sitting_folders import read_folder
from courseware.settings.settings import DEFAULTS
from courseware.workflows.papers_begun import begun, issue_begun
from courseware.workflows.watch import Tell
from tests.desk.conftest import Sitter, finished, words
from tests.desk.making import LENGTH, LIST, kept, newly_begun
from tests.workflows.conftest import Heard

SETTINGS = {
    "title": "Piers", "date": "2026-03-02", "due": "2026-03-09", "group_name": "Group C", "seed": "a seed",
    "size": "large-14", "more": "cream", "exercises": "",
}  # fmt: skip


class Killed(BaseException):
    """What ends a run in the middle."""


def test_settings_are_kept_and_shown_again(client: Sitter, work: Path) -> None:
    key = newly_begun(work, learners=2, picks=(LENGTH,))
    assert "about" in client.done(f"/papers/{key}/settings/save", SETTINGS | {"roomy": "1", "word": "1"})
    papers = kept(work, key)
    assert (papers.title, papers.due, papers.sheets, papers.word) == (
        "Piers",
        "2026-03-09",
        "large-14 cream roomy",
        True,
    )
    shown = client.get(f"/papers/{key}/settings").text
    assert 'value="large-14" checked' in shown
    assert 'name="more" type="text" value="cream"' in shown
    assert 'name="roomy" value="1" checked' in shown


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"date": "2.3.2026"}, "Write the date as 2026-11-25."),
        ({"due": "2026-03-01"}, "This is before the day of the papers."),
        ({"more": "huge"}, "not a word for a paper's format"),
        ({"more": "large-18"}, "says again"),
        ({"title": "x" * 101}, "at most 100 characters"),
    ],
)
def test_what_cannot_be_is_told_at_its_place_and_nothing_typed_is_lost(
    client: Sitter, work: Path, changed: dict[str, str], says: str
) -> None:
    key = newly_begun(work, learners=2)
    refused = client.fill(f"/papers/{key}/settings/save", SETTINGS | {"title": "My title"} | changed)
    assert refused.status_code == 422
    assert says in words(refused.text)
    assert (changed.get("title") or "My title") in refused.text
    assert kept(work, key).title == ""


def test_what_is_missing_is_shown_with_the_way_to_it(client: Sitter, work: Path) -> None:
    key = newly_begun(work)
    shown = client.get(f"/papers/{key}/ready").text
    assert f'href="/papers/{key}/who">Say who gets papers.' in shown
    assert "Make the papers</button>" not in shown
    assert client.fill(f"/papers/{key}/issue").headers["location"] == f"/papers/{key}/ready"


def test_levels_are_offered_where_every_learner_has_one(client: Sitter, work: Path) -> None:
    key = newly_begun(work, picks=(LENGTH,))
    client.done(f"/papers/{key}/who/list", files={"list": ("b.csv", b"Name,Level\nAmara Okafor,1\n")})
    assert "To each learner their own level" in words(client.get(f"/papers/{key}/settings").text)
    refused = client.fill(f"/papers/{key}/settings/save", SETTINGS | {"by_level": "1", "exercises": "41"})
    assert "from 1 to 40" in words(refused.text)
    client.done(f"/papers/{key}/settings/save", SETTINGS | {"by_level": "1", "exercises": "1"})
    assert (kept(work, key).by_level, kept(work, key).exercises) == (True, 1)


def test_papers_issued_at_the_desk_are_the_commands_own_byte_for_byte(
    client: Sitter, work: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    key = newly_begun(work, picks=(LENGTH,))
    good = LIST.replace(b"huge", b"")
    client.done(f"/papers/{key}/who/list", files={"list": ("group-c.csv", good)})
    client.done(f"/papers/{key}/settings/save", SETTINGS)
    done = finished(client, client.fill(f"/papers/{key}/issue"))
    assert "2 papers made, each with its key." in done
    assert "Print this for Group C." in done
    assert begun(work) == ()
    monkeypatch.chdir(work)
    Path("group-c.csv").write_bytes(good)
    command = [
        "issue", "banks/piers.yaml", "--pick", "pier-length", "--group", "group-c.csv", "--group-name", "Group C",
        "--title", "Piers", "--date", "2026-03-02", "--due", "2026-03-09", "--seed", "a seed", "--format",
        "large-14 cream", "--jobs", "1", "--out", "by-command",
    ]  # fmt: skip
    made = CliRunner().invoke(main, command)
    assert made.exit_code == 0, made.output
    [own], [commands] = work.glob("output/2026-03-02*"), work.glob("by-command/2026-03-02*")
    files = {file.relative_to(commands): file.read_bytes() for file in commands.rglob("*") if file.is_file()}
    assert {file.relative_to(own): file.read_bytes() for file in own.rglob("*") if file.is_file()} == files
    assert (own / TUTOR).stat().st_mode & 0o077 == 0


def test_papers_asked_for_twice_are_made_once(client: Sitter, work: Path) -> None:
    """As by a double click: the second goes to the work that the first began."""
    held, free = threading.Event(), threading.Event()

    def busy(_: object) -> Made:
        held.set()
        assert free.wait(30)
        return Made(says="")

    client.desk.jobs.start("Other work", busy)
    assert held.wait(30)
    key = newly_begun(work, learners=1, picks=(LENGTH,), date="2026-03-02")
    first, second = (client.fill(f"/papers/{key}/issue") for _ in range(2))
    assert first.headers["location"] == second.headers["location"]
    free.set()
    assert "1 paper made" in finished(client, second)
    assert len(list((work / "output").glob("2026-03-02*"))) == 1


def test_papers_that_were_made_already_are_told_of_before_they_are_made_again(client: Sitter, work: Path) -> None:
    chosen = {"learners": 1, "picks": (LENGTH,), "date": "2026-02-02", "title": "Piers"}
    told = "have been made already"
    assert told not in words(client.get(f"/papers/{newly_begun(work, **chosen)}/ready").text)
    shown = client.get(f"/papers/{newly_begun(work, **chosen, group_name='Group B')}/ready").text
    [code] = re.findall(rf'href="/sittings/([^"]+)">{told}', shown)
    assert client.get(f"/sittings/{code}").status_code == 200


def test_what_goes_wrong_is_told_in_a_line_and_what_was_chosen_stays(client: Sitter, work: Path) -> None:
    key = newly_begun(work, learners=1, picks=(LENGTH,))
    bank = work / "banks" / "piers.yaml"
    bank.write_text(bank.read_text(encoding="utf-8").replace("answer: pier(bricks)", "answer: 5"), encoding="utf-8")
    done = finished(client, client.fill(f"/papers/{key}/issue"))
    assert "A bank that fails its proof is not issued; nothing was made." in done
    assert kept(work, key).picks == (LENGTH,)


def test_work_that_was_stopped_is_gone_on_with_when_the_papers_are_made_again(client: Sitter, work: Path) -> None:
    """As after a kill: what was begun is still there, and so are the sheets that were finished."""
    key = newly_begun(work, learners=3, picks=(LENGTH,), date="2026-03-02")

    class StopsAfterOne(Heard):
        def progress(self, what: str, total: int) -> AbstractContextManager[Tell]:
            return self.stopping() if what == "Printing" else super().progress(what, total)

        @contextmanager
        def stopping(self) -> Iterator[Tell]:
            def tell(more: int) -> None:
                if more:
                    raise Killed

            yield tell

    with pytest.raises(Killed):
        issue_begun(work, key, work / "output", DEFAULTS, 1, StopsAfterOne(), by="J. Marsh")
    assert not list((work / "output").glob("2026-03-02*"))
    done = finished(client, client.fill(f"/papers/{key}/issue"))
    assert "3 papers made, each with its key. It went on from work that had been stopped." in done


def test_a_centre_that_wants_approval_has_papers_dealt_and_printed_once_they_are_approved(
    client: Sitter, work: Path
) -> None:
    (work / "centre.yaml").write_text("approval: required\n", encoding="utf-8")
    key = newly_begun(work, learners=1, picks=(LENGTH,), date="2026-03-02")
    assert "Make the papers</button>" not in client.get(f"/papers/{key}/ready").text
    dealt = finished(client, client.fill(f"/papers/{key}/issue", {"do": "for-approval"}))
    assert "1 paper dealt, none printed yet." in dealt
    shown = client.get("/papers").text
    assert "1 paper, dealt and not printed" in words(shown)
    [handle] = re.findall(r'name="dealt" value="([0-9a-f]+)"', shown)
    assert "Write who approved them" in client.done("/papers/approved", {"dealt": handle, "approved_by": " "})
    printed = finished(client, client.fill("/papers/approved", {"dealt": handle, "approved_by": "Q. Field"}))
    assert "1 paper made, each with its key." in printed
    [folder] = (work / "output").glob("2026-03-02*")
    assert read_folder(folder).sitting.approved_by == "Q. Field"
    assert "any more" in client.done("/papers/approved", {"dealt": handle, "approved_by": "Q. Field"})
    assert "any more" in client.done("/papers/approved", {"dealt": "/etc", "approved_by": "Q. Field"})
