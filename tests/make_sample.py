"""Makes again the sample sitting in output/ and the manual's pictures of it: `python tests/make_sample.py`."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

import pypdfium2
from click.testing import CliRunner

from courseware.cli import main

SAMPLE = Path(__file__).parents[1] / "output" / "sample"
CLASS = "Ref,Name\n1041,Priya Nair\n1042,Tomasz Lewandowski\n"  # invented
PICKED = ("opening-for-a-panel", "band-above-the-eye")
WIDTH = 900  # pixels


def make() -> None:
    """One sitting for two invented learners, with a typed seed so that it comes out the same."""
    with tempfile.TemporaryDirectory() as folder:
        group = Path(folder, "evening-group.csv")
        group.write_text(CLASS, encoding="utf-8")
        words = ["issue", "opening_sizes", "projection_levelling", "--group", str(group), "--out", folder, "--seed",
                 "sample", "--date", "2026-01-05", "--title", "Setting out"]  # fmt: skip
        done = CliRunner().invoke(main, [*words, *(word for name in PICKED for word in ("--pick", name))])
        assert done.exit_code == 0, done.output
        [made] = [path for path in Path(folder).iterdir() if path.is_dir()]
        shutil.rmtree(SAMPLE, ignore_errors=True)
        shutil.copytree(made, SAMPLE)
    for name, pattern in (
        ("paper", "for-learners/paper-*.pdf"),
        ("key", "for-tutor/key-*.pdf"),
        ("grid", "for-tutor/class-grid.pdf"),
    ):
        page = pypdfium2.PdfDocument(sorted(SAMPLE.glob(pattern))[0])[0]
        page.render(scale=WIDTH / page.get_width()).to_pil().convert("L").quantize(16).save(
            SAMPLE / f"{name}.png", optimize=True
        )


if __name__ == "__main__":
    make()
