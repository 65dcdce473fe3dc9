#!/usr/bin/env python3
"""Writes the reference values of this folder with NumPy and SciPy.

usage: python3 regenerate.py
"""
import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.spatial.transform import Rotation

HEAD = f"# NumPy {np.__version__}, SciPy {scipy.__version__}: python3 regenerate.py\n"
rng = np.random.default_rng(20240615)


def write(name, note, columns, rows):
    with open(name, "w") as out:
        out.write("# " + note + "\n" + HEAD + ",".join(columns) + "\n")
        for row in rows:
            out.write(",".join(f"{v:.15g}" for v in row) + "\n")


# Attitudes: scipy.spatial.transform.Rotation, turn multiplied from the left.
rows = []
for _ in range(24):
    start = Rotation.random(random_state=rng.integers(1 << 30))
    omega = rng.normal(size=3) * 250.0
    duration = rng.uniform(-0.05, 0.05)
    end = Rotation.from_rotvec(omega * duration) * start
    wxyz = [np.roll(r.as_quat(), 1) for r in (start, end)]
    rows.append([*wxyz[0], *omega, duration, *wxyz[1], (end * start.inv()).magnitude()])
write("attitudes.csv", "attitude after turning at a constant angular velocity (rad/s) for a time (s)",
      ["w0", "x0", "y0", "z0", "wx", "wy", "wz", "t", "w1", "x1", "y1", "z1", "angle"], rows)

# Outlines: the matrix of the conic in which the tangent cone meets the picture plane,
# (p.C)^2 = (C.C - r^2) p.p with p = (u, v, 1), its centre by solving, its axes by eigenvalues.
rows = []
for _ in range(24):
    centre = np.array([rng.uniform(-1, 1), rng.uniform(-0.6, 0.6), rng.uniform(0.8, 4.0)])
    radius = rng.uniform(0.02, 0.06)
    fov = rng.uniform(40.0, 80.0)
    focal = 640.0 / np.tan(np.radians(fov) / 2)
    conic = np.outer(centre, centre) - (centre @ centre - radius**2) * np.eye(3)
    a, b, c = conic[:2, :2], conic[:2, 2], conic[2, 2]
    middle = np.linalg.solve(a, -b)
    values, vectors = np.linalg.eigh(a / -(c + b @ middle))
    long_axis = vectors[:, np.argmin(abs(values))]
    semi = sorted(1 / np.sqrt(abs(values)), reverse=True)
    rows.append([fov, *centre, radius, 640 + focal * middle[0], 360 + focal * middle[1],
                 focal * semi[0], focal * semi[1], np.arctan2(long_axis[1], long_axis[0])])
write("outlines.csv", "outline of a ball in a 1280 x 720 picture; angle of the long axis modulo pi",
      ["fov", "x", "y", "z", "radius", "u", "v", "major", "minor", "angle"], rows)

# Flights with drag and lift: scipy.integrate.solve_ivp, DOP853, rtol 1e-12.
rows = []
for _ in range(8):
    p, v = rng.normal(size=3) * 0.3 + [0, 0, 3], rng.normal(size=3) * [20, 5, 5]
    omega = rng.normal(size=3) * 200
    mass, diameter, density = 0.058, 0.067, 1.2
    drag, lift = rng.uniform(0.3, 0.6), rng.uniform(0.05, 0.3)
    g = np.array([0.1, 9.79, -0.4])
    k = 0.5 * density * np.pi * diameter**2 / 4 / mass

    def motion(_, s):
        u = s[3:]
        speed = np.linalg.norm(u)
        across = np.cross(omega / np.linalg.norm(omega), u / speed)
        return [*u, *(g - k * drag * speed * u + k * lift * speed**2 * across)]

    t = rng.uniform(0.05, 0.5)
    end = solve_ivp(motion, (0, t), [*p, *v], method="DOP853", rtol=1e-12, atol=1e-14).y[:, -1]
    rows.append([*p, *v, *omega, *g, mass, diameter, density, drag, lift, t, *end])
write("flights.csv", "place and velocity after a time t with drag and lift (SI units)",
      ["px", "py", "pz", "vx", "vy", "vz", "wx", "wy", "wz", "gx", "gy", "gz", "mass", "diameter",
       "density", "drag", "lift", "t", "qx", "qy", "qz", "ux", "uy", "uz"], rows)
