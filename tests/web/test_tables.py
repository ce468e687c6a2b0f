"""The tables' page: every look-up answers, every slip gets its sentence, and nothing anybody writes is a fault."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from urllib.parse import urlencode

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from lapwright.bench.app import build_app
from lapwright.bench.texts import load_texts
from lapwright.job.lookup.lookups import LOOKUPS
from lapwright.job.shelf.workshop import open_workshop

EXAMPLES = [(of, said) for of, lookup in LOOKUPS.items() for said in lookup.examples]
#: A slip in each look-up: what is said, the field it stands in, what is told, and a way out that is offered.
SLIPS = [
    ("thread", {"q": "4BAX"}, "q", '"4BAX" is no thread of the tables', "4 BA"),
    ("thread", {"q": "4BA", "against": "M3.51"}, "against", '"M3.51" is no thread of the tables', "M3.5"),
    ("which", {"q": "3/4"}, "q", "3/4 has no unit", "3/4 in"),
    ("drill", {"q": "30"}, "q", "30 has no unit", "No 30"),
    ("drill", {"q": "4BA", "depth": "0.7"}, "depth", "0.7 has no unit", "70 %"),
    ("gland", {"rod": "4", "bore": "8 mm"}, "rod", "4 has no unit", "4 mm"),
    ("gland", {"rod": "4 mm", "bore": "8 mm", "material": "nitrite"}, "material", '"nitrite" is not a word', "ramie"),
    ("screw", {"q": "4BA", "hole": "brss"}, "hole", '"brss" is not a word', "brass"),
    ("grub", {"q": "M4", "hold": "0,05 N m"}, "hold", "has a comma in the number", "0.05 N m"),
    ("rethread", {"q": "4BA", "wall": "3"}, "wall", "3 has no unit", "3 mm"),
    ("fit", {"q": "6 mm", "fit": "H7/g"}, "fit", "H7/g", "H7/g6"),
    ("finish", {"metal": "cast iron", "surface": "350"}, "surface", "350 has no unit", "350 cm2"),
]


def ask(client: TestClient, of: str, said: dict[str, str], *, path: str = "/tables/answer") -> tuple[int, str]:
    """The status and the text of an answer."""
    answer = client.get(f"{path}?{urlencode({'of': of, **said})}")
    return answer.status_code, unescape(answer.text)


@pytest.mark.parametrize(("of", "said"), EXAMPLES)
def test_every_example_is_answered_with_its_sources(client: TestClient, of: str, said: dict[str, str]) -> None:
    status, text = ask(client, of, said)
    assert status == 200
    assert 'data-state="good"' in text
    assert "What it rests on" in text


@pytest.mark.parametrize(("of", "said"), EXAMPLES)
def test_an_address_that_was_kept_shows_question_and_answer(client: TestClient, of: str, said: dict[str, str]) -> None:
    status, text = ask(client, of, said, path="/tables")
    assert status == 200
    assert 'data-state="good"' in text
    kept = re.search(r'data-address="([^"]+)"', text)
    assert kept
    again = client.get(kept[1])
    assert again.status_code == 200
    assert f'data-address="{kept[1]}"' in unescape(again.text)


@pytest.mark.parametrize(("of", "said", "field", "sentence", "way"), SLIPS)
def test_a_slip_gets_its_sentence_its_field_and_a_way_out_that_works(
    client: TestClient, of: str, said: dict[str, str], field: str, sentence: str, way: str
) -> None:
    status, text = ask(client, of, said)
    assert status == 200, "somebody still types: that is no refusal"
    assert f'data-state="bad" data-field="{field}"' in text
    assert sentence in text
    assert f'data-words="{way}"' in text
    address = re.search(rf'href="([^"]+)" data-field="{field}" data-words="{re.escape(way)}"', text)
    assert address
    assert 'data-state="good"' in client.get(address[1]).text


def test_a_slip_in_an_address_is_refused_with_400_and_keeps_what_was_written(client: TestClient) -> None:
    status, text = ask(client, "gland", {"rod": "4", "bore": "8 mm"}, path="/tables")
    assert status == 400
    assert "4 has no unit" in text
    assert 'value="8 mm"' in text
    assert 'aria-invalid="true"' in text


def test_what_is_not_asked_to_the_end_waits_and_what_there_is_not_is_refused(client: TestClient) -> None:
    assert 'data-state="wanting"' in ask(client, "gland", {"rod": "4 mm"})[1]
    assert 'data-state="wanting"' in ask(client, "thread", {"q": "   "})[1]
    status, text = ask(client, "threads", {"q": "4BA"}, path="/tables")
    assert status == 400
    assert '"threads" is not a word for this' in text
    assert ask(client, "thread", {"q": "9" * 500})[1].count("is longer than anything that is asked here") == 1
    assert client.get("/tables?engine=wren").status_code == 404
    assert client.get("/tables?engine=..%2F..%2Fetc").status_code == 404


def test_the_answer_is_the_terminals_own(client: TestClient) -> None:
    text = re.sub(r"<[^>]+>", "", ask(client, "drill", {"q": "4BA"})[1])
    assert "3.00 mm (0.1181 in): 76 % of the full depth" in text
    assert "Clamp the work, wear eye protection" in text
    assert "(from memory)" in text


def test_cautions_stand_before_the_steps_that_want_them(client: TestClient) -> None:
    for said in ({"rod": "4 mm", "bore": "8 mm"}, {"rod": "4 mm", "bore": "8 mm", "material": "FFKM"}):
        text = ask(client, "gland", said)[1]
        assert 0 < text.index("Old packing") < text.index("How it is done")


def test_an_engine_gives_its_own_questions_and_each_is_answered(client: TestClient) -> None:
    text = client.get("/tables?engine=turnstone").text
    links = [unescape(link) for link in re.findall(r'<li><a href="([^"]+engine=turnstone)"', text)]
    assert len(links) >= 12
    assert {re.findall("of=([a-z]+)", link)[0] for link in links} >= {"gland", "grub", "rethread", "screw", "finish"}
    for link in links:
        answer = client.get(link)
        assert (answer.status_code, 'data-state="good"' in answer.text) == (200, True), link
    assert "From Turnstone" in text


def test_every_field_has_a_name_and_no_word_is_idle() -> None:
    words = load_texts().tables.lookups
    assert set(vars(words)) == set(LOOKUPS)
    for of, lookup in LOOKUPS.items():
        names = {field.name for field in lookup.fields}
        assert set(vars(getattr(words, of).fields)) == names
        assert set(vars(getattr(words, of).hints)) <= names


def test_what_is_written_stays_text(client: TestClient) -> None:
    for path in ("/tables", "/tables/answer"):
        text = client.get(path, params={"of": "thread", "q": '"><script>alert(1)</script>'}).text
        assert "<script>alert" not in text


PIECES = st.sampled_from(
    [
        "4BA",
        "M4",
        "1/4",
        " x 40",
        "3.5",
        " mm",
        " in",
        "±",
        "0",
        "-",
        "1e999",
        "nan",
        "\u0000",
        "<b>",
        "½",
        "٣",
        "No ",
        "%",
    ]
)
TEXTS = st.one_of(st.text(max_size=90), st.lists(PIECES, max_size=6).map("".join))


@st.composite
def questions(draw: st.DrawFn) -> dict[str, str]:
    """Anything at all in the fields of one look-up, often beside something sensible."""
    of = draw(st.sampled_from(list(LOOKUPS)))
    lookup = LOOKUPS[of]
    sensible = dict(draw(st.sampled_from(lookup.examples)))
    odd = draw(st.dictionaries(st.sampled_from([field.name for field in lookup.fields]), TEXTS, max_size=4))
    return {"of": of, **sensible, **odd}


@pytest.fixture(scope="module")
def quiet(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """One client for very many questions."""
    folder: Path = tmp_path_factory.mktemp("workshop")
    workshop = open_workshop(folder)
    yield TestClient(
        build_app(workshop),
        base_url="http://127.0.0.1",
        headers={"accept": "text/html"},
        client=("127.0.0.1", 50_000),
    )
    workshop.close()


@settings(max_examples=250, deadline=None)
@given(question=questions())
def test_nothing_that_can_be_written_is_a_fault(quiet: TestClient, question: dict[str, str]) -> None:
    answer = quiet.get("/tables/answer", params=question)
    assert answer.status_code == 200
    state = re.search('data-state="(good|bad|wanting)"', answer.text)
    assert state
    page = quiet.get("/tables", params=question)
    assert page.status_code == (400 if state[1] == "bad" else 200)


@pytest.mark.parametrize(("written", "ways"), [("o.75 in", ["0.75 in"]), ("abt 3.55 mm", ["3.55 mm"]), ("large", [])])
def test_what_is_offered_is_never_an_example(client: TestClient, written: str, ways: list[str]) -> None:
    page = client.get("/tables", params={"of": "which", "q": written, "pitch": "38 tpi"}).text
    assert re.findall(r'data-words="([^"]*)"', page) == ways


def test_no_two_fields_of_a_look_up_are_called_alike() -> None:
    for name, words in vars(load_texts().tables.lookups).items():
        names = list(vars(words.fields).values())
        assert len(set(names)) == len(names), name
