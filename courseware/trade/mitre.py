"""The mitred bat: the half brick on either side of a surround's corner, cut to meet its mirror image.

Common practice, no source; all of it follows from the geometry. The corner piece's outer corner is the origin, x runs
along the run, y inwards; the bat is a half brick standing square to the run, one joint on from the corner piece. The
mitre joint runs on the line that halves the corner, half a joint to each side of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from courseware.trade.angles import root, sine_and_cosine
from courseware.trade.errors import TradeError, size
from courseware.trade.exact import Exact, number
from courseware.trade.formats import UK_METRIC, Format

Point = tuple[Fraction, Fraction]
_SQUARE = Fraction(90)


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """A mitred bat, in mm. `outline` goes round the bat from its outer end by the corner piece.

    `angle` is half the corner's, in degrees: that of the cut to the run. `leg` is what the cut takes off the inner end,
    `side_leg` what it takes off the side, `cut_length` the length of the cut.
    """

    outline: tuple[Point, ...]
    angle: Fraction
    leg: Fraction
    side_leg: Fraction
    cut_length: Fraction
    width: Fraction
    depth: Fraction

    @property
    def other_hand(self) -> tuple[Point, ...]:
        """The bat's mirror image, for the run on the other side of the corner: turned over about its own middle."""
        low, high = self.outline[0][0], self.outline[1][0]
        return tuple((low + high - x, y) for x, y in reversed(self.outline))


def mitre_template(format: Format = UK_METRIC, corner: Exact = 90) -> Template:
    """The bat for a corner of so many degrees, in a surround of this format.

    A piece is as wide as a brick is high and as deep as a brick is wide; its joint is what it leaves of a third of the
    module. Raises `TradeError` where no joint is left, and where the corner is so sharp or so blunt that the cut would
    miss the bat or run on into the next piece.

    >>> bat = mitre_template()
    >>> float(round(bat.leg, 2)), float(round(bat.cut_length, 2)), bat.angle
    (34.57, 48.89, Fraction(45, 1))
    """
    degrees = number(corner)
    wide, deep, joint = format.height, format.width, piece_joint(format)
    if not 0 < degrees < 180:
        raise TradeError(f"a corner of {size(degrees)} degrees cannot be mitred: it must lie between 0 and 180")
    angle = degrees / 2
    slope, off = _mitre_line(angle, joint)
    near, far = wide + joint, 2 * wide + joint
    start = near * slope - off  # how deep the side by the corner piece still is
    end = (deep + off) / slope  # where along the run the cut comes out of the inner end
    if start <= 0 or end > far:
        raise TradeError(
            f"a corner of {size(degrees)} degrees is too sharp for one bat: the cut runs past its {size(wide)} mm"
        )
    if start >= deep:
        raise TradeError(f"a corner of {size(degrees)} degrees is too blunt: the mitre does not reach the bat")
    inner = ((end, deep),) if end == far else ((far, deep), (end, deep))
    outline: tuple[Point, ...] = ((near, Fraction(0)), (far, Fraction(0)), *inner, (near, start))
    return Template(
        outline=outline,
        angle=angle,
        leg=end - near,
        side_leg=deep - start,
        cut_length=root((end - near) ** 2 + (deep - start) ** 2),
        width=wide,
        depth=deep,
    )


def piece_joint(format: Format) -> Fraction:
    """The joint between two pieces of a surround: what a brick's height leaves of a third of the module, in mm."""
    joint = format.module / 3 - format.height
    if joint <= 0:
        raise TradeError(
            f"{format.name} bricks cannot stand three to a module: each is {size(format.height)} mm, a third of the "
            f"module {size(format.module / 3)} mm, which leaves no joint"
        )
    return joint


def _mitre_line(angle: Fraction, joint: Fraction) -> tuple[Fraction, Fraction]:
    """The bat's edge of the mitre joint, y = slope x - off: half a joint, measured square, below the halving line."""
    if 2 * angle == _SQUARE:
        return Fraction(1), joint * root(Fraction(1, 2))
    sine, cosine = sine_and_cosine(angle)
    return sine / cosine, joint / (2 * cosine)
