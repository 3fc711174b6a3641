"""A learner's rows taken out of tables: other rows, encodings, separators and line ends stay as they were."""

from __future__ import annotations

import io

import openpyxl
import pytest

from courseware.database.learner_lookup import Papers
from courseware.erasure.table_rows import Unreadable, without_in_csv, without_in_workbook

MASON = Papers(codes=("KTRA-WGHM-B",), identities=(("Mason", "1125"),))  # invented, as is every learner here
LUKASZ = Papers(codes=("KTRA-WGHM-B",), identities=(("Łukasz Wójcik", "B-0013"),))


@pytest.mark.parametrize(
    ("row", "after", "why"),
    [
        ("Mason,1125\n", "", "the name, though it is a word of the trade"),
        ("Amara,a mason works to 1125\n", "Amara,a mason works to 1125\n", "the word in another's remark"),
        ("Amara,1125\n", "Amara,1125\n", "an answer that is the reference's figure"),
        ("KTRA-WGHM-B;x\n", "", "the code"),
        ("Amara|see KTRAWGHMB\n", "Amara|see (a deleted learner)\n", "the code in another's remark"),
    ],
)
def test_a_row_is_the_learners_by_code_or_name_alone(row, after, why) -> None:
    clean = without_in_csv(row.encode(), MASON)
    assert (row if clean is None else clean.decode()) == after, why


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_what_is_left_keeps_its_encoding_separators_and_line_ends(encoding, separator, end) -> None:
    def table(*rows: tuple[str, str]) -> bytes:
        return "".join(f"{separator.join(row)}{end}" for row in rows).encode(encoding)

    before = table(("name", "remark"), ("Zoë", "fair"), ("Łukasz Wójcik", "good"), ("Amara", "as Łukasz Wójcik has it"))
    after = table(("name", "remark"), ("Zoë", "fair"), ("Amara", "as (a deleted learner) has it"))
    assert without_in_csv(before, LUKASZ) == after


def test_windows_1252_and_bytes_of_no_encoding_stay_as_they_were() -> None:
    zoe = Papers(codes=("KTRA-WGHM-B",), identities=(("Zoë O’Brien", ""),))
    rest = "Name;Ort\r\nSeán;Köln\r\n".encode("cp1252") + b"\x81;\x8d\r\n"
    assert without_in_csv(rest + "Zoë O’Brien;Bern\r\n".encode("cp1252"), zoe) == rest


def test_a_quoted_cell_over_several_lines_goes_with_its_row() -> None:
    before = b'Amara,"first\nsecond"\nB-0013,"first\nsecond"\nZo,x\n'
    assert without_in_csv(before, LUKASZ) == b'Amara,"first\nsecond"\nZo,x\n'


@pytest.mark.parametrize("table", [b"", b"Amara,1\n", "Ort\r\nKöln\r\n".encode("cp1252")])
def test_a_table_that_names_nobody_of_the_kind_needs_nothing(table: bytes) -> None:
    assert without_in_csv(table, LUKASZ) is None


def test_a_quote_that_never_ends_is_for_a_person() -> None:
    with pytest.raises(Unreadable):
        without_in_csv(b'Amara,"open\nMason,1\n', MASON)


def workbook(*sheets: list[tuple[object, ...]]) -> bytes:
    made = openpyxl.Workbook()
    made.remove(made.active)
    for rows in sheets:
        sheet = made.create_sheet()
        for row in rows:
            sheet.append(row)
    made.save(data := io.BytesIO())
    return data.getvalue()


def rows_of(data: bytes) -> list[list[tuple[object, ...]]]:
    return [list(sheet.iter_rows(values_only=True)) for sheet in openpyxl.load_workbook(io.BytesIO(data))]


def test_a_learners_rows_go_from_every_sheet_of_a_workbook() -> None:
    before = workbook(
        [("code", "1a"), ("KTRA-WGHM-B", 1360), ("AAAA-AAAA-C", 910), (" łukasz wójcik ", 1)],
        [("name", "remark"), ("Zoë", "asked B-0013 for it"), ("Zoë", "=1+1")],
    )
    clean = without_in_workbook(before, LUKASZ)
    assert clean is not None
    assert rows_of(clean) == [
        [("code", "1a"), ("AAAA-AAAA-C", 910)],
        [("name", "remark"), ("Zoë", "asked (a deleted learner) for it"), ("Zoë", "=1+1")],
    ]


def test_a_remark_that_begins_like_a_formula_stays_text() -> None:
    made = openpyxl.Workbook()
    made.active.append(("Amara", ""))
    made.active["B1"].value, made.active["B1"].data_type = "=as Łukasz Wójcik has it", "s"
    made.save(data := io.BytesIO())
    cell = openpyxl.load_workbook(io.BytesIO(without_in_workbook(data.getvalue(), LUKASZ) or b"")).active["B1"]
    assert (cell.value, cell.data_type) == ("=as (a deleted learner) has it", "s")


def test_a_workbook_that_names_nobody_needs_nothing_and_a_broken_one_is_for_a_person() -> None:
    assert without_in_workbook(workbook([("Amara", 910)]), LUKASZ) is None
    with pytest.raises(Unreadable):
        without_in_workbook(b"PK not quite", LUKASZ)
