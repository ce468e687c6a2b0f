"""The papers: each in every form, what it may load, how its file is called, and what is wanting where one is not."""

from __future__ import annotations

import io
import re
import shutil
from base64 import b64encode
from collections.abc import Iterator
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from urllib.parse import unquote

import pytest
from pypdf import PdfReader
from starlette.testclient import TestClient

from lapwright.bench.app import build_app
from lapwright.bench.texts import load_texts
from lapwright.job.cure.choosing import accept_cure
from lapwright.job.paper_rack import SIZES, list_papers
from lapwright.job.shelf.workshop import Workshop, open_workshop
from tests.web.conftest import EXAMPLES, HERE

#: Width and height of the sheets in points.
BOXES = {"a4": (595.3, 841.9), "letter": (612.0, 792.0)}
TERN = list_papers(("A", "B"))


@pytest.fixture(scope="module")
def reader(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """A bench that is only read from: its engines are worked out once for all papers."""
    folder = tmp_path_factory.mktemp("harbour-museum")
    shutil.copy(EXAMPLES / "tern.toml", folder)
    workshop = open_workshop(folder)
    yield TestClient(build_app(workshop), base_url=HERE, headers={"accept": "text/html"}, client=("127.0.0.1", 50_000))
    workshop.close()


def read_pdf(client: TestClient, engine: str, key: str, size: str = "a4") -> PdfReader:
    """A paper's PDF, as it comes."""
    answer = client.get(f"/engine/{engine}/papers/{key}.pdf?size={size}")
    assert (answer.status_code, answer.headers["content-type"]) == (200, "application/pdf")
    return PdfReader(io.BytesIO(answer.content))


def read_words(reader: PdfReader) -> str:
    """All the words of a PDF."""
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in reader.pages))


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("key", ["card", "report", "valve-1", "timing-2", "run-1"])
def test_every_paper_comes_as_pdf_of_the_size_that_was_asked(reader: TestClient, key: str, size: str) -> None:
    pdf = read_pdf(reader, "tern", key, size)
    pages = [(float(page.mediabox.width), float(page.mediabox.height)) for page in pdf.pages]
    assert pages == [pytest.approx(BOXES[size], abs=0.1)] * len(pages)
    assert len(pages) == 1 if "-" in key else len(pages) > 4
    assert "Tern" in read_words(pdf)


def test_the_report_tells_findings_and_both_runs_and_no_steps(reader: TestClient) -> None:
    report, card = (read_words(read_pdf(reader, "tern", key)) for key in ("report", "card"))
    for heading in ("What was found", "How it runs, before and after", "The valve is 1.64 mm too long", "Because"):
        assert heading in report
        assert heading in card
    assert "What puts it right" in report
    assert "What to do" in card
    assert "What to do" not in report
    assert "To have ready" not in report


@pytest.mark.parametrize("key", [paper.key for paper in TERN])
def test_a_page_may_load_nothing_and_wear_its_own_style_alone(reader: TestClient, key: str) -> None:
    answer = reader.get(f"/engine/tern/papers/{key}.html")
    assert answer.status_code == 200
    policy = answer.headers["content-security-policy"]
    styles = re.findall(r"<style>(.*?)</style>", answer.text, re.DOTALL)
    assert len(styles) == 1
    digest = b64encode(sha256(styles[0].encode()).digest()).decode()
    assert f"style-src 'sha256-{digest}'" in policy
    assert policy.startswith("default-src 'none'")
    assert "unsafe" not in policy
    assert "<script" not in answer.text
    assert " style=" not in answer.text


def test_a_drawing_comes_as_svg_in_true_millimetres_and_loads_nothing(reader: TestClient) -> None:
    answer = reader.get("/engine/tern/papers/valve-2.svg?size=letter")
    assert answer.headers["content-type"].startswith("image/svg+xml")
    assert 'width="215.9mm" height="279.4mm"' in answer.text
    assert "The valve on its face, cylinder B" in answer.text
    assert "unsafe" not in answer.headers["content-security-policy"]


@pytest.mark.parametrize(
    ("file", "name"),
    [
        ("card.pdf?size=letter", "tern-job-card-letter.pdf"),
        ("report.html?", "tern-report.html"),
        ("valve-2.svg?", "tern-valve-2.svg"),
        ("run-1.pdf?size=a4", "tern-pressure-cards-1-a4.pdf"),
    ],
)
def test_a_file_is_called_after_its_engine_and_saved_only_when_that_is_asked(
    reader: TestClient, file: str, name: str
) -> None:
    shown = reader.get(f"/engine/tern/papers/{file}").headers["content-disposition"]
    saved = reader.get(f"/engine/tern/papers/{file}&save=1").headers["content-disposition"]
    assert unquote(shown) == f"inline; filename*=utf-8''{name}"
    assert unquote(saved) == f"attachment; filename*=utf-8''{name}"


def test_the_page_lists_the_papers_of_every_cylinder_and_marks_the_one_it_shows(reader: TestClient) -> None:
    text = reader.get("/engine/tern/papers?paper=timing-2&size=letter").text
    assert [paper.key for paper in TERN] == [*dict.fromkeys(re.findall(r"\?paper=([a-z0-9-]+)&", text))]
    assert 'src="/engine/tern/papers/timing-2.html?size=letter"' in text
    assert re.search(r'paper=timing-2&amp;size=letter" aria-current="page"', text)
    assert 'sandbox="allow-same-origin allow-modals"' in text


def test_what_there_is_not_is_refused(client: TestClient) -> None:
    for path in (
        "papers?paper=poster",
        "papers?size=a0",
        "papers/poster.pdf",
        "papers/card.svg",
        "papers/card.dxf",
        "papers/card.pdf?size=a0",
        "papers/valve-3.pdf",
        "papers/..%2Ftern.toml",
        "papers/card",
    ):
        assert client.get(f"/engine/tern/{path}").status_code == 404, path
    assert client.get("/engine/wren/papers").status_code == 404
    assert client.get("/engine/wren/papers/card.pdf").status_code == 404


def test_an_engine_with_too_few_sizes_has_its_card_and_is_told_what_is_wanting_for_the_rest(
    client: TestClient, folder: Path
) -> None:
    (folder / "wren.toml").write_text('format = 1\n[engine]\nname = "Wren"\n[[cylinder]]\nname = "A"\n', "utf-8")
    assert client.get("/engine/wren/papers").status_code == 200
    assert "Wren" in read_words(read_pdf(client, "wren", "card"))
    assert "not known" in read_words(read_pdf(client, "wren", "report")).lower()
    for kind, wanting in (("valve", "valve length"), ("timing", "steam port"), ("run", "cannot be run")):
        page = client.get(f"/engine/wren/papers/{kind}-1.html")
        assert (page.status_code, wanting in page.text) == (200, True), kind
        assert "Too little is known" in page.text
        refused = client.get(f"/engine/wren/papers/{kind}-1.pdf")
        assert (refused.status_code, wanting in refused.text) == (404, True), kind


def test_a_record_that_cannot_be_read_is_told_line_by_line_with_the_way_to_mend_it(
    client: TestClient, folder: Path
) -> None:
    (folder / "wren.toml").write_text('format = 1\n[engine]\nname = "Wren"\n[[cylinder]]\nbore = "wide"\n', "utf-8")
    page = client.get("/engine/wren/papers")
    assert page.status_code == 200
    assert re.search(r"Line 5: .*wide", page.text)
    assert 'href="/engine/wren/measure"' in page.text
    assert client.get("/engine/wren/papers/card.pdf").status_code == 400


def test_the_papers_follow_the_cure_that_was_chosen(client: TestClient, workshop: Workshop) -> None:
    cures = [cure for cure in workshop.visit("tern").cures if cure.cylinder == "A"]
    before = read_words(read_pdf(client, "tern", "card"))
    accept_cure(workshop, "tern", cures[1], now=datetime(2026, 3, 2, 12))
    after = read_words(read_pdf(client, "tern", "card"))
    work = after[after.index("What to do") : after.index("Setting the valve")]
    assert cures[1].title.split(" (")[0] in work
    assert cures[0].title in before[before.index("What to do") : before.index("Setting the valve")]
    assert before != after


def test_every_kind_of_paper_and_every_form_has_its_words() -> None:
    words = load_texts().papers
    assert set(vars(words.kinds)) == {paper.kind for paper in TERN}
    assert set(vars(words.save)) == {form for paper in TERN for form in paper.forms}
    assert set(vars(words.sizes)) == set(SIZES)
