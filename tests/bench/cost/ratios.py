#!/usr/bin/python3
"""What wayfolio costs, as ratios of one run, on a machine that does nothing else.
usage: ratios.py BUILD_FOLDER [--part NAME ...] [--samples N ...] [--jobs N] [--callgrind]

Parts: cold, peers, batch, memory, archive, trace. Without one, all of them. --samples: of the traces (1e6 and 1e7; 1e8 takes 3 GB of disk and
minutes). --jobs: of the warm batch (1000). --callgrind: instructions too, where valgrind is installed; they do not depend on what else the machine does.
"""
import argparse
import json
import pathlib
import re
import subprocess
import sys
import tempfile

import documents
import peers
from measure import Table, run, side_by_side

words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
words.add_argument("build", type=pathlib.Path)
words.add_argument("--part", action="append", choices=["cold", "peers", "batch", "memory", "archive", "trace"])
words.add_argument("--samples", type=float, nargs="+", default=[1e6, 1e7])
words.add_argument("--jobs", type=int, default=1000)
words.add_argument("--callgrind", action="store_true")
asked = words.parse_args()
wayfolio, floor, keep_pages = (asked.build / name for name in ("wayfolio", "wayfolio-floor", "wayfolio-pages"))
table = Table()
figure_of = ("x-exx-found", "error")


def commands_of(document, folder):
    """Cold runs of the program and, on the same finished pages, of the floor."""
    run(keep_pages, document, "report", folder / "report.pages")
    run(keep_pages, document, "/".join(figure_of), folder / "figure.pages")
    figure = ["--series", figure_of[0], "--figure", figure_of[1]]
    return {
        "true": ["true"],
        "version": [wayfolio, "--version"],
        "help": [wayfolio, "--help"],
        "evaluate": [wayfolio, "evaluate", document],
        "report": [wayfolio, "report", document, "-o", folder / "r.pdf"],
        "summary": [wayfolio, "report", document, "--layout", "summary", "-o", folder / "s.pdf"],
        "figure, SVG": [wayfolio, "figure", document, *figure, "-o", folder / "f.svg"],
        "figure, PDF": [wayfolio, "figure", document, *figure, "-o", folder / "f.pdf"],
        "floor of the report": [floor, folder / "report.pages", folder / "fr.pdf"],
        "floor of the figure, SVG": [floor, folder / "figure.pages", folder / "ff.svg"],
        "floor of the figure, PDF": [floor, folder / "figure.pages", folder / "ff.pdf"],
    }


def cold(folder):
    table.head("Cold: a process for each, six quantities, 49 targets, 5 runs each way; medians of 21, taken in turns")
    commands = commands_of(documents.write(documents.axis(1), folder / "axis.json"), folder)
    costs = side_by_side(commands, 21)
    for name, cost in costs.items():
        table.row(f"{name}: wall time over that of true", cost.wall / costs["true"].wall)
    over = lambda a, b: costs[a].wall / costs[b].wall
    table.row("report over its floor", over("report", "floor of the report"), at_most=1.6)
    table.row("figure as SVG over its floor", over("figure, SVG", "floor of the figure, SVG"), at_most=1.5)
    table.row("figure as PDF over its floor", over("figure, PDF", "floor of the figure, PDF"))
    table.row("--version over true", over("version", "true"), at_most=6)
    table.row("--help over true", over("help", "true"), at_most=6)
    table.row("evaluate over --version", over("evaluate", "version"), at_most=3)
    table.row("most memory of report", costs["report"].memory, "MiB", at_most=40)
    table.row("report: bytes", (folder / "r.pdf").stat().st_size / 1000, "kB")
    table.row("figure as SVG: bytes", (folder / "f.svg").stat().st_size / 1000, "kB")
    if asked.callgrind:
        count_instructions(commands, folder)


def count_instructions(commands, folder):
    table.head("Instructions (callgrind), millions; they are the same whatever else the machine does")
    for name in ("version", "evaluate", "summary", "report", "floor of the report", "figure, SVG", "floor of the figure, SVG"):
        out = folder / "callgrind.out"
        done = subprocess.run(["valgrind", "--tool=callgrind", f"--callgrind-out-file={out}", *map(str, commands[name])], capture_output=True,
                              text=True, check=True)
        table.row(name, int(re.search(r"Collected : (\d+)", done.stderr)[1]) / 1e6, "M")


def peer_plots(folder):
    document = documents.write(documents.axis(1), folder / "axis.json")
    others = peers.figures(document, folder)
    if not others:
        table.head("No peers: neither gnuplot nor python3-matplotlib is installed")
        return
    table.head("The same plot by others, over wayfolio's figure in the same format; medians of 5")
    mine = {name: words for name, words in commands_of(document, folder).items() if name.startswith("figure")}
    costs = side_by_side(mine | others, 5)
    for name in others:
        table.row(f"{name}, over wayfolio", costs[name].wall / costs["figure, " + name[-3:]].wall)


def manifest_of(folder, name, made):
    """Documents of a batch and its manifest."""
    (folder / name).mkdir()
    for i, document in enumerate(made):
        documents.write(document, folder / name / f"J-{i:05}.json")
    manifest = folder / f"{name}.jsonl"
    manifest.write_text("".join(json.dumps({"document": f"{name}/{path.name}"}) + "\n" for path in sorted((folder / name).iterdir())))
    return manifest


def batch(folder):
    table.head(f"Warm: a batch of {asked.jobs} different axes (six quantities, 49 targets, 5 runs each way), report of each")
    manifest = manifest_of(folder, "axes", (documents.axis(seed) for seed in range(asked.jobs)))
    run(keep_pages, folder / "axes/J-00000.json", "report", folder / "report.pages")
    rounds = 50
    warm = [run(floor, folder / "report.pages", folder / "fr.pdf", count).processor for count in (rounds, 1)]
    of_floor = (warm[0] - warm[1]) / (rounds - 1)
    one = run(wayfolio, "batch", manifest, "-o", folder / "one", "--jobs", 1)
    two = run(wayfolio, "batch", manifest, "-o", folder / "two", "--jobs", 2)
    again = run(wayfolio, "batch", manifest, "-o", folder / "one", "--jobs", 1)
    table.row("processor time of a report over that of the warm floor", one.processor / asked.jobs / of_floor, at_most=1.4)
    table.row("reports in a time, two at a time over one", one.wall / two.wall, at_least=1.85)
    table.row("all there: processor time over that of drawing", again.processor / one.processor)
    table.row("most memory, one at a time", one.memory, "MiB")


def memory_of_batch(folder):
    table.head("Memory of a batch of 10 000 (smallest sample, summary), as it goes")
    manifest = manifest_of(folder, "small", (documents.smallest(seed) for seed in range(10000)))
    process = subprocess.Popen([wayfolio, "batch", manifest, "-o", folder / "flat", "--layout", "summary", "--json", "--jobs", "2"],
                               stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    held = {}
    for count, _ in enumerate(process.stdout, 1):
        if count in (100, 1000, 9999):
            status = pathlib.Path(f"/proc/{process.pid}/status").read_text()
            held[count] = int(re.search(r"VmRSS:\s+(\d+)", status)[1]) / 1024
    process.wait()
    for count, memory in held.items():
        table.row(f"after {count}", memory, "MiB")
    table.row("after 9999 over after 100", held[9999] / held[100], at_most=1.05)


def archive(folder):
    table.head("Records, over the report of the same document; medians of 5")
    document = documents.write(documents.axis(1), folder / "axis.json")
    run(asked.build / "wayfolio-archive", folder / "records", 1000)
    run(wayfolio, "record", document, "-o", folder / "kept")
    costs = side_by_side({"report": [wayfolio, "report", document, "-o", folder / "r.pdf"],
                          "verify": [wayfolio, "verify", folder / "kept"],
                          "catalogue of 1000, no index": [wayfolio, "catalogue", folder / "records"]}, 5)
    made = [run(wayfolio, "record", document, "-o", folder / f"new-{i}").wall for i in range(5)]
    table.row("record", sorted(made)[2] / costs["report"].wall)
    for name in ("verify", "catalogue of 1000, no index"):
        table.row(name, costs[name].wall / costs["report"].wall)


def trace(folder):
    for samples in map(int, asked.samples):
        table.head(f"A record on the fly of {samples:.0e} samples, from text to a finished page (layout summary)")
        text = documents.write_trace(folder / "trace.csv", samples)
        document = documents.write(documents.with_trace(text.name), folder / "trace.json")
        mine = run(wayfolio, "report", document, "--layout", "summary", "-o", folder / "t.pdf")
        lines = run("wc", "-l", text)
        table.row("report over counting the lines (wc -l)", mine.wall / lines.wall)
        table.row("MB of text a second of processor time", text.stat().st_size / 1e6 / mine.processor, "MB/s")
        table.row("most memory", mine.memory, "MiB", at_most=64)
        table.row("page: bytes", (folder / "t.pdf").stat().st_size / 1000, "kB", at_most=120)
        other = peers.trace(text, folder)
        if other and samples <= 10_000_000:
            table.row("matplotlib over wayfolio", run(*other).wall / mine.wall, at_least=6 if samples == 10_000_000 else None)


parts = {"cold": cold, "peers": peer_plots, "batch": batch, "memory": memory_of_batch, "archive": archive, "trace": trace}
for name in asked.part or parts:
    with tempfile.TemporaryDirectory() as held:
        parts[name](pathlib.Path(held))
print(f"\n{table.missed} bars missed")
sys.exit(1 if table.missed else 0)
