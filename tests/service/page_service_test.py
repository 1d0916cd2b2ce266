#!/usr/bin/env python3
"""What the page knows of its service, walked in Chromium: limits before sending, samples, the archive; and what a job shows besides.

    page_service_test.py PROGRAM SOURCE_FOLDER
"""
import json
import pathlib
import re
import shlex
import subprocess

from page import PageTest, program, run as run_tests, samples, source
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import Select
from server import Server


class Service(PageTest):
    def at(self, *options, cwd=None):
        server = Server(program, *options, cwd=cwd)
        self.addCleanup(server.__exit__)
        self.browser.home = f"http://127.0.0.1:{server.port}/"
        self.browser.go("")
        return server

    def refused(self):
        self.browser.wait(lambda: self.browser.one("#refused").is_displayed(), "a refusal")
        return self.browser.words("#refused-what"), self.browser.words("#refused-hint")

    def test_what_is_too_large_or_too_many_is_told_before_anything_is_sent(self):
        limits = self.server.ask("GET", "/v1/service").json["limits"]
        before = self.server.metric("received_bytes_total")
        self.browser.choose(self.file("long.csv", b"x" * (limits["body_bytes"] + 1)))
        what, hint = self.refused()
        self.assertIn(f"long.csv. Too large: 33.6 MB, where this service takes {limits['body_bytes'] // 10 ** 5 / 10} MB at once. Nothing was sent.", what)
        self.assertIn("one axis at a time", hint)
        self.look("start")
        self.browser.choose(self.file("large.json", b'{"format": "wayfolio-result", "a": "' + b"x" * limits["body_bytes"] + b'"}'))
        self.browser.wait(lambda: "large.json. Too large" in self.browser.words("#refused-what"), "that this is too large")
        self.assertEqual(self.browser.all("#jobs tr"), [], "what could not be sent begins no job")
        many = [self.file(f"run-{number}.csv", "Target,EXX\n0,1\n5,2\n") for number in range(limits["parts"] + 1)]
        self.browser.choose(*many)
        self.browser.wait(lambda: "Too many" in self.browser.words("#refused-what"), "that these are too many")
        self.assertIn(f"where this service takes {limits['parts']} at once", self.browser.words("#refused-what"))
        self.assertEqual(self.server.metric("received_bytes_total"), before)
        self.browser.choose(*many[:2])
        self.browser.wait_screen("readings")
        self.assert_quiet()

    def test_without_its_limits_what_the_service_refuses_is_told_as_it_tells_it(self):
        self.browser.driver.execute_cdp_cmd("Network.enable", {})
        self.browser.driver.execute_cdp_cmd("Network.setBlockedURLs", {"urls": ["*/v1/service"]})
        self.browser.go("?again")
        self.browser.choose(samples / "smallest.json")
        self.browser.wait_screen("soundness")

    def test_the_line_of_the_readme_starts_a_page_with_the_samples_to_open_by_one_press(self):
        readme = (source / "README.md").read_text()
        first = readme.index("<!-- command: first report -->")
        line = re.search(r"`(build/wayfolio serve [^`]*)` then shows <http://127.0.0.1:8480/>", readme[first:readme.index("<!-- command: test -->")]).group(1)
        words = shlex.split(line)
        self.assertEqual(words[:2], ["build/wayfolio", "serve"])
        self.assertNotIn("--listen", words, "the address is the standard one")
        self.at(*words[2:], cwd=source)
        self.browser.wait(lambda: self.browser.all("#samples button"), "the samples")
        self.look("start")
        self.assertFalse(self.browser.one("#look-box").is_displayed(), "nothing to look for where no records are kept")
        self.browser.tab_to("Geometric test of the X axis")
        self.browser.press(Keys.ENTER)
        self.browser.wait_screen("soundness")
        self.assertEqual(self.saved_document("short-axis.json"), (samples / "short-axis.json").read_text())
        self.assert_quiet()

    def test_a_sample_comes_with_the_files_that_it_names_and_a_service_that_is_away_says_so(self):
        traced = json.loads((samples / "smallest.json").read_text())
        traced["series"][0]["trace"] = {"approach": "positive", "file": "a trace+1.csv"}
        traced["job"]["title"] = "A traced axis"
        self.file("traced.json", json.dumps(traced))
        self.file("a trace+1.csv", "0,0.1\n100,0.4\n200,0.2\n")
        server = self.at("--samples", self.folder.name)
        self.browser.click_named("#samples button", "A traced axis")
        self.browser.wait_screen("soundness")
        self.assertEqual(json.loads(self.saved_document("traced.json")), traced)
        self.browser.go("#start")
        self.browser.wait(lambda: self.browser.all("#samples button"), "the samples")
        server.end()
        self.browser.click_named("#samples button", "A traced axis")
        self.browser.wait(lambda: "cannot be reached" in self.browser.words("#samples-said"), "that the service is away")

    def test_the_archive_is_searched_from_the_start_and_what_was_looked_for_outlasts_a_reload(self):
        records = pathlib.Path(self.folder.name, "records")
        records.mkdir()
        server = self.at("--records", str(records))
        short = json.loads((samples / "short-axis.json").read_text())
        for number, serial, customer in (("K-1", "EX-1", "Customer One"), ("K-2", "EX-2", "Customer Two")):
            short["job"].update(number=number, customer={**short["job"].get("customer", {}), "name": customer})
            short["machine"]["serial"] = serial
            filed = server.post("/v1/records?layout=summary", json.dumps(short))
            self.assertEqual(filed.status, 201, filed.body[:300])
        self.browser.go("?again")
        self.browser.wait(lambda: self.browser.one("#look-box").is_displayed(), "the search")
        self.assertIn("the records that you file", self.browser.words("#keeps"))
        self.look("start")
        for by, words, expected in (("serial", "EX-2", "1 record of 1 machine as asked."), ("machine", "machining", "2 records of 2 machines as asked."),
                                    ("axis", "X", "2 records of 2 machines as asked."), ("customer", "One", "1 record of 1 machine as asked."),
                                    ("job", "K-1", "1 record of 1 machine as asked."), ("from", "2026-05-12", "No record is as asked.")):
            self.browser.go("#start")
            self.browser.wait_screen("start")
            Select(self.browser.one("#look-by")).select_by_value(by)
            self.browser.one("#look-for").clear()
            self.browser.one("#look-for").send_keys(words, Keys.ENTER)
            self.browser.wait(lambda: self.browser.words("#h-archive") == expected, f"{by}: {expected}")
            self.assertEqual(self.browser.one(f"#s-{by}").get_attribute("value"), words)
        self.browser.driver.refresh()
        self.browser.wait(lambda: self.browser.words("#h-archive") == "No record is as asked.", "the same after a reload")
        self.browser.one("#s-from").clear()
        self.browser.one("#s-serial").send_keys("EX-1", Keys.ENTER)
        self.browser.wait(lambda: self.browser.words("#h-archive") == "1 record of 1 machine as asked.", "another search")
        self.look("archive")
        self.browser.driver.back()
        self.browser.wait(lambda: self.browser.words("#h-archive") == "No record is as asked.", "the one before")
        self.assert_quiet()

    def test_every_test_is_listed_with_what_came_of_it(self):
        self.browser.choose(samples / "short-axis.json")
        self.browser.wait_screen("soundness")
        self.assertFalse(self.browser.one("#tests").is_displayed())
        self.browser.one("#tests-box summary").send_keys(Keys.ENTER)
        self.browser.wait(lambda: self.browser.all("#tests table"), "the tests")
        self.look("soundness")
        evaluated = json.loads(subprocess.run([program, "evaluate", samples / "short-axis.json"], check=True, capture_output=True).stdout)
        captions = [caption.text for caption in self.browser.all("#tests caption")]
        self.assertEqual(captions, [f"{series['error']}, {series['state'].replace('-', ' ')}" for series in evaluated["series"]] + ["Set-up"])
        for table, series in zip(self.browser.all("#tests table"), evaluated["series"]):
            tests = [test for key, tests in series["hints"].items() if key != "left_out" for test in (tests if isinstance(tests, list) else [tests])]
            rows = table.find_elements("css selector", "tbody tr")
            self.assertEqual(len(rows), len(tests) + len(series["conditions"]))
            self.assertEqual(table.text.count("finding"), sum(test.get("raised", False) for test in tests))
            self.assertEqual(table.text.count("not evaluated"), sum("not_evaluated" in test for test in tests))
            for row, condition in zip(rows[len(tests):], series["conditions"]):
                self.assertIn(condition["text"], row.text)
                self.assertEqual("does not hold" in row.text, condition["holds"] is False)
        self.assert_quiet()

    def test_what_could_not_be_tested_says_why(self):
        self.browser.choose(self.file("one-run.json", json.dumps({"format": "wayfolio-result", "version": 1, "job": {"data_notice": "Invented data"}, "series": [
            {"id": "x", "error": "EXX", "unit": "um", "position_unit": "mm", "targets": [0, 100, 200], "runs": [{"approach": "positive", "deviations": [0, 1, 2]}]}]})))
        self.browser.wait_screen("soundness")
        self.browser.one("#tests-box summary").click()
        self.browser.wait(lambda: "not evaluated: too few runs for a trend" in self.browser.words("#tests"), "why")
        self.look("soundness")

    def test_the_fingerprint_is_that_of_the_report_that_is_saved(self):
        self.browser.choose(samples / "short-axis.json")
        self.browser.wait_screen("soundness")
        self.browser.go("#deliver")
        fingerprint = lambda: "".join(self.browser.words("#fingerprint").split())
        self.browser.wait(lambda: len(fingerprint()) == 64, "the fingerprint")
        self.look("deliver")
        first = fingerprint()
        self.browser.one("#save").click()
        saved = self.browser.wait_saved("short-axis.pdf", "the saved report")
        subprocess.run([program, "verify", saved, "--against", first], check=True, capture_output=True)
        self.browser.go("#pages")
        self.browser.wait_screen("pages")
        Select(self.browser.one("#layout")).select_by_value("summary")
        self.browser.go("#deliver")
        self.browser.wait(lambda: len(fingerprint()) == 64 and fingerprint() != first, "another layout is another report")
        self.assert_quiet()

    def test_small_pages_stand_beside_where_there_is_room_and_each_page_is_drawn_once(self):
        self.browser.choose(samples / "short-axis.json")
        self.browser.wait_screen("soundness")
        self.browser.width(1440)
        self.browser.go("#pages")
        self.browser.wait(lambda: self.browser.one("#thumbs img[src]"), "a small page")
        pages = int(self.browser.words("#h-pages").split()[0])
        self.assertEqual(len(self.browser.all("#thumbs button")), pages)
        self.assertLess(len(self.browser.all("#thumbs img[src]")), pages, "what is not seen is not drawn")
        heights = "return [...document.querySelectorAll('.page .sheet')].map((one) => Math.round(one.getBoundingClientRect().height))"
        self.assertEqual(len(set(self.browser.driver.execute_script(heights))), 1, "what is not drawn yet has its place already")
        self.browser.tab_to("Page 3")
        self.browser.press(Keys.ENTER)
        self.browser.wait(lambda: self.browser.one("#thumbs [aria-current]").text == "3", "that it is the one looked at")
        self.browser.wait(lambda: self.browser.one("#page-3 img").get_attribute("src"), "page 3")
        drawn = self.browser.driver.execute_script("return performance.getEntriesByType('resource').filter((one) => one.name.includes('/v1/page?')).map((one) => one.name)")
        self.assertEqual(len(drawn), len(set(drawn)))
        self.look("pages")
        self.browser.width(1200)
        self.assertFalse(self.browser.one("#thumbs-box").is_displayed())
        self.assert_quiet()


if __name__ == "__main__":
    run_tests()
