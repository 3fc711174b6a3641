"""Where the record is: what was asked for, else the environment's, else a file in the output folder."""

from pathlib import Path

import pytest

from courseware.database.errors import RecordFaulty
from courseware.files.bank_files import NotFound
from courseware.files.record_location import VARIABLE, opened, record_file, record_url, where_there

OUT = Path("output")


@pytest.mark.parametrize(
    ("asked", "environment", "address"),
    [
        (None, {}, "sqlite:///output/record.sqlite"),
        (None, {VARIABLE: ""}, "sqlite:///output/record.sqlite"),
        ("  ", {VARIABLE: "\t"}, "sqlite:///output/record.sqlite"),
        (" own.sqlite ", {}, "sqlite:///own.sqlite"),
        (None, {VARIABLE: "/srv/college.sqlite"}, "sqlite:////srv/college.sqlite"),
        (None, {VARIABLE: "postgresql://desk@college/record"}, "postgresql://desk@college/record"),
        ("own.sqlite", {VARIABLE: "/srv/college.sqlite"}, "sqlite:///own.sqlite"),
        ("sqlite:///own.sqlite", {}, "sqlite:///own.sqlite"),
    ],
)
def test_the_option_comes_first_then_the_environment_then_the_output_folder(asked, environment, address) -> None:
    assert record_url(asked, OUT, environment).render_as_string() == address


def test_a_file_with_odd_signs_in_its_name_is_that_file() -> None:
    assert record_file(record_url("a folder?/50%.sqlite", OUT, {})) == Path("a folder?/50%.sqlite")
    assert record_file(record_url("postgresql://desk@college/record", OUT, {})) is None


def test_an_address_that_is_none_is_told() -> None:
    with pytest.raises(RecordFaulty, match="is not a database URL"):
        record_url("://nowhere", OUT, {})


def test_what_the_record_refuses_is_told_in_its_own_words(tmp_path) -> None:
    with pytest.raises(NotFound, match="there is no record at"), opened(record_url(None, tmp_path, {}), make=False):
        raise AssertionError


@pytest.mark.parametrize("address", ["sqlite:/x", "postgresql:x", "mysql+pymysql:/x"])
def test_an_address_without_its_slashes_is_no_file_name(address: str) -> None:
    with pytest.raises(RecordFaulty, match="is not a database URL"):
        record_url(address, OUT, {})


def test_a_home_folder_is_meant_by_its_sign() -> None:
    assert record_file(record_url("~/record.sqlite", OUT, {})) == Path.home() / "record.sqlite"
    assert record_file(record_url("C:\\records\\record.sqlite", OUT, {})) is not None


def test_a_record_is_there_once_its_file_is_and_a_server_is_always_asked(tmp_path) -> None:
    at = record_url(None, tmp_path, {})
    assert where_there(at) is None
    (tmp_path / "record.sqlite").touch()
    assert where_there(at) == at
    server = record_url("postgresql://desk@college/record", OUT, {})
    assert where_there(server) == server
