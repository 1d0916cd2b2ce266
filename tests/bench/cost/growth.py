#!/usr/bin/python3
"""How the cost of wayfolio grows with what it is given: sizes doubled, processor time, memory and bytes of each, exponents fitted.
usage: growth.py BUILD_FOLDER [--part NAME ...]

An exponent is the slope of log(cost over that of nothing) on log(size), by least squares: 1 is in proportion. Those of time are to be at
most 1.05.
"""
import argparse
import math
import pathlib
import sys
import tempfile

import documents
from measure import Table, run

words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
words.add_argument("build", type=pathlib.Path)
words.add_argument("--part", action="append", choices=["targets", "runs", "series", "samples", "jobs", "records", "large"])
asked = words.parse_args()
wayfolio = asked.build / "wayfolio"
table = Table()


def exponent(sizes, costs):
    x, y = [math.log(size) for size in sizes], [math.log(cost) for cost in costs]
    mean_x, mean_y = sum(x) / len(x), sum(y) / len(y)
    return sum((a - mean_x) * (b - mean_y) for a, b in zip(x, y)) / sum((a - mean_x) ** 2 for a in x)


def best_of(rounds, make_words):
    costs = [run(*make_words()) for _ in range(rounds)]
    return min(costs, key=lambda cost: cost.processor)


def grow(what, sizes, words_of, out=None):
    """@param words_of the command for a size"""
    # The cost of beginning at all: evaluate is answered by the program in front, all else by the module that it loads.
    nothing = ["--version"] if words_of(sizes[0])[1] == "evaluate" else ["schema", "result"]
    base = best_of(5, lambda: [wayfolio, *nothing])
    costs = []
    for size in sizes:
        cost = best_of(3, lambda: words_of(size))
        costs.append(cost.processor - base.processor)
        size_of_file = f", {out.stat().st_size / 1000:.0f} kB" if out else ""
        print(f"  {what} {size:>9}: {cost.processor / base.processor:8.1f} times beginning, {cost.memory:6.1f} MiB{size_of_file}", flush=True)
    table.row(f"{what}: exponent of processor time", exponent(sizes, costs), at_most=1.05)


def by_document(what, sizes, make, verb, folder):
    out = folder / "out.pdf"
    paths = {size: documents.write(make(size), folder / f"{what}-{size}.json") for size in sizes}
    rest = ["-o", out] if verb == "report" else []
    grow(what, sizes, lambda size: [wayfolio, verb, paths[size], *rest], out if rest else None)


def targets(folder):
    table.head("Targets (one series, 5 runs each way): report")
    by_document("targets", [50, 100, 200, 400, 800], lambda size: documents.axis(1, targets=size, series=1), "report", folder)
    table.head("Targets: evaluate")
    by_document("targets", [200, 400, 800, 1600, 3200], lambda size: documents.axis(1, targets=size, series=1), "evaluate", folder)


def runs(folder):
    table.head("Runs each way (one series of 49 targets): report")
    by_document("runs", [5, 10, 20, 40, 80], lambda size: documents.axis(1, runs=size, series=1), "report", folder)


def series(folder):
    table.head("Series (49 targets, 5 runs each way): report; its pages grow with them")
    by_document("series", [6, 12, 24, 48], lambda size: documents.axis(1, series=size), "report", folder)


def samples(folder):
    table.head("Samples on the fly, as text: report of one page")
    sizes = [100_000, 300_000, 1_000_000, 3_000_000]
    paths = {}
    for size in sizes:
        text = documents.write_trace(folder / f"t{size}.csv", size)
        paths[size] = documents.write(documents.with_trace(text.name), folder / f"t{size}.json")
    out = folder / "out.pdf"
    grow("samples", sizes, lambda size: [wayfolio, "report", paths[size], "--layout", "summary", "-o", out], out)


def jobs(folder):
    table.head("Jobs of a batch (smallest sample, summary), one at a time")
    counter = iter(range(1000))
    sizes = [250, 500, 1000, 2000]
    for size in sizes:
        (folder / str(size)).mkdir()
        for seed in range(size):
            documents.write(documents.smallest(seed), folder / str(size) / f"J-{seed:05}.json")
    grow("jobs", sizes, lambda size: [wayfolio, "batch", folder / str(size), "-o", folder / f"out{next(counter)}", "--layout", "summary",
                                      "--jobs", 1])


def records(folder):
    table.head("Records in an archive: catalogue, index made anew")
    sizes = [500, 1000, 2000, 4000]
    counter = iter(range(1000))
    for size in sizes:
        run(asked.build / "wayfolio-archive", folder / str(size), size)
    grow("records", sizes, lambda size: [wayfolio, "catalogue", folder / str(size), "--index", folder / f"i{next(counter)}.sqlite"])


def large(folder):
    """The largest document that is allowed against the time that nlohmann's parser alone takes."""
    document = documents.axis(1, targets=1000, runs=245, decimals=16)
    path = documents.write(document, folder / "large.json")
    table.head(f"A document of {path.stat().st_size / 1e6:.0f} MB: check, over reading it with nlohmann's parser alone")
    alone = best_of(3, lambda: [asked.build / "wayfolio-parse", path])
    mine = best_of(3, lambda: [wayfolio, "check", path])
    table.row("check over parsing", mine.processor / alone.processor, at_most=3)
    table.row("most memory of check", mine.memory, "MiB")
    table.row("most memory of parsing", alone.memory, "MiB")


parts = {"targets": targets, "runs": runs, "series": series, "samples": samples, "jobs": jobs, "records": records, "large": large}
for name in asked.part or parts:
    with tempfile.TemporaryDirectory() as held:
        parts[name](pathlib.Path(held))
print(f"\n{table.missed} bars missed")
sys.exit(1 if table.missed else 0)
