"""Labels on staffs: each says what happens at its place, and none covers another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lapwright.papers.drawing import Line, Shape, Text, clear_behind, measure_text

SIZE = 3.7
GAP = 1.5
#: So many flags at most are tried in every way; four ways each.
MOST_TRIED = 5


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
    anchor: str

    @property
    def right(self) -> float:
        return self.left + measure_text(self.flag.words, SIZE) + GAP

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
        tip = base + 2.6 if step > 0 else base
        at = each.flag.x + (1.0 if each.anchor == "start" else -1.0)
        staffs.append(Line(((each.flag.x, foot), (each.flag.x, tip)), "dimension"))
        words.append(Text((at, base), each.flag.words, SIZE, each.anchor))
    # The blanks come first: they clear what was drawn before, and hide no staff.
    return [*map(clear_behind, words), *staffs, *words]


def _arrange(flags: Sequence[Flag]) -> list[_Standing]:
    """Places for flags from left to right: the first way in which all fit, or as good as goes one by one."""
    whole = _place_all(flags, []) if len(flags) <= MOST_TRIED else None
    if whole is not None:
        return whole
    standing: list[_Standing] = []
    for flag in flags:
        choices = _list_choices(flag)
        free = [choice for choice in choices if _fits(choice, standing)]
        # Words may cover a staff at the worst, but never leave the sheet.
        inside = [choice for choice in choices[::-1] if _stays_inside(choice)]
        standing.append(free[0] if free else inside[0] if inside else choices[2])
    return standing


def _place_all(flags: Sequence[Flag], standing: list[_Standing]) -> list[_Standing] | None:
    """The first way in which these flags fit behind those that stand; None where there is none."""
    if not flags:
        return standing
    for choice in _list_choices(flags[0]):
        if _fits(choice, standing):
            whole = _place_all(flags[1:], [*standing, choice])
            if whole is not None:
                return whole
    return None


def _list_choices(flag: Flag) -> list[_Standing]:
    return [_stand(flag, row=row, anchor=anchor) for row in (0, 1) for anchor in ("start", "end")]


def _stand(flag: Flag, *, row: int, anchor: str) -> _Standing:
    width = measure_text(flag.words, SIZE) + GAP
    return _Standing(flag, row, flag.x if anchor == "start" else flag.x - width, anchor)


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
