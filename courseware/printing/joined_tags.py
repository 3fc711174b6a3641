"""The tags of PDFs that are joined into one: their structure trees under one document, their pages' keys renumbered."""

from __future__ import annotations

from typing import Any


class JoinedTags:
    """Gathers the structure (ISO 32000-1, 14.7) of each PDF whose pages a joined one has taken, then puts it there."""

    def __init__(self, joined: Any) -> None:
        self._joined = joined
        self._parts: list[Any] = []  # the top elements, one a sheet
        self._parents: list[tuple[int, Any]] = []  # the parent tree: keys and entries
        self._titles: list[str] = []
        self._lang, self._metadata = "", b""

    def take(self, one: Any, first: int) -> None:
        """The tags of a PDF whose pages have been taken from page `first` on; one without tags brings none."""
        if "/StructTreeRoot" not in one.Root:
            return
        offset = max((key for key, _ in self._parents), default=-1) + 1
        for page in list(self._joined.pages)[first:]:
            for thing, key in (
                (page.obj, "/StructParents"),
                *((note, "/StructParent") for note in page.get("/Annots", [])),
            ):
                if key in thing:
                    thing[key] = int(thing[key]) + offset
        root = self._joined.copy_foreign(one.Root.StructTreeRoot)
        numbers = list(root.ParentTree.Nums)
        self._parents += [(int(key) + offset, entry) for key, entry in zip(numbers[::2], numbers[1::2], strict=True)]
        for top in root.K:
            kids = list(top.K)
            self._parts += kids if _is_joined(kids) else [top]
        self._titles.append(str(one.docinfo.get("/Title", "")))
        if not self._metadata:
            self._lang, self._metadata = str(one.Root.Lang), one.Root.Metadata.read_bytes()

    def put(self) -> None:
        """Puts one structure tree over all that was taken."""
        from pikepdf import Array, Dictionary, Name

        if not self._parts:
            return
        joined = self._joined
        root = joined.make_indirect(Dictionary(Type=Name.StructTreeRoot))
        document = joined.make_indirect(Dictionary(Type=Name.StructElem, S=Name.Document, P=root))
        for part in self._parts:
            part.S, part.P = Name.Part, document
        document.K, root.K = Array(self._parts), Array([document])
        numbers = Array([item for pair in sorted(self._parents, key=lambda pair: pair[0]) for item in pair])
        root.ParentTree = joined.make_indirect(Dictionary(Nums=numbers))
        root.ParentTreeNextKey = max(key for key, _ in self._parents) + 1
        joined.Root.StructTreeRoot, joined.Root.MarkInfo = root, Dictionary(Marked=True)
        joined.Root.Lang, joined.Root.ViewerPreferences.DisplayDocTitle = self._lang, True
        title = _common(self._titles)
        joined.docinfo["/Title"] = title
        joined.Root.Metadata = joined.make_stream(self._metadata, Type=Name.Metadata, Subtype=Name.XML)
        with joined.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as told:
            told["dc:title"] = title


def _is_joined(kids: list[Any]) -> bool:
    """Whether these are the sheets of a PDF that was joined before."""
    return bool(kids) and all(getattr(kid, "S", None) == "/Part" for kid in kids)


def _common(titles: list[str]) -> str:
    """What the titles of the sheets begin with, up to where each names its own paper."""
    pieces = zip(*(title.split(", ") for title in titles), strict=False)
    return ", ".join(first for first, *others in pieces if {first} >= set(others)) or titles[0]
