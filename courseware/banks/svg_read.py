"""An author's SVG as lines and words on paper: each element read against a short list, nothing passed through.

The file comes from a stranger. It is read by expat without a document type, so there are no entities; nothing in it
is followed, run or fetched. What the list does not have is a fault with its line; what it has becomes points and plain
text.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from math import atan2, degrees
from xml.parsers import expat

from courseware.banks.own_fit import fitted
from courseware.banks.own_picture import NotDrawn, OwnLine, OwnPicture, OwnWords, Point
from courseware.banks.svg_shapes import OF_SHAPE, along, plain, runs_of, to_paper
from courseware.banks.svg_style import Style, styled, upright
from courseware.text_files.faults import BankFaulty, Fault, harmless, unseen

MOST_BYTES = 100_000
MOST_ELEMENTS = 2_000
MOST_DEPTH = 20
MOST_POINTS = 20_000
MOST_WORDS = 60
LONGEST_WORDS = 80  # characters of one label
_MOST_FAULTS = 20
_SVG = "http://www.w3.org/2000/svg"
_SILENT = {"title", "desc", "metadata", "defs"}  # hold nothing that is drawn
_DRAWN = "svg, g, path, line, rect, circle, ellipse, polyline, polygon, text, tspan"


@dataclass(slots=True)
class _Words:
    """Words being read: where they stand and what has been read of them."""

    style: Style
    at: Point
    text: str = ""


@dataclass(slots=True)
class _Element:
    """An element that is open."""

    name: str
    style: Style
    words: _Words | None = None


class _Stop(Exception):
    """Reading on makes no sense."""


@dataclass(slots=True)
class _Reader:
    file: str
    faults: list[Fault] = field(default_factory=list)
    marks: list[OwnLine | _Words] = field(default_factory=list)
    open: list[_Element] = field(default_factory=list)
    passed: int = 0  # how deep within an element that is passed over
    elements: int = 0
    points: int = 0
    parser: expat.XMLParserType = field(default_factory=lambda: expat.ParserCreate("utf-8", " "))

    def read(self, text: str) -> None:
        parser = self.parser
        parser.buffer_text = True
        parser.StartElementHandler, parser.EndElementHandler = self._start, self._end
        parser.CharacterDataHandler = self._characters
        parser.StartDoctypeDeclHandler = lambda *_: self._stop("a document type (<!DOCTYPE …>)", "take it out")
        parser.ProcessingInstructionHandler = lambda *_: self._stop("a processing instruction (<? … ?>)", "take it out")
        try:
            parser.Parse(text.encode(), True)
        except expat.ExpatError as error:
            if not self.faults:
                wrong = f"it is not well-formed SVG: {expat.errors.messages.get(error.code, 'it breaks off')}"
                self.faults.append(Fault(self.file, error.lineno, error.offset + 1, wrong, "save it as plain SVG"))
        except _Stop:
            pass

    def _fault(self, wrong: str, expected: str) -> None:
        place = self.parser.CurrentLineNumber, self.parser.CurrentColumnNumber + 1
        self.faults.append(Fault(self.file, *place, wrong, expected))
        if len(self.faults) >= _MOST_FAULTS:
            raise _Stop

    def _stop(self, wrong: str, expected: str) -> None:
        self._fault(wrong, expected)
        raise _Stop

    def _start(self, full: str, attributes: dict[str, str]) -> None:
        self.elements += 1
        space, _, name = full.rpartition(" ")
        if self.elements > MOST_ELEMENTS or len(self.open) + self.passed >= MOST_DEPTH:
            self._stop("too many elements", f"at most {MOST_ELEMENTS}, and {MOST_DEPTH} one within the other")
        own = space in (_SVG, "")
        if self.passed:
            if own and name == "style":
                self._fault("the element `style` is not drawn", "put fill and stroke on the shapes themselves")
            self.passed += 1
        elif not self.open:
            self._root(name if own else full, attributes)
        elif not own or name in _SILENT:
            self.passed = 1
        elif name in OF_SHAPE:
            self._enter(name, attributes)
        else:
            self._fault(f"the element `{harmless(name)}` is not drawn", f"expected {_DRAWN}")
            self.passed = 1

    def _root(self, name: str, attributes: dict[str, str]) -> None:
        if name != "svg":
            self._stop(f"the file begins with `{harmless(name)}`", "expected svg")
        self.open.append(_Element("svg", Style()))
        try:
            style = styled(Style(), plain(attributes), frozenset({"width", "height", "viewBox", "x", "y"}))
            by = to_paper(attributes)
            self.open[0].style = replace(style, to=(by, 0, 0, by, 0, 0))
        except NotDrawn as fault:
            self._fault(fault.wrong, fault.expected)

    def _enter(self, name: str, attributes: dict[str, str]) -> None:
        above = self.open[-1]
        inside = _Element(name, above.style, above.words)
        self.open.append(inside)
        try:
            if (above.words is not None) != (name == "tspan"):
                raise NotDrawn(f"`{name}` in `{above.name}`", "expected shapes in g, and tspan in text")
            said = plain(attributes)
            inside.style = styled(above.style, said, OF_SHAPE[name])
            if name in ("text", "tspan"):
                inside.words = self._words(inside, above, said)
            elif name != "g":
                fill = None if name == "line" else inside.style.fill
                self._draw(list(runs_of(name, said)), replace(inside.style, fill=fill))
        except NotDrawn as fault:
            self._fault(fault.wrong, fault.expected)

    def _words(self, inside: _Element, above: _Element, said: Mapping[str, str]) -> _Words:
        """Where the words of a text stand; a tspan without a place of its own goes on with the words before it."""
        if inside.name == "tspan" and above.words is not None and "x" not in said:
            if {"y", "dx", "dy"} & set(said):
                raise NotDrawn("a tspan is moved without an x", "expected x and y on it")
            return above.words
        before = above.words.at if above.words else (0.0, 0.0)
        size = inside.style.size
        at = (
            along(said.get("x", "0"), size) + along(said.get("dx", "0"), size),
            along(said.get("y", str(before[1])), size) + along(said.get("dy", "0"), size),
        )
        if inside.style.fill is None or inside.style.fill > 0.6:
            raise NotDrawn("words without a fill, or with a pale one", "words print in black: give them a dark fill")
        if not upright(inside.style.to):
            raise NotDrawn("words that are mirrored, slanted or stretched", "expected words turned at most")
        words = _Words(inside.style, at)
        self.marks.append(words)
        return words

    def _draw(self, runs: list[tuple[list[Point], bool]], style: Style) -> None:
        put = tuple(
            tuple(style.put(point) for point in [*run, *(run[:1] if closed else [])])
            for run, closed in runs
            if len(run) > 1
        )
        self.points += sum(len(run) for run in put)
        if self.points > MOST_POINTS:
            self._stop("the lines have too many points", f"at most {MOST_POINTS}")
        pen = 0.0 if style.stroke is None else style.weight * style.scale
        if not put or (not pen and style.fill is None):
            return
        self.marks.append(
            OwnLine(
                runs=put,
                closed=all(closed for _, closed in runs),
                weight=pen,
                grey=style.stroke or 0.0,
                fill=style.fill,
                dash=tuple(piece * style.scale for piece in style.dash) if pen else (),
            )
        )

    def _end(self, _: str) -> None:
        if self.passed:
            self.passed -= 1
        elif self.open:
            self.open.pop()

    def _characters(self, text: str) -> None:
        words = self.open[-1].words if self.open and not self.passed else None
        if words is not None:
            words.text += text


def read_svg(text: str, file: str, says: str) -> OwnPicture:
    """The picture in an SVG's text, made smaller where it is larger than `ROOM`. Raises `BankFaulty`.

    `file` names it in faults; `says` is what it shows in words.
    """
    if len(text.encode()) > MOST_BYTES:
        raise BankFaulty((Fault(file, 1, 1, "the drawing is too long", f"at most {MOST_BYTES} bytes"),))
    reader = _Reader(file)
    reader.read(text)
    if not reader.faults:
        try:
            return OwnPicture(file=file, says=says, marks=fitted(tuple(_finished(reader.marks))))
        except NotDrawn as fault:
            reader.faults.append(Fault(file, 1, 1, fault.wrong, fault.expected))
    raise BankFaulty(tuple(reader.faults))


def _finished(marks: list[OwnLine | _Words]) -> Iterator[OwnLine | OwnWords]:
    """The marks on paper, their words squeezed and checked."""
    count = 0
    for mark in marks:
        if isinstance(mark, OwnLine):
            yield mark
            continue
        text = " ".join(mark.text.split())
        if not text:
            continue
        count += 1
        if count > MOST_WORDS or len(text) > LONGEST_WORDS:
            raise NotDrawn("too many words", f"at most {MOST_WORDS} labels of {LONGEST_WORDS} characters")
        if strange := next((character for character in text if unseen(character)), None):
            raise NotDrawn(f"the unseen character {harmless(strange)}", "take it out")
        a, b, *_ = mark.style.to
        yield OwnWords(
            at=mark.style.put(mark.at),
            text=text,
            size=mark.style.size * mark.style.scale,
            anchor=mark.style.anchor,
            turn=round(-degrees(atan2(b, a))),
            bold=mark.style.bold,
        )
