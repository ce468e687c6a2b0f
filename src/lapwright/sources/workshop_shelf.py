"""The workshop's end of the shelf: standards, handbooks and papers on threads, drills, screws, packings and fits."""

from __future__ import annotations

from typing import Final

from lapwright.sources.citing import Source

_ISO = "International Organization for Standardization"
_BSI = "British Standards Institution"
_ASME = "American Society of Mechanical Engineers"
_RECALLED = "the title is given from memory"
_TABLE_ONLY = f"its values were read in open tables, not in the standard; {_RECALLED}"

_STANDARDS = (
    Source("as568", "SAE International", "AS568, Aerospace size standard for O-rings", note=_TABLE_ONLY),
    Source("asme-b1-1", _ASME, "ASME B1.1, Unified inch screw threads (UN, UNR, and UNJ thread forms)", note=_RECALLED),
    Source("asme-b94-11m", _ASME, "ASME B94.11M, Twist drills", note=_TABLE_ONLY),
    Source(
        "asme-viii",
        _ASME,
        "ASME Boiler and Pressure Vessel Code, section VIII division 1, appendix 2",
        note="its gasket factors were read as flange makers reprint them",
    ),
    Source(
        "bs-1157",
        _BSI,
        "BS 1157, Tapping drill sizes",
        note="not read itself: its Whitworth drills from an open hole table, its BA drills from a list and from memory",
    ),
    Source("bs-4186", _BSI, "BS 4186, Clearance holes for metric bolts and screws", "1967", _RECALLED),
    Source("bs-4518", _BSI, "BS 4518, Metric dimensions of toroidal sealing rings (O-rings)", note=_TABLE_ONLY),
    Source(
        "fed-std-h28",
        "United States General Services Administration",
        "FED-STD-H28, Screw-thread standards for federal services",
        note="its strength formulas were read as other books give them",
    ),
    Source("iso-228-1", _ISO, "ISO 228-1, Pipe threads where pressure-tight joints are not made", note=_TABLE_ONLY),
    Source("iso-2306", _ISO, "ISO 2306, Drills for use prior to tapping screw threads", note=_TABLE_ONLY),
    Source("iso-273", _ISO, "ISO 273, Fasteners: clearance holes for bolts and screws", "1979", _TABLE_ONLY),
    Source("iso-286", _ISO, "ISO 286, ISO code system for tolerances on linear sizes", note=_TABLE_ONLY),
    Source("iso-3601", _ISO, "ISO 3601-1, O-rings: inside diameters, cross-sections and tolerances", note=_TABLE_ONLY),
    Source("iso-4026", _ISO, "ISO 4026 to ISO 4029, Hexagon socket set screws", note=_TABLE_ONLY),
    Source(
        "iso-898-1",
        _ISO,
        "ISO 898-1, Mechanical properties of fasteners of carbon and alloy steel: bolts, screws and studs",
        note=_RECALLED,
    ),
    Source(
        "iso-898-5",
        _ISO,
        "ISO 898-5, Mechanical properties of fasteners: set screws and similar threaded fasteners",
        note=_TABLE_ONLY,
    ),
)

_BOOKS_AND_PAPERS = (
    Source("callister", "W. D. Callister", "Materials Science and Engineering: An Introduction", note=_RECALLED),
    Source(
        "denny-1957",
        "D. F. Denny and D. J. Turnbull",
        "Sealing characteristics of stuffing-box seals for rotating shafts",
        "1957",
        "only its idea was met, in later papers; authors and title are given from memory",
    ),
    Source(
        "drago-evans-2017",
        "M. Drago and Evans",
        "Friction of compression packings, paper PVS2017-3518",
        "2017",
        "the title is given by its subject",
    ),
    Source(
        "gels-2018",
        "Gels 4 (2018), article 41",
        "Wrinkling of drying and curing films",
        "2018",
        "the title is given by its subject",
    ),
    Source(
        "hse-asbestos",
        "Health and Safety Executive",
        "Asbestos Essentials: task sheets",
        note="the rules of the United Kingdom; elsewhere the local regulator's come first",
    ),
    Source(
        "moss",
        "Dennis R. Moss",
        "Pressure Vessel Design Manual",
        note="the author's first name is given from memory",
    ),
    Source(
        "ochonski-1988",
        "W. Ochonski",
        "Radial stress distribution and friction forces in a soft-packed stuffing-box seal",
        "1988",
        "only its idea was met, in later papers; the title is given from memory",
    ),
    Source(
        "mobley-1999",
        "R. Keith Mobley",
        "Root Cause Failure Analysis",
        "1999",
        "author and year are given from memory; p. 226 prints 9.43 in for 9.425 in",
    ),
    Source(
        "set-screw-chart",
        "makers of socket screws",
        "Chart of seating torque and holding power of cup point grub screws",
        note="read as reprinted on two pages; for a shaft of 15 Rockwell C in a steel hub, slip of 0.010 in as failure",
    ),
    Source("tribology-handbook", "M. J. Neale (ed.)", "The Tribology Handbook", note="the editor is given from memory"),
    Source(
        "valve-selection-handbook",
        "R. W. Zappe",
        "Valve Selection Handbook",
        note="the author is given from memory",
    ),
)

#: What the workshop's tables and calculations rest on, besides what the rest of the house cites already.
WORKSHOP_SOURCES: Final = (*_STANDARDS, *_BOOKS_AND_PAPERS)
