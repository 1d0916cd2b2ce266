"""Batches behind the service: what is drawn is what the command draws, progress comes as it happens, and nothing acknowledged is lost.
usage: batches_test.py PROGRAM SOURCE_FOLDER
"""
import http.client
import json
import os
import pathlib
import signal
import subprocess
import sys
import tempfile
import threading
import time
import unittest

sys.path.insert(0, os.path.dirname(__file__))
from server import Server, wait_until  # noqa: E402

program, source = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2])
smallest = json.loads((source / "sample-results/smallest.json").read_text())


def document(number, first=0.1):
    job = json.loads(json.dumps(smallest))
    job["job"]["number"] = f"J-{number:03}"
    job["series"][0]["runs"][0]["deviations"][0] = first
    return json.dumps(job).encode()


def documents(count, first=0.1):
    return {f"J-{i:03}.json": document(i, first + i) for i in range(count)}


class Batches(unittest.TestCase):
    def setUp(self):
        held = tempfile.TemporaryDirectory()
        self.addCleanup(held.cleanup)
        self.folder = pathlib.Path(held.name)

    def server(self, *options):
        return Server(program, "--batches", str(self.folder / "batches.sqlite"), *options)

    def post(self, server, files, lines=None, query="?layout=summary", headers=None):
        lines = lines if lines is not None else [{"document": name} for name in files if name.endswith(".json")]
        manifest = "\n".join(line if isinstance(line, str) else json.dumps(line) for line in lines).encode()
        parts = [("manifest", None, manifest)] + [("file", name, content) for name, content in files.items()]
        return server.post_parts(f"/v1/batches{query}", parts, headers)

    def ended(self, server, place, seconds=120):
        self.assertTrue(wait_until(lambda: server.ask("GET", place).json["ended"], seconds), server.log())
        return server.ask("GET", place).json

    def drawn_by_command(self, files, lines):
        """What the command makes of the same: its results, and its files."""
        there = self.folder / "command"
        there.mkdir()
        for name, content in files.items():
            (there / name).write_bytes(content)
        (there / "jobs.jsonl").write_text("\n".join(map(json.dumps, lines)))
        subprocess.run([program, "batch", "jobs.jsonl", "-o", "out", "--layout", "summary"], cwd=there, capture_output=True)
        return {file.name: file.read_bytes() for file in (there / "out").iterdir()}

    def test_what_is_drawn_is_what_the_command_draws(self):
        own = json.dumps({"format": "wayfolio-layout", "version": 1, "extends": "summary", "name": "own", "paper": "Letter"}).encode()
        files = documents(4) | {"own.json": own, "J-002.json": b'{"format": "wayfolio-result"'}
        lines = [{"document": "J-000.json"}, {"document": "J-001.json", "name": "one", "outputs": ["report", "evaluation"]},
                 {"document": "J-002.json"}, {"document": "J-003.json", "layout": "own.json"}]
        expected = self.drawn_by_command(files, lines)
        with self.server() as server:
            answer = self.post(server, files, lines)
            self.assertEqual((answer.status, answer.json["jobs"]), (202, 4), answer.body)
            place = answer.headers["Location"]
            counts = self.ended(server, place)
            self.assertEqual((counts["done"], counts["faulty"], counts["failed"]), (3, 1, 0))
            results = server.ask("GET", f"{place}/results")
            self.assertEqual(results.body, expected.pop("results.jsonl"))
            self.assertEqual(results.headers["Content-Type"], "application/jsonl")
            for name, content in expected.items():
                self.assertEqual(server.ask("GET", f"{place}/result?name={name}").body, content, name)
            self.assertEqual(server.ask("GET", f"{place}/results", headers={"If-None-Match": results.headers["ETag"]}).status, 304)
            self.assertEqual(server.ask("GET", f"{place}/result?name=J-002.pdf").code, "nothing-there")
            self.assertEqual(server.ask("GET", "/v1/batches").json["batches"], [counts])
            again = self.post(server, files, lines)
            self.assertEqual((again.status, again.headers["Location"]), (200, place), "the same again is the same batch")
            other = self.post(server, files | {"J-000.json": document(0, 9)}, lines)
            self.assertEqual(other.status, 202)
            self.assertNotEqual(other.headers["Location"], place)

    def events(self, server, place, last=None, until=None):
        """Events of a batch, as (number, kind, data), until it has ended or `until` of them are there."""
        connection = http.client.HTTPConnection("127.0.0.1", server.port, timeout=60)
        connection.request("GET", f"{place}/events", headers={} if last is None else {"Last-Event-ID": str(last)})
        answer = connection.getresponse()
        self.assertEqual((answer.status, answer.headers["Content-Type"]), (200, "text/event-stream"))
        events, event = [], {}
        for line in answer:
            line = line.decode().rstrip("\n")
            if not line:
                if "data" in event:
                    events.append((event.get("id"), event["event"], json.loads(event["data"])))
                event = {}
                if until is not None and len(events) >= until:
                    break
            elif not line.startswith(":"):
                key, _, value = line.partition(": ")
                event[key] = value
        answer.close()
        connection.close()
        return events

    def test_progress_comes_as_it_happens_and_goes_on_where_it_was(self):
        with self.server("--workers", "1") as server:
            place = self.post(server, documents(12)).headers["Location"]
            first = self.events(server, place, until=3)
            self.assertEqual([(number, kind) for number, kind, _ in first], [("1", "job"), ("2", "job"), ("3", "job")])
            rest = self.events(server, place, last=3)
            self.assertEqual([number for number, _, _ in rest], [*map(str, range(4, 13)), None])
            self.assertEqual(rest[-1][1], "ended")
            self.assertEqual((rest[-1][2]["done"], rest[-1][2]["ended"]), (12, True))
            lines = [data for _, kind, data in first + rest if kind == "job"]
            self.assertEqual(sorted(map(json.dumps, lines)), sorted(json.dumps(json.loads(line)) for line in
                                                                    server.ask("GET", f"{place}/results").body.splitlines()))
            self.assertEqual(len(self.events(server, place)), 13, "all of them again for who comes late")
            head = server.ask("HEAD", f"{place}/events")
            self.assertEqual((head.status, head.body), (200, b""))

    def test_who_waits_for_events_hears_of_a_job_at_once_and_does_not_keep_others_waiting(self):
        with self.server("--workers", "1") as server:
            place = self.post(server, documents(1)).headers["Location"]
            self.ended(server, place)
            place = self.post(server, documents(30, 50)).headers["Location"]
            heard = []
            listeners = [threading.Thread(target=lambda: heard.append(self.events(server, place))) for _ in range(8)]
            for listener in listeners:
                listener.start()
            self.assertEqual(server.post("/v1/report?layout=summary", document(99)).status, 200, "others are served meanwhile")
            for listener in listeners:
                listener.join(60)
            self.assertEqual([len(events) for events in heard], [31] * 8)

    def test_faults_of_a_manifest_are_told_at_once_and_nothing_is_taken_in(self):
        wrong = [{"document": "J-000.json"}, {"document": "../../etc/passwd"}, {"document": "/etc/passwd", "name": "p"},
                 {"document": "J-001.json", "layout": "/etc/own.json"}, {"dokument": "x"}]
        with self.server() as server:
            answer = self.post(server, documents(2), wrong[:4])
            self.assertEqual((answer.status, answer.code), (422, "faulty-input"), answer.body)
            self.assertEqual([(fault["line"], fault["pointer"]) for fault in answer.json["faults"]], [(2, "/document"), (3, "/document"), (4, "/layout")])
            self.assertEqual(self.post(server, documents(2), wrong[4:]).status, 422)
            self.assertEqual(self.post(server, documents(2), []).code, "malformed-request")
            self.assertEqual(self.post(server, documents(2), query="?layout=nothing").json["faults"][0]["pointer"], "/layout")
            self.assertEqual(server.post("/v1/batches", b"{}").code, "wrong-content-type")
            self.assertEqual(server.ask("GET", "/v1/batches").json["batches"], [])
            for route in ("", "/results", "/events", "/result?name=a.pdf"):
                self.assertEqual(server.ask("GET", f"/v1/batches/0123456789abcdef{route}").code, "nothing-there", route)
            self.assertEqual(server.ask("DELETE", "/v1/batches/0123456789abcdef").code, "nothing-there")
            self.assertEqual(server.ask("PUT", "/v1/batches/0123456789abcdef").headers["Allow"], "GET, HEAD, DELETE")

    def test_a_batch_is_cancelled_goes_on_and_is_forgotten(self):
        with self.server("--workers", "1") as server:
            files = documents(40)
            place = self.post(server, files).headers["Location"]
            counts = server.ask("POST", f"{place}/cancellation").json
            self.assertGreater(counts["cancelled"], 20)
            counts = self.ended(server, place)
            self.assertEqual(counts["done"] + counts["cancelled"], 40)
            self.assertEqual(self.events(server, place)[-1][2], counts)
            self.assertEqual(self.post(server, files).status, 202, "posted again it goes on")
            self.assertEqual(self.ended(server, place)["done"], 40)
            self.assertEqual(server.ask("DELETE", place).status, 204)
            self.assertEqual(server.ask("GET", place).code, "nothing-there")
            place = self.post(server, files).headers["Location"]
            self.assertEqual(server.ask("DELETE", place).status, 204, "also while it is at work")
            self.assertEqual(server.ask("GET", "/v1/batches").json["batches"], [])

    def test_kills_lose_nothing_that_was_acknowledged(self):
        files = documents(40)
        lines = [{"document": name} for name in files]
        expected = self.drawn_by_command(files, lines)
        acknowledged, place = {}, None
        for after in (0.05, 0.1, 0.15, 0.2, 0.3, 0.4):
            with self.server() as server:
                answer = self.post(server, files)
                place = answer.headers["Location"]
                time.sleep(after)
                for line in server.ask("GET", f"{place}/results").body.decode().splitlines():
                    acknowledged[json.loads(line)["name"]] = line
                os.kill(server.process.pid, signal.SIGKILL)
                server.process.wait()
        self.assertTrue(acknowledged)
        with self.server() as server:
            kept = {json.loads(line)["name"]: line for line in server.ask("GET", f"{place}/results").body.decode().splitlines()}
            self.assertEqual({name: kept.get(name) for name in acknowledged}, acknowledged)
            counts = self.ended(server, place)
            self.assertEqual(counts["done"], 40, "a kill of the service is no fault of a job")
            self.assertEqual(server.ask("GET", f"{place}/results").body, expected["results.jsonl"])
            for name in ("J-000.pdf", "J-039.pdf"):
                self.assertEqual(server.ask("GET", f"{place}/result?name={name}").body, expected[name])

    def in_background(self, server):
        """Those who draw batches."""
        return [worker for worker in server.workers() if os.getpriority(os.PRIO_PROCESS, worker) == 10]

    def test_a_job_whose_worker_ended_is_drawn_again(self):
        with self.server("--workers", "2") as server:
            place = self.post(server, documents(100)).headers["Location"]
            for done in (1, 20):  # twice: a job that is hit a third time has failed
                self.assertTrue(wait_until(lambda: server.ask("GET", place).json["done"] >= done))
                os.kill(self.in_background(server)[0], signal.SIGKILL)
            counts = self.ended(server, place)
            self.assertEqual((counts["done"], counts["failed"]), (100, 0))
            self.assertGreaterEqual(server.metric("workers_ended_early_total"), 1)
            self.assertEqual(server.ask("GET", "/readyz").status, 200)

    def test_a_job_that_ends_its_worker_three_times_fails_and_others_are_drawn(self):
        files = {"slow.json": (source / "sample-results/long-axis.json").read_bytes(), **documents(3)}
        with self.server("--workers", "1") as server:
            place = self.post(server, files, query="?layout=report").headers["Location"]
            for times in range(3):
                self.assertTrue(wait_until(lambda: server.metric("workers_ended_early_total") == times and server.ask("GET", place).json["at_work"] == 1))
                [worker] = self.in_background(server)
                os.kill(worker, signal.SIGKILL)
            counts = self.ended(server, place)
            self.assertEqual((counts["done"], counts["failed"]), (3, 1))
            results = [json.loads(line) for line in server.ask("GET", f"{place}/results").body.splitlines()]
            self.assertEqual(results[0], {"name": "slow", "state": "failed", "reason": "ended the process that drew it, each time it was tried"})

    def test_a_job_that_takes_too_long_fails_with_its_reason(self):
        with self.server("--workers", "1", "--deadline", "4") as server:
            files = {"slow.json": (source / "sample-results/long-axis.json").read_bytes(), **documents(1)}
            place = self.post(server, files, query="?layout=report").headers["Location"]
            self.assertTrue(wait_until(lambda: server.ask("GET", place).json["at_work"] == 1))
            [worker] = self.in_background(server)
            os.kill(worker, signal.SIGSTOP)  # whatever machine this is: it draws no more
            counts = self.ended(server, place)
            self.assertEqual((counts["done"], counts["failed"]), (1, 1))
            results = [json.loads(line) for line in server.ask("GET", f"{place}/results").body.splitlines()]
            self.assertEqual(results[0], {"name": "slow", "state": "failed", "reason": "was not drawn within 4 s"})

    def test_a_service_without_batches_says_so_and_two_do_not_share_a_file(self):
        with Server(program) as server:
            self.assertEqual(server.ask("GET", "/v1/batches").code, "no-batches")
        with self.server():
            second = subprocess.run([program, "serve", "--listen", "127.0.0.1:0", "--batches", self.folder / "batches.sqlite"],
                                    capture_output=True, text=True)
            self.assertEqual(second.returncode, 73)
            self.assertIn("another service draws these batches", second.stderr)
        foreign = self.folder / "foreign.sqlite"
        foreign.write_text("something of somebody else's")
        before = foreign.read_bytes()
        third = subprocess.run([program, "serve", "--listen", "127.0.0.1:0", "--batches", foreign], capture_output=True, text=True)
        self.assertEqual(third.returncode, 73, third.stderr)
        self.assertEqual(foreign.read_bytes(), before)
        folder = self.folder / "folder"
        folder.mkdir()
        for place, said in ((folder, "is no regular file"), (self.folder / "nowhere/b.sqlite", "nowhere/b.sqlite: unable to open")):
            refused = subprocess.run([program, "serve", "--listen", "127.0.0.1:0", "--batches", place], capture_output=True, text=True)
            self.assertEqual(refused.returncode, 73, refused.stderr)
            self.assertIn(said, refused.stderr)
            self.assertNotIn("listening", refused.stderr)
        self.assertEqual([file.name for file in self.folder.iterdir() if "folder" in file.name], ["folder"], "nothing is made beside it")
        os.mkfifo(self.folder / "pipe")
        fourth = subprocess.run([program, "serve", "--listen", "127.0.0.1:0", "--batches", self.folder / "pipe"], capture_output=True, text=True, timeout=20)
        self.assertEqual(fourth.returncode, 73, fourth.stderr)

    def test_the_service_closes_while_a_batch_is_at_work_and_somebody_listens(self):
        with self.server() as server:
            place = self.post(server, documents(60)).headers["Location"]
            listening = threading.Thread(target=lambda: self.events(server, place))
            listening.start()
            time.sleep(0.3)
            self.assertEqual(server.end(), 0)
            listening.join(20)
            self.assertFalse(listening.is_alive())
        with self.server() as server:
            self.assertEqual(self.ended(server, place)["done"], 60)


unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
