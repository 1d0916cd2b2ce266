#!/usr/bin/python3
"""The service under load and beside slow clients, on loopback, with wrk where it is installed (Debian: wrk, slowhttptest).
usage: load.py BUILD_FOLDER [--part NAME ...] [--reports N] [--seconds N]

Parts: load, slow, warm, many. Saturation is as many connections as there are workers. At ten times, ten times as many connections ask ten
times as often as there can be answers: what the line does not hold is told to come again (429).
"""
import argparse
import http.client
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import threading
import time

import documents
from measure import Table, run

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[2] / "service"))
from server import Server  # noqa: E402

words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
words.add_argument("build", type=pathlib.Path)
words.add_argument("--part", action="append", choices=["load", "slow", "warm", "many"])
words.add_argument("--reports", type=int, default=10000)
words.add_argument("--seconds", type=int, default=10)
asked = words.parse_args()
wayfolio = asked.build / "wayfolio"
document = (documents.samples / "short-axis.json").read_bytes()
target = "/v1/report?layout=report"
table = Table()


def wrk_script(folder, pause_ms):
    """Every connection posts the same document, with a pause between an answer and the next; answers are counted by status."""
    script = folder / "post.lua"
    (folder / "document.json").write_bytes(document)
    script.write_text(f"""
local file = io.open("{folder}/document.json", "rb")
wrk.method, wrk.body = "POST", file:read("*a")
wrk.headers["Content-Type"] = "application/json"
local threads, count = {{}}, {{}}
function setup(thread) table.insert(threads, thread) end
function delay() return {pause_ms:.0f} end
function init() fine, busy, other = 0, 0, 0 end
function response(status)
  if status == 200 then fine = fine + 1 elseif status == 429 then busy = busy + 1 else other = other + 1 end
end
function done(summary, latency)
  local fine, busy, other = 0, 0, 0
  for _, thread in ipairs(threads) do
    fine, busy, other = fine + thread:get("fine"), busy + thread:get("busy"), other + thread:get("other")
  end
  io.write(string.format("RESULT %d %d %d %d %d %d %d\\n", fine, busy, other, summary.duration,
                         latency:percentile(50), latency:percentile(95), latency:percentile(99)))
end
""")
    return script


def hammer(server, script, connections):
    """Reports a second, refusals, other answers, and percentiles of all answers in ms."""
    done = subprocess.run(["wrk", "-t1", f"-c{connections}", f"-d{asked.seconds}s", "--timeout", "60s", "-s", script,
                           f"http://127.0.0.1:{server.port}{target}"], capture_output=True, text=True, check=True)
    fine, busy, other, duration, *percentiles = map(int, re.search(r"RESULT (.+)", done.stdout)[1].split())
    return fine / (duration / 1e6), busy, other, [time_us / 1000 for time_us in percentiles]


def memory_of(server):
    """MiB of the service and of its workers, each with what it shares; a worker that was just ended holds none."""
    told = [pathlib.Path(f"/proc/{process}/status").read_text() for process in [server.process.pid, *server.workers()]]
    return [int(held[1]) / 1024 for status in told if (held := re.search(r"VmRSS:\s+(\d+)", status))]


def saturation(folder):
    workers = 2
    table.head("Report of the short axis at 1, 2 and 10 times of saturation (two workers, eight wait)")
    best = 0
    with Server(wayfolio, "--workers", str(workers)) as server:
        server.post(target, document)
        for times in (1, 2, 10):
            pause_ms = 1000 * times * workers / (times * best) if times == 10 else 0
            rate, busy, other, percentiles = hammer(server, wrk_script(folder, pause_ms), times * workers)
            best = max(best, rate)
            print(f"  {times:>2} x: {rate:7.2f} reports/s, 429: {busy}, other: {other}; p50 {percentiles[0]:.0f} ms, p95 {percentiles[1]:.0f} ms, "
                  f"p99 {percentiles[2]:.0f} ms (refusals among them)", flush=True)
            table.row(f"{times} x: answers that are neither report nor 429", other, at_most=0)
        table.row("reports a second at 10 x over the best", rate / best, at_least=0.8)
        table.row("most memory of a process of the service", max(memory_of(server)), "MiB")


def one_by_one(server, count):
    line = http.client.HTTPConnection("127.0.0.1", server.port)
    times = []
    for _ in range(count):
        began = time.monotonic()
        line.request("POST", target, document, {"Content-Type": "application/json"})
        answer = line.getresponse()
        body = answer.read()
        times.append(time.monotonic() - began)
        if answer.status != 200 or not body.startswith(b"%PDF"):
            sys.exit(f"{answer.status}: {body[:200]}")
        if answer.headers.get("Connection") == "close":
            line.close()
    line.close()
    return times


def slow_clients(_):
    table.head("64 clients that send their heads and bodies drop by drop, beside one that asks for reports")
    with Server(wayfolio) as server:
        one_by_one(server, 3)
        alone = sorted(one_by_one(server, 15))[7]
        stop = threading.Event()

        def drip(i):
            while not stop.is_set():
                line = server.connect()
                head = f"POST {target} HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: {len(document)}\r\n\r\n".encode()
                try:
                    for byte in head if i % 2 else head + document:
                        line.sendall(bytes([byte]))
                        if stop.wait(0.05):
                            break
                except OSError:
                    pass  # the service had enough of it: the next one
                line.close()

        dripping = [threading.Thread(target=drip, args=(i,)) for i in range(63)]  # 64 connections of one client are the most
        for one in dripping:
            one.start()
        time.sleep(1)
        beside = sorted(one_by_one(server, 15))[7]
        stop.set()
        for one in dripping:
            one.join()
        table.row("a report beside them over one alone, at the median", beside / alone, at_most=2)


def many(_):
    table.head(f"{asked.reports} reports, one after the other: time and memory of the last tenth over the first")
    with Server(wayfolio, "--workers", "1") as server:
        one_by_one(server, 20)
        tenth = max(1, asked.reports // 10)
        first, held_first = sorted(one_by_one(server, tenth)), max(memory_of(server))
        one_by_one(server, asked.reports - 2 * tenth)
        last, held_last = sorted(one_by_one(server, tenth)), max(memory_of(server))
        table.row("time at the median", last[tenth // 2] / first[tenth // 2], at_most=1.05)
        table.row("memory of the largest process", held_last / held_first, at_most=1.05)


def processor_time(process):
    """Seconds of a process and of those that it began and that have ended."""
    fields = pathlib.Path(f"/proc/{process}/stat").read_text().rsplit(")", 1)[1].split()
    return sum(map(int, fields[11:15])) / 100


def beside_a_batch(folder):
    table.head("Processor time of a request over the same report inside a warm batch, one at a time")
    count = 200
    (folder / "documents").mkdir()
    for i in range(count):
        path = folder / "documents" / f"J-{i:03}.json"
        path.write_bytes(document.replace(b"WF-1001", f"WF-{i:04}".encode()))
    begun = run(wayfolio, "batch", folder / "documents", "-o", folder / "one", "--shard", "0/100000", "--jobs", 1).processor
    batch = (run(wayfolio, "batch", folder / "documents", "-o", folder / "all", "--jobs", 1).processor - begun) / count
    with Server(wayfolio, "--workers", "1") as server:
        one_by_one(server, 20)
        processes = [server.process.pid, *server.workers()]
        before = sum(map(processor_time, processes))
        one_by_one(server, count)
        table.row("request over batch", (sum(map(processor_time, processes)) - before) / count / batch, at_most=1.15)


def load(folder):
    if shutil.which("wrk"):
        saturation(folder)
    else:
        table.head("No load: wrk is not installed")


parts = {"load": load, "slow": slow_clients, "warm": beside_a_batch, "many": many}
for name in asked.part or parts:
    with tempfile.TemporaryDirectory() as held:
        parts[name](pathlib.Path(held))
print(f"\n{table.missed} bars missed")
sys.exit(1 if table.missed else 0)
