"""Pressure cards and torque on paper: measured off the drawing, they say what the run says."""

from __future__ import annotations

import os
import subprocess
import sys
from itertools import pairwise
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.job.run.papers import gather_runs
from lapwright.motion.arcs import share_of_turn
from lapwright.papers.drawing import Drawing, Hatch, Line
from lapwright.papers.flags import Flag, stand_flags
from lapwright.papers.pressure_picture import (
    LEFT,
    PLOT,
    RIGHT,
    Turn,
    draw_pressure_card,
    find_corners,
    fit_scale,
    trace_card,
)
from lapwright.papers.run_lettering import list_ticks
from lapwright.papers.svg import svg_text
from lapwright.papers.torque_picture import LEFT as TORQUE_LEFT
from lapwright.papers.torque_picture import RIGHT as TORQUE_RIGHT
from lapwright.papers.torque_picture import draw_starting, draw_torque
from tests.unit.papers.matters import examine_demo, list_texts, span_of
from tests.unit.papers.runs import BAR, TURN, RuledCard, move_cylinder, rest_engine, run_cylinder, run_engine
from tests.unit.papers.test_pictures import KEPT, lies_on_its_paper

WIDTH = 86.0
FOUND, CURED = RuledCard(cut_off=0.3, compression=0.25), RuledCard(cut_off=0.75, compression=0.1)


def turn_of(card: RuledCard) -> Turn:
    return Turn(run_cylinder(card), move_cylinder(card))


def draw_card(end: str, *, cured: RuledCard | None = CURED) -> Drawing:
    states = [turn_of(FOUND), *([] if cured is None else [turn_of(cured)])]
    scale = fit_scale([state.run for state in states])
    return draw_pressure_card(states[0], states[-1] if cured else None, end=end, scale=scale, width=WIDTH)


def lines(drawing: Drawing, layer: str) -> list[Line]:
    return [shape for shape in drawing.shapes if isinstance(shape, Line) and shape.layer == layer]


def words(drawing: Drawing) -> list[str]:
    return [text.words for text in list_texts(drawing)]


def area(points: tuple[tuple[float, float], ...]) -> float:
    """The area that a closed line goes round, clockwise counting positive."""
    return sum((x1 - x0) * (y0 + y1) / 2 for (x0, y0), (x1, y1) in pairwise([*points, points[0]]))


@pytest.mark.parametrize("end", ["head", "crank"])
@pytest.mark.parametrize("card", [FOUND, CURED])
def test_the_area_of_a_card_is_its_mean_effective_pressure(end: str, card: RuledCard) -> None:
    """By the formula for hyperbolas with clearance, machinery-70."""
    assert area(trace_card(run_cylinder(card), end)) / 100 == pytest.approx(card.mean / BAR, rel=2e-3)


@pytest.mark.parametrize("name", ["merganser", "sandpiper", "tern"])
def test_a_real_card_encloses_the_work_and_turns_its_corners_where_the_valve_says(name: str) -> None:
    visit = examine_demo(name)
    assert visit.ground is not None
    for run in visit.ground.found.run.cylinders:
        turn = Turn(run, visit.motions[run.name])
        for end, part in run.ends.items():
            assert area(trace_card(run, end)) / 100 == pytest.approx(part.mean_effective_pressure / BAR, rel=5e-3)
            for event, times in turn.motion.ends[end].events.items():
                places = [percent for percent, _ in find_corners(turn, end, event)]
                assert places == pytest.approx(times.stroke_percent, abs=0.05)


def test_corners_lie_on_the_card() -> None:
    turn = turn_of(CURED)
    for end in ("head", "crank"):
        ((percent, bar),) = find_corners(turn, end, "cut_off")
        assert percent == pytest.approx(75.0, abs=0.01)
        assert bar == pytest.approx(2.0, abs=1e-3)
        ((percent, bar),) = find_corners(turn, end, "compression")
        assert percent == pytest.approx(10.0, abs=0.01)
        assert bar == pytest.approx(0.0, abs=0.02)


def test_the_card_is_drawn_to_its_scale_and_the_crank_end_is_its_mirror_image() -> None:
    head, crank = draw_card("head"), draw_card("crank")
    (curve,), (mirrored,) = lines(head, "curve")[:1], lines(crank, "curve")[:1]
    xs, ys = zip(*curve.points, strict=True)
    assert min(xs) == pytest.approx(LEFT, abs=0.02)
    assert max(xs) == pytest.approx(WIDTH - RIGHT, abs=0.02)
    (supply,) = lines(head, "centre")
    assert max(ys) == pytest.approx(supply.points[0][1], abs=1e-6)
    share = area(curve.points) / ((WIDTH - LEFT - RIGHT) * PLOT)
    top, bottom = max(ys), min(y for line in lines(head, "found")[:1] for _, y in line.points)
    assert top - bottom <= PLOT + 1e-6
    scale = fit_scale([run_cylinder(FOUND), run_cylinder(CURED)])
    assert share * (scale.high - scale.low) == pytest.approx(CURED.mean / BAR, rel=2e-3)
    assert area(mirrored.points) == pytest.approx(-area(curve.points), rel=1e-6)


def test_a_card_names_its_corners_and_says_what_they_were() -> None:
    told = words(draw_card("head"))
    assert "cut-off 75 % (was 30 %)" in told
    assert "compression 10 % (was 25 %)" in told
    assert "release 100 %" in told
    assert "admission 0 %" in told
    assert told[-4:] == [
        "as found",
        f"{FOUND.mean / BAR:.2f} bar ({FOUND.mean / 6894.757:.1f} psi)",
        "after the cure",
        f"{CURED.mean / BAR:.2f} bar ({CURED.mean / 6894.757:.1f} psi)",
    ]
    alone = draw_card("head", cured=None)
    assert "cut-off 30 %" in words(alone)
    assert "after the cure" not in words(alone)
    assert len(lines(alone, "found")) == 0


def test_each_corner_has_a_dot_on_the_curve() -> None:
    drawing = draw_card("head")
    curve = lines(drawing, "curve")[0].points
    dots = lines(drawing, "fill")
    assert len(dots) == 4
    for dot in dots:
        x, y = (sum(axis) / len(dot.points) for axis in zip(*dot.points, strict=True))
        near = min(abs(x - px) + abs(y - py) for px, py in curve)
        assert near < 0.7


@pytest.mark.parametrize("cut_off", [0.2, 0.5, 0.75, 0.99])
@pytest.mark.parametrize("compression", [0.01, 0.1, 0.3])
def test_no_line_runs_through_the_name_of_a_level(cut_off: float, compression: float) -> None:
    drawing = draw_card("head", cured=RuledCard(cut_off, compression))
    (supply,) = [text for text in list_texts(drawing) if text.words.startswith("supply")]
    left, right = span_of(supply)
    for line in (*lines(drawing, "curve"), *lines(drawing, "found"), *lines(drawing, "dimension")):
        for x, y in line.points:
            assert not (left < x < right and supply.at[1] < y < supply.at[1] + 2.6)


def test_the_mean_line_halves_the_torque_and_friction_is_told_in_the_same_unit() -> None:
    run = run_engine(CURED, indicated=10.0)
    drawing = draw_torque(run, None, width=178.0)
    (curve,) = [line for line in lines(drawing, "curve") if len(line.points) > 2]
    heights = [y for _, y in curve.points[:-1]]
    levels = sorted(line.points[0][1] for line in lines(drawing, "centre"))
    assert sum(heights) / len(heights) == pytest.approx(levels[1], abs=0.01)
    told = words(drawing)
    assert "as found, mean 318 mN m" in told
    assert "mean 318 mN m" in told
    assert "friction 95 mN m" in told


def test_the_bars_are_as_long_as_the_arcs() -> None:
    """From 330 to 150 deg it starts, from 200 to 300 it does not; in between it depends."""
    rest = rest_engine((330 / 360 * TURN, 150 / 360 * TURN), (200 / 360 * TURN, 300 / 360 * TURN))
    drawing = draw_starting(rest, None, width=178.0)
    across = (178.0 - TORQUE_LEFT - TORQUE_RIGHT) / 360
    boxes: dict[tuple[float, float], int] = {}
    for hatch in [shape for shape in drawing.shapes if isinstance(shape, Hatch)][:-3]:
        xs = [x for x, _ in hatch.rings[0]]
        at = round((min(xs) - TORQUE_LEFT) / across), round((max(xs) - TORQUE_LEFT) / across)
        boxes[at] = boxes.get(at, 0) + 1
    assert boxes == {(0, 150): 2, (150, 200): 1, (300, 330): 1, (330, 360): 2}
    assert "Starts by itself, as found: 50 % of the turn" in words(drawing)


def test_words_without_room_at_either_side_stand_over_their_staff() -> None:
    flags = [Flag(45.0, "cut-off 52 % (was 71 %)", (0.0, WIDTH)), Flag(65.0, "release 80 % (was 84 %)", (0.0, WIDTH))]
    drawing = Drawing(WIDTH, 20.0, "flags", tuple(stand_flags(flags, foot=2.0, row=4.0, step=5.0)))
    lies_on_its_paper(drawing)
    over = next(text for text in list_texts(drawing) if text.words.startswith("cut-off"))
    assert over.anchor == "middle"
    assert over.at[1] != next(text for text in list_texts(drawing) if text.words.startswith("release")).at[1]
    tips = {line.points[0][0]: line.points[1][1] for line in lines(drawing, "dimension")}
    assert tips[45.0] < over.at[1]


@given(low=st.floats(-20.0, 0.0), span=st.floats(0.01, 500.0), most=st.integers(3, 8))
def test_ticks_are_round_few_and_within(low: float, span: float, most: int) -> None:
    ticks = list_ticks(low, low + span, most=most)
    step = ticks[1] - ticks[0] if len(ticks) > 1 else span
    assert 1 <= len(ticks) <= most + 1
    assert all(low - 1e-6 * span <= tick <= low + span * (1 + 1e-6) for tick in ticks)
    assert all(b - a == pytest.approx(step) for a, b in pairwise(ticks))
    assert ticks[0] - step < low + 1e-6 * span
    assert ticks[-1] + step > low + span * (1 - 1e-6)


@given(start=st.floats(0.0, TURN - 1e-6), sweep=st.floats(1e-3, TURN - 1e-3))
def test_an_arc_counts_the_way_it_goes_round(start: float, sweep: float) -> None:
    assert share_of_turn([(start, (start + sweep) % TURN)]) == pytest.approx(sweep / TURN, abs=1e-9)
    assert share_of_turn([(0.0, TURN)]) == 1.0
    assert share_of_turn([]) == 0.0


@pytest.mark.parametrize("name", ["merganser", "curlew"])
def test_pictures_of_real_runs_lie_on_their_paper(name: str) -> None:
    visit = examine_demo(name)
    runs, _ = gather_runs(visit)
    assert runs is not None
    assert runs.after is not None
    assert runs.starting is not None
    found, cured = runs.before.run, runs.after.run
    scale = fit_scale([*found.cylinders, *cured.cylinders])
    before = Turn(found.cylinders[0], visit.motions["A"])
    after = Turn(cured.cylinders[0], visit.cures[0].after)
    for end in before.run.ends:
        lies_on_its_paper(draw_pressure_card(before, after, end=end, scale=scale, width=WIDTH))
    lies_on_its_paper(draw_torque(found, cured, width=178.0))
    lies_on_its_paper(draw_starting(runs.starting, runs.starting_after, width=178.0))


def test_pictures_of_runs_are_as_they_were_last_looked_at() -> None:
    """`UPDATE_SNAPSHOTS=1` draws them anew; look at them then."""
    rests = rest_engine((0.3, pi / 2), (pi, 5.0)), rest_engine((0.1, pi), (5.8, 0.1))
    drawings = {
        "card-head": draw_card("head"),
        "card-crank": draw_card("crank"),
        "card-alone": draw_card("head", cured=None),
        "torque": draw_torque(run_engine(FOUND, indicated=12.0), run_engine(CURED), width=178.0),
        "starting": draw_starting(*rests, width=178.0),
    }
    for title, drawing in drawings.items():
        lies_on_its_paper(drawing)
        kept, svg = KEPT / f"run-{title}.svg", svg_text(drawing)
        if os.environ.get("UPDATE_SNAPSHOTS"):
            kept.write_text(svg, encoding="utf-8")
        assert svg == kept.read_text(encoding="utf-8"), kept.name


def test_papers_load_neither_arrays_nor_a_compiler() -> None:
    asked = "import sys, lapwright.papers; print(sorted({'numpy', 'numba', 'scipy'} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", asked], capture_output=True, encoding="utf-8", check=True)
    assert done.stdout.strip() == "[]"
