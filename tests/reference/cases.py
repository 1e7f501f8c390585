"""Makes cases.json: for each law inputs, the value that something outside the project gives, and how near the law
must come to it.

Run: python cases.py   (in this folder; needs numpy, scipy, biopython, scikit-bio, pint, mpmath; versions are written
into the result).

How a case came about ("basis"):
  certified    certified by a standards body
  measured     measured and published; the tolerance is the scatter or the rounding of the measurement
  library      computed by a library that has the law itself (Biopython, SciPy, scikit-bio, R)
  independent  computed another way: by integrating the differential equation, by finding the root of the balance, by
               counting or by drawing at random. A wrong formula would show.
  units        the same closed form, but with units carried by pint: a wrong power of ten would show, a wrong formula not
  closed-form  the same closed form evaluated elsewhere: only slips of the keyboard would show
"""
import csv, importlib.metadata as meta, json, math, platform
import mpmath, numpy as np, pint
from scipy import constants, integrate, optimize, stats
from scipy.special import lambertw

CASES = []


def case(law, inputs, expected, basis, source, tolerance, why, output=None, absolute=False):
    CASES.append({"law": law, "inputs": inputs, "output": output, "expected": expected, "basis": basis,
                  "source": source, "tolerance": tolerance, "absolute": absolute, "why": why})


EXACT = "double precision on both sides; CSV values have 12 digits"
TINY = 1e-10


def table(name):
    return list(csv.DictReader(line for line in open(name) if not line.startswith("#")))


def read(name):
    return json.load(open(name))


u = pint.UnitRegistry()
R, F, K_B = constants.R, constants.physical_constants["Faraday constant"][0], constants.k


def ode(rhs, start, end):
    if end == 0:
        return start
    s = integrate.solve_ivp(rhs, (0, end), [start], rtol=1e-11, atol=1e-13, method="DOP853")
    return float(s.y[0][-1])


INTEGRATED = "error of the integrator (relative 1e-11 a step)"


# ---------------------------------------------------------------- separation
for row in table("sep_vwbr_mobilities.csv")[::7]:
    for p in table("sep_vwbr_parameters_horizontal.csv"):
        if float(p["E_V_per_cm"]) == float(row["E_V_per_cm"]) and float(p["agarose_pct"]) == float(row["agarose_pct"]):
            case("gel-mobility",
                 {"length": float(row["N_bp"]), "mu_long": float(p["muL_1e-8_m2_Vs"]) * 1e-4,
                  "mu_short": float(p["muS_1e-8_m2_Vs"]) * 1e-4, "gamma": float(p["gamma_kbp"]) * 1000},
                 float(row["mobility"]) * 1e-4, "closed-form", "sep_vwbr_mobilities.csv (published parameters)", 1e-9,
                 "12 digits in the file")
            case("migration-distance", {"mobility": float(row["mobility"]) * 1e-4, "field": float(row["E_V_per_cm"]),
                                        "time": 7200}, float(row["migration_cm_2h"]), "closed-form",
                 "sep_vwbr_mobilities.csv", 1e-9, "12 digits in the file")
d = (3.75e-8 * u.m**2 / u.V / u.s * 5 * u.V / u.cm * 2 * u.hour).to("cm").magnitude
case("migration-distance", {"mobility": 3.75e-4, "field": 5, "time": 7200}, d, "units", "pint", TINY, EXACT)
south = read("sep_helling_southern_on_vwbr.json")
for mobility, predicted, true in zip(south["mobility"], south["southern"]["predicted"], south["N_bp"]):
    inputs = {"distance": mobility, "m0": south["southern"]["m0"], "k1": south["southern"]["k"], "k2": south["southern"]["c"]}
    case("fragment-size", inputs, predicted, "closed-form", "sep_helling_southern_on_vwbr.json", 1e-9, EXACT)
    case("fragment-size", inputs, true, "independent",
         "lengths of the lambda HindIII fragments whose vWBR mobilities were fitted (sep_helling_southern_on_vwbr.json)",
         0.13, "the reciprocal curve is empirical: its own fit misses the ladder by up to 12 %")
for line in table("sep_ferguson_from_vwbr.csv"):
    n = line["N_bp"]
    for gel in ("0.5", "1", "1.5"):
        for row in table("sep_vwbr_mobilities.csv"):
            if row["N_bp"] == n and float(row["E_V_per_cm"]) == 2.78 and float(row["agarose_pct"]) == float(gel):
                case("gel-retardation", {"mobility_free": float(line["mu0_extrapolated_1e-8"]) * 1e-4,
                                         "retardation": float(line["Kr_per_pct"]), "gel": float(gel)},
                     float(row["mobility"]) * 1e-4, "independent",
                     "mobilities from published vWBR parameters, line by scipy linregress (sep_ferguson_from_vwbr.csv)", 0.09,
                     "mobilities of separate gels scatter about the straight line by up to 9 % (r2 0.994 to 0.997)")
# A tag of drag a adds friction of a base pairs to the chain's own: force per friction, written out in newtons.
zeta, q, e_field = 2.0e-12, 2.0e-20, 500.0
for n, a in ((30, 60), (500, 60), (500, 0)):
    speed = optimize.brentq(lambda v: n * q * e_field - (n + a) * zeta * v, 0, 1)
    free = q / zeta * 1e4
    case("drag-tag-mobility", {"free": free, "length": n, "drag": a}, speed / e_field * 1e4, "independent",
         "balance of forces solved by scipy brentq", 1e-9, "tolerance of the root finder")
m = (-7.5 * u.elementary_charge / (6 * math.pi * 0.89 * u.mPa * u.s * 2.1 * u.nm)).to("cm**2/(V*s)").magnitude
case("charge-mobility", {"charge": -7.5, "radius": 2.1, "viscosity": 0.89}, m, "units", "pint", 1e-8,
     "pint's elementary charge is exact; all else is arithmetic")
case("retention-factor", {"spot": 4.75, "front": 5.0}, 0.95, "closed-form", "by hand: carotene on paper", TINY, EXACT)
case("partition-coefficient", {"elution": 14, "void": 8, "total": 24}, 0.375, "closed-form", "by hand", TINY, EXACT)
for ph in (3.0, 4.76, 7.4):
    h, ka = 10 ** -ph, 10 ** -4.76
    x = optimize.brentq(lambda x: h * x - ka * (1 - x), 0, 1, xtol=1e-15)
    case("ionised-acid", {"ph": ph, "pka": 4.76}, x, "independent", "mass action solved by scipy brentq", 1e-9,
         "tolerance of the root finder")
    case("ionised-base", {"ph": ph, "pka": 4.76}, 1 - x, "independent", "mass action solved by scipy brentq", 1e-8,
         "tolerance of the root finder")
for protein in read("prot_mw_pi_charge.json")["proteins"]:
    for ph, charge in protein["charge_at_pH"].items():
        case("net-charge", {"sequence": protein["sequence"], "ph": float(ph)}, charge, "library",
             "Biopython 1.88 (prot_mw_pi_charge.json)", 1e-9, "same pKa set", absolute=True)
v = (2 / 9 * 0.08 * u.g / u.cm**3 * constants.g * u.m / u.s**2 * (3.5 * u.um) ** 2 / (1.2 * u.mPa * u.s)).to("um/s").magnitude
case("settling-speed", {"radius": 3.5, "density_particle": 1.08, "density_fluid": 1.0, "viscosity": 1.2}, v, "units", "pint",
     TINY, EXACT)
# Weight less buoyancy against drag 6*pi*eta*r*v, in newtons.
r, eta = 3.5e-6, 1.2e-3
v = optimize.brentq(lambda v: 4 / 3 * math.pi * r**3 * 80 * constants.g - 6 * math.pi * eta * r * v, 0, 1, xtol=1e-18)
case("settling-speed", {"radius": 3.5, "density_particle": 1.08, "density_fluid": 1.0, "viscosity": 1.2}, v * 1e6,
     "independent", "balance of forces solved by scipy brentq", 1e-8, "tolerance of the root finder")
x = optimize.brentq(lambda mm: 1.02 + 0.012 * mm / 10 - 1.065, 0, 100)
case("isopycnic-depth", {"density": 1.065, "density_top": 1.02, "gradient": 0.012}, x, "independent",
     "depth at which densities are equal, by scipy brentq", 1e-9, "tolerance of the root finder")
for p in read("sep_comet_metrics.json")["profiles"]:
    case("tail-moment", {"tail_percent": p["percent_tail_DNA"], "centre_tail": p["tail_centroid"],
                         "centre_head": p["head_centroid"]}, p["olive_tail_moment"], "closed-form", "sep_comet_metrics.json",
         TINY, EXACT)

# ---------------------------------------------------------------- transport and water
for row in table("transport_diffusion.csv"):
    case("diffusion-distance", {"diffusion": float(row["D_1e-9_m2_s"]) * 1000, "time": 60}, float(row["rms_1D_60s_um"]),
         "closed-form", "transport_diffusion.csv", 1e-9, "12 digits in the file")
    case("diffusion-coefficient", {"radius": float(row["stokes_radius_nm"]), "viscosity": float(row["viscosity_mPa_s"]),
                                   "temperature": float(row["T_K"]) - 273.15}, float(row["D_1e-9_m2_s"]) * 1000, "units",
         "transport_diffusion.csv (radius worked out in SI units)", 1e-9, EXACT)
D, t = 523.0, 100.0
second = integrate.quad(lambda x: x * x * math.exp(-x * x / (4 * D * t)) / math.sqrt(4 * math.pi * D * t), -np.inf, np.inf,
                        epsabs=1e-6, epsrel=1e-12)[0]
case("diffusion-distance", {"diffusion": D, "time": t}, math.sqrt(second), "independent",
     "second moment of the diffusion equation's solution, by scipy quad", 1e-9, "error of the integrator")
j = (500 * u.um**2 / u.s * (0.3 - 0.1) * u.mol / u.L / (120 * u.um)).to("nmol/(cm**2*s)").magnitude
case("flux", {"diffusion": 500, "c_high": 0.3, "c_low": 0.1, "thickness": 120}, j, "units", "pint", TINY, EXACT)
case("surface-to-volume", {"radius": 5.0},
     float(mpmath.diff(lambda r: mpmath.log(4 * mpmath.pi / 3 * r**3), 5)), "independent",
     "d(ln V)/dr of a sphere, by mpmath", 1e-12, EXACT)
kf = 0.002 * 78.5 / 65.4
case("leak-fraction", {"permeability": 0.002, "area": 78.5, "volume": 65.4, "time": 600},
     1 - ode(lambda t, y: -kf * y, 1.0, 600), "independent", "dn/dt = -PAc by scipy solve_ivp", 1e-8, INTEGRATED)
case("leak-by-ratio", {"permeability": 0.002, "ratio": 1.2, "time": 600},
     1 - ode(lambda t, y: -0.0024 * y, 1.0, 600), "independent", "dc/dt = -P(A/V)c by scipy solve_ivp", 1e-8, INTEGRATED)
p = (0.0001 * u.um / u.s + 0.0002 * u.um / u.s / (u.nmol / u.L) * 25 * u.nmol / u.L).to("um/s").magnitude
case("parallel-permeability", {"background": 0.0001, "per_pore": 0.0002, "pores": 25}, p, "units", "pint", TINY, EXACT)
c = (0.35 * 40 * u.mmol / u.L * 0.02).to("umol/L").magnitude
case("released-concentration", {"fraction": 0.35, "inside": 40, "volume_fraction": 0.02}, c, "units", "pint", TINY, EXACT)
c = ((1 - 0.35) * 40 * u.mmol / u.L * 0.02).to("umol/L").magnitude
case("retained-concentration", {"fraction": 0.35, "inside": 40, "volume_fraction": 0.02}, c, "units", "pint", TINY, EXACT)
share = (3e9 / u.mL * 4 / 3 * math.pi * (0.9 * u.um) ** 3).to("").magnitude
case("packed-volume", {"number": 3e9, "radius": 0.9}, share, "units", "pint", TINY, EXACT)
for mv, phi, tc in ((-180, 0.02, 25), (-60, 0.001, 37), (40, 0.1, 20)):
    ratio = math.exp(-F * mv / 1000 / (R * (tc + 273.15)))
    c = optimize.brentq(lambda out: (1 - phi) * out + phi * ratio * out - 5.0, 0, 1000, xtol=1e-14)
    case("nernst-partition", {"potential": mv, "total": 5, "volume_fraction": phi, "temperature": tc}, c, "independent",
         "mass balance solved by scipy brentq", 1e-9, "tolerance of the root finder")
case("total-solute", {"base": 0.1, "added": 0.25}, 0.35, "closed-form", "by hand", TINY, EXACT)
for row in table("water_solute_potential_vanthoff.csv"):
    case("solute-potential", {"particles": float(row["i"]), "concentration": float(row["C_mol_per_L"]),
                              "temperature": float(row["T_C"])}, float(row["psi_s_bar"]), "closed-form",
         "water_solute_potential_vanthoff.csv", 1e-10, "12 digits in the file")
measured = table("water_osmotic_sucrose_measured.csv")
for row in measured:
    molar, bars = float(row["molarity_20C"]), float(row["pi_from_osmolality_20C_bar"])
    case("sucrose-potential", {"concentration": molar, "temperature": 20}, -bars, "measured",
         "CRC Handbook freezing points (water_osmotic_sucrose_measured.csv): the law is a line through these", 0.02,
         "freezing points are rounded to 0.01 degree")
    if molar <= 0.2:
        case("solute-potential", {"particles": 1, "concentration": molar, "temperature": 20}, -bars, "measured",
             "CRC Handbook freezing points (water_osmotic_sucrose_measured.csv)", 0.06,
             "an ideal law for a real, dilute solution: sucrose binds water, which the ideal law leaves out")
for row in table("water_osmotic_sucrose_morse1914.csv"):
    molal = float(row["molality"])
    molar = float(np.interp(molal, [float(r["molality"]) for r in measured], [float(r["molarity_20C"]) for r in measured]))
    case("sucrose-potential", {"concentration": molar, "temperature": 20}, -float(row["pi_atm_measured"]) * 1.01325,
         "measured", "Morse 1914, osmotic pressure read directly (from memory; water_osmotic_sucrose_morse1914.csv)",
         0.07 if molal < 0.2 else 0.05, "another method at another temperature, least sure where the pressure is small, read from memory, molality turned into molarity between handbook rows")
case("water-potential", {"solute": -10, "pressure": 8}, -2, "closed-form", "by hand: a turgid cell", TINY, EXACT)
for row in read("water_cell_volume_dialysis.json")["boyle"]:
    case("relative-volume", {"inactive": row["b"], "osmolarity_iso": row["pi0_mOsm"] / 1000, "osmolarity": row["pi"] / 1000},
         row["V_over_V0"], "closed-form", "water_cell_volume_dialysis.json", TINY, EXACT)
for b, c0, c in ((0.4, 0.29, 0.2), (0.05, 0.2, 0.5)):
    # The inside keeps its solutes, in the volume they can enter, and ends as concentrated as the outside.
    v = optimize.brentq(lambda v: c0 * (1 - b) / (v - b) - c, b + 1e-9, 50, xtol=1e-14)
    case("relative-volume", {"inactive": b, "osmolarity_iso": c0, "osmolarity": c}, v, "independent",
         "equality of osmolarities solved by scipy brentq", 1e-9, "tolerance of the root finder")
for b, p0, p in ((0.0, -4.9, -7.4), (0.4, -7.2, -3.6)):
    # Water leaves until the potential inside, solutes over the volume they can enter, is that outside.
    v = optimize.brentq(lambda v: p0 * (1 - b) / (v - b) - p, b + 1e-9, 50, xtol=1e-14)
    case("volume-from-potential", {"inactive": b, "potential_iso": p0, "potential": p}, v, "independent",
         "equality of water potentials solved by scipy brentq", 1e-9, "tolerance of the root finder")
c = (40 * u.mmol / u.L * 2.0 * u.fL / (0.8 * u.fL)).to("mmol/L").magnitude
case("contained-concentration", {"start": 40, "relative_volume": 0.4}, c, "units", "pint: amount over volume", TINY, EXACT)
case("solids-fraction", {"start": 0.2, "relative_volume": 0.4}, 0.5, "closed-form", "by hand", TINY, EXACT)
for row in table("mem_nernst.csv"):
    case("nernst-potential", {"charge": float(row["z"]), "outside": float(row["out_mM"]), "inside": float(row["in_mM"]),
                              "temperature": float(row["T_C"])}, float(row["E_mV"]), "closed-form", "mem_nernst.csv", 1e-9,
         "12 digits in the file")
z, tk = 2, 310.15
e = optimize.brentq(lambda v: R * tk * math.log(1.8 / 0.0001) - z * F * v, -1, 1, xtol=1e-15) * 1000
case("nernst-potential", {"charge": 2, "outside": 1.8, "inside": 0.0001, "temperature": 37}, e, "independent",
     "equality of electrochemical potentials solved by scipy brentq", 1e-9, "tolerance of the root finder")


def ghk_current(p, z, out, inside, v, tk):
    """Flux of one ion in a constant field, from the Nernst-Planck equation."""
    x = z * F * v / (R * tk)
    return p * z * (x / -math.expm1(-x) if x else 1) * (inside - out * math.exp(-x))


for c in read("mem_ghk.json")["cases"]:
    pk, pna, pcl = c["P_K_Na_Cl"]
    (ko, ki), (nao, nai), (clo, cli) = (c["conc_out_in"][ion] for ion in ("K", "Na", "Cl"))
    tk = c["T_C"] + 273.15
    inputs = {"p_k": pk, "p_na": pna, "p_cl": pcl, "k_out": ko, "k_in": ki, "na_out": nao, "na_in": nai, "cl_out": clo,
              "cl_in": cli, "temperature": c["T_C"]}
    case("membrane-potential", inputs, c["V_mV"], "closed-form", "mem_ghk.json", 1e-10, EXACT)
    v = optimize.brentq(lambda v: ghk_current(pk, 1, ko, ki, v, tk) + ghk_current(pna, 1, nao, nai, v, tk)
                        + ghk_current(pcl, -1, clo, cli, v, tk), -0.2, 0.2, xtol=1e-15) * 1000
    case("membrane-potential", inputs, v, "independent",
         "the three constant-field currents add up to nought: solved by scipy brentq", 1e-8, "tolerance of the root finder")

# ---------------------------------------------------------------- enzymes and binding
puro = read("enz_puromycin_treated_fit.json")
for row in table("enz_puromycin_treated.csv"):
    case("michaelis-menten", {"vmax": puro["R_nls"]["params"]["Vm"]["estimate"], "km": puro["R_nls"]["params"]["K"]["estimate"],
                              "substrate": float(row["conc_ppm"])}, float(row["rate"]), "measured",
         "Treloar 1974 (enz_puromycin_treated.csv), parameters by R", 3 * 10.934,
         "three times the residual standard deviation that R gives (10.9)", absolute=True)
# Steady state of E + S = ES -> E + P by mass action: k1 s e = (k-1 + kcat) es.
k1, koff, kcat, e0, s = 10.0, 5.0, 15.0, 1e-3, 3.0
es = optimize.brentq(lambda es: k1 * s * (e0 - es) - (koff + kcat) * es, 0, e0, xtol=1e-18)
case("michaelis-menten", {"vmax": kcat * e0, "km": (koff + kcat) / k1, "substrate": s}, kcat * es, "independent",
     "steady state of the elementary steps by scipy brentq", 1e-8, "tolerance of the root finder")
for row in table("enz_inhibition.csv"):
    free, bound = float(row["Kic"]), float(row["Kiu"])
    case("mixed-inhibition", {"vmax": float(row["V"]), "km": float(row["Km"]), "substrate": float(row["s"]),
                              "inhibitor": float(row["I"]), "ki_free": free if free else "inf",
                              "ki_bound": bound if bound else "inf"}, float(row["v"]), "closed-form", "enz_inhibition.csv",
         1e-10, "12 digits in the file")
v = (600 / u.min * 25 * u.nmol / u.L * 0.9).to("umol/(L*min)").magnitude
case("maximum-rate", {"turnover": 600, "enzyme": 25, "active": 0.9}, v, "units", "pint", TINY, EXACT)
p = (12 * u.umol / u.L / u.min * 90 * u.s).to("umol/L").magnitude
case("product-formed", {"rate": 12, "time": 1.5}, p, "units", "pint", TINY, EXACT)
case("substrate-remaining", {"start": 500, "rate": 12, "time": 1.5}, 500 - p, "units", "pint", TINY, EXACT)
for row in table("enz_progress_curve.csv"):
    s0, vm, km, t = (float(row[k]) for k in ("S0", "Vmax", "Km", "t"))
    inputs = {"start": s0, "vmax": vm, "km": km, "time": t}
    case("substrate-left", inputs, float(row["S_t"]), "library", "scipy.special.lambertw (enz_progress_curve.csv)", 1e-9,
         "12 digits in the file")
    case("substrate-left", inputs, ode(lambda t, y: -vm * y / (km + y), s0, t), "independent",
         "dS/dt = -Vmax S/(Km + S) by scipy solve_ivp", 1e-7, INTEGRATED)
for row in table("enz_q10_arrhenius.csv"):
    k1, t1, k2, t2 = (float(row[k]) for k in ("rate1", "T1_C", "rate2", "T2_C"))
    case("q10", {"rate": k1, "q10": float(row["Q10"]), "from": t1, "to": t2}, k2, "closed-form", "enz_q10_arrhenius.csv", 1e-9,
         "12 digits in the file")
    case("arrhenius-ratio", {"activation": float(row["Ea_kJ_mol"]), "from": t1, "to": t2}, k2 / k1, "closed-form",
         "enz_q10_arrhenius.csv", 1e-9, "12 digits in the file")
for ea, t1, t2 in ((50, 20, 30), (80, 37, 5)):
    grown = integrate.quad(lambda T: ea * 1000 / (R * T * T), t1 + 273.15, t2 + 273.15, epsrel=1e-13)[0]
    case("arrhenius-ratio", {"activation": ea, "from": t1, "to": t2}, math.exp(grown), "independent",
         "d(ln k)/dT = Ea/RT2 by scipy quad", 1e-10, "error of the integrator")
for ph in (5.0, 7.5, 9.8):
    h, ka1, ka2 = 10 ** -ph, 1e-6, 1e-9
    # EH2 = EH + H (ka1), EH = E + H (ka2): three unknown shares, EH works.
    a = np.array([[ka1, -h, 0.0], [0.0, ka2, -h], [1.0, 1.0, 1.0]])
    share = float(np.linalg.solve(a, [0, 0, 1])[1])
    case("ph-activity", {"vmax": 100, "ph": ph, "pka_low": 6, "pka_high": 9}, 100 * share, "independent",
         "linear system of two protonations by numpy", 1e-9, "conditioning of the system")
case("inactivation", {"rate": 0.07, "time": 25}, ode(lambda t, y: -0.07 * y, 1.0, 25), "independent",
     "da/dt = -ka by scipy solve_ivp", 1e-8, INTEGRATED)
k = 0.01 * math.exp(integrate.quad(lambda T: math.log(6) / 10, 40, 52)[0])
case("heat-survival", {"rate": 0.01, "q10": 6, "from": 40, "to": 52, "time": 10}, ode(lambda t, y: -k * y, 1.0, 10),
     "independent", "da/dt = -k(T)a by scipy solve_ivp, k(T) by scipy quad", 1e-8, INTEGRATED)
for pka, base, acid, added in ((7.2, 10, 10, 4), (8.1, 50, 20, 15)):
    # Sodium and chloride as counter-ions, water's own ions counted: charges add up to nought.
    total, ka, kw = (base + acid) / 1000, 10 ** -pka, 1e-14
    ph = optimize.brentq(lambda ph: base / 1000 - added / 1000 + 10 ** -ph - kw / 10 ** -ph
                         - total * ka / (ka + 10 ** -ph), 0, 14, xtol=1e-13)
    case("buffer-ph", {"pka": pka, "base": base, "acid": acid, "added": added}, ph, "independent",
         "balance of charge with water's own ions, solved by scipy brentq", 2e-4,
         "the law leaves out H+ and OH-, here less than 0.01 % of the buffer", absolute=True)
vm = constants.physical_constants["molar volume of ideal gas (273.15 K, 100 kPa)"][0] * 1e6
case("gas-volume", {"amount_concentration": 1000, "liquid": 1000, "temperature": 0, "pressure": 100}, vm / 1000, "library",
     "CODATA molar volume as shipped in SciPy", 1e-8, "digits of the constant")
g = (1500 * u.umol / u.L * 20 * u.mL * R * u.J / u.mol / u.K * 295.15 * u.K / (101.3 * u.kPa)).to("mL").magnitude
case("gas-volume", {"amount_concentration": 1500, "liquid": 20, "temperature": 22, "pressure": 101.3}, g, "units", "pint",
     1e-9, "pint and SciPy agree on R to that")
for row in table("bind_ligand.csv"):
    P, L, kd = float(row["P_total"]), float(row["L_total"]), float(row["Kd"])
    case("tight-binding", {"total_ligand": L, "total_receptor": P, "kd": kd}, float(row["fraction_bound_exact"]) * P,
         "closed-form", "bind_ligand.csv", 1e-9, "12 digits in the file")
    case("hill", {"ligand": L, "half": kd, "n": 2}, float(row["hill_n2_fraction"]), "closed-form", "bind_ligand.csv", 1e-9,
         "12 digits in the file")
    c = optimize.brentq(lambda c: (P - c) * (L - c) - kd * c, 0, min(P, L), xtol=1e-16)
    case("tight-binding", {"total_ligand": L, "total_receptor": P, "kd": kd}, c, "independent",
         "mass action solved by scipy brentq", 1e-8, "tolerance of the root finder")
    f = optimize.brentq(lambda f: f + P * f / (kd + f) - L, 0, L, xtol=1e-16)
    case("free-ligand", {"total_ligand": L, "total_binder": P, "kd": kd}, f, "independent",
         "mass balance of the ligand solved by scipy brentq", 1e-8, "tolerance of the root finder")
x = optimize.brentq(lambda y: y / (1 - y) - (3.0 / 5.0) ** 2.5, 0, 1 - 1e-12, xtol=1e-15)
case("hill", {"ligand": 3, "half": 5, "n": 2.5}, x, "independent", "filled over empty = (L/K)^n solved by scipy brentq", 1e-9,
     "tolerance of the root finder")
case("share-of-total", {"fraction": 0.3, "total": 50}, (30 * u.percent * 50 * u.umol / u.L).to("umol/L").magnitude, "units",
     "pint", TINY, EXACT)
for row in table("resp_oxygen_severinghaus.csv"):
    p = float(row["pO2_torr"])
    case("oxygen-saturation", {"po2": p}, float(row["S_equation_pct"]) / 100, "closed-form", "resp_oxygen_severinghaus.csv",
         1e-9, "12 digits in the file")
    standard = float(row["S_standard_curve_pct_from_memory"]) / 100
    case("oxygen-saturation", {"po2": p}, standard, "measured",
         "standard curve of Severinghaus 1979, Table 1 (from memory; resp_oxygen_severinghaus.csv)", 0.0057,
         "the paper states 0.0055 for its equation, and the table has four digits", absolute=True)
    case("oxygen-saturation-hill", {"po2": p, "p50": 26.6, "n": 2.7}, float(row["S_hill_n2.7_P50_26.6_pct"]) / 100,
         "closed-form", "resp_oxygen_severinghaus.csv", 1e-9, "12 digits in the file")
    if 0.2 <= standard <= 0.9:
        case("oxygen-saturation-hill", {"po2": p, "p50": 26.6, "n": 2.7}, standard, "measured",
             "standard curve of Severinghaus 1979 (from memory)", 0.015,
             "one exponent for the middle of the curve: within 1.5 points between 20 and 90 %", absolute=True)

# Enzyme in its four forms at equilibrium with inhibitor and in steady state with substrate (Km stands for K in ES = E + S).
for vm, km, sub, inh, kc, ku in ((100, 2, 3, 1.5, 0.8, 4.0), (50, 0.5, 2, 3, 5, 1)):
    a = np.array([[sub, -km, 0, 0], [inh, 0, -kc, 0], [0, inh, 0, -ku], [1.0, 1, 1, 1]])  # E, ES, EI, ESI
    es = float(np.linalg.solve(a, [0, 0, 0, 1])[1])
    case("mixed-inhibition", {"vmax": vm, "km": km, "substrate": sub, "inhibitor": inh, "ki_free": kc, "ki_bound": ku}, vm * es,
         "independent", "shares of the enzyme's four forms by numpy", 1e-10, EXACT)
for q, t1, t2 in ((2.1, 20, 33), (2.8, 37, 4)):
    case("q10", {"rate": 5, "q10": q, "from": t1, "to": t2},
         5 * math.exp(integrate.quad(lambda T: math.log(q) / 10, t1, t2)[0]), "independent",
         "d(ln k)/dT = ln(Q10)/10 by scipy quad", 1e-10, "error of the integrator")

# ---------------------------------------------------------------- light and labels
for row in table("opt_beer_lambert.csv"):
    a = float(row["A"])
    case("absorbance", {"epsilon": float(row["eps_per_M_cm"]), "path": float(row["path_cm"]),
                        "concentration": float(row["c_uM"])}, a, "closed-form", "opt_beer_lambert.csv", 1e-9,
         "12 digits in the file")
    case("percent-transmittance", {"absorbance": a}, float(row["percent_T"]), "closed-form", "opt_beer_lambert.csv", 1e-9,
         "12 digits in the file")
    case("transmittance", {"absorbance": a}, float(row["percent_T"]) / 100, "closed-form", "opt_beer_lambert.csv", 1e-9,
         "12 digits in the file")
a = (6220 * u.L / u.mol / u.cm * 1 * u.cm * 100 * u.umol / u.L).to("").magnitude
case("absorbance", {"epsilon": 6220, "path": 1, "concentration": 100}, a, "units", "pint", TINY, EXACT)
for a in (0.3, 1.0):
    left = ode(lambda x, y: -a * math.log(10) * y, 1.0, 1.0)
    case("transmittance", {"absorbance": a}, left, "independent", "light lost layer by layer, by scipy solve_ivp", 1e-8,
         INTEGRATED)
    case("percent-transmittance", {"absorbance": a}, 100 * left, "independent",
         "light lost layer by layer, by scipy solve_ivp", 1e-8, INTEGRATED)
i = (400 * u.umol / u.m**2 / u.s * 35 * u.percent).to("umol/m**2/s").magnitude
case("attenuated-light", {"transmittance": 35, "lamp": 400}, i, "units", "pint", TINY, EXACT)
for row in table("opt_fret_sternvolmer.csv"):
    if row["kind"] == "fret_E_r_R0":
        case("energy-transfer", {"distance": float(row["x"]), "r0": float(row["param"])}, float(row["result"]), "closed-form",
             "opt_fret_sternvolmer.csv", 1e-9, "12 digits in the file")
    else:
        case("quenching", {"constant": float(row["param"]) / 1000, "quencher": float(row["x"]) * 1000},
             1 / float(row["result"]), "units", "opt_fret_sternvolmer.csv, worked in mol/L", 1e-9, "12 digits in the file")
# A lit dye of lifetime 1 gives off light at rate 1, and loses its energy to quencher at rate K(Q0 - q).
lit = integrate.quad(lambda t: math.exp(-(1 + 12 * (0.2 - 0.08)) * t), 0, np.inf, epsabs=1e-14, epsrel=1e-12)[0]
case("quenching-by-the-rest", {"constant": 12, "start": 0.2, "used": 0.08}, lit, "independent",
     "share of excitations given off as light, integrated over the dye's life by scipy quad", 1e-9, "error of the integrator")
for r in (3.0, 5.5, 8.0):
    # An excited donor of lifetime 1 loses its energy by itself or to the acceptor, at rate (R0/r)^6 times the first.
    k = (5.0 / r) ** 6
    given = integrate.quad(lambda t: k * math.exp(-(1 + k) * t), 0, np.inf, epsabs=1e-14, epsrel=1e-12)[0]
    case("energy-transfer", {"distance": r, "r0": 5.0}, given, "independent",
         "share of excitations passed on, integrated over the donor's life by scipy quad", 1e-9, "error of the integrator")
case("rigid-spacer", {"length": 20, "rise": 0.34, "linker": 1.5}, 20 * 0.34 + 1.5, "closed-form", "Python", TINY, EXACT)
case("donor-left", {"efficiency": 0.35, "unquenched": 90}, 58.5, "closed-form", "by hand", TINY, EXACT)
case("acceptor-glow", {"efficiency": 0.35, "full": 90}, 31.5, "closed-form", "by hand", TINY, EXACT)
case("two-state-mean", {"fraction": 0.25, "closed": 20, "open": 100}, float(np.average([20, 100], weights=[0.25, 0.75])),
     "library", "numpy weighted average", TINY, EXACT)
y = (250 / u.s / (u.umol / u.L / u.min) * 8 * u.nmol / u.mL / u.min).to("1/s").magnitude
case("light-yield", {"yield": 250, "rate": 8}, y, "units", "pint", TINY, EXACT)
for row in table("rad_half_lives.csv"):
    case("decay", {"start": 1, "half_life": float(row["half_life_d"]), "time": float(row["t_d"])},
         float(row["fraction_left_library"]), "library", "radioactivedecay 0.6.1 (rad_half_lives.csv)", 1e-12, EXACT)
case("dna-from-absorbance", {"a260": 0.42, "dilution_factor": 20}, 420, "closed-form", "by hand, handbook factor 50 ug/mL", TINY,
     EXACT)
case("recovery", {"plateau": 0.8, "rate": 0.05, "time": 30}, ode(lambda t, y: 0.05 * (0.8 - y), 0.0, 30), "independent",
     "dF/dt = k(F_end - F) by scipy solve_ivp", 1e-8, INTEGRATED)

# ---------------------------------------------------------------- nucleic acids and expression
from Bio import Restriction
from Bio.Seq import Seq
from Bio.SeqUtils import MeltingTemp as mt

SELF_PAIRING = ("AAAAATTTTTAAAAATTTTT", "GGGGGCCCCCGGGGGCCCCC", "GCGAATTCGC")
for row in table("na_melting_temperatures.csv"):
    s = row["sequence_5to3"]
    case("melting-short", {"sequence": s}, float(row["Tm_Wallace_C"]), "library", "Biopython 1.88 Tm_Wallace", 1e-12, EXACT)
    if str(Seq(s).reverse_complement()) != s:
        for na, total, column in ((50, 1000, "Tm_NN3_250nM_0nM_50mMNa_C"), (1000, 500, "Tm_NN3_250nM_250nM_1MNa_C")):
            case("melting", {"sequence": s, "sodium": na, "strand": total}, float(row[column]), "library",
                 "Biopython 1.88 DNA_NN3, saltcorr 5 (na_melting_temperatures.csv)", 0.01,
                 "Biopython takes R as 1.987, this library as 1.98720", absolute=True)
for s in SELF_PAIRING:
    tm = mt.Tm_NN(s, nn_table=mt.DNA_NN3, dnac1=250, dnac2=0, selfcomp=True, Na=50, saltcorr=5)
    case("melting", {"sequence": s, "sodium": 50, "strand": 250}, tm, "library",
         "Biopython Tm_NN, DNA_NN3, saltcorr 5, selfcomp", 0.01, "Biopython takes R as 1.987", absolute=True)
for example in read("na_santalucia1998.json")["examples"]:
    inputs = {"sequence": example["seq"], "sodium": 1000, "strand": 400}
    case("melting", inputs, example["dH"], "library", "Biopython tables (na_santalucia1998.json)", 1e-9, EXACT, "enthalpy")
    symmetric = str(Seq(example["seq"]).reverse_complement()) == example["seq"]
    case("melting", inputs, example["dS"] - 1.4 * symmetric, "library",
         "Biopython tables (na_santalucia1998.json), less 1.4 where the strand pairs with its own kind", 1e-9, EXACT, "entropy")
for tm, t, dh in ((55, 50, 200), (55, 62, 200), (70, 37, 150)):
    ln_k = integrate.quad(lambda T: dh * 1000 / (R * T * T), tm + 273.15, t + 273.15, epsrel=1e-13)[0]
    case("paired-fraction", {"melting": tm, "temperature": t, "enthalpy": dh}, 1 / (1 + math.exp(ln_k)), "independent",
         "van 't Hoff equation of melting from K = 1 at Tm, by scipy quad", 1e-9, "error of the integrator")
molar_percent = 1.133 * 10 / 45.04  # mol/L of formamide in each per cent by volume (density 1.133 g/mL, 45.04 g/mol)
case("formamide-melting", {"reference": 85, "formamide": 40}, 85 - 40 * molar_percent * (2.4 + 2.9) / 2, "measured",
     "Blake & Delcourt 1996: 2.4 to 2.9 degrees for each mol/L, the middle taken", 2.6,
     "the published range over base compositions is +-0.06 degrees a per cent", absolute=True)
lam = "".join(line.strip() for line in open("seq_lambda_NC_001416.fasta") if line[0] != ">")
puc = "".join(line.strip() for line in open("seq_pUC19_L09137.fasta") if line[0] != ">")
for enzyme, site, cut in (("HindIII", "AAGCTT", 1), ("EcoRI", "GAATTC", 1), ("PvuII", "CAGCTG", 3), ("HinfI", "GANTC", 1),
                          ("HaeII", "RGCGCY", 5)):
    cutter = getattr(Restriction, enzyme)
    inside = cutter.search(Seq(puc), linear=False)[0] + 1  # the ring opened two bases beyond a cut: within the site
    for start in (0, inside % len(puc)):
        turned = puc[start:] + puc[:start]
        lengths = sorted((len(piece) for piece in cutter.catalyse(Seq(turned), linear=False)), reverse=True)
        case("digest", {"sequence": turned, "site": site, "cut": cut, "topology": "circular"}, lengths, "library",
             f"Biopython Restriction.{enzyme}, pUC19 opened at base {start}", 0, "whole numbers")
c = (12000 * 2e9 / u.mL / u.avogadro_constant).to("nmol/L").magnitude
case("extract-concentration", {"molecules": 12000, "cells": 2e9}, c, "units", "pint", TINY, EXACT)
protein = ode(lambda t, p: 30 * 5 - math.log(2) / 40 * p, 0.0, 3000)
c = (protein / (u.avogadro_constant * 1) * 1.2e9 / u.mL).to("nmol/L").magnitude
case("extract-yield", {"transcripts": 30, "per_transcript": 5, "half_life": 40, "cells": 1.2e9}, c, "independent",
     "dp/dt = mk - (ln 2/T)p for 75 half-lives by scipy solve_ivp; moles by pint", 1e-7, INTEGRATED)
from Bio.SeqUtils import molecular_weight

rng = np.random.default_rng(11)
for n in (300, 2400):
    piece = "".join(rng.choice(list("ACGT"), size=n))
    c = (2 * 50 * u.ug / u.mL / (molecular_weight(piece, "DNA", double_stranded=True) * u.g / u.mol)).to("nmol/L").magnitude
    case("end-concentration", {"dna": 50, "length": n}, c, "library", "Biopython molecular_weight of a random double strand",
         0.06, "650 g/mol a base pair is a round value between free acid (618) and sodium salt (662)")
c = (0.02 / (1000 * u.dimensionless) / u.min / (u.nmol / u.L) * 5 * u.nmol / u.L * 10 * u.min).to("").magnitude * 1000
case("cuts-made", {"rate": 0.02, "nuclease": 5, "time": 10}, c, "units", "pint", TINY, EXACT)
rng = np.random.default_rng(20)
n, per_kb = 10000, 0.7
cuts = rng.binomial(n - 1, per_kb / 1000, size=20000)
case("mean-fragment-length", {"start": n, "cuts": per_kb}, float(n * len(cuts) / (cuts + 1).sum()), "independent",
     "20 000 molecules cut at random between base pairs (numpy, seed 20)", 0.01, "scatter of the drawing (0.3 %)")
for e, c in ((1.0, 10), (0.9, 25)):
    grown = 100.0
    for _ in range(c):
        grown += e * grown
    case("copies", {"start": 100, "efficiency": e, "cycles": c}, grown, "independent", "cycle by cycle", 1e-12, EXACT)
for row in table("na_qpcr.csv"):
    if row["E_target"] == "2" and row["E_ref"] == "2":
        case("fold-change", {"ct_target_treated": float(row["Ct_target_treat"]), "ct_ref_treated": float(row["Ct_ref_treat"]),
                             "ct_target_control": float(row["Ct_target_ctrl"]), "ct_ref_control": float(row["Ct_ref_ctrl"])},
             float(row["fold"]), "closed-form", "na_qpcr.csv (Pfaffl's form)", 1e-9, "12 digits in the file")
threshold, amounts = 1e9, {"tt": 840, "rt": 5000, "tc": 120, "rc": 4000}
ct = {k: optimize.brentq(lambda c: n * 2**c - threshold, 0, 60, xtol=1e-13) for k, n in amounts.items()}
case("fold-change", {"ct_target_treated": ct["tt"], "ct_ref_treated": ct["rt"], "ct_target_control": ct["tc"],
                     "ct_ref_control": ct["rc"]}, (840 / 5000) / (120 / 4000), "independent",
     "known amounts doubled until a threshold is reached (scipy brentq)", 1e-9, "tolerance of the root finder")
for row in table("na_meselson_stahl.csv")[1:]:
    case("hybrid-fraction", {"generations": float(row["generation"])}, float(row["semi_hybrid"]), "closed-form",
         "na_meselson_stahl.csv (exact fractions)", TINY, EXACT)
molecules = [("old", "old")]
for g in range(1, 7):
    molecules = [(strand, "new") for molecule in molecules for strand in molecule]
    case("hybrid-fraction", {"generations": g}, sum("old" in m for m in molecules) / len(molecules), "independent",
         "strands counted round by round", TINY, EXACT)
b, f, i, h, n = 0.1, 5.0, 12.0, 20.0, 2.0
bound = optimize.brentq(lambda y: y / (1 - y) - (i / h) ** n, 0, 1 - 1e-12, xtol=1e-15)
case("synthesis-rate", {"basal": b, "full": f, "inducer": i, "half": h, "n": n}, b * (1 - bound) + f * bound, "independent",
     "two states of the promoter, share by scipy brentq", 1e-9, "tolerance of the root finder")
beta = math.log(2) / 8
case("steady-level", {"synthesis": 2.5, "half_life": 8}, ode(lambda t, m: 2.5 - beta * m, 0.0, 600), "independent",
     "dm/dt = k - (ln 2/T)m for 75 half-lives by scipy solve_ivp", 1e-7, INTEGRATED)
beta = math.log(2) / 60
case("protein-level", {"transcripts": 12, "per_transcript": 4, "half_life": 60},
     ode(lambda t, p: 48 - beta * p, 0.0, 4000), "independent", "dp/dt = km - (ln 2/T)p for 67 half-lives by scipy solve_ivp",
     1e-7, INTEGRATED)
rate = math.log(2) / 120 * (1 + 15 / 10)
half = optimize.brentq(lambda t: ode(lambda s, y: -rate * y, 1.0, t) - 0.5, 1, 200, xtol=1e-9)
case("silenced-half-life", {"half_life": 120, "dose": 15, "half_dose": 10}, half, "independent",
     "both breakdowns integrated until half is left (scipy)", 1e-7, INTEGRATED)

# ---------------------------------------------------------------- heredity and evolution
for p in (0.5425, 0.1):
    pmf = stats.binom.pmf([0, 1, 2], 2, p)
    for name, value in zip(("homozygotes_q", "heterozygotes", "homozygotes_p"), pmf):
        case("hardy-weinberg", {"p": p}, float(value), "library", "scipy.stats.binom: two alleles drawn", 1e-12, EXACT, name)
for c in read("evo_selection.json")["cases"]:
    aa, ab, bb = c["w_AA_Aa_aa"]
    if aa:
        s, h = 1 - bb / aa, None
        h = (1 - ab / aa) / s if s else 0
        path = c["p_by_generation"]
        for now, after in list(zip(path, path[1:]))[:4]:
            case("selection-step", {"q": 1 - now, "s": s, "h": h}, 1 - after, "closed-form", "evo_selection.json", 1e-9,
                 "rounding of s and h")
for q, s, h in ((0.2, 0.3, 0.5), (0.6, -0.2, 1.4), (0.1, 1.0, 0.0)):
    # Every union of two gametes, weighted by its chance and its survival; then the alleles among survivors are counted.
    fitness = {0: 1, 1: 1 - h * s, 2: 1 - s}
    pool = [(i + j, (q if i else 1 - q) * (q if j else 1 - q)) for i in (0, 1) for j in (0, 1)]
    alive = [(n, chance * fitness[n]) for n, chance in pool]
    case("selection-step", {"q": q, "s": s, "h": h}, sum(n * w for n, w in alive) / (2 * sum(w for _, w in alive)),
         "independent", "alleles counted among the survivors of all unions", 1e-12, EXACT)
for row in table("gen_map_functions.csv"):
    case("recombination", {"map_distance": float(row["d_cM"])}, float(row["r_haldane"]), "closed-form",
         "gen_map_functions.csv (mpmath)", 1e-10, "12 digits in the file")
for cm in (20, 150):
    odd = sum(stats.poisson.pmf(k, cm / 100) for k in range(1, 60, 2))
    case("recombination", {"map_distance": cm}, float(odd), "independent",
         "chance of an odd number of crossovers, scipy.stats.poisson", 1e-10, EXACT)
from skbio import DNA
from skbio.sequence.distance import jc69

one = "ACGTACGTAC" * 4
two = list(one)
for place in (3, 17, 30):
    two[place] = "A" if two[place] != "A" else "C"
case("substitutions", {"p": 3 / 40}, float(jc69(DNA(one), DNA("".join(two)))), "library",
     "scikit-bio jc69 on 40 bases with 3 differences", 1e-10, EXACT)
for row in table("evo_jukes_cantor.csv"):
    case("substitutions", {"p": float(row["p_difference"])}, abs(float(row["d_JC69"])), "closed-form", "evo_jukes_cantor.csv",
         1e-9, "12 digits in the file")
for m, k in ((0.6, 0), (3, 3), (11.35, 4), (250, 260)):
    case("poisson", {"mean": m, "k": k}, float(stats.poisson.pmf(k, m)), "library", "scipy.stats.poisson", 1e-10,
         "rounding of ln k! for great k")
luria = read("evo_luria_delbruck.json")
case("mutations-per-culture", {"p0": luria["exp16"]["p0"]}, luria["exp16"]["m_minus_ln_p0"], "closed-form",
     "evo_luria_delbruck.json, experiment 16", 1e-12, EXACT)
m = optimize.brentq(lambda m: stats.poisson.pmf(0, m) - 0.55, 0, 10, xtol=1e-14)
case("mutations-per-culture", {"p0": 0.55}, m, "independent", "scipy.stats.poisson solved for the mean", 1e-9,
     "tolerance of the root finder")

# ---------------------------------------------------------------- growth, ecology, physiology
case("exponential-growth", {"start": 1000, "rate": 0.03, "time": 120}, ode(lambda t, y: 0.03 * y, 1000.0, 120), "independent",
     "dN/dt = rN by scipy solve_ivp", 1e-8, INTEGRATED)
fit = read("growth_carlson_yeast_fit.json")["derived"]
for row in table("growth_carlson_yeast.csv"):
    t = float(row["t_h"])
    inputs = {"start": fit["N0"], "capacity": fit["K"], "rate": fit["r_per_h"], "time": t}
    case("logistic-growth", inputs, float(row["biomass"]), "measured", "Carlson 1913 (growth_carlson_yeast.csv)", 3 * 3.485,
         "three times the residual standard deviation that R gives (3.5)", absolute=True)
    if t in (3, 8, 15):
        case("logistic-growth", inputs, ode(lambda t, y: fit["r_per_h"] * y * (1 - y / fit["K"]), fit["N0"], t), "independent",
             "dN/dt = rN(1 - N/K) by scipy solve_ivp", 1e-8, INTEGRATED)
for row in table("growth_cfu_dilution.csv"):
    case("colony-count", {"colonies": float(row["colonies"]), "dilution": float(row["total_dilution"]),
                          "volume": float(row["volume_mL"])}, float(row["cfu_per_mL"]), "closed-form",
         "growth_cfu_dilution.csv", 1e-10, "12 digits in the file")
cfu = (142 / (100 * u.uL * 1e-5)).to("1/mL").magnitude
case("colony-count", {"colonies": 142, "dilution": 1e-5, "volume": 0.1}, cfu, "units", "pint", TINY, EXACT)
for row in table("eco_mark_recapture.csv"):
    inputs = {"marked": float(row["M"]), "caught": float(row["C"]), "recaptured": float(row["R"])}
    case("mark-recapture-chapman", inputs, float(row["chapman"]), "closed-form", "eco_mark_recapture.csv", 1e-10,
         "12 digits in the file")
    if row["lincoln_petersen"] != "undefined":
        case("mark-recapture", inputs, float(row["lincoln_petersen"]), "closed-form", "eco_mark_recapture.csv", 1e-10,
             "12 digits in the file")
for c in read("eco_diversity.json")["communities"]:
    case("shannon", {"counts": c["counts"]}, c["shannon_H_ln"], "library", "scikit-bio 0.7.4 (eco_diversity.json)", 1e-12, EXACT)
    case("simpson", {"counts": c["counts"]}, c["simpson_1_minus_D"], "library", "scikit-bio 0.7.4 (eco_diversity.json)", 1e-12,
         EXACT)
for i in (0, 150, 1200):
    case("light-response", {"pmax": 25, "half": 200, "light": i, "respiration": 1.5}, 25 * i / (200 + i) - 1.5, "closed-form",
         "Python", TINY, EXACT)
g = ((9.6 - 6.3) * u.mg / u.L / (1 * u.day)).to("mg/L/h").magnitude
case("gross-productivity", {"light_end": 9.6, "dark_end": 6.3, "time": 24}, g, "units", "pint", TINY, EXACT)
rye = read("dose_ryegrass_fit.json")
for row in table("dose_ryegrass.csv"):
    case("dose-response", {"bottom": rye["scipy"]["c"], "top": rye["scipy"]["d"], "ec50": rye["scipy"]["e_ED50"],
                           "slope": -rye["scipy"]["b"], "dose": float(row["dose_mM"])}, float(row["root_cm"]), "measured",
         "ryegrass roots, Inderjit et al. 2002 (dose_ryegrass.csv)", 3 * 0.52,
         "three times the residual standard deviation of the fit (0.52)", absolute=True)
for dose, level in zip(rye["ED10_ED90"], (0.9, 0.1)):
    case("dose-response", {"bottom": 0, "top": 1, "ec50": rye["scipy"]["e_ED50"], "slope": -rye["scipy"]["b"], "dose": dose},
         level, "closed-form", "ED10 and ED90 in dose_ryegrass_fit.json", 1e-9, EXACT)
rho = ((0.3 * u.mL * 1.4 * u.g / u.mL + 0.7 * u.mL * 1.0 * u.g / u.mL) / u.mL).to("g/cm**3").magnitude
case("composite-density", {"fraction_dry": 0.3, "density_dry": 1.4, "density_water": 1.0}, rho, "units",
     "pint: masses over volume", TINY, EXACT)

# ---------------------------------------------------------------- statistics
plant = read("stat_plantgrowth.json")
for name, values in plant["data"].items():
    desc = plant["R"].get(f"plantgrowth_desc_{name}", {})
    mean, sd, sem = float(np.mean(values)), float(np.std(values, ddof=1)), float(stats.sem(values))
    for law, value in (("mean", mean), ("sd", sd), ("sem", sem)):
        case(law, {"values": values}, value, "library", "numpy and scipy.stats on PlantGrowth (Dobson 1983)", 1e-12, EXACT)
    for output, value in (("half_width", 2 * sem), ("low", mean - 2 * sem), ("high", mean + 2 * sem)):
        case("interval", {"values": values}, value, "library", "scipy.stats.sem on PlantGrowth", 1e-12, EXACT, output)
TEN = "R prints ten digits"
for law, key, (a, b) in (("t-test-pooled", "plantgrowth_ctrl_vs_trt1_pooled", ("ctrl", "trt1")),
                         ("t-test-pooled", "plantgrowth_ctrl_vs_trt2_pooled", ("ctrl", "trt2")),
                         ("t-test", "plantgrowth_trt1_vs_trt2_welch", ("trt1", "trt2"))):
    for output in ("t", "df", "p"):
        case(law, {"a": plant["data"][a], "b": plant["data"][b]}, plant["R"][key][output], "library",
             "R 4.2.2 (stat_plantgrowth.json)", 1e-8, TEN, output)
sleep = read("stat_sleep.json")
for law, key in (("t-test-paired", "sleep_paired"), ("t-test", "sleep_welch"), ("t-test-pooled", "sleep_pooled")):
    for output in ("t", "df", "p"):
        case(law, {"a": sleep["group1"], "b": sleep["group2"]}, sleep["R"][key][output], "library",
             "R 4.2.2 (stat_sleep.json)", 1e-8, TEN, output)
for row in table("gen_mendel_monohybrid.csv"):
    seen = [float(row["dominant"]), float(row["recessive"])]
    hoped = [sum(seen) * 0.75, sum(seen) * 0.25]
    for output, key in (("chi_square", "chisq_3to1"), ("p", "p")):
        case("chi-square", {"observed": seen, "expected": hoped, "removed": 0}, float(row[key]), "library",
             "scipy.stats.chisquare (gen_mendel_monohybrid.csv)", 1e-9, EXACT, output)
mn = read("gen_hardy_weinberg_MN.json")
for output, key in (("chi_square", "chisq"), ("df", "df"), ("p", "p_value")):
    case("chi-square", {"observed": list(mn["observed"].values()), "expected": mn["expected"], "removed": 1}, mn[key], "library",
         "scipy.stats.chi2 (gen_hardy_weinberg_MN.json)", 1e-9, EXACT, output)
di = read("gen_mendel_dihybrid.json")
for output, value in (("chi_square", di["R"]["chisq"]), ("p", di["R"]["p"])):
    case("chi-square", {"observed": di["observed"], "expected": di["R"]["expected"], "removed": 0}, value, "library",
         "R chisq.test (gen_mendel_dihybrid.json)", 1e-8, TEN, output)
women = read("stat_regression_women.json")
for output, key in (("slope", "slope"), ("intercept", "intercept"), ("r_squared", "r_squared")):
    case("line", {"x": women["x_height_in"], "y": women["y_weight_lb"]}, women["R"][key], "library",
         "R 4.2.2 lm (stat_regression_women.json)", 1e-8, TEN, output)


def nist(name):
    """Readings and values from the lines that the file names."""
    rows = []
    for line in open(name).read().split("Data:")[-1].splitlines()[1:]:
        try:
            rows.append([float(part) for part in line.split()])
        except ValueError:
            continue
    return [row for row in rows if len(row) == 2]


def certified(name):
    return read(name)["certified"]


pairs = nist("nist_Norris.dat")
norris = read("nist_Norris.json")
SIX = "at least six digits of a certified value"
y, x = [p[0] for p in pairs], [p[1] for p in pairs]
flat = json.dumps(norris)
case("line", {"x": x, "y": y}, 1.00211681802045, "certified", "NIST StRD Norris (nist_Norris.dat)", 1e-9, SIX, "slope")
case("line", {"x": x, "y": y}, -0.262323073774029, "certified", "NIST StRD Norris (nist_Norris.dat)", 1e-7, SIX, "intercept")
pairs = nist("nist_Misra1a.dat")
y, x = [p[0] for p in pairs], [p[1] for p in pairs]
b1, b2 = certified("nist_Misra1a.json")
case("plateau-fit", {"x": x, "y": y}, b2, "certified", "NIST StRD Misra1a", 1e-7, SIX, "rate")
case("plateau-fit", {"x": x, "y": y}, b1, "certified", "NIST StRD Misra1a", 1e-7, SIX, "plateau")
case("plateau-fit", {"x": x, "y": y}, read("nist_Misra1a.json")["certified_residual_sd"], "certified", "NIST StRD Misra1a", 1e-7,
     SIX, "residual_sd")
pairs = nist("nist_Misra1d.dat")
y, x = [p[0] for p in pairs], [p[1] for p in pairs]
b1, b2 = certified("nist_Misra1d.json")
case("michaelis-menten-fit", {"substrate": x, "rate": y}, b1, "certified", "NIST StRD Misra1d (Vmax = b1, Km = 1/b2)", 1e-7, SIX,
     "vmax")
case("michaelis-menten-fit", {"substrate": x, "rate": y}, 1 / b2, "certified", "NIST StRD Misra1d", 1e-7, SIX, "km")
rows = table("enz_puromycin_treated.csv")
inputs = {"substrate": [float(r["conc_ppm"]) for r in rows], "rate": [float(r["rate"]) for r in rows]}
for output, value in (("vmax", puro["R_nls"]["params"]["Vm"]["estimate"]), ("km", puro["R_nls"]["params"]["K"]["estimate"]),
                      ("residual_sd", puro["R_nls"]["residual_std_error"])):
    case("michaelis-menten-fit", inputs, value, "library", "R 4.2.2 nls (enz_puromycin_treated_fit.json)", 1e-6,
         "R stops at a relative change of 1e-5 of its own measure; the two fits of the file differ by as much", output)
x, y = [0, 1, 2, 3, 5, 8], [10.2, 15.9, 27.4, 44.1, 121.0, 548.0]
(k, a), _ = optimize.curve_fit(lambda x, k, a: a * np.exp(k * x), x, y, p0=(0.5, 10), xtol=1e-14, ftol=1e-14)
case("exponential-fit", {"x": x, "y": y}, float(k), "library", "scipy.optimize.curve_fit", 1e-7, "where SciPy stops", "rate")
case("exponential-fit", {"x": x, "y": y}, float(a), "library", "scipy.optimize.curve_fit", 1e-7, "where SciPy stops", "start")
x, y = [0, 10, 20, 30, 45, 60], [1000, 640, 395, 262, 120, 71]
(k, a), _ = optimize.curve_fit(lambda x, k, a: a * np.exp(k * x), x, y, p0=(-0.04, 1000), xtol=1e-14, ftol=1e-14)
case("exponential-fit", {"x": x, "y": y}, float(k), "library", "scipy.optimize.curve_fit", 1e-7, "where SciPy stops", "rate")

layers = 2000
light = 100.0
for _ in range(layers):
    light -= light * math.log(10) * 21000 * 30e-6 / layers
case("solution-transmittance", {"epsilon": 21000, "path": 1, "concentration": 30}, light, "independent",
     "light lost layer by layer in 2000 layers", 1e-3, "thickness of a layer")

# ---------------------------------------------------------------- units
UNITS = []
PINT = {"umol/(L.min)": "umol/L/min", "cm2/(V.s)": "cm**2/V/s", "mm[Hg]": "mmHg", "g/cm4": "g/cm**4", "um2/s": "um**2/s",
        "nmol/(cm2.s)": "nmol/cm**2/s", "J/(mol.K)": "J/mol/K", "L.bar/(mol.K)": "L*bar/mol/K", "cal/(mol.K)": "cal/mol/K",
        "mPa.s": "mPa*s", "Cel": "degC", "m2/(V.s)": "m**2/V/s", "mol/m3": "mol/m**3", "kcal/mol": "kcal/mol", "d": "day",
        "a": "year", "h": "hour", "u": "unified_atomic_mass_unit", "kDa": "kilodalton", "[e]": "elementary_charge",
        "1/um": "1/um", "%": "percent", "mg/(L.h)": "mg/L/hour", "umol/(m2.s)": "umol/m**2/s", "1": "", "g/cm3": "g/cm**3",
        "kg/m3": "kg/m**3", "U": "umol/min", "nkat": "nkat", "mL/min": "mL/min", "V/cm": "V/cm", "kV/m": "kV/m"}
for value, one, two in ((3.7, "umol/(L.min)", "nkat/mL"), (2.55e-4, "cm2/(V.s)", "m2/(V.s)"), (26.6, "mm[Hg]", "kPa"),
                        (0.012, "g/cm4", "kg/m4"), (523, "um2/s", "cm2/s"), (100, "nmol/(cm2.s)", "mol/(m2.s)"),
                        (8.314, "J/(mol.K)", "L.bar/(mol.K)"), (8.314, "J/(mol.K)", "cal/(mol.K)"), (0.89, "mPa.s", "Pa.s"),
                        (37, "Cel", "K"), (300, "K", "Cel"), (140, "mmol/L", "mol/m3"), (14.3, "d", "h"), (5730, "a", "d"),
                        (14.3, "kDa", "g"), (3, "[e]", "C"), (35, "%", "1"), (0.14, "mg/(L.h)", "ug/(mL.min)"),
                        (400, "umol/(m2.s)", "mol/(m2.h)"), (1.08, "g/cm3", "kg/m3"), (2, "U", "nkat"), (5, "V/cm", "kV/m"),
                        (-7.4, "bar", "MPa"), (1, "atm", "mm[Hg]"), (0.3, "kcal/mol", "kJ/mol"), (1, "eV", "J")):
    def to_pint(code):
        return PINT.get(code) or code.replace("(", "*(").replace(".", "*").replace("/*(", "/(").replace("4", "**4") \
            .replace("3", "**3").replace("2", "**2")
    if one == "Cel" or two == "Cel":
        expected = u.Quantity(value, to_pint(one)).to(to_pint(two)).magnitude
    else:
        expected = (value * u(to_pint(one))).to(to_pint(two)).magnitude
    UNITS.append({"value": value, "from": one, "to": two, "expected": float(expected)})

versions = {name: meta.version(name) for name in ("numpy", "scipy", "biopython", "scikit-bio", "pint", "mpmath")}
json.dump({"_meta": {"what": "values for the laws and units from outside the project", "how": "cases.py",
                     "versions": {"python": platform.python_version(), **versions},
                     "licence": "computed values and published readings: facts"},
           "cases": CASES, "units": UNITS}, open("cases.json", "w"), indent=1)
print(len(CASES), "cases,", len({c["law"] for c in CASES}), "laws")
