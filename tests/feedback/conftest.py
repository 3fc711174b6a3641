"""Sittings of two topics, each with its sources and the proved spaces of its exercises."""

from __future__ import annotations

import pytest


@pytest.fixture(scope="session")
def on_openings(composed, space_of):
    """A sitting on openings, its sources, and the proved spaces of its exercises."""
    return _with_spaces(*composed("opening_sizes"), space_of)


@pytest.fixture(scope="session")
def on_sequences(composed, space_of):
    return _with_spaces(*composed("sequence_of_work"), space_of)


def _with_spaces(sitting, sources, space_of):
    return sitting, sources, {name: space_of(*pair) for name, pair in sources.exercises.items()}
