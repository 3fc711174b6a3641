"""The locked versions are those of everything that the tests need, and fit what the project says it needs."""

from __future__ import annotations

import tomllib
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

TOP = Path(__file__).parents[1]


def locked() -> dict[str, str]:
    lines = (TOP / ".ci" / "locked.txt").read_text(encoding="utf-8").splitlines()
    pairs = [line.split("==") for line in lines if not line.startswith("#")]
    assert all(len(pair) == 2 for pair in pairs)  # a version each, no address and nothing of this machine
    return {canonicalize_name(name): version for name, version in pairs}


def test_every_requirement_is_locked_to_a_version_that_it_allows() -> None:
    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"]
    assert set(extras["quick"]) < set(extras["tests"])
    wanted = [Requirement(text) for text in (*project["dependencies"], *extras["tests"])]
    versions = locked()
    assert {need.name for need in wanted if canonicalize_name(need.name) not in versions} == set()
    assert [str(need) for need in wanted if versions[canonicalize_name(need.name)] not in need.specifier] == []


def test_the_project_itself_is_not_locked() -> None:
    assert "bricklaying-courseware" not in locked()
