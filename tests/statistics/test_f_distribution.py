"""Quantiles of F against SciPy's, and the beta function they rest on."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import beta, f

from courseware.statistics.f_distribution import beta_share, f_quantile


@pytest.mark.parametrize("share", [0.001, 0.025, 0.5, 0.975, 0.999])
@pytest.mark.parametrize("above", [1, 2, 9, 59, 400])
@pytest.mark.parametrize("below", [1, 2, 81, 1711, 40_000])
def test_quantiles_are_scipys(share: float, above: int, below: int) -> None:
    """Oracle: SciPy. The method: f-distribution, 26.5.8 and 26.6.2."""
    assert f_quantile(share, above, below) == pytest.approx(f.ppf(share, above, below), rel=1e-8)


@given(x=st.floats(0, 1 - 1e-9), a=st.floats(0.5, 500), b=st.floats(0.5, 500))
def test_the_incomplete_beta_function_is_scipys(x: float, a: float, b: float) -> None:
    """Up to where a float next to 1 has few digits left of what is missing to 1."""
    assert beta_share(x, a, b) == pytest.approx(beta.cdf(x, a, b), rel=1e-9, abs=1e-12)


@given(share=st.floats(0.01, 0.99), above=st.integers(1, 60), below=st.integers(1, 600))
def test_the_share_below_a_quantile_is_the_share_asked_for(share: float, above: int, below: int) -> None:
    found = f_quantile(share, above, below)
    assert beta_share(above * found / (above * found + below), above / 2, below / 2) == pytest.approx(share, rel=1e-9)


@pytest.mark.parametrize(("share", "above", "below"), [(0.0, 2, 2), (1.0, 2, 2), (0.5, 0, 2), (0.5, 2, 0)])
def test_what_has_no_quantile_is_refused(share: float, above: int, below: int) -> None:
    with pytest.raises(ValueError, match="no F quantile"):
        f_quantile(share, above, below)
