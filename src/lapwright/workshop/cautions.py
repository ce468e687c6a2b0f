"""What can hurt at the bench, said once and shown at the place where the work is described.

Source of all of them: common practice, no source; where rules exist, they come first.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from lapwright.workshop.item import Item, merge_items

#: Wherever a gland, a joint or lagging may be disturbed (hse-asbestos-essentials).
OLD_PACKING = (
    "Old packing, lagging and joints may hold asbestos: damp them, make no dust, and have them dealt with as the local "
    "rules say."
)
#: Wherever something under pressure may be opened.
LET_DOWN = (
    "Shut off steam or air, let the pressure down to nothing and the metal cool, and block the flywheel before "
    "anything is slackened."
)
#: Wherever a joint, a gland or a cover is tried under pressure.
TRYING_UNDER_PRESSURE = (
    "Try it at the lowest pressure that shows anything, wear eye protection, and keep face and hands out of line with "
    "cover, gland and screws: compressed air and steam throw parts. What pressure a part may carry is for the local "
    "rules, the inspector and the insurer; nothing here says that it is safe."
)
#: Wherever steam is put on.
STEAM = "Steam scalds, and water shut in breaks covers: warm up slowly, with the drains open."
#: Wherever a hole is drilled or tapped.
CUTTING = (
    "Clamp the work, wear eye protection, and keep hair and sleeves clear: small drills and taps break without warning."
)
#: Beside it, where the metal is brass or not known.
SNATCHING = "Small drills and taps snatch in brass."
#: Wherever something is soldered.
FLAME = (
    "Flame and flux: work in moving air, wear eye protection, keep cadmium-bearing alloys off the bench, and let no "
    "closed vessel be heated."
)
#: Wherever something is painted or degreased.
PAINT = (
    "Paint, thinner and primer: work in moving air away from flame, wear the gloves and the mask that the tin asks "
    "for, and lay oily rags flat to dry, for they can catch fire by themselves."
)
#: Wherever old paint is rubbed down.
OLD_PAINT = "Old paint may hold lead: rub it down wet, make no dust, and get rid of it as the local rules say."
#: Wherever paint is hardened by heat.
CURING = (
    "Paint hardened by heat: let the solvent dry out first, for its vapour burns; work in moving air, never in an oven "
    "that food goes into, open every cock and plug, and let no closed vessel be heated."
)
#: Wherever the engine is turned with the covers off, or run.
TURNING = "Keep hands, sleeves and rags out of rods and flywheel."

_SAFETY = ("your own safety",)
_EYES = Item("tools", "eye protection", purposes=_SAFETY)
#: What a caution asks to have at hand.
_WANTED: Mapping[str, tuple[Item, ...]] = {
    CUTTING: (_EYES,),
    TRYING_UNDER_PRESSURE: (_EYES,),
    FLAME: (_EYES, Item("tools", "hearth, and water at hand", purposes=_SAFETY)),
    OLD_PACKING: (
        Item("consumables", "spray of water and bags that close, for old packing and joints", purposes=_SAFETY),
        Item("tools", "mask that the local rules ask for with old packing", purposes=_SAFETY),
    ),
    PAINT: (Item("tools", "mask that the tins ask for", purposes=_SAFETY),),
}


def list_wanted(cautions: Iterable[str]) -> tuple[Item, ...]:
    """Return what cautions ask to have at hand.

    Parameters
    ----------
    cautions: some of the sentences above; others ask for nothing

    Source: common practice, no source

    Example:
    >>> [item.name for item in list_wanted((CUTTING, TURNING))]
    ['eye protection']
    """
    return merge_items(item for caution in cautions for item in _WANTED.get(caution, ()))
