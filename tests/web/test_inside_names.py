"""Codes and record keys are the program's own: no page of the bench shows one to a person."""

from __future__ import annotations

import io
import re
from html import unescape

import pytest
from pypdf import PdfReader
from starlette.testclient import TestClient

from lapwright.findings.finding import CODES, PART_CODES
from lapwright.job.visit import examine
from lapwright.papers.measure_terms import TERMS
from tests.web.conftest import EXAMPLES

ENGINES = sorted(path.stem for path in EXAMPLES.glob("*.toml"))
#: What a key ends on, where that is no word that people use.
_KEY = re.compile(r"\b[a-z_]+\.(?:[a-zA-Z0-9]+\.)*(?:" + "|".join(key.rpartition(".")[2] for key in TERMS) + r")\b")
#: Hyphenated words that people use, too.
_ENGLISH = {"cut-off", "turn-eccentric"}


def read(text: str) -> str:
    """What a person sees of a page, in letters."""
    plain = re.sub(r"<(script|style)\b.*?</\1>|<[^>]*>", " ", text, flags=re.DOTALL)
    return " ".join(unescape(plain).split())


def list_inside_names(words: str, codes: set[str]) -> list[str]:
    shown = [code for code in codes if re.search(rf"(?<![\w-]){re.escape(code)}(?![\w-])", words)]
    return [*shown, *(found[0] for found in _KEY.finditer(words))]


def list_codes(engine: str) -> set[str]:
    cures = {cure.code for cure in examine(EXAMPLES / f"{engine}.toml").cures}
    return {*CODES, *PART_CODES, *cures, *(part for code in cures for part in code.split("+"))} - {"overtravel"}


@pytest.mark.parametrize("engine", ENGINES)
def test_no_page_shows_a_code_or_a_record_key(client: TestClient, engine: str) -> None:
    codes, here = list_codes(engine), f"/engine/{engine}"
    for cure in examine(EXAMPLES / f"{engine}.toml").cures[:1]:
        sent = {"cylinder": cure.cylinder, "code": cure.code}
        assert client.post(f"{here}/findings/cure/accept", data=sent).status_code == 303
        pages = [f"{here}/findings/{page}" for page in ("cure", "cure/tried", "done")]
        for page in pages:
            shown = client.get(page, params=sent)
            assert shown.status_code == 200, page
            assert list_inside_names(read(shown.text), codes) == [], page
    sheet = client.get(f"{here}/findings/sheet").text
    for ref in re.findall(r'name="ref" value="([^"]*)"', sheet):
        client.post(f"{here}/findings/check", data={"ref": unescape(ref), "outcome": "yes"})
    for page in ("findings", "findings/sheet", "run", "run/turn", "log", "before-after"):
        answer = client.get(f"{here}/{page}")
        assert list_inside_names(read(answer.text), codes) == [], page
    pdf = PdfReader(io.BytesIO(client.get(f"{here}/dossier.pdf").content))
    words = " ".join(" ".join(page.extract_text() for page in pdf.pages).split())
    assert list_inside_names(words, codes) == []


def test_an_entry_of_an_earlier_log_is_shown_in_words_and_written_so_when_it_is_changed(client: TestClient) -> None:
    sent = {"kind": "found", "text": "Looked at.", "reading_name": ["finding", "the check says", "valve_drive.throw"],
            "reading_value": ["A gland-leaks gland of the valve spindle", "so", "2.8200 mm"]}  # fmt: skip
    entry = client.post("/engine/tern/log", data=sent, headers={"accept": "application/json"}).json()["entry"]
    words = read(client.get("/engine/tern/log").text)
    assert "finding A: gland leaks, gland of the valve spindle" in words
    assert "throw 2.82 mm" in words
    form = client.get(f"/engine/tern/log/{entry}").text
    assert 'value="A: gland leaks, gland of the valve spindle"' in form
    assert "valve_drive" not in form
