"""Volts at the end of a feeder, running and at the start, refereed by pandapower's load flow (Newton-Raphson).

The feeder is one line with R and X between a stiff source and a load. A running motor is a load of constant current at
its power factor, a stalled one an impedance. pandapower reckons three-phase: its symmetrical line with
U x sqrt(3) and 3 x P is the single phase with the same ohms.
"""

from __future__ import annotations

import math

import pandapower

ROOT3 = math.sqrt(3.0)


def load_volts(supply: float, ohms: float, reactance: float, at: float, amps: float, factor: float, kind: str) -> float:
    """Volts at a load that takes these amps at the volts `at`, and holds its current or its impedance."""
    net = pandapower.create_empty_network(sn_mva=1e-3)
    rated = at * ROOT3 / 1e3
    head, end = (pandapower.create_bus(net, vn_kv=rated) for _ in range(2))
    pandapower.create_ext_grid(net, head, vm_pu=supply / at)
    pandapower.create_line_from_parameters(
        net, head, end, length_km=1.0, r_ohm_per_km=ohms, x_ohm_per_km=reactance, c_nf_per_km=0.0, max_i_ka=1.0
    )
    watts, var = at * amps * factor, at * amps * math.sqrt(1.0 - factor * factor)
    power = {"p_mw": 3.0 * watts / 1e6, "q_mvar": 3.0 * var / 1e6}
    if kind == "impedance":
        pandapower.create_shunt(net, end, **power)
    else:
        pandapower.create_load(net, end, **power, const_i_p_percent=100.0, const_i_q_percent=100.0)
    pandapower.runpp(net, init="flat", tolerance_mva=1e-12, max_iteration=100, numba=False)
    return float(net.res_bus.vm_pu.at[end] * at)


def running(supply: float, ohms: float, reactance: float, amps: float, factor: float) -> float:
    """Volts at a load that takes these amps at this power factor."""
    return load_volts(supply, ohms, reactance, supply, amps, factor, "current")


def stalled(supply: float, ohms: float, reactance: float, plate: float, amps: float, factor: float) -> float:
    """Volts at a motor that does not turn, taking these amps at the plate's volts."""
    return load_volts(supply, ohms, reactance, plate, amps, factor, "impedance")
