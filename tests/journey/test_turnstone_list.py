"""What to have ready for the Turnstone, size by size worked out again by hand; and that her card holds it all."""

from __future__ import annotations

from math import ceil, pi

import pytest

from tests.journey.turnstone import (
    FIGURE,
    JOINT_TORQUE,
    MOST_TORQUE,
    PULL,
    THREAD,
    examine_turnstone,
)

pytestmark = pytest.mark.journey


def test_the_list_of_what_to_have_ready() -> None:
    screw, cover, pin, paint = "eccentric screw", "cylinder cover studs", "fork pin", "painting"
    safety = "your own safety"
    rod, spindle = "gland of the piston rod", "gland of the valve spindle"
    # Six turns of packing, up to the next centimetre: 6 x 21.99 = 131.9 and 6 x 15.08 = 90.5 mm.
    packing = [f"{ceil(6 * pi * (across + section) / 10) / 100:.2f} m" for across, section in ((5, 2), (3.2, 1.6))]
    # The head, 1.6 x 3.0 = 4.8, is turned to 5.0 from rod of 5 mm. Along the rod: half a diameter of head, one for the
    # cheek that nobody measured, the shank, washer and two nuts of 0.2 and 0.8 diameters, 15 to hold: 29 mm.
    rod_length = ceil((0.5 * 3 + 3 + 4.10 + (0.2 + 2 * 0.8) * 3 + 15) / 10) * 10
    # Two coats of 3.61 ml: 7.2 ml, up to the next 5.
    paint_wanted = ceil(2 * 1.3 * 0.05 * 25 / 0.45 / 5) * 5
    # The joint is cut from 30 mm and 5 mm all round. It is 2.5 mm wide, under 1.6 x 2.5 mm: no room for studs in it.
    sheet = 30 + 2 * 5
    # The old 6 BA hole of 2.8 mm in the far cheek, and 2 mm more: a bush of 4.8 mm.
    bush = ceil(2.8 + 2)
    assert (packing, rod_length, paint_wanted, sheet, bush) == (["0.14 m", "0.10 m"], 30, 10, 40, 5)
    expected = [
        ("tools", "tap wrench", 1, (screw,)),
        (
            "tools",
            "hex key 1.5 mm, or what the socket measures",
            1,
            (screw,),
        ),  # of an M3 grub screw: the nearest under 3.6 mm that is in the table
        ("tools", "scriber", 1, (screw,)),
        ("tools", f"torque driver or spanner, to {MOST_TORQUE / 1e3:.2f} N m", 1, (cover,)),
        ("tools", "spanner or driver for 7 BA nuts", 1, (cover,)),
        ("tools", "marking blue and scraper of brass", 1, (cover,)),
        ("tools", f"mandrel 5.00 mm ({5 / 25.4:.3f} in), the rod's size", 1, (rod,)),
        ("tools", "sharp blade", 1, (rod, spindle)),
        ("tools", "packing hook", 1, (rod, spindle)),
        ("tools", "split sleeve 5.2 mm bore, 8.8 mm outside, to push rings home", 1, (rod,)),
        ("tools", f"mandrel 3.20 mm ({3.2 / 25.4:.3f} in), the rod's size", 1, (spindle,)),
        ("tools", "split sleeve 3.4 mm bore, 6.2 mm outside, to push rings home", 1, (spindle,)),
        ("tools", "3.0 mm reamer, H7", 1, (pin,)),
        ("tools", "micrometer", 1, (pin,)),
        ("tools", "soft flat brush", 1, (paint,)),
        ("tools", "syringe or small measure marked in ml", 1, (paint,)),
        ("tools", "flat block", 1, (paint,)),  # for the raised letters
        ("tools", "eye protection", 1, (safety,)),
        ("tools", "mask that the local rules ask for with old packing", 1, (safety,)),
        ("tools", "mask that the tins ask for", 1, (safety,)),
        ("taps and dies", "4 BA taps, taper and plug", 1, (screw,)),
        ("taps and dies", "7 BA die, with its stock", 1, (pin,)),
        ("taps and dies", "7 BA taps, taper and plug", 1, (pin,)),  # for the bush in the far cheek
        ("drills", "3 mm drill", 1, (screw,)),
        ("drills", "2.8 mm drill", 1, (pin,)),
        ("drills", "2.05 mm drill", 1, (pin,)),  # 7 BA tapping, for the bush
        ("drills", f"{bush} mm drill, for the bush", 1, (pin,)),
        ("screws", "4 BA x 4 mm socket grub screw, cup point", 1, (screw,)),  # as long as the thread in the hub
        ("screws", "7 BA stud, steel", 6, (cover,)),
        ("screws", "7 BA nut", 8, (pin, cover)),  # six on the cover, two locked on the pin
        ("screws", "7 BA washer", 1, (pin,)),
        ("packing", "2 mm graphite yarn", packing[0], (rod,)),
        # 1/16 in is 1.5875 mm, 0.8 % under 1.6: within the 8 % that a packing may be thinner.
        ("packing", "1/16 in graphite yarn", packing[1], (spindle,)),
        ("joints", "oiled paper, 0.1 to 0.25 mm thick", f"{sheet} x {sheet} mm", (cover,)),
        ("metal", "steel rod, 5 mm", f"{rod_length} mm", (pin,)),
        ("metal", f"gunmetal rod, {bush} mm, for a bush in the far side", "a short end", (pin,)),
        ("paint", "oil/styrene aluminium heat paint", f"{paint_wanted} ml", (paint,)),
        ("paint", "thinner for oil/styrene aluminium heat paint", "50 ml", (paint,)),
        ("consumables", "soapy water and brush", 1, (rod, spindle)),
        ("consumables", "steam oil", 1, (rod, spindle)),
        ("consumables", "cutting oil", "a little", (pin,)),
        ("consumables", "white spirit", "50 ml", (paint,)),
        ("consumables", "sheet of wet-or-dry paper, P180", 1, (paint,)),
        ("consumables", "sheet of wet-or-dry paper, P600", 1, (paint,)),
        ("consumables", "pack of rags without lint", 1, (paint,)),
        ("consumables", "pair of gloves that stand thinner", 1, (paint,)),
        ("consumables", "roll of masking tape", 1, (paint,)),
        ("consumables", "spray of water and bags that close, for old packing and joints", 1, (safety,)),
    ]
    listed = [
        (item["shelf"], item["name"], item["amount"] or item["count"], tuple(item["purposes"]))
        for item in examine_turnstone()[1]["have_ready"]
    ]
    # Shelf by shelf; within a shelf in the order of the work.
    assert sorted(map(repr, listed)) == sorted(map(repr, expected))
    shelves = [item[0] for item in listed]
    assert list(dict.fromkeys(shelves)) == list(dict.fromkeys(item[0] for item in expected))
    assert shelves == sorted(shelves, key=[item[0] for item in expected].index)


#: Shelves of things that a person picks by their size or by how much is wanted.
SIZED = {"taps and dies", "drills", "screws", "packing", "joints", "metal", "paint"}


def test_every_item_has_a_shelf_a_size_and_a_purpose() -> None:
    told = examine_turnstone()[1]
    for item in told["have_ready"]:
        assert item["shelf"]
        assert item["purposes"]
        assert item["count"] >= 1
        assert item["shelf"] not in SIZED or FIGURE.search(f"{item['name']} {item['amount']}"), item


def test_the_card_has_them_all() -> None:
    card, told = examine_turnstone()
    for finding in told["findings"]:
        for name in ("title", "because"):
            assert finding[name][1:] in card
    for cure in told["cures"]:
        for line in (cure["title"], *cure["steps"], *cure["notes"]):
            assert " ".join(line.split()) in card
    for item in told["have_ready"]:
        assert f"{item['name']} {item['amount'] or item['count']} {', '.join(item['purposes'])}" in card
    # The figures to work to, as they are read at the bench.
    for figure in (
        f"Tapping drill 3.00 mm ({3 / 25.4:.3f} in)",
        f"Depth of thread {100 * 0.6 / 0.79:.0f} %",
        f"Thread at least this deep {THREAD:.2f} mm ({THREAD / 25.4:.3f} in)",
        "Tighten each to 1.02 N m",
        "It then holds 2.12 N m",
        f"Tighten each to {JOINT_TORQUE / 1e3:.2f} N m",
        f"Never over {MOST_TORQUE / 1e3:.2f} N m",
        f"Pull in each {PULL:.0f} N",
        f"Joint, over its outside 30.00 mm ({30 / 25.4:.3f} in)",
        f"Joint, its bore 25.00 mm ({25 / 25.4:.3f} in)",
        f"Piston rod: packing, square section 2.00 mm ({2 / 25.4:.3f} in)",
        f"Piston rod: each ring cut to {7 * pi:.2f} mm ({7 * pi / 25.4:.3f} in)",
        f"Valve spindle: packing, square section 1.60 mm ({1.6 / 25.4:.3f} in)",
        f"Valve spindle: each ring cut to {4.8 * pi:.2f} mm ({4.8 * pi / 25.4:.3f} in)",
        "Plain shank 2.992 to 2.998 mm (0.1178 to 0.1180 in)",
        "Length of plain shank, beyond the cheek under the head 4.05 to 4.10 mm (0.159 to 0.161 in)",
        "Hole of the moving part 3.000 to 3.010 mm (0.1181 to 0.1185 in)",
    ):
        assert figure in card
