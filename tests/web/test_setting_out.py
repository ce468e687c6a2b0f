"""Figures on the pages: together with their units, with a true minus, and to the letter where they are read again."""

from __future__ import annotations

import re
from html import unescape

import pytest
from starlette.testclient import TestClient

from lapwright.bench.setting_out import set_out
from lapwright.quantities import read_length
from lapwright.quantities.spacing import space_figures

KEPT, MINUS = "\N{NO-BREAK SPACE}", "\N{MINUS SIGN}"


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("1.02 N m of torque", "1.02~N~m of torque"),
        ("12.7 ± 0.02 mm", "12.7~±~0.02~mm"),
        ("3/4 in ± 2 thou", "3/4~in~±~2~thou"),
        ("1 1/2 in (38.10 mm)", "1~1/2~in (38.10~mm)"),
        ("4.0 lbf in at 300 rpm, 2 bar", "4.0~lbf~in at 300~rpm, 2~bar"),
        ("76 % of 90 deg", "76~% of 90~deg"),
        ("-0.78 mm, -19 degC (-2.2 °F)", "−0.78~mm, −19~degC (−2.2~°F)"),
        ("from -.5 to -360 deg", "from −.5 to −360~deg"),
        # No figures of a measure: days, threads, ranges, counts.
        ("2026-11-25 17:37", "2026-11-25 17:37"),
        ("No 5-40 UNC, 1/4-20 UNC", "No 5-40~UNC, 1/4-20~UNC"),
        ("7 BA x 3/8 in", "7~BA x 3/8~in"),
        ("5 metres, 3 inside, 4 minutes, 2 sets", "5 metres, 3 inside, 4 minutes, 2 sets"),
        ("well-known - 4 of them", "well-known - 4 of them"),
    ],
)
def test_a_number_keeps_to_its_unit_and_what_is_less_than_nothing_has_a_minus(written: str, shown: str) -> None:
    assert space_figures(written) == shown.replace("~", KEPT)


def test_what_is_shown_can_be_written_into_a_record_as_it_stands() -> None:
    for written in ("12.7 ± 0.02 mm", "3/4 in ± 2 thou", "1 1/2 in"):
        assert read_length(space_figures(written)) == read_length(written)
    assert read_length(space_figures("-0.78 mm")).metres == read_length("-0.78 mm").metres


@pytest.mark.parametrize(
    "page",
    [
        '<input value="-0.5 mm" placeholder="such as 2 bar">',
        '<a href="/x?at=-1 mm">',
        "<textarea>\n-0.5 mm</textarea>",
        "<select><option>-0.5 mm</option></select>",
        '<script type="application/json">{"a": "-0.5 mm"}</script>',
        '<pre>bore = "-0.5 mm"</pre>',
        "<code>-0.5 mm</code>",
        "<svg><text>-0.5 mm</text></svg>",
    ],
)
def test_what_is_read_again_stays_to_the_letter(page: str) -> None:
    assert set_out(page) == page
    assert set_out(f"<p>-0.5 mm</p>{page}<p>-0.5 mm</p>") == f"<p>{MINUS}0.5{KEPT}mm</p>{page}<p>{MINUS}0.5{KEPT}mm</p>"


@pytest.mark.parametrize("page", ["turn", "findings/sheet", "measure"])
def test_no_shown_page_has_a_figure_apart_from_its_unit(client: TestClient, page: str) -> None:
    client.event_hooks = {}
    text = client.get(f"/engine/tern/{page}").text
    words = unescape(
        re.sub(r"<(script|style|svg|textarea|select|pre|code).*?</\1>|<[^>]*>", "|", text, flags=re.DOTALL)
    )
    assert f"{KEPT}mm" in words
    assert re.findall(r"\d (?:mm|bar|rpm|in|deg|N m|mN m|%)(?!\w)|(?:^|[\s|(])-\.?\d", words) == []


def test_what_was_written_into_a_field_comes_back_as_it_was(client: TestClient) -> None:
    client.event_hooks = {}
    stamp = client.get("/engine/tern/stamp").json()["digest"]
    sent = {"digest": stamp, "key": "cylinder.0.cylinder_offset", "seen": None, "value": "-0.5 ± 0.02 mm"}
    assert client.post("/engine/tern/change", json=sent, headers={"accept": "application/json"}).status_code == 200
    assert 'value="-0.5 ± 0.02 mm"' in client.get("/engine/tern/measure").text
