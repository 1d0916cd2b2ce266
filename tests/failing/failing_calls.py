"""Runs report, record and catalogue again and again, each time with another call that fails: the first open, the second ... until a run
meets no failing call. Each time the program must end with an exit code of its own and a sentence, leave what was there or what a run
without faults writes and nothing else, and say success only where its output is whole.
usage: failing_calls.py PROGRAM LIBRARY SOURCE_FOLDER
"""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

program, library, source = sys.argv[1], sys.argv[2], pathlib.Path(sys.argv[3])
document = source / "sample-results/smallest.json"
kinds = ("open", "write", "rename", "sync", "memory")
told = {0, 1, 65, 66, 71, 73, 74}  # of the exit codes; 70 is a fault of the program
faults, counts = [], {}


def contents(folder):
    return {str(file.relative_to(folder)): file.read_bytes() if file.is_file() else None for file in sorted(folder.rglob("*"))}


def ran(arguments, where, failing=None):
    environment = {**os.environ, "LD_PRELOAD": library, **(failing or {})}
    return subprocess.run([program, *map(str, arguments)], cwd=where, env=environment, capture_output=True, timeout=120)


class Case:
    """A command, what lies in its folder before, and which outcomes are whole."""

    def __init__(self, name, arguments, prepare, ignored=()):
        self.name, self.arguments, self.prepare, self.ignored = name, arguments, prepare, ignored

    def seen(self, folder):
        return {name: bytes_ for name, bytes_ in contents(folder).items() if not name.endswith(tuple(self.ignored))}

    def try_all(self, scratch):
        work = scratch / "work"
        self.fresh(work)
        before = self.seen(work)
        clean = ran(self.arguments, work)
        after = self.seen(work)
        if clean.returncode != 0:
            sys.exit(f"{self.name}: fails without a failing call: {clean.stderr.decode()}")
        for kind in kinds:
            number = 0
            while self.one(work, scratch / "mark", kind, number + 1, (before, after, clean.stdout)):
                number += 1
                if number > 2000:
                    sys.exit(f"{self.name}: no end of calls of {kind}")
            counts[self.name, kind] = number

    def fresh(self, work):
        shutil.rmtree(work, ignore_errors=True)
        work.mkdir()
        self.prepare(work)

    def one(self, work, mark, kind, number, expected):
        """Whether a call failed; what is wrong then is noted."""
        self.fresh(work)
        mark.unlink(missing_ok=True)
        run = ran(self.arguments, work, {"WAYFOLIO_FAIL": kind, "WAYFOLIO_FAIL_AT": str(number), "WAYFOLIO_FAIL_MARK": str(mark)})
        if not mark.exists():
            return False
        before, after, said = expected
        where = f"{self.name}, {kind} {number}"
        left = self.seen(work)
        of_fonts = run.returncode == 70 and b"the font file" in run.stderr  # an installation that lacks one is told as such
        if run.returncode not in told and not of_fonts:
            faults.append(f"{where}: ends with {run.returncode}: {run.stderr.decode()[:200]}")
        elif run.returncode != 0 and not run.stderr.strip():
            faults.append(f"{where}: ends with {run.returncode} and says nothing")
        if left not in (before, after):
            odd = sorted(name for name in {*left, *after} if left.get(name, 0) not in (before.get(name, 0), after.get(name, 0)))
            faults.append(f"{where}: leaves neither what was there nor what a run without faults writes: {odd[:4] or sorted(left)[:4]}")
        if run.returncode == 0 and (left, run.stdout) != (after, said):
            faults.append(f"{where}: says success without its whole output")
        return True


def with_old_report(work):
    (work / "out.pdf").write_bytes(b"what was there before")


def with_record(folder):
    subprocess.run([program, "record", document, "-o", folder / "record", "--layout", "summary"], check=True, capture_output=True)


cases = [
    Case("report", ["report", document, "-o", "out.pdf", "--layout", "summary"], with_old_report),
    Case("record", ["record", document, "-o", "record", "--layout", "summary"], lambda work: None),
    # The index is another file each time (SQLite counts its changes); what it says is looked at.
    Case("catalogue", ["catalogue", "."], with_record, (".sqlite", ".sqlite-journal")),
]
with tempfile.TemporaryDirectory() as name:
    for case in cases:
        case.try_all(pathlib.Path(name))
for (case, kind), number in counts.items():
    print(f"{case}: {number} calls of {kind} failed, one at a time")
print(f"{len(faults)} faults")
print("\n".join(faults[:60]))
some = all(counts[case.name, "open"] > 0 and counts[case.name, "write"] > 0 for case in cases)
sys.exit(1 if faults or not some else 0)
