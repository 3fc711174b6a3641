"""Whether a file names a learner: tables can be cleaned, PDFs of our own go, texts and what cannot be read are a person's."""

from __future__ import annotations

import io

import openpyxl
import pytest
from pikepdf import Dictionary, Name, Pdf

from courseware.database.learner_lookup import Papers
from courseware.erasure import named_in_file
from courseware.erasure.named_in_file import FileFinding, look_into

NAME = "Amara Okafor"  # invented
PAPERS = Papers(codes=("KTRA-WGHM-B",), identities=((NAME, "B-0013"),))


def pdf(text: str, *, ours: bool = True) -> bytes:
    """A page that says `text`, its letters numbered in a font of its own as the program's are, or in the plain way."""
    made = Pdf.new()
    page = made.add_blank_page()
    font = Dictionary(Type=Name.Font, Subtype=Name.Type1, BaseFont=Name.Helvetica)
    if ours:
        pairs = "".join(f"<{ord(letter):04x}> <{ord(letter):04x}>\n" for letter in sorted(set(text)))
        font.ToUnicode = made.make_stream(f"beginbfchar\n{pairs}endbfchar".encode())
    page.Resources = Dictionary(Font=Dictionary(F1=made.make_indirect(font)))
    shown = f"<{text.encode('utf-16-be').hex()}>" if ours else f"({text})"
    page.Contents = made.make_stream(f"BT /F1 12 Tf 20 20 Td {shown} Tj ET".encode())
    made.save(data := io.BytesIO())
    return data.getvalue()


def workbook(text: str) -> bytes:
    made = openpyxl.Workbook()
    made.active.append((text, 1))
    made.save(data := io.BytesIO())
    return data.getvalue()


@pytest.mark.parametrize(
    ("name", "data", "do"),
    [
        ("notes.txt", b"Amara Okafor was late.", "look"),
        ("notes.MD", b"see ktra-wghm-b", "look"),
        ("notes.txt", b"Amara was late.", ""),  # a name of one word alone may be anybody's
        ("notes.json", b'{"ref": "B-0013"}', "look"),
        ("notes.html", b"\xff\xfe Amara Okafor", "look"),
        ("notes.yaml", b"", ""),
        ("list.csv", b"Amara Okafor,1\n", "clean"),
        ("list.csv", b"Somebody,1\n", ""),
        ("list.csv", b'Somebody,"open\n', "unreadable"),
        ("list.xlsx", workbook(NAME), "clean"),
        ("list.xlsx", workbook("Somebody"), ""),
        ("list.xlsx", b"PK not quite", "unreadable"),
        ("paper.pdf", pdf(NAME), "remove"),
        ("paper.PDF", pdf("Somebody"), ""),
        ("scan.pdf", pdf(""), "unreadable"),  # a picture of a page: nobody can say
        ("letter.pdf", pdf(NAME, ours=False), "unreadable"),  # another program's
        ("scan.pdf", b"%PDF-1.4 of another make", "unreadable"),
        ("photo.jpg", b"\xff\xd8", "unreadable"),
        ("list.ods", b"PK", "unreadable"),
        (".DS_Store", b"Amara Okafor", ""),  # the system's own, not a tutor's
    ],
)  # fmt: skip
def test_what_is_to_be_done_with_a_file(tmp_path, name: str, data: bytes, do: str) -> None:
    (tmp_path / name).write_bytes(data)
    assert look_into(tmp_path / name, PAPERS).do == do
    assert (tmp_path / name).read_bytes() == data, "looking changes nothing"


def test_a_table_that_can_be_cleaned_comes_with_what_is_left(tmp_path) -> None:
    (tmp_path / "list.csv").write_bytes(b"Amara Okafor,1\nSomebody,2\n")
    assert look_into(tmp_path / "list.csv", PAPERS) == FileFinding(do="clean", data=b"Somebody,2\n")


@pytest.mark.parametrize(("room", "do"), [(0, ""), (-1, "unreadable")])
def test_a_file_too_large_to_look_into_is_for_a_person(tmp_path, monkeypatch, room: int, do: str) -> None:
    (tmp_path / "notes.txt").write_bytes(b"x" * 100)
    monkeypatch.setattr(named_in_file, "_LARGEST", 100 + room)
    assert look_into(tmp_path / "notes.txt", PAPERS).do == do
