"""`courseware desk`: everything the other commands do, as pages in the browser of this machine."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import click

from courseware.commands.options import cores, jobs_option, who_says

_LEAST_PASSPHRASE = 12  # characters
_PASSPHRASE = "COURSEWARE_PASSPHRASE"


@click.command()
@click.argument("folder", required=False, metavar="[FOLDER]")
@click.option("--no-browser", is_flag=True, help="Print the address only; open it yourself.")
@click.option("--port", type=click.IntRange(0, 65535), default=0, help="The port (any free one unless given).")
@click.option(
    "--lock-after", type=click.IntRange(1, 24 * 60), default=30, show_default=True, metavar="MINUTES",
    help="Lock the desk when nothing was done for so long.",
)  # fmt: skip
@click.option("--name", default=None, help="Who works at it (the name you are logged in by unless given).")
@jobs_option
def desk(folder: str | None, no_browser: bool, port: int, lock_after: int, name: str | None, jobs: int | None) -> None:
    """Open the desk in the browser: make papers, mark, see and keep, without a terminal.

    It works in FOLDER, else in the folder chosen last. Nothing leaves this machine. Ctrl+C ends it.
    """
    from courseware.desk.address import LOOPBACK, Address
    from courseware.desk.chosen_folder import last_folder, remembered_in
    from courseware.desk.desk import Desk
    from courseware.desk.serve import PortTaken, listen, server
    from courseware.desk.sessions import Sessions

    remembered = remembered_in()
    if folder is not None and not Path(folder).is_dir():
        raise click.BadParameter(f"{folder} is not a folder; make it first, or leave it out", param_hint="FOLDER")
    works_in = Path(folder).absolute() if folder is not None else last_folder(remembered)
    who = who_says(name, "--name")
    try:
        socket = listen(LOOPBACK, port)
    except PortTaken as taken:
        raise click.BadParameter(str(taken), param_hint="--port") from None
    made = Desk(
        address=Address(host=LOOPBACK, port=socket.getsockname()[1]),
        sessions=Sessions(who=who, idle=lock_after * 60),
        processes=cores(jobs),
        folder=works_in,
        remembered=remembered,
        say=_say(browser=not no_browser),
    )
    made.offer()
    with suppress(KeyboardInterrupt):  # the server lets it through once it has closed
        server(made).run(sockets=[socket])
    click.echo("The desk is closed.")


def _say(*, browser: bool) -> Callable[[str], None]:
    """Prints each new address; the first is opened in the browser too."""
    import webbrowser

    opened = False

    def say(address: str) -> None:
        nonlocal opened
        click.echo(f"The desk is open at {address}")
        if browser and not opened:
            opened = True
            webbrowser.open(address)

    return say
