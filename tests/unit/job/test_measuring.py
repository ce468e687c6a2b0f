"""What the page Measure tells: of every key, of half-known engines and of flawed ones."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.errors import NotThere
from lapwright.job.measure.guide import TURN_CAUTION
from lapwright.job.measure.guides import GUIDES
from lapwright.job.measure.measuring import MeasureField, MeasureSheet, list_measures
from lapwright.job.measure.reading_back import find_key, read_back, show_value
from lapwright.quantities import read_length
from lapwright.record import change_record, open_record, read_record
from lapwright.record.keys import TABLES

EXAMPLES = Path(__file__).parents[3] / "examples"
NAMES = sorted(path.stem for path in EXAMPLES.glob("*.toml"))


def open_demo(name: str) -> MeasureSheet:
    return list_measures(open_record(EXAMPLES / f"{name}.toml"))


def read(text: str) -> MeasureSheet:
    return list_measures(read_record(text.encode()))


def fields_of(sheet: MeasureSheet) -> dict[str, MeasureField]:
    return {field.key: field for part in sheet.parts for group in part.groups for field in group.fields}


def test_every_key_has_guidance_with_a_tool_a_way_and_an_accuracy() -> None:
    assert {(table, key) for table, keys in TABLES.items() for key in keys} == {
        (table, key) for table, guides in GUIDES.items() for key in guides
    }
    for guides in GUIDES.values():
        for guide in guides.values():
            assert guide.tool
            assert guide.way.endswith((".", '".'))
            assert guide.accuracy


def test_whatever_is_measured_by_turning_the_engine_says_so_first() -> None:
    for table, key in (("cylinder", "stroke"), ("cylinder", "crank_phase"), ("cylinder.valve_drive", "throw")):
        assert TURN_CAUTION in GUIDES[table][key].caution


@pytest.mark.parametrize("name", NAMES)
def test_every_text_of_a_record_stands_in_a_field_and_is_understood(name: str) -> None:
    record = open_record(EXAMPLES / f"{name}.toml")
    fields = fields_of(list_measures(record))
    shown = {key for key in record.written if not key.startswith(("bench_test", "format"))}
    assert shown <= set(fields)
    for key in shown:
        assert fields[key].seen == record.written[key]
        assert fields[key].understood
        assert not fields[key].problems


def test_every_key_of_the_tables_has_a_field_or_stands_for_edges() -> None:
    text = 'format = 1\n[engine]\nname = "x"\n[[cylinder]]\n[[cylinder.gland]]\n[[fastener]]\n[[pin]]\n'
    fields = {".".join(part for part in key.split(".") if not part.isdigit()) for key in fields_of(read(text))}
    wanted = {f"{table}.{key}" for table, keys in TABLES.items() for key in keys if table not in ("", "bench_test")} - {
        "cylinder.port_face.edges",
        "cylinder.valve.edges",
    }
    assert fields == wanted


def test_edges_take_the_place_of_widths_one_field_for_each() -> None:
    fields = fields_of(
        read('[engine]\nname = "x"\n[[cylinder]]\n[cylinder.valve]\nedges = ["0 mm", "3 mm", "11 mm", "14 mm"]\n')
    )
    assert [key for key in fields if ".valve.edges." in key] == [f"cylinder.0.valve.edges.{i}" for i in range(4)]
    assert "cylinder.0.valve.length" not in fields
    assert fields["cylinder.0.valve.edges.1"].name == "edge 2"
    assert "cylinder.0.port_face.steam_port" in fields


def test_what_is_assumed_is_told_with_its_reason_until_it_is_given() -> None:
    knot = fields_of(open_demo("knot"))
    assert knot["cylinder.0.connecting_rod"].taken == "57.15 mm"
    assert "2.25 strokes" in knot["cylinder.0.connecting_rod"].because
    assert knot["cylinder.0.valve.kind"].taken == "slide"
    assert knot["cylinder.0.bore"].taken == ""
    text = open_record(EXAMPLES / "knot.toml").text
    given_rod = fields_of(read(change_record(text, {"cylinder.0.connecting_rod": "50 mm"})))
    assert given_rod["cylinder.0.connecting_rod"].taken == ""


def test_what_a_missing_size_leaves_unknown_is_told_and_goes_when_it_is_given() -> None:
    knot = fields_of(open_demo("knot"))
    assert "the exhaust lap" in knot["cylinder.0.valve.cavity"].unknown
    text = open_record(EXAMPLES / "knot.toml").text
    assert not fields_of(read(change_record(text, {"cylinder.0.valve.cavity": "0.3 in"})))[
        "cylinder.0.valve.cavity"
    ].unknown


def test_the_sizes_worth_measuring_next_are_those_that_most_answers_want() -> None:
    sheet = read('[engine]\nname = "x"\n[[cylinder]]\n')
    names = ["steam port", "throw", "valve length", "cavity", "bore", "stroke"]
    assert [want.name for want in sheet.wanted] == names
    counts = [want.count for want in sheet.wanted]
    assert counts == sorted(counts, reverse=True)
    assert {want.key for want in sheet.wanted} <= set(fields_of(sheet))


def test_where_nothing_is_missing_the_size_to_measure_more_closely_is_named() -> None:
    (tern,) = open_demo("tern").wanted
    assert (tern.key, tern.seen) == ("cylinder.1.valve_drive.valve_offset", "0 ± 0.05 mm")
    assert tern.share.worst == "admission at the head end ± 2.3 deg"
    text, angle = open_record(EXAMPLES / "plover.toml").text, "cylinder.0.valve_drive.eccentric_angle"
    (first,) = read(change_record(text, {angle: "108 ± 5 deg"})).wanted
    assert (first.key, first.seen, first.share.rank) == (angle, "108 ± 5 deg", 1)
    assert "±" in first.share.worst


def test_the_travel_stands_beside_the_throw_and_its_doubt_is_twice_as_large() -> None:
    told = read_back("cylinder.0.valve_drive.throw", "3.00 ± 0.02 mm").understood
    assert told == "3.00 ± 0.02 mm, 0.118 ± 0.001 in: valve travel 6.00 ± 0.04 mm"
    assert "travel" not in read_back("cylinder.0.stroke", "3 mm").understood
    assert read_back("cylinder.0.valve_drive.throw", "3").understood == ""


def test_a_size_that_is_only_taken_is_the_first_to_be_measured_as_long_as_it_is() -> None:
    text, angle = open_record(EXAMPLES / "plover.toml").text, "cylinder.0.valve_drive.eccentric_angle"
    sheet = read("".join(line for line in text.splitlines(keepends=True) if not line.startswith("eccentric_angle")))
    first = sheet.wanted[0]
    assert (first.key, first.is_open, first.count) == (angle, True, 18)
    assert first.rests == "when the ports open and close, where the piston stands then, the leads"
    fields = fields_of(sheet)
    assert first.taken == fields[angle].taken
    assert fields[angle].share.rank == 1
    assert not any(field.share.rank == 1 for key, field in fields.items() if key != angle)
    assert fields[angle].rests == first.rests
    given = read(text)
    assert not any(want.taken for want in given.wanted)
    assert fields_of(given)[angle].rests == ""


def test_what_may_be_anything_comes_before_what_is_missing_and_that_before_usual_rods() -> None:
    names = [want.name for want in open_demo("knot").wanted]
    assert names == ["eccentric angle", "bridge", "exhaust port", "cavity", "connecting rod", "eccentric rod"]


def test_whatever_has_a_closed_list_of_words_is_chosen_from_it() -> None:
    fields = fields_of(open_demo("turnstone"))
    chosen = {key.rpartition(".")[2] for key, field in fields.items() if field.words}
    assert {"purpose", "paint", "cylinder", "holds", "kind", "state", "metal", "packed_with", "gasket"} <= chosen
    for key, field in fields.items():
        for word in field.words if key.rpartition(".")[2] != "cylinder" else ():
            assert read_back(key, word).understood == word


def test_the_size_that_matters_most_is_the_one_that_narrows_most_answers() -> None:
    tern = fields_of(open_demo("tern"))
    shares = {key: field.share for key, field in tern.items() if field.share.rank and key.startswith("cylinder.0.")}
    first = next(key for key, share in shares.items() if share.rank == 1)
    assert shares[first].count == max(share.count for share in shares.values())
    assert sum(share.count for share in shares.values()) == shares[first].total
    assert first == "cylinder.0.port_face.steam_port"
    exact = read(open_record(EXAMPLES / "tern.toml").text.replace("2.00 ± 0.05 mm", "2.00 ± 0.001 mm"))
    assert fields_of(exact)["cylinder.0.port_face.steam_port"].share.rank != 1


def test_problems_stand_at_their_fields_and_the_rest_is_read_all_the_same() -> None:
    sheet = read('format = 1\n[engine]\nname = "x"\n[[cylinder]]\nbore = "0.75"\nstroke = "20 mm"\ncolour = "red"\n')
    fields = fields_of(sheet)
    assert fields["cylinder.0.bore"].problems[0].code == "no-unit"
    assert fields["cylinder.0.bore"].understood == ""
    assert fields["cylinder.0.stroke"].understood == "20.00 mm, 0.787 in"
    places = {problem.code: sheet.find_field(problem.key) for problem in sheet.problems}
    assert places == {"no-unit": "cylinder.0.bore", "unknown-key": ""}


@pytest.mark.parametrize(
    "text",
    ["", "[eng", "format = 2\n", "cylinder = 3\n", "[cylinder]\nbore = 1\n", "[[cylinder]]\nvalve = 7\n", "\x00"],
)
def test_a_page_can_be_made_of_any_file(text: str) -> None:
    sheet = read(text)
    assert sheet.problems
    assert all(part.views is not None for part in sheet.parts)


@settings(max_examples=40, deadline=None)
@given(data=st.binary(max_size=60), cut=st.integers(0, 2000))
def test_a_page_can_be_made_of_a_record_that_was_spoilt(data: bytes, cut: int) -> None:
    whole = (EXAMPLES / "turnstone.toml").read_bytes()
    list_measures(read_record(whole[:cut] + data + whole[cut + len(data) :]))


@settings(max_examples=80, deadline=None)
@given(text=st.text(max_size=40), key=st.sampled_from(sorted(fields_of(open_demo("turnstone")))))
def test_a_text_is_understood_or_told_what_is_wrong_with_it(text: str, key: str) -> None:
    found = read_back(key, text)
    assert bool(found.understood) != bool(found.problem) or (not text.strip() and found == type(found)(""))
    for offer in found.offers:
        assert read_back(key, offer).problem == ""


@settings(max_examples=60, deadline=None)
@given(
    before=st.sampled_from(["", "abt ", "ca. ", "o", "~", "large ", "not ", "l"]),
    number=st.sampled_from(["55", "o.75", "3/4", "12..7", "1,5", "2O", "l2.5", ""]),
    after=st.sampled_from([" mm", " in.", "", " mm or so", " furlongs", " mm less 2 thou", "?"]),
)
def test_no_button_ever_holds_a_figure_that_the_person_did_not_write(before: str, number: str, after: str) -> None:
    text = before + number + after
    own = text.translate(str.maketrans("oOlI", "0011"))
    for offer in read_back("cylinder.0.stroke", text).offers:
        digits = "".join(c for c in offer if c.isdigit())
        assert digits
        assert digits in "".join(c for c in own if c.isdigit())


@pytest.mark.parametrize(
    ("text", "offers"),
    [
        ("o.75 in", ("0.75 in",)),
        ("abt 55 mm", ("55 mm",)),
        ("about 55", ("55 in", "55 mm")),
        ("ca. 12,7 mm", ("12.7 mm",)),
        ("~ 55 mm or so.", ("55 mm",)),
        ("12..7 mm", ("12.7 mm",)),
        ("12. 7 mms", ("12.7 mm",)),
        ("0.7l mm", ("0.71 mm",)),
        ("5 ± o.1 mm", ("5 ± 0.1 mm",)),
        ("3 / 4 in", ("3/4 in",)),
        ("55 mm less 2 thou", ()),
        ("not 55 mm", ()),
        ("55 furlongs", ()),
        ("large", ()),
    ],
)
def test_what_is_offered_comes_from_what_was_written(text: str, offers: tuple[str, ...]) -> None:
    assert read_back("cylinder.0.stroke", text).offers == offers


def test_a_thread_is_offered_only_with_its_own_figures() -> None:
    assert read_back("fastener.0.thread", "7AB").offers == ("7 BA",)
    assert read_back("fastener.0.thread", "M3.1").offers == ()


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("12.7 mm", "12.70 mm, 0.500 in"),
        ("3/4 in", "19.05 mm, 0.750 in"),
        ("1 7/8 in", "47.625 mm, 1.875 in"),
        ("5 µm", "5.0 µm, 0.20 thou"),
        ("0 mm", "0.00 mm, 0.000 in"),
        ("12.7 +0.02 -0.01 mm", "12.70 +0.02 -0.01 mm, 0.500 +0.0008 -0.0004 in"),
        ("-0.5 mm", "-0.50 mm, -0.020 in"),
    ],
)
def test_lengths_are_shown_in_mm_and_inch(text: str, shown: str) -> None:
    assert show_value(read_length(text)) == shown


@pytest.mark.parametrize(
    ("key", "text", "shown"),
    [
        ("engine.supply_pressure", "30 psi", "2.07 bar, 30.0 psi"),
        ("cylinder.0.clearance_head", "8 %", "8.0 %"),
        ("cylinder.0.valve_drive.spindle_thread", "7BA", "7 BA: 0.48 mm to a turn"),
        ("cylinder.0.gland.1.nut_thread", "3/8 x 32", "3/8 x 32 ME: 9.53 mm over the crests"),
        ("running.supply_temperature", "150 degC", "150 degC, 302 degF"),
        ("engine.rotation", "Clockwise", "clockwise"),
        ("fastener.0.count", "6", "6"),
        ("finish.bright", "flanges, bands", "flanges, bands"),
        ("cylinder.0.valve_drive.eccentric_angle", "112 ± 1 deg", "112.0 ± 1.0 deg"),
    ],
)
def test_every_kind_of_text_is_shown_as_it_is_understood(key: str, text: str, shown: str) -> None:
    assert read_back(key, text).understood == shown


@pytest.mark.parametrize(
    "key", ["", "bore", "cylinder.bore", "cylinder.0", "engine.0.name", "cylinder.0.valve.edges.9", "cylinder.0.1.bore"]
)
def test_what_is_no_key_is_refused_by_name(key: str) -> None:
    with pytest.raises(NotThere):
        find_key(key)
