"""Widths and edges of a port face and of a valve, told one way and the other."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.engine.cylinder import assemble_cylinder
from lapwright.errors import CannotChange
from lapwright.job.measure.edges import turn_edges
from lapwright.record import OpenedRecord, read_record

MM = st.integers(50, 900).map(lambda hundredths: hundredths / 100)


def open_text(text: str) -> OpenedRecord:
    return read_record(f'format = 1\n[engine]\nname = "x"\n[[cylinder]]\n{text}'.encode())


@given(port=MM, bridge=MM, exhaust=MM)
def test_a_face_told_by_its_edges_is_the_same_face(port: float, bridge: float, exhaust: float) -> None:
    widths = f'steam_port = "{port} mm"\nbridge = "{bridge} mm" # thin\nexhaust_port = "{exhaust} mm"\n'
    record = open_text(f"[cylinder.port_face]\n{widths}")
    turned = read_record(turn_edges(record, "cylinder.0.port_face").encode())
    back = read_record(turn_edges(turned, "cylinder.0.port_face").encode())
    for other in (turned, back):
        assert other.is_sound
        assert record.engine is not None
        assert other.engine is not None
        faces = [assemble_cylinder(each.engine.cylinders[0]).face for each in (record, other) if each.engine]
        assert faces[0] is not None
        assert faces[1] is not None
        for end in ("head", "crank"):
            assert faces[1][end].outer == pytest.approx(faces[0][end].outer, rel=1e-5)
            assert faces[1][end].inner == pytest.approx(faces[0][end].inner, rel=1e-5)
        assert "# thin" in other.text


@pytest.mark.parametrize(
    "text",
    [
        '[cylinder.valve]\nlength = "1/2 in"\ncavity = "1/4 in"\n',
        'valve = { length = "1/2 in", cavity = "1/4 in" }\n',
        'valve.length = "1/2 in"\nvalve.cavity = "1/4 in"\n',
        '[cylinder.valve]\n"length" = "1/2 in"\ncavity = "1/4 in"\n',
    ],
)
def test_however_it_is_written_the_unit_stays(text: str) -> None:
    turned = read_record(turn_edges(open_text(text), "cylinder.0.valve").encode())
    assert [turned.written[f"cylinder.0.valve.edges.{i}"] for i in range(4)] == [
        "0 in",
        "0.125 in",
        "0.375 in",
        "0.5 in",
    ]


def test_what_is_assumed_of_a_face_serves_until_the_edges_are_read() -> None:
    turned = read_record(
        turn_edges(open_text('[cylinder.port_face]\nsteam_port = "2 mm"\n'), "cylinder.0.port_face").encode()
    )
    assert turned.written["cylinder.0.port_face.edges.5"] == "12 mm"


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ('[cylinder.valve]\nlength = "14 mm"\n', "cylinder.0.valve"),
        ('[cylinder.valve]\nedges = ["0 mm", "3", "11 mm", "14 mm"]\n', "cylinder.0.valve"),
        ("", "cylinder.0.valve_drive"),
        ("", "cylinder.3.valve"),
        ("", "valve"),
    ],
)
def test_what_cannot_be_turned_is_refused_in_words(text: str, path: str) -> None:
    with pytest.raises(CannotChange):
        turn_edges(open_text(text), path)
