"""recompute.py: works out every number of this publication anew from its tables, and compares.

    python3 recompute.py [folder of the tables]

Needs Python 3.8 or later and nothing but its standard library. Reads the CSV files alone. Prints the
largest difference of each table; ends with exit code 1 if a number differs by more than its
published digits allow. Those are two significant digits of the standard uncertainty (JCGM 100,
7.2.6), so a difference of 0.5 % of the standard uncertainty, at most 0.5 rpm, is within rounding; so
are 0.5 % of an uncertainty, a scatter, a p value or a number of degrees of freedom. Ranks and
chances are simulated: they must agree to the noise of both simulations.
"""
import bisect
import csv
import math
import os
import random
import re
import sys
from collections import defaultdict
from statistics import NormalDist, mean, median, stdev

FOLDER = sys.argv[1] if len(sys.argv) > 1 else "."
NORMAL = NormalDist()
Z95 = NORMAL.inv_cdf(0.975)
INFINITY = math.inf
RANDOM = random.Random(20260516)

# ------------------------------------------------------------------ tables and comparisons


def table_of(name):
    """Rows as dictionaries, empty fields as None; None where there is no such file."""
    file = os.path.join(FOLDER, name + ".csv")
    if not os.path.exists(file):
        return None
    with open(file, encoding="utf-8", newline="") as stream:
        return [{key: value if value != "" else None for key, value in row.items()}
                for row in csv.DictReader(stream)]


def number(text):
    return None if text is None else float(text)


LARGEST = {}  # of each table: how many numbers, and the difference that uses most of its tolerance
FAILURES = []


def note(table, what, difference, is_off, text="", tolerance=1.0):
    count, share, worst, of = LARGEST.get(table, (0, -1.0, 0.0, ""))
    own = difference / max(tolerance, 1e-300)
    LARGEST[table] = (count + 1, own, difference, what) if own > share else (count + 1, share, worst, of)
    if is_off:
        FAILURES.append(f"{table}: {what}{text}")


def compare(table, what, published, computed, tolerance):
    """A value that only one of the two has is off."""
    published = number(published) if isinstance(published, str) else published
    if computed is not None and not math.isfinite(computed):
        computed = None
    if published is None or computed is None:
        note(table, what, 0.0, (published is None) != (computed is None), f": {published} and {computed}")
        return
    difference = abs(published - computed)
    note(table, what, difference, difference > tolerance, f": {published} and {computed}", tolerance)


def compare_text(table, what, published, computed):
    note(table, what, float(published != computed), published != computed, f": {published} and {computed}")


def of_value(u):
    return min(0.5, 0.005 * u) if u else 0.005


def of_size(x):
    return 0.005 * abs(x or 0.0) + 1e-9


def of_p(p):
    return 0.005 * (p or 0.0) + 0.0005


# ------------------------------------------------------------------ distributions


def beta_fraction(a, b, x):
    """Continued fraction of the incomplete beta function (Abramowitz and Stegun 26.5.8), by Lentz."""
    tiny = 1e-300
    c, d = 1.0, 1.0 - (a + b) * x / (a + 1.0)
    d = 1.0 / (d if abs(d) > tiny else tiny)
    result = d
    for m in range(1, 5000):
        for numerator in (m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
                          -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))):
            d = 1.0 + numerator * d
            c = 1.0 + numerator / c
            d = 1.0 / (d if abs(d) > tiny else tiny)
            c = c if abs(c) > tiny else tiny
            result *= d * c
        if abs(d * c - 1.0) < 1e-15:
            break
    return result


def beta_lower(a, b, x):
    """Regularised incomplete beta function."""
    if x <= 0.0:
        return 0.0
    if x >= 1.0:
        return 1.0
    front = math.exp(math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x))
    if x < (a + 1.0) / (a + b + 2.0):
        return front * beta_fraction(a, b, x) / a
    return 1.0 - front * beta_fraction(b, a, 1.0 - x) / b


def gamma_upper(a, x):
    """Regularised upper incomplete gamma function (Abramowitz and Stegun 6.5.29, 6.5.31)."""
    if x <= 0.0:
        return 1.0
    front = math.exp(a * math.log(x) - x - math.lgamma(a))
    if x < a + 1.0:
        term = total = 1.0 / a
        n = a
        while abs(term) > 1e-16 * abs(total):
            n += 1.0
            term *= x / n
            total += term
        return 1.0 - front * total
    b, c = x + 1.0 - a, 1e300
    d = 1.0 / b
    result = d
    for i in range(1, 10000):
        an = -i * (i - a)
        b += 2.0
        d = 1.0 / (an * d + b)
        c = b + an / c
        result *= d * c
        if abs(d * c - 1.0) < 1e-15:
            break
    return front * result


def t_tail(t, dof):
    """P(T > t) for t >= 0."""
    if dof > 1e9:
        return 0.5 * math.erfc(t / math.sqrt(2.0))
    return 0.5 * beta_lower(0.5 * dof, 0.5, dof / (dof + t * t))


T_QUANTILES = {}


def t95(dof):
    """The 0.975 quantile of Student's t."""
    if dof > 1e9:
        return Z95
    if dof not in T_QUANTILES:
        high = 2.0
        while t_tail(high, dof) > 0.025:
            high *= 2.0
        T_QUANTILES[dof] = root_of(lambda t: t_tail(t, dof) - 0.025, 0.5, high, 1e-12)
    return T_QUANTILES[dof]


def f_tail(f, dof1, dof2):
    return beta_lower(0.5 * dof2, 0.5 * dof1, dof2 / (dof2 + dof1 * f))


def root_of(function, low, high, tolerance):
    """Zero between two places of different sign: false position with a bisection now and then."""
    f_low, f_high = function(low), function(high)
    for i in range(200):
        if abs(high - low) <= tolerance:
            break
        x = (low + high) / 2.0 if i % 3 == 2 or f_low == f_high else high - f_high * (high - low) / (f_high - f_low)
        if not min(low, high) < x < max(low, high):
            x = (low + high) / 2.0
        fx = function(x)
        if fx == 0.0:
            return x
        if (fx > 0.0) == (f_low > 0.0):
            low, f_low = x, fx
        else:
            high, f_high = x, fx
    return (low + high) / 2.0


def highest(function, low, high, tolerance):
    """Place and value of the maximum of a function with one summit: golden section, then parabolas."""
    golden = (math.sqrt(5.0) - 1.0) / 2.0
    a, b = low, high
    c, d = b - golden * (b - a), a + golden * (b - a)
    fc, fd = function(c), function(d)
    while b - a > tolerance:
        if fc > fd:
            b, d, fd = d, c, fc
            c = b - golden * (b - a)
            fc = function(c)
        else:
            a, c, fc = c, d, fd
            d = a + golden * (b - a)
            fd = function(d)
    return (c, fc) if fc > fd else (d, fd)


def gauss_legendre(n):
    """Nodes and weights on -1 to 1."""
    nodes = []
    for i in range(n):
        x = math.cos(math.pi * (i + 0.75) / (n + 0.5))
        for _ in range(100):
            p0, p1 = 1.0, 0.0
            for j in range(n):
                p0, p1 = ((2 * j + 1) * x * p0 - j * p1) / (j + 1), p0
            slope = n * (x * p0 - p1) / (x * x - 1.0)
            step = p0 / slope
            x -= step
            if abs(step) < 1e-15:
                break
        nodes.append((x, 2.0 / ((1.0 - x * x) * slope * slope)))
    return nodes


GAUSS = gauss_legendre(20)


def integral(function, low, high, pieces):
    step = (high - low) / pieces
    return sum(0.5 * step * w * function(low + step * (p + 0.5 + 0.5 * x)) for p in range(pieces) for x, w in GAUSS)


class StudentizedRange:
    """Of k means: the range of k normal values over an independent standard deviation."""

    STEP, END = 0.01, 14.0

    def __init__(self, k):
        self.k = k
        # P(range > w), tabulated; the upper tail, so that small values keep their digits.
        grid = [(x, w) for p in range(10) for x, w in
                ((-8.0 + 1.6 * (p + 0.5 + 0.5 * x), 0.8 * w) for x, w in GAUSS)]
        base = [(x, w * k * math.exp(-0.5 * x * x) / math.sqrt(2.0 * math.pi), 0.5 * math.erfc(-x / math.sqrt(2.0)))
                for x, w in grid]
        self.table = []
        for i in range(int(self.END / self.STEP) + 4):
            w = i * self.STEP
            inside = 0.0
            for x, weight, below in base:
                share = below - 0.5 * math.erfc((w - x) / math.sqrt(2.0))
                if share > 0.0:
                    # 1 - (1 - rest)^(k-1) would lose digits; both are summed up and subtracted.
                    inside += weight * (math.pow(below, k - 1) - math.pow(share, k - 1))
                else:
                    inside += weight * math.pow(below, k - 1)
            self.table.append(max(inside, 0.0))

    def normal_tail(self, w):
        if w >= self.END:
            return 0.0
        at = w / self.STEP
        i = max(1, min(int(at), len(self.table) - 3))
        x = at - i
        a, b, c, d = self.table[i - 1:i + 3]  # cubic through four neighbours
        return (b + x * ((c - a) / 2.0 + x * (a - 2.5 * b + 2.0 * c - 0.5 * d + x * (1.5 * (b - c) + 0.5 * (d - a)))))

    def weights(self, dof):
        """Nodes s with their probability: s^2 is chi-square over its degrees of freedom."""
        spread = 1.0 / math.sqrt(2.0 * dof)
        low, high = max(0.0, 1.0 - 9.0 * spread), 1.0 + 9.0 * spread
        if dof < 30.0:
            high = math.sqrt(1.0 + 80.0 / dof)
        lead = math.log(2.0) + 0.5 * dof * math.log(0.5 * dof) - math.lgamma(0.5 * dof)
        pieces = 6
        step = (high - low) / pieces
        return [(s, 0.5 * step * w * math.exp(lead + (dof - 1.0) * math.log(s) - 0.5 * dof * s * s))
                for p in range(pieces) for s, w in
                ((low + step * (p + 0.5 + 0.5 * x), w) for x, w in GAUSS)]

    def tail(self, q, dof, weights=None):
        if dof > 1e7:
            return self.normal_tail(q)
        return sum(w * self.normal_tail(q * s) for s, w in (weights or self.weights(dof)))

    def quantile(self, alpha, dof):
        weights = None if dof > 1e7 else self.weights(dof)
        high = 4.0
        while self.tail(high, dof, weights) > alpha:
            high *= 1.5
        return root_of(lambda q: self.tail(q, dof, weights) - alpha, 0.1, high, 1e-9)


# ------------------------------------------------------------------ what one reading says


class Reading:
    """Normal (value, sigma), or between bounds: then the period, the reciprocal of the rate, has a
    trapezoid for its likelihood, flat over a share `top` of its base, and a normal error of `sigma`
    on top. The trapezoid is followed by short chords over the rate."""

    CHORDS = 32

    def __init__(self, value, sigma, bounds=None, top=1.0):
        self.value, self.sigma, self.bounds, self.top = value, sigma, bounds, top
        if bounds is None:
            self.spread = sigma
            return
        low, high = bounds
        p_low, p_high = 1.0 / high, 1.0 / low
        flank = 0.5 * (1.0 - top) * (p_high - p_low)
        if flank > 0.0:
            left, right = 1.0 / (p_high - flank), 1.0 / (p_low + flank)
            at = [low + (left - low) * i / self.CHORDS for i in range(self.CHORDS + 1)]
            rest = [right + (high - right) * i / self.CHORDS for i in range(self.CHORDS + 1)]
            at += rest if right > left * (1.0 + 1e-14) else rest[1:]
            heights = [max(0.0, min(1.0, (1.0 / f - p_low) / flank, (p_high - 1.0 / f) / flank)) for f in at]
            heights[0] = heights[-1] = 0.0
        else:
            at, heights = [low, high], [1.0, 1.0]
        self.chords = [(a, b, ha, (hb - ha) / (b - a)) for a, b, ha, hb in
                       zip(at, at[1:], heights, heights[1:]) if b > a]
        mass = sum((b - a) * (ha + 0.5 * s * (b - a)) for a, b, ha, s in self.chords)
        self.value = sum(self.moment(a, b, ha, s, 0.0, 1) for a, b, ha, s in self.chords) / mass
        second = sum(self.moment(a, b, ha, s, self.value, 2) for a, b, ha, s in self.chords) / mass
        self.spread = math.sqrt(sigma * sigma + second)

    @staticmethod
    def moment(a, b, height, slope, origin, power):
        """Integral of (x - origin)^power (height + slope (x - a)) from a to b, by Gauss' rule."""
        middle, half = 0.5 * (a + b), 0.5 * (b - a)
        total = 0.0
        for x, w in ((-math.sqrt(0.6), 5.0 / 9.0), (0.0, 8.0 / 9.0), (math.sqrt(0.6), 5.0 / 9.0)):
            at = middle + half * x
            total += w * (at - origin) ** power * (height + slope * (at - a))
        return half * total

    def key(self):
        return (self.value, self.sigma, self.bounds, self.top)

    def log_likelihood(self, mu, deviation):
        """log of the integral of the likelihood under a normal law."""
        if self.bounds is None:
            variance = deviation ** 2 + self.sigma ** 2
            return -0.5 * ((self.value - mu) ** 2 / variance + math.log(variance))
        s = math.hypot(deviation, self.sigma)
        root2, norm = math.sqrt(2.0) * s, s / math.sqrt(2.0 * math.pi)
        total = 0.0
        for a, b, height, slope in self.chords:
            za, zb = (a - mu) / root2, (b - mu) / root2
            # Tails from the side on which they are small.
            if za > 0.0:
                p = 0.5 * (math.erfc(za) - math.erfc(zb))
            else:
                p = 0.5 * (math.erfc(-zb) - math.erfc(-za))
            d = norm * (math.exp(-za * za) - math.exp(-zb * zb))
            total += height * p + slope * (d + (mu - a) * p)
        if total > 1e-290:
            return math.log(total)
        edge = self.bounds[0] if mu < self.bounds[0] else self.bounds[1]
        return min(math.log(1e-290), -0.5 * ((edge - mu) / s) ** 2)


def between_limits(low, high, rate, variance):
    """As sure as a trapezoid of that variance; one that is much surer than the triangle does not rest
    on its limits."""
    least = Reading(0.0, 0.0, (low, high), 0.0).spread ** 2
    if variance < 0.8 * least:
        return Reading(rate, math.sqrt(variance))
    most = Reading(0.0, 0.0, (low, high), 1.0).spread ** 2
    if variance >= most:
        return Reading(0.0, math.sqrt(variance - most), (low, high), 1.0)
    return Reading(0.0, 0.0, (low, high), math.sqrt(min(1.0, max(0.0, (variance - least) / (most - least)))))


class Given:
    """A row of readings.csv, and what it brings into its cell."""

    def __init__(self, row):
        self.row = row
        self.id, self.method, habit = row["reading_id"], row["method"], row["counting_habit"]
        self.rate, self.u = float(row["rate_rpm"]), float(row["standard_uncertainty_rpm"])
        self.clock_relative = number(row["clock_relative_uncertainty"]) or 0.0
        view_relative = number(row["view_relative_uncertainty"]) or 0.0
        low, high = number(row["bound_low_rpm"]), number(row["bound_high_rpm"])
        self.clock, self.view, self.habit = self.rate * self.clock_relative, self.rate * view_relative, 0.0
        variance = max(0.0, self.u ** 2 - self.clock ** 2 - self.view ** 2)
        has_limits = low is not None and high is not None and 0.0 < low < high
        if has_limits and habit == "unknown":
            # Halfway between a nearest return and the first frame past it; a quarter of a frame
            # either way is the habit's own part.
            p_low, p_high = 1.0 / high, 1.0 / low
            frame = 0.5 * (p_high - p_low)
            middle = 0.5 * (p_low + p_high) - 0.25 * frame
            self.likelihood = Reading(0.0, 0.0, (1.0 / (middle + 0.5 * frame), 1.0 / (middle - 0.5 * frame)), 1.0)
            self.habit = 0.25 * frame / middle ** 2
        elif has_limits and habit:
            self.likelihood = Reading(0.0, 0.0, (low, high), 0.0 if habit == "both" else 1.0)
        elif has_limits:
            self.likelihood = between_limits(low, high, self.rate, variance)
        else:
            self.likelihood = Reading(self.rate, math.sqrt(variance))


# ------------------------------------------------------------------ mean of a cell


class Mean:
    def __init__(self, value, shots, coarse, low, high, scatter, hidden=False):
        self.value, self.shots, self.coarse, self.low, self.high = value, shots, coarse, low, high
        self.scatter, self.hidden, self.common = scatter, hidden, 0.0

    def finish(self, n):
        self.error = math.hypot(self.shots, self.coarse)
        self.dof = (n - 1) * (self.error / self.shots) ** 4 if self.coarse > 0.0 else n - 1.0
        return self


def plain_mean(values):
    n, deviation = len(values), stdev(values)
    error = deviation / math.sqrt(n)
    reach, centre = t95(n - 1) * error, mean(values)
    return Mean(centre, error, 0.0, centre - reach, centre + reach, deviation)


def profiled_mean(readings):
    n = len(readings)
    groups = defaultdict(int)
    for reading in readings:
        groups[reading.key()] += 1
    by_key = {reading.key(): reading for reading in readings}
    counted = [(by_key[key], count) for key, count in groups.items()]
    low = min((r.bounds[0] if r.bounds else r.value) - r.sigma for r in readings)
    high = max((r.bounds[1] if r.bounds else r.value) + r.sigma for r in readings)
    width = max(high - low, 1e-12 * abs(high))
    bounds = [r.bounds for r in readings if r.bounds]
    most_deviation = 4.0 * width
    least = 0.03 * min(b - a for a, b in bounds) if bounds else 1e-9 * most_deviation
    bottom, top = math.log(least), math.log(most_deviation)
    grid = [bottom + (top - bottom) * i / 15.0 for i in range(16)]

    def profile(mu):
        """Likeliest deviation for a mean. There may be two summits: one where coarseness explains
        all, one where the shots differ."""
        def at(x):
            return sum(count * reading.log_likelihood(mu, math.exp(x)) for reading, count in counted)
        values = [at(x) for x in grid]
        k = values.index(max(values))
        place, value = highest(at, grid[max(0, k - 1)], grid[min(15, k + 1)], 1e-5)
        if values[0] >= value - 1e-12:
            place, value = bottom, values[0]
        return value, math.exp(place)

    start, most = highest(lambda mu: profile(mu)[0], low, high, 1e-6 * width)
    t = t95(n - 1)
    allowed = 0.5 * n * math.log1p(t * t / (n - 1.0))

    def end(side, fall):
        inside, step = start, 0.05 * width
        outside = start + side * step
        while profile(outside)[0] > most - fall:
            inside, step = outside, 1.5 * step
            outside += side * step
        return root_of(lambda mu: profile(mu)[0] - most + fall, inside, outside, 1e-6 * width)

    interval = end(-1.0, allowed), end(1.0, allowed)
    centre = 0.5 * (end(-1.0, 0.02 * allowed) + end(1.0, 0.02 * allowed))
    deviation = profile(centre)[1]
    scatter = deviation * math.sqrt(n / (n - 1.0))
    shots = scatter / math.sqrt(n)
    half = 0.5 * (interval[1] - interval[0])
    coarse = math.sqrt(max(0.0, half ** 2 - (t * shots) ** 2)) / Z95
    return Mean(centre, shots, coarse, interval[0], interval[1], scatter, deviation <= 1.001 * least)


MEANS = {}  # cells of the same readings have the same mean


def likely_mean(given):
    key = tuple(sorted((reading.key() for reading in given), key=repr))
    if key not in MEANS:
        MEANS[key] = likely_mean_of(given)
    return MEANS[key]


def likely_mean_of(given):
    n = len(given)
    common = min(0.0 if r.bounds else r.sigma for r in given)
    readings = given
    if common > 0.0:
        readings = [Reading(r.value, math.sqrt(max(0.0, r.sigma ** 2 - common ** 2))) for r in given]
    plain = plain_mean([r.value for r in readings])
    widest = max(r.spread for r in readings)
    if widest <= 0.1 * plain.scatter:
        return plain.finish(n)
    coarse = profiled_mean(readings)
    share = (widest / plain.scatter - 0.1) / 0.05 if plain.scatter > 0.0 else 1.0
    if share < 1.0:
        coarse = Mean(*(a + share * (b - a) for a, b in (
            (getattr(plain, x), getattr(coarse, x)) for x in ("value", "shots", "coarse", "low", "high", "scatter"))))
    coarse.common = coarse.coarse * sum(r.top for r in readings if r.bounds) / n
    return coarse.finish(n)


def widened(m, shared):
    """Standard uncertainty, degrees of freedom and interval with what is shared."""
    total = math.hypot(m.error, shared)
    if not m.error > 0.0:
        return total, INFINITY, m.value - Z95 * total, m.value + Z95 * total
    ratio = total / m.error
    dof = m.dof * ratio ** 4
    w = ratio * t95(dof) / t95(m.dof)
    return total, dof, m.value - w * (m.value - m.low), m.value + w * (m.high - m.value)


def shot_scatter(y, u):
    """Restricted likelihood of the variance between shots (Viechtbauer 2005, eq. 8); p of Cochran's Q."""
    def sums(tau2):
        w = [1.0 / (x * x + tau2) for x in u]
        total = sum(w)
        centre = sum(a * b for a, b in zip(w, y)) / total
        score = sum((a * (b - centre)) ** 2 for a, b in zip(w, y)) - (total - sum(a * a for a in w) / total)
        return score, sum(a * (b - centre) ** 2 for a, b in zip(w, y))
    score, q = sums(0.0)
    tau2 = 0.0
    if score > 0.0:
        high = stdev(y) ** 2
        while sums(high)[0] > 0.0:
            high *= 2.0
        tau2 = root_of(lambda x: sums(x)[0], 0.0, high, 1e-10 * high)
    return math.sqrt(tau2), gamma_upper(0.5 * (len(y) - 1), 0.5 * q)


# ------------------------------------------------------------------ readings

ABOUT = {row["item"]: row["value"] for row in table_of("about")}
STEP = number(ABOUT["noticeable_step_rpm"])
PUBLISHED_DRAWS = float(ABOUT["rank_draws"])
SHOTS = table_of("shots")
READINGS = {row["reading_id"]: Given(row) for row in table_of("readings")}


def check_readings():
    for given in READINGS.values():
        row = given.row
        compare("readings", "own part", row["own_uncertainty_rpm"], given.likelihood.spread, of_size(given.likelihood.spread))
        for name in ("clock", "view", "habit"):
            if row[name + "_part"]:
                effect = getattr(given, name)
                compare("readings", name + " part", row[name + "_uncertainty_rpm"], effect, of_size(effect))
        frames, turns, fps = (number(row[x]) for x in ("frames", "turns", "capture_rate_fps"))
        habit = row["counting_habit"]
        if habit is None or None in (frames, turns, fps):
            continue
        before, behind = {"nearest": (0.5, 0.5), "both": (1.0, 1.0), "after": (1.0, 0.0), "unknown": (1.0, 1.0)}[habit]
        a, b = (frames - before) / fps / turns, (frames + behind) / fps / turns
        compare("readings", "limits of counts", row["bound_low_rpm"], 60.0 / b, of_value(given.u))
        compare("readings", "limits of counts", row["bound_high_rpm"], 60.0 / a, of_value(given.u))
        middle, half = 0.5 * (a + b), 0.5 * (b - a)
        if habit == "both":
            rate = 60.0 * integral(lambda p: (1.0 - abs(p - middle) / half) / half / p, a, b, 2)
        else:
            rate = 60.0 * math.log(b / a) / (b - a)
        compare("readings", "rates of counts", row["rate_rpm"], rate, of_value(given.u))


# ------------------------------------------------------------------ cells


class Cell:
    def __init__(self, row, readings):
        self.row, self.readings, self.n = row, readings, len(readings)
        self.session, self.implement, self.hitter = row["session_id"], row["implement_id"], row["hitter_id"]
        self.own = self.total = self.mean = self.median = self.split = None
        self.shared = {}
        if not readings:
            return
        rates = [given.rate for given in readings]
        self.median = median(rates)
        if self.n == 1:
            self.mean = rates[0]
            return
        self.own = likely_mean([given.likelihood for given in readings])
        self.mean = self.own.value
        parts = defaultdict(float)
        parts["clock:" + self.session] = max(g.clock_relative for g in readings) * self.mean
        for given in readings:
            parts["view:" + self.session + ":" + given.method.replace(" ", "_")] += given.view / self.n
            parts["habit:" + self.session] += given.habit / self.n
        self.shared = {name: effect for name, effect in parts.items() if effect > 0.0}
        self.total = widened(self.own, math.sqrt(sum(e * e for e in self.shared.values())))
        spreads = [given.likelihood.spread for given in readings]
        if min(spreads) > 0.0:
            self.split = (math.sqrt(mean(x * x for x in spreads)),) + shot_scatter(rates, spreads)


def is_counted(shot):
    """Kept, and not left out because its flight refutes its clock."""
    return shot["standing"] == "kept" and shot["reading_id"] and not shot["left_out"]


def make_cells():
    of_cell = defaultdict(list)
    for shot in SHOTS:
        if is_counted(shot) and shot["cell_id"]:
            of_cell[shot["cell_id"]].append(READINGS[shot["reading_id"]])
    return [Cell(row, of_cell[row["cell_id"]]) for row in table_of("summary")]


def check_cells(cells):
    for cell in cells:
        row, own, total = cell.row, cell.own, cell.total
        u = total[0] if total else None
        compare("summary", "kept", row["kept"], cell.n, 0.0)
        compare("summary", "mean", row["mean_rpm"], cell.mean, of_value(u))
        compare("summary", "median", row["median_rpm"], cell.median, 1e-6)
        for name, at in (("standard_uncertainty_rpm", 0), ("degrees_of_freedom", 1)):
            compare("summary", name, row[name], total[at] if total else None, of_size(total[at] if total else 0.0))
        for name, at in (("interval_low_rpm", 2), ("interval_high_rpm", 3)):
            compare("summary", "interval", row[name], total[at] if total else None, of_value(u))
        compare("summary", "scatter", row["standard_deviation_rpm"], own.scatter if own else None,
                of_size(own.scatter if own else 0.0))
        for name, what in (("own", "error"), ("shots", "shots"), ("coarseness", "coarse"), ("common_coarseness", "common")):
            compare("summary", name + " part", row[name + "_uncertainty_rpm"], getattr(own, what) if own else None, of_size(u))
        split = cell.split or (None, None, None)
        scatter = own.scatter if own else 0.0
        compare("summary", "readings' scatter", row["reading_scatter_rpm"], split[0], of_size(scatter))
        compare("summary", "shots' scatter", row["shot_scatter_rpm"], split[1], of_size(scatter))
        compare("summary", "p of the scatter", row["scatter_p"], split[2], of_p(split[2]))
    published = table_of("cell_parts") or []
    by_id = {cell.row["cell_id"]: cell for cell in cells}
    for row in published:
        effect = by_id[row["cell_id"]].shared.get(row["part"])
        compare("cell_parts", "effect", row["effect_rpm"], effect, of_size(effect))
    note("cell_parts", "number of parts", 0.0, len(published) != sum(len(cell.shared) for cell in cells))


# ------------------------------------------------------------------ implements and comparisons


class Average:
    """Plain average of cells of one implement."""

    def __init__(self, cells):
        k = len(cells)
        self.mean = mean(cell.mean for cell in cells)
        variances = [cell.own.error ** 2 for cell in cells]
        common = [cell.own.common for cell in cells]
        self.variance = (sum(variances) + sum(common) ** 2 - sum(c * c for c in common)) / k ** 2
        below = sum((v / k ** 2) ** 2 / cell.own.dof for v, cell in zip(variances, cells) if v > 0.0)
        self.dof = self.variance ** 2 / below if below > 0.0 else 0.0  # Welch and Satterthwaite
        squares = sum((cell.n - 1) * cell.own.scatter ** 2 for cell in cells)
        self.shots = sum(cell.n for cell in cells)
        self.scatter = math.sqrt(squares / (self.shots - k))
        self.shared = defaultdict(float)
        for cell in cells:
            for name, effect in cell.shared.items():
                self.shared[name] += effect / k
        self.alone = cells[0].total if k == 1 else None


def with_shared(variance, dof, shared):
    """Standard uncertainty, degrees of freedom, half width."""
    total = variance + sum(e * e for e in shared)
    wide = dof * (total / variance) ** 2
    return math.sqrt(total), wide, t95(wide) * math.sqrt(total)


def check_implements(cells):
    for row in table_of("implements"):
        these = [cell for cell in cells if cell.implement == row["implement_id"] and cell.mean is not None]
        known = [cell for cell in these if cell.own]
        value = mean(cell.mean for cell in these) if these else None
        scatter = u = low = high = None
        if len(these) == 1 and known:
            scatter = known[0].own.scatter
            u, _, low, high = known[0].total
        elif known:
            average = Average(known)
            scatter = average.scatter
            if len(known) == len(these):
                u = math.sqrt(average.variance + sum(e * e for e in average.shared.values()))
                if average.dof > 0.0:
                    half = with_shared(average.variance, average.dof, average.shared.values())[2]
                    low, high = value - half, value + half
        compare("implements", "mean", row["mean_rpm"], value, of_value(u))
        compare("implements", "scatter", row["standard_deviation_rpm"], scatter, of_size(scatter))
        compare("implements", "standard uncertainty", row["standard_uncertainty_rpm"], u, of_size(u))
        compare("implements", "interval", row["interval_low_rpm"], low, of_value(u))
        compare("implements", "interval", row["interval_high_rpm"], high, of_value(u))


def inverse_of(matrix):
    """By elimination with pivots; None for a singular one."""
    n = len(matrix)
    rows = [row[:] + [1.0 if i == j else 0.0 for j in range(n)] for i, row in enumerate(matrix)]
    scale = max(abs(x) for row in matrix for x in row)
    for column in range(n):
        pivot = max(range(column, n), key=lambda r: abs(rows[r][column]))
        if abs(rows[pivot][column]) < 1e-10 * scale:
            return None
        rows[column], rows[pivot] = rows[pivot], rows[column]
        lead = rows[column][column]
        rows[column] = [x / lead for x in rows[column]]
        for r in range(n):
            factor = rows[r][column]
            if r != column and factor != 0.0:
                rows[r] = [x - factor * y for x, y in zip(rows[r], rows[column])]
    return [row[n:] for row in rows]


class Additive:
    """Weighted least squares of one value a cell on implement + block; every block weighs the same
    in a mean. is_linked: whether the cells link all implements."""

    def __init__(self, rows, blocks, weights):
        self.names, block_names = list(dict.fromkeys(rows)), list(dict.fromkeys(blocks))
        self.k, self.b = len(self.names), len(block_names)
        size = self.k + self.b - 1
        self.design = []
        for row, block in zip(rows, blocks):
            line = [self.names.index(row)]
            if block_names.index(block) > 0:
                line.append(self.k + block_names.index(block) - 1)
            self.design.append(line)
        self.weights = weights
        cross = [[0.0] * size for _ in range(size)]
        for line, w in zip(self.design, weights):
            for i in line:
                for j in line:
                    cross[i][j] += w
        self.inverse = inverse_of(cross)
        self.is_linked = self.inverse is not None

    def level(self, i):
        return [(i, 1.0)] + [(self.k + j, 1.0 / self.b) for j in range(self.b - 1)]

    def fit(self, values):
        """Means of the levels, and the weighted residual sum of squares."""
        size = self.k + self.b - 1
        right = [0.0] * size
        for line, w, value in zip(self.design, self.weights, values):
            for i in line:
                right[i] += w * value
        found = [sum(a * b for a, b in zip(row, right)) for row in self.inverse]
        residual = sum(w * (value - sum(found[i] for i in line)) ** 2
                       for line, w, value in zip(self.design, self.weights, values))
        return [sum(w * found[j] for j, w in self.level(i)) for i in range(self.k)], residual

    def covariance(self):
        halves = []
        for i in range(self.k):
            half = [0.0] * (self.k + self.b - 1)
            for at, w in self.level(i):
                half = [x + w * y for x, y in zip(half, self.inverse[at])]
            halves.append(half)
        return [[sum(w * half[j] for j, w in self.level(i)) for i in range(self.k)] for half in halves]


class Compared:
    """Means that are compared, highest first: their covariance without shared parts, and the effects
    of the shared parts on each."""

    def __init__(self, cells, hitter):
        used = [cell for cell in cells if cell.own and (hitter is None or cell.hitter == hitter)]
        groups = defaultdict(list)
        for cell in used:
            groups[cell.implement].append(cell)
        groups = {name: these for name, these in groups.items() if any(c.own.error > 0.0 for c in these)}
        flat = [cell for these in groups.values() for cell in these]
        blocks = [(cell.session, cell.hitter) for cell in flat]
        averages = [Average(these) for these in groups.values()]
        parts = sorted({name for cell in flat for name in cell.shared})
        self.ids = list(groups)
        self.mean = [a.mean for a in averages]
        k = len(self.ids)
        self.covariance = [[averages[i].variance if i == j else 0.0 for j in range(k)] for i in range(k)]
        self.dof = [a.dof for a in averages]
        self.scatter, self.shots = [a.scatter for a in averages], [a.shots for a in averages]
        self.shared = [[a.shared.get(name, 0.0) for name in parts] for a in averages]
        self.alone = [a.alone for a in averages]
        self.model, self.is_comparable, self.f = "cell_means", True, None
        is_full = all(len(these) == len(set(blocks)) for these in groups.values())
        if k > 1 and not is_full:
            self.use_additive(flat, blocks, parts)
        order = sorted(range(k), key=lambda i: -self.mean[i])
        for name in ("ids", "mean", "dof", "scatter", "shots", "shared", "alone"):
            setattr(self, name, [getattr(self, name)[i] for i in order])
        self.covariance = [[self.covariance[i][j] for j in order] for i in order]

    def use_additive(self, flat, blocks, parts):
        self.model = "additive"
        weights = [cell.n for cell in flat]
        model = Additive([cell.implement for cell in flat], blocks, weights)
        if not model.is_linked:
            self.is_comparable = False
            return
        values = [cell.mean for cell in flat]
        self.mean, residual = model.fit(values)
        within = sum(cell.own.error ** 2 * cell.n * (cell.n - 1) for cell in flat)
        dof = sum(weights) - (model.k + model.b - 1)
        self.covariance = [[(within + residual) / dof * x for x in row] for row in model.covariance()]
        self.dof, self.alone = [float(dof)] * model.k, [None] * model.k
        moved = [model.fit([cell.shared.get(name, 0.0) for cell in flat])[0] for name in parts]
        self.shared = [[effects[i] for effects in moved] for i in range(model.k)]
        sums = defaultdict(float)
        counts = defaultdict(float)
        for block, w, value in zip(blocks, weights, values):
            sums[block] += w * value
            counts[block] += w
        about = sum(w * (value - sums[block] / counts[block]) ** 2 for block, w, value in zip(blocks, weights, values))
        within_dof = sum(weights) - len(flat)
        self.f = ((about - residual) / (model.k - 1) / (within / within_dof), model.k - 1.0, float(within_dof))

    def variance(self, i):
        return self.covariance[i][i]

    def apart(self, i, j):
        """Variance of a difference from the shared parts."""
        return sum((a - b) ** 2 for a, b in zip(self.shared[i], self.shared[j]))

    def difference(self, i, j):
        """Standard error and degrees of freedom."""
        a, b = self.variance(i), self.variance(j)
        variance = a + b - 2.0 * self.covariance[i][j]
        dof = self.dof[i]
        if self.model == "cell_means":
            dof = variance ** 2 / (a * a / self.dof[i] + b * b / self.dof[j])
        total = variance + self.apart(i, j)
        return math.sqrt(total), dof * (total / variance) ** 2


def welch(c):
    k, w = len(c.mean), [1.0 / c.variance(i) for i in range(len(c.mean))]
    centre = sum(a * b for a, b in zip(w, c.mean)) / sum(w)
    imbalance = sum((1.0 - x / sum(w)) ** 2 / dof for x, dof in zip(w, c.dof))
    between = sum(x * (m - centre) ** 2 for x, m in zip(w, c.mean)) / (k - 1)
    return (between / (1.0 + 2.0 * (k - 2) / (k * k - 1) * imbalance), k - 1.0, (k * k - 1) / (3.0 * imbalance))


RANGES = {}


def judged_pairs(c):
    k = len(c.mean)
    if k not in RANGES:
        RANGES[k] = StudentizedRange(k)
    spread = RANGES[k]
    errors = {(i, j): c.difference(i, j) for i in range(k) for j in range(i + 1, k)}
    critical = critical_values(spread, [dof for _, dof in errors.values()])
    pairs = {}
    for (i, j), (se, dof) in errors.items():
        difference = c.mean[i] - c.mean[j]
        r95, r90 = (q * se / math.sqrt(2.0) for q in critical(dof))
        low, high, eq_low, eq_high = difference - r95, difference + r95, difference - r90, difference + r90
        differs = low > 0.0
        verdict = "differs" if differs else "not_settled"
        if STEP is not None:
            if low >= STEP:
                verdict = "differs_by_at_least_step"
            elif -STEP < eq_low and eq_high < STEP:
                verdict = "differs_by_less_than_step" if differs else "equivalent_within_step"
        pairs[c.ids[i], c.ids[j]] = {
            "difference": difference, "se": se, "dof": dof, "low": low, "high": high, "eq_low": eq_low,
            "eq_high": eq_high, "p": spread.tail(difference * math.sqrt(2.0) / se, dof), "differs": differs,
            "verdict": verdict}
    return pairs


def critical_values(spread, dofs):
    """Function that gives the critical values of both levels; of many degrees of freedom between
    those of a grid over their reciprocals."""
    different = sorted(set(dofs))
    if len(different) <= 400:
        known = {dof: (spread.quantile(0.05, dof), spread.quantile(0.10, dof)) for dof in different}
        return known.__getitem__
    low, high, count = 1.0 / different[-1], 1.0 / different[0], 200
    grid = [low + (high - low) * i / (count - 1) for i in range(count)]
    values = [[math.log(spread.quantile(alpha, 1.0 / x)) for x in grid] for alpha in (0.05, 0.10)]

    def between(dof):
        i = max(1, min(bisect.bisect(grid, 1.0 / dof) - 1, count - 3))
        nodes = range(i - 1, i + 3)
        weights = [math.prod((1.0 / dof - grid[m]) / (grid[n] - grid[m]) for m in nodes if m != n) for n in nodes]
        return tuple(math.exp(sum(w * column[n] for w, n in zip(weights, nodes))) for column in values)
    return between


def simulated_ranks(c):
    """Largest studentized difference from each mean, sorted, and how often each is first in truth."""
    k = len(c.mean)
    draws = max(200, min(8000, int(3e6 / k ** 2)))
    apart = [[c.apart(i, j) for j in range(k)] for i in range(k)]
    own = [c.variance(i) for i in range(k)]
    root = cholesky(c.covariance) if c.model == "additive" else None
    parts = len(c.shared[0])
    largest, firsts = [[] for _ in range(k)], [0] * k
    for _ in range(draws):
        normals = [RANDOM.gauss(0.0, 1.0) for _ in range(k)]
        if root is None:
            errors = [math.sqrt(v) * z for v, z in zip(own, normals)]
            scale = [RANDOM.gammavariate(0.5 * dof, 2.0 / dof) if dof < 1e9 else 1.0 for dof in c.dof]
        else:
            errors = [sum(a * b for a, b in zip(row, normals)) for row in root]
            scale = [RANDOM.gammavariate(0.5 * c.dof[0], 2.0 / c.dof[0])] * k
        commons = [RANDOM.gauss(0.0, 1.0) for _ in range(parts)]
        moved = [sum(a * b for a, b in zip(row, commons)) for row in c.shared]
        all_errors = [a + b for a, b in zip(errors, moved)]
        scaled = [v * s for v, s in zip(own, scale)]
        worst = [0.0] * k
        for i in range(k):
            for j in range(i + 1, k):
                variance = scaled[i] + scaled[j] + apart[i][j]
                if root is not None:
                    variance -= 2.0 * scale[0] * c.covariance[i][j]
                t2 = (all_errors[i] - all_errors[j]) ** 2 / variance
                if t2 > worst[i]:
                    worst[i] = t2
                if t2 > worst[j]:
                    worst[j] = t2
        for i in range(k):
            largest[i].append(math.sqrt(worst[i]))
        truth = [m - e / math.sqrt(s) - x for m, e, s, x in zip(c.mean, errors, scale, moved)]
        firsts[truth.index(max(truth))] += 1
    return [sorted(values) for values in largest], [n / draws for n in firsts], draws


def cholesky(matrix):
    k = len(matrix)
    root = [[0.0] * k for _ in range(k)]
    for i in range(k):
        for j in range(i + 1):
            rest = matrix[i][j] - sum(root[i][m] * root[j][m] for m in range(j))
            root[i][j] = math.sqrt(rest) if i == j else rest / root[j][j]
    return root


def rank_range(c, i, critical):
    """Ranks left by the differences that the critical value tells apart."""
    best, worst = 1, len(c.mean)
    for j in range(len(c.mean)):
        if j != i:
            reach = critical * c.difference(i, j)[0]
            best += c.mean[j] - c.mean[i] > reach
            worst -= c.mean[i] - c.mean[j] > reach
    return best, worst


def check_ranks(table, ranking, c, place):
    largest, chances, draws = simulated_ranks(c)
    noise = 4.5 * math.sqrt(0.95 * 0.05 * (1.0 / draws + 1.0 / PUBLISHED_DRAWS))
    for row in ranking:
        i = place[row["implement_id"]]
        low, high = (largest[i][max(0, min(draws - 1, math.ceil(share * draws) - 1))]
                     for share in (max(0.0, 0.95 - noise), min(1.0, 0.95 + noise)))
        narrow, wide = rank_range(c, i, low), rank_range(c, i, high)
        best, worst = float(row["rank_best"]), float(row["rank_worst"])
        # Equal means may stand in either order.
        above = sum(m > c.mean[i] + 0.01 for m in c.mean)
        alike = sum(abs(m - c.mean[i]) <= 0.01 for m in c.mean)
        rank = float(row["rank"])
        compare(table, "rank", rank, max(above + 1.0, min(rank, above + alike)), 0.0)
        compare(table, "best rank, beyond noise", max(0.0, wide[0] - best, best - narrow[0]), 0.0, 0.0)
        compare(table, "worst rank, beyond noise", max(0.0, narrow[1] - worst, worst - wide[1]), 0.0, 0.0)
        chance = float(row["first_chance"])
        pooled = (chance * PUBLISHED_DRAWS + chances[i] * draws) / (PUBLISHED_DRAWS + draws)
        compare(table, "chance to be first", chance, chances[i],
                4.5 * math.sqrt(pooled * (1.0 - pooled) * (1.0 / PUBLISHED_DRAWS + 1.0 / draws)) + 1.0 / PUBLISHED_DRAWS)


def check_pairs(table, pairs, mine):
    """Equal means may stand in either order."""
    note(table, "number of pairs", 0.0, len(pairs) != len(mine))
    for row in pairs:
        key = row["first_implement_id"], row["second_implement_id"]
        sign, one = 1.0, mine.get(key)
        if one is None:
            sign, one = -1.0, mine[key[1], key[0]]
        se = one["se"]
        compare(table, "difference", row["difference_rpm"], sign * one["difference"], of_value(se))
        compare(table, "standard error", row["standard_error_rpm"], se, of_size(se))
        compare(table, "degrees of freedom", row["degrees_of_freedom"], one["dof"], of_size(one["dof"]))
        for name, ends in (("interval", ("low", "high")), ("equivalence", ("eq_low", "eq_high"))):
            ordered = sorted(sign * one[end] for end in ends)
            for end, value in zip(("low", "high"), ordered):
                compare(table, name, row[f"{name}_{end}_rpm"], value, of_value(se))
        compare(table, "adjusted p", row["adjusted_p"], one["p"], of_p(one["p"]))
        # A verdict may turn where an end lies on zero or on the step to within rounding.
        edges = [0.0] + ([] if STEP is None else [STEP, -STEP])
        if min(abs(one[end] - x) for x in edges for end in ("low", "eq_low", "eq_high")) > of_value(se):
            compare_text(table, "differs", row["differs"], "true" if one["differs"] else "false")
            compare_text(table, "verdict", row["verdict"], one["verdict"])


def check_letters(table, ranking, pairs):
    """Two implements share a letter if and only if they could not be told apart."""
    letters = {row["implement_id"]: set(re.findall("[a-z][0-9]*", row["letters"] or "")) for row in ranking}
    for row in pairs:
        shares = bool(letters[row["first_implement_id"]] & letters[row["second_implement_id"]])
        note(table, "letters", 0.0, shares == (row["differs"] == "true"), f" of {row['first']} and {row['second']}")


def band_of(bands, value):
    for band in bands:
        low, high = number(band["low_rpm"]), number(band["high_rpm"])
        if (low is None or value >= low) and (high is None or value < high):
            return band["band"]
    return None


def check_ranking(table, ranking, pairs, cells, hitter):
    c = Compared(cells, hitter)
    note(table, "number of implements", 0.0, len(ranking) != len(c.ids))
    place = {name: i for i, name in enumerate(c.ids)}
    bands = table_of("bands")
    for row in ranking:
        i = place[row["implement_id"]]
        u, dof, half = with_shared(c.variance(i), c.dof[i], c.shared[i])
        low, high = c.alone[i][2:] if c.alone[i] else (c.mean[i] - half, c.mean[i] + half)
        compare(table, "mean", row["mean_rpm"], c.mean[i], of_value(u))
        compare(table, "standard uncertainty", row["standard_uncertainty_rpm"], u, of_size(u))
        compare(table, "degrees of freedom", row["degrees_of_freedom"], dof, of_size(dof))
        compare(table, "interval", row["interval_low_rpm"], low, of_value(u))
        compare(table, "interval", row["interval_high_rpm"], high, of_value(u))
        compare(table, "scatter", row["scatter_rpm"], c.scatter[i], of_size(c.scatter[i]))
        compare(table, "shots", row["shots"], c.shots[i], 0.0)
        if bands:
            for column, of in (("band", "mean_rpm"), ("band_of_low", "interval_low_rpm"), ("band_of_high", "interval_high_rpm")):
                compare_text(table, "bands", row[column], band_of(bands, float(row[of])))
    if not c.is_comparable or len(c.ids) < 2:
        for row in ranking:
            note(table, "rank", 0.0, row["rank_best"] is not None)
        return c
    check_ranks(table, ranking, c, place)
    check_pairs(table.replace("ranking", "pairs"), pairs, judged_pairs(c))
    check_letters(table, ranking, pairs)
    return c


def check_comparison(row, c):
    found = None
    if c.is_comparable and len(c.ids) > 1:
        found = c.f if c.model == "additive" else welch(c)
    compare("comparisons", "F", row["f"], found[0] if found else None, of_size(found[0] if found else 0.0))
    if found:
        p = f_tail(*found)
        compare("comparisons", "p", row["p"], p, of_p(p))
        compare_text("comparisons", "model", row["model"], c.model)


# ------------------------------------------------------------------ new against worn, drift, trends


def check_conditions(together):
    rows = [row for row in table_of("conditions") or [] if row["difference_rpm"]]
    pairs = judged_pairs(together) if rows else {}
    for row in rows:
        key = row["first_implement_id"], row["second_implement_id"]
        sign, one = (1.0, pairs[key]) if key in pairs else (-1.0, pairs[key[1], key[0]])
        compare("conditions", "difference", row["difference_rpm"], sign * one["difference"], of_value(one["se"]))
        for end, value in zip(("low", "high"), sorted((sign * one["low"], sign * one["high"]))):
            compare("conditions", "interval", row[f"interval_{end}_rpm"], value, of_value(one["se"]))
        compare("conditions", "p", row["adjusted_p"], one["p"], of_p(one["p"]))


def check_drift():
    for row in table_of("drift") or []:
        groups = defaultdict(list)
        for shot in SHOTS:
            if (is_counted(shot) and shot["session_id"] == row["session_id"] and shot["hitter_id"] == row["hitter_id"]):
                groups[shot["cell_id"]].append((float(shot["hitter_shot"]), float(shot["rate_rpm"])))
        count = sum(len(points) for points in groups.values())
        compare("drift", "shots", row["shots"], count, 0.0)
        if row["slope_rpm_per_shot"] is None:
            continue
        centred = []
        for points in groups.values():
            x0, y0 = mean(x for x, _ in points), mean(y for _, y in points)
            centred += [(x - x0, y - y0) for x, y in points]
        dof, sxx = count - len(groups) - 1, sum(x * x for x, _ in centred)
        slope = sum(x * y for x, y in centred) / sxx
        se = math.sqrt(sum((y - slope * x) ** 2 for x, y in centred) / dof / sxx)
        compare("drift", "slope", row["slope_rpm_per_shot"], slope, 0.005 * se)
        compare("drift", "standard error", row["standard_error_rpm_per_shot"], se, of_size(se))
        for end, sign in (("low", -1.0), ("high", 1.0)):
            compare("drift", "interval", row[f"interval_{end}_rpm_per_shot"], slope + sign * t95(dof) * se, 0.005 * se)
        p = 2.0 * t_tail(abs(slope / se), dof)
        compare("drift", "p", row["p"], p, of_p(p))


def ranks_of(values):
    return [sum(v < x for v in values) + 0.5 * (sum(v == x for v in values) + 1) for x in values]


def check_trends(ranking):
    means = {row["implement_id"]: float(row["mean_rpm"]) for row in ranking}
    for row in table_of("trends") or []:
        points = [(float(one["number"]), means[one["implement_id"]]) for one in table_of("attributes")
                  if one["attribute"] == row["attribute"] and one["number"] and one["implement_id"] in means]
        n = len(points)
        compare("trends", "implements", row["implements"], n, 0.0)
        for kind in ("pearson", "spearman"):
            if row[kind] is None:
                continue
            x, y = [p[0] for p in points], [p[1] for p in points]
            if kind == "spearman":
                x, y = ranks_of(x), ranks_of(y)
            x0, y0 = mean(x), mean(y)
            r = sum((a - x0) * (b - y0) for a, b in zip(x, y)) / math.sqrt(
                sum((a - x0) ** 2 for a in x) * sum((b - y0) ** 2 for b in y))
            r = max(-1.0, min(1.0, r))
            compare("trends", kind, row[kind], r, 0.0005)
            p = 2.0 * t_tail(abs(r) * math.sqrt((n - 2) / (1.0 - r * r)), n - 2) if abs(r) < 1.0 else 0.0
            compare("trends", "p of " + kind, row[kind + "_p"], p, of_p(p))
            if n > 3 and abs(r) < 1.0:
                reach = Z95 * math.sqrt((1.0 if kind == "pearson" else 1.0 + r * r / 2.0) / (n - 3))
                for end, sign in (("low", -1.0), ("high", 1.0)):
                    compare("trends", "interval of " + kind, row[f"{kind}_{end}"], math.tanh(math.atanh(r) + sign * reach), 0.0005)


def main():
    check_readings()
    cells = make_cells()
    check_cells(cells)
    check_implements(cells)
    comparisons = table_of("comparisons")
    ranking = table_of("ranking")
    together = check_ranking("ranking", ranking, table_of("pairs"), cells, None)
    ranking_by, pairs_by = table_of("ranking_by_hitter") or [], table_of("pairs_by_hitter") or []
    for row in comparisons:
        if row["scope"] == "all_hitters":
            check_comparison(row, together)
            continue
        hitter = row["hitter_id"]
        check_comparison(row, check_ranking(
            "ranking_by_hitter", [r for r in ranking_by if r["hitter_id"] == hitter],
            [r for r in pairs_by if r["hitter_id"] == hitter], cells, hitter))
    check_conditions(together)
    check_drift()
    check_trends(ranking)
    for standing in ("kept", "open", "set aside"):
        count = sum(shot["standing"] == standing for shot in SHOTS)
        compare("about", "shots", ABOUT["shots_" + standing.replace(" ", "_")], count, 0.0)
    for table, (count, share, worst, what) in LARGEST.items():
        print(f"{table:<20} {count:6d} numbers, largest difference {worst:.2g} ({what}), "
              f"{100.0 * share:.2g} % of what rounding allows")
    if FAILURES:
        print("\nNot the same, beyond the rounding of the published digits:")
        for failure in FAILURES[:40]:
            print("  " + failure)
        print(f"  {len(FAILURES)} in all")
        sys.exit(1)
    print("All published numbers follow from the tables.")


if __name__ == "__main__":
    main()
