"""`courseware rename`: a name put right on the learner's own sheets and the class's."""

from __future__ import annotations

from io import BytesIO

from pypdf import PdfReader

from tests.commands.conftest import files, issue, run
from tests.commands.test_join import WHOLE_CLASS, rows_of


def test_a_name_is_put_right_everywhere_and_the_code_and_the_questions_stay(desk) -> None:
    folder = issue()
    before = files(folder)
    done = run("rename", folder, "0014", "--name", "Zoë O'Brien")
    assert done.exit_code == 0, done.output
    code = done.output.split()[0]
    after = files(folder)
    assert {name for name in after if before.get(name) != after[name]} == {
        *WHOLE_CLASS, f"for-learners/paper-{code}.pdf", f"for-tutor/key-{code}.pdf",
    }  # fmt: skip
    assert after.keys() == before.keys()
    text = PdfReader(BytesIO(after[f"for-learners/paper-{code}.pdf"])).pages[0].extract_text()
    assert "Zoë O'Brien" in text
    assert "Smythe" not in text
    assert rows_of(after["for-tutor/marking-sheet.xlsx"])[3][:3] == (code, "Zoë O'Brien", "0014")


def test_a_reference_is_put_right_too_and_a_learner_nobody_knows_is_told(desk) -> None:
    folder = issue()
    assert run("rename", folder, "0014", "--name", "Zoë Smythe", "--reference", "0099").exit_code == 0
    assert run("rename", folder, "0099", "--name", "Zoë Smythe").exit_code == 0
    unknown = run("rename", folder, "0014", "--name", "Zoë Smythe")
    assert unknown.exit_code == 2
    assert "0014" in unknown.output
