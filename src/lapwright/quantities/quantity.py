"""What every measured quantity has: an exact figure, how far it may be out, and the way it was written."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Quantity:
    """An exact figure in the unit of its kind, with its tolerance if one was given.

    Two of one kind are equal when figure and tolerance are, however they were written.
    """

    value: Fraction
    plus: Fraction | None = None
    minus: Fraction | None = None
    unit: str = field(default="", compare=False)
    shown: str = field(default="", compare=False)

    def _in_si(self, figure: Fraction) -> float:
        """Turn a figure of this kind into SI; the figure is in SI already unless a kind says otherwise."""
        return float(figure)

    @property
    def si(self) -> float:
        """The figure in SI."""
        return self._in_si(self.value)

    @property
    def doubt_plus(self) -> float | None:
        """How much more it may be, in SI; None where no tolerance was given."""
        return None if self.plus is None else self._in_si(self.plus)

    @property
    def doubt_minus(self) -> float | None:
        """How much less it may be, in SI; None where no tolerance was given."""
        return None if self.minus is None else self._in_si(self.minus)

    def __str__(self) -> str:
        return self.shown
