"""Seeded documents: the axes of the samples with other readings."""
import json
import pathlib
import random

samples = pathlib.Path(__file__).resolve().parents[3] / "sample-results"


def axis(seed, targets=49, runs=5, series=6, decimals=2):
    """An axis of so many targets, runs in each direction and quantities. The excluded and missing readings of the sample are not in it."""
    document = json.loads((samples / "short-axis.json").read_text())
    draw = random.Random(seed)
    document["job"]["number"] = f"WF-{seed:06}"
    known = document["series"]
    document["series"] = [known[i % len(known)] | ({"id": f"again-{i}"} if i >= len(known) else {}) for i in range(series)]
    kept = {one["id"] for one in document["series"]}
    stated = document["uncertainty"]["stated"]
    document["uncertainty"]["stated"] = [one for one in stated if one["series"] in kept]
    for one in document["series"]:
        last = max(one["targets"][-1], 1600)
        one["targets"] = [0] + sorted(round(last * (i + draw.uniform(-0.2, 0.2)) / (targets - 1), 1) for i in range(1, targets - 1)) + [last]
        bow, ripple = draw.uniform(-4, 4), draw.uniform(0.2, 1)
        pattern = [run for run in one["runs"][:2]]
        one["runs"] = [run_of(pattern[i % 2], one["targets"], draw, bow, ripple, decimals) for i in range(2 * runs)]
        one.pop("trace", None)
    return document


def run_of(pattern, targets, draw, bow, ripple, decimals):
    run = {key: value for key, value in pattern.items() if key in ("approach", "started", "ended")}
    last = targets[-1]
    run["deviations"] = [round(bow * (x / last) * (1 - x / last) + ripple * draw.uniform(-1, 1), decimals) for x in targets]
    return run


def smallest(seed):
    document = json.loads((samples / "smallest.json").read_text())
    document["job"]["number"] = f"S-{seed:06}"
    document["series"][0]["runs"][0]["deviations"][0] = seed % 1000 / 100
    return document


def with_trace(file):
    """A straightness by a trace alone."""
    document = json.loads((samples / "smallest.json").read_text())
    document["series"] = [{"id": "trace", "error": "EYX", "unit": "um", "position_unit": "mm", "trace": {"file": file}}]
    return document


def write_trace(path, samples):
    """There and back over a metre, as text: a bow, a period of 10 mm and noise."""
    draw = random.Random(samples)
    with path.open("w") as file:
        file.write("position,value\n")
        for i in range(samples):
            way = 2000 * i / (samples - 1)
            x = min(way, 2000 - way)
            within = x / 10 % 1
            file.write(f"{x:.4f},{x * (1000 - x) / 40000 + 2 * within * (1 - within) + draw.random():.3f}\n")
    return path


def write(document, path):
    path.write_text(json.dumps(document))
    return path
