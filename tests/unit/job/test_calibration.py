"""A calibration in the words and units of the record, and put into the record."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from lapwright.cycle.calibrating import Estimate, Prior
from lapwright.errors import RecordChanged
from lapwright.job.run.calibration import NO_TESTS, Unit, report_calibration, write_figure, write_into_record
from lapwright.job.run.calibration_results import list_calibration, list_uncalibrated
from lapwright.job.visit import Visit, examine, examine_opened
from lapwright.quantities import read_gap, read_pressure
from lapwright.record import read_record

MICRON, BAR, PSI = Unit(name="µm", size=1e-6), Unit(name="bar", size=1e5), Unit(name="psi", size=6894.757)
EXAMPLES = Path(__file__).parents[3] / "examples"
RUN_DOWN = '\n[[bench_test]]\nrun_down_from = "300 rpm"\nrun_down_time = "0.70 s"\n'


def bring(folder: Path, tests: str, **changes: str) -> Visit:
    """The Sandpiper without its own bench tests, with others, and with lines replaced."""
    text = (EXAMPLES / "sandpiper.toml").read_text(encoding="utf-8")
    text = text[: text.index("\n# Tried on the museum's bench")] + tests
    for old, new in changes.items():
        assert f"\n{old} = " in text
        line = next(line for line in text.splitlines() if line.startswith(f"{old} = "))
        text = text.replace(line, new)
    path = folder / "sandpiper.toml"
    path.write_text(text, encoding="utf-8")
    return examine(path)


def estimate(value: float, low: float, high: float) -> Estimate:
    prior = Prior(key="ring_gap", value=value, spread=0.7, is_own=False)
    return Estimate(key="ring_gap", value=value, low=low, high=high, prior=prior, kept=0.1, mostly_from=1, trades={})


@pytest.mark.parametrize(
    ("value", "low", "high", "unit", "written"),
    [
        (9.7e-6, 7.1e-6, 11.4e-6, MICRON, "9.7 +1.7 -2.6 µm"),
        (13.52e-6, 1.31e-6, 14.15e-6, MICRON, "13.5 +0.6 -12.2 µm"),
        (0.81e-6, 0.2e-6, 2.4e-6, MICRON, "0.81 +1.59 -0.61 µm"),
        (31_400.0, 28_900.0, 33_900.0, BAR, "0.314 ± 0.025 bar"),
        (31_400.0, 28_900.0, 34_100.0, PSI, "4.55 +0.39 -0.36 psi"),
        (120e-6, 119.999e-6, 120.2e-6, MICRON, "120 ± 1 µm"),
    ],
)
def test_a_figure_is_written_as_fine_as_its_doubt_is(
    value: float, low: float, high: float, unit: Unit, written: str
) -> None:
    assert write_figure(estimate(value, low, high), unit) == written
    read = read_gap(written) if unit is MICRON else read_pressure(written)
    assert read.si == pytest.approx(value, rel=0.01)
    assert read.doubt_minus is not None
    assert read.doubt_minus <= read.si


def test_what_the_tests_tell_stands_in_the_units_of_the_record(tmp_path: Path) -> None:
    tests = (
        '\n[[bench_test]]\nsupply_pressure = "9 psi"\nspeed = "150 rpm"\nload = "4 W"\nair_flow = "0.15 cfm"\n'
        '\n[[bench_test]]\nrun_down_from = "5 rev/s"\nrun_down_time = "700 ms"\n'
        '\n[[bench_test]]\ndecay_from = "15 psi"\ndecay_to = "7 psi"\n'
        'decay_time = "1/4 min"\ndecay_volume = "1.2 in3"\n'
    )
    changed = {"friction_pressure": 'friction_pressure = "1.7 psi"', "ring_gap": 'ring_gap = "0.2 thou"'}
    report = report_calibration(bring(tmp_path, tests, **changed))
    figures = {name: (before, after) for name, before, after, _ in report.figures}
    assert figures["friction pressure"][0] == "1.7 (0.52 to 5.5) psi"
    assert figures["friction pressure"][1].endswith(" psi")
    assert figures["ring gap"][0] == "0.20 (0.051 to 0.79) thou"
    assert figures["gland gap"][0] == "5.0 (1.3 to 20) µm"
    titles = [title for title, _ in report.tests]
    assert titles == [
        "Test 1: 9 psi of air, 150 rpm, against 4 W",
        "Test 2: run down from 5 rev/s",
        "Test 3: shut in, from 15 psi to 7 psi, 1.2 in3",
    ]
    told = [sentence for _, sentences in report.tests for sentence in sentences]
    assert " by the fit, 0.15 cfm measured" in told[1]
    assert " ms by the fit, 700 ms measured" in told[2]
    assert " min by the fit, 1/4 min measured" in told[3]


def test_what_the_record_knew_stands_as_it_was_written(tmp_path: Path) -> None:
    report = report_calibration(bring(tmp_path, RUN_DOWN))
    assert report.figures[0][1] == "0.12 ± 0.04 bar"
    assert report.figures[1] == ("ring gap", "3.0 (0.76 to 12) µm", "as before", "")
    assert set(report.lines) == {"friction_pressure", "from_tests"}
    assert report.lines["from_tests"] == "friction_pressure"


def test_it_goes_into_the_record_and_the_rest_of_it_stays_to_the_byte(tmp_path: Path) -> None:
    visit = bring(tmp_path, RUN_DOWN)
    report = report_calibration(visit)
    write_into_record(visit, report)
    written = (tmp_path / "sandpiper.toml").read_text(encoding="utf-8")
    expected = visit.record.text.replace('"0.12 ± 0.04 bar"', f'"{report.lines["friction_pressure"]}"')
    assert written == expected.replace('ring_gap = "3 µm"\n', 'ring_gap = "3 µm"\nfrom_tests = "friction_pressure"\n')
    with pytest.raises(RecordChanged):
        write_into_record(visit, report)


def test_writing_it_twice_does_not_count_the_tests_twice(tmp_path: Path) -> None:
    first = bring(tmp_path, RUN_DOWN, friction_pressure="", ring_gap="")
    write_into_record(first, report_calibration(first))
    second = examine(tmp_path / "sandpiper.toml")
    assert second.engine.from_tests == ("friction_pressure",)
    again = report_calibration(second)
    write_into_record(second, again)
    assert (tmp_path / "sandpiper.toml").read_text(encoding="utf-8") == second.record.text
    assert again.figures[0][1].startswith("0.25 (0.077 to 0.81)")


def test_what_came_from_tests_before_is_still_said_to(tmp_path: Path) -> None:
    visit = bring(tmp_path, RUN_DOWN, ring_gap='ring_gap = "9 ± 1 µm"\nfrom_tests = "ring_gap"')
    assert report_calibration(visit).lines["from_tests"] == "friction_pressure, ring_gap"


def test_nothing_goes_into_the_record_while_tests_contradict_each_other(tmp_path: Path) -> None:
    visit = bring(tmp_path, RUN_DOWN + RUN_DOWN.replace("0.70", "2.8"))
    report = report_calibration(visit)
    assert report.has_trouble
    assert report.lines == {}


def test_cautions_go_with_what_was_tried_and_with_what_is_to_be_tried(tmp_path: Path) -> None:
    spinning = " ".join(report_calibration(bring(tmp_path, RUN_DOWN)).cautions)
    assert "clear of flywheel" in spinning
    assert "low pressure only" in spinning  # a fall of pressure is what to try next
    assert "inspector" in spinning
    assert "Steam scalds" not in spinning
    light = '\n[[bench_test]]\nfluid = "steam"\nsupply_pressure = "0.3 bar"\nspeed = "150 rpm"\nload = "40 mN m"\n'
    assert "Steam scalds" in " ".join(report_calibration(bring(tmp_path, light)).cautions)


def test_results_are_plain_and_hold_every_reading_with_its_sentence(tmp_path: Path) -> None:
    visit = bring(tmp_path, RUN_DOWN)
    results = list_calibration(report_calibration(visit), visit.record, written=False)
    assert json.loads(json.dumps(results, allow_nan=False)) == results
    assert [figure["key"] for figure in results["figures"]] == [
        "running.friction_pressure", "running.ring_gap", "running.valve_face_gap", "running.gland_gap",
    ]  # fmt: skip
    friction = results["figures"][0]
    assert friction["low"] < friction["value"] < friction["high"]
    assert friction["before"] == {
        "value": 12.0, "low": pytest.approx(8.49, rel=0.01), "high": pytest.approx(17.0, rel=0.01), "is_own": True,
    }  # fmt: skip
    (reading,) = results["readings"]
    assert (reading["test"], reading["kind"], reading["unit"], reading["measured"]) == (1, "run-down", "s", 0.7)
    assert reading["sentence"].endswith("0.70 s measured")
    assert len(results["correlations"]) == 6
    assert results["running"] == dict(report_calibration(visit).lines)


def test_a_record_without_tests_says_how_to_write_one() -> None:
    opened = read_record(b'format = 1\n[engine]\nname = "Wren"\n[[cylinder]]\n')
    results = list_uncalibrated(examine_opened(opened).record)
    assert results["no_calibration"] == NO_TESTS
    assert (results["figures"], results["running"], results["written"]) == ([], {}, False)
    example = NO_TESTS[NO_TESTS.index("    [[") : NO_TESTS.index('"lapwright new"')]
    assert read_record(b'format = 1\n[engine]\nname = "Wren"\n[[cylinder]]\n' + example.encode()).problems == ()
