"""`courseware sample`: the papers that a quality assurer looks at, drawn from the record."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

import click

from courseware.commands.options import by_centre, date_option, day, folder_of, names_option, out_option, record_option
from courseware.text_files.faults import harmless
from courseware.words import count

_USUAL_SHARE = "10"  # percent: an example, no rule; centres set their own


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
@click.option("--results", metavar="PLAN", default=None, help="Enter what was filled in on a plan's workbook.")
@click.option("--actions", is_flag=True, help="List the actions of earlier samples that are still open.")
@date_option
@names_option
@record_option
@out_option
@by_centre("sample")
def sample(
    sittings: tuple[str, ...],
    papers: int | None,
    share: Fraction | None,
    results: str | None,
    actions: bool,
    **options: Any,
) -> None:
    """Draw the papers that a quality assurer looks at, from SITTINGs (codes or folders; all in the record if none)."""
    if papers is not None and share is not None:
        raise click.UsageError("Give either --papers or --share.")
    if results is not None or actions:
        if sittings or papers is not None or share is not None:
            raise click.UsageError("--results and --actions draw no sample; give them alone.")
        _results(results, options)
        return
    from courseware.files.record_location import opened, record_url
    from courseware.workflows import quality

    _seed_is_sound(options["seed"])
    out = folder_of(options["out"])
    with opened(record_url(options["url"], out), make=False) as engine:
        found = quality.sample(
            engine,
            quality.sittings_meant(engine, sittings),
            papers or share or Fraction(_USUAL_SHARE) / 100,
            options["settings"],
            seed=options["seed"],
            pass_lines=options["pass_line"],
            names=options["names"],
            out=out,
            day=day(options["date"]),
        )
    from courseware.quality.sampling_sheet import chance_line

    plan = found.plan
    click.echo(f"{len(plan.picks)} of {plan.of} marked papers, drawn with the seed {plan.seed}:")
    for file in found.files:
        click.echo(f"  {file}")
    for chance in plan.chances:
        click.echo(chance_line(plan, chance))


def _results(plan: str | None, options: Mapping[str, Any]) -> None:
    """Enters a plan's results, where one is given, and lists what is open in any."""
    from pathlib import Path

    from courseware.database.sample_results import results_of
    from courseware.files.record_location import opened, record_url
    from courseware.quality.sample_results import open_actions
    from courseware.workflows.quality import enter_results

    with opened(record_url(options["url"], folder_of(options["out"])), make=False) as engine:
        if plan is not None:
            entered = enter_results(engine, Path(plan))
            for results, says in ((entered.new, "entered"), (entered.changed, "changed")):
                click.echo(f"{count(len(results), 'result')} {says}.")
        still_open = open_actions(results_of(engine))
    click.echo(f"{count(len(still_open), 'action')} open{':' if still_open else '.'}")
    for one in still_open:
        click.echo(f"  {one.day}  {one.code}  {harmless(one.action)} ({one.by}, plan {one.plan})")


def _seed_is_sound(seed: str | None) -> None:
    from courseware.papers.sitting_checks import LONGEST_TITLE, is_plain

    if seed is not None and not (seed.strip() and is_plain(seed, LONGEST_TITLE)):
        advice = f"use 1 to {LONGEST_TITLE} characters, all of which can be seen"
        raise click.BadParameter(advice, param_hint="--seed")
