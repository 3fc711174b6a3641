"""What one run of the desk holds: the folder of work, who sits at it, files by handle, long work."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, cast

from courseware.desk.chosen_folder import remember
from courseware.desk.handles import Handles
from courseware.desk.job_queue import Jobs, Made, MadeFile
from courseware.files.centre_file import CENTRE, find_settings
from courseware.files.record_location import record_url
from courseware.files.sitting_files import ALL_KEYS, ALL_PAPERS
from courseware.settings.settings import DEFAULTS, Settings
from courseware.words import count
from courseware.workflows.folders_of_work import OUTPUT
from courseware.workflows.going_on import go_on, stopped_issues
from courseware.workflows.watch import Watch

if TYPE_CHECKING:
    from sqlalchemy import URL
    from starlette.requests import Request

    from courseware.desk.address import Address
    from courseware.desk.passphrase import Passphrase
    from courseware.desk.sessions import Session, Sessions


class NoFolder(LookupError):
    """A page that needs a folder of work was asked for before one was chosen."""


class Desk:
    """One run of the server. `say` is told an address to open, whenever a browser has to come in."""

    def __init__(
        self,
        *,
        address: Address,
        sessions: Sessions,
        processes: int = 1,
        folder: Path | None = None,
        remembered: Path | None = None,
        passphrase: Passphrase | None = None,
        say: Callable[[str], None] = lambda _: None,
    ) -> None:
        self.address, self.sessions, self.processes = address, sessions, processes
        self.passphrase, self.say = passphrase, say
        self.handles, self.jobs = Handles(), Jobs()
        self._folder, self._remembered = folder, remembered

    @property
    def chosen(self) -> bool:
        """Whether there is a folder of work."""
        return self._folder is not None

    @property
    def folder(self) -> Path:
        """The folder of work. Raises `NoFolder`, which the desk answers with the page that asks for one."""
        if self._folder is None:
            raise NoFolder
        return self._folder

    @property
    def out(self) -> Path:
        """The folder of sittings and of all else that is made, as commands write it from the folder of work."""
        return self.folder / OUTPUT

    @property
    def centre_file(self) -> Path:
        """The centre's settings, which need not be there."""
        return self.folder / CENTRE

    def settings(self) -> Settings:
        """The centre's settings as they stand now. Raises `FileFaulty` or `NotFound`."""
        return find_settings(str(self.centre_file)) if self.centre_file.exists() else DEFAULTS

    def record(self) -> URL:
        """The record's address."""
        return record_url(None, self.out)

    def choose(self, folder: Path) -> None:
        """Works in this folder from now on, and next time too; goes on with what was stopped in it."""
        self._folder = folder.absolute()
        if self._remembered is not None:
            remember(self._remembered, self._folder)
        self.take_up()

    def take_up(self) -> None:
        """Goes on with the papers that a stopped run left unfinished in the folder of work."""
        for run in stopped_issues(self.out) if self.chosen else ():
            self.go_on(run.path, run.title)

    def go_on(self, path: Path, title: str) -> str:
        """Goes on with a stopped run as long work. Returns its id, or that of such work which is going on already."""
        words = f"Going on: {title}"
        for job in self.jobs.all():
            if job.title == words and not job.over:
                return job.id
        out, processes = self.out, self.processes

        def work(watch: Watch) -> Made:
            issued = go_on(out, path, processes, watch)
            if issued is None:
                return Made(says="These papers were finished or thrown away meanwhile.")
            return Made(
                says=f"{count(issued.papers, 'paper')} and keys in {issued.folder}",
                files=(
                    MadeFile(path=issued.folder / ALL_PAPERS, use="to print and hand out"),
                    MadeFile(path=issued.folder / ALL_KEYS, use="for yourself"),
                ),
                onward=(("The sitting", f"/sittings/{issued.code}"),),
            )

        return self.jobs.start(words, work)

    def offer(self) -> None:
        """Tells whoever started the desk an address that lets one browser in, unless one is waiting to be used."""
        token, new = self.sessions.offer()
        if new:
            self.say(f"{self.address.origin}/enter/{token}")


def desk_of(request: Request) -> Desk:
    """The desk that a request came to."""
    return cast("Desk", request.app.state.desk)


def session_of(request: Request) -> Session:
    """Who sent the request; the guard let nobody else through."""
    return cast("Session", request.state.session)
