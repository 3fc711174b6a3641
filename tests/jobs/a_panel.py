"""A panel in a wall that the tests of jobs work out by hand, and the shipped jobs."""

from __future__ import annotations

from courseware.jobs.plan import plan_of
from courseware.jobs.task import read_profiles, read_task
from courseware.workflows.jobs import shipped_jobs

JOBS = list(shipped_jobs())
PROFILES = read_profiles((shipped_jobs()[JOBS[0]].parent / "tolerances.yaml").read_bytes(), "tolerances.yaml")
JOB = """\
job: A panel
hours: 6
bays: 3
opening: {bricks: 4, courses: 15}
wall: {bricks: 8, courses: 24, below: 4}
corner: mitred
starts: stretcher
projects: 25
eye_height: 1500
ahead: 3
waste: 10
mix: "1:5"
tolerances: NHBC Standards 2011
support: returns
mortar: cement
"""


def job(*changes: tuple[str, str]):
    """The plan of the job above with some of its lines changed."""
    text = JOB
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    return plan_of(read_task(text.encode(), "job.yaml", PROFILES))
