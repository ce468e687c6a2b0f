"""What to have ready for a cure of the valve and its drive."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from lapwright.engine.sizes import Sizes
from lapwright.findings.edges import read_valve
from lapwright.workshop.item import Item, merge_items

_FOR = ("valve and its drive",)
#: Left on all round for squaring up [m].
_TO_SPARE = 2e-3


def _tool(name: str) -> Item:
    return Item("tools", name, purposes=_FOR)


_FILE, _CALLIPER, _DISC = (
    _tool("fine flat file"),
    _tool("calliper that reads 0.02 mm"),
    _tool("degree disc and pointer"),
)
_BLUE = _tool("flat plate and marking blue")
_PASTE = Item("consumables", "fine grinding paste", purposes=_FOR)
_JOINT = Item("joints", "oiled paper, 0.1 to 0.25 mm thick, for the steam chest", 1, "one sheet", _FOR)
_EDGES = (_FILE, _CALLIPER, _BLUE, _PASTE, _JOINT)
#: By the code of the action; common practice, no source.
_READY: Mapping[str, tuple[Item, ...]] = {
    "shorten-valve": _EDGES,
    "lengthen-cavity": _EDGES,
    "cut-valve": _EDGES,
    "new-valve": _EDGES,
    "new-valve-with-lap": (*_EDGES, _DISC),
    "turn-eccentric": (_DISC, _tool("scriber")),
    "new-throw": (
        _CALLIPER,
        _DISC,
        Item("metal", "brass, gunmetal or iron bar for the eccentric, as thick as the old one", 1, "a slice", _FOR),
    ),
    "move-on-spindle": (_CALLIPER, _JOINT),
    "change-rod-length": (_CALLIPER, _FILE),
    "widen-exhaust-port": (_FILE, _CALLIPER, _BLUE, _PASTE, _JOINT),
    "relieve-chest": (_FILE, _CALLIPER, _JOINT),
}


def list_ready(codes: Iterable[str], after: Sizes) -> tuple[Item, ...]:
    """Return what the actions of a cure want.

    Parameters
    ----------
    codes: of the actions
    after: the cylinder's sizes once it is done

    Source: common practice, no source
    """
    items: list[Item] = []
    for code in codes:
        items += _READY[code]
        if code.startswith("new-valve"):
            items.append(_list_bar(after))
    return merge_items(items)


def _list_bar(after: Sizes) -> Item:
    """A bar for the valve, over its finished size; a size that is not known is the old valve's."""
    length, _ = read_valve(after)
    width = after.numbers.get("valve.width")
    long = "as long as the old valve" if length is None else f"{(length + _TO_SPARE) * 1e3:.0f} mm long"
    wide = "as wide as the old valve" if width is None else f"{(width + _TO_SPARE) * 1e3:.0f} mm wide"
    return Item("metal", f"gunmetal or cast iron for the valve, {long}, {wide}", 1, "one piece", _FOR)
