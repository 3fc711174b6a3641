"""The practice page as a site: the same page in files, its questions fetched when met, kept for use without a network.

A browser keeps it (service worker, Web App Manifest) where it is served over https; elsewhere it needs its network.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping, Sequence

from courseware.glossary.sheets import Glossary
from courseware.practice.kinds import PracticeKind
from courseware.practice.one_file import filled_page, packed_words, page_asset
from courseware.practice.packed import packed_kind
from courseware.practice.payload import kind_data

_HEAD = '\n<link rel="manifest" href="manifest.webmanifest">'
_ALLOWED = "connect-src 'self'; manifest-src 'self'; worker-src 'self'; "
_PAGE, _WORKER = "index.html", "worker.js"
BOOKLET = "booklet.pdf"  # beside the page, where it is made: whoever wants it takes it, no phone keeps it unasked


def practice_site(
    kinds: Sequence[PracticeKind], title: str, glossary: Glossary, *, booklet: bool = False
) -> Mapping[str, bytes]:
    """The files of the site by name; its page leads to the `booklet` where there is one.

    The same kinds and words give the same bytes.
    """
    way = BOOKLET if booklet else ""
    data = [kind_data(kind) for kind in kinds]
    files = {
        _PAGE: filled_page(kinds, data, title, glossary, (), head=_HEAD, allowed=_ALLOWED, booklet=way),
        "manifest.webmanifest": _manifest(title, kinds[0].bank.settings.name),
        "icon.svg": page_asset("icon.svg"),
        "glossary.txt": packed_words(kinds, glossary),
        **{f"kind-{place}.txt": packed_kind(kind) for place, kind in enumerate(data)},
    }
    return {name: text.encode() for name, text in (files | {_WORKER: _worker(files)}).items()}


def _manifest(title: str, centre: str) -> str:
    """How a phone shows the site on its home screen (W3C, Web Application Manifest)."""
    return json.dumps(
        {
            "name": f"Practise: {title}",
            "short_name": centre[:12] or "Bricklaying",
            "start_url": ".",
            "display": "standalone",
            "background_color": "#fbfaf7",
            "theme_color": "#7d2b18",
            "icons": [{"src": "icon.svg", "sizes": "any", "type": "image/svg+xml"}],
        },
        ensure_ascii=False,
    )


def _worker(files: Mapping[str, str]) -> str:
    """The worker that keeps these files; another edition of any of them is another edition of all."""
    edition = hashlib.sha256("\0".join(text for pair in files.items() for text in pair).encode()).hexdigest()[:16]
    names = json.dumps([".", *files])
    return page_asset(_WORKER).replace("{{edition}}", f"practice-{edition}").replace("{{files}}", names)
