"""The words in which people tell of a gland, and the few that the program goes on with."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from lapwright.errors import NotOneOf

#: What may stand for the words of each kind, beside themselves.
FLUID_NAMES = {
    "compressed air": "air", "shop air": "air", "dry air": "air", "saturated steam": "steam", "wet steam": "steam",
    "superheated steam": "steam", "hot water": "water", "cold water": "water", "feed water": "water",
}  # fmt: skip
OIL_NAMES = {
    "mineral oil": "mineral", "steam oil": "mineral", "cylinder oil": "mineral", "steam cylinder oil": "mineral",
    "machine oil": "mineral", "motor oil": "mineral", "engine oil": "mineral", "light oil": "mineral",
    "oil": "mineral", "yes": "mineral", "no": "none", "no oil": "none", "dry": "none", "without": "none",
    "without oil": "none", "nothing": "none",
}  # fmt: skip
HAND_NAMES = {
    "right hand": "right", "right handed": "right", "rh": "right", "r": "right", "r.h.": "right",
    "left hand": "left", "left handed": "left", "lh": "left", "l": "left", "l.h.": "left",
}  # fmt: skip
JOINT_NAMES = {
    "butt joint": "butt", "butted": "butt", "square": "butt", "straight": "butt", "skive joint": "skive",
    "skived": "skive", "scarf": "skive", "scarfed": "skive", "diagonal": "skive", "mitre": "skive", "45": "skive",
    "45 deg": "skive", "45 degrees": "skive",
}  # fmt: skip


def pick_word(written: str, words: Sequence[str], names: Mapping[str, str]) -> str:
    """Return the word that is meant, whatever its capitals, hyphens and spaces.

    Parameters
    ----------
    written: as a person wrote it
    words: those that may stand here
    names: what else people call them

    Raises
    ------
    NotOneOf: it is none of them

    Example:
    >>> pick_word("Steam oil", ("mineral", "none"), OIL_NAMES), pick_word("left-hand", ("right", "left"), HAND_NAMES)
    ('mineral', 'left')
    """
    plain = " ".join(written.lower().replace("-", " ").replace("_", " ").replace("°", " deg").split())
    word = names.get(plain, plain)
    if word not in words:
        raise NotOneOf(written, tuple(words))
    return word
