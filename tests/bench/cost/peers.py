"""The same plots by programs that draw plots of anything, where they are installed: how long a user of them would wait."""
import importlib.util
import json
import shutil
import sys

gnuplot = shutil.which("gnuplot")
matplotlib = "/usr/bin/python3" if importlib.util.find_spec("matplotlib") else None

figure_script = """
import json, sys, matplotlib
matplotlib.use("{kind}")
import matplotlib.pyplot as plt
series = json.load(open(sys.argv[1]))["series"][0]
plot = plt.figure(figsize=(6.9, 3)).gca()
for run in series["runs"]:
    plot.plot(series["targets"], run["deviations"], marker="o", markersize=2, linewidth=0.5)
plot.set_xlabel("position in mm"); plot.set_ylabel("deviation in um"); plot.grid(True)
plt.savefig(sys.argv[2])
"""

trace_script = """
import sys, matplotlib, numpy
matplotlib.use("pdf")
import matplotlib.pyplot as plt
x, y = numpy.loadtxt(sys.argv[1], delimiter=",", skiprows=1, unpack=True)
plot = plt.figure(figsize=(6.9, 3)).gca()
plot.plot(x, y, linewidth=0.3)
plot.set_xlabel("position in mm"); plot.set_ylabel("deviation in um"); plot.grid(True)
plt.savefig(sys.argv[2])
"""


def figures(document, folder):
    """Commands that draw the runs of the first series, by name."""
    commands = {}
    if matplotlib:
        for kind in ("svg", "pdf"):
            script = folder / f"figure-{kind}.py"
            script.write_text(figure_script.replace("{kind}", kind))
            commands[f"matplotlib, {kind.upper()}"] = [matplotlib, script, document, folder / f"peer.{kind}"]
    if gnuplot:
        series = json.loads(document.read_text())["series"][0]
        data = folder / "figure.dat"
        rows = zip(series["targets"], *(run["deviations"] for run in series["runs"]))
        data.write_text("".join(" ".join(map(str, row)) + "\n" for row in rows))
        lines = ", ".join(f"'{data}' using 1:{column} with linespoints notitle" for column in range(2, len(series["runs"]) + 2))
        for kind, terminal in (("svg", "svg size 500,220"), ("pdf", "pdfcairo size 6.9in,3in")):
            script = folder / f"figure-{kind}.plt"
            script.write_text(f"set terminal {terminal}\nset output '{folder / ('gnuplot.' + kind)}'\nset grid\n"
                              f"set xlabel 'position in mm'\nset ylabel 'deviation in um'\nplot {lines}\n")
            commands[f"gnuplot, {kind.upper()}"] = [gnuplot, script]
    return commands


def trace(text, folder):
    """The command that draws every sample of a trace of two columns."""
    if not matplotlib:
        return None
    script = folder / "trace.py"
    script.write_text(trace_script)
    return [sys.executable, script, text, folder / "trace-peer.pdf"]
