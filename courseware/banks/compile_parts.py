"""From the shape of a part to the part: the keys of its kind checked, and its formulas compiled by its kind."""

from __future__ import annotations

from collections.abc import Mapping

from courseware.banks.formulas import Kind
from courseware.banks.part import Part
from courseware.banks.part_kinds import BANK_KINDS, listed_kinds
from courseware.banks.reading import Path, Reading, Scope, read_marks
from courseware.banks.shapes import PartShape
from courseware.banks.vocabulary import Vocabulary
from courseware.text_files.did_you_mean import near


def bind_part(
    shape: PartShape,
    reading: Reading,
    path: Path,
    words: Vocabulary,
    asked: Mapping[str, Kind],
    kinds: Mapping[str, Kind],
) -> Part:
    """The part of this shape; its faults are kept in `reading`."""
    scope = Scope(reading=reading, words=words, asked=asked, kinds=dict(kinds))
    name, kind = shape.kind, BANK_KINDS.get(shape.kind)
    if kind is None:
        known = near(name, list(listed_kinds()), "expected one of")
        reading.fault((*path, "kind"), f"no part is of kind `{name}`", known)
        return Part(name=shape.name, ask=scope.asked_words((*path, "ask"), shape.ask), marks=shape.marks or 1)
    own = tuple(kind.keys.model_fields)
    for key in sorted(shape.model_fields_set - {*PartShape.model_fields, *own}):
        reading.fault((*path, key), f"a part of kind {name} has no `{key}`", f"expected {', '.join(own)}")
    for key in kind.needed:
        if getattr(shape, key) in (None, []):
            wrong = f"`{key}` is empty" if key in shape.model_fields_set else f"the key `{key}` is missing"
            reading.fault((*path, key), wrong, f"a part of kind {name} needs {', '.join(kind.needed)}")
    read_marks(shape.marks, scope, path)
    return kind.bind(shape, scope, path)
