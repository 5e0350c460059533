"""The same equations by SciPy's LSODA, the rates written in Python: how a notebook would do it.

usage: lsoda.py TAPE RELATIVE_TOLERANCE MEMBERS
"""
import json
import sys
import time
from math import cbrt, exp, log, pi

import numpy as np
from scipy.integrate import solve_ivp

CONSTANTS = """temperature_min temperature_opt temperature_max growth_ph_min growth_ph_opt acid_ph_stop acid_ph_opt
growth_rate acid_rate cells_max growth_free lactate_per_lactose buffer_factor curd_rate_factor drained_dissolved
serum_protons_at_start whey_end whey_rate_factor loss_factor room_c cube_mm water_in_serum serum_kg loss_kg milk_water_kg
milk_casein_kg rennet_dose added_calcium heat_slowing species_factor maker_factor""".split()
RECORD = "minutes stirring heater loss_a loss_b loss_c heat_capacity phase has_culture is_cut has_rennet changed".split()
CARRIED = 16
MILK, CURD_IN_WHEY, DRAINED = 0, 1, 2


class Named:
    def __init__(self, names, values):
        self.__dict__.update(zip(names, (float(v) for v in values)))


def read_tape(path):
    all_numbers = np.fromfile(path)
    members, last_row, stride = (int(v) for v in all_numbers[:3])
    at = 3 + (last_row + 1) * stride
    table = all_numbers[3:at].reshape(last_row + 1, stride)
    found = []
    for _ in range(members):
        constants = Named(CONSTANTS, all_numbers[at : at + len(CONSTANTS)])
        at += 36
        records, end_ph, end_c, _end_w = all_numbers[at : at + 4]
        at += 4
        width = len(RECORD) + CARRIED
        tape = all_numbers[at : at + int(records) * width].reshape(int(records), width)
        at += int(records) * width
        found.append((constants, [(Named(RECORD, row[:12]), row[12:], row[1:11]) for row in tape], end_ph, end_c))
    return table, found


def rates_of(table, c, r, whey_base, serum_base):
    last = len(table) - 1
    bound = 0.4 * c.milk_casein_kg
    per_serum = c.milk_water_kg - bound
    rows = table.tolist()
    activity_at_31 = rennet_activity(31)

    def place(ph):
        position = min(max((ph - 3.5) * 200, 0), last - 1e-9)
        row = int(position)
        part = position - row
        low, high = rows[row], rows[row + 1]
        return [a + part * (b - a) for a, b in zip(low, high)]

    def serum_share(w):
        water = c.water_in_serum * (c.serum_kg - (100 * w - c.loss_kg * (1 if w >= 0.5 else w / 0.5)))
        return max((water - bound) / per_serum, 0.01)

    def rates(_t, y):
        cells, curd_ph, lactose, lactate, strength, whey_ph, whey_lactose, whey_lactate, whey_strength, whey_cells, ln_q, t, w = y[:13]
        d = [0.0] * 15
        curd_l = min(serum_share(max(w, 1e-3)), serum_base) if r.is_cut else 1.0
        whey_l = whey_base + serum_base - curd_l if r.phase == CURD_IN_WHEY else 0.0
        loss = max(r.loss_a + ((25 if t < 25 else t) - 37) * (r.loss_b + ((25 if t < 25 else t) - 37) * r.loss_c), 0.3 * r.loss_a)
        d[11] = (r.heater - c.loss_factor * loss * (t - c.room_c)) * 0.06 / r.heat_capacity
        p = place(curd_ph)
        casein, serum, colloidal, lactic, protonated, serum_protons = p
        if r.has_culture:
            warm = temperature_factor(c, t)
            vigour = warm * (1 if ln_q > 30 else 1 / (1 + exp(-ln_q)))
            lactose_in, lactate_in = max(lactose, 0) / curd_l, max(lactate, 0) / curd_l
            fed = lactose_in / (2 + lactose_in)
            room = max(0, 1 - cells / c.cells_max)
            growth_ph = ph_factor(curd_ph, c.growth_ph_min, c.growth_ph_opt)
            acid_ph = ph_factor(curd_ph, c.acid_ph_stop, c.acid_ph_opt)
            common = vigour * max(0, 1 - lactate_in * protonated / 40) * fed * cells
            made = (c.curd_rate_factor if r.phase == DRAINED else 1) * c.acid_rate * common * (
                (1 - c.growth_free) * growth_ph * room + c.growth_free * acid_ph)
            lactose_out = lactate_out = protons_in = 0.0
            if r.phase == CURD_IN_WHEY and whey_l > 1e-9:
                q = place(whey_ph)
                edge = c.cube_mm * cbrt(1 - w) / 1000
                exchange = 3 * pi * pi * 4.5e-10 * 3600 / (edge * edge)
                flow = min(exchange * curd_l, 13 * curd_l * whey_l / (curd_l + whey_l))
                lactate_out = flow * (lactate_in - max(whey_lactate, 0) / whey_l)
                lactose_out = flow * (lactose_in - max(whey_lactose, 0) / whey_l)
                strength_out = flow * (strength - whey_strength)
                protons_out = flow * (strength * serum_protons - whey_strength * q[5] - (strength - whey_strength) * c.serum_protons_at_start)
                protons_in = -protons_out
                growth = vigour * ph_factor(whey_ph, c.growth_ph_min, c.growth_ph_opt)
                in_whey = c.acid_rate * whey_cells * growth
                capacity = c.buffer_factor * (whey_l * whey_strength * q[1] + max(whey_lactate, 0) * q[3])
                d[4] = -strength_out / curd_l
                d[5] = -(in_whey + protons_out) / max(capacity, 1e-6)
                d[6] = lactose_out - in_whey / c.lactate_per_lactose
                d[7] = in_whey + lactate_out
                d[8] = strength_out / whey_l
                d[9] = c.growth_rate * growth * whey_cells
            capacity = c.buffer_factor * (casein + curd_l * strength * serum + max(lactate, 0) * lactic
                                          + (c.drained_dissolved if r.phase == DRAINED else 1) * colloidal)
            d[0] = c.growth_rate * common * growth_ph * room
            d[1] = -(made * (1 - protonated) + protons_in) / capacity
            d[2] = -made / c.lactate_per_lactose - lactose_out
            d[3] = made - lactate_out
            d[10] = c.growth_rate * warm
            for i in range(11):
                d[i] /= 60
        if r.is_cut and c.whey_end > w:
            kelvin = min(t + 273.15, 323.15)
            k = c.whey_rate_factor * 0.03 * r.stirring * (10 / c.cube_mm) * exp(
                (-100000 / 8.314) * (1 / kelvin - 1 / 305.15) + 1.2 * (6.5 - curd_ph))
            d[12] = k * (c.whey_end - w)
            out = 0 if w < 1e-3 or curd_l <= 0.01 else c.water_in_serum * (100 - (2 * c.loss_kg if w < 0.5 else 0)) / per_serum * d[12]
            d[2] -= out / curd_l * lactose
            d[3] -= out / curd_l * lactate
            if r.phase == CURD_IN_WHEY and whey_l > 1e-9:
                q = place(whey_ph)
                capacity = whey_l * whey_strength * q[1] + whey_lactate * q[3]
                d[5] -= (out * strength * (serum_protons - q[5]) + out / curd_l * lactate * (protonated - q[4])) / max(capacity, 1e-9)
                d[6] += out / curd_l * lactose
                d[7] += out / curd_l * lactate
                d[8] += out * (strength - whey_strength) / whey_l
        if r.has_rennet:
            heat = 1 + (c.heat_slowing - 1) * ramp(curd_ph, 5.8, 6.5)
            calcium = 1 + ramp(curd_ph, 5.8, 6.6) * c.added_calcium / (1.03 * 2.4)
            d[13] = c.rennet_dose / 50 * rennet_activity(t) / activity_at_31 * calcium * exp(-2.5 * (curd_ph - 6.6)) / (
                15 * c.maker_factor * c.species_factor * heat)
        d[14] = staph_per_min(t, curd_ph)
        return d

    return rates, serum_share


def temperature_factor(c, t):
    if t <= c.temperature_min or t >= c.temperature_max:
        return 0.0
    span, above = c.temperature_opt - c.temperature_min, t - c.temperature_min
    return (t - c.temperature_max) * above * above / (
        span * (span * (t - c.temperature_opt) - (c.temperature_opt - c.temperature_max) * (c.temperature_opt + c.temperature_min - 2 * t)))


def ph_factor(ph, low, best):
    if ph <= low or ph >= 8.5:
        return 0.0
    product = (ph - low) * (ph - 8.5)
    return product / (product - (ph - best) * (ph - best))


def ramp(ph, none, full):
    return min(max((ph - none) / (full - none), 0.0), 1.0)


def rennet_activity(t):
    if t <= 13 or t >= 52.25:
        return 0.0
    above, span = t - 13, 39.75 - 13
    return (t - 52.25) * above * above / (span * (span * (t - 39.75) - (39.75 - 52.25) * (39.75 + 13 - 2 * t)))


def staph_per_min(t, ph):
    if ph <= 5.3 or not t > 7:
        return 0.0
    if t <= 34:
        rate = (0.0442 * (t - 5.407)) ** 2
    elif t < 46.7:
        above, span = t - 7.7, 40.6 - 7.7
        rate = 1.97 * (t - 46.7) * above * above / (span * (span * (t - 40.6) - (40.6 - 46.7) * (40.6 + 7.7 - 2 * t)))
    else:
        rate = 0.0
    return rate / (60 * log(10))


USUAL = np.array([1e10, 1, 50, 10, 1, 1, 50, 10, 1, 1e9, 1, 10, 0.5, 1, 1])


def run(table, member, tolerance):
    """One make; what is carried: temperature, share of whey, curd's serum, free whey, clotting, then the acid."""
    c, records, _ph, _c = member
    state, clot, staph = np.zeros(CARRIED), 0.0, 0.0
    k = 0
    while k < len(records):
        r, before, _same = records[k]
        minutes = r.minutes
        k += 1
        while k < len(records) and records[k][0].changed == 0 and np.array_equal(records[k][2], records[k - 1][2]):
            minutes += records[k][0].minutes
            k += 1
        changed = np.array([(int(r.changed) >> i) & 1 for i in range(CARRIED)], dtype=bool)
        state[changed] = before[changed]
        rates, serum_share = rates_of(table, c, r, state[3], state[2])
        if r.is_cut and state[1] < 1e-3:
            serum = serum_share(1e-3)
            share = (state[2] - serum) / state[2]
            state[5 + 6], state[5 + 7] = share * state[5 + 2], share * state[5 + 3]
            state[5 + 2] *= 1 - share
            state[5 + 3] *= 1 - share
            state[3] += state[2] - serum
            state[2], state[1] = serum, 1e-3
            rates, serum_share = rates_of(table, c, r, state[3], state[2])
        y = np.concatenate([state[5:], [state[0], state[1], clot, staph]])
        y = solve_ivp(rates, (0, minutes), y, method="LSODA", rtol=tolerance, atol=tolerance * USUAL).y[:, -1]
        state[5:], state[0], state[1], clot, staph = y[:11], y[11], y[12], y[13], y[14]
        serum = min(serum_share(max(state[1], 1e-3)), state[2]) if r.is_cut else 1.0
        if r.phase == CURD_IN_WHEY:
            state[3] += state[2] - serum
        state[2] = serum
    return state


def main():
    table, members = read_tape(sys.argv[1])
    tolerance, count = float(sys.argv[2]), int(sys.argv[3])
    worst_ph = worst_c = 0.0
    best = float("inf")
    for member in members[:count]:
        started = time.perf_counter()
        state = run(table, member, tolerance)
        best = min(best, 1e3 * (time.perf_counter() - started))
        worst_ph = max(worst_ph, abs(state[5 + 1] - member[2]))
        worst_c = max(worst_c, abs(state[0] - member[3]))
    print(json.dumps({"msPerMember": best, "worstPH": worst_ph, "worstC": worst_c}))


main()
