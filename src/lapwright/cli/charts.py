"""Small pictures in characters: a pressure card, a torque, an arc of the turn."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

Points = Sequence[tuple[float, float]]

#: The dots of a braille character by column and row, as bits above its blank.
_DOTS = ((0x01, 0x02, 0x04, 0x40), (0x08, 0x10, 0x20, 0x80))
_BLANK = 0x2800
#: Where a letter goes whose own place is taken: beside it, then below or above.
_BESIDE = ((0, 0), (1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1), (2, 0), (-2, 0))


class Canvas:
    """A field of characters, each of 2 by 4 dots, on which curves are drawn; both directions run from 0 to 1."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        self.bits = [[0] * width for _ in range(height)]
        self.letters: dict[tuple[int, int], str] = {}

    def draw(self, points: Points) -> None:
        """Join points by straight lines."""
        for (x0, y0), (x1, y1) in pairwise(points):
            start, stop = self._find_dot(x0, y0), self._find_dot(x1, y1)
            steps = max(abs(stop[0] - start[0]), abs(stop[1] - start[1]), 1)
            for n in range(steps + 1):
                across = start[0] + (stop[0] - start[0]) * n / steps
                down = start[1] + (stop[1] - start[1]) * n / steps
                self._set(round(across), round(down))

    def dot_line(self, y: float) -> None:
        """Draw a level line of dots, one to a character, at a height [-]."""
        _, down = self._find_dot(0.0, y)
        for column in range(self.width):
            self._set(2 * column, down)

    def name(self, letter: str, x: float, y: float, *, side: int = 1) -> None:
        """Put a letter at a place [-], or beside it where another stands already: to the right first if `side` is 1."""
        across, down = self._find_dot(x, y)
        column, row = across // 2, down // 4
        for right, below in _BESIDE:
            place = (column + side * right, row + below)
            if 0 <= place[0] < self.width and 0 <= place[1] < self.height and place not in self.letters:
                self.letters[place] = letter
                return

    def list_rows(self) -> list[str]:
        """Return the field row by row, from the top."""
        return [
            "".join(self.letters.get((x, y)) or chr(_BLANK + bits) if bits or (x, y) in self.letters else " "
                    for x, bits in enumerate(row))
            for y, row in enumerate(self.bits)
        ]  # fmt: skip

    def _find_dot(self, x: float, y: float) -> tuple[int, int]:
        across = round(min(max(x, 0.0), 1.0) * (2 * self.width - 1))
        down = round((1 - min(max(y, 0.0), 1.0)) * (4 * self.height - 1))
        return across, down

    def _set(self, across: int, down: int) -> None:
        self.bits[down // 4][across // 2] |= _DOTS[across % 2][down % 4]


def draw_scale(width: int) -> str:
    """Return the degrees of a turn as they stand under a picture of it.

    Parameters
    ----------
    width: of the picture, in characters [-]

    Example:
    >>> draw_scale(24)
    '0     90    180   270   360'
    """
    return "".join(f"{90 * n:<{width // 4}}" for n in range(4)) + "360"
