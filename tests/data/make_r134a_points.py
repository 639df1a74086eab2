"""Writes r134a_points.csv: reference states of R-134a from CoolProp 8.0.0 (its Tillner-Roth & Baehr 1994).

    pip install CoolProp==8.0.0
    python tests/data/make_r134a_points.py

Seeded, so the file is the same each time. 600 points from 1 kPa to 36 bar and -40 C to 140 C: 200 anywhere in
vapour or liquid, 200 single-phase points within 2 K of saturation (on both sides), 200 across the dome.
Enthalpy and entropy count from the IIR reference, set by call (200 kJ/kg and 1 kJ/(kg K) in liquid at 0 C).
"""

import math
import pathlib
import random

import CoolProp
from CoolProp.CoolProp import PropsSI, set_reference_state

assert CoolProp.__version__ == "8.0.0", CoolProp.__version__
FLUID = "R134a"
set_reference_state(FLUID, "IIR")
rng = random.Random(134)
T_LOW, T_HIGH, P_LOW, P_HIGH = 233.15, 413.15, 1e3, 36e5


def some_pressure():
    return math.exp(rng.uniform(math.log(P_LOW), math.log(P_HIGH)))


def row(kind, p, **given):
    (name, value), = given.items()
    t, rho, h, s = (PropsSI(k, "P", p, name, value, FLUID) for k in "TDHS")
    q = value if name == "Q" else float("nan")
    phase = "two-phase" if name == "Q" else ("vapour" if t > PropsSI("T", "P", p, "Q", 1, FLUID) else "liquid")
    return f"{kind},{p:.6f},{h:.6f},{t:.9f},{rho:.9g},{s:.6f},{q:.9f},{phase}"


rows = []
while len(rows) < 200:
    # Every other point below 1 bar is let go: there is little but thin vapour there.
    p, t = some_pressure(), rng.uniform(T_LOW, T_HIGH)
    if p < 1e5 and rng.random() < 0.5:
        continue
    if abs(t - PropsSI("T", "P", p, "Q", 0, FLUID)) > 1e-3:
        rows.append(row("anywhere", p, T=t))
while len(rows) < 400:
    p = some_pressure()
    t_sat = PropsSI("T", "P", p, "Q", 0, FLUID)
    t = t_sat + rng.uniform(-2, 2)
    # Liquid boils below -40 C under half a bar; the near-saturation points are asked of the whole range.
    if abs(t - t_sat) > 1e-3:
        rows.append(row("near-saturation", p, T=t))
while len(rows) < 600:
    rows.append(row("dome", some_pressure(), Q=rng.uniform(0, 1)))

path = pathlib.Path(__file__).with_name("r134a_points.csv")
header = f"# CoolProp {CoolProp.__version__}, {FLUID}, IIR reference; made by make_r134a_points.py\n"
header += "kind,p_pa,h_j_per_kg,t_k,rho_kg_m3,s_j_per_kg_k,x,phase\n"
path.write_text(header + "\n".join(rows) + "\n")
