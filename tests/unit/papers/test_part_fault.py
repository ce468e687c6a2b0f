"""The picture of a part's fault: the fault stands out, what belongs to it is named, and nothing is asked."""

from __future__ import annotations

import pytest

from lapwright.findings.finding import PART_CODES, Finding
from lapwright.job.cure.finding_pictures import picture_finding
from lapwright.job.visit import Visit
from lapwright.papers.drawing import Drawing, Line, Text
from lapwright.papers.part_fault import draw_fault
from tests.unit.papers.matters import examine_demo, span_of

FAULTS = {
    "thread-worn": ({"thread stripped"}, {"thread of the hole 6BA", "thread of the screw 7BA"}),
    "stud-overloaded": ({"torque 0.45 N m"}, {"thread 7BA", "6 of them", "tightened: dry", "cover"}),
    "gland-leaks": ({"packed with nothing"}, {"box bore 9 mm", "piston rod 5 mm"}),
    "thread-as-bearing": ({"6BA thread where it turns", "plain length 1 mm"}, {"moving part 4 mm"}),
}
#: A drawing on a telephone is this wide [px], and its letters at least so high.
PHONE, LEGIBLE = 336.0, 11.0


def list_texts(drawing: Drawing) -> list[Text]:
    return [shape for shape in drawing.shapes if isinstance(shape, Text)]


def stands_clear(drawing: Drawing) -> None:
    texts = list_texts(drawing)
    for one in texts:
        left, right = span_of(one)
        assert left >= 0, one
        assert right <= drawing.width, one
        for other in texts:
            if one is not other and abs(one.at[1] - other.at[1]) < 0.75 * min(one.size, other.size):
                assert min(right, span_of(other)[1]) - max(left, span_of(other)[0]) < 0.6, (one.words, other.words)


@pytest.mark.parametrize("code", FAULTS)
def test_the_fault_stands_out_and_only_what_belongs_to_it_is_named(code: str) -> None:
    visit = examine_demo("turnstone")
    finding = next(finding for finding in visit.part_findings if finding.code == code)
    drawing = picture_finding(visit, finding, width=116.0)
    assert drawing is not None
    texts = list_texts(drawing)
    fault, named = FAULTS[code]
    assert {text.words for text in texts if text.bold} == fault
    assert {text.words for text in texts if not text.bold} == named
    assert all(text.size * PHONE / drawing.width >= LEGIBLE for text in texts if text.words != "cover")
    assert any(isinstance(shape, Line) and shape.layer == "curve" and shape.closed for shape in drawing.shapes)
    stands_clear(drawing)


def list_records() -> list[tuple[str, str, dict[str, str]]]:
    """A fault of every kind that the demo engine does not have: its code, its part, and what the record says of it."""
    gland, screw, stud, pin = "cylinder.0.gland.1", "fastener.0", "fastener.1", "pin.0"
    return [
        ("gland-leaks mm", gland, {"packed_with": "graphite yarn", "packing_section": "1.2 mm"}),
        ("gland-leaks", gland, {"packed_with": "graphite yarn", "packing_section": "1.2 mm", "rings": "9"}),
        ("packing-unsuitable", gland, {"packed_with": "graphite and PTFE yarn"}),
        ("packing-unsuitable", stud, {"gasket": "soft rubber"}),
        ("thread-worn", screw, {"state": "sound"}),
        ("thread-worn", stud, {"state": "worn"}),
        ("screw-will-not-hold", screw, {}),
        ("screw-will-not-hold", screw, {"torque": "0.2 N m", "count": "2"}),
        ("stud-overloaded", screw, {"torque": "2 N m"}),
        ("pin-worn", pin, {"diameter": "2.8 mm", "hole": "3.1 mm"}),
        ("thread-as-bearing", pin, {"thread": ""}),
    ]


def say_wrong(visit: Visit, code: str, part: str) -> Finding:
    name, _, unit = code.partition(" ")
    plain = {"title": "t", "because": "b", "effect": "e", "check_next": "c"}
    return Finding(
        code=name, cylinder=visit.cylinders[0].name, end=None, severity="note", size=None, unit=unit, part=part, **plain
    )


@pytest.mark.parametrize(("code", "part", "said"), list_records(), ids=lambda each: str(each)[:40])
def test_every_kind_of_fault_has_its_picture(code: str, part: str, said: dict[str, str]) -> None:
    visit = examine_demo("turnstone")
    written = {**visit.record.written, **{f"{part}.{key}": text for key, text in said.items()}}
    drawing = draw_fault(part, visit.engine, say_wrong(visit, code, part), written=written)
    texts = list_texts(drawing)
    assert any(text.bold for text in texts)
    assert not any("?" in text.words for text in texts)
    stands_clear(drawing)


def test_every_code_of_a_part_is_drawn() -> None:
    assert {code.partition(" ")[0] for code, _, _ in list_records()} == set(PART_CODES)
