"""Link and code: what is given out, how often it may be tried, and that it opens once."""

from __future__ import annotations

import re
from collections.abc import Iterator
from http.cookies import SimpleCookie

import pytest
from starlette.testclient import TestClient

from lapwright.bench.access import COOKIE, Access, Sharing, is_this_machine
from lapwright.bench.app import build_app
from lapwright.errors import NotAllowed
from lapwright.job.shelf.workshop import Workshop

HERE = "http://127.0.0.1"
TABLET = ("192.0.2.7", 50_000)
OUTSIDE = "192.0.2.1"


@pytest.fixture
def sharing() -> Sharing:
    return Sharing(link="link-as-shown", code="012345")


@pytest.fixture
def tablet(workshop: Workshop, sharing: Sharing) -> Iterator[TestClient]:
    app = build_app(workshop, access=Access(frozenset({OUTSIDE, "127.0.0.1"}), sharing))
    origin = f"http://{OUTSIDE}:8460"
    headers = {"origin": origin, "accept": "text/html"}
    with TestClient(app, base_url=origin, headers=headers, client=TABLET, follow_redirects=False) as made:
        yield made


def test_link_and_code_cannot_be_guessed_or_foretold() -> None:
    several = [Sharing() for _ in range(50)]
    assert len({sharing.link for sharing in several}) == 50
    assert len({sharing.code for sharing in several}) > 45
    for sharing in several:
        assert len(sharing.link) >= 22
        assert len(sharing.code) == 6
        assert sharing.code.isdecimal()


def test_the_right_link_and_code_let_one_in_once(sharing: Sharing) -> None:
    token = sharing.let_in("link-as-shown", " 012345 ")
    assert len(token) >= 32
    assert sharing.knows_guest(token)
    assert not sharing.is_open
    assert not sharing.knows_link("link-as-shown")
    with pytest.raises(NotAllowed, match="link is not open"):
        sharing.let_in("link-as-shown", "012345")
    assert sharing.knows_guest(token)


def test_a_wrong_code_may_be_tried_five_times(sharing: Sharing) -> None:
    told = []
    for code in ("", "12345", "0123456", "é²３４５６", "012346"):
        with pytest.raises(NotAllowed) as refused:
            sharing.let_in("link-as-shown", code)
        told.append(refused.value.instead)
    assert told == [
        "4 tries are left",
        "3 tries are left",
        "2 tries are left",
        "1 try is left",
        "start the bench again for a new link",
    ]
    with pytest.raises(NotAllowed, match="link is not open"):
        sharing.let_in("link-as-shown", "012345")


def test_a_wrong_link_costs_no_try_and_tells_nothing_of_the_code(sharing: Sharing) -> None:
    """Or else anybody on the network could use the tries up."""
    for link in ("", "link-as-show", "link-as-shown ", "LINK-AS-SHOWN", "\udcff", "é"):
        for code in ("012345", "999999"):
            with pytest.raises(NotAllowed, match="link is not open"):
                sharing.let_in(link, code)
    assert sharing.let_in("link-as-shown", "012345")


def test_nobody_is_known_before_somebody_was_let_in(sharing: Sharing) -> None:
    for token in ("", "link-as-shown", "012345", "\udcff"):
        assert not sharing.knows_guest(token)


@pytest.mark.parametrize(
    ("address", "is_ours"),
    [
        ("127.0.0.1", True),
        ("127.8.9.1", True),
        ("::1", True),
        ("0.0.0.0", False),
        ("10.0.0.1", False),
        ("169.254.1.1", False),
        ("fe80::1", False),
        ("127.0.0.1.harm.example", False),
        ("127.1", False),
        ("localhost", False),
        ("", False),
    ],
)
def test_this_machine_is_told_by_its_address(address: str, is_ours: bool) -> None:
    assert is_this_machine(address) is is_ours


def test_the_way_in_through_the_pages(tablet: TestClient) -> None:
    assert tablet.get("/").status_code == 403
    asked = tablet.get("/join/link-as-shown")
    assert asked.status_code == 200
    assert 'action="/join/link-as-shown"' in asked.text
    assert tablet.post("/join/link-as-shown", data={"code": "999999"}).status_code == 403
    let_in = tablet.post("/join/link-as-shown", data={"code": "012 345"})
    assert (let_in.status_code, let_in.headers["location"]) == (303, "/")
    cookie = SimpleCookie(let_in.headers["set-cookie"])[COOKIE]
    assert cookie["httponly"]
    assert cookie["samesite"] == "strict"
    assert cookie["path"] == "/"
    # The test client has kept it, as a browser does.
    shelf = tablet.get("/")
    assert shelf.status_code == 200
    assert "you may look at everything" in shelf.text
    assert tablet.get("/join/link-as-shown").status_code == 403
    assert tablet.post("/new", data={"name": "Wren"}).status_code == 403


def test_a_mistyped_code_is_asked_for_again_until_the_tries_are_used_up(tablet: TestClient) -> None:
    for left in ("4 tries are", "3 tries are", "2 tries are", "1 try is"):
        again = tablet.post("/join/link-as-shown", data={"code": "999999"})
        assert again.status_code == 403
        assert f"The code is not the one shown at the bench: {left} left." in again.text
        assert 'name="code"' in again.text
    last = tablet.post("/join/link-as-shown", data={"code": "999999"})
    assert 'name="code"' not in last.text
    assert "start the bench again for a new link" in last.text


def test_nobody_outside_is_shown_ways_that_are_shut_to_them(tablet: TestClient) -> None:
    asked = (
        tablet.get("/join/link-as-shown"),
        tablet.get("/join/wrong"),
        tablet.get("/"),
        tablet.get("/engine/tern/log"),
    )
    for page in asked:
        assert "<nav" not in page.text
        assert 'href="/"' not in page.text
        assert "You are a guest" not in page.text
    tablet.post("/join/link-as-shown", data={"code": "012345"})
    assert "<nav" in tablet.get("/").text


def test_a_guest_who_may_only_look_is_offered_nothing_that_would_be_refused(tablet: TestClient) -> None:
    tablet.post("/join/link-as-shown", data={"code": "012345"})
    sizes = tablet.get("/engine/tern/measure").text
    fields = re.findall(r'<(?:input|textarea)[^>]*name="text[^>]*>', sizes)
    assert len(fields) > 30
    assert [field for field in fields if "readonly" not in field] == []
    assert [field for field in re.findall(r"<select[^>]*>", sizes) if "disabled" not in field] == []
    own = ("measure", "findings", "findings/sheet", "findings/cure?cylinder=A&code=shorten-valve", "run", "log", "turn")
    for page in ("/", "/log", "/tables", *(f"/engine/tern/{name}" for name in own)):
        shown = tablet.get(page)
        assert shown.status_code == 200, page
        assert 'method="post"' not in shown.text, page


def test_another_page_cannot_enter_for_a_guest(tablet: TestClient) -> None:
    answer = tablet.post("/join/link-as-shown", data={"code": "012345"}, headers={"origin": "http://harm.example"})
    assert answer.status_code == 403
    assert "set-cookie" not in answer.headers
    assert tablet.get("/join/link-as-shown").status_code == 200


@pytest.mark.parametrize(
    "link", ["x", "link-as-shown%20", "%00", "..", "%2e%2e", "LINK-AS-SHOWN", "%ff", "%F0%9F%90%A6"]
)
def test_a_link_that_was_not_shown_leads_nowhere(tablet: TestClient, link: str) -> None:
    for answer in (tablet.get(f"/join/{link}"), tablet.post(f"/join/{link}", data={"code": "012345"})):
        assert answer.status_code in {403, 404}
        assert "012345" not in answer.text
        assert "link-as-shown" not in answer.text


def test_a_code_sent_as_a_file_or_twice_is_no_code(tablet: TestClient) -> None:
    assert tablet.post("/join/link-as-shown", files={"code": b"012345"}).status_code == 400
    assert tablet.post("/join/link-as-shown").status_code == 403
    assert tablet.post("/join/link-as-shown", json={"code": "012345"}).status_code == 403
    assert tablet.get("/").status_code == 403


def test_a_bench_that_is_not_shared_has_no_way_in(client: TestClient) -> None:
    assert client.get("/join/anything").status_code == 403
    assert client.post("/join/anything", data={"code": "012345"}).status_code == 403
