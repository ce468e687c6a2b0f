"""What to have ready before a job is begun: things that a person can take to the shelf."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

#: The shelves on which things lie, in the order in which a list names them.
SHELVES = ("tools", "taps and dies", "drills", "screws", "pins", "packing", "joints", "metal", "paint", "consumables")


@dataclass(frozen=True, slots=True)
class Item:
    """One thing to have ready: the shelf it lies on (one of `SHELVES`), what it is with its size, how many or how much.

    `count` is for things that are counted; `amount` says how much of the rest, with its unit ("0.2 m", "30 ml"), and is
    empty for what is counted. `purposes` name the parts it is for.
    """

    shelf: str
    name: str
    count: int = 1
    amount: str = ""
    purposes: tuple[str, ...] = ()


def merge_items(items: Iterable[Item]) -> tuple[Item, ...]:
    """Return one list for a whole job, shelf by shelf: what is used up adds up, a tool is wanted once.

    Parameters
    ----------
    items: what each part of the job wants

    Source: common practice, no source

    Example:
    >>> twice = (Item("screws", "M4 x 6 grub screw", 1, "", ("A",)), Item("screws", "M4 x 6 grub screw", 1, "", ("B",)))
    >>> [(item.name, item.count, item.purposes) for item in merge_items(twice)]
    [('M4 x 6 grub screw', 2, ('A', 'B'))]
    """
    kept: dict[tuple[str, str, str], Item] = {}
    for item in items:
        key = (item.shelf, item.name, _find_unit(item.amount))
        seen = kept.get(key)
        kept[key] = item if seen is None else _join(seen, item)
    return tuple(sorted(kept.values(), key=lambda item: SHELVES.index(item.shelf)))


#: What is put back after the job, and what one tin of does for all of it.
_KEPT = ("tools", "taps and dies", "drills", "consumables")
#: An amount that can be added to: "0.14 m", "10 ml".
_AMOUNT = r"(?P<figure>\d+(?:\.(?P<tenths>\d+))?) (?P<unit>m|mm|ml)"


def _find_unit(amount: str) -> str:
    """What has to be alike for two amounts to be one: the unit, or else all of it."""
    found = re.fullmatch(_AMOUNT, amount)
    return found["unit"] if found else amount


def _join(seen: Item, item: Item) -> Item:
    purposes = tuple(dict.fromkeys((*seen.purposes, *item.purposes)))
    if seen.shelf in _KEPT:
        return replace(seen, count=max(seen.count, item.count), purposes=purposes)
    one, other = re.fullmatch(_AMOUNT, seen.amount), re.fullmatch(_AMOUNT, item.amount)
    if one is None or other is None:
        # What is counted adds up; of a sheet or a slice one is taken for each.
        return replace(seen, count=seen.count + item.count, purposes=purposes)
    places = max(len(found["tenths"] or "") for found in (one, other))
    amount = f"{float(one['figure']) + float(other['figure']):.{places}f} {one['unit']}"
    return replace(seen, amount=amount, purposes=purposes)
