"""Whole batches: what they write, what they write again and why, shards, signals and kills.
usage: batch_runs.py PROGRAM SOURCE_FOLDER
"""
import json
import os
import pathlib
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import unittest

program, source = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2]).resolve()
smallest = json.loads((source / "sample-results/smallest.json").read_text())


def run(*words, **more):
    return subprocess.run([program, *map(str, words)], capture_output=True, text=True, timeout=300, **more)


class Batches(unittest.TestCase):
    def setUp(self):
        held = tempfile.TemporaryDirectory()
        self.addCleanup(held.cleanup)
        self.folder = pathlib.Path(held.name)
        self.documents = self.folder / "documents"
        self.documents.mkdir()

    def document(self, name, first=0.1):
        document = json.loads(json.dumps(smallest))
        document["job"]["number"] = name
        document["series"][0]["runs"][0]["deviations"][0] = first
        path = self.documents / f"{name}.json"
        path.write_text(json.dumps(document))
        return path

    def manifest(self, count, **more):
        """So many jobs, each with a document of its own."""
        lines = [json.dumps({"document": str(self.document(f"J-{i:03}", i / 10)), **more}) for i in range(count)]
        path = self.folder / "jobs.jsonl"
        path.write_text("\n".join(lines))
        return path

    def batch(self, *words, out="out", layout="summary"):
        return run("batch", *words, "-o", self.folder / out, "--layout", layout)

    def files(self, out="out"):
        folder = self.folder / out
        return {file.name: file.read_bytes() for file in sorted(folder.iterdir())} if folder.exists() else {}

    def states(self, out="out"):
        lines = (self.folder / out / "results.jsonl").read_text().splitlines()
        return {result["name"]: result["state"] for result in map(json.loads, lines)}

    def test_the_results_are_those_of_the_command_however_many_work_at_a_time(self):
        manifest = self.manifest(6, outputs=["report", "evaluation"])
        for jobs in (1, 4):
            done = self.batch(manifest, "--jobs", jobs, out=f"out{jobs}")
            self.assertEqual((done.returncode, done.stderr), (0, "6 drawn, 0 already there, 0 with faults in their input, 0 failed\n"))
        self.assertEqual(self.files("out1"), self.files("out4"))
        self.assertEqual(len(self.files("out1")), 13)
        alone = self.folder / "alone.pdf"
        run("report", self.documents / "J-003.json", "--layout", "summary", "-o", alone)
        self.assertEqual(self.files("out1")["J-003.pdf"], alone.read_bytes())
        self.assertEqual(self.files("out1")["J-003.evaluation.json"].decode(), run("evaluate", self.documents / "J-003.json").stdout)
        of_folder = self.batch(self.documents, out="of-folder")
        self.assertEqual(of_folder.returncode, 0)
        self.assertEqual(self.files("of-folder")["J-003.pdf"], alone.read_bytes())

    def test_again_only_what_changed_is_drawn_and_the_plan_says_why(self):
        manifest = self.manifest(5)
        self.batch(manifest)
        first, times = self.files(), {file.name: file.stat().st_mtime_ns for file in (self.folder / "out").glob("*.pdf")}
        left = [self.folder / "out" / f".{name}.part-1-0" for name in ("J-002.pdf", "J-003.pdf", "another.pdf")]
        for file in left:
            file.write_text("left by a killed run")
        again = self.batch(manifest)
        self.assertIn("0 drawn, 5 already there", again.stderr)
        self.assertEqual([file.exists() for file in left], [False, False, True], "what is left of these jobs goes, and nothing else")
        left[2].unlink()
        self.assertEqual(self.files(), first)
        self.assertEqual({file.name: file.stat().st_mtime_ns for file in (self.folder / "out").glob("*.pdf")}, times)
        self.document("J-001", 77)
        (self.folder / "out/J-002.pdf").unlink()
        (self.folder / "out/J-003.pdf").write_bytes(first["J-003.pdf"] + b" ")
        before = self.files()
        plan = self.batch(manifest, "--plan")
        self.assertEqual(plan.stdout, "J-000: is there\nJ-001: to be drawn: another document\nJ-002: to be drawn: J-002.pdf is not there as it was written\n"
                                      "J-003: to be drawn: J-003.pdf is not there as it was written\nJ-004: is there\n")
        self.assertEqual(self.files(), before, "a plan writes nothing")
        self.assertIn("3 drawn, 2 already there", self.batch(manifest).stderr)
        now = self.files()
        self.assertEqual({name for name in first if now[name] != first[name]}, {"J-001.pdf", "results.jsonl"})
        other = self.batch(manifest, "--plan", layout="customer")
        self.assertEqual(other.stdout.count("to be drawn: another layout"), 5)
        fresh = self.batch(manifest, "--plan", out="nowhere")
        self.assertEqual(fresh.stdout.count("to be drawn: new"), 5)
        self.assertFalse((self.folder / "nowhere").exists())

    def test_what_goes_wrong_is_told_and_harms_no_other(self):
        manifest = self.manifest(4)
        (self.documents / "J-001.json").write_text('{"format": "wayfolio-result"')
        (self.documents / "J-002.json").unlink()
        os.mkfifo(self.documents / "J-002.json")
        done = self.batch(manifest)
        self.assertEqual(done.returncode, 1)
        self.assertEqual(self.states(), {"J-000": "done", "J-001": "faulty", "J-002": "faulty", "J-003": "done"})
        self.assertIn("J-001.json:1:29", done.stderr)
        results = [json.loads(line) for line in self.files()["results.jsonl"].splitlines()]
        self.assertEqual(results[1]["faults"][0]["line"], 1)
        (self.folder / "out/J-003.pdf").unlink()
        (self.folder / "out/J-003.pdf").mkdir()
        (self.folder / "out/J-003.pdf/x").write_text("somebody else's")
        again = self.batch(manifest)
        self.assertEqual(again.returncode, 75, "a place that is taken may be free later")
        self.assertEqual(self.states()["J-003"], "failed")
        shutil.rmtree(self.folder / "out/J-003.pdf")
        self.document("J-001")
        (self.documents / "J-002.json").unlink()
        self.document("J-002")
        self.assertIn("3 drawn, 1 already there", self.batch(manifest).stderr)
        self.assertEqual(set(self.states().values()), {"done"})

    def test_shards_share_the_jobs_and_join_to_what_one_run_writes(self):
        manifest = self.manifest(24)
        (self.documents / "J-007.json").write_text("{")
        self.batch(manifest, out="whole")
        drawn = 0
        for index in range(4):
            if index == 2:  # this one is not there yet
                continue
            told = self.batch(manifest, "--shard", f"{index}/4").stderr.splitlines()[-1]
            drawn += int(told.split()[0])
        holes = self.batch(manifest, "--merge")
        self.assertEqual(holes.returncode, 75)
        self.assertIn("shard 2 of 4 has not ended", holes.stderr)
        self.assertIn(": no shard has done it", holes.stderr)
        self.assertNotIn("results.jsonl", self.files())
        environment = {**os.environ, "SLURM_ARRAY_TASK_ID": "3", "SLURM_ARRAY_TASK_MIN": "1", "SLURM_ARRAY_TASK_COUNT": "4"}
        last = run("batch", manifest, "-o", self.folder / "out", "--layout", "summary", "--shard", "slurm", env=environment)
        drawn += int(last.stderr.splitlines()[-1].split()[0])
        self.assertEqual(drawn, 23)
        joined = self.batch(manifest, "--merge")
        self.assertEqual((joined.returncode, joined.stderr), (1, "24 jobs, 1 with faults in their input, 0 failed\n"))
        mine = {name: bytes_ for name, bytes_ in self.files().items() if "-of-" not in name}
        self.assertEqual(mine, self.files("whole"))

    def kill(self, manifest, by, drawn):
        """Ends a run when so many reports are there: how long that takes is the machine's affair."""
        process = subprocess.Popen([program, "batch", str(manifest), "-o", str(self.folder / "out"), "--layout", "summary", "--jobs", "2"],
                                   stderr=subprocess.PIPE, text=True)
        while process.poll() is None and len(list((self.folder / "out").glob("*.pdf"))) < drawn:
            time.sleep(0.001)
        process.send_signal(by)
        told = process.communicate(timeout=60)[1]
        return process.returncode, told

    def test_a_signal_or_a_kill_at_any_moment_loses_nothing_that_was_done(self):
        manifest = self.manifest(60)
        self.batch(manifest, out="whole")
        stopped = 0
        for by, drawn in [(signal.SIGTERM, 5), (signal.SIGKILL, 15), (signal.SIGINT, 25), (signal.SIGKILL, 0), (signal.SIGKILL, 40)]:
            code, told = self.kill(manifest, by, drawn)
            if code == 0:
                break
            if by != signal.SIGKILL:
                self.assertEqual(code, 143, told)
                self.assertIn("stopped: the same command goes on from here", told)
                stopped += 1
            for name, bytes_ in self.files().items():
                if name.endswith(".pdf"):
                    self.assertEqual(bytes_, self.files("whole")[name], "whole or not at all")
        self.assertGreaterEqual(stopped, 1)
        done = len(list((self.folder / "out").glob("*.pdf")))
        last = self.batch(manifest)
        self.assertEqual(last.returncode, 0, last.stderr)
        self.assertGreaterEqual(int(last.stderr.split("drawn, ")[1].split()[0]), done - 4, "at most those at work are done again")
        self.assertEqual(self.files(), self.files("whole"))

    def test_two_runs_on_the_same_jobs_are_kept_apart(self):
        manifest = self.manifest(60)
        first = subprocess.Popen([program, "batch", str(manifest), "-o", str(self.folder / "out"), "--jobs", "1"], stderr=subprocess.DEVNULL)
        while not (self.folder / "out/.results.jsonl-journal").exists():
            time.sleep(0.01)
        second = self.batch(manifest)
        first.kill()
        first.wait()
        self.assertEqual(second.returncode, 73)
        self.assertIn("another run is at work", second.stderr)

    def test_an_archive_is_drawn_anew_beside_the_old_and_numbers_that_are_others_are_told(self):
        records = self.folder / "records"
        for number in ("A", "B", "C"):
            run("record", self.document(number), "-o", records / number, "--layout", "summary")
        again = run("batch", "--redraw", records, "-o", self.folder / "out")
        self.assertEqual((again.returncode, again.stderr), (0, "3 drawn, 0 already there, 0 with faults in their input, 0 failed\n"))
        for number in ("A", "B", "C"):
            self.assertEqual(self.files()[f"{number}.pdf"], (records / number / "revision-0/data/report.pdf").read_bytes())
        numbers = records / "B/revision-0/data/evaluation.json"
        numbers.write_text(numbers.read_text().replace('"U": ', '"U": 1', 1).replace('"value": ', '"value": 1', 1))
        document = records / "C/revision-0/data/inputs/wayfolio-result.json"
        document.write_text(document.read_text().replace("1.4", "1.5"))
        changed = run("batch", "--redraw", records, "-o", self.folder / "new", "--layout", "report")
        self.assertEqual(changed.returncode, 1)
        self.assertRegex(changed.stderr, "B: [12] numbers differ from those that were kept\n  /")
        self.assertIn("wayfolio-result.json", changed.stderr)
        self.assertEqual(self.states("new"), {"A": "done", "B": "done", "C": "faulty"})
        result = json.loads(self.files("new")["results.jsonl"].splitlines()[1])
        self.assertGreaterEqual(result["changes"], 1)
        for wrong in (("--redraw", records, "-o", records / "A"), ("--redraw", records, "-o", records / "A/revision-0/data")):
            self.assertEqual(run("batch", *wrong).returncode, 2)

    def test_wrong_words_are_told_and_nothing_is_written(self):
        manifest = self.manifest(2)
        for words, code in (((), 2), ((manifest,), 2), ((manifest, "-o", "-"), 2), (("nothing.jsonl", "-o", "out"), 66), ((manifest, "-o", "out", "--shard", "2/2"), 2),
                            ((manifest, "-o", "out", "--shard", "slurm"), 2), ((manifest, "-o", "out", "--jobs", "0"), 2),
                            ((manifest, "--redraw", self.folder, "-o", "out"), 2), (("--redraw", self.folder, "-o", "out"), 2)):
            told = run("batch", *words, cwd=self.folder)
            self.assertEqual(told.returncode, code, f"{words}: {told.stderr}")
            self.assertFalse((self.folder / "out").exists())
        piped = subprocess.run([program, "batch", "-", "-o", self.folder / "piped"], input=manifest.read_text(), capture_output=True, text=True)
        self.assertEqual(piped.returncode, 0, piped.stderr)

    def test_a_line_of_json_comes_as_each_job_ends(self):
        manifest = self.manifest(3)
        told = self.batch(manifest, "--json")
        self.assertEqual(sorted(json.loads(line)["name"] for line in told.stdout.splitlines()), ["J-000", "J-001", "J-002"])
        self.assertEqual(sorted(told.stdout.splitlines()), sorted(self.files()["results.jsonl"].decode().splitlines()))


unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
