"""Words of the glossary in prose: the first mention is linked, and nothing else is touched."""

from __future__ import annotations

import pytest

from build_scripts.assemble import assembled_files
from build_scripts.link_terms import Terms
from build_scripts.read_handbook import read_handbook
from tests.build_scripts.conftest import ROOT
from tests.build_scripts.test_read_handbook import ON

TERMS = Terms({"locked rotor": "It stands still.", "rotor": "It “turns”.", "PTC": 'A disc, "PTC".'})


def linked(text):
    return TERMS.link(text, "g.md")


def test_the_longest_word_that_fits_is_linked_and_only_at_its_first_mention():
    text = linked("A locked rotor. The rotor of a locked rotor.")
    assert text.count("](g.md#term-locked-rotor ") == 1
    assert text.count("](g.md#term-rotor ") == 1
    assert text.endswith(" of a locked rotor.")


@pytest.mark.parametrize(
    "text",
    [
        "## A rotor as a heading",
        "| rotor | in a table |",
        "`rotor` in code",
        "[a rotor](there.md) in a link",
        "{limit:rotor.amps} in a mark",
        '<div class="rotor">',
        "```\nrotor\n```",
        "a rotors-like word and a rotary-rotor",
        "ptc in small letters is no PTCs",
    ],
)
def test_what_is_no_prose_is_left_alone(text):
    assert linked(text) == text


def test_a_word_keeps_the_letters_it_was_written_with():
    assert linked("Rotor first").startswith("[Rotor](g.md#term-rotor ")


def test_quotes_in_a_meaning_do_not_end_the_title():
    assert linked("a PTC") == 'a [PTC](g.md#term-ptc "A disc, ”PTC”."){: .term }'


def test_every_link_of_the_handbook_leads_to_a_word_of_the_glossary():
    files = assembled_files(read_handbook(ROOT, ON), ON)
    anchors = {part.split(" }")[0] for part in files["reference/glossary.md"].split("{: #")[1:]}
    used = {
        part.split(" ")[0]
        for path, text in files.items()
        if path.endswith(".md")
        for part in text.split("glossary.md#")[1:]
    }
    assert len(used) > 40
    assert used <= anchors
    assert "glossary.md#" not in files["index.md"]
