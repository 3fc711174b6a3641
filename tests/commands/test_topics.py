"""`courseware topics`: what there is to ask."""

from __future__ import annotations

from courseware.files.bank_files import shipped_banks
from tests.commands.conftest import run


def test_topics_lists_every_shipped_topic_and_note() -> None:
    told = run("topics").output
    for path in shipped_banks():
        assert f"{path.stem}: " in told
    assert "Safety notes: " in told
