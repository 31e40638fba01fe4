"""The words of files as pilots say them."""

from lpv.core.spoken import spoken
from lpv.modes.machine import EVENTS
from lpv.modes.rules import LISTS, REMOVED_BY, RULES, SELECTED_BY


def test_pages_say_glidepath_and_faf():
    assert spoken("path reached from above") == "glidepath met from above"
    assert spoken("take off, arm path, PFAF passed.") == "take off, arm glidepath, FAF passed."
    assert spoken("Path captured") == "Glidepath captured"
    assert spoken("course, altimeter path") == "course, barometric path"
    assert spoken("removal of power") == "power-down"


def test_every_rule_word_spoken():
    words = [*EVENTS, *SELECTED_BY, *REMOVED_BY, *(word for _, allowed in (*RULES.values(), *LISTS.values())
             for word in allowed)]
    said = [spoken(word) for word in words]
    assert [word for word in said if {"path", "PFAF"} & set(word.replace(",", "").split())] == []
    assert len(set(said)) == len(set(words))
