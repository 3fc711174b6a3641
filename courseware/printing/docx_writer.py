"""Our own markup as DOCX (ISO/IEC 29500): paragraphs, tables and pictures one under another."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from io import BytesIO
from typing import TYPE_CHECKING
from xml.etree import ElementTree

from courseware.drawings.picture import Picture
from courseware.printing.rasters import rasters
from courseware.spreadsheets.xlsx_out import dated

if TYPE_CHECKING:
    from docx.document import Document
    from docx.table import Table
    from docx.text.paragraph import Paragraph

_DAY = "2000-01-01"  # every copy's own date: the sitting's stands on it
_WIDE, _MARGIN = 174.0, 18.0  # mm, on A4
_ANSWER_WIDE = 62.0  # mm, of the cell of an answer
_COLUMN = 18.0, 44.0  # mm, of a column but the first: at least and at most
_FILLED_HIGH = 9.0  # mm, of a row to write in
_TO_FILL = 52.0, 40.0  # mm, of the working and the answer of a table to write in
_LETTER, _ROUND = 2.2, 5.0  # mm: a letter of 11 points, and round the words of a cell
_FACE = "Arial"
_LINE = 36 * "_"  # to sign on
_BOX, _GAP = "☐", "______"


def docx(markup: str, pictures: Mapping[str, Picture], type_size: float = 11) -> bytes:
    """The document that the markup makes; `pictures` by the names its images have. The same gives the same bytes.

    `type_size` is that of its body, in points.

    A drawn room for an answer (`data-answer`, its unit) becomes a table to type into.
    """
    root = ElementTree.fromstring(markup)
    called = [image.attrib["src"].removeprefix("courseware:") for image in root.iter("img") if _is_drawn(image)]
    copy = _Copy(
        pictures, rasters({name: pictures[name] for name in called}), root.findtext("head/title", ""), type_size
    )
    copy.add_all(root.find("body"))
    return copy.written()


def _is_drawn(image: ElementTree.Element) -> bool:
    return "data-answer" not in image.attrib


class _Copy:
    """A document being written: each element of the markup is added at its end."""

    def __init__(
        self, pictures: Mapping[str, Picture], drawn: Mapping[str, bytes], title: str, type_size: float
    ) -> None:
        self._pictures, self._drawn = pictures, drawn
        self._document = _blank(title, type_size)

    def add_all(self, element: ElementTree.Element | None) -> None:
        for child in element if element is not None else ():
            if child.tag == "div":
                self.add_all(child)
            elif child.tag == "table":
                self._add_table(child)
            elif child.find("img") is not None:
                self._add_picture(child.find("img"))
            else:
                self._add_paragraph(child)

    def written(self) -> bytes:
        into = BytesIO()
        self._document.save(into)
        return dated(into, _DAY)

    def _add_paragraph(self, element: ElementTree.Element) -> None:
        if element.tag in ("h1", "h2", "h3"):
            paragraph = self._document.add_heading(level=int(element.tag[1]))
        else:
            paragraph = self._document.add_paragraph()
        _fill(paragraph, element)
        kinds = element.get("class", "").split()
        paragraph.paragraph_format.keep_with_next = element.tag != "p" or bool({"ask", "keep", "option"} & set(kinds))
        if "box" in kinds:
            _frame(paragraph)

    def _add_picture(self, image: ElementTree.Element | None) -> None:
        from docx.shared import Mm

        assert image is not None
        name = image.attrib["src"].removeprefix("courseware:")
        picture = self._pictures[name]
        if not _is_drawn(image):
            self._add_room(image.attrib["data-answer"], picture.height)
            return
        run = self._document.add_paragraph().add_run()
        shape = run.add_picture(BytesIO(self._drawn[name]), width=Mm(min(picture.width, _WIDE)))
        shape._inline.docPr.set("descr", image.get("alt", ""))

    def _add_room(self, unit: str, high: float) -> None:
        from docx.shared import Mm

        table = self._document.add_table(rows=1, cols=2, style="Table Grid")
        table.rows[0].height = Mm(high)
        _set_widths(table, (_WIDE - _ANSWER_WIDE, _ANSWER_WIDE))
        table.cell(0, 0).paragraphs[0].add_run("Working")
        table.cell(0, 1).paragraphs[0].add_run(f"Answer{f' ({unit})' if unit else ''}").bold = True
        self._space()

    def _add_table(self, element: ElementTree.Element) -> None:
        from docx.shared import Mm

        rows = [row for part in element for row in part if row.tag == "tr"]
        to_fill = "list" in element.get("class", "").split()
        widths = _widths(rows, to_fill=to_fill)
        table = self._document.add_table(rows=len(rows), cols=len(widths), style="Table Grid")
        _set_widths(table, widths)
        for place, (row, line) in enumerate(zip(table.rows, rows, strict=True)):
            for cell, words in zip(row.cells, line, strict=False):
                _fill(cell.paragraphs[0], words)
                cell.paragraphs[0].paragraph_format.space_after = 0
            if to_fill and place:
                row.height = Mm(_FILLED_HIGH)
        if element.find("thead") is not None:
            _repeat(table)
        self._space()

    def _space(self) -> None:
        """A line between two tables, which would become one without it."""
        from docx.shared import Pt

        self._document.add_paragraph().paragraph_format.line_spacing = Pt(6)


def _blank(title: str, type_size: float) -> Document:
    """An empty A4 document in British English, black on white."""
    import docx
    from docx.oxml.ns import qn
    from docx.shared import Mm, Pt, RGBColor

    document = docx.Document()
    section = document.sections[0]
    section.page_width, section.page_height = Mm(210), Mm(297)
    section.left_margin = section.right_margin = section.top_margin = section.bottom_margin = Mm(_MARGIN)
    for name, size in (("Normal", type_size), ("Heading 1", type_size + 9), ("Heading 2", type_size + 2)):
        style = document.styles[name]
        style.font.name, style.font.size, style.font.color.rgb = _FACE, Pt(size), RGBColor(0, 0, 0)
        fonts = style.element.get_or_add_rPr().get_or_add_rFonts()
        for theme in ("w:asciiTheme", "w:hAnsiTheme", "w:eastAsiaTheme", "w:cstheme"):
            fonts.attrib.pop(qn(theme), None)
    document.styles["Normal"].paragraph_format.space_after = Pt(3)
    for language in document.styles.element.iter(qn("w:lang")):
        language.set(qn("w:val"), "en-GB")
    told = document.core_properties
    told.title, told.author, told.comments, told.language = title, "", "", "en-GB"
    return document


def _fill(paragraph: Paragraph, element: ElementTree.Element) -> None:
    """The words of an element, bold where they are; each box of a choice or an order, a line to sign on, as text."""
    signed = "sign" in element.get("class", "").split()
    _add_run(paragraph, element.text, bold=False)
    for child in element:
        kinds = child.get("class", "").split()
        if signed:
            _add_run(paragraph, f"{_LINE}   {child.text} {_LINE[:18]}", bold=False)
        elif "tick" in kinds:
            _add_run(paragraph, f"{_GAP if 'wide' in kinds else _BOX} ", bold=False)
        elif child.tag == "i" and "(" not in (child.text or "")[:2]:
            _add_run(paragraph, f"({child.text})", bold=False)
        elif "marks" in kinds:
            _add_run(paragraph, f" {child.text}", bold=True)
        else:
            _add_run(paragraph, child.text, bold=child.tag == "b")
            if child.tag == "b" and not (child.tail or "").startswith((" ", ",", ".", ":")):
                _add_run(paragraph, " ", bold=False)
        _add_run(paragraph, child.tail, bold=False)


def _add_run(paragraph: Paragraph, text: str | None, *, bold: bool) -> None:
    words = re.sub(r"[ \t\r\n]+", " ", text or "")  # and no space at which no line breaks
    if not paragraph.runs:
        words = words.lstrip()
    if words:
        paragraph.add_run(words).bold = bold or None


def _widths(rows: Sequence[ElementTree.Element], *, to_fill: bool) -> tuple[float, ...]:
    """The widths of a table's columns: each but the first as wide as its longest words, or wide enough to write in."""
    columns = max(len(row) for row in rows)
    others = [_column([row[place] for row in rows if len(row) == columns]) for place in range(1, columns)]
    others = [*_TO_FILL] if to_fill and columns == 1 + len(_TO_FILL) else others
    return _WIDE - sum(others), *others


def _column(cells: Sequence[ElementTree.Element]) -> float:
    least, most = _COLUMN
    longest = max((len(" ".join("".join(cell.itertext()).split())) for cell in cells), default=0)
    return min(max(longest * _LETTER + _ROUND, least), most)


def _set_widths(table: Table, widths: tuple[float, ...]) -> None:
    from docx.shared import Mm

    table.autofit = False
    for column, width in zip(table.columns, widths, strict=True):
        column.width = Mm(width)
    for row in table.rows:
        for cell, width in zip(row.cells, widths, strict=True):
            cell.width = Mm(width)


def _repeat(table: Table) -> None:
    """Marks the first row as the table's heading, told to a screen reader and repeated over a page's end."""
    from docx.oxml import OxmlElement

    table.rows[0]._tr.get_or_add_trPr().append(OxmlElement("w:tblHeader"))


def _frame(paragraph: Paragraph) -> None:
    """A thin line round a paragraph."""
    from docx.oxml import OxmlElement
    from docx.oxml.ns import qn

    borders = OxmlElement("w:pBdr")
    for side in ("top", "left", "bottom", "right"):
        line = OxmlElement(f"w:{side}")
        for name, value in (("val", "single"), ("sz", "6"), ("space", "4"), ("color", "000000")):
            line.set(qn(f"w:{name}"), value)
        borders.append(line)
    paragraph._p.get_or_add_pPr().append(borders)
