"""`courseware desk`: everything the other commands do, as pages in the browser of this machine."""

from __future__ import annotations

import os
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

import click

from courseware.commands.options import cores, jobs_option, who_says

if TYPE_CHECKING:
    from courseware.desk.passphrase import Passphrase

_PASSPHRASE = "COURSEWARE_PASSPHRASE"


@click.command()
@click.argument("folder", required=False, metavar="[FOLDER]")
@click.option(
    "--shortcut", is_flag=True, help="Write a file to double-click that starts the desk, and do nothing else."
)
@click.option("--no-browser", is_flag=True, help="Print the address only; open it yourself.")
@click.option("--port", type=click.IntRange(0, 65535), default=0, help="The port (any free one unless given).")
@click.option(
    "--listen",
    metavar="ADDRESS",
    default=None,
    help="Let other machines in too, at this IP address of this one, by a passphrase: see the manual's warning.",
)
@click.option(
    "--lock-after", type=click.IntRange(1, 24 * 60), default=30, show_default=True, metavar="MINUTES",
    help="Lock the desk when nothing was done for so long.",
)  # fmt: skip
@click.option("--name", default=None, help="Who works at it (the name you are logged in by unless given).")
@jobs_option
def desk(
    folder: str | None,
    shortcut: bool,
    no_browser: bool,
    port: int,
    listen: str | None,
    lock_after: int,
    name: str | None,
    jobs: int | None,
) -> None:
    """Open the desk in the browser: make papers, mark, see and keep, without a terminal.

    It works in FOLDER, else in the folder chosen last. Nothing leaves this machine. Ctrl+C ends it.
    """
    from courseware.desk import serve
    from courseware.desk.address import LOOPBACK, Address, NotAnAddress, host_of, stays_here
    from courseware.desk.chosen_folder import last_folder, remembered_in
    from courseware.desk.desk import Desk
    from courseware.desk.sessions import Sessions

    remembered = remembered_in()
    if folder is not None and not Path(folder).is_dir():
        raise click.BadParameter(f"{folder} is not a folder; make it first, or leave it out", param_hint="FOLDER")
    if shortcut:
        _write_shortcut(folder)
        return
    works_in = Path(folder).absolute() if folder is not None else last_folder(remembered)
    who = who_says(name, "--name")
    try:
        host = LOOPBACK if listen is None else host_of(listen)
        passphrase = None if stays_here(host) else _passphrase(host)
        socket = serve.listen(host, port)
    except NotAnAddress as wrong:
        raise click.BadParameter(str(wrong), param_hint="--listen") from None
    except serve.PortTaken as taken:
        raise click.BadParameter(str(taken), param_hint="--port") from None
    made = Desk(
        address=Address(host=host, port=socket.getsockname()[1]),
        sessions=Sessions(who=who, idle=lock_after * 60),
        processes=cores(jobs),
        folder=works_in,
        remembered=remembered,
        passphrase=passphrase,
        say=_say(browser=not no_browser),
    )
    made.offer()
    with suppress(KeyboardInterrupt):  # the server lets it through once it has closed
        serve.server(made).run(sockets=[socket])
    click.echo("The desk is closed.")


def _write_shortcut(folder: str | None) -> None:
    from courseware.files.launcher import desktop_folder, this_program, write_launcher

    words = this_program("desk", *([str(Path(folder).absolute())] if folder is not None else []))
    made = write_launcher(words, desktop_folder())
    click.echo(f"Double-click to open the desk: {made}")
    if made.suffix == ".desktop":
        click.echo("  Your system may ask first whether it may be started: right-click it and allow that.")


def _passphrase(host: str) -> Passphrase:
    """The passphrase of a desk that other machines can reach, from the environment or typed twice; with the warning."""
    from courseware.desk.passphrase import LEAST, Passphrase

    click.echo(
        f"Warning: other machines can reach this desk at {host}. Names, answers and marks go over the network as they "
        "are, not encrypted: do this only on a network that you trust, and end it when you are done.",
        err=True,
    )
    typed = os.environ.get(_PASSPHRASE) or click.prompt(
        "A passphrase for it", hide_input=True, confirmation_prompt=True
    )
    if len(typed.strip()) < LEAST:
        raise click.UsageError(f"A passphrase has at least {LEAST} characters; nothing was opened.")
    return Passphrase(typed.strip())


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
