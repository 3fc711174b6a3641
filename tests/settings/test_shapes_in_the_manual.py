"""The manual has every key of `centre.yaml`, in the words that faults are told in.

Write the tables anew with `pytest tests/settings --refresh`.
"""

from __future__ import annotations

from pathlib import Path

from pydantic import BaseModel

from courseware.settings import shapes

README = Path(__file__).parents[2] / "README.md"
BEGIN, END = "<!-- settings: written by `pytest tests/settings --refresh` -->", "<!-- end of settings -->"
MODELS: tuple[tuple[str, type[BaseModel]], ...] = (
    ("`centre.yaml`", shapes.CentreShape), ("`signatures`", shapes.SignaturesShape), ("Each of them", shapes.SignedShape),
    ("`retention`", shapes.RetentionShape), ("A criterion", shapes.CriterionShape), ("Its evidence", shapes.EvidenceShape),
    ("`course`", shapes.CourseShape),
)  # fmt: skip


def table(title: str, model: type[BaseModel]) -> str:
    rows = [f"| `{name}` | {field.description} |" for name, field in model.model_fields.items()]
    return "\n".join([f"| {title} | what it holds |", "|---|---|", *rows])


def test_each_key_is_in_the_manual(request) -> None:
    text = README.read_text(encoding="utf-8")
    before, _, rest = text.partition(BEGIN)
    after = rest.partition(END)[2]
    tables = "\n\n".join(table(title, model) for title, model in MODELS)
    wanted = f"{before}{BEGIN}\n\n{tables}\n\n{END}{after}"
    if request.config.getoption("--refresh"):
        README.write_text(wanted, encoding="utf-8")
    assert README.read_text(encoding="utf-8") == wanted


def test_no_shape_is_left_out() -> None:
    own = {one for one in vars(shapes).values() if isinstance(one, type) and one.__module__ == shapes.__name__}
    assert own == {model for _, model in MODELS}
