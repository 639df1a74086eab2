"""Times CoolProp's tables (BICUBIC&HEOS) on the states that the bench hands over; called by property_speed.rs.

Standard input: a line with a fluid, its count of states, then a line "p_pa h_j_per_kg" for each; and again. Standard
output, a line for each fluid: nanoseconds per state of

    batch    T, density and entropy by fast_evaluate, in one call for all states: no Python inside the loop
    single   update, T, density and both slopes of density by the low-level interface, from a Python loop, less the same
             loop over as many calls that do nothing: what is left is CoolProp's own time and the passing of arguments
"""

import os
import sys
import time

import CoolProp
import CoolProp.CoolProp as CP
import numpy as np

folder = os.path.join(sys.argv[1], "")
os.makedirs(folder, exist_ok=True)
CP.set_config_string(CP.ALTERNATIVE_TABLES_DIRECTORY, folder)


def best(run, rounds=25):
    """The fastest of many rounds: what it costs when nothing else wants the processor."""
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        run()
        times.append(time.perf_counter() - start)
    return min(times)


def measure(fluid, p, h):
    at = CoolProp.AbstractState("BICUBIC&HEOS", fluid)
    molar = h * at.molar_mass()
    keys = np.array([CP.iT, CP.iDmolar, CP.iSmolar], dtype=np.int32)
    out, status = np.zeros((len(p), 3)), np.zeros(len(p), dtype=np.int32)
    batch = lambda: at.fast_evaluate(CoolProp.HmolarP_INPUTS, molar, p, keys, out, status)
    batch()
    if status.any():
        raise ValueError(f"{np.count_nonzero(status)} states of {fluid} are refused")
    batch_s = best(batch)

    pairs = list(zip(h.tolist(), p.tolist()))
    pair, density, enthalpy, pressure = CoolProp.HmassP_INPUTS, CP.iDmass, CP.iHmass, CP.iP
    update, t, rho, slope, nothing = at.update, at.T, at.rhomass, at.first_partial_deriv, at.molar_mass

    def full():
        for a, b in pairs:
            update(pair, a, b), t(), rho(), slope(density, enthalpy, pressure), slope(density, pressure, enthalpy)

    def empty():
        for a, b in pairs:
            nothing(), nothing(), nothing(), nothing(), nothing()

    return batch_s, best(full) - best(empty)


lines = sys.stdin.read().split("\n")
while lines and lines[0]:
    fluid, count = lines[0].split()
    rows = np.array([[float(v) for v in line.split()] for line in lines[1:int(count) + 1]])
    lines = lines[int(count) + 1:]
    batch_s, single_s = measure(fluid, np.ascontiguousarray(rows[:, 0]), np.ascontiguousarray(rows[:, 1]))
    print(f"{batch_s / len(rows) * 1e9:.1f} {single_s / len(rows) * 1e9:.1f}", flush=True)
