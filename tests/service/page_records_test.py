#!/usr/bin/env python3
"""Reports and records on the page, walked in Chromium: checked, filed, found again, compared.

    page_records_test.py PROGRAM SOURCE_FOLDER
"""
import datetime
import io
import json
import pathlib
import subprocess
import tarfile
import zipfile

from page import PageTest, program, run as run_tests, samples
from selenium.webdriver.common.keys import Keys
from server import Server


class Records(PageTest):
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

    def test_a_record_is_checked_and_opened_again(self):
        self.browser.choose(samples / "short-axis.json")
        self.browser.wait_screen("soundness")
        self.browser.go("#deliver")
        self.browser.wait(lambda: self.browser.one("#take-away button"), "what can be taken away")
        self.browser.one("#take-away button").click()
        packed = self.browser.wait_saved("short-axis.zip", "the packed record")
        self.look("deliver")
        self.browser.choose(packed)
        self.browser.wait_screen("verdict")
        self.assertIn("Nothing shows that this record was changed", self.browser.words("#h-verdict"))
        self.look("verdict")
        self.browser.one("#verdict-open button").click()
        self.browser.wait_screen("soundness")
        self.browser.go("#deliver")
        self.assertEqual(self.saved_document("WF-1001.json"), (samples / "short-axis.json").read_text())
        changed = pathlib.Path(self.folder.name, "changed.tar.gz")
        with zipfile.ZipFile(packed) as record, tarfile.open(changed, "w:gz") as again:
            for name in record.namelist():
                content = record.read(name).replace(b"1", b"2", 1) if name.endswith("/evaluation.json") else record.read(name)
                member = tarfile.TarInfo(name)
                member.size = len(content)
                again.addfile(member, io.BytesIO(content))
        self.browser.choose(changed)
        self.browser.wait(lambda: "This record is not as it was made" in self.browser.words("#h-verdict"), "that it was changed")
        self.assertIn("evaluation.json: not as it was filed", self.browser.words("#checks"))
        self.look("verdict")
        self.browser.choose(self.file("other.zip", b"PK no archive"))
        self.browser.wait(lambda: "cannot be unpacked" in self.browser.words("#refused-what"), "that this is none")
        self.assert_quiet()

    def test_what_is_due_is_told_and_what_was_measured_again_is_not(self):
        keeper = self.at_an_archive()
        today = datetime.date.today()

        def file(number, serial, measured, months):
            document = json.loads(self.visit(number, measured.isoformat(), 1))
            document["machine"]["serial"] = serial
            if months:
                document["job"]["agreed_interval"] = {"months": months, "agreed_with": "Head of maintenance"}
            self.assertEqual(keeper.post("/v1/records?layout=summary", json.dumps(document)).status, 201)

        file("WF-0001", "D-0031", today - datetime.timedelta(days=100), 1)
        file("WF-0002", "D-0007", today - datetime.timedelta(days=400), 12)
        file("WF-0003", "D-0007", today - datetime.timedelta(days=3), 0)
        file("WF-0004", "D-0012", today - datetime.timedelta(days=10), 24)
        self.open("archive", "4 records of 3 machines.")
        self.browser.wait(lambda: self.browser.one("#due-box").is_displayed(), "what is due")
        [row] = self.browser.all("#due tr")
        self.assertRegex(row.text, r"serial D-0031[^$]+WF-0001[^$]+, \d+ days ago")
        self.look("archive")
        self.assert_quiet()

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
        self.assertFalse(self.browser.one("#due-box").is_displayed(), "nothing was agreed")
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
        self.browser.wait_saved("history-D-0007.pdf", "the history as PDF")
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
        self.browser.wait_saved("WF-1001.zip", "the packed record")
        place = self.browser.driver.execute_script("return location.hash.slice(1)")
        console = self.browser.complaints()
        self.assertTrue(all("400 (Bad Request)" in one for one in console), console)  # of the date that is none
        numbers = self.records / "WF-1001/revision-0/data/evaluation.json"
        numbers.write_bytes(numbers.read_bytes().replace(b"1", b"2", 1))
        self.browser.go("#archive")
        self.browser.wait(lambda: "WF-1001" in self.browser.words("#damaged"), "what is damaged")
        self.look("archive")
        self.assertNotIn("No record is kept", self.browser.words("#h-archive"))
        self.open(place, "No sound record")
        self.browser.one("#record-verify").click()
        self.browser.wait(lambda: "not as it was filed" in self.browser.words("#record-said"), "that it was changed")
        self.assertIn("evaluation.json", self.browser.words("#record-checks"))
        self.assertNotRegex(self.browser.words("#record-checks"), r"(^|\s)/[a-z]", "a pointer is nothing for a person")
        self.assert_quiet()
        self.look("record")
        self.browser.one("#record-report").click()
        self.browser.wait(lambda: "evaluation.json" in self.browser.words("#record-said"), "why it is not given out")

    def test_two_documents_dropped_together_are_compared(self):
        later = self.file("a-later.json", self.visit("WF-2000", "2027-05-10", 1.4))
        self.browser.choose(later, samples / "short-axis.json")
        self.browser.wait_screen("compare")
        self.browser.wait(lambda: "changed by more than U" in self.browser.words("#h-compare"), "what changed")
        self.assertIn("short-axis.json", self.browser.words("#old-side"), "the one that was measured earlier")
        self.assertIn("2027-05-10", self.browser.words("#new-side"))
        self.look("compare")
        faulty = self.file("faulty.json", (samples / "short-axis.json").read_text().replace('"EXX"', '"EQQ"', 1))
        self.browser.choose(later, faulty)
        self.browser.wait(lambda: "EQQ" in self.browser.words("#refused"), "why nothing is compared")

    def test_a_correction_begins_at_what_was_filed(self):
        keeper = self.at_an_archive()
        filed = keeper.post("/v1/records", (samples / "short-axis.json").read_bytes()).json["fingerprint"].replace("sha256:", "")
        self.open("record=" + filed, "Geometric test")
        self.browser.one("#record-open").click()
        self.browser.wait_screen("soundness")
        self.browser.go("#deliver")
        self.browser.wait(lambda: self.browser.words("#correct") == "Begin revision 1", "how to correct it")
        self.browser.one("#correct").click()
        self.browser.wait(lambda: self.browser.driver.switch_to.active_element.accessible_name == "Reason", "why it is replaced")
        self.browser.press("serial number corrected", Keys.TAB)
        self.browser.wait(lambda: "serial number corrected" in self.browser.words("#changes"), "the reason")
        self.look("form")
        expected = json.loads((samples / "short-axis.json").read_text())
        issued = expected["job"].pop("issued")
        expected["job"].update(revision=1, replaces={"number": "WF-1001", "revision": 0, "issued": issued, "reason": "serial number corrected"})
        self.assertEqual(json.loads(self.saved_document("WF-1001.json")), expected)
        self.browser.one("#file-record").click()
        self.browser.wait(lambda: "WF-1001, revision 1" in self.browser.words("#filed"), "the second revision")
        self.assert_quiet()

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


if __name__ == "__main__":
    run_tests()
