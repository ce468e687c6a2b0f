"""Published figures that cannot be compared yet, each with the reason; each line is a row of the page."""

from __future__ import annotations

from tests.published.figure import Left

PARTS = "sizes of parts are taken from the record and not proposed"
UNKNOWN = "a trial of a running engine, but what could be read does not tell its sizes"
DENSE = "above 165 bar the formulation has equations of another kind, which no engine of this kind needs"

#: Id, source, place, what stands there, why it is not compared.
_ROWS = (
    (
        "EB-66",
        "ewing-1911",
        "section 66",
        "steam below 100 ft/s; travel 2 1/2 to 3 port widths",
        "a ceiling that small engines keep far below (7 m/s in the trial program's ports at 600 turns a minute); the "
        "travel is a rule for large engines that small ones, with narrow ports, do not keep (6 and more)",
    ),
    ("MOL-499", "molesworth", "p. 499", "proportions of a stationary condensing engine", PARTS),
    ("MOL-501", "molesworth", "p. 501, ports", "port areas of locomotives", PARTS),
    ("B-Q343", "bourne-1865", "Q343 and Q358", "diameter of the piston rod", PARTS),
    ("LOW-SB", "low-1887", "pp. 68-69", "stuffing-boxes and glands", PARTS),
    ("B-PENN", "bourne-1865", "Q622-630", "sizes of a 12 horse-power oscillating engine", PARTS),
    ("LAN-PROP", "langley-1911", "p. 116, sizes", "proportions of a light engine", PARTS),
    (
        "LAN-0",
        "langley-1911",
        "pp. 33 and 37",
        "power of two small compounds",
        "cylinders that pass their steam on to the next are not run",
    ),
    ("DASILVA-18", "da-silva-2018", "abstract", "greatest power of an expander on air", UNKNOWN),
    ("MIT-17", "mit-1917", "run no. 2", "brake load and steam of a car engine", UNKNOWN),
    ("IF97-R3-1", "iapws-r7-97", "table 33, 650 K and 500 kg/m3", "water near the critical point, 256 bar", DENSE),
    ("IF97-R3-2", "iapws-r7-97", "table 33, 650 K and 200 kg/m3", "steam near the critical point, 223 bar", DENSE),
    ("IF97-R3-3", "iapws-r7-97", "table 33, 750 K and 500 kg/m3", "water above the critical point, 783 bar", DENSE),
    ("IAPWS95-SAT-625", "iapws-r6-95", "table 8, 625 K", "boiling at 169 bar", DENSE),
    (
        "SA-SMALL",
        "sciam-1880",
        "query 6",
        "sizes for half and one horse-power",
        "no speed is told, and any would do",
    ),
    (
        "WALL-SWING",
        "closed-forms",
        "heat that comes and goes in a thick wall",
        "a brass wall's surface swings by 0.7 degC under 100 kW/m2 ten times a second, a millimetre deep",
        "it is why the program gives the wall one temperature for the whole turn; nothing works it out",
    ),
)

LEFT = tuple(Left(id=key, source=source, locator=place, what=what, why=why) for key, source, place, what, why in _ROWS)
