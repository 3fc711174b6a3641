"""The plans of the shipped jobs."""

from __future__ import annotations

import pytest

from courseware.jobs.plan import plan_of
from courseware.workflows.jobs import find_job
from tests.jobs.a_panel import JOBS


@pytest.fixture(params=JOBS)
def plan(request):
    return plan_of(find_job(request.param))
