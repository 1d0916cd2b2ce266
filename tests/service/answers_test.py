"""What the service answers: the bytes of the commands, its description, tags, problems, and who may ask.
usage: answers_test.py PROGRAM SOURCE_FOLDER
"""
import json
import os
import pathlib
import re
import socket
import subprocess
import sys
import tempfile
import unittest
import urllib.request

sys.path.insert(0, os.path.dirname(__file__))
from server import Server, multipart, wait_until  # noqa: E402
from workbook import workbook  # noqa: E402

program, source = sys.argv[1], pathlib.Path(sys.argv[2])
short_axis = (source / "sample-results/short-axis.json").read_bytes()
smallest = (source / "sample-results/smallest.json").read_bytes()


def command(*words):
    return subprocess.run([program, *map(str, words)], check=True, capture_output=True).stdout


def faulty(document, change):
    changed = json.loads(document)
    change(changed)
    return json.dumps(changed).encode()


def exports_of(state):
    folder = source / "sample-results/exports"
    return [("mapping", None, (folder / "mapping.json").read_bytes()), ("into", None, (folder / "job.json").read_bytes()),
            *(("facts", file.name, file.read_bytes()) for file in sorted((folder / "facts").iterdir())),
            *(("file", file.name, file.read_bytes()) for file in sorted((folder / state).iterdir()))]


class Answers(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.records, cls.batches = tempfile.TemporaryDirectory(), tempfile.TemporaryDirectory()
        cls.server = Server(program, "--records", cls.records.name, "--batches", cls.batches.name + "/batches.sqlite", "--samples", str(source / "sample-results"))

    @classmethod
    def tearDownClass(cls):
        cls.server.end()
        cls.server.__exit__()
        cls.records.cleanup()
        cls.batches.cleanup()

    def test_the_bytes_are_those_of_the_commands(self):
        sample = source / "sample-results/short-axis.json"
        with tempfile.TemporaryDirectory() as folder:
            for target, words, ending in (
                    ("/v1/report?paper=Letter&layout=customer", ("report", sample, "--paper", "Letter", "--layout", "customer"), "pdf"),
                    ("/v1/figure?series=x-exx-found&name=reversal", ("figure", sample, "--series", "x-exx-found", "--figure", "reversal"), "svg"),
                    ("/v1/figure?name=environment&format=png&width=narrow", ("figure", sample, "--figure", "environment", "--narrow"), "png"),
                    ("/v1/table?series=x-exx-found", ("table", sample, "--series", "x-exx-found"), "csv")):
                with self.subTest(target):
                    file = pathlib.Path(folder, "out." + ending)
                    command(*words, "-o", file)
                    answer = self.server.post(target, short_axis)
                    self.assertEqual(answer.status, 200, answer.body[:300])
                    self.assertEqual(answer.body, file.read_bytes())
        self.assertEqual(self.server.post("/v1/evaluation", short_axis).body, command("evaluate", sample))
        verdict = self.server.ask("POST", "/v1/verification", self.server.post("/v1/report", smallest).body, {"Content-Type": "application/pdf"})
        self.assertEqual(verdict.json["format"], "wayfolio-verification")

    def test_exports_become_the_document_that_the_command_makes_and_two_documents_are_compared(self):
        folder = source / "sample-results/exports"
        with tempfile.TemporaryDirectory() as made:
            file = pathlib.Path(made, "found.json")
            facts = [word for one in sorted((folder / "facts").iterdir()) if one.name.startswith("machine") for word in ("--facts", one)]
            command("gather", folder / "mapping.json", folder / "found", "--into", folder / "job.json", *facts, "--state", "as-found", "-o", file)
            answer = self.server.post_parts("/v1/gathered?state=as-found", exports_of("found"))
            self.assertEqual(answer.status, 200, answer.body[:600])
            self.assertEqual(answer.json["document"].encode(), file.read_bytes())
            self.assertIn("readings", answer.json["account"])
            changed = faulty(short_axis, lambda json_: json_["series"][0]["runs"][0]["deviations"].__setitem__(1, 0.7))
            pathlib.Path(made, "changed.json").write_bytes(changed)
            compared = self.server.post_parts("/v1/comparison", [("old", None, short_axis), ("new", None, changed)])
            self.assertEqual(compared.json["format"], "wayfolio-comparison")
            self.assertEqual(len(compared.json["readings"]), 1)
        wrong = self.server.post_parts("/v1/gathered", exports_of("found")[:1])
        self.assertEqual(wrong.status, 422, wrong.body[:300])

    def test_a_report_is_drawn_again_as_the_command_does_and_what_carries_nothing_is_refused(self):
        report = self.server.post("/v1/report", smallest).body
        pdf = {"Content-Type": "application/pdf"}
        self.assertEqual(self.server.ask("POST", "/v1/redrawing", report, pdf).body, report)
        with tempfile.TemporaryDirectory() as made:
            kept, again = pathlib.Path(made, "report.pdf"), pathlib.Path(made, "again.pdf")
            kept.write_bytes(report)
            for options, query in ((["--layout", "summary"], "?layout=summary"), (["--paper", "Letter"], "?paper=Letter")):
                command("redraw", kept, *options, "-o", again)
                self.assertEqual(self.server.ask("POST", "/v1/redrawing" + query, report, pdf).body, again.read_bytes())
                again.unlink()
        path = self.server.ask("POST", "/v1/redrawing?layout=/etc/passwd", report, pdf)
        self.assertEqual((path.status, path.code), (400, "unknown-option"))
        nothing = self.server.ask("POST", "/v1/redrawing", smallest, pdf)
        self.assertEqual((nothing.status, nothing.code), (422, "faulty-input"))

    def test_a_plan_is_that_of_the_command_with_facts_and_without(self):
        facts = source / "sample-results/exports/facts/machine-D-0012.json"
        with tempfile.TemporaryDirectory() as folder:
            plan, sheet = pathlib.Path(folder, "plan.json"), pathlib.Path(folder, "plan.pdf")
            words = ("plan", "EXX", "EYX", "--facts", facts, "--runs", "3", "--feed", "6000", "--dwell", "4", "--state", "as-found", "--state", "as-left")
            told = command(*words, "-o", plan, "--sheet", sheet).decode()
            query = "/v1/plan?errors=EXX,EYX&runs=3&feed=6000&dwell=4&states=as-found,as-left"
            answer = self.server.post_parts(query, [("facts", facts.name, facts.read_bytes())])
            self.assertEqual(answer.status, 200, answer.body[:400])
            self.assertEqual(answer.json["document"].encode(), plan.read_bytes())
            self.assertIn(answer.json["account"].splitlines()[0], told)
            self.assertEqual(self.server.post_parts(query + "&format=pdf", [("facts", facts.name, facts.read_bytes())]).body, sheet.read_bytes())
        alone = self.server.ask("POST", "/v1/plan?errors=EXX&travel=0:500", b"")
        self.assertEqual(alone.status, 200, alone.body)
        for query, told in (("errors=EXX&travel=500", "travel 500: write it as FROM:TO"), ("errors=EQQ&travel=0:500", "no error symbol"),
                            ("errors=EXX&travel=0:500&runs=0", "whole number"), ("errors=EXX&travel=0:500&feed=nan", "feed nan"),
                            ("errors=EXX&travel=0:500&feed=fast", "a number"), ("errors=&travel=0:500", "no error given"),
                            ("errors=EXX,EYY&travel=0:500", "another axis")):
            refused = self.server.ask("POST", "/v1/plan?" + query, b"")
            self.assertEqual((refused.status, refused.code), (400, "unknown-option"), query)
            self.assertIn(told, refused.json["detail"])
        nowhere = self.server.ask("POST", "/v1/plan?errors=EXX", b"")
        self.assertEqual((nowhere.status, nowhere.code), (422, "faulty-input"))

    def test_a_proposal_is_that_of_the_command_and_asks_each_open_place(self):
        files = [part for part in exports_of("found") if part[0] == "file"]
        answer = self.server.post_parts("/v1/proposal", files)
        self.assertEqual(answer.status, 200, answer.body[:300])
        with tempfile.TemporaryDirectory() as made:
            mapping = pathlib.Path(made, "mapping.json")
            command("gather", "--propose", source / "sample-results/exports/found", "-o", mapping)
            self.assertEqual(answer.json["mapping"], json.loads(mapping.read_text()))
            self.assertEqual(len(answer.json["questions"]), mapping.read_text().count('"?"'))
        self.assertEqual(len(answer.json["exports"]), len(files))
        nothing = self.server.post_parts("/v1/proposal", [("file", "x.csv", b"no readings")])
        self.assertEqual((nothing.status, nothing.code), (422, "faulty-input"))

    def test_a_proposal_takes_roles_and_sheets_that_are_said_by_hand(self):
        def proposal(given, *files):
            return self.server.post_parts("/v1/proposal", [*(("file", name, content) for name, content in files), ("given", None, json.dumps(given).encode())])
        text = ("x.csv", b"Target [mm];Position [mm];Dir;Run;EXX [um]\n0;0;+;1;0.5\n5;5;-;1;1.5\n")
        answer = proposal({"roles": [{"file": "x.csv", "column": 2, "role": "position"}]}, text)
        self.assertEqual(answer.json["mapping"]["exports"][0]["position"], {"column": "Position [mm]"})
        self.assertIn({"role": "position", "says": "target position", "only_one": True}, answer.json["roles"])
        head = ["Target [mm]", "Dir", "Run", "EXX [um]"]
        book = ("book.xlsx", workbook({"Along": [head, ["0", "+", "1", "0.5"], ["5", "-", "1"]], "Across": [head, ["0", "+", "1", "0.5"]], "Empty": []}))
        answer = proposal({}, book, text)
        self.assertEqual(answer.json["sheets"], [{"file": "book.xlsx", "names": ["Along", "Across"]}])
        self.assertEqual([seen["file"] for seen in answer.json["exports"]], ["x.csv"], "what nobody chose is not looked at")
        answer = proposal({"sheets": [{"file": "book.xlsx", "names": ["Along"]}]}, book)
        self.assertEqual([(seen["file"], seen["sheet"]) for seen in answer.json["exports"]], [("book.xlsx", "Along")])
        self.assertEqual(answer.json["mapping"]["exports"][0]["sheet"], "Along")
        comma = ("c.csv", "Target [mm];Dir;EXX [\u00b5m]\n0;+;1,234\n5;+;2,345\n".encode("latin-1"))
        answer = proposal({}, comma)
        self.assertEqual(answer.json["exports"][0]["read_as"], {"encoding": "latin-1", "delimiter": ";", "decimal_mark": "", "first_row": 2})
        answer = proposal({"read_as": [{"file": "c.csv", "decimal_mark": ","}]}, comma)
        self.assertEqual(answer.json["exports"][0]["read_as"]["decimal_mark"], ",")
        self.assertEqual(answer.json["mapping"]["exports"][0]["decimal_mark"], ",")
        for given in ({"read_as": [{"file": "x.csv", "delimiter": "x"}]}, {"read_as": [{"file": "y.csv"}]}, {"read_as": [{"file": "book.xlsx", "delimiter": ";"}]}, {"read_as": [{}]},
                      {"read_as": [{"file": "x.csv", "delimiter": ";"}, {"file": "x.csv", "delimiter": ","}]}, {"sheets": [{"file": "book.xlsx", "names": ["Along"]}, {"file": "book.xlsx", "names": ["Across"]}]},
                      {"sheets": [{"file": "book.xlsx", "names": ["/etc/passwd"]}]}, {"sheets": [{"file": "book.xlsx", "names": []}]}, {"sheets": [{"file": "../b.xlsx", "names": ["A"]}]},
                      {"sheets": [{"file": "x.csv", "names": ["A"]}, {"file": "book.xlsx", "names": ["Along"]}]},
                      {"roles": [{"file": "book.xlsx", "column": 0, "role": "run"}]}, {"roles": [{"file": "x", "column": 1, "role": "run"}]}, {"rolls": []}, []):
            refused = proposal(given, book, text)
            self.assertEqual((refused.status, refused.code), (422, "faulty-input"), given)

    def test_the_service_tells_its_limits_and_shows_no_file_but_sound_samples_and_what_they_name(self):
        about = self.server.ask("GET", "/v1/service").json
        self.assertEqual({key: about[key] for key in ("records", "batches", "samples")}, {"records": True, "batches": True, "samples": True})
        self.assertEqual(about["limits"]["deadline_s"], 30)
        part = b'--b\r\nContent-Disposition: form-data; name="file"; filename="%d"\r\n\r\n\r\n'
        for more, status in ((0, 422), (1, 400)):  # one part more is one too many
            body = b"".join(part % number for number in range(about["limits"]["parts"] + more)) + b"--b--\r\n"
            self.assertEqual(self.server.ask("POST", "/v1/proposal", body, {"Content-Type": "multipart/form-data; boundary=b"}).status, status)
        with self.server.connect() as line:  # the head alone: what is too large is not waited for
            line.sendall(b"POST /v1/check HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n" % (about["limits"]["body_bytes"] + 1))
            self.assertTrue(line.recv(65536).startswith(b"HTTP/1.1 413 "))
        with tempfile.TemporaryDirectory() as made:
            folder = pathlib.Path(made)
            traced = faulty(smallest, lambda json_: (json_["series"][0].update(trace={"approach": "positive", "file": "trace.csv"}), json_["job"].update(title="A traced one")))
            for name, content in {"traced.json": traced, "trace.csv": b"0,0.1\n100,0.4\n200,0.2\n", "other.csv": b"0,1\n", "faulty.json": b"{}", "notes.txt": b"-",
                                  "lacking.json": traced.replace(b"trace.csv", b"nowhere.csv")}.items():
                (folder / name).write_bytes(content)
            with Server(program, "--samples", made) as server:
                self.assertEqual(server.ask("GET", "/v1/samples").json, [{"name": "traced.json", "title": "A traced one", "files": ["trace.csv"]}])
                self.assertEqual(server.ask("GET", "/v1/samples/traced.json").body, traced)
                self.assertEqual(server.ask("GET", "/v1/samples/trace.csv").body, b"0,0.1\n100,0.4\n200,0.2\n")
                for name in ("other.csv", "faulty.json", "lacking.json", "..%2ftraced.json", "%2fetc%2fpasswd"):
                    self.assertEqual(server.ask("GET", "/v1/samples/" + name).code, "nothing-there", name)
                self.assertFalse(server.ask("GET", "/v1/service").json["records"])
        with Server(program) as bare:
            self.assertEqual(bare.ask("GET", "/v1/samples").code, "nothing-there")

    def test_check_tells_faults_as_its_answer(self):
        self.assertEqual(self.server.post("/v1/check", smallest).json["faults"], [])
        answer = self.server.post("/v1/check", b'{"format": "wayfolio-result"')
        self.assertEqual(answer.status, 200)
        self.assertGreater(len(answer.json["faults"]), 0)

    def test_what_a_client_has_is_not_made_again(self):
        for target in ("/v1/report", "/v1/figure?series=x", "/v1/check", "/v1/page?number=1"):
            with self.subTest(target):
                document = faulty(smallest, lambda json_: json_["series"][0].update(id="x"))
                tag = self.server.post(target, document).headers["ETag"]
                again = self.server.post(target, document, {"If-None-Match": f'"other", {tag}'})
                self.assertEqual((again.status, again.body, again.headers["ETag"]), (304, b"", tag))
                other = faulty(document, lambda json_: json_["job"].update(number="other"))
                self.assertEqual(self.server.post(target, other, {"If-None-Match": tag}).status, 200)

    def test_files_travel_in_the_request_and_nowhere_else(self):
        document = faulty(smallest, lambda json_: json_["series"][0].update(trace={"approach": "positive", "file": "README.md"}))
        missing = self.server.post("/v1/report", document)  # a file of that name lies in the folder of the service
        self.assertEqual((missing.status, missing.code), (422, "faulty-input"))
        self.assertIn("no part with this filename came", json.dumps(missing.json["faults"]))
        came = self.server.post_parts("/v1/evaluation", [("document", None, document), ("file", "README.md", b"0,0.1\n100,0.4\n200,0.2\n")])
        self.assertEqual(came.status, 200, came.body[:400])
        for name in ("/etc/passwd", "../etc/passwd", "..", "a/b"):
            body, kind = multipart([("document", None, smallest), ("file", name, b"x")])
            self.assertEqual(self.server.ask("POST", "/v1/report", body, {"Content-Type": kind}).status, 400, name)
        for name in ("/etc/passwd", str(source / "layouts/report.json"), "../report", "report.json", ""):
            answer = self.server.post("/v1/report?layout=" + name.replace("/", "%2F"), smallest)
            self.assertEqual((answer.status, answer.code), (400, "unknown-option"), name)
        layout = b'{"format": "wayfolio-layout", "version": 1, "extends": "/etc/passwd"}'
        self.assertEqual(self.server.post_parts("/v1/report", [("document", None, smallest), ("layout", None, layout)]).status, 422)

    def test_a_layout_of_ones_own_travels_too(self):
        layout = json.dumps({"format": "wayfolio-layout", "version": 1, "name": "house", "title": "A layout of the example laboratory",
                             "extends": "summary", "house": {"first_line": "Form 12 of the example"}}).encode()
        answer = self.server.post_parts("/v1/report", [("document", None, smallest), ("layout", None, layout)])
        self.assertEqual(answer.status, 200, answer.body[:300])
        with tempfile.TemporaryDirectory() as folder:
            pdf = pathlib.Path(folder, "own.pdf")
            pdf.write_bytes(answer.body)
            self.assertIn("Form 12 of the example", subprocess.run(["pdftotext", pdf, "-"], capture_output=True, text=True).stdout)

    def test_every_problem_has_its_status_and_code(self):
        ask, post = self.server.ask, self.server.post
        for answer, status, code in (
                (ask("GET", "/v1/nothing"), 404, "no-such-route"),
                (ask("GET", "/v1/report"), 405, "wrong-method"),
                (ask("POST", "/healthz"), 405, "wrong-method"),
                (ask("POST", "/v1/report", b"x", {"Content-Type": "text/plain"}), 415, "wrong-content-type"),
                (ask("POST", "/v1/report", b"x"), 415, "wrong-content-type"),
                (post("/v1/report", b"no JSON"), 422, "faulty-input"),
                (post("/v1/report", b""), 422, "faulty-input"),
                (post("/v1/report?paper=A3", smallest), 400, "unknown-option"),
                (post("/v1/report?colour=red", smallest), 400, "unknown-option"),
                (post("/v1/report?paper=A4&paper=A4", smallest), 400, "malformed-request"),
                (post("/v1/report?paper=%4", smallest), 400, "malformed-request"),
                (post("/v1/page?number=0", smallest), 400, "unknown-option"),
                (post("/v1/page?number=-1", smallest), 400, "unknown-option"),
                (post("/v1/page?number=99", smallest), 404, "nothing-there"),
                (post("/v1/table?series=nobody", smallest), 404, "nothing-there"),
                (post("/v1/table", smallest), 400, "unknown-option"),
                (post("/v1/figure?name=nothing", smallest), 404, "nothing-there"),
                (ask("GET", "/v1/schemas/nothing"), 404, "nothing-there"),
                (ask("POST", "/v1/verification", b"no PDF", {"Content-Type": "application/pdf"}), 422, "faulty-input"),
                (self.server.post_parts("/v1/report", [("layout", None, b"{}")]), 400, "malformed-request"),
                (self.server.post_parts("/v1/report", [("document", None, smallest)] * 2), 400, "malformed-request"),
                (self.server.post_parts("/v1/report", [("document", None, smallest)] + [("file", f"f{i}", b"") for i in range(80)]),
                 400, "malformed-request")):
            with self.subTest(code=code, detail=answer.body[:200]):
                self.assertEqual((answer.status, answer.code), (status, code))
                self.assertEqual(answer.json["status"], status)
        known = {(kind["code"], kind["status"]) for kind in ask("GET", "/v1/problems").json}
        self.assertIn(("faulty-input", 422), known)
        self.assertEqual(ask("GET", "/v1/report").headers["Allow"], "POST")
        own = f"http://127.0.0.1:{self.server.port}"
        self.assertEqual(ask("GET", "/v1/layouts", headers={"Origin": own}).status, 200)
        self.assertEqual(ask("GET", "/v1/layouts", headers={"Host": "localhost:1"}).status, 200)
        self.assertEqual(ask("GET", "/v1/layouts", headers={"Host": "[::1]:1"}).status, 200)

    def test_the_description_is_that_of_the_command_and_every_route_answers_as_it_says(self):
        described = self.server.ask("GET", "/v1/openapi.json")
        self.assertEqual(described.body, command("serve", "--describe"))
        names = set()
        for path, methods in described.json["paths"].items():
            if path.startswith("/v1/previewed"):  # of another command; the page's walk asks them
                continue
            for method, operation in methods.items():
                with self.subTest(path):
                    self.assertNotIn(operation["operationId"], names)
                    names.add(operation["operationId"])
                    self.call(path, method.upper(), operation)
        self.assertGreaterEqual(len(names), 30)

    def call(self, path, method, operation):
        """Asks with the examples of the description, and again with each word that an option may be."""
        filed = self.server.post("/v1/records?layout=summary", faulty(smallest, lambda json_: (
            json_["job"].update(number="WF-1001", measured={"from": "2026-05-11", "to": "2026-05-11"}), json_.update(machine={"serial": "EX-4410"}))))
        fingerprint = filed.json["fingerprint"]
        parameters = operation.get("parameters", [])
        queries = [{}]
        for option in (one for one in parameters if one["in"] == "query"):
            for value in option["schema"].get("enum", [option["example"]]):
                queries.append({option["name"]: value})
        count = 0
        content = operation.get("requestBody", {}).get("content", {})
        for query in queries:
            count += 1
            document = faulty(smallest, lambda json_: (json_["series"][0].update(id="x-exx"), json_["job"].update(number=f"K-{count}")))
            for option in parameters:
                if option["in"] == "query" and option["required"]:
                    query.setdefault(option["name"], option["example"])
            if query.get("name") == "error" or query.get("width") or path == "/v1/figure":
                query.setdefault("series", "x-exx")
            if path == "/v1/gathered":
                query.setdefault("state", "as-found")
            if query.get("format") == "pdf":
                query.pop("width", None)
            if path == "/v1/plan":
                query.setdefault("travel", "0:6400")
                query["errors"] = "ECC" if query.get("unit") == "deg" else query["errors"]
                query["travel"] = "0:360" if query.get("unit") == "deg" else query["travel"]
            for side in ("old", "new"):
                query.update({side: fingerprint} if side in query else {})
            if query.get("against"):
                query["against"] = fingerprint[:16]
            batch = self.batch(document) if "{batch}" in path else ""
            target = path.replace("{name}", "smallest.json" if "samples" in path else "result").replace("{fingerprint}", fingerprint[:16]).replace("{batch}", batch) + "?" * bool(query) + "&".join(f"{key}={value}" for key, value in query.items())
            if path == "/v1/comparison" and method == "POST":
                body, kind = multipart([("old", None, document), ("new", None, document)])
            elif path == "/v1/plan":
                body, kind = multipart([part for part in exports_of("found") if part[1] == "laboratory.json"])
            elif path == "/v1/batches" and method == "POST":
                body, kind = multipart([("manifest", None, b'{"document": "J-000.json"}'), ("file", "J-000.json", document)])
            elif path in ("/v1/gathered", "/v1/proposal"):
                parts = exports_of("found")
                body, kind = multipart(parts if path == "/v1/gathered" else [part for part in parts if part[0] == "file"])
            elif "application/pdf" in content:
                body, kind = self.server.post("/v1/report?layout=summary", smallest).body, "application/pdf"
            else:
                body, kind = (document, "application/json") if content else (b"", "text/plain")
            answer = self.server.ask(method, target, body, {"Content-Type": kind} if content else {})
            made = {("/v1/records", "POST"): 201, ("/v1/batches", "POST"): 202, ("/v1/batches/{batch}", "DELETE"): 204}.get((path, method), 200)
            self.assertEqual(answer.status, made, f"{target}: {answer.body[:300]}")
            if made != 204:
                self.assertIn(answer.headers["Content-Type"].split(";")[0], operation["responses"][str(made)]["content"], target)

    def batch(self, document):
        """A batch of one job that has ended."""
        parts = [("manifest", None, b'{"document": "J-000.json"}'), ("file", "J-000.json", document)]
        place = self.server.post_parts("/v1/batches?layout=summary", parts).headers["Location"]
        self.assertTrue(wait_until(lambda: self.server.ask("GET", place).json["ended"]))
        return place.rsplit("/", 1)[1]

    def test_head_is_get_without_a_body(self):
        answer = self.server.ask("HEAD", "/v1/layouts")
        self.assertEqual((answer.status, answer.body), (200, b""))
        self.assertGreater(int(answer.headers["Content-Length"]), 10)

    def test_a_request_keeps_the_id_that_it_came_with_and_the_log_knows_nothing_of_the_customer(self):
        answer = self.server.post("/v1/table?series=secret-series", smallest, {"X-Request-Id": "job-7.a"})
        self.assertEqual(answer.headers["X-Request-Id"], "job-7.a")
        self.assertNotIn("\n", self.server.post("/v1/check", smallest, {"X-Request-Id": "a" * 100}).headers["X-Request-Id"])
        lines = self.server.log()
        self.assertIn(("job-7.a", "/v1/table", 404), [(line.get("request"), line.get("route"), line.get("status")) for line in lines])
        self.assertNotIn("secret-series", json.dumps(lines))


    def test_the_manuals_programs_in_other_languages_get_a_report_or_its_first_fault(self):
        page = (source / "render/install/wayfolio-service.7").read_text()
        with tempfile.TemporaryDirectory() as folder:
            result, wrong, pdf = (pathlib.Path(folder, name) for name in ("result.json", "wrong.json", "report.pdf"))
            result.write_bytes(smallest)
            wrong.write_bytes(smallest.replace(b'"um"', b'"micron"', 1))
            programs = re.findall(r'^\.\\" example: (\S+)\n(.*?)^\.\\" end$', page, re.DOTALL | re.MULTILINE)
            self.assertEqual([name for name, _ in programs], ["report.py", "report.mjs"])
            for name, text in programs:
                for written, meant in (("\\-", "-"), ("\\(aq", "'"), ("\\(ga", "`"), ("\\e", "\\"), (":8480", f":{self.server.port}")):
                    text = text.replace(written, meant)
                file = pathlib.Path(folder, name)
                file.write_text(text)
                language = "/usr/bin/python3" if name.endswith(".py") else "node"
                subprocess.run([language, file, result, pdf], check=True, capture_output=True)
                self.assertEqual(pdf.read_bytes(), self.server.post("/v1/report", smallest).body, name)
                pdf.unlink()
                told = subprocess.run([language, file, wrong, pdf], capture_output=True, text=True)
                self.assertEqual(told.returncode, 1, name)
                self.assertIn('found "micron"; expected a unit of length', told.stderr)
                self.assertFalse(pdf.exists())

    def test_the_page_is_whole_and_asks_nothing_but_this_service(self):
        html = self.server.ask("GET", "/")
        policy = html.headers["Content-Security-Policy"]
        self.assertIn("default-src 'none'", policy)
        self.assertIn("script-src 'self'", policy)
        self.assertNotIn("unsafe", policy)
        text = html.body.decode()
        self.assertIsNone(re.search(r"<style|\sstyle=|\son[a-z]+=|<script(?! src=)|javascript:|https?://", text))
        files = re.findall(r'(?:href|src)="(/[^"]+)"', text)
        code = ""
        for file in files:  # and what each of them imports
            answer = self.server.ask("GET", file)
            self.assertEqual(answer.status, 200, file)
            self.assertIn("javascript" if file.endswith(".js") else "css", answer.headers["Content-Type"])
            script = answer.body.decode() if file.endswith(".js") else ""
            code += script
            files += [name for name in re.findall(r'^import (?:.* from )?"(/[^"]+)";$', script, re.MULTILINE) if name not in files]
        self.assertGreaterEqual(len(files), 9)
        self.assertIsNone(re.search(r"innerHTML|outerHTML|insertAdjacent|document\.write|\beval\(|new Function|https?://", code))
        ids = set(re.findall(r'\sid="([^"]+)"', text))
        wanted = set(re.findall(r'one\("#([a-z-]+)"\)', code)) | set(re.findall(r'(?:fill|one)\("#([a-z-]+)"', code))
        self.assertGreater(len(wanted), 30)
        self.assertEqual({one for one in wanted if not one.endswith("-")} - ids, set())
        paths = {path.partition("/{")[0] for path in self.server.ask("GET", "/v1/openapi.json").json["paths"]}
        asked = set(re.findall(r'ask\([`"](/v1/[a-z]+)', code))
        self.assertGreaterEqual(len(asked), 6)
        self.assertEqual(asked - paths, set())


class Access(unittest.TestCase):
    def test_a_token_is_wanted_where_there_is_one_and_off_this_machine_there_has_to_be(self):
        with tempfile.TemporaryDirectory() as folder:
            token = pathlib.Path(folder, "token")
            token.write_text("0123456789abcdefXYZ\n")
            with Server(program, "--token-file", str(token)) as server:
                self.assertEqual(server.ask("GET", "/healthz", headers={"Host": "calibration.example"}).status, 200)
                self.assertEqual(server.ask("GET", "/v1/layouts").status, 401)
                self.assertEqual(server.ask("GET", "/v1/layouts").headers["WWW-Authenticate"], "Bearer")
                for shown, status in (("Bearer 0123456789abcdefXYZ", 200), ("bearer 0123456789abcdefXYZ", 200), ("Bearer 0123456789abcdef", 401),
                                      ("Basic 0123456789abcdefXYZ", 401), ("Bearer ", 401)):
                    self.assertEqual(server.ask("GET", "/v1/layouts", headers={"Authorization": shown}).status, status, shown)
            token.write_text("short")
            refused = subprocess.run([program, "serve", "--token-file", token], capture_output=True, text=True, timeout=30)
            self.assertEqual(refused.returncode, 2)
        for listen in ("0.0.0.0:0", "[::]:0"):
            refused = subprocess.run([program, "serve", "--listen", listen], capture_output=True, text=True, timeout=30)
            self.assertEqual(refused.returncode, 73, refused.stderr)
            self.assertIn("--token-file", refused.stderr)
        for listen in ("localhost", "127.0.0.1:70000", "127.0.0.1:", "nowhere:80"):
            refused = subprocess.run([program, "serve", "--listen", listen], capture_output=True, text=True, timeout=30)
            self.assertIn(refused.returncode, (2, 73), listen)

    def test_a_socket_that_a_service_manager_opened_is_served(self):
        with socket.create_server(("127.0.0.1", 0)) as opened, tempfile.TemporaryFile() as log:
            fd = opened.fileno()
            by_shell = 'exec 3<&%d; LISTEN_PID=$$ LISTEN_FDS=1 exec "$0" serve' % fd
            process = subprocess.Popen(["/bin/sh", "-c", by_shell, program], pass_fds=[fd], stderr=log)
            try:
                with urllib.request.urlopen(f"http://127.0.0.1:{opened.getsockname()[1]}/readyz", timeout=60) as answer:
                    self.assertEqual(answer.read(), b"ready\n")
            finally:
                process.terminate()
                self.assertEqual(process.wait(60), 0)
        for handed in ("0", "2"):
            refused = subprocess.run(["/bin/sh", "-c", f'LISTEN_PID=$$ LISTEN_FDS={handed} exec "$0" serve', program], capture_output=True, timeout=30)
            self.assertEqual(refused.returncode, 2)
        no_socket = subprocess.run(["/bin/sh", "-c", 'exec 3</dev/null; LISTEN_PID=$$ LISTEN_FDS=1 exec "$0" serve', program], capture_output=True, timeout=30)
        self.assertEqual(no_socket.returncode, 73)

    def test_a_unix_socket_serves_too_and_a_file_in_its_place_is_not_touched(self):
        with tempfile.TemporaryDirectory() as folder:
            place = pathlib.Path(folder, "service")
            with Server(program, "--socket", str(place)) as server:
                server.wait_for("listening")
                said = subprocess.run(["/usr/bin/python3", "-c", (
                    "import socket, sys; s = socket.socket(socket.AF_UNIX); s.connect(sys.argv[1]);"
                    "s.sendall(b'GET /healthz HTTP/1.1\\r\\nHost: anything\\r\\nConnection: close\\r\\n\\r\\n'); print(s.recv(9999).decode())"), place],
                    capture_output=True, text=True)
                self.assertIn("200 OK", said.stdout)
                self.assertEqual(server.end(), 0)
            self.assertFalse(place.exists())
            place.write_text("mine")
            refused = subprocess.run([program, "serve", "--socket", place], capture_output=True, text=True, timeout=30)
            self.assertEqual(refused.returncode, 73)
            self.assertEqual(place.read_text(), "mine")


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0]])
