"""Reference table of shortest paths outside a convex head.

A strand starts at a root on the surface of a convex body K and ends at a hold
point outside it.  The shortest path between the two that does not enter K
lies on the boundary of conv(K + {hold}), so it can be measured as a geodesic
of a convex polyhedron:

 1. sample the surface of K with n points, and add the root and the hold;
 2. take the convex hull of all of them, a closed triangle mesh;
 3. measure the exact geodesic of that mesh from the root to the hold
    (Mitchell, Mount and Papadimitriou 1987, as implemented by Kirsanov).

The inscribed mesh is a little too small, by an amount proportional to 1/n.
Each case is therefore measured on several meshes of several sizes, and a
straight line in 1/n is carried to 1/n = 0.

When the hold can be seen from the root, the path is the straight line.

The body is F(p) = 1, with X = x/a, Y = y/b and

    F = X^4 + Y^4 + 2k X^2 Y^2 + 2m (X^2 + Y^2) zeta(z) + zeta(z)^2
    zeta(z) = A z^2 + B z^3 + G z^4

which is an ellipsoid for k = m = 1, B = G = 0.  Axes: x to the client's left,
y forward, z up.  Lengths are in centimetres.

Two independent checks are printed at the end: spheres against the closed
form, and every wrapped case against a geodesic shot over the smooth surface.
Neither of them has any influence on the table.

Usage: python hull_table.py [output.csv]
"""

import csv
import sys
import time
from collections import namedtuple
from pathlib import Path

import numpy as np
from pygeodesic.geodesic import PyGeodesicAlgorithmExact
from scipy.integrate import solve_ivp
from scipy.optimize import root as solve_root
from scipy.spatial import ConvexHull

SEED = 20240611
COUNTS = {"ellipsoid": 120, "skull": 90, "sphere": 10}
# Share of the cases of each kind; see `draw_hold`.
KINDS = {"visible": 0.25, "moderate": 0.60, "hard": 0.15}

FIT_SIZES = (2000, 4000, 8000)  # mesh sizes carried to 1/n = 0
COARSE_SIZES = (125, 250, 500, 1000)  # measured for the cost table only
REPEATS = 8  # meshes of each size, each turned at random
ERR_FACTOR = 4.0  # standard errors of the fit quoted as the error
ERR_FIT = 1e-4  # added to that, for what a straight line in 1/n leaves out (cm)
ERR_CHORD = 1e-5  # error of a straight path, which is the rounding of the table

Body = namedtuple("Body", "name a b k m A B G")


# ---------------------------------------------------------------- the body


def value(body, p):
    """F at the points p, an array whose last axis holds x, y, z."""
    x2, y2, z = (p[..., 0] / body.a) ** 2, (p[..., 1] / body.b) ** 2, p[..., 2]
    zeta = z * z * (body.A + z * (body.B + z * body.G))
    return (
        x2 * x2 + y2 * y2 + 2 * body.k * x2 * y2
        + 2 * body.m * (x2 + y2) * zeta + zeta * zeta
    )


def gradient(body, p):
    """Gradient of F, which points out of the body."""
    x, y, z = p[..., 0], p[..., 1], p[..., 2]
    x2, y2 = (x / body.a) ** 2, (y / body.b) ** 2
    zeta = z * z * (body.A + z * (body.B + z * body.G))
    dzeta = z * (2 * body.A + z * (3 * body.B + z * 4 * body.G))
    return np.stack(
        [
            4 * x / body.a**2 * (x2 + body.k * y2 + body.m * zeta),
            4 * y / body.b**2 * (y2 + body.k * x2 + body.m * zeta),
            2 * dzeta * (body.m * (x2 + y2) + zeta),
        ],
        axis=-1,
    )


def hessian(body, p):
    """Second derivatives of F, as matrices on the last two axes."""
    x, y, z = p[..., 0], p[..., 1], p[..., 2]
    x2, y2 = (x / body.a) ** 2, (y / body.b) ** 2
    zeta = z * z * (body.A + z * (body.B + z * body.G))
    dzeta = z * (2 * body.A + z * (3 * body.B + z * 4 * body.G))
    ddzeta = 2 * body.A + z * (6 * body.B + z * 12 * body.G)
    h = np.empty(p.shape[:-1] + (3, 3))
    h[..., 0, 0] = 4 / body.a**2 * (3 * x2 + body.k * y2 + body.m * zeta)
    h[..., 1, 1] = 4 / body.b**2 * (3 * y2 + body.k * x2 + body.m * zeta)
    h[..., 2, 2] = 2 * ddzeta * (body.m * (x2 + y2) + zeta) + 2 * dzeta**2
    h[..., 0, 1] = h[..., 1, 0] = 8 * body.k * x * y / (body.a * body.b) ** 2
    h[..., 0, 2] = h[..., 2, 0] = 4 * body.m * x / body.a**2 * dzeta
    h[..., 1, 2] = h[..., 2, 1] = 4 * body.m * y / body.b**2 * dzeta
    return h


def on_surface(body, directions):
    """Points where the rays from the origin along `directions` leave the body.

    Newton's method in the logarithms of F and of the distance: F grows along
    a ray between the fourth and the eighth power, so it is nearly linear there.
    """
    p = np.array(directions, dtype=float)
    for _ in range(60):
        f = value(body, p)
        slope = np.einsum("...i,...i->...", p, gradient(body, p)) / f
        step = -np.log(f) / slope
        p *= np.exp(step)[..., None]
        if np.max(np.abs(step)) < 1e-15:
            break
    assert np.max(np.abs(value(body, p) - 1)) < 1e-10
    return p


def stretch(body, unit):
    """Stretch unit directions by the half-extents of the body."""
    top, low = on_surface(body, np.array([[0, 0, 1.0], [0, 0, -1.0]]))[:, 2]
    z = np.where(unit[:, 2] > 0, top, -low) * unit[:, 2]
    return np.column_stack([body.a * unit[:, 0], body.b * unit[:, 1], z])


def least_curvature(body, n=4000):
    """Smallest principal curvature over a sample of the surface, in 1/cm."""
    p = on_surface(body, stretch(body, fibonacci_sphere(n)))
    g = gradient(body, p)
    size = np.linalg.norm(g, axis=1)
    tangent = np.linalg.svd((g / size[:, None])[:, None, :])[2][:, 1:]
    second = tangent @ hessian(body, p) @ tangent.transpose(0, 2, 1)
    return np.min(np.linalg.eigvalsh(second) / size[:, None])


def sees(body, root, hold):
    """Whether the hold is on or above the tangent plane at the root."""
    return gradient(body, root) @ (hold - root) >= 0


# ------------------------------------------------------ the polyhedral path


def fibonacci_sphere(n):
    """n nearly even points on the unit sphere."""
    i = np.arange(n) + 0.5
    z = 1 - 2 * i / n
    turn = np.pi * (1 + 5**0.5) * i
    s = np.sqrt(1 - z * z)
    return np.column_stack([s * np.cos(turn), s * np.sin(turn), z])


def random_rotation(rng):
    """A rotation matrix, uniform over all rotations."""
    q, r = np.linalg.qr(rng.normal(size=(3, 3)))
    q *= np.sign(np.diag(r))
    return q if np.linalg.det(q) > 0 else -q


def polyhedral_path(body, root, hold, n, rng):
    """Shortest path over the hull of n surface points, the root and the hold.

    Returns the length and the points of the path, root first.
    """
    unit = fibonacci_sphere(n) @ random_rotation(rng)
    points = np.vstack([on_surface(body, stretch(body, unit)), root, hold])
    hull = ConvexHull(points)

    # Turn every face so that its corners run anticlockwise seen from outside.
    faces = hull.simplices.copy()
    p, q, r = (points[faces[:, i]] for i in range(3))
    inward = np.einsum("ij,ij->i", np.cross(q - p, r - p), hull.equations[:, :3]) < 0
    faces[inward] = faces[inward][:, ::-1]

    # Drop the points that the hold has buried, and number the rest again.
    used, faces = np.unique(faces, return_inverse=True)
    faces = faces.reshape(-1, 3).astype(np.int32)
    assert used[-2] == n and used[-1] == n + 1, "the root or the hold is buried"

    mesh = PyGeodesicAlgorithmExact(points[used], faces)
    length, path = mesh.geodesicDistance(len(used) - 2, len(used) - 1)
    if np.linalg.norm(path[0] - root) > np.linalg.norm(path[-1] - root):
        path = path[::-1]
    return length, path


Measured = namedtuple("Measured", "length err path sizes")


def measure(body, root, hold, rng):
    """Length carried to 1/n = 0, its error, and what each size of mesh gave.

    The model is length(n) = length - c/n, with scatter that also falls as
    1/n.  Multiplied by n it is the plain straight line n*length(n) =
    length*n - c, whose slope and standard error are what is wanted.
    """
    sizes = {}
    for n in COARSE_SIZES + FIT_SIZES:
        began = time.perf_counter()
        runs = [polyhedral_path(body, root, hold, n, rng) for _ in range(REPEATS)]
        seconds = (time.perf_counter() - began) / REPEATS
        sizes[n] = ([length for length, _ in runs], seconds)
    path = runs[-1][1]  # from the finest mesh

    n = np.repeat(FIT_SIZES, REPEATS).astype(float)
    y = n * np.concatenate([sizes[size][0] for size in FIT_SIZES])
    spread = n - n.mean()
    length = spread @ y / (spread @ spread)
    residual = y - y.mean() - length * spread
    deviation = np.sqrt(residual @ residual / (len(n) - 2) / (spread @ spread))
    return Measured(length, ERR_FIT + ERR_FACTOR * deviation, path, sizes)


# --------------------------------------------------------------- the checks


def sphere_length(radius, root, hold):
    """Closed form of the length for a sphere about the origin."""
    d = np.linalg.norm(hold)
    # atan2 keeps its precision where acos would lose it.
    angle = np.arctan2(np.linalg.norm(np.cross(root, hold)), root @ hold)
    horizon = np.arccos(radius / d)
    if angle <= horizon:
        return np.linalg.norm(hold - root)
    return radius * (angle - horizon) + np.sqrt(d * d - radius * radius)


def shot_length(body, root, hold, path):
    """Length of the smooth path near `path`, or None if none was found.

    A geodesic leaves the root at some heading and, after some arc, leaves the
    surface along its tangent, which must meet the hold after some free length.
    Three unknowns and three equations, started from the polyhedral path.
    """
    normal = gradient(body, root)
    normal /= np.linalg.norm(normal)
    east = path[1] - root
    east = east - (east @ normal) * normal
    east /= np.linalg.norm(east)
    north = np.cross(normal, east)

    def slope(_, state):
        p, v = state[:3], state[3:]
        g = gradient(body, p)
        return np.concatenate([v, -(v @ hessian(body, p) @ v) / (g @ g) * g])

    def miss(unknown):
        heading, arc, free = unknown
        start = np.concatenate(
            [root, np.cos(heading) * east + np.sin(heading) * north]
        )
        run = solve_ivp(slope, (0, arc), start, "DOP853", rtol=1e-10, atol=1e-10)
        return run.y[:3, -1] + free * run.y[3:, -1] - hold

    legs = np.linalg.norm(np.diff(path, axis=0), axis=1)
    found = solve_root(miss, [0.0, legs[:-1].sum(), legs[-1]], tol=1e-9)
    _, arc, free = found.x
    if np.linalg.norm(found.fun) > 1e-6 or arc < 0 or free < 0:
        return None
    return arc + free


# ---------------------------------------------------------------- the cases


def draw_body(name, rng):
    """A random body of the kind named."""
    if name == "sphere":
        radius = rng.uniform(7.0, 10.0)
        return Body(name, radius, radius, 1.0, 1.0, radius**-2, 0.0, 0.0)
    if name == "ellipsoid":
        a, b, c = rng.uniform([6.5, 8.5, 7.0], [8.5, 10.5, 11.0])
        return Body(name, a, b, 1.0, 1.0, c**-2, 0.0, 0.0)
    a, b, k, m, top, q = rng.uniform(
        [6.9, 8.8, 0.45, 0.7, 7.8, 1.42], [8.0, 10.4, 0.95, 1.0, 9.5, 1.52]
    )
    # zeta is 1 both at the top and at the lowest point, -q * top.
    g = 0.05
    beta = (1 - g - (1 / q**2 - g * q**2)) / (1 + q)
    alpha = 1 - g - beta
    return Body(name, a, b, k, m, alpha / top**2, beta / top**3, g / top**4)


def draw_root(body, rng):
    """A random point of the surface; on skulls, not on the neck."""
    low = on_surface(body, np.array([[0, 0, -1.0]]))[0, 2]
    while True:
        p = on_surface(body, stretch(body, rng.normal(size=(1, 3))))[0]
        if body.name != "skull" or p[2] >= 0.7 * low:
            return p


def draw_hold(body, root, kind, rng):
    """A random hold 2 to 40 cm off the surface, of the kind asked for.

    The angle is the one at the origin between the root and the hold:
      visible   any angle, and the root sees the hold;
      moderate  50 to 130 degrees, and the path is wrapped;
      hard      140 to 180 degrees, where a path round either side competes.
    """
    low, high = {"visible": (0, 100), "moderate": (50, 130), "hard": (140, 180)}[kind]
    along = root / np.linalg.norm(root)
    while True:
        side = np.cross(along, rng.normal(size=3))
        side /= np.linalg.norm(side)
        angle = np.radians(rng.uniform(low, high))
        foot = on_surface(body, np.cos(angle) * along + np.sin(angle) * side)
        # Half of the holds are above the foot, half of them farther out from
        # the origin.  Distances are even in the logarithm, as most are short.
        out = gradient(body, foot) if rng.random() < 0.5 else foot
        distance = np.exp(rng.uniform(np.log(2.0), np.log(40.0)))
        hold = foot + distance * out / np.linalg.norm(out)
        true_angle = np.degrees(np.arccos(along @ hold / np.linalg.norm(hold)))
        if low <= true_angle <= high and sees(body, root, hold) == (kind == "visible"):
            return hold


def kinds(count):
    """The kinds of `count` cases, in the shares of KINDS."""
    edges = np.cumsum(list(KINDS.values()))
    return [list(KINDS)[np.searchsorted(edges, (i + 0.5) / count)] for i in range(count)]


def draw_cases(rng):
    """Yield (kind, body, root, hold) for every line of the table."""
    for name, count in COUNTS.items():
        for kind in kinds(count):
            body = draw_body(name, rng)
            root = draw_root(body, rng)
            yield kind, body, root, draw_hold(body, root, kind, rng)


# ------------------------------------------------------------------ the run


def main():
    default = Path(__file__).with_suffix(".csv")
    output = Path(sys.argv[1]) if len(sys.argv) > 1 else default
    began = time.perf_counter()

    # The cases have their own stream, so that they do not depend on the meshes.
    case_rng, mesh_rng = (np.random.default_rng([SEED, i]) for i in range(2))
    rows, errs, curvatures = [], [], []
    sphere_gaps, shot_gaps, unshot = [], [], []
    raw = {n: [] for n in COARSE_SIZES + FIT_SIZES}
    seconds = {n: [] for n in COARSE_SIZES + FIT_SIZES}

    for number, (kind, body, root, hold) in enumerate(draw_cases(case_rng), 1):
        curvatures.append(least_curvature(body))
        assert curvatures[-1] > 0, "the body is not convex"
        wrapped = not sees(body, root, hold)
        if wrapped:
            length, err, path, sizes = measure(body, root, hold, mesh_rng)
            errs.append(err)
            for n, (lengths, each) in sizes.items():
                raw[n].append(np.max(np.abs(np.subtract(lengths, length))))
                seconds[n].append(each)
            shot = shot_length(body, root, hold, path)
            if shot is None:
                unshot.append(number)
            else:
                shot_gaps.append((abs(shot - length), number, err))
        else:
            length, err = np.linalg.norm(hold - root), ERR_CHORD
        if body.name == "sphere":
            sphere_gaps.append(abs(length - sphere_length(body.a, root, hold)))

        inputs = [repr(float(v)) for v in (*body[1:], *root, *hold)]
        rows.append(
            [body.name, *inputs, f"{length:.5f}", str(wrapped).lower(), f"{err:.5f}"]
        )
        print(f"{number:4d} {body.name:9s} {kind:8s} {length:10.5f} +- {err:.5f}", flush=True)

    with open(output, "w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(
            "body a b k m A B G root_x root_y root_z hold_x hold_y hold_z "
            "length wrapped err".split()
        )
        writer.writerows(rows)

    print(f"\n{len(rows)} cases, {len(errs)} wrapped")
    print(f"error estimate, wrapped: median {np.median(errs):.5f}, worst {max(errs):.5f} cm")
    print(f"worst difference from the closed form on spheres: {max(sphere_gaps):.6f} cm")
    print(
        f"difference from shooting, {len(shot_gaps)} cases: "
        f"median {np.median([gap for gap, _, _ in shot_gaps]):.6f}, "
        f"worst {max(shot_gaps)[0]:.6f} cm (case {max(shot_gaps)[1]})"
    )
    over = [number for gap, number, err in shot_gaps if gap > err]
    print(f"cases where that is more than the error estimate: {over or 'none'}")
    print(f"cases where shooting found no path: {unshot or 'none'}")
    print(f"least curvature of any body: {min(curvatures):.4f} per cm")
    print("\nmesh points   error before extrapolation (cm)   time of one path (s)")
    print("                 median       worst                mean      worst")
    for n in raw:
        print(
            f"{n:11d}{np.median(raw[n]):12.5f}{max(raw[n]):12.5f}"
            f"{np.mean(seconds[n]):20.4f}{max(seconds[n]):11.4f}"
        )
    print(f"\nran for {time.perf_counter() - began:.0f} s")


if __name__ == "__main__":
    main()
