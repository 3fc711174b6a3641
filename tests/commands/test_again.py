"""`courseware again`: a sitting's folder made again from its record alone."""

from __future__ import annotations

import re
from pathlib import Path

from tests.commands.conftest import files, issue, only_folder, run


def test_a_sitting_made_again_from_its_record_alone_is_the_same_byte_for_byte(desk, tmp_path) -> None:
    folder = issue()
    Path("piers.yaml").unlink()
    Path("group-a.csv").unlink()
    made = run("again", str(folder / "sitting.json"), "--out", "second", "--jobs", "1")
    assert made.exit_code == 0, made.output
    assert files(only_folder(Path("second"))) == files(folder)


def test_a_sitting_changed_by_hand_is_refused(desk) -> None:
    folder = issue()
    sitting = (folder / "sitting.json").read_text(encoding="utf-8")
    for changed in (
        "{}", "[]", "nothing", sitting[:200], sitting.replace('"form": 1', '"form": 2'),
        sitting.replace("topic: Piers", "topic: Peirs"), sitting.replace('"answer": "', '"answer": "9'),
    ):  # fmt: skip
        assert changed != sitting
        Path("changed.json").write_text(changed, encoding="utf-8")
        done = run("again", "changed.json", "--out", "second")
        assert done.exit_code == 2, (changed[:80], done.output)
        assert not list(Path("second").glob("[!.]*"))


def test_editable_copies_are_made_beside_papers_and_keys_where_they_are_asked_for(desk) -> None:
    folder = issue("--word")
    copies = {name: content for name, content in files(folder).items() if name.endswith(".docx")}
    assert {name.removesuffix(".docx") for name in copies} == {
        name.removesuffix(".pdf") for name in files(folder) if re.search(r"/(paper|key)-.*\.pdf$", name)
    }
    made = run("again", str(folder), "--out", "second", "--word", "--jobs", "1")
    assert made.exit_code == 0, made.output
    assert files(only_folder(Path("second"))) == files(folder)
    plain = run("again", str(folder), "--out", "third", "--jobs", "1")
    assert plain.exit_code == 0, plain.output
    assert files(only_folder(Path("third"))) == {
        name: content for name, content in files(folder).items() if name not in copies
    }


def test_a_lost_paper_is_printed_again_alone_and_the_same(desk) -> None:
    folder = issue()
    lost = run("again", folder, "--for", "0014", "--out", "copies", "--jobs", "1")
    assert lost.exit_code == 0, lost.output
    made = files(only_folder(Path("copies")))
    assert {re.sub(r"[A-Z]{4}-[A-Z]{4}-[A-Z]", "CODE", name) for name in made} == {
        "for-learners/paper-CODE.pdf", "for-tutor/key-CODE.pdf", "sitting.json",
    }  # fmt: skip
    assert made.items() <= files(folder).items()
    unknown = run("again", folder, "--for", "nobody", "--out", "copies")
    assert (unknown.exit_code, "nobody" in unknown.output) == (2, True)
