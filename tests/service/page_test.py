#!/usr/bin/env python3
"""The page of the service, walked in Chromium: each way through it from end to end, with files on the disk.

    page_test.py PROGRAM SOURCE_FOLDER
"""
import pathlib
import subprocess
import sys
import tempfile
import unittest

from browser import Browser
from selenium.webdriver.common.keys import Keys
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
