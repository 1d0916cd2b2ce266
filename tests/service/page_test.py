#!/usr/bin/env python3
"""The page of the service, walked in Chromium: each way through it from end to end, with files on the disk.

    page_test.py PROGRAM SOURCE_FOLDER
"""
import json
import pathlib
import subprocess
import sys
import tempfile
import unittest

from browser import Browser
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import Select
from server import Server

program, source = sys.argv[1], pathlib.Path(sys.argv[2]).resolve()
samples = source / "sample-results"


class Page(unittest.TestCase):
    def setUp(self):
        self.server = Server(program)
        self.addCleanup(self.server.__exit__)
        self.browser = Browser(self.server.port)
        self.addCleanup(self.browser.end)
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def file(self, name, content):
        path = pathlib.Path(self.folder.name, name)
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return path

    def faulty(self):
        return self.file("faulty.json", (samples / "short-axis.json").read_text().replace('"EXX"', '"EQQ"', 1).replace('"um"', '"micron"', 1))

    def look(self, name):
        """What has to hold of every screen in every state."""
        self.browser.wait_screen(name)
        for pixels in (320, 390, 1440):
            self.browser.width(pixels)
            self.assertLessEqual(self.browser.overflow(), 0, f"{name} is wider than {pixels} px")
        self.assertEqual(self.browser.unnamed_controls(), [], f"a control of {name} has no name")
        self.assertTrue(self.browser.words(f"[data-screen={name}] h1"), f"{name} has no sentence")

    def assert_quiet(self):
        self.assertEqual(self.browser.complaints(), [])

    def test_a_document_becomes_the_report_that_the_command_makes(self):
        self.look("start")
        self.browser.choose(samples / "short-axis.json")
        self.look("soundness")
        self.assertNotIn("(/", self.browser.words("#main"), "a pointer into the document is nothing for a person at the machine")
        self.browser.one("a.button[href='#pages']").click()
        self.browser.wait(lambda: self.browser.one(".sheet[src]"), "a drawn page")
        self.look("pages")
        by_command = pathlib.Path(self.folder.name, "by-command.pdf")
        subprocess.run([program, "report", samples / "short-axis.json", "-o", by_command], check=True, capture_output=True)
        told = subprocess.run(["pdfinfo", by_command], check=True, capture_output=True, text=True).stdout
        self.assertIn(f"Pages:           {self.browser.words('#h-pages').split()[0]}\n", told)
        self.browser.one("[data-screen=pages] a.button[href='#deliver']").click()
        self.look("deliver")
        self.browser.one("#save").click()
        saved = self.browser.saved / "short-axis.pdf"
        self.browser.wait(saved.exists, "the saved report")
        self.assertEqual(saved.read_bytes(), by_command.read_bytes())
        self.assert_quiet()

    def answer_all(self):
        """Every open place of the sample exports, as their mapping says it."""
        fill, past = self.browser.fill, "past the target, or turned in the positive sense (actual minus target)"
        words = {"x-eax": "EAX: roll of X", "x-ebx": "EBX: rotation about Y while X moves", "x-ecx": "ECX: rotation about Z while X moves",
                 "x-exx": "EXX: positioning of X", "x-eyx": "EYX: straightness of X in Y", "x-ezx": "EZX: straightness of X in Z"}
        for file, error in words.items():
            fill("Which error", error, file)
        for question, said in (("In which unit are the readings", "µrad"), ("In which unit are the positions", "mm"), ("positive reading", past)):
            first = fill(question, said)
            first.find_element("xpath", "..").find_element("css selector", "button").click()  # the same for the others
        for question, said in (("Time: Which offset", "UTC+02:00"), ("Air:", "°C"), ("Pressure:", "kPa"), ("Humidity:", "% relative humidity"),
                               ("Bed near:", "°C"), ("Bed far:", "°C")):
            fill(question, said, "log.csv")
        fill("positive approach", "forward", "x-eax.txt")
        fill("negative approach", "back", "x-eax.txt")
        fill("From which side", "the rows go there and back; the first run is positive", "x-ecx.txt")
        fill("Which offset", "UTC+02:00", "x-exx.csv")
        fill("marks mean", "d = door of the hall opened", "x-exx.csv")
        for file in ("x-eyx.csv", "x-ezx.csv"):
            fill("up [µm]", "positive in every row", file)
            fill("down [µm]", "negative in every row", file)

    def readings_of(self, document):
        """In micrometres and microradians, to the digits that the exports have."""
        in_base = {"um": 1, "mm": 1000, "urad": 1}
        return {series["error"]: [(run["approach"], [value and round(value * in_base[series["unit"]], 4) for value in run["deviations"]])
                                  for run in series["runs"]] for series in json.loads(document)["series"]}

    def test_exports_become_a_document_once_what_they_do_not_say_is_answered(self):
        folder = samples / "exports"
        self.browser.choose(*sorted((folder / "found").iterdir()))
        self.look("readings")
        self.browser.one("#use").click()  # leads to the first open question
        self.assertEqual(self.browser.driver.switch_to.active_element.get_attribute("id"), "answer-0")
        self.answer_all()
        self.assertIn("every column is decided", self.browser.words("#h-readings"))
        self.browser.driver.refresh()
        self.browser.wait(lambda: "every column is decided" in self.browser.words("#h-readings"), "the answers after a reload")
        self.browser.one("#keep-mapping").click()
        mapping = self.browser.saved / "mapping.json"
        self.browser.wait(mapping.exists, "the saved mapping")
        Select(self.browser.one("#state")).select_by_value("as-found")
        self.browser.one("#use").click()
        self.look("soundness")
        self.assertIn("readings used", self.browser.words("#account-box"))
        self.browser.go("#deliver")
        self.browser.wait_screen("deliver")
        self.browser.one("#save-document").click()
        document = self.browser.saved / "readings.json"
        self.browser.wait(document.exists, "the saved document")
        by_sample, by_answers = pathlib.Path(self.folder.name, "a.json"), pathlib.Path(self.folder.name, "b.json")
        subprocess.run([program, "gather", folder / "mapping.json", folder / "found", "--into", folder / "job.json",
                        "--facts", folder / "facts/machine-D-0012.json", "--state", "as-found", "-o", by_sample], check=True, capture_output=True)
        subprocess.run([program, "gather", mapping, folder / "found", "--state", "as-found", "-o", by_answers], check=True, capture_output=True)
        self.assertEqual(self.readings_of(document.read_bytes()), self.readings_of(by_sample.read_bytes()))
        self.assertEqual(document.read_bytes(), by_answers.read_bytes(), "the saved mapping gives the same document by the command")
        self.assert_quiet()

    def test_exports_with_their_mapping_and_facts_are_asked_nothing_and_faults_are_told_at_their_place(self):
        folder = samples / "exports"
        exports = sorted((folder / "found").iterdir())
        self.browser.choose(folder / "mapping.json", folder / "job.json", *sorted((folder / "facts").iterdir()), *exports)
        self.look("readings")
        Select(self.browser.one("#state")).select_by_value("as-found")
        self.browser.one("#use").click()
        self.look("soundness")
        broken = self.file("x-exx.csv", (folder / "found/x-exx.csv").read_text().replace("279.49990", "279,4x990", 1))
        self.browser.go("#start")
        self.browser.choose(folder / "mapping.json", folder / "job.json", *sorted((folder / "facts").iterdir()),
                            *(broken if file.name == "x-exx.csv" else file for file in exports))
        self.look("readings")
        Select(self.browser.one("#state")).select_by_value("as-found")
        self.browser.one("#use").click()
        self.browser.wait(lambda: "x-exx.csv" in self.browser.words("#export-faults"), "the fault")
        self.assertIn("line 4", self.browser.words("#export-faults"))
        self.look("readings")

    def test_each_fault_stands_beside_the_text_that_is_at_fault(self):
        self.browser.choose(self.faulty())
        self.look("faults")
        self.assertEqual(self.browser.words("#fault-count"), "Fault 1 of 2")
        marked = [mark.text for mark in self.browser.all("#lines mark")]
        self.assertEqual(sorted(marked), ['"EQQ"', '"micron"'])
        first = self.browser.words("#fault-found")
        self.browser.one("#next-fault").click()
        self.assertNotEqual(self.browser.words("#fault-found"), first)
        self.browser.press(Keys.ALT, Keys.ARROW_UP)
        self.assertEqual(self.browser.words("#fault-found"), first)
        self.assertFalse(self.browser.one("#job-steps").is_displayed(), "what is faulty can neither be drawn nor delivered")
        self.assert_quiet()

    def parameters(self, document):
        path = self.file("evaluated.json", document)
        series = json.loads(subprocess.run([program, "evaluate", path], check=True, capture_output=True).stdout)["series"][0]
        return {name: parameter["value"] for name, parameter in series["parameters"].items()}

    def test_a_reading_is_set_aside_with_its_reason_and_put_back(self):
        original = (samples / "short-axis.json").read_text()
        self.browser.choose(samples / "short-axis.json")
        self.browser.wait_screen("soundness")
        self.browser.go("#figures")
        self.browser.wait(lambda: self.browser.one("#picture").get_attribute("src"), "the figure")
        self.look("figures")
        self.browser.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": "dark"}]})
        grounds = [self.browser.one(place).value_of_css_property("background-color") for place in ("body", "#picture")]
        self.assertEqual(*[ground.replace("rgb(", "rgba(").replace(", 1)", ")") for ground in grounds], "light inks on white in the dark")
        slider = self.browser.one("#target")
        slider.send_keys(Keys.ARROW_RIGHT, Keys.ARROW_RIGHT)
        self.assertIn("Target 3 of 13", self.browser.words("#at"))
        expected = json.loads(original)
        run = next(run for run in expected["series"][0]["runs"] if run["approach"] == "negative")
        row = next(row for row in self.browser.all("#values tr") if row.text.startswith("run 1, negative"))
        self.assertIn(str(run["deviations"][2]), row.text)
        row.find_element("css selector", "button").click()
        self.browser.wait(lambda: "→" in self.browser.words("#aside-changes"), "what would change")
        self.look("figures")
        self.browser.one("#aside-form button[type=submit]").click()
        self.assertTrue(self.browser.one("#aside").is_displayed(), "no reason, not set aside")
        self.browser.one("#reason").send_keys('crane "3" passed')
        self.browser.one("#aside-form button[type=submit]").click()
        self.browser.wait(lambda: self.browser.one("#aside-box").is_displayed(), "what was set aside")
        self.look("figures")
        run["excluded"] = [{"target": 2, "reason": 'crane "3" passed'}]
        before, after = self.parameters(original), self.parameters(json.dumps(expected))
        told = self.browser.words("#changed").replace("−", "-")
        for name in after:
            if f"{before[name]:.2f}" != f"{after[name]:.2f}":
                self.assertIn(f"{before[name]:.2f} → {after[name]:.2f}", told)
        self.browser.go("#deliver")
        self.browser.wait_screen("deliver")
        self.browser.one("#save-document").click()
        saved = self.browser.saved / "short-axis.json"
        self.browser.wait(saved.exists, "the saved document")
        self.assertEqual(json.loads(saved.read_text()), expected)
        self.assertEqual(len(saved.read_text()), len(original) + len(', "excluded": ' + json.dumps(run["excluded"]).replace(": ", ":").replace(", ", ",")))
        self.browser.go("#figures")
        self.browser.one("#undo").click()
        self.browser.wait(lambda: not self.browser.one("#aside-box").is_displayed(), "nothing set aside")
        self.browser.go("#deliver")
        self.browser.wait_screen("deliver")
        self.browser.one("#save-document").click()
        again = self.browser.saved / "short-axis (1).json"
        self.browser.wait(again.exists, "the document as it came")
        self.assertEqual(again.read_text(), original)
        self.assert_quiet()

    def test_what_was_set_aside_is_not_lost_in_silence(self):
        folder = samples / "exports"
        self.browser.choose(folder / "mapping.json", folder / "job.json", *sorted((folder / "facts").iterdir()), *sorted((folder / "found").iterdir()))
        self.browser.wait_screen("readings")
        Select(self.browser.one("#state")).select_by_value("as-found")
        self.browser.one("#use").click()
        self.browser.wait_screen("soundness")
        self.browser.go("#figures")
        self.browser.wait(lambda: self.browser.one("#values button").is_displayed(), "the readings")
        self.browser.one("#values button").click()
        self.browser.one("#reason").send_keys("beam interrupted", Keys.ENTER)
        self.browser.wait(lambda: self.browser.one("#aside-box").is_displayed(), "what was set aside")
        self.browser.go("#readings")
        self.browser.one("#use").click()
        self.browser.wait(lambda: "1 reading set aside here would count again" in self.browser.words("#use-why"), "what would be lost")
        self.assertTrue(self.browser.one("[data-screen=readings]").is_displayed())
        self.browser.one("#use").click()
        self.browser.wait_screen("soundness")
        self.server.end()
        self.browser.go("#figures")
        self.browser.wait(lambda: "cannot be reached" in self.browser.words("#h-figures"), "that the service is away")

    def test_work_survives_a_reload_until_it_is_discarded(self):
        self.browser.choose(samples / "smallest.json")
        self.browser.wait_screen("soundness")
        said = self.browser.words("#h-soundness")
        self.browser.driver.refresh()
        self.browser.wait(lambda: self.browser.words("#h-soundness") == said, "the same findings after a reload")
        self.browser.go("#start")
        self.browser.wait(lambda: self.browser.one("#kept-open").text == "Go on with smallest.json", "the kept job")
        self.browser.one("#discard").click()
        self.browser.wait(lambda: not self.browser.one("#kept-job").is_displayed(), "nothing kept")
        self.browser.driver.refresh()
        self.browser.wait_screen("start")
        self.assertFalse(self.browser.one("#kept-job").is_displayed())
        self.assert_quiet()

    def test_a_report_is_told_from_one_that_was_changed(self):
        report = pathlib.Path(self.folder.name, "smallest.pdf")
        subprocess.run([program, "report", samples / "smallest.json", "-o", report], check=True, capture_output=True)
        self.browser.choose(report)
        self.look("verdict")
        self.assertIn("Nothing shows", self.browser.words("#h-verdict"))
        bytes_ = report.read_bytes()
        changed = self.file("changed.pdf", bytes_[:len(bytes_) // 2] + bytes([bytes_[len(bytes_) // 2] ^ 1]) + bytes_[len(bytes_) // 2 + 1:])
        self.browser.go("#start")
        self.browser.choose(changed)
        self.browser.wait(lambda: "not as it was made" in self.browser.words("#h-verdict"), "that the report was changed")
        self.look("verdict")
        self.assert_quiet()

    def at_an_archive(self):
        """Another server, which keeps records, and a page of it."""
        self.records = pathlib.Path(self.folder.name, "records")
        self.records.mkdir()
        keeper = Server(program, "--records", str(self.records))
        self.addCleanup(keeper.__exit__)
        self.browser.home = f"http://127.0.0.1:{keeper.port}/"
        self.browser.go("")
        return keeper

    def visit(self, number, day, factor):
        """The short axis on another day, its deviations times a factor."""
        document = json.loads((samples / "short-axis.json").read_text())
        document["job"].update(number=number, measured={"from": day, "to": day})
        document["job"].pop("issued", None)
        document.pop("environment", None)
        for series in document["series"]:
            for run in series["runs"]:
                run["deviations"] = [value and round(value * factor, 2) for value in run["deviations"]]
        return json.dumps(document)

    def open(self, place, sentence):
        """By its address, as from a bookmark."""
        self.browser.go("#" + place)
        name = place.split("=")[0]
        self.browser.wait(lambda: sentence in self.browser.words("#h-" + name), sentence)

    def test_a_job_is_filed_found_again_compared_and_verified(self):
        keeper = self.at_an_archive()
        self.open("archive", "No record is kept yet.")
        for number, day, factor in (("WF-0720", "2024-05-14", 0.8), ("WF-0866", "2025-05-12", 0.88)):
            self.assertEqual(keeper.post("/v1/records?layout=summary", self.visit(number, day, factor)).status, 201)
        self.browser.choose(samples / "short-axis.json")
        self.browser.wait_screen("soundness")
        self.open("deliver", "carries all")
        for said in ("Filed as WF-1001, revision 0.", "It had been filed before, as WF-1001, revision 0."):
            self.browser.one("#file-record").click()
            self.browser.wait(lambda: self.browser.words("#filed") == said, said)
        self.assertEqual(subprocess.run([program, "verify", self.records / "WF-1001"], capture_output=True).returncode, 0)
        self.look("deliver")
        self.open("archive", "3 records of 1 machine.")
        self.look("archive")
        self.browser.one("#s-serial").send_keys("nobody", Keys.ENTER)
        self.browser.wait(lambda: self.browser.words("#h-archive") == "No record is as asked.", "nothing found")
        self.browser.one("#s-serial").clear()
        self.browser.one("#s-from").send_keys("last year", Keys.ENTER)
        self.browser.wait(lambda: "expected a date" in self.browser.words("#h-archive"), "what a date is")
        self.browser.go("#start")
        self.browser.driver.refresh()
        self.open("archive", "3 records")
        self.browser.one("#machines a").click()
        self.browser.wait(lambda: "3 visits" in self.browser.words("#h-machine"), "the history")
        self.browser.wait(lambda: self.browser.one("#history-figure").get_property("naturalWidth") > 0, "its figure")
        self.look("machine")
        self.assertIn("EXX A", self.browser.words("#lines-of-machine"))
        self.browser.one("#save-history").click()
        self.browser.wait((self.browser.saved / "history-D-0007.pdf").exists, "the history as PDF")
        self.browser.one("#visits tr a[href^='#compare']").click()
        self.browser.wait(lambda: "verdict" in self.browser.words("#h-compare"), "the comparison")
        self.look("compare")
        found = keeper.ask("GET", "/v1/comparison?" + "&".join(f"{side}={one}" for side, one in zip(
            ("old", "new"), self.browser.driver.execute_script("return location.hash.split('=')[1].split(',')")))).json
        [changed] = found["verdicts"]
        self.assertIn(f"{changed['verdict_was']} → {changed['verdict_now']}", self.browser.words("#results"))
        self.assertIn("1 verdict is another one", self.browser.words("#h-compare"))
        self.browser.one("#new-side a").click()
        self.browser.wait(lambda: "Geometric test" in self.browser.words("#h-record"), "the record")
        self.browser.one("#record-verify").click()
        self.browser.wait(lambda: "Nothing shows" in self.browser.words("#record-said"), "the verdict")
        self.look("record")
        self.browser.one("#record-packed").click()
        self.browser.wait((self.browser.saved / "WF-1001.zip").exists, "the packed record")
        place = self.browser.driver.execute_script("return location.hash.slice(1)")
        console = self.browser.complaints()
        self.assertTrue(all("400 (Bad Request)" in one for one in console), console)  # of the date that is none
        numbers = self.records / "WF-1001/revision-0/data/evaluation.json"
        numbers.write_bytes(numbers.read_bytes().replace(b"1", b"2", 1))
        self.browser.go("#archive")
        self.browser.wait(lambda: "WF-1001" in self.browser.words("#damaged"), "what is damaged")
        self.look("archive")
        self.open(place, "No sound record")
        self.browser.one("#record-verify").click()
        self.browser.wait(lambda: "not as it was filed" in self.browser.words("#record-said"), "that it was changed")
        self.assertIn("evaluation.json", self.browser.words("#record-checks"))
        self.browser.one("#record-report").click()
        self.browser.wait(lambda: "evaluation.json" in self.browser.words("#record-said"), "why it is not given out")

    def test_what_nothing_is_known_of_is_not_told_as_nothing_changed(self):
        keeper = self.at_an_archive()
        fingerprints = []
        for number, day, first in (("A", "2025-05-12", 0.1), ("B", "2026-05-11", 90)):
            document = json.loads((samples / "smallest.json").read_text())  # without uncertainty, and without a limit
            document["job"].update(number=number, measured={"from": day, "to": day})
            document["machine"] = {"serial": "EX-4410"}
            document["series"][0]["runs"][0]["deviations"][0] = first
            fingerprints.append(keeper.post("/v1/records?layout=summary", json.dumps(document)).json["fingerprint"])
        self.open("compare=" + ",".join(fingerprints), "no U to hold that against")
        self.assertNotIn("No result", self.browser.words("#h-compare"))
        self.assertNotIn("every verdict", self.browser.words("#h-compare"))
        self.look("compare")
        self.open("machine=EX-4410", "2 visits")
        self.browser.wait(lambda: "no limit is set" in self.browser.words("#h-machine"), "why nothing is warned of")
        self.look("machine")

    def test_a_job_that_cannot_be_filed_is_told_why(self):
        self.browser.choose(samples / "smallest.json")
        self.browser.wait_screen("soundness")
        self.open("deliver", "carries all")
        self.browser.one("#file-record").click()
        self.browser.wait(lambda: "keeps no records" in self.browser.words("#filed"), "that none are kept")
        self.open("archive", "keeps no records")
        self.at_an_archive()
        self.browser.choose(samples / "smallest.json")
        self.browser.wait_screen("soundness")
        self.open("deliver", "carries all")
        self.browser.one("#file-record").click()
        self.browser.wait(lambda: "the number of the job" in self.browser.words("#filed"), "what is missing")

    def preview(self, document):
        """The address that the command prints, and its process."""
        process = subprocess.Popen([program, "preview", document], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        self.addCleanup(process.stderr.close)
        self.addCleanup(process.stdout.close)
        self.addCleanup(process.wait)
        self.addCleanup(process.kill)
        return process.stdout.readline().strip(), process

    def test_a_previewed_document_is_shown_again_at_each_save(self):
        traced = json.loads((samples / "smallest.json").read_text())
        traced["series"][0]["trace"] = {"approach": "positive", "file": "a trace+1.csv"}
        document, trace = self.file("job.json", json.dumps(traced)), self.file("a trace+1.csv", "0,0.1\n100,0.4\n200,0.2\n")
        address, process = self.preview(document)
        self.assertRegex(address, r"^http://127\.0\.0\.1:[0-9]+/\?preview$")
        self.browser.driver.get(address)
        self.browser.wait_screen("pages")
        self.browser.wait(lambda: self.browser.one(".sheet[src]"), "a drawn page")
        self.look("pages")
        traced["job"]["title"] = "A title of the second try"
        document.write_text(json.dumps(traced))
        self.browser.wait(lambda: "second try" in self.browser.driver.execute_script("return document.querySelector('#sheets').textContent"), "the new page")
        document.write_text(json.dumps(traced).replace('"um"', '"micron"', 1))
        self.browser.wait_screen("faults")
        self.browser.wait(lambda: '"micron"' in self.browser.words("#fault-found"), "the fault")
        self.look("faults")
        trace.unlink()
        document.write_text(json.dumps(traced))
        self.browser.wait(lambda: "a trace+1.csv" in self.browser.words("#fault-found") + self.browser.words("#fault-expected") + self.browser.words("#lines"), "what is not there")
        trace.write_text("0,0.1\n100,0.4\n200,0.3\n")
        self.browser.wait_screen("pages")
        document.unlink()
        self.browser.wait(lambda: "cannot be opened" in self.browser.words("#notice") or "No such file" in self.browser.words("#notice"), "that it is gone")
        document.write_text(json.dumps(traced))
        self.browser.wait(lambda: self.browser.words("#notice") == "", "that it is back")
        other = self.browser.driver.execute_async_script(
            "const done = arguments[0]; Promise.all(['/v1/previewed/..%2fjob.json', '/v1/previewed/other.csv'].map((path) => fetch(path))).then((all) => done(all.map((one) => one.status)))")
        self.assertEqual(other, [404, 404])
        process.terminate()
        self.assertEqual(process.wait(30), 0)
        self.assertEqual(process.stderr.read(), "", "no line for each look at the file")
        self.browser.wait(lambda: "cannot be reached" in self.browser.words("#notice"), "that it has ended")

    def test_a_preview_of_nothing_is_refused(self):
        for words in (("preview",), ("preview", "-"), ("preview", self.folder.name), ("preview", "/nowhere/job.json")):
            refused = subprocess.run([program, *words], capture_output=True, text=True, timeout=30)
            self.assertIn(refused.returncode, (2, 66), words)
        self.assertEqual(self.server.ask("GET", "/v1/previewed").code, "nothing-there")

    def test_what_cannot_be_read_is_refused_in_words(self):
        self.browser.choose(self.file("photo.heic", b"\0\1\2"))
        self.browser.wait(lambda: self.browser.one("#refused").is_displayed(), "a refusal")
        self.assertIn("photo.heic", self.browser.words("#refused-what"))
        self.look("start")
        self.assert_quiet()

    def test_from_drop_to_report_by_the_keyboard_alone(self):
        self.browser.choose(samples / "smallest.json")  # a dialog of the system is nobody's page
        self.browser.wait_screen("soundness")
        self.browser.tab_to("See the pages")
        self.browser.press(Keys.ENTER)
        self.browser.wait_screen("pages")
        self.browser.wait(lambda: self.browser.one(".sheet[src]"), "a drawn page")
        self.browser.tab_to("What is in it")
        self.browser.press("summary")
        self.browser.wait(lambda: self.browser.words("#h-pages").startswith("1 page,"), "the summary, one page")
        self.browser.tab_to("Deliver")
        self.browser.press(Keys.ENTER)
        self.browser.wait_screen("deliver")
        self.browser.tab_to("Save the report")
        self.browser.press(Keys.ENTER)
        self.browser.wait((self.browser.saved / "smallest.pdf").exists, "the saved report")
        self.assert_quiet()

    def test_a_service_that_goes_away_loses_nothing(self):
        self.browser.choose(samples / "smallest.json")
        self.browser.wait_screen("soundness")
        self.server.end()
        self.browser.one("a.button[href='#pages']").click()
        self.browser.wait(lambda: "cannot be reached" in self.browser.words("#h-pages"), "that the service is away")
        self.browser.one("[data-screen=pages] a[href='#deliver']").click()
        self.browser.one("#save").click()
        self.browser.wait(lambda: "cannot be reached" in self.browser.words("#saved"), "that the service is away")
        self.assertIn("smallest.json", self.browser.words("#job-name"))


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0]])
