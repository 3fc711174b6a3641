"""Coming in and going."""

from __future__ import annotations

from http.cookies import SimpleCookie

from tests.desk.conftest import Sitter, desk_over, words


def test_the_start_address_gives_a_cookie_and_a_clean_address_once(work) -> None:
    told: list[str] = []
    desk = desk_over(work, say=told.append)
    desk.offer()
    sitter = Sitter(desk)
    entered = sitter.get(told[0])
    assert (entered.status_code, entered.headers["location"]) == (303, "/")
    [cookie] = SimpleCookie(entered.headers["set-cookie"]).values()
    assert cookie.key == "desk-8123"
    assert cookie["httponly"]
    assert cookie["samesite"] == "strict"
    assert not cookie["domain"]
    assert sitter.get("/").status_code == 200
    again = sitter.get(told[0])
    assert again.status_code == 403
    assert "works once" in words(again.text)
    assert len(told) == 2


def test_signing_out_locks_the_desk_and_offers_a_new_address(client: Sitter) -> None:
    cookie = dict(client.cookies)
    gone = client.fill("/sign-out")
    assert "You have signed out" in words(gone.text)
    client.cookies.update(cookie)
    assert client.get("/").status_code == 401
    client.cookies.clear()
    client.come_in()
    assert client.get("/").status_code == 200


def test_typing_keeps_the_desk_open(client: Sitter) -> None:
    assert client.fill("/awake").status_code == 204


def test_keys_have_a_page_too(client: Sitter) -> None:
    assert "shows the keys" in words(client.get("/keys").text)
