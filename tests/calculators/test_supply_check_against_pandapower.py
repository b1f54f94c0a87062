"""The volts foretold for the start, against the load flow of pandapower."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import value
from tests.calculators.pandapower_feeder import stalled


@pytest.mark.source("pandapower-program")
@pytest.mark.parametrize("factor", ["1", "0.85", "0.65", "0.4"])
@pytest.mark.parametrize(("loaded", "load", "start"), [("226.5", "1.1", "12"), ("219", "10", "30"), ("225", "9", "60")])
def test_the_supply_check_foretells_the_start_as_the_referee_does(
    ask: Any, factor: str, loaded: str, load: str, start: str
) -> None:
    typed = {"plate_volts": "230", "idle_volts": "229", "loaded_volts": loaded, "load_amps": load, "start_amps": start}
    ohms = (229.0 - float(loaded)) / float(load)
    exact = stalled(229.0, ohms, 0.0, 230.0, float(start), float(factor))
    with_factor, without = ask("supply-check", **typed, start_power_factor=factor), ask("supply-check", **typed)
    assert float(value(with_factor, "predicted_start_volts")) == pytest.approx(exact, abs=0.06)
    # without a power factor the figure is the least it can be: never above the referee
    assert float(value(without, "predicted_start_volts")) <= exact + 0.06
    assert float(value(without, "predicted_start_bound")) <= exact + 0.06
