"""The drawings: true to scale, all on the sheet, and no figure that is none."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest

from lapwright.papers.drawing import Drawing
from lapwright.papers.svg import svg_text
from lapwright.papers.timing_picture import draw_timing
from lapwright.papers.valve_picture import draw_section, fit_frame
from lapwright.papers.writing import write_whole
from tests.unit.papers.matters import NAMES, examine_demo

KEPT = Path(__file__).parents[2] / "snapshot" / "papers"
WIDTH = 178.0


def draw_all(name: str) -> dict[str, Drawing]:
    """Every picture of a demo engine's first cylinder."""
    visit = examine_demo(name)
    sizes = visit.cylinders[0]
    cured = sizes.replacing(visit.cures[0].changes) if visit.cures else None
    frame = fit_frame([sizes], width=WIDTH, margin=26.0)
    assert frame is not None
    drawings = {stand: draw_section(sizes, frame, stand=stand, title="t") for stand in ("middle", "head", "crank")}
    chart = draw_timing(sizes, cured, width=WIDTH)
    assert chart is not None
    return {**drawings, "timing": chart}


def outlines(svg: str) -> list[list[tuple[float, float]]]:
    """The points of every line and ring."""
    rings = re.findall(r'points="([^"]*)"', svg)
    return [[(float(x), float(y)) for x, y in (pair.split(",") for pair in ring.split())] for ring in rings]


@pytest.mark.parametrize("name", NAMES)
def test_all_of_a_picture_lies_on_its_paper(name: str) -> None:
    for drawing in draw_all(name).values():
        svg = svg_text(drawing)
        assert "nan" not in svg.lower()
        assert "inf" not in svg.lower()
        for ring in outlines(svg):
            for x, y in ring:
                assert -0.5 <= x <= drawing.width + 0.5
                assert -0.5 <= y <= drawing.height + 0.5


def test_the_valve_is_drawn_to_the_scale_that_is_said() -> None:
    """The Sandpiper's valve is 12.5 mm long, its ports are 2.0 mm and its cavity 8.4 mm."""
    sizes = examine_demo("sandpiper").cylinders[0]
    frame = fit_frame([sizes], width=WIDTH, margin=26.0)
    assert frame is not None
    svg = svg_text(draw_section(sizes, frame, stand="middle", title="t"))
    spans = {round(max(x for x, _ in ring) - min(x for x, _ in ring), 2) for ring in outlines(svg)}
    for length in (12.5, 2.0, 8.4):
        assert any(span == pytest.approx(length * frame.scale, abs=0.011) for span in spans), length
    assert f"{frame.scale:g} : 1" in svg


@pytest.mark.parametrize("name", ["sandpiper", "merganser"])
def test_pictures_are_as_they_were_last_looked_at(name: str) -> None:
    """`UPDATE_SNAPSHOTS=1` draws them anew; look at them then."""
    for title, drawing in draw_all(name).items():
        kept, svg = KEPT / f"{name}-{title}.svg", svg_text(drawing)
        if os.environ.get("UPDATE_SNAPSHOTS"):
            kept.write_text(svg, encoding="utf-8")
        assert svg == kept.read_text(encoding="utf-8"), kept.name


def test_a_file_is_written_whole_with_its_mode_and_through_a_link(tmp_path: Path) -> None:
    target, link = tmp_path / "card.pdf", tmp_path / "link.pdf"
    target.write_bytes(b"old")
    target.chmod(0o640)
    link.symlink_to(target)
    write_whole(link, b"new")
    assert link.is_symlink()
    assert target.read_bytes() == b"new"
    assert target.stat().st_mode & 0o777 == 0o640
    assert sorted(path.name for path in tmp_path.iterdir()) == ["card.pdf", "link.pdf"]


def test_what_cannot_be_written_leaves_all_as_it_was(tmp_path: Path) -> None:
    (tmp_path / "card.pdf").mkdir()
    with pytest.raises(OSError, match=r".*"):
        write_whole(tmp_path / "card.pdf", b"new")
    assert [path.name for path in tmp_path.iterdir()] == ["card.pdf"]
