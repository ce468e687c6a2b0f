"""Pictures a rule can be laid on: a 12 mm valve on 2 mm ports, measured off the SVG."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import pairwise
from math import cos, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.engine.sizes import Sizes
from lapwright.papers.drawing import Drawing, Hatch, lay_hatch
from lapwright.papers.flags import SIZE, Flag, stand_flags
from lapwright.papers.svg import svg_text
from lapwright.papers.timing_picture import LEFT, RIGHT, draw_timing
from lapwright.papers.valve_picture import Frame, draw_section, fit_frame, show_scale
from tests.unit.papers.matters import cylinder, list_texts, span_of

Ring = list[tuple[float, float]]
SVG = "{" + "http" + "://www.w3.org/2000/svg}"
NEAR = 0.0011


def draw(sizes: Sizes, stand: str = "middle") -> tuple[Frame, ET.Element]:
    """A cylinder's picture as a reader of SVG has it, and its frame."""
    frame = fit_frame([sizes], width=178.0, margin=30.0)
    assert frame is not None
    return frame, ET.fromstring(svg_text(draw_section(sizes, frame, stand=stand, title="t")))


def rings(picture: ET.Element, layer: str, shape: str) -> list[Ring]:
    """The points of every line (polyline) or area (polygon) of a layer."""
    found = picture.findall(f"./{SVG}g[@class='{layer}']/{SVG}{shape}")
    return [[(float(x), float(y)) for x, y in (p.split(",") for p in each.attrib["points"].split())] for each in found]


def spans(found: list[Ring]) -> list[tuple[float, float]]:
    return [(min(x for x, _ in ring), max(x for x, _ in ring)) for ring in found]


def outline_of_valve(picture: ET.Element) -> Ring:
    (ring,) = rings(picture, "outline", "polygon")
    return ring


def test_the_valve_is_12_mm_long_and_its_cavity_7_at_the_scale_of_the_frame() -> None:
    frame, picture = draw(cylinder())
    ring = outline_of_valve(picture)
    xs = sorted({x for x, _ in ring})
    assert xs[-1] - xs[0] == pytest.approx(12.0 * frame.scale, abs=NEAR)
    assert xs[2] - xs[1] == pytest.approx(7.0 * frame.scale, abs=NEAR)
    assert (xs[0] + xs[-1]) / 2 == pytest.approx(frame.width / 2, abs=NEAR)


def test_the_picture_is_as_large_as_it_says() -> None:
    frame, picture = draw(cylinder())
    width, height = (float(picture.attrib[key].removesuffix("mm")) for key in ("width", "height"))
    assert width == frame.width
    assert [float(x) for x in picture.attrib["viewBox"].split()] == [0, 0, width, height]


def test_ports_and_bridges_stand_where_they_were_measured() -> None:
    """Face 2 + 2 + 3.4 + 2 + 2 mm, outermost edges 5.7 mm from the middle."""
    frame, picture = draw(cylinder())
    edges = [-5.7, -3.7, -1.7, 1.7, 3.7, 5.7]
    wanted = [frame.width / 2 + frame.scale * edge for edge in edges]
    walls = sorted({x for ring in rings(picture, "outline", "polyline") for x, _ in ring})
    assert walls[1:-1] == pytest.approx(wanted, abs=NEAR)


def test_a_lap_is_drawn_from_the_edge_of_the_port_to_the_edge_of_the_valve() -> None:
    """Steam lap (12 - 11.4) / 2 = 0.3 mm, exhaust lap (7.4 - 7) / 2 = 0.2 mm."""
    frame, picture = draw(cylinder())
    words = [text.text for text in picture.iter(f"{SVG}text")]
    assert words.count("steam lap 0.30") == 2
    assert words.count("exhaust lap 0.20") == 2
    upright = [ring[0][0] for ring in rings(picture, "dimension", "polyline") if ring[0][0] == ring[1][0]]
    gaps = [b - a for a, b in pairwise(sorted(set(upright)))]
    assert sum(gap == pytest.approx(0.3 * frame.scale, abs=2 * NEAR) for gap in gaps) == 2
    assert sum(gap == pytest.approx(0.2 * frame.scale, abs=2 * NEAR) for gap in gaps) == 2


def test_an_inside_admission_valve_has_its_steam_in_the_middle_and_its_steam_laps_inside() -> None:
    inside = replace(cylinder(), kind="piston", admission="inside")
    _, picture = draw(inside)
    words = [text.text for text in picture.iter(f"{SVG}text")]
    assert words.count("exhaust lap 0.30") == 2
    assert words.count("steam lap 0.20") == 2
    _, picture = draw(inside, "head")
    assert [text.text for text in picture.iter(f"{SVG}text")].count("steam") == 1


@pytest.mark.parametrize("stand", ["middle", "head", "crank"])
def test_the_bar_is_as_long_as_it_says(stand: str) -> None:
    frame, picture = draw(cylinder(), stand)
    (words,) = [text.text for text in picture.iter(f"{SVG}text") if " mm at " in (text.text or "")]
    length, scale = re.fullmatch(r"([\d.]+) mm at (.*)", words).groups()
    assert scale == show_scale(frame.scale)
    (bar,) = [ring for ring in rings(picture, "thin", "polyline") if len(ring) == 4]
    assert bar[-1][0] - bar[0][0] == pytest.approx(float(length) * frame.scale, abs=NEAR)
    assert 8.0 <= bar[-1][0] - bar[0][0] <= 20.0


@given(head=st.floats(0.3, 5.0), wide=st.floats(0.1, 60.0))
def test_the_scale_is_one_that_a_workshop_uses_and_the_largest_that_fits(head: float, wide: float) -> None:
    frame = fit_frame([cylinder(length=12.0 * wide, throw=head)], width=178.0, margin=30.0)
    assert frame is not None
    assert frame.scale * frame.reach <= 178.0 / 2 - 30.0 + 1e-9
    steps = (0.1, 0.2, 0.25, 0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 8.0, 10.0, 20.0, 50.0)
    assert frame.scale in steps
    larger = [step for step in steps if step > frame.scale]
    assert not larger or larger[0] * frame.reach > 178.0 / 2 - 30.0


@pytest.mark.parametrize(("offset", "towards"), [(0.5, -1), (-0.5, 1)])
def test_a_valve_set_towards_the_head_end_stands_to_the_left(offset: float, towards: int) -> None:
    frame, picture = draw(cylinder(valve_offset=offset))
    xs = [x for x, _ in outline_of_valve(picture)]
    middle = (min(xs) + max(xs)) / 2
    assert middle - frame.width / 2 == pytest.approx(towards * 0.5 * frame.scale, abs=NEAR)


def test_the_chest_stands_where_its_walls_are() -> None:
    frame, picture = draw(cylinder(chest_head=7.5, chest_crank=8.5))
    wanted = [frame.width / 2 - 7.5 * frame.scale, frame.width / 2 + 8.5 * frame.scale]
    top = max(y for ring in rings(picture, "outline", "polyline") for _, y in ring)
    upright = [ring[0][0] for ring in rings(picture, "outline", "polyline") if len(ring) == 2 and ring[0][1] < top]
    for wall in wanted:
        assert any(x == pytest.approx(wall, abs=NEAR) for x in upright)


def test_the_opening_at_a_dead_centre_is_drawn_as_wide_as_it_is_told() -> None:
    frame, picture = draw(cylinder(), "head")
    (words,) = [text.text for text in picture.iter(f"{SVG}text") if "open to steam by" in (text.text or "")]
    told = float(re.findall(r"[\d.]+", words)[0])
    port = frame.width / 2 - 5.7 * frame.scale
    left = min(x for x, _ in outline_of_valve(picture))
    assert left - port == pytest.approx(told * frame.scale, abs=0.0051 * frame.scale)
    assert told > 0.1


def test_where_the_valve_stands_is_not_known_nothing_is_said_of_its_openings() -> None:
    _, picture = draw(cylinder(throw=None), "head")
    words = [text.text for text in picture.iter(f"{SVG}text")]
    assert "where the valve stands is not known" in words
    assert "port open to steam: not known" in words
    assert rings(picture, "flow", "polyline") == []


def chart(sizes: Sizes) -> Drawing:
    drawn = draw_timing(sizes, None, width=178.0)
    assert drawn is not None
    return drawn


def test_a_flag_stands_at_its_angle_on_the_chart() -> None:
    drawing = chart(cylinder())
    staffs = {round(line.points[0][0], 3) for line in drawing.shapes if getattr(line, "layer", "") == "dimension"}
    told = [
        text.words for text in list_texts(drawing) if re.match(r"(admission|cut-off|release|compression) ", text.words)
    ]
    assert len(told) == 8
    for words in told:
        deg = float(re.findall(r"([\d.]+)°", words)[0])
        x = LEFT + (178.0 - LEFT - RIGHT) * deg / 360
        assert any(abs(staff - x) < 0.05 * 155 / 360 + 0.001 for staff in staffs), words


def test_a_dead_centre_is_marked_once_and_both_ends_of_the_turn_alike() -> None:
    words = [text.words for text in list_texts(chart(cylinder()))]
    assert words.count("100 %") == 1
    assert words.count("0 %") == 2
    assert words.count("50 %") == 2


def test_a_chart_of_a_single_acting_engine_has_one_panel() -> None:
    words = [text.words for text in list_texts(chart(cylinder(piston_rod=None)))]
    assert "Head end" in words
    assert "Crank end" not in words


FLAG_WORDS = st.sampled_from(("cut-off 306.0° (was 322.6°)", "lead 1°"))
FLAGS = st.lists(st.builds(Flag, st.floats(18.0, 173.0), FLAG_WORDS, st.just((18.0, 178.0))), max_size=5)


@given(flags=FLAGS)
def test_flags_stay_within_their_room_and_two_never_cover_each_other(flags: list[Flag]) -> None:
    texts = [shape for shape in stand_flags(flags, foot=0.0, row=5.0, step=5.0) if hasattr(shape, "words")]
    assert sorted(text.words for text in texts) == sorted(flag.words for flag in flags)
    for text in texts:
        left, right = span_of(text)
        assert left >= 18.0 - 1e-9
        assert right <= 178.0 + 1e-9
        assert text.size == SIZE
    if len(texts) == 2 and texts[0].at[1] == texts[1].at[1]:
        first, second = sorted(map(span_of, texts))
        assert first[1] <= second[0]


@given(
    angle=st.floats(0.0, 180.0),
    spacing=st.floats(0.3, 3.0),
    box=st.tuples(st.floats(-20.0, 20.0), st.floats(-20.0, 20.0), st.floats(0.5, 30.0), st.floats(0.5, 30.0)),
)
def test_hatching_stays_inside_and_covers_its_area(
    angle: float, spacing: float, box: tuple[float, float, float, float]
) -> None:
    x, y, wide, high = box
    ring = ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
    lines = lay_hatch(Hatch((ring,), angle, spacing))
    total = 0.0
    for line in lines:
        (x0, y0), (x1, y1) = line.points
        total += ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        for px, py in line.points:
            assert x - 1e-6 <= px <= x + wide + 1e-6
            assert y - 1e-6 <= py <= y + high + 1e-6
        across = (y1 - y0) * cos(radians(angle)) - (x1 - x0) * sin(radians(angle))
        assert across == pytest.approx(0.0, abs=1e-6)
    # Lines times their spacing is the area, to within a line at either side.
    longest = (wide**2 + high**2) ** 0.5
    assert total * spacing == pytest.approx(wide * high, abs=2 * spacing * longest)
