"""What strangers may do to the service: each request ends in its status and in time, and the service answers the next one.
usage: hostile_test.py PROGRAM SOURCE_FOLDER
"""
import concurrent.futures
import json
import os
import pathlib
import signal
import sys
import time
import unittest
import zlib

sys.path.insert(0, os.path.dirname(__file__))
from server import Server, wait_until  # noqa: E402

program, source = sys.argv[1], pathlib.Path(sys.argv[2])
smallest = (source / "sample-results/smallest.json").read_bytes()


def long_job(targets=10000):
    """A document that takes seconds to draw."""
    deviations = [round(0.1 * ((i * 7919) % 50), 1) for i in range(targets)]
    runs = [{"approach": approach, "deviations": deviations} for approach in ("positive", "negative")] * 5
    return json.dumps({"format": "wayfolio-result", "version": 1, "job": {"data_notice": "Invented data"},
                       "series": [{"id": "x", "error": "EXX", "unit": "um", "position_unit": "mm", "targets": list(range(targets)),
                                   "runs": runs}]}).encode()


def head(*lines, first="POST /v1/check HTTP/1.1", host="Host: 127.0.0.1"):
    return "\r\n".join([first, *([host] if host else []), *lines, "", ""]).encode()


JSON = "Content-Type: application/json"
FORM = "Content-Type: multipart/form-data; boundary=b"


def form(body, kind=FORM):
    return head(kind, f"Content-Length: {len(body)}", "Connection: close") + body


def sent(document):
    return head(JSON, f"Content-Length: {len(document)}", "Connection: close", first="POST /v1/report HTTP/1.1") + document


def part(name, filename="", content=b"x"):
    file = f'; filename="{filename}"' if filename else ""
    return f'--b\r\nContent-Disposition: form-data; name="{name}"{file}\r\n\r\n'.encode() + content + b"\r\n"


# What is sent, and which status it ends with; 0: the connection is closed without a word, as of one who never ended a head.
BARE = [
    # heads
    ("no HTTP at all", b"hello\r\n\r\n", {400}),
    ("binary", bytes(range(256)) * 8, {400}),
    ("a TLS greeting", b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + b"\0" * 300, {400}),
    ("HTTP/2's preface", b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n", {400}),
    ("HTTP/0.9", b"GET /healthz\r\n\r\n", {400}),
    ("HTTP/3.7", head(first="GET /healthz HTTP/3.7"), {400}),
    ("no Host", head(first="GET /healthz HTTP/1.1", host=""), {400}),
    ("two Hosts", head("Host: y", first="GET /healthz HTTP/1.1"), {400}),
    ("an absolute target", head(first="GET http://x/healthz HTTP/1.1"), {400}),
    ("an asterisk", head(first="OPTIONS * HTTP/1.1"), {400}),
    ("CONNECT", head(first="CONNECT x:80 HTTP/1.1"), {400}),
    ("a path upwards", head(first="GET /v1/schemas/../../etc/passwd HTTP/1.1"), {404}),
    ("a path upwards in disguise", head("Connection: close", first="GET /v1/schemas/..%2F..%2Fetc%2Fpasswd HTTP/1.1"), {404}),
    ("a null in the target", b"GET /heal\0thz HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n", {400}),
    ("blanks in the target", head(first="GET /v1/ layouts HTTP/1.1"), {400}),
    ("a name with a blank", head("Na me: x", first="GET /healthz HTTP/1.1"), {400}),
    ("a line that goes on", b"GET /healthz HTTP/1.1\r\nHost: 127.0.0.1\r\nA: b\r\n c\r\nConnection: close\r\n\r\n", {200, 400}),
    ("bare line feeds", b"GET /healthz HTTP/1.1\nHost: 127.0.0.1\n\n", {400}),
    ("a target of 20 kB", head(first="GET /" + "a" * 20000 + " HTTP/1.1"), {431}),
    ("a field of 20 kB", head("A: " + "a" * 20000, first="GET /healthz HTTP/1.1"), {431}),
    ("5 000 fields", head(*[f"A{i}: b" for i in range(5000)], first="GET /healthz HTTP/1.1"), {431}),
    ("a method of 10 kB", b"A" * 10000 + b" / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n", {400, 404, 405, 431}),
    ("an unknown method", head(first="BREW /v1/report HTTP/1.1"), {405}),
    ("a name that was bent to this address", head(first="GET /v1/layouts HTTP/1.1", host="Host: site.example"), {403}),
    ("a page of another site", head("Origin: http://site.example", first="POST /v1/check HTTP/1.1"), {403}),
    ("a page without a site", head("Origin: null", first="POST /v1/check HTTP/1.1"), {403}),
    # where a body ends
    ("two lengths", head(JSON, "Content-Length: 2", "Content-Length: 3") + b"{} ", {400}),
    ("lengths in a list", head(JSON, "Content-Length: 2, 3") + b"{} ", {400}),
    ("a length with a sign", head(JSON, "Content-Length: +2") + b"{}", {400}),
    ("a negative length", head(JSON, "Content-Length: -1") + b"{}", {400}),
    ("a length in hexadecimal", head(JSON, "Content-Length: 0x2") + b"{}", {400}),
    ("a length of 30 digits", head(JSON, "Content-Length: " + "9" * 30) + b"{}", {400, 413}),
    ("a length over the limit", head(JSON, "Content-Length: 99999999999") + b"{}", {413}),
    ("length and chunks", head(JSON, "Content-Length: 2", "Transfer-Encoding: chunked") + b"0\r\n\r\n", {400}),
    ("chunks and length", head(JSON, "Transfer-Encoding: chunked", "Content-Length: 2") + b"0\r\n\r\n", {400}),
    ("chunked twice", head(JSON, "Transfer-Encoding: chunked, chunked") + b"0\r\n\r\n", {400}),
    ("chunked, then identity", head(JSON, "Transfer-Encoding: chunked, identity") + b"0\r\n\r\n", {400, 200}),
    ("chunked with a vertical tab", head(JSON, "Transfer-Encoding: \x0bchunked") + b"0\r\n\r\n", {400}),
    ("an unknown coding", head(JSON, "Transfer-Encoding: gzip") + b"x", {400}),
    ("a chunk of no number", head(JSON, "Transfer-Encoding: chunked") + b"zz\r\n{}\r\n0\r\n\r\n", {400}),
    ("a chunk that is longer than it says", head(JSON, "Transfer-Encoding: chunked") + b"1\r\n{}\r\n0\r\n\r\n", {400}),
    ("a chunk of 2^64", head(JSON, "Transfer-Encoding: chunked") + b"10000000000000000\r\n{}\r\n0\r\n\r\n", {400, 413}),
    ("a chunk's extension of 1 MB", head(JSON, "Transfer-Encoding: chunked") + b"2;" + b"a" * 1_000_000 + b"\r\n{}\r\n0\r\n\r\n", {400, 413, 431}),
    ("1 MB behind the last chunk", head(JSON, "Transfer-Encoding: chunked") + b"0\r\n" + b"a: b\r\n" * 200_000 + b"\r\n", {400, 413, 431}),
    ("chunks over HTTP/1.0", head(JSON, "Transfer-Encoding: chunked", first="POST /v1/check HTTP/1.0") + b"0\r\n\r\n", {400}),
    # bodies
    ("packed", head(JSON, "Content-Encoding: gzip", "Connection: close", f"Content-Length: {len(zlib.compress(smallest))}") + zlib.compress(smallest), {415}),
    ("no boundary", form(b"x", "Content-Type: multipart/form-data"), {400}),
    ("a boundary of 200 letters", form(b"x", "Content-Type: multipart/form-data; boundary=" + "b" * 200), {400}),
    ("a body without its boundary", form(b"nothing"), {400}),
    ("parts without end", form(part("document", content=smallest)), {400}),
    ("a part without a name", form(b"--b\r\nContent-Disposition: form-data\r\n\r\nx\r\n--b--\r\n"), {400}),
    ("a part without a head", form(b"--b\r\nx\r\n--b--\r\n"), {400}),
    ("a name that does not end", form(b'--b\r\nContent-Disposition: form-data; name="x\r\n\r\nx\r\n--b--\r\n'), {400}),
    ("a part twice", form(part("document") * 2 + b"--b--\r\n"), {400}),
    ("a file twice", form(part("file", "a") * 2 + b"--b--\r\n"), {400}),
    ("1 000 parts", form(b"".join(part(f"p{i}") for i in range(1000)) + b"--b--\r\n"), {400}),
    ("a file with a folder", form(part("document", content=smallest) + part("file", "../x") + b"--b--\r\n"), {400}),
    # documents
    ("nothing", sent(b""), {422}),
    ("200 000 arrays", sent(b"[" * 200000), {422}),
    ("200 000 objects", sent(b'{"a":' * 200000), {422}),
    ("no UTF-8", sent(b'{"format": "\xff\xfe"}'), {422}),
    ("a null behind the document", sent(smallest + b"\0{"), {422}),
    ("1e999", sent(smallest.replace(b"[0,", b"[1e999,", 1)), {422}),
    ("a number of 100 000 digits", sent(b'{"format": "wayfolio-result", "version": ' + b"1" * 100000 + b"}"), {422}),
    ("keys twice", sent(b'{"format": "wayfolio-result", "format": "wayfolio-result", "version": 1, "series": []}'), {422}),
    ("5 MB of blanks", sent(b" " * 5_000_000), {422}),
]


class Hostile(unittest.TestCase):
    def test_bare_bytes_end_in_their_status_and_the_service_goes_on(self):
        with Server(program) as server:
            for name, bytes_, statuses in BARE:
                with self.subTest(name):
                    began = time.monotonic()
                    self.assertIn(server.send_bytes(bytes_), statuses)
                    self.assertLess(time.monotonic() - began, 10)
            self.assertEqual(server.ask("GET", "/readyz", timeout=60).status, 200)
            self.assertEqual(server.metric("workers_ended_early_total"), 0)
            self.assertTrue(wait_until(lambda: server.metric("connections") == 1))

    def test_those_who_are_slow_or_leave_are_let_go_and_do_not_delay_others(self):
        with Server(program) as server:
            lines = [server.connect() for _ in range(40)]
            for number, line in enumerate(lines):
                line.sendall(b"POST /v1/report HTTP/1.1\r\nHost: 127.0.0.1\r\n" + (b"Content-Type: application/json\r\nContent-Length: 9000\r\n\r\n{" if number % 2 else b"A: b"))
            began = time.monotonic()
            self.assertEqual(server.post("/v1/check", smallest).status, 200)
            self.assertLess(time.monotonic() - began, 5)
            statuses = []
            for line in lines:
                line.settimeout(60)
                statuses.append(int(line.recv(65536).split(b" ")[1]))
                line.close()
            self.assertEqual(set(statuses), {408})
            self.assertLess(time.monotonic() - began, 40)
            # half of a request, and no more ever
            self.assertEqual(server.send_bytes(b"POST /v1/check HT", half_close=True), 0)
            self.assertEqual(server.send_bytes(head(JSON, "Content-Length: 90") + b"{", half_close=True), 0)
            self.assertTrue(wait_until(lambda: server.metric("connections") == 1))

    def test_one_client_has_so_many_connections_and_no_more(self):
        with Server(program) as server:
            lines = [server.connect() for _ in range(64)]
            self.assertEqual(server.send_bytes(head(first="GET /healthz HTTP/1.1")), 429)
            for line in lines:
                line.close()
            self.assertTrue(wait_until(lambda: server.send_bytes(head("Connection: close", first="GET /healthz HTTP/1.1")) == 200))

    def test_all_bodies_together_are_bounded(self):
        body = b" " * 30_000_000
        with Server(program) as server:
            lines = []
            for _ in range(8):
                line = server.connect()
                line.sendall(head(JSON, f"Content-Length: {len(body) + 1}") + body)
                lines.append(line)
            refused = server.post("/v1/check", body)
            self.assertEqual((refused.status, refused.code), (429, "busy"))
            for line in lines:
                line.close()
            self.assertTrue(wait_until(lambda: server.post("/v1/check", smallest).status == 200))

    def test_a_full_line_says_come_again_and_who_leaves_frees_the_worker(self):
        job = long_job()
        with Server(program, "--workers", "1", "--deadline", "600") as server:
            lines = []
            for _ in range(5):  # one at work, four in line
                line = server.connect()
                line.sendall(head(JSON, f"Content-Length: {len(job)}", first="POST /v1/report HTTP/1.1") + job)
                lines.append(line)
            self.assertTrue(wait_until(lambda: server.metric("jobs_at_work") == 1 and server.metric("jobs_waiting") == 4))
            refused = server.post("/v1/check", smallest)
            self.assertEqual((refused.status, refused.code), (429, "busy"))
            self.assertGreater(int(refused.headers["Retry-After"]), 0)
            self.assertEqual(server.ask("GET", "/healthz").status, 200)
            for line in reversed(lines):
                line.close()
            self.assertTrue(wait_until(lambda: server.metric("jobs_at_work") == 0 and server.metric("jobs_waiting") == 0))
            self.assertEqual(server.metric("workers_ended_early_total"), 1)
            self.assertEqual(server.post("/v1/check", smallest).status, 200)
            self.assertEqual(len(server.workers()), 1)

    def test_a_job_over_its_time_ends_and_so_does_its_worker(self):
        with Server(program, "--deadline", "1") as server:
            late = server.post("/v1/report", long_job())
            self.assertEqual((late.status, late.code), (503, "deadline-passed"))
            self.assertTrue(wait_until(lambda: server.metric("jobs_at_work") == 0))
            self.assertEqual(server.post("/v1/check", smallest).status, 200)

    def test_a_worker_that_dies_takes_one_job_with_it_and_no_more(self):
        with Server(program, "--workers", "2", "--deadline", "600") as server, concurrent.futures.ThreadPoolExecutor() as both:
            jobs = [both.submit(server.post, "/v1/report", long_job(4000)) for _ in range(2)]
            self.assertTrue(wait_until(lambda: server.metric("jobs_at_work") == 2))
            os.kill(server.workers()[0], signal.SIGKILL)
            self.assertEqual(sorted(job.result().status for job in jobs), [200, 500])
            self.assertEqual(server.post("/v1/check", smallest).status, 200)
            self.assertEqual(len(server.workers()), 2)

    def test_workers_end_with_the_service_and_a_signal_lets_work_end(self):
        with Server(program, "--deadline", "600") as server, concurrent.futures.ThreadPoolExecutor() as one:
            job = one.submit(server.post, "/v1/report", long_job(4000))
            self.assertTrue(wait_until(lambda: server.metric("jobs_at_work") == 1))
            waiting = server.connect()
            os.killpg(server.process.pid, signal.SIGTERM)  # as systemd tells a whole unit, and a terminal its group
            self.assertEqual(job.result().status, 200)
            self.assertEqual(server.process.wait(60), 0)
            waiting.close()
        with Server(program) as server:
            workers = server.workers()
            server.process.kill()
            server.process.wait()
            self.assertTrue(wait_until(lambda: not any(pathlib.Path(f"/proc/{worker}/stat").exists() and
                                                       ") Z" not in pathlib.Path(f"/proc/{worker}/stat").read_text() for worker in workers)))


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0]])
