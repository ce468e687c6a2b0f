import pytest

from lapwright.errors import CannotChange
from lapwright.record import change_record, drop_key
from tests.unit.record.records import HALF_KNOWN, PARTED, TESTED, TWIN


def test_a_key_goes_with_its_line_and_nothing_else() -> None:
    assert drop_key(TWIN, "cylinder.0.bore") == TWIN.replace('bore = "3/4 in"\n', "", 1)
    assert (
        drop_key(TWIN, "cylinder.1.bore")
        == 'bore = "3/4 in"\n'.join(TWIN.split('bore = "3/4 in"\n')[:2]) + (TWIN.split('bore = "3/4 in"\n')[2])
    )
    assert drop_key(TESTED, "bench_test.1.decay_to") == TESTED.replace('decay_to = "2 bar abs"\n', "")
    assert drop_key(PARTED, "cylinder.0.gland.1.rings") == PARTED.replace("rings = 3\n", "")


def test_the_comment_behind_it_stays() -> None:
    assert drop_key(TWIN, "cylinder.0.valve.length") == TWIN.replace(
        'length = "14.0 mm"                # over', "# over"
    )
    indented = '[engine]\n  name = "Tern"   # hers\r\n  fluid = "air"\r\n'
    assert drop_key(indented, "engine.name") == '[engine]\n  # hers\r\n  fluid = "air"\r\n'
    assert drop_key(indented, "engine.fluid") == '[engine]\n  name = "Tern"   # hers\r\n'


def test_a_list_of_edges_goes_as_a_whole() -> None:
    changed = drop_key(TWIN, "cylinder.1.port_face.edges")
    start, end = TWIN.index("edges = [\n"), TWIN.index("]\n", TWIN.index("edges = [\n")) + 2
    assert changed == TWIN[:start] + TWIN[end:]
    assert 'bridge = "2 mm"' in change_record(changed, {"cylinder.1.port_face.bridge": "2 mm"})


@pytest.mark.parametrize(
    ("text", "key", "wanted"),
    [
        ('engine = { name = "Dunlin", fluid = "air" }', "engine.name", 'engine = { fluid = "air" }'),
        ('engine = { name = "Dunlin" , fluid = "air" }', "engine.fluid", 'engine = { name = "Dunlin" }'),
        ('engine = {name = "a, b", fluid = "air"}', "engine.fluid", 'engine = {name = "a, b"}'),
        ('engine = { fluid = "air" }', "engine.fluid", "engine = {  }"),
        ('cylinder = [{ bore = "1 in", stroke = "2 in" }]', "cylinder.0.bore", 'cylinder = [{ stroke = "2 in" }]'),
        ('engine.name = "Tern"\nengine.fluid = "air"', "engine.fluid", 'engine.name = "Tern"\n'),
        ('engine.fluid = "air"\nformat = 1\n', "engine.fluid", "format = 1\n"),
        (HALF_KNOWN, "cylinder.0.valve.length", HALF_KNOWN.replace('valve.length = "1/2 in"  ', "")),
        (HALF_KNOWN, "cylinder.0.valve_drive.throw", HALF_KNOWN.replace('throw = "1/8 in"', "")),
    ],
)  # fmt: skip
def test_dotted_keys_and_inline_tables_are_kept_in_their_manner(text: str, key: str, wanted: str) -> None:
    assert drop_key(text, key) == wanted


def test_what_is_not_there_is_no_fault() -> None:
    assert drop_key(TWIN, "cylinder.1.stroke") != TWIN
    for key in ("cylinder.0.valve_drive.rocker", "cylinder.3.bore", "bench_test.0.speed", "cylinder.0.valve.edges"):
        assert drop_key(TWIN, key) == TWIN


def test_a_key_that_no_record_has_can_be_taken_out_where_it_stands() -> None:
    text = TWIN.replace("[[cylinder]]\nname", "[[cylinder]]\nboer = 3\nname", 1)
    assert drop_key(text, "cylinder.0.boer") == TWIN


@pytest.mark.parametrize(
    ("text", "key", "why"),
    [
        (TWIN, "cylinder.1.valve.edges.1", "edges stand and fall together"),
        (TWIN, "cylinder.0.boer", "a record has no such key"),
        (TWIN, "cylinder.0.valve", "a record has no such key"),
        (TWIN, "cylinder.0", "edges stand and fall together"),
        (HALF_KNOWN, "cylinder.0.valve_drive", "a record has no such key"),
        (TWIN, "engine", "a record has no such key"),
        (TWIN, "format", "a record has no such key"),
        (TWIN, "", "a record has no such key"),
        ("[engine", "engine.name", "the record cannot be read"),
    ],
)
def test_what_cannot_be_taken_out_is_refused_with_the_reason(text: str, key: str, why: str) -> None:
    with pytest.raises(CannotChange) as refusal:
        drop_key(text, key)
    assert why in refusal.value.message
    assert refusal.value.instead
