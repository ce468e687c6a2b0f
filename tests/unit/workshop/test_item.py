"""The list of what to have ready for a whole job."""

from lapwright.workshop.item import SHELVES, Item, merge_items


def test_what_is_used_up_adds_up_and_what_is_put_back_is_wanted_once() -> None:
    items = merge_items(
        (
            Item("screws", "7 BA nut", 6, purposes=("cover",)),
            Item("tools", "scriber", purposes=("cover",)),
            Item("screws", "7 BA nut", 2, purposes=("pin",)),
            Item("tools", "scriber", purposes=("pin", "cover")),
        )
    )
    assert items == (
        Item("tools", "scriber", 1, "", ("cover", "pin")),
        Item("screws", "7 BA nut", 8, "", ("cover", "pin")),
    )


def test_amounts_of_one_thing_add_up_and_shelves_come_in_their_order() -> None:
    items = merge_items(
        (
            Item("packing", "2 mm graphite yarn", 1, "0.14 m", ("A",)),
            Item("packing", "2 mm graphite yarn", 1, "0.1 m", ("B",)),
            Item("paint", "enamel", 1, "10 ml"),
            Item("paint", "enamel", 1, "a little"),
            Item("drills", "3 mm drill"),
        )
    )
    assert [item.name for item in items] == ["3 mm drill", "2 mm graphite yarn", "enamel", "enamel"]
    assert [item.amount for item in items] == ["", "0.24 m", "10 ml", "a little"]
    assert items[1].purposes == ("A", "B")


def test_of_a_consumable_the_first_amount_does_for_all() -> None:
    items = merge_items(
        (Item("consumables", "white spirit", 1, "50 ml"), Item("consumables", "white spirit", 1, "50 ml"))
    )
    assert [item.amount for item in items] == ["50 ml"]
    places = [SHELVES.index(item.shelf) for item in items]
    assert places == sorted(places)
