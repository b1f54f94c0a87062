"""Makes handbook/standards/saturation.yaml: saturation pressures of refrigerants, from CoolProp.

Run by hand by a contributor, in the environment that holds the test packages, when a refrigerant is added or
requirements/test.txt brings another CoolProp:

    .environment/bin/python -m build_scripts.make_saturation_tables

A build never needs CoolProp: it reads the file, which is kept in the repository. A test makes the file again and
compares every byte. What it is made with, and what it rests on:

- Library: CoolProp of the version in LIBRARY; another one is refused until somebody has looked at what changed.
- Equations of state: those of FLUIDS, by CoolProp's own key; another one is refused. R404A is a pseudo-pure fluid
  there, with one equation for the bubble line and one for the dew line.
- Pressures are absolute, in kPa, with five digits (0.005 % at worst); no atmosphere is in them.
- Temperatures are every STEP kelvin from LOWEST to HIGHEST, or to the last step below the critical point. With that
  step, ln p taken as a straight line in 1/T between two of them is within 0.05 % of CoolProp everywhere.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

LIBRARY = "8.0.0"
LOWEST, HIGHEST, STEP = -50, 80, 5  # °C; what a technician meets, from a deep freezer to a blocked condenser
ZERO_CELSIUS = 273.15
LINE = 116


@dataclass(frozen=True)
class Fluid:
    """One refrigerant: its key in the handbook, its name on a plate and in CoolProp, and what its pressures rest on.

    safety is the class of ASHRAE 34 (from memory); equation is CoolProp's key of the equation of state.
    """

    key: str
    name: str
    safety: str
    blend: bool
    equation: str


FLUIDS = (
    Fluid("r134a", "R134a", "A1", False, "TillnerRoth-JPCRD-1994"),
    Fluid("r600a", "R600a", "A3", False, "Buecker-JPCRD-2006B"),
    Fluid("r290", "R290", "A3", False, "Lemmon-JCED-2009"),
    Fluid("r12", "R12", "A1", False, "Marx-BOOK-1992"),
    Fluid("r22", "R22", "A1", False, "Kamei-IJT-1995"),
    Fluid("r404a", "R404A", "A1", True, "Lemmon-IJT-2003"),
)

HEAD = """\
# Made by build_scripts/make_saturation_tables.py; change that and run it again, not this file.
# Saturation pressures from CoolProp {library}, absolute, in kPa, at the temperatures of at_degC.
# A pure fluid has one pressure (kPa_abs); a blend boils at bubble_kPa_abs and condenses at dew_kPa_abs.
subject: Saturation
tables:
  saturation:
    title: Saturation pressures of refrigerants
    note: >-
      Absolute pressures. Between two temperatures take ln p as a straight line in 1/T, T in kelvin: that stays within
      0.1 % of the equation of state everywhere, which a test holds against CoolProp {library}.
    rows:
"""


def text() -> str:
    """The whole file; the same bytes every time."""
    return HEAD.format(library=LIBRARY) + "".join(line for fluid in FLUIDS for line in _row(fluid))


def _row(fluid: Fluid) -> Iterator[str]:
    """One fluid as a row of the table."""
    curves = {"dew_kPa_abs": 1.0, "bubble_kPa_abs": 0.0} if fluid.blend else {"kPa_abs": 1.0}
    critical = _critical(fluid)
    degrees = [one for one in range(LOWEST, HIGHEST + 1, STEP) if one < critical[0]]
    yield f"      - id: {fluid.key}\n"
    yield f"        label: {fluid.name}\n"
    yield f"        kind: {'blend' if fluid.blend else 'pure'}\n"
    yield f"        safety_class: {fluid.safety}\n"
    yield f"        critical_degC: {_digits(critical[0])}\n"
    yield f"        critical_kPa_abs: {_digits(critical[1])}\n"
    yield f"        equation: {fluid.equation}\n"
    yield f"        source: saturation-{fluid.key}\n"
    yield from _list("at_degC", [str(one) for one in degrees])
    for name, quality in curves.items():
        yield from _list(name, [_digits(_pressure(fluid, one, quality)) for one in degrees])


def _list(name: str, items: list[str]) -> Iterator[str]:
    """A list in brackets, broken into lines."""
    line = f"        {name}: ["
    for position, item in enumerate(items):
        mark = "]" if position == len(items) - 1 else ","
        if len(line) + len(item) + 2 > LINE:
            yield line.rstrip() + "\n"
            line = "          "
        line += f"{item}{mark} "
    yield line.rstrip() + "\n"


def _digits(number: float) -> str:
    """Five digits, written plainly."""
    return f"{number:.5g}"


def _critical(fluid: Fluid) -> tuple[float, float]:
    """The critical temperature in °C and pressure in kPa, after a look at library and equation."""
    import CoolProp
    from CoolProp.CoolProp import PropsSI, get_fluid_param_string

    if CoolProp.__version__ != LIBRARY:
        raise SystemExit(
            f"This is CoolProp {CoolProp.__version__}, and the tables were made with {LIBRARY}. Look at what changed, "
            "then set LIBRARY in build_scripts/make_saturation_tables.py."
        )
    equation = get_fluid_param_string(fluid.name, "BibTeX-EOS")
    if equation != fluid.equation:
        raise SystemExit(
            f"{fluid.name}: CoolProp computes it with {equation}, not with {fluid.equation}. Look at what changed, "
            "then set both the equation in FLUIDS and its citation in handbook/sources.yaml."
        )
    return PropsSI("Tcrit", fluid.name) - ZERO_CELSIUS, PropsSI("pcrit", fluid.name) / 1000.0


def _pressure(fluid: Fluid, degrees: float, quality: float) -> float:
    """Saturation pressure in kPa; quality 1 is the dew line, 0 the bubble line."""
    from CoolProp.CoolProp import PropsSI

    return float(PropsSI("P", "T", degrees + ZERO_CELSIUS, "Q", quality, fluid.name)) / 1000.0


def main() -> None:
    """Write the table to handbook/standards."""
    file = Path(__file__).resolve().parent.parent / "handbook" / "standards" / "saturation.yaml"
    file.write_text(text(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
