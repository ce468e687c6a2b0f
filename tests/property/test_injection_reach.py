"""How far the findings reach: two causes for the same figures, doubt, half-known engines and odd ones."""

from __future__ import annotations

from dataclasses import replace
from math import isfinite, pi, radians
from random import Random

import pytest

from lapwright.cures import find_cures
from lapwright.engine.engine import PURPOSES, Engine, Target
from lapwright.engine.sizes import Doubt, Sizes
from lapwright.findings import CODES, SEVERITIES, Finding, find_faults
from tests.property.engines import random_engine
from tests.property.faults import INJECTIONS
from tests.property.injection import Plan, draw_sound_plan, find_leads, set_eccentric
from tests.property.test_injection import MM, matched_engine


def find(numbers: dict[str, float], doubts: dict[str, Doubt] | None = None, **engine: object) -> tuple[Finding, ...]:
    sizes = Sizes("A", numbers, doubts or {})
    return find_faults(Engine(name="Wren", cylinders=(sizes,), **engine))  # type: ignore[arg-type]


def check_whole(findings: tuple[Finding, ...]) -> None:
    """What every finding owes the reader."""
    for finding in findings:
        assert finding.code in CODES
        assert finding.severity in SEVERITIES
        assert finding.size is None or (isfinite(finding.size) and finding.size >= 0)
        assert finding.doubt is None or (isfinite(finding.doubt) and finding.doubt > 0)
        for text in (finding.title, finding.because, finding.effect, finding.check_next):
            assert text == text.strip() != ""
            assert [slip for slip in ("None", "nan", "inf ", "-0.00 mm", "  ", "- ") if slip in text] == [], text
    severities = [SEVERITIES.index(finding.severity) for finding in findings if not finding.instead_of]
    assert severities == sorted(severities)


def lengthen(plan: Plan, x: float) -> Plan:
    return replace(plan, length=plan.length + x, room=None)


def test_a_lapped_valve_made_longer_is_told_both_ways() -> None:
    """Without a target nothing tells a valve too long from an eccentric too far back: both are listed."""
    both = 0
    for seed in range(200):
        rng = Random(seed)
        plan = draw_sound_plan(rng, square=False, outside=True, share=rng.uniform(1.1, 1.3))
        findings = find_faults(lengthen(plan, rng.uniform(0.1, 0.3) * plan.throw + 0.1 * MM).engine())
        by_code = {finding.code: finding.instead_of for finding in findings}
        roots = [code for code in ("valve-too-long", "eccentric-behind") if by_code.get(code) == ""]
        both += {"valve-too-long", "eccentric-behind"} <= set(by_code) and len(roots) == 1
    assert both >= 190


def test_a_square_eccentric_under_a_lapped_valve_is_told_both_ways() -> None:
    """The classic question: shorten the valve, or advance the eccentric? Either would explain the late ports."""
    for lap in (0.05, 0.15, 0.28):
        numbers = matched_engine(3 * MM)
        numbers["valve.length"] += 2 * lap * 3 * MM
        codes = {finding.code: finding.instead_of for finding in find(numbers)}
        assert codes.get("valve-too-long") == ""
        assert codes.get("eccentric-behind") == "valve-too-long"


def test_a_target_settles_which_of_two_causes_it_is() -> None:
    for seed in range(100):
        rng = Random(seed)
        plan = draw_sound_plan(rng, square=False, outside=True, share=1.2)
        longer = replace(lengthen(plan, 0.3 * plan.throw), target=Target(lap=plan.lap))
        turned = replace(plan, angle=plan.angle - radians(12), target=Target(lap=plan.lap))
        assert find_faults(longer.engine())[0].code == "valve-too-long"
        assert find_faults(turned.engine())[0].code == "eccentric-behind"


@pytest.mark.parametrize(("tolerance", "severity"), [(0.1, "spoils-it"), (0.5, "spoils-it"), (0.7, "note")])
def test_a_fault_within_its_doubt_is_only_a_note(tolerance: float, severity: str) -> None:
    numbers = matched_engine(3 * MM)
    numbers["valve.length"] += 0.6 * MM
    doubts = {
        "valve.length": Doubt(tolerance * MM, tolerance * MM),
        "port_face.steam_port": Doubt(0.02 * MM, 0.02 * MM),
    }
    finding = find(numbers, doubts)[0]
    assert finding.code == "valve-too-long"
    assert finding.doubt == pytest.approx((tolerance**2 + 0.04**2) ** 0.5)
    assert finding.doubt_mostly_from == "valve.length"
    assert finding.severity == severity


def test_an_uneven_tolerance_counts_with_the_half_of_both() -> None:
    numbers = matched_engine(3 * MM)
    numbers["valve.length"] += 0.5 * MM
    finding = find(numbers, {"valve.length": Doubt(0.3 * MM, 0.1 * MM)})[0]
    assert finding.doubt == pytest.approx(0.2)


def test_a_small_slip_of_the_eccentric_within_its_reading_is_a_note() -> None:
    numbers = matched_engine(3 * MM, **{"valve_drive.eccentric_angle": radians(86)})
    doubts = {"valve_drive.eccentric_angle": Doubt(radians(5), radians(5))}
    finding = find(numbers, doubts)[0]
    assert (finding.code, finding.severity) == ("eccentric-behind", "note")
    assert finding.doubt == pytest.approx(5.0, abs=0.01)
    assert find(numbers)[0].severity != "note"


def test_a_valve_off_centre_by_less_than_its_doubt_is_a_note() -> None:
    numbers = matched_engine(3 * MM, **{"valve_drive.valve_offset": 0.3 * MM})
    finding = find(numbers, {"valve_drive.valve_offset": Doubt(0.35 * MM, 0.35 * MM)})[0]
    assert (finding.code, finding.severity) == ("valve-off-centre", "note")
    assert finding.doubt == pytest.approx(0.35)


def with_doubts(sizes: Sizes) -> Sizes:
    """The cylinder with every size in doubt by a tenth."""
    return replace(sizes, doubts={key: Doubt(abs(at) / 10, abs(at) / 10) for key, at in sizes.numbers.items()})


def drop_sizes(rng: Random, engine: Engine, share: float) -> Engine:
    """The engine with some of its sizes unknown."""
    cylinders = tuple(
        replace(sizes, numbers={key: value for key, value in sizes.numbers.items() if rng.random() > share})
        for sizes in engine.cylinders
    )
    return replace(engine, cylinders=cylinders)


@pytest.mark.parametrize("share", [0.05, 0.15, 0.5])
def test_half_known_engines_are_judged_as_far_as_they_are_known(share: float) -> None:
    """Any sizes missing, any fault: never an exception, and a cure only for what was found."""
    rng = Random(5)
    injections = list(INJECTIONS.values())
    for _ in range(300):
        half = drop_sizes(rng, rng.choice(injections)(rng).engine, share)
        findings = find_faults(half)
        check_whole(findings)
        cures = find_cures(half, findings)
        assert {cure.cylinder for cure in cures} <= {finding.cylinder for finding in findings}


def test_a_sound_engine_with_sizes_missing_is_not_called_wrong_for_certain() -> None:
    """What rests on a size taken for granted is never told as worse than worth doing."""
    rng = Random(6)
    for _ in range(300):
        half = drop_sizes(rng, draw_sound_plan(rng).engine(), 0.15)
        for finding in find_faults(half):
            assert finding.severity in {"worth-doing", "note"}, (finding, half)


def test_engines_wrong_in_every_way_are_judged() -> None:
    rng = Random(8)
    for _ in range(300):
        sizes = random_engine(rng, scale=rng.uniform(0.2, 5.0))
        engine = Engine(name="Wren", cylinders=(sizes,), purpose=rng.choice([None, *PURPOSES]))
        check_whole(find_faults(engine))


ODD: tuple[dict[str, float], ...] = (
    {"valve_drive.throw": 0.5 * MM, "valve.length": 20.6 * MM},
    {"valve_drive.throw": 3 * MM, "valve.length": 24.6 * MM},
    {"cylinder_offset": 5 * MM, "valve_drive.valve_line_offset": 7 * MM},
    {"cylinder_offset": -12 * MM, "valve_drive.valve_line_offset": -30 * MM},
    {"valve_drive.eccentric_rod": 3.1 * MM},
    {"connecting_rod": 13.6 * MM},
    {"valve_drive.valve_offset": 40 * MM},
    {"valve_drive.throw": 40 * MM, "valve_drive.eccentric_rod": 45 * MM},
    {"valve.cavity": 1 * MM},
    {"valve.cavity": 18.5 * MM},
    {"valve.length": 3 * MM, "valve.cavity": 2 * MM},
    {f"port_face.edges.{i}": at * MM for i, at in enumerate((0, 2, 5.3, 11.3, 14.6, 18.6))},
    {"port_face.chest_head": 1 * MM, "port_face.chest_crank": 1 * MM},
    {"valve_drive.eccentric_angle": 0.0},
    {"valve_drive.eccentric_angle": pi},
)


@pytest.mark.parametrize("odd", ODD, ids=lambda odd: " ".join(f"{key.split('.')[-1]}={odd[key]:.4g}" for key in odd))
@pytest.mark.parametrize("double", [True, False], ids=["double", "single"])
@pytest.mark.parametrize("inside", [False, True], ids=["outside", "inside"])
def test_odd_but_possible_engines_are_judged(odd: dict[str, float], double: bool, inside: bool) -> None:
    numbers = matched_engine(3 * MM, **odd)
    if not double:
        del numbers["piston_rod"]
    sizes = Sizes("A", numbers, kind="piston", admission="inside" if inside else "outside")
    for target in (Target(), Target(cut_off=0.7), Target(lap=1 * MM, lead=0.1 * MM), Target(equal="cut-off")):
        for purpose in PURPOSES:
            engine = Engine(name="Wren", cylinders=(sizes,), purpose=purpose, target=target)
            findings = find_faults(engine)
            check_whole(findings)
            check_whole(find_faults(replace(engine, cylinders=(with_doubts(sizes),))))
            find_cures(engine, findings)
            if not double:
                assert all("crank end" not in finding.title for finding in findings)
                assert all(f.end != "crank" for f in findings if f.code != "valve-strikes-chest")


def test_a_single_acting_cylinder_is_set_by_its_one_end() -> None:
    """Off centre, with the eccentric turned until the head end's lead is right, it runs as it should."""
    for seed in range(60):
        rng = Random(seed)
        plan = replace(draw_sound_plan(rng, double=False, square=False, share=1.1), room=None)
        moved = replace(plan, offset=plan.offset + rng.uniform(-0.1, 0.1) * plan.throw)
        leads = find_leads(moved)
        mean = sum(leads.values()) / 2
        retimed = set_eccentric(moved, mean - leads["head"] + 0.03 * plan.throw)
        assert 0 < find_leads(retimed)["head"] < 0.06 * plan.throw
        assert all(finding.code != "valve-off-centre" for finding in find_faults(retimed.engine())), seed
