"""The faults that can be found from sizes, one kind to a file, in the order in which they are met on the bench."""

from lapwright.findings.causes import (
    chest_wall,
    eccentric,
    exhaust_edges,
    exhaust_way,
    expansion,
    off_centre,
    one_end,
    other_direction,
    steam_edges,
    thin_lands,
    travel,
    unequal_ends,
)
from lapwright.findings.suspicion import Suspect

SUSPECTS: tuple[Suspect, ...] = (
    other_direction.suspect,
    eccentric.suspect,
    steam_edges.suspect,
    exhaust_edges.suspect,
    thin_lands.suspect,
    off_centre.suspect,
    one_end.suspect,
    unequal_ends.suspect,
    travel.suspect,
    exhaust_way.suspect,
    chest_wall.suspect,
    expansion.suspect,
)
