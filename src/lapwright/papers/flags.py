"""Labels on staffs: each says what happens at its place, and none covers another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lapwright.papers.drawing import Line, Shape, Text, clear_behind, measure_text

SIZE = 3.7
GAP = 1.5
#: So many flags at most are tried in every way.
MOST_TRIED = 5
#: Words begin or end at their staff; where there is no room at either side they stand over its tip.
SIDES, OVER = ("start", "end"), "over"


@dataclass(frozen=True, slots=True)
class Flag:
    """Words to stand at a place `x` [mm]; they must stay within `room`, from left to right [mm]."""

    x: float
    words: str
    room: tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Standing:
    flag: Flag
    row: int
    left: float
    side: str

    @property
    def right(self) -> float:
        return self.left + measure_text(self.flag.words, SIZE) + GAP

    def place_words(self, base: float) -> Text:
        """The words on their base line [mm]."""
        if self.side == OVER:
            return Text(((self.left + self.right) / 2, base), self.flag.words, SIZE)
        return Text((self.flag.x + (1.0 if self.side == "start" else -1.0), base), self.flag.words, SIZE, self.side)

    def find_tip(self, base: float, *, up: bool) -> float:
        """How high the staff goes: along its words, or just up to those that stand over it [mm]."""
        if self.side == OVER:
            return base - 0.8 if up else base + 0.75 * SIZE
        return base + 2.6 if up else base

    def covers(self, x: float) -> bool:
        return self.left < x < self.right


def stand_flags(flags: Sequence[Flag], *, foot: float, row: float, step: float) -> list[Shape]:
    """Place flags in two rows so that words cover neither other words nor another flag's staff.

    Parameters
    ----------
    flags: what to place
    foot: height at which the staffs begin [mm]
    row: base line of the first row [mm]
    step: from the first row to the second [mm]; negative below the foot
    """
    standing = _arrange(sorted(flags, key=lambda each: each.x))
    staffs, words = list[Shape](), list[Text]()
    for each in standing:
        base = row + step * each.row
        staffs.append(Line(((each.flag.x, foot), (each.flag.x, each.find_tip(base, up=step > 0))), "dimension"))
        words.append(each.place_words(base))
    # The blanks come first: they clear what was drawn before, and hide no staff.
    return [*map(clear_behind, words), *staffs, *words]


def _arrange(flags: Sequence[Flag]) -> list[_Standing]:
    """Places for flags from left to right: the first way in which all fit, or as good as goes one by one."""
    for sides in (SIDES, (*SIDES, OVER)) if len(flags) <= MOST_TRIED else ():
        whole = _place_all(flags, [], sides)
        if whole is not None:
            return whole
    standing: list[_Standing] = []
    for flag in flags:
        choices = _list_choices(flag, (*SIDES, OVER))
        free = [choice for choice in choices if _fits(choice, standing)]
        # Words may cover a staff at the worst, but never leave the sheet.
        inside = [choice for choice in choices[::-1] if _stays_inside(choice)]
        standing.append(free[0] if free else inside[0] if inside else choices[-1])
    return standing


def _place_all(flags: Sequence[Flag], standing: list[_Standing], sides: Sequence[str]) -> list[_Standing] | None:
    """The first way in which these flags fit behind those that stand; None where there is none."""
    if not flags:
        return standing
    for choice in _list_choices(flags[0], sides):
        if _fits(choice, standing):
            whole = _place_all(flags[1:], [*standing, choice], sides)
            if whole is not None:
                return whole
    return None


def _list_choices(flag: Flag, sides: Sequence[str]) -> list[_Standing]:
    return [_stand(flag, row=row, side=side) for row in (0, 1) for side in sides]


def _stand(flag: Flag, *, row: int, side: str) -> _Standing:
    width = measure_text(flag.words, SIZE) + GAP
    if side == OVER:
        low, high = flag.room
        return _Standing(flag, row, max(min(flag.x - width / 2, high - width), low), side)
    return _Standing(flag, row, flag.x if side == "start" else flag.x - width, side)


def _stays_inside(new: _Standing) -> bool:
    return new.left >= new.flag.room[0] and new.right <= new.flag.room[1]


def _fits(new: _Standing, standing: Sequence[_Standing]) -> bool:
    if not _stays_inside(new):
        return False
    for old in standing:
        if old.row == new.row and new.left < old.right and old.left < new.right:
            return False
        if (new.row > old.row and old.covers(new.flag.x)) or (old.row > new.row and new.covers(old.flag.x)):
            return False
    return True
