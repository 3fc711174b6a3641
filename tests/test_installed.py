"""The shipped banks are found however the program is installed; where there are none that is an error, never silence."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from courseware.files import bank_files

ROOT = Path(__file__).parents[1]
NEEDED = ("pyproject.toml", "README.md", "LICENSE", "courseware", "question_banks")


@pytest.fixture(scope="module")
def wheel(tmp_path_factory) -> Path:
    """A wheel built from the source archive that is built from this checkout."""
    source = tmp_path_factory.mktemp("source")
    for name in NEEDED:
        copy = shutil.copytree if (ROOT / name).is_dir() else shutil.copy
        copy(ROOT / name, source / name)
    done = subprocess.run([sys.executable, "-m", "build", "--outdir", str(source / "made"), str(source)],
                          capture_output=True, text=True, check=False)  # fmt: skip
    assert done.returncode == 0, done.stdout + done.stderr
    [made] = (source / "made").glob("*.whl")
    return made


def install(wheel: Path, *options: str) -> None:
    subprocess.run(
        [sys.executable, "-m", "pip", "install", "-q", "--no-deps", "--ignore-installed", *options, str(wheel)],
        check=True,
    )


def run(place: Path, *words: str, away: Path) -> subprocess.CompletedProcess[str]:
    """The command run in another folder from what is installed at `place`."""
    return subprocess.run(
        [sys.executable, "-m", "courseware.cli", *words], cwd=away, capture_output=True, text=True, check=False,
        env={**os.environ, "PYTHONPATH": str(place)},
    )  # fmt: skip


@pytest.mark.parametrize("way", ["--target", "--prefix", "zip"])
def test_the_banks_are_found_in_every_kind_of_installation(wheel, tmp_path, way: str) -> None:
    """`--prefix` lays files out as `--user` and a pipx environment do; a zip is run without unpacking."""
    place = wheel
    if way != "zip":
        install(wheel, way, str(tmp_path / "there"))
        [place] = [path.parent for path in (tmp_path / "there").rglob("courseware") if path.is_dir()][:1]
    where = subprocess.run([sys.executable, "-c", "import courseware; print(courseware.__file__)"], cwd=tmp_path,
                           capture_output=True, text=True, check=True, env={**os.environ, "PYTHONPATH": str(place)})  # fmt: skip
    assert str(place) in where.stdout
    listed = run(place, "topics", away=tmp_path)
    assert listed.returncode == 0, listed.stderr
    for bank in (ROOT / "question_banks").glob("*.yaml"):
        assert bank.stem == "safety_notes" or f"{bank.stem}: " in listed.stdout
    proved = run(place, "check", "opening_sizes", away=tmp_path)
    assert proved.returncode == 0, proved.stderr
    assert "all 0 exercises" not in proved.stdout


def test_every_package_of_the_program_is_named_for_installing() -> None:
    import tomllib

    named = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["setuptools"]["packages"]
    there = {
        path.parent.relative_to(ROOT).as_posix().replace("/", ".")
        for path in (ROOT / "courseware").rglob("__init__.py")
    }
    banks = {f"courseware.question_banks{place}" for place in ("", ".glossary", ".jobs")}
    assert set(named) == there | banks


def test_an_installation_without_banks_is_an_error(tmp_path, monkeypatch) -> None:
    monkeypatch.setattr(bank_files, "files", lambda _: tmp_path)
    monkeypatch.setattr(bank_files, "__file__", str(tmp_path / "a/b/bank_files.py"))
    bank_files.shipped_folder.cache_clear()
    with pytest.raises(bank_files.NotFound, match="install it again"):
        bank_files.shipped_banks()
    (tmp_path / "question_banks").mkdir()
    with pytest.raises(bank_files.NotFound, match="no banks are in"):
        bank_files.shipped_banks()
    bank_files.shipped_folder.cache_clear()
