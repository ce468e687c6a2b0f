"""Pictures in characters: dots where the curve runs, letters where the corners are, nothing outside the field."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from lapwright.cli.charts import Canvas, draw_scale

SHARES = st.floats(-0.5, 1.5)


def test_a_line_from_corner_to_corner() -> None:
    canvas = Canvas(2, 1)
    canvas.draw([(0, 0), (1, 1)])
    # Four dots, one to a column of dots, rising from the lower left to the upper right.
    assert canvas.list_rows() == ["⡠⠊"]


def test_a_level_line_has_one_dot_to_a_character() -> None:
    canvas = Canvas(3, 2)
    canvas.dot_line(1.0)
    assert canvas.list_rows() == ["⠁⠁⠁", "   "]


def test_a_letter_that_finds_its_place_taken_stands_beside_it() -> None:
    canvas = Canvas(5, 1)
    for letter in "ACRK":
        canvas.name(letter, 0.5, 0.5)
    assert canvas.list_rows() == [" RACK"]


@given(st.lists(st.tuples(SHARES, SHARES), min_size=2, max_size=6), st.integers(1, 40), st.integers(1, 12))
def test_whatever_is_drawn_stays_in_the_field_and_both_ends_are_marked(
    points: list[tuple[float, float]], width: int, height: int
) -> None:
    canvas = Canvas(width, height)
    canvas.draw(points)
    rows = canvas.list_rows()
    assert len(rows) == height
    assert all(len(row) == width for row in rows)
    for x, y in (points[0], points[-1]):
        column = round(min(max(x, 0), 1) * (2 * width - 1)) // 2
        row = round((1 - min(max(y, 0), 1)) * (4 * height - 1)) // 4
        assert rows[row][column] != " "


def test_the_scale_ends_a_full_turn_under_the_end() -> None:
    for width in (24, 40, 60):
        scale = draw_scale(width)
        assert scale.index("360") == width
        assert scale.index("180") == width // 2
