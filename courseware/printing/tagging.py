"""The last touches that make a tagged PDF pass: page furniture as artifacts, header scopes, figure boxes, true size."""

from __future__ import annotations

from typing import Any

_POINTS = 0.75  # of a CSS pixel


def finish(document: Any, pdf: Any) -> None:
    """Mends WeasyPrint 70's tags in place; `document` and `pdf` are its own objects."""
    root = _object(pdf, pdf.catalog["StructTreeRoot"])
    reached = _reached(pdf, root)
    for number in reached:
        element = pdf.objects[number]
        if element.get("S") == "/TH":
            row = _object(pdf, element["P"])
            above = _object(pdf, row["P"])["S"]
            element["A"]["Scope"] = "/Column" if above == "/THead" else "/Row"
        if element.get("S") == "/Figure" and "A" in element:
            page = next(p for p in document.pages if p)
            x1, y1, x2, y2 = element["A"]["BBox"]
            high = page.height
            element["A"]["BBox"][:] = [_POINTS * v for v in (x1, high - y2, x2, high - y1)]
    numbers = _object(pdf, root["ParentTree"])["Nums"]
    for page_number, reference in enumerate(pdf.pages["Kids"][::3]):
        entries = numbers[2 * page_number + 1]
        loose = {mcid for mcid, entry in enumerate(entries) if _number(entry) not in reached}
        if loose:
            page = pdf.objects[int(reference)]
            _as_artifacts(pdf.objects[_number(page["Contents"])], loose)
            for mcid in loose:
                entries[mcid] = "null"
    pdf.catalog["ViewerPreferences"]["PrintScaling"] = "/None"


def _as_artifacts(stream: Any, loose: set[int]) -> None:
    """Each marked sequence opens with three entries: its tag, its properties, BDC."""
    for place, operator in enumerate(stream.stream):
        if operator == b"BDC" and stream.stream[place - 1].get("MCID") in loose:
            stream.stream[place - 2 : place] = [b"/Artifact", b"<</Type /Pagination>>"]


def _reached(pdf: Any, root: Any) -> set[int]:
    """Object numbers of the structure elements that hang from the root."""
    reached: set[int] = set()
    waiting = list(root["K"])
    while waiting:
        entry = waiting.pop()
        if isinstance(entry, int):
            continue
        number = _number(entry)
        element = pdf.objects[number]
        if number not in reached and "S" in element:
            reached.add(number)
            waiting += element["K"]
    return reached


def _number(reference: Any) -> int:
    return int(reference.split()[0])


def _object(pdf: Any, reference: Any) -> Any:
    return pdf.objects[_number(reference)]
