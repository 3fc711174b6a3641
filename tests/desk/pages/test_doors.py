"""Coming in and going."""

from __future__ import annotations

from http.cookies import SimpleCookie

from courseware.desk.passphrase import MOST_TRIES, Passphrase
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


def test_a_desk_with_a_passphrase_asks_for_it_and_lets_in_whoever_knows_it(work) -> None:
    sitter = Sitter(desk_over(work, passphrase=Passphrase("ten brown bricks")))
    assert 'name="passphrase"' in sitter.get("/").text
    wrong = sitter.post("/enter", data={"passphrase": "ten brown brick"})
    assert wrong.status_code == 401
    assert "That is not the passphrase" in words(wrong.text)
    assert sitter.get("/").status_code == 401
    assert sitter.post("/enter", data={"passphrase": "ten brown bricks"}).headers["location"] == "/"
    assert sitter.get("/").status_code == 200


def test_a_passphrase_is_not_tried_for_ever(work) -> None:
    sitter = Sitter(desk_over(work, passphrase=Passphrase("ten brown bricks")))
    for _ in range(MOST_TRIES):
        sitter.post("/enter", data={"passphrase": "x"})
    assert sitter.post("/enter", data={"passphrase": "ten brown bricks"}).status_code == 429


def test_a_desk_without_one_lets_nobody_in_by_any(client: Sitter) -> None:
    client.cookies.clear()
    assert client.post("/enter", data={"passphrase": ""}).status_code == 401
