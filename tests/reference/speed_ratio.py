"""How much faster the program's taut lengths are than an exact polyhedral geodesic as accurate.

One command, from anywhere (README.md says how to make the venv):

    target/venv/bin/python tests/reference/speed_ratio.py

It asks both the wrapped ellipsoids and spheres of hull_table.csv whose lengths
are known to a few ten-thousandths of a centimetre:

- the program: the release build of `taut`, all questions many times over as
  JSON lines, less the time of as many questions whose answer is a straight
  line, so that starting, and reading and writing JSON, do not count.  The time
  with JSON is printed too.
- the reference: the convex hull of n points of the head, the root and the hold
  (scipy), and the exact geodesic on it (pygeodesic), one after the other on one
  core.  Sampling the head does not count, as it could be done once; the hull
  does, as it depends on the hold.  The geodesic alone is printed too.

The accuracy that counts is 0.05 cm, the program's promise against the hull: the
smallest mesh whose worst error stays below it.  Finer meshes follow, as the
program's own error is far smaller.
"""

import csv
import json
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
from pygeodesic.geodesic import PyGeodesicAlgorithmExact
from scipy.spatial import ConvexHull

from hull_table import Body, fibonacci_sphere, on_surface, random_rotation, stretch

HERE = Path(__file__).parent
PROJECT = HERE.parent.parent
CASES = 40
# How often the program is asked the same questions in one run, and runs.
ROUNDS, RUNS = 500, 7
# 16,000 points take 3 s a length (0.002 cm), 32,000 some 20 s.
SIZES = (250, 500, 1000, 2000, 4000, 8000)
# Meshes as they are turned differ; the worst error is over so many turns.
TURNS = 3
PROMISE = 0.05


def cases():
    """Bodies, roots, holds and known lengths, evenly from the table."""
    with open(HERE / "hull_table.csv", encoding="utf-8") as file:
        rows = [
            row
            for row in csv.DictReader(file)
            if row["body"] != "skull" and row["wrapped"] == "true"
        ]
    chosen = [rows[i * len(rows) // CASES] for i in range(CASES)]
    for row in chosen:
        body = Body(row["body"], *(float(row[key]) for key in "a b k m A B G".split()))
        point = lambda name: np.array([float(row[f"{name}_{axis}"]) for axis in "xyz"])
        yield body, point("root"), point("hold"), float(row["length"])


def program(questions):
    """Of the release build of `taut`: lengths, seconds for one, and for one with JSON."""
    subprocess.run(
        ["cargo", "build", "--locked", "--release", "--quiet", "--bin", "taut"],
        cwd=PROJECT,
        check=True,
    )
    found = subprocess.run(
        ["cargo", "metadata", "--locked", "--no-deps", "--format-version=1"],
        cwd=PROJECT,
        check=True,
        capture_output=True,
    )
    command = Path(json.loads(found.stdout)["target_directory"]) / "release" / "taut"

    def asked(holds):
        return "".join(
            json.dumps(
                {
                    "axes": [body.a, body.b, body.A**-0.5],
                    "root": root.tolist(),
                    "hold": hold.tolist(),
                }
            )
            + "\n"
            for (body, root, *_), hold in zip(questions, holds)
        ).encode()

    def run(text):
        began = time.perf_counter()
        done = subprocess.run([command], input=text, capture_output=True, check=True)
        return time.perf_counter() - began, done.stdout

    text = asked([hold for _, _, hold, _ in questions])
    # Straight out from the root: as many digits and nothing to work out.
    straight = asked([root * 2.7182818284590452 for _, root, *_ in questions])
    lengths = [json.loads(line)["length"] for line in run(text)[1].splitlines()]
    start = min(run(b"")[0] for _ in range(RUNS))
    plain = min(run(straight * ROUNDS)[0] for _ in range(RUNS))
    whole = min(run(text * ROUNDS)[0] for _ in range(RUNS))
    count = ROUNDS * len(questions)
    return np.array(lengths), (whole - plain) / count, (whole - start) / count


def reference(body, root, hold, n, rng):
    """Length on the hull of n points, and seconds for the hull and the geodesic."""
    unit = fibonacci_sphere(n) @ random_rotation(rng)
    points = np.vstack([on_surface(body, stretch(body, unit)), root, hold])
    began = time.perf_counter()
    # The exact algorithm takes faces whichever way round they are.
    hull = ConvexHull(points)
    used, faces = np.unique(hull.simplices, return_inverse=True)
    faces = faces.reshape(-1, 3).astype(np.int32)
    hulled = time.perf_counter()
    mesh = PyGeodesicAlgorithmExact(points[used], faces)
    length, _ = mesh.geodesicDistance(len(used) - 2, len(used) - 1)
    return length, hulled - began, time.perf_counter() - hulled


def main():
    questions = list(cases())
    known = np.array([length for *_, length in questions])
    ours, seconds, with_json = program(questions)
    print(
        f"{len(questions)} wrapped cases; program: {seconds * 1e6:.2f} µs a length, {with_json * 1e6:.2f} with JSON, "
        f"worst error {np.max(np.abs(ours - known)):.5f} cm (the table's own: about 0.0005)"
    )
    print("\n mesh points  worst error  median error  hull + geodesic  geodesic     ratio  geodesic's")
    print("                    (cm)          (cm)             (ms)      (ms)")
    rng = np.random.default_rng(20260101)
    kept = None
    for n in SIZES:
        turns = TURNS if n <= 4000 else 1
        runs = np.array(
            [
                [reference(body, root, hold, n, rng) for _ in range(turns)]
                for body, root, hold, _ in questions
            ]
        )
        errors = np.abs(runs[:, :, 0] - known[:, None])
        hull, geodesic = (np.mean(np.min(runs[:, :, i], axis=1)) for i in (1, 2))
        ratio, alone = (hull + geodesic) / seconds, geodesic / seconds
        print(
            f"{n:12d}{np.max(errors):13.4f}{np.median(errors):14.4f}{(hull + geodesic) * 1e3:17.2f}"
            f"{geodesic * 1e3:10.2f}{ratio:10.0f}{alone:12.0f}",
            flush=True,
        )
        if kept is None and np.max(errors) <= PROMISE:
            kept = n, ratio, alone
    n, ratio, alone = kept or sys.exit("no mesh keeps the promise")
    print(
        f"\nat {PROMISE} cm ({n} points): {ratio:.0f} times faster than hull and geodesic, "
        f"{alone:.0f} times than the geodesic alone"
    )


if __name__ == "__main__":
    main()
