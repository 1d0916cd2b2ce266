#!/usr/bin/env python3
"""Prints how many lines of each room the fuzzing has run.

    tests/fuzz/coverage.py [--build DIR] [--seconds N] [--seed N] [--below PERCENT]

Builds wayfolio-fuzz with GCC's own counters, gives every target what is known and N seconds (0: only what is known) of changed inputs,
and adds up what gcov reads from the counters. A line is run when any of the objects it was compiled into ran it.

--build   the build folder (build-coverage if none is named)
--below   names the files of which less than this share was run
"""
import argparse
import collections
import json
import pathlib
import subprocess
import tempfile

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent


def built(folder):
    subprocess.run(["cmake", "-S", ROOT, "-B", folder, "-G", "Ninja", "-DCMAKE_BUILD_TYPE=Debug", "-DCMAKE_CXX_FLAGS_DEBUG=-Og",
                    "-DWAYFOLIO_TESTS=ON", "-DCMAKE_CXX_FLAGS=--coverage -fprofile-update=atomic"],
                   check=True, stdout=subprocess.DEVNULL)
    subprocess.run(["ninja", "-C", folder, "wayfolio_fuzz"], check=True)
    return folder / "wayfolio-fuzz"


def counted_lines(folder):
    """The lines of every source below render, by file: line number to whether it was run."""
    lines = collections.defaultdict(dict)
    for counters in sorted(folder.rglob("*.gcda")):
        with tempfile.TemporaryDirectory() as empty:
            printed = subprocess.run(["gcov", "--json-format", "--stdout", counters], cwd=empty, check=True, capture_output=True, text=True)
        for text in printed.stdout.splitlines():
            for source in json.loads(text)["files"]:
                path = pathlib.Path(folder / source["file"]).resolve()
                if not path.is_relative_to(ROOT / "render"):
                    continue
                for line in source["lines"]:
                    seen = lines[path.relative_to(ROOT / "render")]
                    seen[line["line_number"]] = seen.get(line["line_number"], False) or line["count"] > 0
    return lines


def print_rooms(lines):
    rooms = collections.defaultdict(lambda: [0, 0])
    for path, seen in lines.items():
        for name in (path.parts[0], "all"):
            rooms[name][0] += sum(seen.values())
            rooms[name][1] += len(seen)
    for name in sorted(rooms, key=lambda room: (room == "all", room)):
        run, of = rooms[name]
        print(f"{name:12} {run:6} of {of:6} lines  {100 * run / of:5.1f} %")


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--build", type=pathlib.Path, default=ROOT / "build-coverage")
    parser.add_argument("--seconds", type=float, default=0)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--below", type=float, default=0)
    given = parser.parse_args()
    folder = given.build.resolve()
    program = built(folder)
    for counters in folder.rglob("*.gcda"):
        counters.unlink()
    subprocess.run([program, "all", str(given.seconds), str(given.seed)], cwd=folder, check=True)
    lines = counted_lines(folder)
    print_rooms(lines)
    for path, seen in sorted(lines.items()):
        if sum(seen.values()) * 100 < given.below * len(seen):
            print(f"  {path}: {sum(seen.values())} of {len(seen)}")


main()
