"""How start gear is wired: what the lists join, what a swap does, and pictures that show every part.

The facts of the trade here are common practice, no source: which parts feed the start winding and when.
"""

from __future__ import annotations

import re
from itertools import combinations
from xml.etree import ElementTree

import pytest

from build_scripts.connections import Net, in_words, read_connections
from build_scripts.draw_connections import connection_svg
from build_scripts.pictures import pictures_of
from build_scripts.read_handbook import read_handbook
from tests.build_scripts.conftest import ROOT
from tests.build_scripts.test_read_handbook import ON, mistakes_of

FOUND: list[object] = []
CONNECTIONS = read_connections(ROOT / "handbook", FOUND)
every = pytest.mark.parametrize("key", CONNECTIONS)
# What lets no current through: a contact that is open at that moment, and a disc that is hot.
WHILE_IT_STARTS = {"contact-closes": True, "contact-opens": True, "ptc": True}
WHILE_IT_RUNS = {"contact-closes": False, "contact-opens": False, "ptc": False}


def joined(parts, start, conducts, without=()):
    """Every point that current reaches from one, over parts that conduct."""
    reached, more = {start}, True
    while more:
        more = False
        for kind, one, other in parts:
            if kind not in without and conducts.get(kind, True) and (one in reached) != (other in reached):
                reached |= {one, other}
                more = True
    return reached


def swapped(parts, first, second):
    """The same parts with the leads at two points changed over; the part's own terminals stay."""
    other = {first: second, second: first}
    return [(kind, *(other.get(point, point) for point in ends)) for kind, *ends in parts]


def test_the_handbook_has_the_eight_ways_and_they_can_be_read():
    assert not FOUND
    assert len(CONNECTIONS) == 8


@every
def test_the_line_reaches_common_through_control_and_overload_and_nothing_else(key):
    parts = CONNECTIONS[key].parts
    assert "C" in joined(parts, "L", {})
    for needed in ("control", "overload"):
        assert "C" not in joined(parts, "L", {}, without=(needed,))


@every
def test_run_is_on_the_neutral_and_the_shell_on_the_earth_alone(key):
    parts = CONNECTIONS[key].parts
    assert "R" in joined(parts, "N", {}, without=("overload", "control"))
    assert joined(parts, "PE", {}) == {"PE", "shell"}


@every
def test_the_start_winding_is_fed_at_the_start(key):
    coil_of_volts = ("relay-coil",) if "5" in str(CONNECTIONS[key].parts) else ()
    assert "S" in joined(CONNECTIONS[key].parts, "N", WHILE_IT_STARTS, without=("control", *coil_of_volts))


@pytest.mark.parametrize(
    ("key", "fed"),
    [
        # Common practice, no source: only a run capacitor feeds the start winding of a motor that runs.
        ("current-relay", False),
        ("current-relay-start-capacitor", False),
        ("ptc", False),
        ("ptc-start-capacitor", False),
        ("ptc-run-capacitor", True),
        ("run-capacitor", True),
        ("potential-relay", True),
        ("current-relay-both-capacitors", True),
    ],
)
def test_the_start_winding_of_a_running_motor_is_fed_by_a_run_capacitor_or_not_at_all(key, fed):
    parts = CONNECTIONS[key].parts
    coil_of_volts = ("relay-coil",) if key == "potential-relay" else ()
    without = ("control", "bleed-resistor", *coil_of_volts)
    assert ("S" in joined(parts, "N", WHILE_IT_RUNS, without=without)) is fed
    assert "S" not in joined(parts, "N", WHILE_IT_RUNS, without=(*without, "run-capacitor"))


@pytest.mark.parametrize("key", ["current-relay", "current-relay-start-capacitor", "current-relay-both-capacitors"])
def test_the_coil_of_a_current_relay_carries_the_current_of_the_run_winding(key):
    assert "R" not in joined(CONNECTIONS[key].parts, "N", WHILE_IT_STARTS, without=("relay-coil", "control"))


@every
def test_every_start_capacitor_has_a_bleed_resistor_right_across_it(key):
    parts = CONNECTIONS[key].parts
    across = {frozenset(ends) for kind, *ends in parts if kind == "start-capacitor"}
    assert across == {frozenset(ends) for kind, *ends in parts if kind == "bleed-resistor"}


def test_one_and_five_of_a_potential_relay_swapped_short_the_start_winding():
    """Common practice, no source: the contact joins S to C, and the run capacitor lies across the line."""
    parts = CONNECTIONS["potential-relay"].parts
    leads = [one for one in parts if one[0] not in ("relay-coil", "contact-opens")]
    relay = [one for one in parts if one[0] in ("relay-coil", "contact-opens")]
    net = Net.of([*swapped(leads, "1", "5"), *relay])
    assert [part.kind for part in net.between("S", "C")] == ["contact-opens"]
    assert net.joined["1"] == net.joined["C"]
    coil = next(part for part in net.parts if part.kind == "relay-coil")
    capacitor = next(part for part in net.parts if part.kind == "start-capacitor")
    assert len(set(coil.ends) & set(capacitor.ends)) == 1


def test_run_and_start_swapped_put_the_start_winding_in_the_place_of_the_run_winding():
    parts = swapped(CONNECTIONS["current-relay"].parts, "R", "S")
    assert "S" in joined(parts, "N", WHILE_IT_RUNS, without=("control",))
    assert "R" not in joined(parts, "N", WHILE_IT_RUNS, without=("control",))


def test_the_words_of_a_potential_relay_name_each_row():
    assert in_words(CONNECTIONS["potential-relay"]) == [
        "L — control — overload — C",
        "N — R",
        "R — run capacitor — S",
        "R — start capacitor — relay contact (closed at rest) — S",
        "across the start capacitor: bleed resistor",
        "S — relay coil — C",
        "PE — compressor shell",
    ]


def texts(svg):
    return [one for one in ElementTree.fromstring(svg).iter() if one.tag.endswith("text")]


@every
@pytest.mark.parametrize("inside", [False, True])
def test_a_picture_names_every_part_once_and_keeps_inside_its_frame(key, inside):
    connection = CONNECTIONS[key]
    svg = connection_svg(connection, overload_inside=inside)
    said = [one.text for one in texts(svg)]
    parts = [kind for kind, *_ in connection.parts if kind != "wire"]
    names = {"contact-closes": "relay contact", "contact-opens": "relay contact"}
    shown = sorted(word.lower() for word in said if len(word) > 2 and word not in ("run", "start", "shell"))
    assert shown == sorted(names.get(kind, kind.replace("-", " ")).lower() for kind in parts)
    assert {"L", "N", "PE", "C", "R", "S"} <= set(said)
    _, _, width, height = map(float, ElementTree.fromstring(svg).attrib["viewBox"].split())
    numbers = re.findall(r'\b(x|y)[12]?="([-0-9.]+)"', svg)
    assert all(0 <= float(value) <= (width if axis == "x" else height) for axis, value in numbers)


@every
@pytest.mark.parametrize("inside", [False, True])
def test_no_word_of_a_picture_stands_on_another(key, inside):
    boxes = []
    for one in texts(connection_svg(CONNECTIONS[key], overload_inside=inside)):
        size = float(one.attrib["font-size"])
        long = 0.58 * size * len(one.text)
        left = float(one.attrib["x"]) - {"start": 0.0, "middle": long / 2, "end": long}[one.attrib["text-anchor"]]
        boxes.append((left, float(one.attrib["y"]) - 0.75 * size, left + long, float(one.attrib["y"]), one.text))
    for one, other in combinations(boxes, 2):
        assert one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1], (one, other)


def test_every_picture_says_the_same_in_words():
    for name, picture in pictures_of(CONNECTIONS).items():
        assert all(picture.rows), name
        assert ElementTree.fromstring(picture.svg).attrib["aria-label"], name


@pytest.mark.parametrize(
    ("line", "broken", "says"),
    [
        ("    - [wire, PE, shell]\n", "", "never reach PE, shell"),
        ("[ptc, R, S]", "[ptc, R, P9]", "leave P9 with one end only"),
        ("[overload, L1, C]", "[overload, L1, R]", "never reach C"),
        ("[run-capacitor, S, R]", "[run-capacitor, L, C]", "has to stand at L"),
        ("[run-capacitor, S, R]", "[run-capacitor, shell, R]", "cannot be drawn"),
        ("[control, L, L1]", "[thermostat, L, L1]", "thermostat"),
    ],
)
def test_a_list_that_cannot_be_drawn_is_refused_with_its_line(small, sample_calculators, line, broken, says):
    text = """sample:
  title: Sample wiring
  starts: The disc starts it.
  parts:
    - [control, L, L1]
    - [overload, L1, C]
    - [wire, N, R]
    - [ptc, R, S]
    - [run-capacitor, S, R]
    - [wire, PE, shell]
"""
    file = small / "handbook" / "connections.yaml"
    file.write_text(text, encoding="utf-8")
    assert "wiring-sample" in read_handbook(small, ON, sample_calculators).pictures
    file.write_text(text.replace(line, broken), encoding="utf-8")
    (mistake,) = mistakes_of(small, sample_calculators)
    assert mistake.file == file
    assert says in str(mistake)


def test_a_picture_that_is_not_there_is_named_with_the_nearest(small, sample_calculators):
    page = small / "handbook" / "index.md"
    page.write_text(page.read_text(encoding="utf-8") + "\n{picture:clam}\n", encoding="utf-8")
    (mistake,) = mistakes_of(small, sample_calculators)
    assert "there is no such picture" in str(mistake)
    assert "clamp" in str(mistake)
