"""What was sent, in files under names of our own, gone when it is read."""

from __future__ import annotations

from pathlib import Path

from courseware.desk.forms import Upload
from courseware.desk.sent_files import sent_as_files


def test_what_was_sent_stands_in_files_under_names_of_our_own_and_gone_when_read() -> None:
    sent = [Upload(name=name, data=b"x") for name in ("amara.xlsx", "..\\..\\amara.xlsx", "../../etc/passwd", "砖.CSV")]
    with sent_as_files(sent) as files:
        paths = [Path(path) for path in files]
        assert [path.name for path in paths] == ["amara.xlsx", "amara.xlsx", "passwd.csv", "sheet.csv"]
        assert list(files.values()) == ["amara.xlsx", "amara.xlsx", "passwd", "砖.CSV"]
        assert len({path.parent.parent for path in paths}) == 1
        assert all(path.read_bytes() == b"x" for path in paths)
    assert not paths[0].parent.exists()
