#!/usr/bin/env python3
"""Reference values of the rotation fit's mathematics. Needs numpy and scipy; writes CSV beside itself.

Command: python3 make_reference.py
"""
import numpy as np
import scipy
from scipy.spatial.transform import Rotation
from scipy.special import sph_harm

rng = np.random.default_rng(20260101)
ORIGIN = f"# python3 make_reference.py with SciPy {scipy.__version__}, NumPy {np.__version__}\n"


def rotations():
    with open("rotations_scipy.csv", "w") as out:
        out.write(ORIGIN + "# rotation vector -> matrix (row-major): scipy.spatial.transform.Rotation\n")
        out.write("rx,ry,rz," + ",".join(f"m{i}{j}" for i in range(3) for j in range(3)) + "\n")
        vectors = [np.zeros(3), np.array([1e-9, -2e-9, 3e-9]), np.array([0.0, 0.0, np.pi / 2])]
        for angle in (1e-6, 0.1, 1.0, 2.0, 3.0, 3.14159):
            axis = rng.normal(size=3)
            vectors.append(angle * axis / np.linalg.norm(axis))
        for r in vectors:
            m = Rotation.from_rotvec(r).as_matrix()
            out.write(",".join(repr(float(v)) for v in [*r, *m.ravel()]) + "\n")


def harmonics():
    with open("harmonics_scipy.csv", "w") as out:
        out.write(ORIGIN + "# real harmonics without Condon-Shortley phase from scipy.special.sph_harm\n")
        out.write("l,m,x,y,z,value\n")
        for _ in range(4):
            p = rng.normal(size=3)
            p /= np.linalg.norm(p)
            azimuth, polar = np.arctan2(p[1], p[0]), np.arccos(p[2])
            for l in range(9):
                for m in range(-l, l + 1):
                    y = sph_harm(abs(m), l, azimuth, polar) * (-1.0) ** abs(m)
                    v = y.real if m == 0 else np.sqrt(2) * (y.real if m > 0 else y.imag)
                    out.write(f"{l},{m}," + ",".join(repr(float(c)) for c in [*p, v]) + "\n")


def dispersion():
    """Stellingwerf (1978): s_j^2 sample variance in bin j; s^2 = sum (n_j-1) s_j^2 / (sum n_j - M)."""
    times = np.sort(rng.uniform(0.0, 10.0, 60))
    values = np.sin(2 * np.pi * times / 1.7) + 0.2 * rng.normal(size=60)
    with open("dispersion_series.csv", "w") as out:
        out.write(ORIGIN + "# a noisy sine of period 1.7\ntime,value\n")
        for t, v in zip(times, values):
            out.write(f"{float(t)!r},{float(v)!r}\n")
    with open("dispersion_theta.csv", "w") as out:
        out.write(ORIGIN + "# theta in 10 bins of phase, numpy.var(ddof=1) per bin\nperiod,theta\n")
        for period in (0.9, 1.3, 1.65, 1.7, 1.75, 2.4, 3.4):
            bins = np.floor((times / period) % 1.0 * 10).astype(int)
            groups = [values[bins == j] for j in range(10) if np.any(bins == j)]
            pooled = sum((len(g) - 1) * (np.var(g, ddof=1) if len(g) > 1 else 0.0) for g in groups)
            theta = pooled / (len(values) - len(groups)) / np.var(values, ddof=1)
            out.write(f"{period},{float(theta)!r}\n")


rotations()
harmonics()
dispersion()
