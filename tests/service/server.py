"""A service under test: starts the built program, speaks HTTP with it by the standard library or by bare bytes, and ends it."""
import contextlib
import http.client
import json
import os
import pathlib
import signal
import socket
import subprocess
import tempfile
import time
import uuid


class Reply:
    def __init__(self, status, headers, body):
        self.status, self.headers, self.body = status, headers, body

    @property
    def json(self):
        return json.loads(self.body)

    @property
    def code(self):
        """The code of a problem; "" for anything else."""
        return self.json["code"] if self.headers.get("Content-Type") == "application/problem+json" else ""


def multipart(parts):
    """Body and content type of parts: (name, filename or None, bytes)."""
    boundary, body = uuid.uuid4().hex, b""
    for name, filename, content in parts:
        file = f'; filename="{filename}"' if filename else ""
        body += f'--{boundary}\r\nContent-Disposition: form-data; name="{name}"{file}\r\n\r\n'.encode() + content + b"\r\n"
    return body + f"--{boundary}--\r\n".encode(), f"multipart/form-data; boundary={boundary}"


class Server:
    def __init__(self, program, *options, port=0, cwd=None):
        self.log_file = tempfile.TemporaryFile()
        self.process = subprocess.Popen([program, "serve", "--listen", f"127.0.0.1:{port}", *options], stderr=self.log_file,
                                        cwd=cwd, process_group=0)
        self.port = int(self.wait_for("listening").rsplit(":", 1)[1]) if "--socket" not in options else 0

    def log(self):
        self.log_file.seek(0)
        lines = self.log_file.read().decode().splitlines()
        return [json.loads(line) for line in lines if line.startswith("{")]

    def wait_for(self, event, seconds=60):
        """The detail of an event that the service tells of."""
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            for line in self.log():
                if line.get("event") == event:
                    return line["detail"]
            if self.process.poll() is not None:
                break
            time.sleep(0.02)
        self.log_file.seek(0)
        raise RuntimeError(f"no {event}: {self.log_file.read().decode()[:500]}")

    def ask(self, method, target, body=b"", headers=None, timeout=120):
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=timeout)
        with contextlib.closing(connection):
            connection.request(method, target, body, headers or {})
            answer = connection.getresponse()
            return Reply(answer.status, answer.headers, answer.read())

    def post(self, target, document, headers=None, **more):
        return self.ask("POST", target, document, {"Content-Type": "application/json", **(headers or {})}, **more)

    def post_parts(self, target, parts, headers=None):
        body, kind = multipart(parts)
        return self.ask("POST", target, body, {"Content-Type": kind, **(headers or {})})

    def connect(self, timeout=30):
        return socket.create_connection(("127.0.0.1", self.port), timeout=timeout)

    def send_bytes(self, bytes_, half_close=False, timeout=30):
        """What comes back for bare bytes until the service closes: the status, 0 for nothing."""
        with self.connect(timeout) as line:
            with contextlib.suppress(BrokenPipeError, ConnectionResetError):
                line.sendall(bytes_)
                if half_close:
                    line.shutdown(socket.SHUT_WR)
            answer = b""
            with contextlib.suppress(ConnectionResetError):
                while piece := line.recv(65536):
                    answer += piece
                    if b"\r\n\r\n" in answer and b"Connection: close" not in answer:
                        break
        return int(answer.split(b" ", 2)[1]) if answer.startswith(b"HTTP/1.1 ") else 0

    def metric(self, name):
        for line in self.ask("GET", "/metrics").body.decode().splitlines():
            if line.startswith(f"wayfolio_{name} "):
                return float(line.split()[1])
        raise KeyError(name)

    def workers(self):
        children = pathlib.Path(f"/proc/{self.process.pid}/task/{self.process.pid}/children").read_text()
        return [int(child) for child in children.split()]

    def end(self, by=signal.SIGTERM, seconds=60):
        if self.process.poll() is None:
            os.kill(self.process.pid, by)
        return self.process.wait(seconds)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait()
        self.log_file.close()


def wait_until(holds, seconds=20):
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if holds():
            return True
        time.sleep(0.02)
    return False
