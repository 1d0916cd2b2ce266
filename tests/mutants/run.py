#!/usr/bin/env python3
"""Puts one wrong line at a time into a copy of its file, links the tests with that file in the place of the right one, and asks whether a
test sees it.

    tests/mutants/run.py [--build DIR] [--only WORDS] [--check] [--record]

The wrong lines stand in list.txt beside this file. Each is known by its text, which must stand exactly once in render/plot, render/page and
render/report: moving a file and breaking a line anew change nothing. Ends with 1 where a wrong line is seen by no test, does not compile, or is not found.

--build   a build folder without optimisation (it is made and brought up to date; build-mutants if none is named)
--only    only entries whose title contains these words
--check   only looks for every line, builds nothing
--record  writes into list.txt what caught each
"""
import argparse
import concurrent.futures
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as xml

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent
ROOMS = ("plot", "page", "report")
PROGRAMS = ("produce_tests", "plot_tests", "page_tests", "report_tests")
# The pictures come first: they are quick, and most of what can be seen they see.
RUNS = (("produce_tests", ("[pictures]",)), ("plot_tests", ()), ("page_tests", ()), ("report_tests", ()), ("produce_tests", ("~[pictures]",)))

LINKER = "-fuse-ld=gold" if shutil.which("ld.gold") else ""


class Entry:
    def __init__(self, title):
        self.title, self.before, self.after, self.caught = title, None, None, None


def read_list(path):
    """Blocks of a title, '- ' the text as it is, '+ ' as it is made wrong, '= ' what caught it; '#' is a remark."""
    entries = []
    for number, line in enumerate(path.read_text().splitlines(), 1):
        mark, rest = line[:2], line[2:]
        if not line or mark == "= " or mark[0] == "#":
            continue
        if mark == "- ":
            entries[-1].before = rest
        elif mark == "+ ":
            entries[-1].after = rest
        elif entries and entries[-1].after is None:
            sys.exit(f"{path}:{number}: the entry before this one has no '+ ' line")
        else:
            entries.append(Entry(line))
    return entries


def pattern_of(text):
    """The text however its lines are broken."""
    return re.compile(r"\s*".join(re.escape(word) for word in re.findall(r"\w+|[^\w\s]", text)))


def place_of(text):
    """The one file that holds the text, or a sentence that says why there is none."""
    found = []
    for room in ROOMS:
        for path in sorted((ROOT / "render" / room).rglob("*.cpp")):
            found += [path] * len(pattern_of(text).findall(path.read_text()))
    if len(found) == 1:
        return found[0], None
    return None, f"stands {len(found)} times in {', '.join('render/' + room for room in ROOMS)}: {text}"


class Build:
    """A build folder, and how its compiler and linker are called."""

    def __init__(self, folder):
        self.folder = folder
        if not (folder / "build.ninja").exists():
            launcher = [f"-DCMAKE_CXX_COMPILER_LAUNCHER={shutil.which('ccache')}"] if shutil.which("ccache") else []
            flags = ["-DCMAKE_BUILD_TYPE=Debug", "-DCMAKE_CXX_FLAGS=-O0 -g0 -w", "-DWAYFOLIO_TESTS=ON", *launcher]
            subprocess.run(["cmake", "-S", ROOT, "-B", folder, "-G", "Ninja", *flags], check=True, stdout=subprocess.DEVNULL)
        subprocess.run(["ninja", "-C", folder, *PROGRAMS], check=True, stdout=subprocess.DEVNULL)
        self.commands = {program: self.listed(program) for program in PROGRAMS}

    def listed(self, program):
        listed = subprocess.run(["ninja", "-C", self.folder, "-t", "commands", program], check=True, capture_output=True, text=True)
        return listed.stdout.splitlines()

    def has(self, program, room):
        return any(f" -o tests/{program} " in line and f"/room_{room}.dir/" in line for line in self.commands[program])

    def run(self, command):
        made = subprocess.run(command, shell=True, cwd=self.folder, capture_output=True, text=True)
        return None if made.returncode == 0 else made.stdout[-1000:] + made.stderr[-1000:]

    def compile(self, room, source, into):
        """With the flags of any other file of the room. A path in quotes is looked for below render/ all the same."""
        like = next(line for line in self.commands["produce_tests"] if f"/room_{room}.dir/" in line and " -c " in line)
        command = re.sub(r" -MD -MT \S+ -MF \S+", "", like)
        command = re.sub(r" -o \S+ -c \S+", lambda _: f" -o {into} -c {source}", command)
        return self.run(command)

    def link(self, program, wrong, into):
        """The wrong object stands first, and of two definitions the first is taken: the other files of the right one stay in use.
        Not every linker takes two; gold, which comes with the usual one, does so in a third of its time."""
        command = next(line for line in reversed(self.commands[program]) if f" -o tests/{program} " in line)
        command = command.split(" && cd ")[0].replace(f" -o tests/{program} ", f" -o {into} ")
        return self.run(re.sub(r" (?=\S+\.o )", f" {LINKER} -Wl,-z,muldefs {wrong} ", command, count=1))


def failures(program, file, arguments):
    """Names of the tests that fail; a program that dies without a report counts as one."""
    try:
        ran = subprocess.run([file, *arguments, "-r", "xml"], cwd=ROOT, capture_output=True, timeout=900)
    except subprocess.TimeoutExpired:
        return [f"{program} does not end"]
    if ran.returncode == 0:
        return []
    try:
        cases = xml.fromstring(ran.stdout).iter("TestCase")
        names = [case.get("name") for case in cases if case.find("OverallResult").get("success") == "false"]
    except (xml.ParseError, AttributeError):
        names = []
    return names or [f"{program} breaks off"]


def caught_by(build, folder, room, wrong):
    """One program that has the room after the other until a test fails. Tests that hold quantities are named before dumps."""
    for program, arguments in RUNS:
        if not build.has(program, room):
            continue
        file = folder / program
        if not file.exists() and (fault := build.link(program, wrong, file)):
            return None, "does not link:\n" + fault
        if names := failures(program, file, arguments):
            names.sort(key=lambda name: "as it was" in name or "as they were" in name)
            more = f" and {len(names) - 1} more" if len(names) > 1 else ""
            return f"{program}: {names[0]}{more}", None
    return None, "no test sees it"


def try_one(build, entry):
    path, fault = place_of(entry.before)
    if fault:
        return fault
    # Below the build folder: programs there find fonts and layouts of the source tree.
    with tempfile.TemporaryDirectory(dir=build.folder) as name:
        folder = pathlib.Path(name)
        source, wrong = folder / path.name, folder / "wrong.o"
        source.write_text(pattern_of(entry.before).sub(lambda _: entry.after, path.read_text()))
        room = path.relative_to(ROOT / "render").parts[0]
        if fault := build.compile(room, source, wrong):
            return "does not compile:\n" + fault
        entry.caught, fault = caught_by(build, folder, room, wrong)
    return fault


def record(path, entries):
    tried = {entry.title: entry.caught for entry in entries}
    lines, title = [], None
    for line in [*path.read_text().splitlines(), ""]:
        if line.startswith("= ") and title in tried:
            continue
        if not line and tried.get(title):
            lines.append("= " + tried[title])
            title = None
        if line and line[:2] not in ("- ", "+ ") and line[0] != "#":
            title = line
        lines.append(line)
    path.write_text("\n".join(lines).rstrip() + "\n")


def run(build, entries):
    for program, arguments in RUNS:
        if names := failures(program, build.folder / "tests" / program, arguments):
            sys.exit(f"{program} fails before anything is made wrong: {names}")
    missed = 0
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for number, (entry, fault) in enumerate(zip(entries, pool.map(lambda entry: try_one(build, entry), entries)), 1):
            missed += fault is not None
            print(f"{number}/{len(entries)} {'MISSED' if fault else 'caught'}  {entry.title}\n    {fault or entry.caught}", flush=True)
    print(f"{len(entries) - missed} of {len(entries)} wrong lines are caught")
    return missed


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--build", type=pathlib.Path, default=ROOT / "build-mutants")
    parser.add_argument("--only", default="")
    parser.add_argument("--check", action="store_true")
    parser.add_argument("--record", action="store_true")
    given = parser.parse_args()
    entries = [entry for entry in read_list(HERE / "list.txt") if given.only in entry.title]
    faults = [f"{entry.title}: {fault}" for entry in entries if (fault := place_of(entry.before)[1])]
    if faults or given.check or not entries:
        print("\n".join(faults) or f"{len(entries)} lines, each found once")
        return 1 if faults or not entries else 0
    missed = run(Build(given.build.resolve()), entries)
    if given.record:
        record(HERE / "list.txt", entries)
    return 1 if missed else 0


sys.exit(main())
