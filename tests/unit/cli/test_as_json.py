"""JSON as it is printed: the same when read back, lists of numbers on one line, never what is not a number."""

from __future__ import annotations

import json

import pytest

from lapwright.cli.as_json import print_json

RESULTS = {
    "format": 1,
    "note": "a list [ 1, 2 ]\nin text",
    "card": {"crank_deg": [0.0, -1.5, 2e-07], "empty": []},
    "arcs": [[1.0, 2.5], [-3, 4]],
    "mixed": [1, "two", None],
}


def test_what_is_printed_reads_back_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    print_json(RESULTS)
    out = capsys.readouterr().out
    assert json.loads(out) == RESULTS
    assert "[0.0, -1.5, 2e-07]" in out
    assert "[1.0, 2.5]" in out
    assert out.startswith('{\n  "format": 1,\n')


def test_what_is_not_a_number_is_never_printed(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(ValueError, match="JSON"):
        print_json({"power": float("nan")})
    assert capsys.readouterr().out == ""
