"""The pages that the calculators fill: their figures against arithmetic done by hand and a standard's factors."""

from __future__ import annotations

import pytest

from build_scripts.assemble import assembled_files
from build_scripts.read_handbook import read_handbook
from tests.build_scripts.conftest import ROOT
from tests.build_scripts.test_read_handbook import ON


@pytest.fixture(scope="module")
def files():
    return assembled_files(read_handbook(ROOT, ON), ON)


def rows_under(page, heading):
    part = page.split(f"## {heading}\n")[1].split("\n## ")[0]
    lines = [line for line in part.splitlines() if line.startswith("| ")]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]


@pytest.mark.parametrize(
    ("heading", "row"),
    [
        # By hand, 15 kΩ: t = RC ln(U0/10 V), E = C U0²/2, P = U0²/R; held for the
        # longest of 1.5 times that, five times RC and 5 s, in whole seconds upwards.
        ("From 163 V, the peak of 115 V", ["200 µF", "15 s", "8.37 s", "2.66 J", "1.8 W"]),
        ("From 325 V, the peak of 230 V", ["100 µF", "8 s", "5.22 s", "5.28 J", "7.0 W"]),
        ("From 622 V, the peak of a can printed 440 V", ["5 µF", "5 s", "0.31 s", "0.97 J", "25.8 W"]),
    ],
)
def test_a_row_of_the_discharge_times_is_that_of_the_formulas(files, heading, row):
    assert row in rows_under(files["reference/discharge-times.md"], heading)


@pytest.mark.parametrize(
    ("heading", "symbol", "factor"),
    [
        # NIST SP 811, appendix B: one pound-force per square inch, one conventional inch of mercury, one foot.
        ("Gauge pressure", "psi gauge", "6.894757 kPa gauge"),
        ("Pressure", "inHg abs", "3.386389 kPa abs"),
        ("Length", "ft", "0.3048 m"),
        ("Temperature difference", "°F", "0.5555556 K"),
        ("Resistance", "MΩ", "1000000 Ω"),
        ("Resistance per length", "Ω/kft", "3.28084 Ω/km"),
    ],
)
def test_a_unit_converts_as_the_published_factors_do(files, heading, symbol, factor):
    assert [symbol, factor] in [row[:2] for row in rows_under(files["reference/units.md"], heading)]


def test_temperatures_that_are_read_are_no_row_of_steps(files):
    assert "## Temperature\n" not in files["reference/units.md"]
