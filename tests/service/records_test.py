"""The records behind the service: what is filed is what the commands write, once, whole, by any number of servers and through kills.
usage: records_test.py PROGRAM SOURCE_FOLDER
"""
import concurrent.futures
import contextlib
import http.client
import io
import json
import os
import pathlib
import shutil
import signal
import subprocess
import sys
import tarfile
import tempfile
import time
import unittest
import zipfile

sys.path.insert(0, os.path.dirname(__file__))
from server import Server  # noqa: E402

program, source = sys.argv[1], pathlib.Path(sys.argv[2])
short_axis = (source / "sample-results/short-axis.json").read_bytes()
smallest = json.loads((source / "sample-results/smallest.json").read_text())


def job(number, revision=0, remark=""):
    """The smallest sample as a revision of a job."""
    document = json.loads(json.dumps(smallest))
    document["job"].update(number=number, revision=revision, measured={"from": "2026-05-11", "to": "2026-05-11"})
    if revision:
        document["job"]["replaces"] = {"revision": revision - 1, "reason": "a unit was wrong"}
    if remark:
        document["job"]["remarks"] = [remark]
    document["machine"] = {"serial": "EX-4410"}
    return json.dumps(document).encode()


def command(*words):
    return subprocess.run([program, *map(str, words)], check=True, capture_output=True).stdout


def holds(record):
    return subprocess.run([program, "verify", record], capture_output=True, text=True)


def files_below(folder):
    return {str(file.relative_to(folder)): file.read_bytes() for file in sorted(folder.rglob("*")) if file.is_file()}


class Records(unittest.TestCase):
    def setUp(self):
        held = tempfile.TemporaryDirectory()
        self.addCleanup(held.cleanup)
        self.folder = pathlib.Path(held.name)
        self.records = self.folder / "records"
        self.records.mkdir()

    def server(self, *options):
        return Server(program, "--records", str(self.records), *options)

    def file(self, server, document, headers=None, layout="summary"):
        return server.post(f"/v1/records?layout={layout}", document, headers)

    def test_what_is_filed_and_told_is_what_the_commands_write_and_print(self):
        document = self.folder / "job.json"
        document.write_bytes(short_axis)
        command("record", document, "-o", self.folder / "alone/WF-1001")
        with self.server() as server:
            answer = server.post("/v1/records", short_axis)
            self.assertEqual((answer.status, answer.json["record"], answer.json["filed"]), (201, "WF-1001/revision-0", "now"), answer.body)
            self.assertEqual(files_below(self.records), files_below(self.folder / "alone"))
            place = answer.headers["Location"]
            self.assertEqual(server.ask("GET", place).json["visits"], server.ask("GET", "/v1/records").json["visits"])
            bag = self.records / "WF-1001/revision-0/data"
            for part, file in (("document", "inputs/wayfolio-result.json"), ("report", "report.pdf"), ("evaluation", "evaluation.json")):
                self.assertEqual(server.ask("GET", f"{place}/{part}").body, (bag / file).read_bytes(), part)
            self.assertEqual(server.ask("GET", f"{place}/redrawing").body, (bag / "report.pdf").read_bytes())
            index = self.folder / "own.sqlite"
            self.assertEqual(server.ask("GET", "/v1/records?verdict=conditional_fail").body,
                             command("catalogue", self.records, "--index", index, "--json", "--verdict", "conditional_fail"))
            self.assertEqual(server.ask("GET", "/v1/history?serial=D-0007").body,
                             command("history", self.records, "--index", index, "--json", "--serial", "D-0007"))
            verdict = server.ask("GET", f"{place}/verification?against={answer.json['fingerprint'][:16]}").json
            self.assertTrue(verdict["sound"])
            self.assertEqual(verdict["file"], "WF-1001/revision-0")
            self.assertNotIn(str(self.folder), json.dumps(verdict))
            second = json.loads(short_axis)
            second["job"].update(number="WF-1002")
            second["series"][0]["runs"][0]["deviations"][1] = 0.7
            later = self.file(server, json.dumps(second).encode()).json["fingerprint"]
            compared = server.ask("GET", f"/v1/comparison?old={answer.json['fingerprint'][:20]}&new={later}").json
            self.assertEqual(len(compared["readings"]), 1)

    def test_a_record_is_taken_away_packed_without_being_kept(self):
        packs = {}
        for zone in ("UTC", "Pacific/Auckland"):
            os.environ["TZ"] = zone
            with Server(program) as server:
                for form in ("zip", "tar"):
                    packs.setdefault(form, set()).add(server.post(f"/v1/record?layout=summary&format={form}", job("K/1")).body)
        os.environ.pop("TZ")
        self.assertEqual([len(pack) for pack in packs.values()], [1, 1], "no clock and no time zone goes in")
        zipfile.ZipFile(io.BytesIO(packs["zip"].pop())).extractall(self.folder / "zip")
        with tarfile.open(fileobj=io.BytesIO(packs["tar"].pop())) as tar:
            tar.extractall(self.folder / "tar", filter="data") if hasattr(tarfile, "data_filter") else tar.extractall(self.folder / "tar")
        self.assertEqual(files_below(self.folder / "zip"), files_below(self.folder / "tar"))
        record, = (self.folder / "zip").iterdir()
        self.assertRegex(record.name, "^job-[0-9a-f]{16}$")
        self.assertEqual(holds(record).returncode, 0, holds(record).stdout)
        self.assertEqual(list(self.records.iterdir()), [])

    def test_asking_again_files_nothing_more_and_a_key_stands_for_one_thing(self):
        with self.server() as server:
            first = self.file(server, job("K-1"), {"Idempotency-Key": "one"})
            again = self.file(server, job("K-1"), {"Idempotency-Key": "one"})
            self.assertEqual((first.status, again.status, again.json["filed"]), (201, 200, "before"))
            other = self.file(server, job("K-2"), {"Idempotency-Key": "one"})
            self.assertEqual((other.status, other.code), (422, "key-used"))
            self.assertFalse((self.records / "K-2").exists())
            # A client makes another boundary for each try.
            for status in (201, 200):
                parts = server.post_parts("/v1/records?layout=summary", [("document", None, job("K-3"))], {"Idempotency-Key": "two"})
                self.assertEqual(parts.status, status, parts.body)
            unfit = self.file(server, job("K-4"), {"Idempotency-Key": "x" * 256})
            self.assertEqual((unfit.status, unfit.code), (400, "malformed-request"))
        with self.server() as later:  # which knows nothing of the first
            self.assertEqual(self.file(later, job("K-2"), {"Idempotency-Key": "one"}).code, "key-used")

    def test_what_would_overwrite_or_has_no_number_is_refused_with_its_place(self):
        with self.server() as server:
            self.file(server, job("K-1"))
            for document, pointer in ((job("K-1", remark="another"), "/job/revision"), (job("K-1", revision=5), "/job/replaces/revision"),
                                      (job(""), "/job"), (b'{"format": "wayfolio-result"', "/format")):
                refused = self.file(server, document)
                self.assertEqual(refused.status, 422, refused.body)
                self.assertEqual(refused.json["faults"][0]["pointer"], pointer)
            self.assertEqual(self.file(server, job("K-1", revision=1)).status, 201)
            self.assertEqual([visit["replaced"] for visit in server.ask("GET", "/v1/records").json["visits"]], [True, False])
            self.assertEqual(sorted(file.name for file in self.records.iterdir()), ["K-1"])

    def test_four_servers_file_into_one_folder_at_once(self):
        with contextlib.ExitStack() as stack:
            servers = [stack.enter_context(self.server()) for _ in range(4)]
            with concurrent.futures.ThreadPoolExecutor(16) as pool:
                same = {number: [pool.submit(self.file, server, job(number)) for server in servers] for number in ("A", "B", "C", "D")}
                for number, answers in same.items():
                    told = sorted(answer.result().status for answer in answers)
                    self.assertEqual(told, [200, 200, 200, 201], number)
                # Four different first revisions of one job, and four different second ones: one of each is filed.
                for revision in (0, 1):
                    answers = [pool.submit(self.file, server, job("E", revision, f"by {i}")) for i, server in enumerate(servers)]
                    told = sorted(answer.result().status for answer in answers)
                    self.assertEqual(told, [201, 422, 422, 422])
            listings = {server.ask("GET", "/v1/records").body for server in servers}
            self.assertEqual(len(listings), 1, "each index has caught up")
            self.assertEqual(len(json.loads(listings.pop())["visits"]), 6)
        for record in self.records.iterdir():
            self.assertEqual(holds(record).returncode, 0, holds(record).stdout)

    def test_kills_lose_nothing_that_was_acknowledged_and_leave_nothing_half(self):
        asked, acknowledged = [], set()

        def file_until_the_line_breaks(server, moment):
            for i in range(100):
                asked.append(f"K-{moment}-{i}")
                acknowledged.add(self.file(server, job(asked[-1])).json["fingerprint"])

        for moment in range(12):
            with self.server() as server, concurrent.futures.ThreadPoolExecutor(1) as pool:
                client = pool.submit(file_until_the_line_breaks, server, moment)
                time.sleep(0.2 + 0.027 * moment)
                server.end(signal.SIGKILL)
                self.assertIsInstance(client.exception(), (OSError, http.client.HTTPException))
        self.assertGreater(len(acknowledged), 4)
        with self.server() as server:
            visits = {visit["fingerprint"].split(":")[1] for visit in server.ask("GET", "/v1/records").json["visits"]}
            self.assertEqual(acknowledged - visits, set())
            self.assertEqual(server.ask("GET", "/v1/records").json["damaged"], [])
            for number in asked:  # whoever got no answer asks again
                self.assertIn(self.file(server, job(number)).status, (200, 201))
            self.assertEqual(len(server.ask("GET", "/v1/records").json["visits"]), len(asked))
        for record in self.records.iterdir():
            self.assertEqual(sorted(file.name for file in record.iterdir()), ["revision-0"], "what was cut off is cleared away")

    def test_a_changed_record_is_told_and_not_given_out(self):
        with self.server() as server:
            place = self.file(server, job("K-1")).headers["Location"]
            numbers = self.records / "K-1/revision-0/data/evaluation.json"
            numbers.write_bytes(numbers.read_bytes().replace(b"1.4", b"1.3", 1))
            self.assertIn("evaluation.json", " ".join(server.ask("GET", "/v1/records").json["damaged"]))
            verdict = server.ask("GET", place + "/verification")
            self.assertEqual((verdict.status, verdict.json["sound"]), (200, False), verdict.body)
            for part in ("report", "document", "evaluation", "bag", "redrawing"):
                refused = server.ask("GET", f"{place}/{part}")
                self.assertEqual((refused.status, refused.code), (409, "record-changed"), part)
                self.assertIn("evaluation.json", refused.json["detail"])
            again = self.file(server, job("K-1"))  # who asks whether it is kept is not told that all is well
            self.assertEqual(again.status, 422, again.body)
            self.assertIn("not as it was filed", again.json["faults"][0]["found"])
            nobody = server.ask("GET", "/v1/records/0123456789abcdef/report")
            self.assertEqual((nobody.status, nobody.code), (404, "nothing-there"))
            for wrong in ("..%2F..%2Fetc", "K-1", "0123456789abcde", "g" * 16, "%25", "_" * 20):
                refused = server.ask("GET", f"/v1/records/{wrong}/document")
                self.assertEqual((refused.status, refused.code), (400, "unknown-option"), wrong)
            self.assertEqual(server.ask("GET", "/v1/records/%/document").code, "malformed-request")

    def test_a_folder_that_goes_away_is_told_without_saying_where_it_lay(self):
        with self.server() as server:
            self.file(server, job("K-1"))
            shutil.rmtree(self.records)
            self.records.write_text("something else")
            filing = self.file(server, job("K-2"))
            self.assertEqual((filing.status, filing.code), (503, "not-kept"))
            self.assertIn("Retry-After", filing.headers)
            listing = server.ask("GET", "/v1/records")
            self.assertEqual((listing.status, listing.code), (503, "not-kept"))
            self.assertNotIn(str(self.folder), (filing.body + listing.body).decode())
            self.assertEqual(server.post("/v1/report", job("K-2")).status, 200)
            self.assertTrue(any(line.get("event") == "not kept" for line in server.log()))

    def test_without_records_nothing_is_kept_and_wrong_folders_are_refused_at_the_start(self):
        with Server(program) as server:
            for answer in (server.ask("GET", "/v1/records"), self.file(server, job("K-1")), server.ask("GET", "/v1/history?serial=x")):
                self.assertEqual((answer.status, answer.code), (404, "no-records"))
        (self.folder / "file").write_text("x")
        for words, told in ((("--records", self.folder / "nothing"), "is no folder"), (("--records", self.folder / "file"), "is no folder"),
                            (("--index", self.folder / "x.sqlite"), "--index goes with --records")):
            refused = subprocess.run([program, "serve", "--listen", "127.0.0.1:0", *map(str, words)], capture_output=True, text=True, timeout=30)
            self.assertIn(refused.returncode, (2, 73))
            self.assertIn(told, refused.stderr)

    def test_an_index_that_is_named_stays_and_another_ends_with_the_service(self):
        index = self.folder / "own.sqlite"
        os.environ["TMPDIR"] = str(self.folder / "temporary")
        (self.folder / "temporary").mkdir()
        for options in ((), ("--index", str(index))):
            with self.server(*options) as server:
                self.file(server, job("K-1"))
                self.assertEqual(len(server.ask("GET", "/v1/records").json["visits"]), 1)
                server.end()
        os.environ.pop("TMPDIR")
        self.assertEqual(list((self.folder / "temporary").iterdir()), [])
        self.assertTrue(index.exists())
        self.assertEqual(sorted(file.name for file in self.records.iterdir()), ["K-1"])


unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
