"""Places, streets, clients and learners that do not exist, for settings and for the demonstration."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from courseware.papers.group import Group, Learner

if TYPE_CHECKING:
    from faker import Faker


_BUILDINGS = ("Hall", "Primary School", "Farm", "Works", "Library", "Mill", "Health Centre", "Cricket Club", "Yard")
_STREETS = ("Road", "Street", "Lane", "Close", "Avenue", "Terrace", "Row", "Way")


def invented_site(number: int) -> dict[str, str]:
    """A place, a street and a client for an exercise, from a number; kept in the sitting, since Faker changes."""
    fake = _faker()
    fake.seed_instance(number)
    return {
        "place": f"{fake.last_name()} {fake.random_element(_BUILDINGS)}",
        "street": f"{fake.last_name()} {fake.random_element(_STREETS)}",
        "client": f"{fake.prefix()} {fake.last_name()}",
    }


def invented_group(count: int, number: int) -> Group:
    """A college group of `count` invented learners."""
    fake = _faker()
    fake.seed_instance(number)
    learners = tuple(
        Learner(name=f"{fake.first_name()} {fake.last_name()}", reference=f"BL-{fake.numerify('####')}")
        for _ in range(count)
    )
    return Group(name="Bricklaying group A", learners=learners)


@lru_cache(maxsize=1)
def _faker() -> Faker:
    from faker import Faker  # takes a third of a second, and most commands do without

    return Faker("en_GB")
