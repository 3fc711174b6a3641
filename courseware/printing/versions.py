"""What a sitting's sheets were made with: the program, the page engine, the text layout and the fonts."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from pathlib import Path

from courseware import __version__

_HIGHEST = 999  # no number of a version is larger
_FONTS = Path(__file__).with_name("fonts")


def versions() -> dict[str, str]:
    """The version of each piece that a sheet's bytes hang on; of the fonts a hash."""
    import fontTools
    import openpyxl
    import pikepdf
    import pydyf
    import weasyprint
    from weasyprint.text.ffi import pango

    fonts = hashlib.sha256()
    for path in sorted(_FONTS.rglob("*.[to]tf")):
        fonts.update(path.read_bytes())
    return {
        "courseware": __version__,
        "weasyprint": weasyprint.__version__,
        "pydyf": pydyf.__version__,
        "fonttools": fontTools.version,
        "pikepdf": pikepdf.__version__,
        "openpyxl": openpyxl.__version__,
        "harfbuzz": _harfbuzz(),
        "pango": ".".join(str(pango.pango_version() // power % 100) for power in (10_000, 100, 1)),
        "fonts": fonts.hexdigest()[:16],
    }


def _harfbuzz() -> str:
    """HarfBuzz says only whether it is at least some version, so its own is felt for, place by place."""
    from weasyprint.text.ffi import harfbuzz

    places = [0, 0, 0]
    for place in range(3):
        while places[place] < _HIGHEST and harfbuzz.hb_version_atleast(
            *places[:place], places[place] + 1, *places[place + 1 :]
        ):
            places[place] += 1
    return ".".join(map(str, places))


def what_differs(then: Mapping[str, str], now: Mapping[str, str]) -> str:
    """One line that says what differs between two makings; '' where nothing does."""
    if not then:
        return "it was made before versions were kept, so nobody can say whether anything differs now"
    changed = [f"{name} {then[name]} then, {now.get(name, 'none')} now" for name in then if then[name] != now.get(name)]
    return "; ".join(changed)
