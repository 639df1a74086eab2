"""Writes tests/reference/states/NAME.bin: random states of the shipped refrigerants from CoolProp 8.0.0.

    pip install CoolProp==8.0.0
    python tests/reference/coolprop_states.py

Seeded, so the files are the same each time. 5,000 states for each refrigerant, from -60 C to 160 C (or the highest
temperature of its equation) and from 1 Pa to 98 % of its critical pressure:

    a third  single-phase, within 2 K of saturation, on both sides
    a third  in the dome
    a third  anywhere single-phase, half of them even in ln p from 1 Pa, half even in p; some on the very edges

and 300 saturation states, 200 even in temperature and 100 even in ln p towards 98 %. Enthalpy and entropy count from
the IIR reference, set by call. Layout, little-endian: u32 states, u32 saturation states; then for each state

    f64 h (J/kg); f32 p (Pa), T (K), rho (kg/m3), s (J/(kg K)), quality, psat at T (Pa), viscosity (Pa s),
    conductivity (W/(m K))

with NaN where a number has no meaning (or CoolProp none: its conductivity of R-32 fails in some thin cold vapour);
and for each saturation state

    f64 T (K); f32 p (Pa), mu_l, mu_v, k_l, k_v, cp_l, cp_v, surface tension (N/m).

Pressures are rounded to f32 before the state is computed, so rounding adds no error.
"""

import math
import pathlib
import random
import struct

import CoolProp
import CoolProp.CoolProp as CP

assert CoolProp.__version__ == "8.0.0", CoolProp.__version__
FLUIDS = {"R-134a": "R134a", "R-1234yf": "R1234yf", "R-32": "R32", "R-290": "Propane"}
T_LOW, T_HIGH, P_LOW, TOP = 213.15, 433.15, 1.0, 0.98
NAN = math.nan


def single(value):
    return struct.unpack("<f", struct.pack("<f", value))[0]


def attempt(get):
    try:
        return get()
    except ValueError:
        return NAN


class Source:
    def __init__(self, name, seed):
        CP.set_reference_state(name, "IIR")
        self.at = CoolProp.AbstractState("HEOS", name)
        self.side = CoolProp.AbstractState("HEOS", name)
        self.rng = random.Random(seed)
        self.top = TOP * self.at.p_critical()
        self.t_high = min(T_HIGH, self.at.Tmax())
        self.t_top = self.t_sat(self.top)
        self.bottom = self.p_sat(T_LOW)

    def t_sat(self, p):
        self.side.update(CoolProp.PQ_INPUTS, p, 0)
        return self.side.T()

    def p_sat(self, t):
        self.side.update(CoolProp.QT_INPUTS, 0, t)
        return self.side.p()

    def state(self, p, t):
        """Single-phase, on the side of saturation that t is on."""
        at, t_sat = self.at, self.t_sat(p)
        liquid = t < t_sat
        if liquid:
            at.specify_phase(CoolProp.iphase_liquid)
        else:
            at.specify_phase(CoolProp.iphase_gas if t < at.T_critical() else CoolProp.iphase_supercritical_gas)
        at.update(CoolProp.PT_INPUTS, p, t)
        out = self.packed(p, NAN, attempt(at.viscosity), attempt(at.conductivity))
        at.unspecify_phase()
        return out

    def packed(self, p, quality, mu, k):
        at = self.at
        p_sat = self.p_sat(at.T()) if at.T() < self.t_top else NAN
        return struct.pack(
            "<d8f", at.hmass(), p, at.T(), at.rhomass(), at.smass(), quality, p_sat, mu, k)

    def near(self):
        while True:
            p = single(self.p_sat(self.rng.uniform(T_LOW, self.t_top)))
            t = self.t_sat(p) + self.rng.uniform(-2, 2)
            if T_LOW <= t and p <= self.top:
                return self.state(p, t)

    def dome(self):
        p = min(single(self.p_sat(self.rng.uniform(T_LOW + 1e-3, self.t_top))), self.top)
        quality = self.rng.random()
        self.at.update(CoolProp.PQ_INPUTS, p, quality)
        return self.packed(p, quality, NAN, NAN)

    def anywhere(self, i):
        p = math.exp(self.rng.uniform(0, math.log(self.top))) if i % 2 else self.rng.uniform(P_LOW, self.top)
        p, t = single(p), self.rng.uniform(T_LOW, self.t_high)
        if i % 20 == 0:
            # The edges: lowest and highest pressure, lowest and highest temperature.
            p = [P_LOW, single(self.top * (1 - 1e-7)), p, p][i // 20 % 4]
            t = [t, t, T_LOW + 1e-6, self.t_high - 1e-6][i // 20 % 4]
        return self.state(p, t)

    def saturation(self, i):
        if i < 200:
            p = self.p_sat(T_LOW + (self.t_top - T_LOW) * (i + 0.5) / 200)
        else:
            p = self.bottom * (self.top / self.bottom) ** ((i - 199) / 100)
        p = min(single(p), single(self.top * (1 - 1e-7)))
        pair = []
        for q in (0, 1):
            self.at.update(CoolProp.PQ_INPUTS, p, q)
            pair.append((self.at.viscosity(), attempt(self.at.conductivity), self.at.cpmass()))
        (mu_l, k_l, cp_l), (mu_v, k_v, cp_v) = pair
        self.at.update(CoolProp.PQ_INPUTS, p, 0)
        return struct.pack(
            "<d8f", self.at.T(), p, mu_l, mu_v, k_l, k_v, cp_l, cp_v, self.at.surface_tension())


folder = pathlib.Path(__file__).with_name("states")
folder.mkdir(exist_ok=True)
for seed, (name, coolprop_name) in enumerate(FLUIDS.items()):
    source = Source(coolprop_name, 8_000 + seed)
    states = [source.near() for _ in range(1667)] + [source.dome() for _ in range(1666)]
    states += [source.anywhere(i) for i in range(1667)]
    saturations = [source.saturation(i) for i in range(300)]
    path = folder / f"{name}.bin"
    path.write_bytes(struct.pack("<2I", len(states), len(saturations)) + b"".join(states + saturations))
    unknown = sum(math.isnan(struct.unpack("<d8f", s)[8]) and math.isnan(struct.unpack("<d8f", s)[5]) for s in states)
    print(f"{path.name}: {path.stat().st_size} bytes, {unknown} single-phase states without a conductivity")
