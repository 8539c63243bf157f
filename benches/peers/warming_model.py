"""The warming run of docs/guides/model.md, "The model of a warming run", written a second time in Python.

Written from that text and from the doc comments of the published correlations, not from the C# code of the run, so that the
two can disagree. SI units throughout; temperatures in degC inside, K where a key says so. Shared by reference_warming.py
(expected values) and scipy_warming.py (timing peer).

Where the text leaves something open, the choice made here stands in CHOICES, which goes into the header of expected.json.
"""
import math
from math import cbrt, exp, log, pi, sqrt

import numpy as np
from scipy.optimize import brentq
from scipy.sparse import csc_matrix

CHOICES = {
    "1 disc films": "length of top and floor: area over perimeter of a disc of the outside diameter 2 r_o",
    "2 forced part of discs": "Churchill & Bernstein by 2 r_o, at the disc's own film temperature",
    "3 lid": "a closed lid's R_w is its air gap alone, the wall's layers are not added; emissivity that of the vessel, also for an open surface",
    "4 wall difference": "T_w in E is one per face, from the face's mean T and k like T_s; faces with a film count, by area; the element is not a face: it has an E of its own, and the larger counts",
    "5 heater without limit": "the body's own heat capacity takes no heat, on a ramp either",
    "6 probe with lag": "starts at what it senses",
    "7 crystals gone": "1 % of the crystals at the start, for the viscosity's target as well",
    "8 worst honey": "the cell with most HMF, and the cell with least diastase",
    "9 sensor": "the row or cell in which the place lies, nearest cell at the end; on a wall that body and room share, the mean by area",
    "10 hysteresis 0": "on a ramp what holds the body includes its own heat capacity",
}

G0 = 9.80665
SIGMA = 5.670374419e-8
P_ATM = 101325.0
R_GAS = 8.31446261815324
L_MELT = 108.4e3
LID_GAP = 1 / 6.0
ELEMENT_STIRRED = 100.0
STOPS_STIRRING = 0.05
U_SCALE = 2000.0              # J/kg per unit of the integrator's unknown, so that it is roughly a temperature
J01 = 2.404826
NONE, FIXED, SIDE, TOP, FLOOR = "none", "fixed", "side", "top", "floor"


# ---------------------------------------------------------------- properties of honey, moisture w in % by mass, t in degC
class Honey:
    def __init__(self, b):
        w = b["moisturePercent"]
        self.w, self.lot = w, b.get("lotFactor", 1.0)
        self.T0 = 187.31 - 3.7019 * (w - 17.0)
        self.rho20 = 998.2 * (1.42347 - 0.0063017 * (w - 17.0) - 0.00020097 * (w - 17.0) ** 2)
        solids = 100.0 - w
        self.a, self.b = 4186.8 - 25.1 * solids, 0.075 * solids
        self.lam_factor = 0.46 + 0.54 * w / 100.0
        self.helvey = b.get("conductivity", "riedel") == "helvey"
        self.arrhenius = b.get("viscosity", "vogel") == "arrhenius"

    def mu(self, t):
        T = t + 273.15
        if self.arrhenius:
            return self.lot * exp(2.1201 + 9595.2 * (1 / T - 1 / 298.15) - 0.4296 * (self.w - 17))
        return self.lot * exp(-11.0449 + 1449.73 / (T - self.T0))

    def rho(self, t):
        x = t - 20.0
        return self.rho20 - 0.538 * x - 0.00094 * x * x

    def beta(self, t):
        return (0.538 + 0.00188 * (t - 20.0)) / self.rho(t)

    def c(self, t):
        return self.a + self.b * t

    def lam(self, t):
        if self.helvey:
            return 0.536 + (t - 21.0) / 50.0 * (0.595 - 0.536)
        return 1.73e-3 * (326.58 + 1.0412 * t - 0.00337 * t * t) * self.lam_factor

    def e(self, t):
        return self.a * t + self.b * t * t / 2

    def e_inverse(self, e):
        return 2 * e / (self.a + np.sqrt(self.a * self.a + 2 * self.b * e))


# ---------------------------------------------------------------- air and films
def air(T):
    """Density, viscosity, conductivity, heat capacity of air at T in K."""
    root = T * sqrt(T)
    return (P_ATM / (287.053 * T), 1.458e-6 * root / (T + 110.4),
            2.64638e-3 * root / (T + 245.4 * 10 ** (-12 / T)), 1007.0)


def air_film(kind, ts, tenv, height, diameter, emissivity, speed):
    """Convection and radiation between a surface at ts and air at tenv, both degC; W/(m2 K)."""
    Ts, Ta = ts + 273.15, tenv + 273.15
    Tf = (Ts + Ta) / 2
    rho, mu, lam, cp = air(Tf)
    nu, a, pr = mu / rho, lam / (rho * cp), mu * cp / lam
    length = height if kind == SIDE else diameter / 4
    ra = G0 / Tf * abs(Ts - Ta) * length ** 3 / (nu * a)
    if kind == SIDE:
        nusselt = (0.825 + 0.387 * ra ** (1 / 6) / (1 + (0.492 / pr) ** (9 / 16)) ** (8 / 27)) ** 2
    elif (kind == TOP) == (Ts > Ta):
        nusselt = max(0.54 * ra ** 0.25, 0.15 * cbrt(ra))
    else:
        nusselt = 0.27 * ra ** 0.25
    h = nusselt * lam / length
    if speed > 0:
        re = speed * diameter / nu
        forced = 0.3 + 0.62 * sqrt(re) * cbrt(pr) / (1 + (0.4 / pr) ** (2 / 3)) ** 0.25 * (1 + (re / 282000) ** 0.625) ** 0.8
        forced *= lam / diameter
        h = cbrt(h ** 3 + forced ** 3)
    return h + emissivity * SIGMA * (Ts * Ts + Ta * Ta) * (Ts + Ta)


# ---------------------------------------------------------------- damage rates
HMF_LAWS = {"hmf-20-70": (1.1716e20, 128570.0), "hmf-30-70": (1.1319e21, 134770.0)}


def hmf_rate(law, t):
    """mg/(kg s), floral multiplier 1; t an array in degC."""
    pre, act = HMF_LAWS[law]
    return pre / 3600 * np.exp(-act / R_GAS / (t + 273.15))


def hmf_low(law, t):
    k75 = hmf_rate(law, np.float64(75.0))
    k = hmf_rate(law, t)
    return np.where(t <= 75.0, 0.59 * k, np.maximum(0.59 * k75, k / 4))


def hmf_high(law, t):
    return np.where(t <= 75.0, 1.95, 4.0) * hmf_rate(law, t)


def diastase_rate(t):
    return log(2) / 3600 * np.exp(50.0342 - 17739.15 / (t + 273.15))


# ---------------------------------------------------------------- faces of the honey
class Face:
    """Cells, their areas times the share s, film, wall, half cell."""

    def __init__(self, name, cells, areas, body, film, wall, widen, half):
        keep = areas > 0
        self.name, self.cells, self.w = name, cells[keep], areas[keep]
        self.body, (self.kind, self.fixed, self.speed) = body, film
        self.wall, self.widen, self.half = wall, widen, half
        self.area = float(self.w.sum())
        self.share = self.w / self.area if self.area > 0 else self.w


class Model:
    def __init__(self, b, fixed_film=None):
        self.b = b
        self.hon = h = Honey(b)
        v, kit = b["vessel"], b["kit"]
        self.inside = b.get("inside", "best-estimate")
        self.mixed = self.inside == "well-mixed"
        nr, nz = (1, 1) if self.mixed else (b["radialCells"], b["axialCells"])
        self.nr, self.nz, self.n = nr, nz, nr * nz
        H = v["levelM"]
        volume = self.volume(v)
        R = sqrt(volume / (pi * H))
        self.R, self.H = R, H
        dr, dz = R / nr, H / nz
        edge = np.linspace(0, R, nr + 1)
        ring = pi * (edge[1:] ** 2 - edge[:-1] ** 2)
        t0 = b["startTemperatureK"] - 273.15
        self.t_start = t0
        self.m = np.tile(h.rho(t0) * ring * dz, nz)          # index = row * nr + ring
        self.mass = float(self.m.sum())
        self.N = b.get("vessels", 1)
        self.h_k = (volume / (2 * pi * R * R + 2 * pi * R * H)) * (J01 ** 2 / R ** 2 + pi ** 2 / H ** 2)   # over lambda

        # crystals
        x = b.get("crystals")
        self.x0 = x["share"] if x else 0.0
        if self.x0 > 0:
            self.t_from, self.t_to = x["meltFromK"] - 273.15, x["meltToK"] - 273.15
            self.lx = L_MELT * self.x0
            self.u_from, self.u_to = h.e(self.t_from), h.e(self.t_to) + self.lx
            self.slope = self.lx / (self.t_to - self.t_from)
        # neighbours
        i, j = np.meshgrid(np.arange(nr), np.arange(nz))
        idx = j * nr + i
        self.rl, self.rr = idx[:, :-1].ravel(), idx[:, 1:].ravel()
        self.rg = np.tile(2 * pi * edge[1:-1] * dz / dr, nz)
        self.al, self.au = idx[:-1, :].ravel(), idx[1:, :].ravel()
        self.ag = np.tile(ring / dz, max(nz - 1, 0))

        # walls
        ro, side_wall, plane_wall = R, 0.0, 0.0
        for layer in v["wall"]:
            side_wall += R / layer["conductivityWPerMK"] * log((ro + layer["thicknessM"]) / ro)
            plane_wall += layer["thicknessM"] / layer["conductivityWPerMK"]
            ro += layer["thicknessM"]
        self.ro = ro
        self.emissivity = v["emissivity"]

        # contacts of the kit
        still = lambda kind: (kind, 0.0, 0.0)
        water = lambda c: (FIXED, c, 0.0)
        rack = v["base"] == "rack"
        in_air = still(FLOOR) if rack else still(NONE)
        kind = kit["kind"]
        top, top_body, floor, floor_body, lo, hi, body_film = still(TOP), False, in_air, False, 0.0, 0.0, still(NONE)
        element = None
        if kind == "warm-air":
            speed = kit["airSpeedMPerS"]
            body_film, lo, hi = (SIDE, 0.0, speed), 0.0, math.inf
            floor, floor_body = (in_air[0], 0.0, speed), True
            top, top_body = (TOP, 0.0, speed), True
        elif kind == "bath":
            body_film, hi = water(kit["coefficientWPerM2K"]), kit["waterLevelM"]
            floor, floor_body = (body_film if rack else still(NONE)), True
        elif kind == "jacket":
            body_film, lo, hi = water(kit["coefficientWPerM2K"]), kit["fromM"], kit["toM"]
            if kit["heatsFloor"]:
                floor, floor_body = body_film, True
        elif kind == "band":
            body_film, lo, hi = water(kit["coefficientWPerM2K"]), kit["fromM"], kit["toM"]
        elif kind == "immersion":
            element = kit
        else:
            raise ValueError(kind)
        z = np.arange(nz) * dz
        s = np.clip(np.minimum(z + dz, hi) - np.maximum(z, lo), 0, dz) / dz
        s = np.where(s > 1 - 1e-12, 1.0, np.where(s < 1e-12, 0.0, s))
        half_r, half_z = (0.0, 0.0) if self.mixed else (dr / 2, dz / 2)
        side_cells, side_area = idx[:, -1], np.full(nz, 2 * pi * R * dz)
        faces = [
            Face("side-body", side_cells, side_area * s, True, body_film, side_wall, ro / R, half_r),
            Face("side-room", side_cells, side_area * (1 - s), False, still(SIDE), side_wall, ro / R, half_r),
            Face("floor", idx[0], ring.copy(), floor_body, floor, plane_wall, 1.0, half_z),
        ]
        if v["lid"] == "insulated":
            top = still(NONE)
        faces.append(Face("top", idx[-1], ring.copy(), top_body, top, LID_GAP if v["lid"] == "closed" else 0.0, 1.0, half_z))
        self.faces = [f for f in faces if f.kind != NONE and f.area > 0]
        self.adiabatic = np.concatenate([f.cells for f in faces if f.kind == NONE and f.area > 0] or [[]]).astype(int)
        if fixed_film is not None:
            for f in self.faces:
                f.kind, f.fixed = FIXED, fixed_film
        self.face_area = sum(f.area for f in self.faces)
        self.el = None
        if element:
            length = np.clip(np.minimum(z + dz, element["toM"]) - np.maximum(z, element["fromM"]), 0, dz)
            re = element["radiusM"]
            self.el_cells = idx[:, 0][length > 0]
            length = length[length > 0]
            self.el_radius, self.el_length = re, float(length.sum())
            self.el = ELEMENT_STIRRED * 2 * pi * re * length if self.mixed else 2 * pi * length / log(1 + dr / (2 * re))

        # body and thermostat
        self.t_room = b["roomTemperatureK"] - 273.15
        self.power = kit.get("heaterW")
        self.Cb = kit["bodyHeatCapacityJPerK"]
        self.K = kit["lossAreaM2"] * kit["lossCoefficientWPerM2K"]
        th = kit["thermostat"]
        self.steps = [(s["atS"], s["setpointK"] - 273.15, s.get("ramp", False)) for s in th["schedule"]]
        self.hysteresis = th["hysteresisK"]
        self.cut_out = None if th.get("cutOutK") is None else th["cutOutK"] - 273.15
        self.lag = th["lagS"]
        self.sensor = th["sensor"]
        self.sensor_row = min(int(th["sensorHeight"] * nz), nz - 1)
        self.sensor_cell = self.sensor_row * nr + min(int(th["sensorRadius"] * nr), nr - 1)
        start = kit.get("bodyStartK")
        self.body_start = self.t_room if start is None else start - 273.15
        self.law = b.get("law", "hmf-20-70")
        self.floral = b.get("floralMultiplier", 1.0)
        self.guess = [10.0] * len(self.faces), 1.0
        self.spread = sqrt(12.0) if b.get("includeFloralSpread", False) else 1.0

    @staticmethod
    def volume(v):
        if v["shape"] == "upright-cylinder":
            return pi / 4 * v["diameterM"] ** 2 * v["levelM"]
        if v["shape"] == "rectangular":
            return v["lengthM"] * v["widthM"] * v["levelM"]
        raise ValueError(v["shape"])

    # ---- setpoint: piecewise, a ramp runs evenly from the step before to its own time
    def setpoint(self, t, right=True):
        sp = self.steps[0][1]
        for k, (at, value, ramp) in enumerate(self.steps):
            if at < t or (at == t and right) or k == 0:
                sp = value
            elif ramp:
                at0, v0, _ = self.steps[k - 1]
                return v0 + (value - v0) * (t - at0) / (at - at0)
            else:
                return sp
        return sp

    def setpoint_slope(self, t):
        """Slope after t."""
        for k in range(1, len(self.steps)):
            at0, v0, _ = self.steps[k - 1]
            at, v, ramp = self.steps[k]
            if at0 <= t < at:
                return (v - v0) / (at - at0) if ramp else 0.0
        return 0.0

    # ---- enthalpy to temperature; u = U/m in J/kg, top its highest value so far
    def melted(self, u):
        d = self.slope
        a = self.hon.a + d
        c = np.clip(u, self.u_from, self.u_to) + d * self.t_from
        t = 2 * c / (a + np.sqrt(a * a + 2 * self.hon.b * c))
        return np.clip((t - self.t_from) / (self.t_to - self.t_from), 0, 1)

    def temperatures(self, u, top):
        """Temperature, melted share, dT/du of every cell."""
        if self.x0 == 0:
            t = self.hon.e_inverse(u)
            return t, None, 1 / (self.hon.a + self.hon.b * t)
        F = self.melted(np.maximum(u, top))
        t = self.hon.e_inverse(u - self.lx * F)
        c = self.hon.a + self.hon.b * t
        c = np.where((u >= top) & (u > self.u_from) & (u < self.u_to), c + self.slope, c)
        return t, F, 1 / c

    def start_u(self):
        t = self.t_start
        u = self.hon.e(t)
        if self.x0 > 0:
            u += self.lx * min(max((t - self.t_from) / (self.t_to - self.t_from), 0), 1)
        return np.full(self.n, u)

    # ---- films and enhancement together
    def closures(self, t, F, tb):
        """Conductivities, conductances of the face cells, inside surfaces, E and the films."""
        hon = self.hon
        lam = hon.lam(t)
        if F is None:
            omega = None
            liquid = self.mass
            tl = float(self.m @ t) / liquid
        else:
            omega = np.clip(1 - self.x0 * (1 - F) / STOPS_STIRRING, 0, 1)
            mw = self.m * omega
            liquid = float(mw.sum())
            tl = float(mw @ t) / liquid if liquid > 0 else 0.0
        stirs = liquid > 0 and self.inside == "best-estimate"
        hs, E = list(self.guess[0]), (self.guess[1] if stirs else 1.0)
        envs = [tb if f.body else self.t_room for f in self.faces]
        tbar = [float(f.share @ t[f.cells]) for f in self.faces]
        by_element = 1.0
        if stirs and self.el is not None:
            te = (tb + tl) / 2
            le, rho = hon.lam(te), hon.rho(te)
            nu, a = hon.mu(te) / rho, le / (rho * hon.c(te))
            ra = G0 * hon.beta(te) * abs(tb - tl) * self.el_length ** 3 / (nu * a)
            nusselt = (0.825 + 0.387 * ra ** (1 / 6) / (1 + (0.492 * a / nu) ** (9 / 16)) ** (8 / 27)) ** 2
            by_element = nusselt * self.el_radius * log(self.R / self.el_radius) / self.el_length

        def given(E):
            """Films at an E, and the E that follows from them."""
            k = lam * E if omega is None else lam * (1 + (E - 1) * omega)
            dsum = wsum = 0.0
            for q, f in enumerate(self.faces):
                inner = f.half / float(f.share @ k[f.cells])
                h = f.fixed if f.kind == FIXED else hs[q]
                for _ in range(0 if f.kind == FIXED else 200):
                    out = 1 / (h * f.widen)
                    ts = envs[q] - (envs[q] - tbar[q]) * out / (out + f.wall + inner)
                    new = air_film(f.kind, ts, envs[q], self.H, 2 * self.ro, self.emissivity, f.speed)
                    small = abs(new - h) <= 1e-14 * h
                    h = new
                    if small:
                        break
                hs[q] = h
                wall = tbar[q] + (envs[q] - tbar[q]) * inner / (1 / (h * f.widen) + f.wall + inner)
                dsum += f.area * abs(wall - tl)
                wsum += f.area * wall
            if not stirs:
                return 1.0
            dT, tm = dsum / self.face_area, (wsum / self.face_area + tl) / 2
            lm, rho = hon.lam(tm), hon.rho(tm)
            ra = G0 * hon.beta(tm) * dT * self.H ** 3 / (hon.mu(tm) / rho * lm / (rho * hon.c(tm)))
            return max(1.0, 0.55 * ra ** 0.25 / self.H / self.h_k, by_element)

        settled = False
        for it in range(40):
            new = given(E)
            settled = abs(new - E) <= 3e-14 * E
            E = new
            if settled:
                break
        if not settled:      # near the moment at which walls and honey are alike the iteration may swing
            E = brentq(lambda x: given(x) - x, 1.0, 1e4, xtol=1e-14, rtol=8.9e-16)
        given(E)
        k = lam * E if omega is None else lam * (1 + (E - 1) * omega)
        Gs, Tws = [], []
        for q, f in enumerate(self.faces):
            half = f.half / k[f.cells]
            g = 1 / (1 / (hs[q] * f.widen) + f.wall + half)
            tc = t[f.cells]
            Gs.append(g * f.w)
            Tws.append(tc + (envs[q] - tc) * g * half)
        self.guess = hs, (E if stirs else self.guess[1])
        return k, Gs, Tws, E, hs, tl

    def element(self, k):
        return self.el if self.mixed else self.el * k[self.el_cells]

    # ---- rates of a state; P is the heater's power of all vessels together, or None when it holds the body
    def evaluate(self, y, top, tb_given=None, slope=0.0):
        n = self.n
        u = y[:n] * U_SCALE
        t, F, dtdu = self.temperatures(u, top)
        tb = y[n] if tb_given is None else tb_given
        k, Gs, Tws, E, hs, tl = self.closures(t, F, tb)
        q = np.zeros(n)
        if len(self.rl):
            a, b = k[self.rl], k[self.rr]
            flow = self.rg * 2 * a * b / (a + b) * (t[self.rr] - t[self.rl])
            np.add.at(q, self.rl, flow)
            np.add.at(q, self.rr, -flow)
        if len(self.al):
            a, b = k[self.al], k[self.au]
            flow = self.ag * 2 * a * b / (a + b) * (t[self.au] - t[self.al])
            np.add.at(q, self.al, flow)
            np.add.at(q, self.au, -flow)
        from_body = from_room = 0.0
        for f, G in zip(self.faces, Gs):
            heat = G * ((tb if f.body else self.t_room) - t[f.cells])
            np.add.at(q, f.cells, heat)
            if f.body:
                from_body += float(heat.sum())
            else:
                from_room += float(heat.sum())
        if self.el is not None:
            heat = self.element(k) * (tb - t[self.el_cells])
            np.add.at(q, self.el_cells, heat)
            from_body += float(heat.sum())
        r = {"t": t, "F": F, "dtdu": dtdu, "k": k, "Gs": Gs, "Tws": Tws, "E": E, "h": hs, "tl": tl, "q": q, "tb": tb,
             "drain": self.N * from_body + self.K * (tb - self.t_room),
             "room": self.K * (tb - self.t_room) - self.N * from_room}
        r["S"] = self.sensed(r)
        return r

    def sensed(self, r):
        if self.sensor == "body":
            return r["tb"]
        if self.sensor == "honey":
            return float(r["t"][self.sensor_cell])
        cell = self.sensor_row * self.nr + self.nr - 1
        total = area = 0.0
        for f, tw in zip(self.faces, r["Tws"]):
            if f.name.startswith("side"):
                for q in np.nonzero(f.cells == cell)[0]:
                    total += f.w[q] * float(tw[q])
                    area += f.w[q]
        return total / area if area > 0 else float(r["t"][cell])

    def mean(self, t):
        return float(self.m @ t) / self.mass

    def hottest_wall(self, r):
        """Of a face that passes no heat the inside is as warm as its cells."""
        return max([float(w.max()) for w in r["Tws"]] + [float(r["t"][c]) for c in self.adiabatic] + ([r["tb"]] if self.el is not None else []))

    def crystals_left(self, F):
        return 0.0 if F is None else self.x0 * (1 - float(self.m @ F) / self.mass)

    # ---- Jacobian with films and conductivities held: enough for Newton's iteration
    def jacobian(self, r, free_body, probe):
        n = self.n
        k, d = r["k"], r["dtdu"] * U_SCALE
        rows, cols, vals = [], [], []
        diag = np.zeros(n)
        for l, u, g in ((self.rl, self.rr, self.rg), (self.al, self.au, self.ag)):
            if not len(l):
                continue
            kk = g * 2 * k[l] * k[u] / (k[l] + k[u])
            rows += [l, u]
            cols += [u, l]
            vals += [kk * d[u], kk * d[l]]
            np.add.at(diag, l, -kk)
            np.add.at(diag, u, -kk)
        body = np.zeros(n)
        for f, G in zip(self.faces, r["Gs"]):
            np.add.at(diag, f.cells, -G)
            if f.body:
                np.add.at(body, f.cells, G)
        if self.el is not None:
            G = self.element(k)
            np.add.at(diag, self.el_cells, -G)
            np.add.at(body, self.el_cells, G)
        all_ = np.arange(n)
        rows.append(all_), cols.append(all_), vals.append(diag * d)
        scale = np.ones(n + 2)
        scale[:n] = 1 / (self.m * U_SCALE)
        if free_body:
            rows.append(all_), cols.append(np.full(n, n)), vals.append(body)
            rows.append(np.full(n, n)), cols.append(all_), vals.append(self.N * body * d / self.Cb)
            rows.append([n]), cols.append([n]), vals.append([-(self.N * body.sum() + self.K) / self.Cb])
        if probe:
            rows.append([n + 1]), cols.append([n + 1]), vals.append([-1 / self.lag])
            if self.sensor == "body":
                rows.append([n + 1]), cols.append([n]), vals.append([1 / self.lag])
            else:
                cell = self.sensor_cell if self.sensor == "honey" else self.sensor_row * self.nr + self.nr - 1
                rows.append([n + 1]), cols.append([cell]), vals.append([d[cell] / self.lag])
        rows, cols, vals = (np.concatenate([np.asarray(x, dtype=float) for x in a]) for a in (rows, cols, vals))
        return csc_matrix((vals * scale[rows.astype(int)], (rows.astype(int), cols.astype(int))), shape=(n + 2, n + 2))
