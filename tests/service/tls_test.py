"""TLS that the service speaks itself: as without it, with limits, and with the key in one process only.
usage: tls_test.py PROGRAM SOURCE_FOLDER
"""
import contextlib
import http.client
import os
import pathlib
import signal
import socket
import ssl
import subprocess
import sys
import tempfile
import time
import unittest

sys.path.insert(0, os.path.dirname(__file__))
from server import Server, wait_until  # noqa: E402

program, source = sys.argv[1], pathlib.Path(sys.argv[2])
short_axis = (source / "sample-results/short-axis.json").read_bytes()


def make_certificate(folder, name):
    key, certificate = folder / f"{name}.key", folder / f"{name}.pem"
    subprocess.run(["openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes", "-keyout", key, "-out", certificate,
                    "-days", "2", "-subj", "/CN=reports.example", "-addext", "subjectAltName=IP:127.0.0.1"], check=True, capture_output=True)
    return certificate, key


class Tls(unittest.TestCase):
    def setUp(self):
        held = tempfile.TemporaryDirectory()
        self.addCleanup(held.cleanup)
        self.folder = pathlib.Path(held.name)
        self.certificate, self.key = make_certificate(self.folder, "own")
        self.context = ssl.create_default_context(cafile=self.certificate)

    def server(self, *options):
        return Server(program, "--certificate", str(self.certificate), "--key", str(self.key), *options)

    def ask(self, server, method, target, body=b"", headers=None):
        connection = http.client.HTTPSConnection("127.0.0.1", server.port, timeout=60, context=self.context)
        with contextlib.closing(connection):
            connection.request(method, target, body, headers or {})
            answer = connection.getresponse()
            return answer.status, answer.read()

    def connect(self, server, **more):
        plain = socket.create_connection(("127.0.0.1", server.port), timeout=30)
        return self.context.wrap_socket(plain, server_hostname="127.0.0.1", **more)

    def test_over_tls_the_same_bytes_come(self):
        kind = {"Content-Type": "application/json"}
        with self.server() as server, Server(program) as plain:
            self.assertTrue(server.wait_for("listening").startswith("https://127.0.0.1:"))
            report = plain.post("/v1/report", short_axis).body
            for _ in range(3):
                self.assertEqual(self.ask(server, "POST", "/v1/report", short_axis, kind), (200, report))
            self.assertEqual(self.ask(server, "POST", "/v1/report", b"no JSON", kind)[0], 422)
            own = {"Origin": f"https://127.0.0.1:{server.port}"}
            self.assertEqual(self.ask(server, "GET", "/v1/layouts", headers=own)[0], 200)
            self.assertEqual(self.ask(server, "GET", "/v1/layouts", headers={"Origin": "https://elsewhere.example"})[0], 403)
            large = b"x" * (33 << 20)
            with contextlib.suppress(OSError):  # it is refused before it is read to its end
                self.assertEqual(self.ask(server, "POST", "/v1/report", large, kind)[0], 413)
            self.assertEqual(self.ask(server, "GET", "/readyz")[0], 200)

    def test_old_protocols_and_what_is_no_tls_get_nothing_and_harm_nobody(self):
        with self.server() as server:
            old = subprocess.run(["openssl", "s_client", "-connect", f"127.0.0.1:{server.port}", "-tls1_1", "-cipher", "DEFAULT@SECLEVEL=0"],
                                 stdin=subprocess.DEVNULL, capture_output=True, timeout=30)
            self.assertNotEqual(old.returncode, 0)
            with self.connect(server) as line:
                self.assertIn(line.version(), ("TLSv1.2", "TLSv1.3"))
            for said in (b"GET / HTTP/1.1\r\nHost: x\r\n\r\n", b"\x16\x03\x01\xff\xff" + b"\0" * 70000, b"", os.urandom(5000)):
                with socket.create_connection(("127.0.0.1", server.port), timeout=30) as line:
                    with contextlib.suppress(OSError):
                        line.sendall(said)
                        line.shutdown(socket.SHUT_WR)
                        self.assertNotIn(b"HTTP/1.1 200", line.recv(65536))
            self.assertEqual(self.ask(server, "GET", "/healthz")[0], 200)

    def test_those_who_never_end_the_handshake_are_counted_and_dropped(self):
        with self.server() as server:
            silent = [socket.create_connection(("127.0.0.1", server.port)) for _ in range(64)]
            self.assertTrue(wait_until(lambda: self.ask(server, "GET", "/healthz")[0] == 429), "one client has all its connections")
            for line in silent:  # after the ten seconds of a head
                line.settimeout(30)
                with contextlib.suppress(ConnectionResetError):
                    self.assertEqual(line.recv(1), b"")
                line.close()
            self.assertTrue(wait_until(lambda: self.ask(server, "GET", "/healthz")[0] == 200))

    def test_a_client_that_goes_away_ends_its_job_and_a_signal_lets_others_end(self):
        with self.server("--workers", "1") as server:
            head = f"POST /v1/report HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: {len(short_axis)}\r\n\r\n"
            with self.connect(server) as line:
                line.sendall(head.replace("Host: x", f"Host: 127.0.0.1:{server.port}").encode() + short_axis)
            with self.connect(server) as line:
                line.sendall(head.replace("Host: x", f"Host: 127.0.0.1:{server.port}").encode() + short_axis)
                time.sleep(0.05)
                os.killpg(server.process.pid, signal.SIGTERM)  # as systemd tells a whole unit
                answer = b""
                with contextlib.suppress(ssl.SSLError, OSError):
                    while piece := line.recv(65536):
                        answer += piece
                self.assertTrue(answer.startswith(b"HTTP/1.1 200"), answer[:100])
                self.assertTrue(answer.rstrip().endswith(b"%%EOF"))
            self.assertEqual(server.process.wait(30), 0)

    def test_one_process_alone_holds_the_key_and_the_service_ends_with_it(self):
        with self.server() as server:
            secret = self.key.read_text().splitlines()[1].encode()
            holders = set()
            door = None
            for process in [server.process.pid, *server.workers()]:
                name = "holds" if self.in_memory(process, self.private_number()) else "not"
                holders.add((name, process == server.process.pid))
                if name == "holds":
                    door = process
                self.assertFalse(self.in_memory(server.process.pid, secret))
            self.assertIn(("not", True), holders, "the server itself never sees it")
            self.assertEqual(sum(name == "holds" for name, _ in holders), 1, holders)
            os.kill(door, signal.SIGKILL)
            self.assertEqual(server.process.wait(30), 73)

    def private_number(self):
        """The key's secret number as a big number lies in memory: words, the lowest first."""
        text = subprocess.run(["openssl", "ec", "-in", self.key, "-noout", "-text"], check=True, capture_output=True, text=True).stdout
        digits = text.split("priv:")[1].split("pub:")[0]
        return bytes.fromhex("".join(digits.replace(":", "").split()))[::-1][:24]

    def in_memory(self, process, wanted):
        """Whether bytes lie in what a process can write to."""
        with open(f"/proc/{process}/maps") as maps, open(f"/proc/{process}/mem", "rb", 0) as memory:
            for line in maps:
                place, rights = line.split()[:2]
                begin, end = (int(number, 16) for number in place.split("-"))
                if rights.startswith("rw") and end - begin < 1 << 30:
                    with contextlib.suppress(OSError, ValueError):
                        memory.seek(begin)
                        if wanted in memory.read(end - begin):
                            return True
        return False

    def test_what_is_no_certificate_or_no_key_of_it_is_told_at_the_start(self):
        _, other = make_certificate(self.folder, "other")
        text = self.folder / "text"
        text.write_text("no certificate")
        for certificate, key, told in ((text, self.key, "is no certificate"), (self.folder / "nothing", self.key, "is no certificate"),
                                       (self.certificate, text, "is no private key"), (self.certificate, other, "is no private key")):
            refused = subprocess.run([program, "serve", "--listen", "127.0.0.1:0", "--certificate", certificate, "--key", key],
                                     capture_output=True, text=True, timeout=30)
            self.assertEqual(refused.returncode, 73, refused.stderr)
            self.assertIn(told, refused.stderr)
        for words in (["--certificate", self.certificate], ["--certificate", self.certificate, "--key", self.key, "--socket", self.folder / "s"]):
            refused = subprocess.run([program, "serve", *words], capture_output=True, text=True, timeout=30)
            self.assertEqual(refused.returncode, 2, refused.stderr)


unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
