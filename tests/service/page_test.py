#!/usr/bin/env python3
"""The page of the service, walked in Chromium: what comes in becomes a report, with files on the disk.

    page_test.py PROGRAM SOURCE_FOLDER
"""
import csv
import json
import pathlib
import subprocess

from page import PageTest, program, run, samples
from selenium.webdriver import ActionChains
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import Select
from server import Server
from workbook import workbook


class Documents(PageTest):
    def faulty(self):
        return self.file("faulty.json", (samples / "short-axis.json").read_text().replace('"EXX"', '"EQQ"', 1).replace('"um"', '"micron"', 1))

    def test_a_document_becomes_the_report_that_the_command_makes(self):
        self.look("start")
        self.browser.choose(samples / "short-axis.json")
        self.look("soundness")
        self.assertNotIn("(/", self.browser.words("#main"), "a pointer into the document is nothing for a person at the machine")
        self.browser.one("[data-screen=soundness] a.button").click()
        self.look("form")
        self.browser.one("#form-next").click()
        self.browser.wait(lambda: self.browser.one(".sheet[src]"), "a drawn page")
        self.look("pages")
        by_command = pathlib.Path(self.folder.name, "by-command.pdf")
        subprocess.run([program, "report", samples / "short-axis.json", "-o", by_command], check=True, capture_output=True)
        told = subprocess.run(["pdfinfo", by_command], check=True, capture_output=True, text=True).stdout
        self.assertIn(f"Pages:           {self.browser.words('#h-pages').split()[0]}\n", told)
        self.browser.one("[data-screen=pages] a.button[href='#deliver']").click()
        self.look("deliver")
        self.browser.one("#save").click()
        saved = self.browser.wait_saved("short-axis.pdf", "the saved report")
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
        mapping = self.browser.wait_saved("mapping.json", "the saved mapping")
        Select(self.browser.one("#state")).select_by_value("as-found")
        self.browser.one("#use").click()
        self.look("soundness")
        self.assertIn("readings used", self.browser.words("#account-box"))
        self.browser.go("#deliver")
        self.browser.wait_screen("deliver")
        self.browser.one("#save-document").click()
        document = self.browser.wait_saved("readings.json", "the saved document")
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

    def test_a_spreadsheet_is_asked_like_a_text(self):
        with open(samples / "exports/found/x-exx.csv", newline="") as text:
            rows = [row[:-1] for row in csv.reader(text) if not row[0].startswith("#")]
        self.browser.choose(self.file("one.xlsx", workbook({"There and back": rows})))
        self.look("readings")
        self.assertIn("Actual position [mm]", self.browser.words("#columns"))
        self.browser.fill("Which error", "EXX: positioning of X", "one.xlsx")
        self.assertIn("needed", self.browser.words("#h-readings"))

    def test_a_column_that_is_no_reading_is_left_out(self):
        rows = ["0;1;+;4001;0.1", "100;1;+;4002;0.4", "200;1;+;4003;0.9", "200;1;-;4004;0.7", "100;1;-;4005;0.3", "0;1;-;4006;-0.1"]
        self.browser.choose(self.file("counted.csv", "\n".join(["Target [mm];Run;Direction;Counter;Deviation [um]", *rows]) + "\n"))
        self.browser.wait_screen("readings")
        groups = {group.find_element("css selector", "legend").text: group for group in self.browser.all("#questions fieldset")}
        groups["counted.csv: Counter"].find_element("css selector", ".leave").click()
        self.browser.wait(lambda: self.role("column 4, Counter") == "is not read", "that it is no reading")
        self.look("readings")
        self.browser.driver.refresh()
        self.browser.wait(lambda: self.role("column 4, Counter") == "is not read", "the same after a reload")
        self.browser.fill("Which error", "EXX: positioning of X", "counted.csv: Deviation")
        self.browser.fill("positive reading", "past the target, or turned in the positive sense (actual minus target)", "counted.csv: Deviation")
        self.assertIn("every column is decided", self.browser.words("#h-readings"))
        self.browser.one("#use").click()
        self.browser.wait_screen("soundness")
        [series] = json.loads(self.saved_document("counted.json"))["series"]
        self.assertEqual([run["deviations"] for run in series["runs"]], [[0.1, 0.4, 0.9], [-0.1, 0.3, 0.7]])
        self.assert_quiet()

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
        steps = [step.text.split()[0] for step in self.browser.all("#job-steps a") if step.is_displayed()]
        self.assertEqual(steps, ["Faults", "Job"], "what is faulty can neither be drawn nor delivered")
        self.assertNotIn("/job", self.browser.words("#fault-place"), "a pointer is nothing for a person")
        self.browser.one("#mend-in-form a").click()
        self.browser.wait(lambda: self.browser.all("#form-faults a"), "what is to be mended")
        self.look("form")
        self.browser.one("#form-faults a").click()
        self.browser.wait(lambda: self.browser.driver.switch_to.active_element.accessible_name == "Error", "the field at fault")
        self.browser.press(Keys.CONTROL, "a")
        self.browser.press("EXX", Keys.TAB)
        self.browser.wait(lambda: "1 entry is to be mended" in self.browser.words("#h-form"), "one fault less")
        self.assert_quiet()

    def test_a_word_that_is_meant_for_certain_is_written_by_a_press(self):
        original = (samples / "short-axis.json").read_text()
        self.browser.choose(self.file("short-axis.json", original.replace('"mm"}', '"nm"}', 1)))
        self.browser.wait_screen("faults")
        self.browser.wait(lambda: self.browser.one("#write-meant").is_displayed(), "the word")
        self.look("faults")
        self.browser.one("#write-meant").click()
        self.browser.wait_screen("soundness")
        self.assertEqual(self.saved_document("short-axis.json"), original)
        self.browser.go("#start")
        self.browser.choose(self.file("key.json", original.replace('"setup"', '"setpu"', 1)))
        self.browser.wait(lambda: "setpu" in self.browser.words("#lines mark"), "a key that is misspelt")
        self.assertFalse(self.browser.one("#write-meant").is_displayed(), "a value is no key")
        self.assert_quiet()

    def test_text_is_pasted_and_letters_that_cannot_be_read_are_not_replaced(self):
        self.browser.driver.execute_script("""const data = new DataTransfer(); data.setData("text", arguments[0]);
            document.querySelector("#main").dispatchEvent(new ClipboardEvent("paste", {clipboardData: data, bubbles: true}));""", (samples / "smallest.json").read_text())
        self.browser.wait_screen("soundness")
        self.assertEqual(self.saved_document("pasted.json"), (samples / "smallest.json").read_text())
        self.browser.go("#start")
        self.browser.choose(self.file("latin.json", (samples / "smallest.json").read_text().replace("Invented", "Erf\u00fcnden", 1).encode("latin-1")))
        self.browser.wait_screen("faults")
        self.assertFalse(self.browser.one("#mend-in-form").is_displayed(), "a form would write other letters")
        self.look("faults")
        self.assert_quiet()

    def parameters(self, document):
        path = self.file("evaluated.json", document)
        series = json.loads(subprocess.run([program, "evaluate", path], check=True, capture_output=True).stdout)["series"][0]
        return {name: parameter["value"] for name, parameter in series["parameters"].items()}

    def wait_figure(self):
        self.browser.wait(lambda: self.browser.driver.execute_script("return document.querySelector('#picture').naturalWidth"), "the figure")

    def test_a_reading_is_set_aside_with_its_reason_and_put_back(self):
        original = (samples / "short-axis.json").read_text()
        self.browser.choose(samples / "short-axis.json")
        self.browser.wait_screen("soundness")
        self.browser.go("#figures")
        self.wait_figure()
        self.look("figures")
        height = "return document.querySelector('#picture').getBoundingClientRect().height"
        for width in (390, 1440):
            self.browser.width(width)
            before = self.browser.driver.execute_script("document.querySelector('#picture').removeAttribute('src'); " + height)
            self.browser.one("#figure").send_keys(Keys.ARROW_DOWN, Keys.ARROW_UP)
            self.wait_figure()
            drawn = self.browser.driver.execute_script(height)
            self.assertLess(abs(drawn - before), drawn / 20, "what stands below moves when the figure comes")
        self.browser.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": "dark"}]})
        grounds = [self.browser.one(place).value_of_css_property("background-color") for place in ("body", "#picture")]
        self.assertEqual(*[ground.replace("rgb(", "rgba(").replace(", 1)", ")") for ground in grounds], "light inks on white in the dark")
        slider = self.browser.one("#target")
        slider.send_keys(Keys.ARROW_RIGHT, Keys.ARROW_RIGHT)
        self.assertIn("Target 3 of 13", self.browser.words("#at"))
        picture = self.browser.one("#picture")
        for share, target in ((-0.45, 1), (0.49, 13)):  # beyond the axis the nearest counts
            ActionChains(self.browser.driver).move_to_element_with_offset(picture, int(picture.size["width"] * share), 0).perform()
            self.assertIn(f"Target {target} of 13", self.browser.words("#at"))
        ActionChains(self.browser.driver).move_to_element_with_offset(picture, 0, 0).perform()
        self.assertRegex(self.browser.words("#at"), "Target [678] of 13, at (6|7|8|9)[0-9]{2}", "in the middle of the axis")
        slider.send_keys(Keys.HOME, Keys.ARROW_RIGHT, Keys.ARROW_RIGHT)
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
        saved = self.browser.wait_saved("short-axis.json", "the saved document")
        self.assertEqual(json.loads(saved.read_text()), expected)
        self.assertEqual(len(saved.read_text()), len(original) + len(', "excluded": ' + json.dumps(run["excluded"]).replace(": ", ":").replace(", ", ",")))
        self.browser.go("#figures")
        self.browser.one("#undo").click()
        self.browser.wait(lambda: not self.browser.one("#aside-box").is_displayed(), "nothing set aside")
        self.browser.go("#deliver")
        self.browser.wait_screen("deliver")
        self.browser.one("#save-document").click()
        again = self.browser.wait_saved("short-axis (1).json", "the document as it came")
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
        self.wait_figure()
        self.browser.one("#values button").click()
        self.browser.one("#reason").send_keys("beam interrupted", Keys.ENTER)
        self.browser.wait(lambda: self.browser.one("#aside-box").is_displayed(), "what was set aside")
        self.browser.go("#readings")
        self.browser.one("#use").click()
        self.browser.wait(lambda: "1 change made here would be lost" in self.browser.words("#use-why"), "what would be lost")
        self.assertTrue(self.browser.one("[data-screen=readings]").is_displayed())
        self.browser.one("#use").click()
        self.browser.wait_screen("soundness")
        self.server.end()
        self.browser.go("#figures")
        self.browser.wait(lambda: "cannot be reached" in self.browser.words("#h-figures"), "that the service is away")

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

    def test_a_service_that_wants_its_token_is_shown_it_and_goes_on_with_what_was_dropped(self):
        token = self.file("token", "an-invented-token-of-this-test")
        locked = Server(program, "--token-file", str(token))
        self.addCleanup(locked.__exit__)
        self.browser.home = f"http://127.0.0.1:{locked.port}/"
        self.browser.go("")
        self.browser.choose(samples / "smallest.json")
        self.look("token")
        for word in ("another-token-than-this-service-has", "an-invented-token-of-this-test"):
            self.browser.one("#token").send_keys(word, Keys.ENTER)
            self.browser.wait(lambda: self.browser.one("#token").get_attribute("value") == "", "that it was shown")
        self.browser.wait_screen("soundness")
        self.assertEqual(self.browser.words("#job-name"), "smallest.json")
        self.assertNotIn(token.read_text(), self.browser.driver.execute_script("return JSON.stringify([localStorage, sessionStorage])"))
        self.browser.driver.refresh()
        self.browser.wait_screen("token")  # forgotten; the job is not
        self.browser.one("#token").send_keys(token.read_text(), Keys.ENTER)
        self.browser.wait_screen("soundness")

    def test_what_is_too_large_is_told_as_such(self):
        self.browser.choose(self.file("large.json", b'{"format": "wayfolio-result", "a": "' + b"x" * (33 << 20) + b'"}'))
        self.browser.wait(lambda: self.browser.one("#refused").is_displayed(), "a refusal")
        self.assertIn("large", self.browser.words("#refused"))
        self.assertFalse(self.browser.one("#lost").is_displayed(), "the service is not away")


if __name__ == "__main__":
    run()
