"""Observation sheets taken in beside written papers, with photographs by name and hash."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from pathlib import Path

import pytest

from courseware.database.observations import observations_of
from courseware.database.opening import open_record
from courseware.database.written_files import files_written
from courseware.files.bank_files import NotFound
from courseware.jobs.observation import ObservationFaulty, TypedObservation
from courseware.jobs.plan import plan_of
from courseware.settings.settings import DEFAULTS, Settings
from courseware.spreadsheets.rows import TableFaulty
from courseware.workflows.jobs import find_job
from courseware.workflows.observe import observe_sheets, observe_typed
from tests.jobs.filled_sheet import filled

JOB = "porch-panel"


@pytest.fixture
def engine(place):
    engine = open_record("sqlite:///output/record.sqlite")
    yield engine
    engine.dispose()


def sheet(name: str = "amara.xlsx", *given: object, **about: object) -> str:
    Path(name).write_bytes(filled(plan_of(find_job(JOB)), *given, **about))
    return name


def test_a_sheet_stands_beside_its_learners_papers(engine, place) -> None:
    [kept] = observe_sheets(engine, JOB, [sheet()], DEFAULTS)
    assert (kept.is_new, kept.observation.code) == (True, place.sitting.papers[0].code)
    assert (kept.observation.job, kept.observation.verdict) == (JOB, "pass")
    assert observations_of(engine) == (kept.observation,)


def test_pass_or_fail_goes_by_the_centres_profile(engine) -> None:
    """Training bench allows 3 mm of a size, NHBC's profile 5: 4 mm is between them."""
    own = Settings(tolerances="Training bench")
    Path("own.xlsx").write_bytes(filled(plan_of(find_job(JOB, own)), {"Panel, height": 669}))
    [kept] = observe_sheets(engine, JOB, ["own.xlsx"], own)
    assert kept.observation.verdict == "fail"
    with pytest.raises(
        TableFaulty, match=r"own.xlsx:2:1: Width of the opening: the sheet has 685 ± 3, the job 685 ± 5"
    ):
        observe_sheets(engine, JOB, ["own.xlsx"], DEFAULTS)


def test_of_several_sheets_all_are_sound_or_none_is_entered(engine) -> None:
    names = [sheet(), sheet("second.xlsx", {"Face": "splendid"}, learner="Łukasz Wójcik")]
    with pytest.raises(TableFaulty, match=r"second.xlsx:4:1: Face: `splendid` is no grade"):
        observe_sheets(engine, JOB, names, DEFAULTS)
    assert observations_of(engine) == ()


def test_the_sheet_of_another_job_is_refused(engine) -> None:
    Path("gable.xlsx").write_bytes(filled(plan_of(find_job("gable-panel"))))
    with pytest.raises(TableFaulty, match="this is the sheet of the job"):
        observe_sheets(engine, JOB, ["gable.xlsx"], DEFAULTS)


def test_photographs_are_named_and_hashed_and_copied_only_when_asked(engine, place) -> None:
    Path("pictures").mkdir()
    Path("pictures/face.JPG").write_bytes(b"a picture")
    name = sheet("amara.xlsx", {}, (("pictures/face.JPG", "the face"),))
    [kept] = observe_sheets(engine, JOB, [name], DEFAULTS)
    [photo] = kept.observation.photos
    assert photo.sha256 == hashlib.sha256(b"a picture").hexdigest()
    assert photo.file == str(Path("pictures/face.JPG").resolve())
    assert not Path("output/photographs").exists()
    observe_sheets(engine, JOB, [name], DEFAULTS, copies=Path("output/photographs"))
    copy = Path(f"output/photographs/{kept.observation.code}-{JOB}-2026-02-03-1.jpg")
    assert copy.read_bytes() == b"a picture"
    assert copy.stat().st_mode & 0o777 == 0o600
    [noted] = [one for one in files_written(engine) if one.path == copy.resolve()]
    assert noted.codes == (kept.observation.code,)  # so that it goes with its learner


@pytest.mark.parametrize(
    ("file", "says"),
    [
        ("../secret.jpg", "is not in the folder of the sheet"), ("/etc/hostname", "is not in the folder of the sheet"),
        ("link.jpg", "is not in the folder of the sheet"), ("missing.jpg", "is not there"), ("notes.txt", "is no photograph"),
        ("folder.jpg", "is not there"), ("a\u202e.jpg", "with unseen characters"), ("x" * 300 + ".jpg", "at too great a length"),
    ],
)  # fmt: skip
def test_a_sheet_names_no_file_but_photographs_in_its_folder(engine, tmp_path_factory, file: str, says: str) -> None:
    elsewhere = tmp_path_factory.mktemp("elsewhere") / "secret.jpg"
    elsewhere.write_bytes(b"secret")
    Path("link.jpg").symlink_to(elsewhere)
    Path("notes.txt").write_bytes(b"notes")
    Path("folder.jpg").mkdir()
    sheet("amara.xlsx", {}, ((file, ""),))
    with pytest.raises(TableFaulty) as wrong:
        observe_sheets(engine, JOB, ["amara.xlsx"], DEFAULTS)
    assert "amara.xlsx, photographs:2:1:" in str(wrong.value)
    assert says in str(wrong.value)


def test_what_a_form_gives_is_entered_as_a_sheet_is(engine, place) -> None:
    lines = {"Panel, width": "440", "Face": "enough"}
    typed = TypedObservation(learner=place.sitting.papers[1].code, by="J. Marsh", day="2026-02-03", lines=lines)
    kept = observe_typed(engine, JOB, typed, DEFAULTS)
    assert (kept.observation.code, kept.observation.verdict) == (place.sitting.papers[1].code, "open")
    with pytest.raises(ObservationFaulty, match="Face: `splendid`"):
        observe_typed(engine, JOB, replace(typed, lines={"Face": "splendid"}), DEFAULTS)


def test_a_job_that_is_not_there_is_told(engine) -> None:
    with pytest.raises(NotFound, match="there is no job porch"):
        observe_sheets(engine, "porch", [sheet()], DEFAULTS)
