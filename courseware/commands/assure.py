"""`courseware sample`, `audit` and `criteria`: what a quality assurer asks for, from the record alone."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from pathlib import Path

_USUAL_SHARE = "10"  # percent: an example, no rule; centres set their own
_names_option = click.option("--names", is_flag=True, help="Show names beside codes.")
_out_option = click.option("--out", default="output", show_default=True, help="The folder that it is written to.")
_record_option = click.option(
    "--record", "url", default=None, metavar="URL", help="The record (record.sqlite in the --out folder unless given)."
)


class _Percent(click.ParamType[Fraction]):
    """A share as it is typed, `60` or `62.5` or `60%`, from above 0 to 100."""

    name = "percent"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Fraction:
        if isinstance(value, Fraction):
            return value
        text = str(value).strip().removesuffix("%").strip()
        whole, _, part = text.partition(".")
        if not (text.isascii() and f"{whole}{part}".isdigit() and len(text) <= 10 and 0 < Fraction(text) <= 100):
            self.fail(f"`{str(value)[:20]}` is not a share; write it in percent, as 10 or 62.5", param, ctx)
        return Fraction(text) / 100


@click.command()
@click.argument("sittings", nargs=-1, metavar="[SITTING]...")
@click.option("--papers", type=click.IntRange(1, 100_000), default=None, help="How many papers to look at.")
@click.option(
    "--share", type=_Percent(), default=None, help=f"Or what share, in percent ({_USUAL_SHARE} unless given)."
)
@click.option("--seed", default=None, help="A seed to draw the same sample again.")
@click.option(
    "--pass-line", type=_Percent(), multiple=True, help="A pass line in percent: papers just around it are taken."
)
@_names_option
@_record_option
@_out_option
def sample(sittings: tuple[str, ...], papers: int | None, share: Fraction | None, **options: Any) -> None:
    """Draw the papers that a quality assurer looks at, from SITTINGs (codes or folders; all in the record if none)."""
    if papers is not None and share is not None:
        raise click.UsageError("Give either --papers or --share.")
    from courseware.desk import assuring
    from courseware.desk.record_place import opened, record_url
    from courseware.errands import day

    _seed_is_sound(options["seed"])
    out = _out(options["out"])
    with opened(record_url(options["url"], out), make=False) as engine:
        found = assuring.sample(
            engine,
            assuring.sittings_meant(engine, sittings),
            papers or share or Fraction(_USUAL_SHARE) / 100,
            seed=options["seed"],
            pass_lines=options["pass_line"],
            names=options["names"],
            out=out,
            day=day(None),
        )
    from courseware.marking.sampling_sheet import chance_line

    plan = found.plan
    click.echo(f"{len(plan.picks)} of {plan.of} marked papers, drawn with the seed {plan.seed}:")
    _tell(found.files)
    for chance in plan.chances:
        click.echo(chance_line(plan, chance))


@click.command()
@click.argument("code", metavar="CODE")
@_names_option
@_record_option
@_out_option
def audit(code: str, names: bool, url: str | None, out: str) -> None:
    """Bind all that the record has of the paper CODE into one PDF: paper, key, script, marks and their history."""
    from courseware.desk.auditing import audit as bound
    from courseware.desk.record_place import opened, record_url
    from courseware.errands import day

    folder = _out(out)
    with opened(record_url(url, folder), make=False) as engine:
        file = bound(engine, code, names=names, out=folder, day=day(None))
    click.echo(f"Audit copy: {file}")


@click.command()
@click.argument("file", metavar="FILE")
@click.argument("sittings", nargs=-1, metavar="[SITTING]...")
@click.option("--bank", "banks", multiple=True, metavar="BANK", help="A bank of your own that FILE names; repeatable.")
@_names_option
@_record_option
@_out_option
def criteria(
    file: str, sittings: tuple[str, ...], banks: tuple[str, ...], names: bool, url: str | None, out: str
) -> None:
    """Map your centre's own criteria (FILE, YAML) to the parts that serve them and to learners' evidence.

    SITTINGs are codes or folders; all in the record if none is named.
    """
    from contextlib import nullcontext
    from pathlib import Path

    from courseware.desk.assuring import sittings_meant
    from courseware.desk.criteria_mapping import map_criteria
    from courseware.desk.record_place import opened, record_file, record_url
    from courseware.errands import day

    folder = _out(out)
    place = record_url(url, folder)
    there = record_file(place)
    missing = not sittings and there is not None and not there.exists()  # then criteria against parts alone
    with nullcontext() if missing else opened(place, make=False) as engine:
        codes = sittings_meant(engine, sittings) if engine is not None else ()
        found, files = map_criteria(engine, codes, Path(file), banks, names=names, out=folder, day=day(None))
    click.echo(f"{len(found.rows)} criteria, {len(found.people)} learners:")
    _tell(files)
    for row in found.rows:
        if row.gap:
            click.echo(f"No evidence yet for {row.criterion.code}: {row.gap}.")


def _seed_is_sound(seed: str | None) -> None:
    from courseware.papers.soundness import LONGEST_TITLE, plain

    if seed is not None and not (seed.strip() and plain(seed, LONGEST_TITLE)):
        advice = f"use 1 to {LONGEST_TITLE} characters, all of which can be seen"
        raise click.BadParameter(advice, param_hint="--seed")


def _out(out: str) -> Path:
    from pathlib import Path

    from courseware.errands import check_out

    check_out(out)
    return Path(out)


def _tell(files: tuple[Path, ...]) -> None:
    for file in files:
        click.echo(f"  {file}")
