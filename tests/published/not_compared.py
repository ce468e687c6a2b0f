"""Published figures that cannot be compared yet, each with the reason; each line is a row of the page."""

from __future__ import annotations

from tests.published.figure import Left

PRESSURE = "pressure and work in the cylinder belong to a later part; nothing computes them yet"
POWER = "power belongs to a later part; nothing computes it yet"
STEAM = "properties and use of steam belong to a later part; nothing computes them yet"
PARTS = "sizes of parts are taken from the record and not proposed"
PORT_AREA = "port area against piston speed belongs to the part on the running engine"
TRIAL = "a trial of a running engine; wants the part on power"
DENSE = "above 165 bar the formulation has equations of another kind, which no engine of this kind needs"

#: Id, source, place, what stands there, why it is not compared.
_ROWS = (
    ("B-Q320", "bourne-1865", "Q320", "port area from piston speed", PORT_AREA),
    ("LIN-681", "lineham", "p. 681", "cylinder to port area at 100 ft/s of steam", PORT_AREA),
    (
        "EB-66",
        "ewing-1911",
        "section 66",
        "steam below 100 ft/s; travel 2 1/2 to 3 port widths",
        "speed of steam belongs to the part on the running engine; the travel is a rule for large engines that small "
        "ones, with narrow ports, do not keep (6 and more), so the program does not judge by it",
    ),
    ("MOL-499", "molesworth", "p. 499", "proportions of a stationary condensing engine", PARTS),
    ("MOL-501", "molesworth", "p. 501, ports", "port areas of locomotives", PORT_AREA),
    ("B-Q343", "bourne-1865", "Q343 and Q358", "diameter of the piston rod", PARTS),
    ("LOW-SB", "low-1887", "pp. 68-69", "stuffing-boxes and glands", PARTS),
    ("B-PENN", "bourne-1865", "Q622-630", "sizes of a 12 horse-power oscillating engine", PARTS),
    ("LAN-PROP", "langley-1911", "p. 116, sizes", "proportions of a light engine", PARTS),
    ("B-Q180", "bourne-1865", "Q180, fig. 32", "work gained by cutting off at a quarter", PRESSURE),
    ("B-Q182", "bourne-1865", "Q182", "efficacy of 2 to 8 expansions", PRESSURE),
    ("THU-EXP", "thurston-1878", "expansive working, fig. 28", "work done during expansion", PRESSURE),
    ("LAR-519", "lardner-1840", "p. 519", "table of mean pressures with clearance", PRESSURE),
    ("M70-T2", "machinery-70", "table II", "factors of mean forward pressure", PRESSURE),
    ("M70-E1", "machinery-70", "chap. II, examples 1 and 2", "mean effective pressure", PRESSURE),
    ("M70-PLAN", "machinery-70", "chap. II, horse-power", "horse-power of a 12 by 18 in engine", POWER),
    ("M70-CARDMEP", "machinery-70", "chap. VI, fig. 51", "mean pressure of an indicator card", PRESSURE),
    ("M70-STEAM", "machinery-70", "chap. VI, fig. 53", "steam accounted for by a card", STEAM),
    (
        "M70-EFF",
        "machinery-70",
        "chap. IV, efficiency",
        "ideal efficiency and steam",
        f"{STEAM} (the source misprints 2250 for 2550 Btu)",
    ),
    ("M70-COND", "machinery-70", "chap. IV, condensing", "power gained by condensing", POWER),
    ("M70-T1", "machinery-70", "tables I, III and IV", "bands of clearance, card factor and water rate", STEAM),
    ("LIN-DF", "lineham", "p. 772", "card factors and highest economical expansion", PRESSURE),
    ("RT-HP", "maggard-1900", "question on a 7 by 10 in engine", "horse-power", POWER),
    ("BRK-IHP", "brooks-1888", "section on engines", "indicated and nominal horse-power", POWER),
    ("TRE-IHP", "tredgold-1838", "p. 387", "force on a piston, less friction", POWER),
    ("B-HPCONST", "bourne-1865", "Q212-217 and Q221", "divisors for horse-power", POWER),
    ("SOL-8.1", "solberg-1946", "example 8.1, p. 461", "indicated and brake horse-power", POWER),
    ("JOEL-1", "joel", "example 11.1, p. 326", "bore and stroke for a power", POWER),
    ("JOEL-2", "joel", "example 11.2, p. 328", "bore, stroke and steam for a power", POWER),
    ("AGR-1", "agrawal", "examples 1, 6, 7 and 8, pp. 281-288", "mean effective pressure", PRESSURE),
    ("AGR-2", "agrawal", "example 2, p. 283", "mean effective pressure with clearance", PRESSURE),
    ("ONK-8", "singh", "example 8, p. 545", "cushion steam and dryness", STEAM),
    ("EB-COND", "ewing-1911", "sections 45-47", "condensation in the cylinder", STEAM),
    ("LAN-OLD4", "langley-1911", "pp. 54-55", "brake power of a 24 by 50 mm engine", TRIAL),
    ("LAN-OLD4B", "langley-1911", "p. 63", "power of two 24 by 50 mm cylinders", TRIAL),
    ("LAN-6", "langley-1911", "pp. 66-69 and 121", "brake power of two 28 by 50 mm cylinders", TRIAL),
    ("LAN-AIR", "langley-1911", "p. 26", "turns from a store of compressed air", PRESSURE),
    ("LAN-0", "langley-1911", "pp. 33 and 37", "power of two small compounds", TRIAL),
    (
        "RIE-91",
        "riedler-1891",
        "tables of small air motors",
        "air used by motors below 1 hp",
        f"{TRIAL}; rotary motors",
    ),
    ("DASILVA-18", "da-silva-2018", "abstract", "greatest power of an expander on air", TRIAL),
    ("MIT-17", "mit-1917", "run no. 2", "brake load and steam of a car engine", TRIAL),
    ("CUSH", "cushion-trials", "averages of three groups", "steam saved by full compression", TRIAL),
    (
        "HOP-80",
        "sciam-1880",
        '"A simple single-acting steam engine"',
        "all sizes of a model engine, and its power",
        f"{TRIAL}; and its valve oscillates, which no record describes",
    ),
    ("IF97-R3-1", "iapws-r7-97", "table 33, 650 K and 500 kg/m3", "water near the critical point, 256 bar", DENSE),
    ("IF97-R3-2", "iapws-r7-97", "table 33, 650 K and 200 kg/m3", "steam near the critical point, 223 bar", DENSE),
    ("IF97-R3-3", "iapws-r7-97", "table 33, 750 K and 500 kg/m3", "water above the critical point, 783 bar", DENSE),
    ("IAPWS95-SAT-625", "iapws-r6-95", "table 8, 625 K", "boiling at 169 bar", DENSE),
    ("SA-SMALL", "sciam-1880", "query 6", "sizes for half and one horse-power", POWER),
)

LEFT = tuple(Left(id=key, source=source, locator=place, what=what, why=why) for key, source, place, what, why in _ROWS)
