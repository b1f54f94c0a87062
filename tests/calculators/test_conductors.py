"""The conductor tables against the prints, and against geometry and the resistivity of copper."""

from __future__ import annotations

import doctest
import math
from datetime import date
from typing import Any

import pytest

from calculators import conductors
from calculators.conductors import at_temperature, find_conductor, loop_ohms, sizes_like
from calculators.limits import InForce, Standards
from calculators.voltage_drop import path_volts

TODAY = date(2026, 11, 25)
TABLES = ("cord_conductors", "branch_conductors")


@pytest.fixture(scope="module")
def in_force(standards: Standards) -> InForce:
    return standards.in_force(TODAY)


def per_kft(in_force: InForce, id: str) -> float:
    table = next(name for name in TABLES if in_force.table(name).row(id) is not None)
    return find_conductor(table, id, in_force).ohm_per_km * 0.3048


# IEC 60228, most resistance at 20 °C in ohm per km, plain copper, read in two public copies.
@pytest.mark.parametrize(
    ("table", "id", "printed"),
    [
        ("cord_conductors", "iec-5-0.5", 39.0),
        ("cord_conductors", "iec-5-0.75", 26.0),
        ("cord_conductors", "iec-5-1.0", 19.5),
        ("cord_conductors", "iec-5-1.5", 13.3),
        ("cord_conductors", "iec-5-2.5", 7.98),
        ("cord_conductors", "iec-5-4", 4.95),
        ("cord_conductors", "iec-5-6", 3.30),
        ("cord_conductors", "iec-5-10", 1.91),
        ("cord_conductors", "iec-5-16", 1.21),
        ("cord_conductors", "iec-5-tinned-0.75", 26.7),
        ("cord_conductors", "iec-5-tinned-1.5", 13.7),
        ("branch_conductors", "iec-1-2-0.5", 36.0),
        ("branch_conductors", "iec-1-2-0.75", 24.5),
        ("branch_conductors", "iec-1-2-1.0", 18.1),
        ("branch_conductors", "iec-1-2-1.5", 12.1),
        ("branch_conductors", "iec-1-2-2.5", 7.41),
        ("branch_conductors", "iec-1-2-4", 4.61),
        ("branch_conductors", "iec-1-2-6", 3.08),
        ("branch_conductors", "iec-1-2-10", 1.83),
        ("branch_conductors", "iec-1-2-16", 1.15),
    ],
)
@pytest.mark.source("iec-60228")
def test_metric_sizes_have_the_printed_ohms(in_force: InForce, table: str, id: str, printed: float) -> None:
    conductor = find_conductor(table, id, in_force)
    assert (conductor.ohm_per_km, conductor.printed_at) == (printed, 20.0)


# NEC Chapter 9 Table 8, ohm per 1000 ft at 75 °C: 16 AWG stranded and the solid and aluminium rows were read in public
# copies, stranded 18, 14, 12, 10 and 8 AWG are from memory.
@pytest.mark.parametrize(
    ("id", "printed"),
    [
        ("nec-8-stranded-18", 7.95),
        ("nec-8-stranded-16", 4.99),
        ("nec-8-stranded-14", 3.14),
        ("nec-8-stranded-12", 1.98),
        ("nec-8-stranded-10", 1.24),
        ("nec-8-stranded-8", 0.778),
        ("nec-8-stranded-1", 0.154),
        ("nec-8-solid-14", 3.07),
        ("nec-8-solid-12", 1.93),
        ("nec-8-solid-10", 1.21),
        ("nec-8-solid-8", 0.764),
        ("nec-8-aluminium-solid-12", 3.18),
        ("nec-8-aluminium-stranded-6", 0.808),
        ("nec-9-pvc-14", 3.1),
        ("nec-9-steel-2", 0.20),
    ],
)
@pytest.mark.source("nec-chapter-9-table-8")
def test_awg_sizes_have_the_printed_ohms(in_force: InForce, id: str, printed: float) -> None:
    assert per_kft(in_force, id) == pytest.approx(printed, rel=1e-12)


# NEC Chapter 9 Table 9, reactance in ohm per 1000 ft. One public copy moves the rows of 10 and 8 AWG by one; these are
# the figures of the other copy.
@pytest.mark.parametrize(
    ("id", "printed"),
    [
        ("nec-9-pvc-14", 0.058),
        ("nec-9-steel-14", 0.073),
        ("nec-9-pvc-10", 0.050),
        ("nec-9-steel-10", 0.063),
        ("nec-9-pvc-8", 0.052),
        ("nec-9-steel-8", 0.065),
    ],
)
@pytest.mark.source("nec-chapter-9-table-9")
def test_table_nine_has_the_printed_reactance(in_force: InForce, id: str, printed: float) -> None:
    reactance = find_conductor("branch_conductors", id, in_force).reactance_per_km
    assert reactance is not None
    assert reactance * 0.3048 == pytest.approx(printed, rel=1e-12)


# ASTM B258 geometry and 1/58 ohm mm2/m of annealed copper (IEC 60028), both from memory, brought to 75 °C by 234.5.
@pytest.mark.parametrize("gauge", [18, 16, 14, 12, 10, 8])
def test_solid_copper_agrees_with_geometry_and_resistivity(in_force: InForce, gauge: int) -> None:
    inches = 0.005 * 92.0 ** ((36 - gauge) / 39)
    square_mm = math.pi / 4.0 * (inches * 25.4) ** 2
    at_75 = 1000.0 / 58.0 / square_mm * (234.5 + 75.0) / (234.5 + 20.0) * 0.3048
    assert per_kft(in_force, f"nec-8-solid-{gauge}") == pytest.approx(at_75, rel=0.005)
    assert per_kft(in_force, f"nec-8-stranded-{gauge}") == pytest.approx(1.02 * at_75, rel=0.006)


@pytest.mark.source("astm-b258")
def test_awg_areas_are_those_of_astm_b258(in_force: InForce) -> None:
    # 0.823, 1.309, 2.081, 3.309, 5.261 mm2 for 18, 16, 14, 12, 10 AWG, computed from ASTM B258.
    for gauge, square_mm in ((18, 0.823), (16, 1.309), (14, 2.081), (12, 3.309), (10, 5.261)):
        found = find_conductor("cord_conductors", f"nec-8-stranded-{gauge}", in_force)
        assert found.square_mm == pytest.approx(square_mm, rel=0.003)


def test_table_nine_is_coarser_than_table_eight(in_force: InForce) -> None:
    # 12 AWG: 2.0 in Table 9 is 3.6 % above 1.93 solid in Table 8; a result has to say which table it used.
    assert per_kft(in_force, "nec-9-pvc-12") / per_kft(in_force, "nec-8-solid-12") == pytest.approx(1.036, abs=0.0005)


def test_a_cold_cord_has_822_thousandths_of_its_75_degree_ohms() -> None:
    # (234.5 + 20) / (234.5 + 75) = 0.822, arithmetic.
    assert at_temperature(1.0, "copper", 75.0, 20.0) == pytest.approx(0.822, abs=0.0005)


def test_a_warm_cord_has_1157_thousandths_of_its_20_degree_ohms() -> None:
    # (234.5 + 60) / (234.5 + 20) = 1.157, arithmetic.
    assert at_temperature(1.0, "copper", 20.0, 60.0) == pytest.approx(1.157, abs=0.0005)


@pytest.mark.source("nec-chapter-9-table-8")
def test_the_temperature_rule_is_the_note_of_table_eight() -> None:
    # NEC Chapter 9 Table 8, note 2: R2 = R1 (1 + a (T2 - 75)), a = 0.00323 copper, 0.00330 aluminium (secondary copy).
    for metal, coefficient in (("copper", 0.00323), ("aluminium", 0.00330)):
        for wanted in (20.0, 60.0, 90.0):
            noted = 1.0 + coefficient * (wanted - 75.0)
            assert at_temperature(1.0, metal, 75.0, wanted) == pytest.approx(noted, abs=0.0003)


# Ohm per km at 20 °C of stranded 18, 16, 14, 12, 10 AWG, by hand from Table 8: printed x 3.2808 x 0.8223. For 18 AWG a
# working sheet of the trade has 21.5 where 7.95 x 3.2808 x 0.8223 is 21.45.
@pytest.mark.parametrize(("gauge", "derived"), [(18, 21.45), (16, 13.46), (14, 8.47), (12, 5.34), (10, 3.345)])
def test_cold_awg_cords_in_metric(in_force: InForce, gauge: int, derived: float) -> None:
    cord = find_conductor("cord_conductors", f"nec-8-stranded-{gauge}", in_force)
    assert cord.ohm_per_km_at(20.0) == pytest.approx(derived, abs=0.006)


def test_a_loop_is_there_and_back() -> None:
    # 15 m of 0.75 mm2: 2 x 15 x 26.0 / 1000 = 0.78 ohm, arithmetic.
    assert loop_ohms(26.0, 15.0) == pytest.approx(0.78)


@pytest.mark.source("kuphaldt-lessons")
def test_a_textbook_long_run_of_14_gauge() -> None:
    # Kuphaldt, Lessons In Electric Circuits, DC, chapter 12: 2300 ft each way of 4107 circular mils at
    # 10.09 ohm cmil/ft, 5.651 ohm a wire, 11.301 there and back.
    per_kft_of_print = 1000.0 * 10.09 / 4107.0
    assert loop_ohms(per_kft_of_print, 2300.0).real == pytest.approx(11.301, abs=0.0005)


def test_that_textbook_takes_copper_a_little_too_pure(in_force: InForce) -> None:
    # The same book takes 10.09 ohm cmil/ft, pure copper; annealed conductor copper has 10.37, 2.7 % more.
    solid = find_conductor("branch_conductors", "nec-8-solid-14", in_force)
    loop = solid.loop(2300.0 * 0.3048, 20.0).real
    assert loop / 11.301 == pytest.approx(1.028, abs=0.002)


def test_every_row_is_whole_and_no_family_grows_with_its_area(in_force: InForce) -> None:
    for name in TABLES:
        families: dict[str, Any] = {}
        for row in in_force.table(name).rows:
            found = find_conductor(name, str(row["id"]), in_force)
            families[found.family] = found
        for member in families.values():
            sizes = sizes_like(member, name, in_force)
            ohms = [one.ohm_per_km for one in sizes]
            assert len(sizes) >= 3
            assert len({one.metal for one in sizes}) == 1
            assert ohms == sorted(ohms, reverse=True)


def test_a_size_that_is_not_printed_is_not_in_the_table(in_force: InForce) -> None:
    with pytest.raises(KeyError):
        find_conductor("cord_conductors", "iec-5-1.25", in_force)


def test_stranded_rows_are_one_and_the_same_in_both_tables(in_force: InForce) -> None:
    cord, branch = (in_force.table(name) for name in TABLES)
    shared = [row for row in cord.rows if row["family"] == "nec-8-stranded"]
    assert len(shared) == 11
    assert all(branch.row(str(row["id"])) == row for row in shared)


def test_the_examples_in_the_docstrings_hold() -> None:
    for module in (conductors, path_volts):
        tried = doctest.testmod(module)
        assert tried.attempted > 0
        assert tried.failed == 0


def test_a_print_without_reactance_gives_none(in_force: InForce) -> None:
    # By hand: 2 · 15 m · 26.0 ohm/km = 0.78 ohm, and nothing across.
    assert find_conductor("cord_conductors", "iec-5-0.75", in_force).loop(15.0, 20.0) == complex(0.78, 0.0)
