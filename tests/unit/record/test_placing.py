import pytest

from lapwright.errors import CannotChange
from lapwright.record import add_place, blank_record, change_record, read_record, remove_place
from tests.unit.record.records import HALF_KNOWN, PARTED, TESTED, TWIN


def test_a_part_goes_behind_the_last_of_its_kind_or_behind_everything() -> None:
    assert add_place(TWIN, "fastener") == (TWIN + "\n[[fastener]]\n", "fastener.0")
    text, place = add_place(PARTED, "fastener")
    assert place == "fastener.2"
    assert text == PARTED.replace("\n[[pin]]", "\n[[fastener]]\n\n[[pin]]")
    text, place = add_place(TESTED, "bench_test")
    assert (text, place) == (TESTED + "\n[[bench_test]]\n", "bench_test.3")


def test_a_cylinder_and_its_gland_go_where_they_belong() -> None:
    text, place = add_place(TWIN, "cylinder")
    assert place == "cylinder.2"
    assert text == TWIN.replace("\n[target]", "\n[[cylinder]]\n\n[target]")
    text, place = add_place(TWIN, "cylinder.0.gland")
    assert place == "cylinder.0.gland.0"
    assert text == TWIN.replace("\n[[cylinder]]\ncrank_phase", "\n[[cylinder.gland]]\n\n[[cylinder]]\ncrank_phase")
    text, place = add_place(PARTED, "cylinder.0.gland")
    assert place == "cylinder.0.gland.2"
    engine = read_record(change_record(text, {f"{place}.box_bore": "9 mm"}).encode()).engine
    assert [gland.box_bore for gland in engine.glands] == [0.0064, pytest.approx(3 / 16 * 0.0254), 0.009]


def test_the_last_one_is_the_place_while_it_is_blank() -> None:
    blank = blank_record("Tern")
    for name in ("cylinder.0.gland", "fastener", "pin", "bench_test"):
        assert add_place(blank, name) == (blank, f"{name}.0")
    used = change_record(blank, {"fastener.0.thread": "7 BA"})
    text, place = add_place(used, "fastener")
    assert place == "fastener.1"
    # The examples behind a # stay with the first one.
    assert text.index("# joint_outside") < text.rindex("[[fastener]]") < text.index("\n# A pin on which")
    text, place = add_place(blank, "cylinder")
    assert place == "cylinder.1"
    assert text.index("# oil = ") < text.rindex("[[cylinder]]") < text.index("\n# Only if you want")


def test_a_blank_record_loses_a_part_with_its_words() -> None:
    blank = blank_record("Tern")
    start, end = blank.index("\n# A pin on which"), blank.index("\n# What is to be painted")
    assert remove_place(blank, "pin.0") == blank[:start] + blank[end:]


def test_inline_lists_are_kept_in_their_manner() -> None:
    text = 'engine = {name = "Knot"}\ncylinder = [{ bore = "1 in", gland = [{rings = 3}] }]\npin = []\n'
    assert add_place(text, "pin") == (text.replace("pin = []", "pin = [{}]"), "pin.0")
    longer, place = add_place(text, "cylinder.0.gland")
    assert (longer, place) == (text.replace("{rings = 3}", "{rings = 3}, {}"), "cylinder.0.gland.1")
    assert add_place('cylinder = [{ bore = "1 in" }]', "cylinder.0.gland")[0] == (
        'cylinder = [{ bore = "1 in", gland = [{}] }]'
    )
    three = 'pin = [\n  {hole = "1 mm"},\n  {hole = "2 mm"},\n  {hole = "3 mm"},\n]\n'
    assert add_place(three, "pin")[0] == three.replace('"3 mm"},', '"3 mm"},{}')
    assert remove_place(three, "pin.0") == three.replace('{hole = "1 mm"},\n  ', "")
    assert remove_place(three, "pin.1") == three.replace(',\n  {hole = "2 mm"}', "")
    assert remove_place(three, "pin.2") == three.replace(',\n  {hole = "3 mm"}', "")
    assert remove_place('pin = [{hole = "1 mm"}] # one\n', "pin.0") == "pin = [] # one\n"


def test_a_part_goes_with_the_comments_in_it_and_right_above_it() -> None:
    start, end = '[engine]\nname = "Tern"\n# about her\n', "\n# the other\n[[pin]]\n\n# end\n"
    text = start + '[[pin]] # fork\nhole = "1 mm"\n# loose\n' + end
    assert remove_place(text, "pin.0") == start + end
    assert remove_place(text, "pin.1") == text.replace("\n# the other\n[[pin]]\n", "")


def test_a_cylinder_goes_with_all_its_tables_wherever_they_stand() -> None:
    second = TWIN.index("\n[[cylinder]]\ncrank_phase")
    assert remove_place(TWIN, "cylinder.1") == TWIN[:second] + TWIN[TWIN.index("\n[target]") :]
    first = TWIN.index("\n[[cylinder]]\nname")
    assert remove_place(TWIN, "cylinder.0") == TWIN[:first] + TWIN[second:]
    apart = '[[cylinder]]\nbore = "1 in"\n\n[target]\nlead = "1 mm"\n\n[cylinder.valve]\nlength = "9 mm"\n'
    assert remove_place(apart, "cylinder.0") == '\n[target]\nlead = "1 mm"\n'


def test_line_ends_are_kept() -> None:
    text = TWIN.replace("\n", "\r\n")
    longer, _ = add_place(text, "pin")
    assert longer == text + "\r\n[[pin]]\r\n"
    assert remove_place(longer, "pin.0") == text


@pytest.mark.parametrize(
    ("text", "name", "why"),
    [
        (TWIN, "engine", "a record has no such list"),
        (TWIN, "gland", "a record has no such list"),
        (TWIN, "cylinder.gland", "a record has no such list"),
        (TWIN, "cylinder.0", "a record has no such list"),
        (TWIN, "cylinder.2.gland", "the record has no such cylinder"),
        (TWIN, "", "a record has no such list"),
        ("[engine", "pin", "the record cannot be read"),
        ("pin = 3\n", "pin", "something else in its place"),
        ("[pin]\nhole = 3\n", "pin", "something else in its place"),
    ],
)
def test_a_part_that_has_no_place_is_refused_with_the_reason(text: str, name: str, why: str) -> None:
    with pytest.raises(CannotChange) as refusal:
        add_place(text, name)
    assert why in refusal.value.message


def test_more_cylinders_than_a_record_may_have_are_refused() -> None:
    text = change_record(TWIN, {})
    for number in (2, 3):
        text, place = add_place(text, "cylinder")
        text = change_record(text, {f"{place}.bore": f"{number} in"})
    with pytest.raises(CannotChange, match="4 are the most"):
        add_place(text, "cylinder")


@pytest.mark.parametrize(
    ("place", "why"),
    [
        ("pin.0", "the record has no such pin"),
        ("cylinder.2", "the record has no such cylinder"),
        ("cylinder.0.gland.0", "the record has no such gland"),
        ("cylinder.7.gland.0", "the record has no such cylinder"),
        ("cylinder", "no part that can be taken out"),
        ("engine.0", "a record has no such list"),
        ("target", "no part that can be taken out"),
        ("3", "no part that can be taken out"),
    ],
)
def test_what_is_no_part_is_not_taken_out(place: str, why: str) -> None:
    with pytest.raises(CannotChange) as refusal:
        remove_place(TWIN, place)
    assert why in refusal.value.message


def test_a_half_known_engine_can_get_every_part() -> None:
    text = HALF_KNOWN
    for name in ("cylinder", "cylinder.0.gland", "fastener", "pin", "bench_test"):
        text, place = add_place(text, name)
        assert read_record(text.encode()).written == read_record(HALF_KNOWN.encode()).written
        assert place.startswith(name)
