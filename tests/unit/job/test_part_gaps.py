"""Parts that are found wrong and cannot be cured yet: which size is wanted."""

from lapwright.job.visit import examine_opened
from lapwright.record import read_record

BARE = b"""format = 1
[engine]
name = "Ruff"
[[cylinder]]
bore = "20 mm"
[[cylinder.gland]]
packed_with = "nothing"
[[fastener]]
name = "eccentric screw"
holds = "eccentric"
state = "stripped"
[[pin]]
name = "fork pin"
kind = "screw"
moving_part = "4 mm"
"""


def test_what_a_cure_of_a_part_wants_is_said_where_there_is_none() -> None:
    visit = examine_opened(read_record(BARE))
    assert len(visit.part_findings) == 3
    assert visit.part_cures == ()
    told = {gap.figure: gap.because for gap in visit.gaps if gap.figure.startswith("cures.")}
    assert told == {
        "cures.eccentric screw": "not known, it wants thread, as it was cut",
        "cures.gland of the piston rod": (
            "not known, it wants rod, box_bore and box_depth as they are, with room for packing between them"
        ),
        "cures.fork pin": "not known, it wants moving_part, and the diameter or the hole",
    }


def test_a_part_with_a_cure_is_no_gap() -> None:
    known = BARE.replace(b'holds = "eccentric"', b'holds = "eccentric"\nthread = "6BA"')
    visit = examine_opened(read_record(known))
    assert [cure.part for cure in visit.part_cures] == ["eccentric screw"]
    assert "cures.eccentric screw" not in {gap.figure for gap in visit.gaps}
