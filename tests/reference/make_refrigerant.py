"""Writes the data file of a pure refrigerant, assets/refrigerants/NAME.json, from CoolProp 8.0.0.

    pip install CoolProp==8.0.0 numpy
    python tests/reference/make_refrigerant.py R-134a R134a
    cargo run --release --no-default-features --features tables -- tables R-134a

The equation of state is copied term by term from CoolProp's fluid file, the papers from its bibliography.

Transport is published in half a dozen forms, one of which (extended corresponding states) needs a second fluid. So
that a data file is enough and no code is needed, viscosity and the background of the conductivity are fitted here
to CoolProp's evaluation of the named paper,

    ln(value / unit) = sum over i + j <= degree of c[i][j] * x**i * y**j,

x and y being temperature and density stretched to -1..1, over single-phase states from -60 to 160 C (or as far as
the equation reaches), from 1 Pa to 98 % of the critical pressure. The critical enhancement of the conductivity is
not fitted: it keeps the published crossover, of which only the reference compressibility is a fit. The greatest
deviation is written beside each fit. Surface tension keeps its published form.
"""

import json
import pathlib
import re
import sys

import CoolProp
import CoolProp.CoolProp as CP
import numpy as np

assert CoolProp.__version__ == "8.0.0", CoolProp.__version__
T_LOW, T_HIGH = 213.15, 433.15
TOP = 0.98
DEGREE = 9
BOLTZMANN = 1.3806488e-23
CROSSOVER = (
    "G. A. Olchowy, J. V. Sengers, A Simplified Representation for the Thermal Conductivity of Fluids in the Critical "
    "Region, Int. J. Thermophys. 10(2), 417-426 (1989), doi 10.1007/BF01133538"
)


def paper(key):
    """The full reference behind a key of CoolProp's bibliography."""
    text = (pathlib.Path(CoolProp.__file__).parent / "CoolPropBibTeXLibrary.bib").read_text()
    entry = re.search(r"@\w+\{" + re.escape(key) + r",(.*?)\n\}", text, re.S | re.I).group(1)
    fields = {k.lower(): v.strip("{}") for k, v in re.findall(r"^\s*(\w+)\s*=\s*\{(.*)\},?$", entry, re.M)}
    words = [fields["author"].replace(" and ", ", "), fields["title"].strip()]
    words.append(fields.get("journal") or fields.get("booktitle"))
    if "volume" in fields:
        words[-1] += ", ".join([f" {fields['volume']}", fields.get("pages", "")]).rstrip(", ")
    doi = f", doi {fields['doi']}" if "doi" in fields else ""
    line = f"{', '.join(words)} ({fields['year']}){doi}"
    return re.sub(r"\{\\[\"~]\{?(\w)\}?\}", r"\1", line).replace("{", "").replace("}", "")


class Fluid:
    """CoolProp's fluid, and what the crossover needs besides."""

    def __init__(self, name):
        whole = json.loads(CP.get_fluid_param_string(name, "JSON"))
        self.file = whole[0] if isinstance(whole, list) else whole
        self.eos = self.file["EOS"][0]
        self.at = CoolProp.AbstractState("HEOS", name)
        self.reference = CoolProp.AbstractState("HEOS", name)
        self.reference.specify_phase(CoolProp.iphase_gas)
        self.t_reference = 1.5 * self.at.T_reducing()
        self.rho_critical = self.at.rhomass_reducing()
        self.conductivity = self.file["TRANSPORT"]["conductivity"]
        critical = self.conductivity.get("critical", {})
        assert critical.get("type", "simplified_Olchowy_Sengers") == "simplified_Olchowy_Sengers"
        # Where the file is silent CoolProp takes these.
        self.crossover = {
            "r0": critical.get("R0", 1.03), "gamma": critical.get("gamma", 1.239), "nu": critical.get("nu", 0.63),
            "amplitude": critical.get("GAMMA", 0.0496), "zeta0_m": critical.get("zeta0", 1.94e-10),
            "cutoff_per_m": critical.get("qD", 2e9),
        }

    def reference_slope(self, rho):
        """dp/d(rho) at the reference temperature."""
        self.reference.update(CoolProp.DmassT_INPUTS, rho, self.t_reference)
        return self.reference.first_partial_deriv(CP.iP, CP.iDmass, CP.iT)

    def enhancement(self):
        """Critical enhancement (W/(m K)) of the conductivity at the present state."""
        at, c = self.at, self.crossover
        t, rho, cp = at.T(), at.rhomass(), at.cpmass()
        scale = at.p_critical() / self.rho_critical**2 * rho
        here = scale / at.first_partial_deriv(CP.iP, CP.iDmass, CP.iT)
        there = scale / self.reference_slope(rho) * self.t_reference / t
        if here <= there:
            return 0.0
        zeta = c["zeta0_m"] * ((here - there) / c["amplitude"]) ** (c["nu"] / c["gamma"])
        y, ratio = c["cutoff_per_m"] * zeta, at.cvmass() / cp
        omega = 2 / np.pi * ((1 - ratio) * np.arctan(y) + ratio * y)
        omega0 = 2 / np.pi * (1 - np.exp(-1 / (1 / y + (y * self.rho_critical / rho) ** 2 / 3)))
        return rho * cp * c["r0"] * BOLTZMANN * t / (6 * np.pi * at.viscosity() * zeta) * (omega - omega0)

    def samples(self):
        """Rows of T, rho, viscosity, conductivity, enhancement over the single-phase range."""
        at, top = self.at, TOP * self.at.p_critical()
        t_top = self.saturated(top, 0)
        t_high = min(T_HIGH, self.eos["T_max"])
        turns = np.cos(np.linspace(np.pi, 0, 45))
        ts = np.concatenate([
            (T_LOW + t_top) / 2 + (t_top - T_LOW) / 2 * turns, (t_top + t_high) / 2 + (t_high - t_top) / 2 * turns,
            t_top - np.geomspace(0.05, 8, 12), t_top + np.geomspace(0.05, 8, 12),
        ])
        rows = []
        for t in sorted(ts):
            p_sat = top
            if t < t_top:
                at.update(CoolProp.QT_INPUTS, 0, t)
                p_sat = at.p()
                rows += self.row(CoolProp.QT_INPUTS, 0, t) + self.row(CoolProp.QT_INPUTS, 1, t)
                for p in np.linspace(p_sat, top, 12)[1:]:
                    rows += self.row(CoolProp.PT_INPUTS, p, t, CoolProp.iphase_liquid)
            for p in np.concatenate([np.geomspace(1, p_sat, 12)[:-1], np.linspace(p_sat, 0, 12)[:-1]]):
                phase = CoolProp.iphase_gas if t < at.T_critical() else CoolProp.iphase_supercritical_gas
                if p < p_sat or t > t_top:
                    rows += self.row(CoolProp.PT_INPUTS, p, t, phase)
        return np.array(rows)

    def saturated(self, p, q):
        self.at.update(CoolProp.PQ_INPUTS, p, q)
        return self.at.T()

    def row(self, pair, a, b, phase=None):
        if phase is not None:
            self.at.specify_phase(phase)
        self.at.update(pair, a, b)
        out = [self.at.T(), self.at.rhomass(), self.at.viscosity()]
        try:
            out += [self.at.conductivity(), self.enhancement()]
        except ValueError as problem:
            # Extended corresponding states at times find no conformal state; there is nothing to compare with.
            print(f"  no conductivity at {out[0]:.2f} K, {out[1]:.4g} kg/m3: {problem}")
            out += [np.nan, np.nan]
        self.at.unspecify_phase()
        return [out]


def fit(values, unit, t, rho, total=None):
    """Coefficients of ln(values / unit), and the greatest relative deviation (of `total`, where given)."""
    t_span, rho_span = [float(f"{f(t):.6g}") for f in (np.min, np.max)], [0.0, float(f"{np.max(rho) * 1.001:.6g}")]
    stretch = lambda v, span: (2 * v - span[0] - span[1]) / (span[1] - span[0])
    x, y = stretch(t, t_span), stretch(rho, rho_span)
    columns = [x**i * y**j for i in range(DEGREE + 1) for j in range(DEGREE + 1 - i)]
    basis, goal = np.stack(columns, 1), np.log(values / unit)
    share = values / total if total is not None else np.ones_like(values)
    weight = np.ones_like(values)
    for _ in range(60):
        # Least squares, leaning ever more on the worst points.
        w = share * np.sqrt(weight)
        c = np.linalg.lstsq(basis * w[:, None], goal * w, rcond=1e-13)[0]
        c = np.array([float(f"{v:.12g}") for v in c])
        error = np.abs(share * (np.exp(basis @ c - goal) - 1))
        weight *= (1e-3 + error / error.max()) ** 0.5
        weight /= weight.mean()
    rows, start = [], 0
    for i in range(DEGREE + 1):
        rows.append([float(v) for v in c[start:start + DEGREE + 1 - i]])
        start += DEGREE + 1 - i
    return {"unit": unit, "t_span_k": t_span, "rho_span_kg_m3": rho_span, "ln_value": rows}, error.max()


def reference_fit(fluid, rho_span):
    """ln of dp/d(rho) (Pa m3/kg) at the reference temperature, as a polynomial in stretched density."""
    y = np.cos(np.linspace(np.pi, 0, 80))
    rho = rho_span[0] + (y + 1) / 2 * (rho_span[1] - rho_span[0])
    goal = np.log([fluid.reference_slope(max(r, 1e-6)) for r in rho])
    c = np.polynomial.chebyshev.cheb2poly(np.polynomial.chebyshev.chebfit(y, goal, 9))
    return [float(f"{v:.12g}") for v in c]


def main(name, coolprop_name):
    fluid = Fluid(coolprop_name)
    eos, at, info = fluid.eos, fluid.at, fluid.file["INFO"]
    at.update(CoolProp.QT_INPUTS, 0, 273.15)
    near = {"p_pa": at.p(), "rho_l_kg_m3": at.saturated_liquid_keyed_output(CP.iDmass),
            "rho_v_kg_m3": at.saturated_vapor_keyed_output(CP.iDmass)}
    data = fluid.samples()
    t, rho, mu, k, extra = data.T
    viscosity, worst_mu = fit(mu, 1e-6, t, rho)
    known = np.isfinite(k)
    conductivity, worst_k = fit((k - extra)[known], 1e-3, t[known], rho[known], total=k[known])
    viscosities = fluid.file["TRANSPORT"]["viscosity"]
    viscosities = viscosities if isinstance(viscosities, list) else [viscosities]
    tension = fluid.file["ANCILLARIES"]["surface_tension"]
    copied = lambda terms: [{k: v for k, v in term.items() if not k.startswith("_")} for term in terms]
    out = {
        "identifier": {"cas": info["CAS"], "name": name, "formula": re.sub(r"_\{(\d+)\}", r"\1", info["FORMULA"]).replace("_1", "")},
        "source": {
            "equation": paper(eos["BibTeX_EOS"]),
            "coefficients": f"read from the fluid file {coolprop_name} of CoolProp 8.0.0 (MIT licence), entry "
            f"{eos['BibTeX_EOS']}, by tests/reference/make_refrigerant.py",
            "range": f"{eos['Ttriple']:g} K to {eos['T_max']:g} K, to {eos['p_max'] * 1e-6:g} MPa",
        },
        "critical_point": {"t_k": at.T_critical(), "p_pa": at.p_critical(), "rho_mol_m3": at.rhomolar_critical()},
        "triple_point": {"t_k": eos["Ttriple"], "p_pa": eos["STATES"]["sat_min_vapor"]["p"]},
        "near_0_c": {key: float(f"{value:.5g}") for key, value in near.items()},
        "max_t_k": eos["T_max"],
        "gas_constant": eos["gas_constant"],
        "molarweight": round(eos["molar_mass"] * 1e3, 9),
        "tc": at.T_reducing(),
        "rhoc": eos["STATES"]["reducing"]["rhomolar"],
        "residual": copied(eos["alphar"]),
        "ideal_gas": [term for term in copied(eos["alpha0"]) if term["type"] != "IdealGasHelmholtzEnthalpyEntropyOffset"],
        "transport": {
            "range": f"{T_LOW:g} K to {min(T_HIGH, eos['T_max']):g} K, 1 Pa to 98 % of the critical pressure",
            "viscosity": {"paper": paper(viscosities[0]["BibTeX"]), "fit_deviation": float(f"{worst_mu:.2g}"),
                          "fit": viscosity},
            "conductivity": {
                "paper": paper(fluid.conductivity["BibTeX"]), "fit_deviation": float(f"{worst_k:.2g}"),
                "fit": conductivity,
                "crossover": {"paper": CROSSOVER, **fluid.crossover, "t_reference_k": fluid.t_reference,
                              "rho_critical_kg_m3": fluid.rho_critical,
                              "reference_rho_span_kg_m3": conductivity["rho_span_kg_m3"],
                              "ln_reference_dp_drho": reference_fit(fluid, conductivity["rho_span_kg_m3"])},
            },
            "surface_tension": {"paper": paper(tension["BibTeX"]), "t_critical_k": tension["Tc"],
                                "a": tension["a"], "n": tension["n"]},
        },
    }
    text = json.dumps(out, indent=2)
    # Lists of numbers on one line.
    text = re.sub(r"\[\s+([-\d.eE,\s]+?)\s+\]", lambda m: "[" + re.sub(r"\s+", " ", m.group(1)) + "]", text)
    path = pathlib.Path(__file__).parents[2] / "assets" / "refrigerants" / f"{name}.json"
    path.write_text(text + "\n")
    print(f"{path.name}: {len(data)} points, viscosity within {worst_mu:.1e}, conductivity within {worst_k:.1e}")


if __name__ == "__main__":
    main(*sys.argv[1:])
