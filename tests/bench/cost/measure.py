"""Runs programs and says what they cost. Only ratios of one run are worth keeping."""
import os
import statistics
import subprocess
import sys
import time


class Cost:
    """Seconds of wall and processor time, and the most memory in MiB, of one process."""

    def __init__(self, wall, processor, memory):
        self.wall, self.processor, self.memory = wall, processor, memory


def run(*words, codes=(0,)):
    """@raises SystemExit with what was said, where a program ends otherwise than it should: a time of a failure is none."""
    began = time.monotonic()
    process = subprocess.Popen([str(word) for word in words], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    said = process.stderr.read()
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    wall = time.monotonic() - began
    if process.returncode not in codes:
        sys.exit(f"{' '.join(map(str, words))}: {process.returncode}\n{said.decode(errors='replace')}")
    return Cost(wall, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def side_by_side(commands, rounds):
    """What each of the commands (name: words) costs at the median, taken in turns, so that what else the machine does meets all of them."""
    all_costs = {name: [] for name in commands}
    for _ in range(rounds):
        for name, words in commands.items():
            all_costs[name].append(run(*words))
    return {name: Cost(*(statistics.median(getattr(cost, what) for cost in costs) for what in ("wall", "processor", "memory")))
            for name, costs in all_costs.items()}


class Table:
    """Rows of a figure, with its bar where there is one."""

    def __init__(self):
        self.missed = 0

    def head(self, words):
        print(f"\n{words}", flush=True)

    def row(self, name, value, unit="", at_most=None, at_least=None):
        bar, held = "", ""
        if at_most is not None:
            bar, good = f"at most {at_most:g}", value <= at_most
        if at_least is not None:
            bar, good = f"at least {at_least:g}", value >= at_least
        if bar:
            held = "held" if good else "MISSED"
            self.missed += not good
        print(f"  {name:<68}{value:>10.3g} {unit:<6}{bar:<16}{held}".rstrip(), flush=True)
