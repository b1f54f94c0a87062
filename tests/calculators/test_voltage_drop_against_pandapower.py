"""Volts at the machine, running and at the start, against the load flow of pandapower."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import value
from tests.calculators.pandapower_feeder import running, stalled


@pytest.mark.source("pandapower-program")
def test_the_referee_gives_the_worked_cases_as_they_are_printed() -> None:
    # computed case: 120 V, 100 ft of 12 AWG (2.0 and 0.054 ohm/kft), 12 A at 0.7: exact 116.5010 V at the load
    assert running(120.0, 0.4, 0.0108, 12.0, 0.7) == pytest.approx(116.5010, abs=2e-4)
    # computed case: 115 V, 50 ft of 14 AWG (3.1 and 0.058 ohm/kft), 8 A at 0.65: exact 113.3378 V
    assert running(115.0, 0.31, 0.0058, 8.0, 0.65) == pytest.approx(113.3378, abs=2e-4)


@pytest.mark.source("pandapower-program")
@pytest.mark.parametrize("factor", ["1", "0.85", "0.65", "0.4"])
@pytest.mark.parametrize(("amps", "start"), [("1.1", "6"), ("6", "36"), ("12", "60")])
def test_voltage_drop_agrees_running_and_at_the_start(ask: Any, factor: str, amps: str, start: str) -> None:
    reply = ask(
        "voltage-drop",
        plate_volts="120",
        idle_volts="121.5",
        run_amps=amps,
        run_power_factor=factor,
        start_amps=start,
        start_power_factor=factor,
        branch_conductor="nec-9-pvc-12",
        branch_length=("100", "ft"),
        conductor_temperature="75",
        source_ohms="0.35",
        source_where="panel",
    )
    # NEC Chapter 9 Table 9: 12 AWG in PVC 2.0 and 0.054 ohm per 1000 ft; there and back 0.4 and 0.0108, source 0.35
    ohms, reactance = 0.75, 0.0108
    assert value(reply, "total_ohms") == "0.750"
    expected = running(121.5, ohms, reactance, float(amps), float(factor))
    assert float(value(reply, "run_volts")) == pytest.approx(expected, abs=0.006)
    expected = stalled(121.5, ohms, reactance, 120.0, float(start), float(factor))
    assert float(value(reply, "start_volts")) == pytest.approx(expected, abs=0.06)


def test_reactance_of_a_cord_changes_the_start_by_less_than_a_volt() -> None:
    # common practice, no source: reactance of small cables below 0.1 milliohm a metre is left out
    with_reactance = stalled(230.0, 1.3, 0.005, 230.0, 20.0, 0.7)
    assert abs(with_reactance - stalled(230.0, 1.3, 0.0, 230.0, 20.0, 0.7)) < 0.5
