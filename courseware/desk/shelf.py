"""Files of one kind, the tutor's own and those that come with the program, each at an address of its own."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Generic, TypeVar
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request

from courseware.desk.desk import desk_of
from courseware.files.bank_files import NotFound

OWN = "own"
Kind = TypeVar("Kind")


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf(Generic[Kind]):
    """Where a kind of file is shown: `address`, then `own` or the word for those that are `shipped`, then its name."""

    address: str
    shipped: str
    open_own: Callable[[Path, str], Kind]
    open_shipped: Callable[[str], Kind]

    async def opened(self, request: Request) -> Kind:
        """The file of the address, which is looked up among those that there are; else there is no such page."""
        name = request.path_params["name"]
        try:
            if self.is_own(request):
                return await run_in_threadpool(self.open_own, desk_of(request).folder, name)
            return await run_in_threadpool(self.open_shipped, name)
        except NotFound:
            raise HTTPException(404) from None

    def is_own(self, request: Request) -> bool:
        """Whether the address is of the tutor's own; one of neither is no page."""
        return self._whose(request) == OWN

    def at(self, request: Request) -> str:
        """The file's own address."""
        return f"{self.address}/{self._whose(request)}/{quote(request.path_params['name'], safe='')}"

    def _whose(self, request: Request) -> str:
        whose: str = request.path_params.get("whose", OWN)
        if whose not in (OWN, self.shipped):
            raise HTTPException(404)
        return whose
