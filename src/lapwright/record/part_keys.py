"""The keys of the parts round the motion: glands, fasteners, pins, and the paint."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.engine import parts
from lapwright.quantities import read_temperature, read_torque
from lapwright.quantities.area import read_area
from lapwright.record.key import Key, length_key, word_key
from lapwright.record.words import read_count, read_list_of_names, read_name


def _read_thread(value: object) -> object:
    # The tables are read when a record first speaks of a thread.
    from lapwright.tables.naming import find_thread

    return find_thread(value)


def _thread(about: str, example: str) -> Key:
    return Key(_read_thread, about, example)


def _read_paint(value: object) -> object:
    from lapwright.tables.paints import list_paint_rows, match_paint

    return match_paint(read_name(value), tuple(row.name for row in list_paint_rows()))


def _metal(about: str, example: str) -> Key:
    return word_key(about, example, *(metal for metal in parts.METALS if metal != example))


_GLAND: Mapping[str, Key] = {
    "on": word_key("which rod it is packed round", *parts.GLANDS),
    "rod": length_key("diameter of the rod; a piston rod's own where left out", "3.2 mm"),
    "box_bore": length_key("bore of the stuffing box", "6.4 mm"),
    "box_depth": length_key("depth of the box, from its mouth to its bottom", "8 mm"),
    "nut_thread": _thread("thread of the gland nut; leave out where studs draw the gland up", "3/8 x 32"),
    "nut_hand": word_key("hand of that thread", *parts.HANDS),
    "packed_with": word_key("what is in it", *parts.PACKINGS),
    "packing_section": length_key("thickness of that packing", "1.6 mm"),
    "rings": Key(read_count, "how many rings of it", "4", is_number=True),
    "oil": word_key("what oil reaches it with the steam or air", *parts.OILS),
}
_FASTENER: Mapping[str, Key] = {
    "name": Key(read_name, "what it is called", "eccentric screw"),
    "cylinder": Key(read_name, "name of the cylinder it belongs to; left out, the first", "A"),
    "holds": word_key("what it holds", *parts.DUTIES),
    "kind": word_key("what sort of screw it is", *parts.FASTENERS),
    "thread": _thread("thread of the hole", "7 BA"),
    "screw": _thread("thread of the screw found in it, where that is another", "8 BA"),
    "screw_material": word_key("metal of the screw", *parts.SCREW_METALS),
    "hole_material": _metal("metal round the hole", "brass"),
    "engagement": length_key("length of thread in the hole", "3 mm"),
    "state": word_key("how the thread in the hole is", *parts.STATES),
    "point": word_key("point of a grub screw", *parts.POINTS),
    "shaft": length_key("diameter of the shaft it bears on", "5 mm"),
    "seat": word_key("what it bears on: the plain shaft, a flat, or a dimple", *parts.SEATS),
    "wall": length_key("metal left beside the hole", "2.5 mm"),
    "count": Key(read_count, "how many of it, alike", "6", is_number=True),
    "torque": Key(read_torque, "what each was tightened to", "0.3 N m"),
    "thread_is": word_key("how the thread was when it was tightened", *parts.LUBRICATIONS),
    "gasket": word_key("the joint under a cover", *parts.GASKETS),
    "joint_outside": length_key("diameter over that joint", "30 mm"),
}
_PIN: Mapping[str, Key] = {
    "name": Key(read_name, "what it is called", "fork pin"),
    "cylinder": Key(read_name, "name of the cylinder it belongs to; left out, the first", "A"),
    "joint": word_key("where it is", *parts.JOINTS),
    "kind": word_key("what is in there", *parts.PINS),
    "diameter": length_key("diameter where the part turns on it", "2.5 mm"),
    "hole": length_key("bore of the part that turns on it", "2.55 mm"),
    "thread": _thread("thread on it, if it has one", "7 BA"),
    "plain_length": length_key("length of shank without thread", "3.0 mm"),
    "moving_part": length_key("length of the part that turns on it", "4.0 mm"),
    "shear": word_key("held at both sides of the part, or at one", *parts.SHEARS),
    "material": word_key("metal of the pin", *parts.METALS),
    "runs_in": _metal("metal of the part that turns on it", "gunmetal"),
}
_FINISH: Mapping[str, Key] = {
    "part": Key(read_name, "what is painted", "cylinder and bed"),
    "metal": _metal("its metal", "cast iron"),
    "temperature": Key(read_temperature, "of the metal in service; left out, that of the steam", "150 degC"),
    "surface": Key(read_area, "how much is painted", "600 cm2"),
    "old_paint": word_key("whether there is old paint on it", "yes", "no"),
    "lettering": word_key("cast letters", *parts.LETTERINGS),
    "bright": Key(
        read_list_of_names, "what stays unpainted, with commas between", "flanges, lagging bands", is_plain=True
    ),
    "paint": Key(_read_paint, "the paint that is wished for", "long-oil alkyd gloss enamel", is_plain=True),
}
#: The tables of the parts by their dotted names.
PART_TABLES: Mapping[str, Mapping[str, Key]] = {
    "cylinder.gland": _GLAND,
    "fastener": _FASTENER,
    "pin": _PIN,
    "finish": _FINISH,
}
