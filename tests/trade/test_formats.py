"""A brick's own sizes fit its joints."""

from courseware.trade import (
    UK_METRIC,
)


def test_a_uk_brick_is_two_widths_and_a_joint_and_three_heights_and_two_joints() -> None:
    """Source: sheet-9 coordinating sizes."""
    assert UK_METRIC.length == 2 * UK_METRIC.width + 10 == 3 * UK_METRIC.height + 20
