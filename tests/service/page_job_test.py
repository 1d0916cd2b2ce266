#!/usr/bin/env python3
"""A job on the page, walked in Chromium: its form, what is kept of it, by keyboard alone, over a slow network and without one.

    page_job_test.py PROGRAM SOURCE_FOLDER
"""
import json
import pathlib

from page import PageTest, program, run, samples
from selenium.webdriver.common.keys import Keys
from server import Server


class Jobs(PageTest):
    def test_the_form_asks_what_the_schema_says_and_changes_nothing_else(self):
        original = (samples / "smallest.json").read_text()
        self.at_the_form(samples / "smallest.json")
        self.look("form")
        lacking = int(self.browser.words("#h-form").split()[0])
        number = self.field("Number")
        self.assertIn("7.8.2.1", self.told_at(number))
        number.send_keys("WF-7", Keys.TAB)
        self.browser.wait(lambda: int(self.browser.words("#h-form").split()[0]) == lacking - 1, "one entry less")
        self.assertEqual(self.told_at(number), "")
        issued = self.field("Issued")
        issued.send_keys("11.5.2026", Keys.TAB)
        self.browser.wait(lambda: 'found "11.5.2026"' in self.told_at(issued), "the fault beside its field")
        self.assertEqual(issued.get_attribute("aria-invalid"), "true")
        self.assertIn("1 entry is to be mended", self.browser.words("#h-form"))
        self.assertFalse(self.browser.one("#job-steps a[href='#pages']").is_displayed(), "what is faulty cannot be drawn")
        self.look("form")
        self.browser.one("#undo-change").click()
        self.browser.wait(lambda: "lacking" in self.browser.words("#h-form"), "no fault")
        expected = json.loads(original)
        expected["job"]["number"] = "WF-7"
        saved = self.saved_document("smallest.json")
        self.assertEqual(json.loads(saved), expected)
        self.assertEqual(saved.replace(', "number": "WF-7"', "", 1), original, "every other letter is as it came")
        self.browser.go("#form")
        self.browser.wait(lambda: self.field("Number").get_attribute("value") == "WF-7", "what was typed")
        self.field("Number").clear()
        self.browser.press(Keys.TAB)
        self.browser.wait(lambda: int(self.browser.words("#h-form").split()[0]) == lacking, "the entry that is lacking again")
        self.assertEqual(self.saved_document("smallest.json"), original)
        self.assert_quiet()

    def test_what_is_not_there_yet_is_added_in_the_form(self):
        self.at_the_form(samples / "smallest.json")
        self.browser.click_named("#topics > details > summary", "Instruments")
        self.browser.click_named("#topics button", "Add: instrument")
        self.browser.wait(lambda: "to be mended" in self.browser.words("#h-form"), "that an instrument needs an id")
        self.browser.wait(lambda: self.browser.driver.switch_to.active_element.accessible_name == "Id", "the field for it")
        self.browser.press("laser", Keys.TAB)
        self.browser.wait(lambda: "lacking" in self.browser.words("#h-form"), "no fault")
        self.field("Vacuum wavelength, nm").send_keys("632,9", Keys.TAB)
        self.browser.wait(lambda: '"632,9"' in self.told_at(self.field("Vacuum wavelength, nm")), "a decimal comma is not guessed at")
        self.field("Vacuum wavelength, nm").clear()
        self.field("Vacuum wavelength, nm").send_keys("632.99120", Keys.TAB)
        self.browser.wait(lambda: "lacking" in self.browser.words("#h-form"), "no fault")
        self.look("form")
        self.assertIn('"instruments": [{"id": "laser", "vacuum_wavelength_nm": 632.99120}]', self.saved_document("smallest.json"))
        self.assert_quiet()

    def test_a_revision_is_approved_with_a_name_and_a_day(self):
        original = json.loads((samples / "short-axis.json").read_text())
        draft = pathlib.Path(self.folder.name, "draft.json")
        original["job"].update(status="draft", people=[person for person in original["job"]["people"] if person["role"] != "approved by"])
        original["job"].pop("issued")
        draft.write_text(json.dumps(original))
        self.browser.choose(draft)
        self.browser.wait_screen("soundness")
        self.browser.go("#deliver")
        self.browser.wait(lambda: self.browser.one("#approve").is_displayed(), "that nobody has approved it")
        self.browser.one("#approve").click()
        self.look("deliver")
        self.browser.press("Head of laboratory", Keys.TAB, "12.5.2026", Keys.ENTER)
        self.assertTrue(self.browser.one("#approve-dialog").is_displayed(), "no day that the report could print")
        self.browser.one("#approved-on").clear()
        self.browser.one("#approved-on").send_keys("2026-05-12", Keys.ENTER)
        self.browser.wait(lambda: not self.browser.one("#approve-box").is_displayed(), "that it is approved")
        self.browser.wait(lambda: "2026-05-12" in self.browser.words("#deliver-state"), "the day")
        original["job"].update(status="final", issued="2026-05-12", people=[*original["job"]["people"], {"role": "approved by", "name": "Head of laboratory"}])
        self.assertEqual(json.loads(self.saved_document("draft.json")), original)
        self.assert_quiet()

    def offered(self, file):
        """What a file would fill in, by what the question says; the question stays open."""
        self.browser.one("#from-file").send_keys(str(file))
        self.browser.wait(lambda: self.browser.one("#template").is_displayed(), "the question")
        return dict(zip([label.text for label in self.browser.all("#template-rows label")], [cell.text for cell in self.browser.all("#template-rows td")]))

    def test_what_jobs_have_in_common_is_filled_in_from_a_file_and_nothing_that_was_found_at_another_visit(self):
        original = json.loads((samples / "smallest.json").read_text())
        original["machine"] = {"serial": "D-0007"}
        document = pathlib.Path(self.folder.name, "visit.json")
        document.write_text(json.dumps(original))
        self.at_the_form(document)
        facts = samples / "exports/facts"
        self.assertEqual(self.offered(facts / "laboratory.json")["job, laboratory"], "Example Calibration Laboratory")
        self.look("form")
        self.browser.click_named("#template-rows label", "evaluation, coverage")
        self.browser.one("#template-fill").click()
        self.browser.wait(lambda: "entries from laboratory.json" in self.browser.words("#changes"), "what was filled in")
        given, expected = json.loads((facts / "laboratory.json").read_text()), json.loads(document.read_text())
        expected["job"] |= {key: value for key, value in given["job"].items() if key != "data_notice"}  # which stands there
        expected |= {"environment": given["environment"], "evaluation": {key: value for key, value in given["evaluation"].items() if key != "coverage"}}
        self.assertEqual(json.loads(self.saved_document("visit.json")), expected)
        self.browser.go("#form")
        self.browser.one("#from-file").send_keys(str(facts / "machine-D-0012.json"))
        self.browser.wait(lambda: "gives nothing" in self.browser.words("#template-told"), "that another machine's card is not this one's")
        visit = self.offered(samples / "short-axis.json")
        self.assertIn("machine, kind", visit)
        for found_there in ("machine, condition", "environment, samples", "setup, checks", "job, measured", "job, number", "job, remarks"):
            self.assertNotIn(found_there, visit)
        self.browser.one("#template-leave").click()
        self.browser.one("#undo-change").click()
        self.browser.wait(lambda: not self.browser.one("#changes-box").is_displayed(), "that it was undone")
        self.assertEqual(self.saved_document("visit.json"), document.read_text())
        self.assert_quiet()

    def test_work_survives_a_reload_until_it_is_discarded(self):
        self.browser.choose(samples / "smallest.json")
        self.browser.wait_screen("soundness")
        said = self.browser.words("#h-soundness")
        self.browser.driver.refresh()
        self.browser.wait(lambda: self.browser.words("#h-soundness") == said, "the same findings after a reload")
        self.browser.go("#form")
        self.browser.wait(lambda: self.field("Number"), "the form")
        self.field("Number").send_keys("WF-8", Keys.TAB)
        self.browser.wait(lambda: "WF-8" in self.browser.words("#changes"), "the change")
        self.assertRegex(self.browser.words("#kept"), r"^Kept in this browser, \d\d:\d\d$")
        self.browser.wait(lambda: self.browser.words("#job-name") == "WF-8", "the name of the job")
        self.browser.driver.refresh()
        self.browser.wait(lambda: self.field("Number").get_attribute("value") == "WF-8", "what was typed, after a reload")
        self.browser.go("#start")
        self.browser.choose(samples / "two-axes.json")
        self.browser.wait_screen("soundness")
        self.browser.go("#start")
        self.browser.wait(lambda: [link.text for link in self.browser.all("#jobs a")] == ["WF-1805", "WF-8"], "both jobs, the latest first")
        self.look("start")
        next(button for button in self.browser.all("#jobs button") if "WF-8" in button.accessible_name).click()
        self.browser.wait(lambda: "WF-8 was discarded" in self.browser.words("#discarded"), "that it is gone")
        self.look("start")
        self.browser.one("#bring-back").click()
        self.browser.wait(lambda: len(self.browser.all("#jobs a")) == 2, "that it is back")
        self.browser.click_named("#jobs a", "WF-8")
        self.browser.wait_screen("soundness")
        self.browser.go("#form")
        self.browser.wait(lambda: self.browser.one("#undo-change").is_displayed(), "how to undo")
        self.browser.one("#undo-change").click()
        self.browser.wait(lambda: self.field("Number").get_attribute("value") == "", "the entry as it came")
        self.assertEqual(self.saved_document("smallest.json"), (samples / "smallest.json").read_text())
        self.browser.one("#discard-this").click()
        self.browser.wait(lambda: [link.text for link in self.browser.all("#jobs a")] == ["WF-1805"], "the other job")
        self.browser.driver.refresh()
        self.browser.wait(lambda: len(self.browser.all("#jobs a")) == 1, "nothing of the discarded one")
        self.assertFalse(self.browser.one("#discarded").is_displayed())
        self.assert_quiet()

    def test_of_two_windows_on_one_job_the_later_one_reads_only(self):
        self.at_the_form(samples / "smallest.json")
        driver, first = self.browser.driver, self.browser.driver.current_window_handle
        driver.switch_to.new_window("tab")
        self.browser.go("#form")
        self.browser.wait(lambda: "open in another window" in self.browser.words("#reads-only"), "that another window is at it")
        self.browser.wait(lambda: not self.field("Number").is_enabled(), "a form that is only read")
        self.look("form")
        second = driver.current_window_handle
        driver.switch_to.window(first)
        self.field("Number").send_keys("WF-9", Keys.TAB)
        self.browser.wait(lambda: self.browser.words("#job-name") == "WF-9", "the change in the first window")
        driver.close()
        driver.switch_to.window(second)
        self.browser.wait(lambda: not self.browser.one("#reads-only").is_displayed(), "that it goes on here")
        self.browser.wait(lambda: self.field("Number").get_attribute("value") == "WF-9", "what was typed there")
        self.field("Title").send_keys("Here", Keys.TAB)
        self.browser.wait(lambda: "Here" in self.browser.words("#changes"), "a change here")
        self.assert_quiet()

    def test_without_locks_the_later_change_is_refused_and_overwrites_nothing(self):
        driver = self.browser.driver
        def without_locks():
            driver.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {"source": "Object.defineProperty(Navigator.prototype, 'locks', {value: undefined});"})
        without_locks()
        driver.refresh()
        self.at_the_form(samples / "smallest.json")
        first = driver.current_window_handle
        driver.switch_to.new_window("tab")
        without_locks()
        self.browser.go("#form")
        self.browser.wait(lambda: self.field("Number").is_enabled(), "a form that seems free")
        second = driver.current_window_handle
        driver.switch_to.window(first)
        self.field("Number").send_keys("WF-9", Keys.TAB)
        self.browser.wait(lambda: self.browser.words("#job-name") == "WF-9", "the change in the first window")
        driver.switch_to.window(second)
        self.field("Number").send_keys("WF-4", Keys.TAB)
        self.browser.wait(lambda: "has changed this job since" in self.browser.words("#reads-only"), "that the other was first")
        driver.refresh()
        self.browser.wait(lambda: self.field("Number").get_attribute("value") == "WF-9", "what the first window has kept")

    def test_two_changes_at_once_are_both_kept(self):
        self.at_the_form(samples / "smallest.json")
        self.browser.driver.execute_script("""for (const [label, text] of [["Number", "WF-3"], ["Title", "Both"], ["Order", "third"]]) {
            const box = [...document.querySelectorAll("#topics .field")].find((one) => one.querySelector("label").textContent === label);
            box.input.value = text;
            box.input.dispatchEvent(new Event("change"));
        }""")
        self.browser.wait(lambda: len(self.browser.all("#changes li")) == 3, "three changes")
        job = json.loads(self.saved_document("smallest.json"))["job"]
        self.assertEqual([job[key] for key in ("number", "title", "order")], ["WF-3", "Both", "third"])
        self.assert_quiet()

    def test_the_form_stands_on_what_is_no_job_and_shows_all_digits(self):
        wrong = {"format": "wayfolio-result", "version": 1, "job": "text", "machine": {"axes": {}}, "instruments": [1, None], "series": [],
                 "evaluation": {"monte_carlo": {"seed": 18446744073709551615}}, "environment": {"samples": [{"machine_C": {"X_C": 20.5}}]}}
        document = pathlib.Path(self.folder.name, "wrong.json")
        document.write_text(json.dumps(wrong))
        self.browser.choose(document)
        self.browser.wait_screen("faults")
        self.browser.go("#form")
        self.browser.wait(lambda: self.browser.one("#topics .field"), "the form")
        for _ in range(4):  # what is opened holds more to open
            self.browser.driver.execute_script("for (const box of document.querySelectorAll('#topics details')) box.open = true")
            self.browser.wait(lambda: not self.browser.driver.execute_script("return [...document.querySelectorAll('#topics details[open] > .fields')].some((one) => !one.firstChild)"), "what it holds")
        self.look("form")
        self.assertEqual(self.field("Seed").get_attribute("value"), "18446744073709551615")
        self.assertEqual(self.field("X_C").get_attribute("value"), "20.5", "a name that the document chose is no unit")
        self.field("Number").send_keys("WF-2", Keys.TAB)
        self.browser.wait(lambda: "job" not in [link.text for link in self.browser.all("#form-faults a")], "a job in the place of the text")
        wrong["job"] = {"number": "WF-2"}
        self.browser.go("#faults")
        self.browser.wait(lambda: '"WF-2"' in self.browser.words("#lines"), "the text")
        self.assertEqual(json.loads("\n".join(line.text.split("\n")[-1].lstrip("1 ") for line in self.browser.all("#lines li"))), wrong)
        self.assert_quiet()

    def test_a_browser_that_refuses_to_keep_says_so(self):
        self.keeps_nothing("() => { throw new DOMException('refused', 'SecurityError'); }")

    def test_a_browser_that_never_answers_what_it_keeps_holds_nothing_up(self):
        # As Chromium does where a page was left in the middle of opening: the job waited for ever, and nothing was said.
        self.keeps_nothing("() => ({})")

    def keeps_nothing(self, opening):
        self.browser.driver.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {"source": f"IDBFactory.prototype.open = {opening};"})
        self.browser.driver.refresh()
        self.browser.wait(lambda: "does not show what it keeps" in self.browser.words("#no-jobs"), "that no job can be shown")
        self.browser.choose(samples / "smallest.json")
        self.browser.wait(lambda: "refuses to keep" in self.browser.words("#notice"), "that nothing is kept")
        self.browser.wait_screen("soundness")
        self.assertEqual(self.browser.words("#kept"), "Not kept")
        self.look("soundness")

    def test_from_drop_to_report_by_the_keyboard_alone(self):
        self.browser.choose(samples / "smallest.json")  # a dialog of the system is nobody's page
        self.browser.wait_screen("soundness")
        self.browser.tab_to("On to the job")
        self.browser.press(Keys.ENTER)
        self.browser.wait(lambda: self.browser.one("#topics .field"), "the form")
        self.browser.tab_to("Number")
        self.browser.press("WF-6", Keys.TAB)
        self.browser.wait(lambda: "WF-6" in self.browser.words("#changes"), "the change")
        self.browser.one("#main").send_keys("")  # from the top again, as the link to the content leads there
        self.browser.tab_to("Machine", most=120)
        self.browser.press(Keys.ENTER)
        self.browser.tab_to("Serial")
        self.browser.press("EX-6", Keys.TAB)
        self.browser.wait(lambda: "EX-6" in self.browser.words("#changes"), "the change in what was opened")
        self.browser.tab_to("Undo the last", most=120)
        self.browser.press(Keys.ENTER)
        self.browser.wait(lambda: "EX-6" not in self.browser.words("#changes"), "that it was undone")
        self.browser.go("#figures")
        self.browser.wait(lambda: self.browser.one("#values button").is_displayed(), "the readings")
        self.browser.tab_to("Target 1 of 3")
        self.browser.press(Keys.ARROW_RIGHT)
        self.assertIn("Target 2 of 3", self.browser.words("#at"))
        self.browser.tab_to("Set aside: run 1, positive")
        self.browser.press(Keys.ENTER)
        self.assertEqual(self.browser.driver.switch_to.active_element.get_attribute("id"), "reason")
        self.browser.press(Keys.ESCAPE)
        self.assertIn("Set aside: run 1, positive", self.browser.driver.switch_to.active_element.accessible_name, "back where it came from")
        self.browser.press(Keys.ENTER)
        self.browser.press("door opened", Keys.ENTER)
        self.browser.wait(lambda: self.browser.driver.switch_to.active_element.get_attribute("id") == "undo", "that it was set aside")
        self.browser.go("#pages")
        self.browser.wait(lambda: self.browser.one(".sheet[src]"), "a drawn page")
        self.browser.tab_to("What is in it")
        self.browser.press("summary")
        self.browser.wait(lambda: self.browser.words("#h-pages").startswith("1 page,"), "the summary, one page")
        self.browser.tab_to("Deliver")
        self.browser.press(Keys.ENTER)
        self.browser.wait_screen("deliver")
        self.browser.tab_to("Save the report")
        self.browser.press(Keys.ENTER)
        self.browser.wait_saved("smallest.pdf", "the saved report")
        self.assert_quiet()

    def test_a_slow_network_is_waited_for(self):
        self.browser.driver.set_network_conditions(offline=False, latency=400, download_throughput=20_000, upload_throughput=20_000)
        self.browser.choose(samples / "short-axis.json")
        self.browser.wait(lambda: "Checking short-axis.json" in self.browser.words("#reading"), "what is waited for")
        self.browser.wait_screen("soundness")
        self.browser.go("#form")
        self.browser.wait(lambda: self.field("Order"), "the form")
        self.field("Order").send_keys(" first", Keys.TAB)
        self.field("Place").send_keys(" second", Keys.TAB)  # before the first has been answered
        self.browser.go("#pages")
        self.browser.wait(lambda: self.browser.words("#h-pages") == "Drawing the report.", "that it is drawn")
        self.browser.driver.set_network_conditions(offline=False, latency=0, download_throughput=-1, upload_throughput=-1)
        self.browser.wait(lambda: "first" in self.browser.driver.execute_script("return document.querySelector('#sheets').textContent"), "the pages")
        saved = json.loads(self.saved_document("short-axis.json"))["job"]
        self.assertTrue(saved["order"].endswith(" first") and saved["place"].endswith(" second"), "both are there")
        self.assertFalse(self.browser.one("#lost").is_displayed())
        self.assert_quiet()

    def test_a_service_that_goes_away_loses_nothing_and_all_goes_on_when_it_is_back(self):
        self.at_the_form(samples / "smallest.json")
        port = self.server.port
        self.server.end()
        self.field("Number").send_keys("WF-5", Keys.TAB)
        self.browser.wait(lambda: f"127.0.0.1:{port} does not answer since" in self.browser.words("#lost"), "that the service is away")
        self.browser.wait(lambda: "has not looked at it yet" in self.browser.words("#h-form"), "that what was lacking before the change is not told as lacking now")
        self.look("form")
        self.field("Title").send_keys("Written meanwhile", Keys.TAB)
        self.browser.one("#lost-save").click()
        saved = self.browser.wait_saved("smallest.json", "the document, without the service")
        self.assertEqual({key: json.loads(saved.read_text())["job"][key] for key in ("number", "title")}, {"number": "WF-5", "title": "Written meanwhile"})
        self.browser.go("#pages")
        self.browser.wait(lambda: "cannot be reached" in self.browser.words("#h-pages"), "why there are no pages")
        self.look("pages")
        again = Server(program, port=port)
        self.addCleanup(again.__exit__)
        self.browser.wait(lambda: self.browser.one(".sheet[src]"), "the pages, without a hand on the page")
        self.assertFalse(self.browser.one("#lost").is_displayed())
        self.assertIn("Written meanwhile", self.browser.driver.execute_script("return document.querySelector('#sheets').textContent"))
        self.assertEqual(self.browser.words("#job-name"), "WF-5")


if __name__ == "__main__":
    run()
