"""What learners get carries no answer: every learner's PDF is read back, and a leak of any kind is found."""

import re
from dataclasses import fields, is_dataclass, replace
from io import BytesIO

import pytest
from pikepdf import Array, AttachedFileSpec, Dictionary, Name, Pdf, String
from pypdf import PdfReader

from courseware.files.bank_files import shipped_banks
from courseware.papers import sheets
from courseware.papers.key_secrets import Secrets, secrets, shows
from courseware.printing.leak_check import Leak, page_text, release, text_drawn
from courseware.printing.render import margin_words, paper_pdf

TOPICS = [path.stem for path in shipped_banks()]
CANARY = "the wagtail nests in the chimney"


@pytest.mark.parametrize("topic", TOPICS)
def test_no_paper_of_any_topic_holds_a_secret(printed, topic) -> None:
    sheet = printed(topic)
    assert release(sheet.paper_pdf, secrets(sheet.paper, sheet.key, margin_words(sheet.paper))) == sheet.paper_pdf


@pytest.mark.parametrize("topic", TOPICS)
def test_the_key_itself_would_not_pass(printed, topic) -> None:
    sheet = printed(topic)
    with pytest.raises(Leak):
        release(sheet.key_pdf, secrets(sheet.paper, sheet.key, margin_words(sheet.paper)))


def with_canary(key: sheets.Key) -> sheets.Key:
    """The key with one word of ours in every field that tells an answer."""
    answers = tuple(
        tuple(
            replace(
                answer,
                notes=(CANARY,),
                slips=(sheets.KeySlip(figure="98765", says=CANARY, earns=0),),
                answer="98765 mm",
            )
            for answer in part
        )
        for exercise in key.exercises
        for part in exercise.answers
    )
    return replace(key, exercises=(replace(key.exercises[0], answers=answers),))


def saved(opened: Pdf) -> bytes:
    written = BytesIO()
    opened.save(written)
    return written.getvalue()


def spoilt(pdf: bytes, how: str) -> bytes:
    """A learner's PDF with the canary put in one of the places where leaks hide."""
    with Pdf.open(BytesIO(pdf)) as opened:
        if how == "metadata":
            opened.docinfo["/Subject"] = String(CANARY)
        elif how == "alternative text":
            opened.Root.StructTreeRoot.Alt = String(f"Drawing: {CANARY}.")
        elif how == "bookmark":
            with opened.open_outline() as outline:
                from pikepdf import OutlineItem

                outline.root.append(OutlineItem(CANARY, 0))
        elif how == "attachment":
            opened.attachments["notes.txt"] = AttachedFileSpec(opened, b"anything", filename="notes.txt")
        elif how == "link":
            opened.pages[0].Annots = opened.make_indirect(
                [Dictionary(Type=Name.Annot, Subtype=Name.Link, A=Dictionary(S=Name.URI, URI=String("x:y")))]
            )
        elif how == "script":
            opened.Root.OpenAction = Dictionary(S=Name.JavaScript, JS=String("1"))
        elif how == "list":
            opened.Root.Own = Array([1, Array([String(CANARY)])])
        elif how == "list kept apart":
            opened.Root.Own = opened.make_indirect(Array([opened.make_indirect(Dictionary(Own=String(CANARY)))]))
        elif how == "heading of a stream":
            opened.Root.Own = opened.make_stream(b"", Own=String(CANARY))
        elif how == "metadata of another kind":
            with opened.open_metadata() as said:
                said["dc:description"] = CANARY
        elif how == "figure":
            opened.docinfo["/Keywords"] = String("answer 98765 mm")
        return saved(opened)


PLACES = ["metadata", "alternative text", "bookmark", "attachment", "link", "script", "figure",
          "list", "list kept apart", "heading of a stream", "metadata of another kind"]  # fmt: skip


@pytest.mark.parametrize("how", PLACES)
def test_a_leak_is_found_wherever_it_hides(printed, how) -> None:
    sheet = printed("opening_sizes")
    with pytest.raises(Leak):
        release(spoilt(sheet.paper_pdf, how), secrets(sheet.paper, with_canary(sheet.key)))


@pytest.mark.parametrize("style", ["white", "off the page", "tiny"])
def test_text_that_nobody_sees_is_found(printed, style, monkeypatch) -> None:
    sheet = printed("opening_sizes")
    markup = {
        "white": f'<p style="color: white">{CANARY}</p>',
        "off the page": f'<p style="position: absolute; left: -900mm">{CANARY}</p>',
        "tiny": f'<p style="font-size: 0.1pt">{CANARY}</p>',
    }[style]
    from courseware.printing import render

    monkeypatch.setattr(
        render,
        "lay_out",
        lambda text, *more, make=render.lay_out: make(text.replace("</body>", markup + "</body>"), *more),
    )
    with pytest.raises(Leak, match="wagtail"):
        release(paper_pdf(sheet.paper), secrets(sheet.paper, with_canary(sheet.key)))


@pytest.mark.parametrize("shows_it", ["<{0}> Tj", "[<{1}> -20 <{2}>] TJ", "<{1}> Tj 9 0 Td <{2}> Tj"])
@pytest.mark.parametrize("where", ["a drawing kept apart", "the page itself"])
def test_words_drawn_from_letters_of_the_page_are_read(printed, where, shows_it) -> None:
    """Fourteen letters that the page's own font has, in an order in which no page has them."""
    with Pdf.open(BytesIO(printed("opening_sizes").paper_pdf)) as opened:
        page = opened.pages[0]
        name, font = next(iter(page.Resources.Font.items()))
        pairs = re.findall(rb"<([0-9a-fA-F]{4})> <([0-9a-fA-F]{4})>", font.ToUnicode.read_bytes())
        glyphs = {chr(int(letter, 16)): glyph.decode() for glyph, letter in pairs}
        word = sorted((letter for letter in glyphs if letter.isalpha()), reverse=True)[:14]
        coded = ["".join(glyphs[letter] for letter in letters) for letters in (word, word[:5], word[5:])]
        drawn = f"BT {name} 9 Tf {shows_it.format(*coded)} ET".encode()
        hidden = Secrets(figures=frozenset(), sayings=frozenset({"".join(word)}))
        assert release(saved(opened), hidden)
        if where == "the page itself":
            page.contents_add(drawn)
            page.contents_coalesce()
        else:
            page.Resources.XObject = Dictionary(
                Own=opened.make_stream(drawn, Type=Name.XObject, Subtype=Name.Form, Resources=page.Resources)
            )
        with pytest.raises(Leak, match="".join(word)):
            release(saved(opened), hidden)


def test_a_drawing_kept_apart_without_letters_of_its_own_is_no_leak(printed) -> None:
    sheet = printed("opening_sizes")
    with Pdf.open(BytesIO(sheet.paper_pdf)) as opened:
        opened.Root.Own = opened.make_stream(b"0 0 9 9 re f", Type=Name.XObject, Subtype=Name.Form)
        plain = saved(opened)
    assert release(plain, secrets(sheet.paper, sheet.key, margin_words(sheet.paper))) == plain


def test_a_label_after_a_dashed_line_is_read_in_its_own_font() -> None:
    """A dash pattern stands in brackets as a run of letters does: `[4 1] 0 d`."""
    with Pdf.new() as pdf:
        letters = {name: pdf.make_stream(f"<0001> <{ord(name[1]):04x}>".encode()) for name in ("/A", "/B")}
        fonts = {name: Dictionary(ToUnicode=stream) for name, stream in letters.items()}
        stream = b"BT /A 3 Tf [<0001>0] TJ ET [4 1 0.6 1] 0 d 0 0 m 9 9 l S BT /B 3.5 Tf [<0001>0] TJ ET"
        assert text_drawn(stream, Dictionary(Font=Dictionary(fonts))).split() == ["A", "B"]


@pytest.mark.parametrize("topic", TOPICS)
def test_what_is_read_back_is_what_another_reader_reads(printed, topic) -> None:
    """pypdf reads the same words from the same pages (it keeps other spaces)."""
    pdf = printed(topic).paper_pdf
    with Pdf.open(BytesIO(pdf)) as opened:
        ours = [sorted("".join(page_text(page).split())) for page in opened.pages]
    theirs = [sorted("".join(page.extract_text().split())) for page in PdfReader(BytesIO(pdf)).pages]
    assert ours == theirs


@pytest.mark.parametrize("answer", ["1.1", "1.3", "1999", "70.0", "700"])
def test_figures_of_the_files_own_making_are_no_leak(printed, answer) -> None:
    """Addresses of metadata and the maker's version hold figures too, which no learner reads as an answer."""
    sheet = printed("opening_sizes")
    hidden = secrets(sheet.paper, with_canary(sheet.key), margin_words(sheet.paper))
    assert release(sheet.paper_pdf, replace(hidden, figures=frozenset({answer}))) == sheet.paper_pdf


def test_figures_are_secret_only_where_the_paper_does_not_give_them(printed) -> None:
    sheet = printed("opening_sizes")
    hidden = secrets(sheet.paper, sheet.key, margin_words(sheet.paper))
    assert hidden.figures
    assert shows("1 of 22, 100 mm", hidden) is None
    assert all(shows(f"It is {figure} mm.", hidden) == figure for figure in hidden.figures)
    assert all(shows(f"1{figure}7", hidden) is None for figure in hidden.figures)


def test_a_learners_sheet_has_no_field_for_an_answer() -> None:
    """The types that a paper is made of, and those a key adds, do not mix."""

    def types(model: type) -> set[type]:
        found = {model}
        for name in {
            word for field in fields(model) for word in str(field.type).replace("[", " ").replace(",", " ").split()
        }:
            inner = getattr(sheets, name.strip("]|"), None)
            if is_dataclass(inner) and inner not in found:
                found |= types(inner)
        return found

    assert sheets.AskedPart in types(sheets.Paper)
    assert not [model for model in types(sheets.Paper) if model.__name__.startswith("Key")]
