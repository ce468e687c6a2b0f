"""A log as it grows over many years: entries of every kind, with readings, parts, jobs and photographs."""

from __future__ import annotations

import io
from collections.abc import Sequence
from contextlib import closing
from datetime import datetime, timedelta
from pathlib import Path

from PIL import Image

from lapwright.logbook import KINDS, EntryDraft, Reading, open_logbook
from lapwright.logbook.connecting import connect
from lapwright.logbook.entries import add_entry
from lapwright.logbook.photographs import add_photograph
from lapwright.logbook.pictures import examine_picture
from lapwright.logbook.places import locate_log, locate_photograph, locate_thumbnail

MANY, FEW = 10_000, 10
#: One entry in so many has a photograph, is an open job, has the rare word; of the few entries some have each, too.
PHOTOGRAPH_EACH, OPEN_EACH, RARE_EACH = 5, 200, 500
COMMON, RARE, PHRASE = "gland", "freckled", "gland nut"
NEWEST = datetime(2026, 9, 30, 16, 0)
_SENTENCES = (
    "Steam chest cover off; valve face wiped and blued, bearing on both long edges",
    "Gland nut a quarter turn tighter, the rod wept at {n} psi",
    "Port edges measured with the feeler stock, cover end first, twice",
    "Ran on air from the small receiver, steady down to {n} turns a minute",
    "Eccentric strap shim out, knock gone; oil hole cleared with a {n} mm wire",
    "Gland packed anew, three turns of graphited yarn, joints staggered",
    "Crosshead pin polished, clearance taken up, cylinder oil changed",
    "Exhaust edge of the crank end port looks worn, photograph beside the rule",
)
_READINGS = (("air", "{n} psi"), ("speed", "{n} rpm"), ("lap", "{n} thou"), ("bore", "25.{n} mm"), ("play", "slight"))
_PARTS = ("graphited yarn 3 mm", "4 BA hexagon screw", "gasket paper 0.4 mm", "O-ring 6 x 2", "soft solder")


def fill_log(folder: Path, engines: Sequence[str], *, entries: int) -> int:
    """Fill the log of a folder with the newest of one and the same row of entries; return how many photographs."""
    open_logbook(folder, now=NEWEST).close()
    photographs = 0
    # One transaction for all, and files that are not waited for: nothing of this is timed.
    with closing(connect(locate_log(folder))) as connection:
        connection.execute("BEGIN")
        for age in reversed(range(entries)):
            entry = add_entry(connection, draft_entry(age, engines), now=NEWEST)
            if age % PHOTOGRAPH_EACH == 1:
                picture = examine_picture(take_picture(age), f"bench-{age}.jpg")
                keep(locate_photograph(folder, f"{picture.digest}.{picture.form}"), picture.data)
                keep(locate_thumbnail(folder, picture.digest), picture.small)
                add_photograph(connection, entry.id, picture, now=NEWEST)
                photographs += 1
        connection.execute("COMMIT")
    return photographs


def draft_entry(age: int, engines: Sequence[str]) -> EntryDraft:
    """Write the entry that has so many newer ones."""
    words = [_SENTENCES[age % len(_SENTENCES)].format(n=age % 61 + 3), _SENTENCES[age * 5 % 7].format(n=age % 17 + 2)]
    if age % RARE_EACH == 4:
        words.append(f"The old paint came off {RARE}.")
    names = (age, age * 3 + 1)[: age % 3]
    return EntryDraft(
        engine=engines[age % len(engines)],
        kind=KINDS[age * 3 % len(KINDS)],
        text=". ".join(words),
        when=NEWEST - timedelta(hours=7 * age),
        readings=tuple(
            Reading(name, value.format(n=age % 71 + 5))
            for name, value in (_READINGS[n % len(_READINGS)] for n in names)
        ),
        parts_used=(_PARTS[age % len(_PARTS)],) if age % 4 == 0 else (),
        minutes=age % 8 * 15 or None,
        job="open" if age % OPEN_EACH == 2 else "closed" if age % 9 == 5 else "",
    )


def take_picture(number: int) -> bytes:
    """Make a small picture that is like no other."""
    image = Image.new("RGB", (64, 48), (number % 256, number // 256, 90))
    with io.BytesIO() as file:
        image.save(file, "JPEG")
        return file.getvalue() + number.to_bytes(4, "big")


def keep(path: Path, data: bytes) -> None:
    """Write a file."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
