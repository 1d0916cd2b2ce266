#!/usr/bin/env python3
"""Batches on the page, walked in Chromium: posted by dropping documents, followed, cancelled, their results saved.

    page_batches_test.py PROGRAM SOURCE_FOLDER
"""
import json
import pathlib

from page import PageTest, program, run, samples
from selenium.webdriver.common.keys import Keys
from server import Server


class Batches(PageTest):
    def at(self, *more, port=0):
        server = Server(program, "--batches", str(pathlib.Path(self.folder.name, "batches.sqlite")), *more, port=port)
        self.addCleanup(server.__exit__)
        self.browser.home = f"http://127.0.0.1:{server.port}/"
        self.browser.go("")
        return server

    def documents(self, count, sample="smallest.json"):
        document = json.loads((samples / sample).read_text())
        files = []
        for number in range(count):
            document["job"].update(number=f"K-{number}")
            files.append(self.file(f"k-{number}.json", json.dumps(document)))
        return files

    def sentence(self, words):
        self.browser.wait(lambda: words in self.browser.words("#h-batch"), words)

    def test_documents_that_are_dropped_together_are_drawn_and_each_outcome_stands_there(self):
        server = self.at()
        self.browser.wait(lambda: self.browser.one("#to-batches").is_displayed(), "the way to batches")
        faulty = self.file("faulty.json", "{}")
        self.browser.choose(*self.documents(3), faulty)
        self.browser.wait_screen("batch")
        self.sentence("4 jobs: 3 drawn, 1 faulty.")
        self.browser.wait(lambda: len(self.browser.all("#batch-results tr")) == 4, "all outcomes")
        self.look("batch")
        self.assertFalse(self.browser.one("#cancel-batch").is_displayed(), "nothing is left to cancel")
        told = next(row.text for row in self.browser.all("#batch-results tr") if row.text.startswith("faulty"))
        self.assertIn('no key "format"', told)
        self.browser.click_named("#batch-results button", "Save k-1.pdf")
        saved = self.browser.wait_saved("k-1.pdf", "the saved report")
        self.assertEqual(saved.read_bytes(), server.post("/v1/report", pathlib.Path(self.folder.name, "k-1.json").read_bytes()).body)
        self.browser.one("#save-results").click()
        results = self.browser.wait_saved("results.jsonl", "the saved results")
        self.assertEqual([json.loads(line)["name"] for line in results.read_text().splitlines()], ["k-0", "k-1", "k-2", "faulty"])
        self.browser.driver.refresh()
        self.browser.wait(lambda: len(self.browser.all("#batch-results tr")) == 4, "the same after a reload")
        self.browser.go("#batches")
        self.browser.wait(lambda: "1 batch, all ended." in self.browser.words("#h-batches"), "the list")
        self.look("batches")
        self.browser.tab_to(self.browser.words("#batches a"))
        self.browser.press(Keys.ENTER)
        self.browser.wait_screen("batch")
        self.browser.wait(lambda: self.browser.one("#forget-batch").is_displayed(), "that it can be forgotten")
        self.browser.one("#forget-batch").click()
        self.assertIn("Press once more", self.browser.words("#forget-batch"))
        self.look("batch")
        self.assertEqual(len(server.ask("GET", "/v1/batches").json["batches"]), 1, "one press forgets nothing")
        self.browser.one("#forget-batch").click()
        self.browser.wait(lambda: "No batch was posted yet." in self.browser.words("#h-batches"), "that it is forgotten")
        self.assertEqual(server.ask("GET", "/v1/batches").json["batches"], [])
        self.assert_quiet()

    def test_a_batch_is_followed_as_it_goes_on_and_cancelled(self):
        server = self.at("--workers", "1")
        self.browser.choose(*self.documents(40, "long-axis.json"))
        self.browser.wait_screen("batch")
        self.browser.wait(lambda: self.browser.all("#batch-results tr"), "the first outcome, as it comes")
        self.assertFalse(self.browser.one("#forget-batch").is_displayed(), "what is at work is not forgotten")
        self.browser.one("#cancel-batch").click()
        self.browser.wait(lambda: not self.browser.one("#cancel-batch").is_displayed(), "that it has ended")
        self.look("batch")
        [batch] = server.ask("GET", "/v1/batches").json["batches"]
        self.assertTrue(batch["ended"])
        self.sentence(f"40 jobs: {batch['done']} drawn, {batch['cancelled']} cancelled.")
        self.browser.wait(lambda: len(self.browser.all("#batch-results tr")) == batch["done"], "what was drawn stays")
        self.assert_quiet()

    def test_a_service_that_goes_away_says_so_and_the_batch_is_followed_when_it_is_back(self):
        server = self.at("--workers", "1")
        self.browser.choose(*self.documents(24, "long-axis.json"))
        self.browser.wait(lambda: self.browser.all("#batch-results tr"), "the first outcome")
        port = server.port
        server.end()
        self.browser.wait(lambda: "does not answer" in self.browser.words("#lost"), "that the service is away")
        again = Server(program, "--batches", str(pathlib.Path(self.folder.name, "batches.sqlite")), port=port)
        self.addCleanup(again.__exit__)
        self.sentence("24 jobs: 24 drawn.")
        self.browser.wait(lambda: len(self.browser.all("#batch-results tr")) == 24, "all outcomes, each once")

    def test_with_a_token_it_is_followed_too_and_without_batches_nothing_is_offered(self):
        self.assertFalse(self.browser.one("#to-batches").is_displayed())
        self.browser.go("#batches")
        self.browser.wait(lambda: "takes no batches" in self.browser.words("#h-batches"), "why there are none")
        self.look("batches")
        self.browser.go("#start")
        self.browser.choose(*self.documents(3))
        self.browser.wait(lambda: self.browser.one("#refused").is_displayed(), "that three are too many here")
        self.at("--token-file", str(self.file("token", "an-invented-token-of-this-test")))
        self.browser.go("#batches")
        self.browser.wait_screen("token")
        self.browser.one("#token").send_keys("an-invented-token-of-this-test", Keys.ENTER)
        self.browser.wait_screen("batches")
        self.browser.choose(*self.documents(3))
        self.sentence("3 jobs: 3 drawn.")


if __name__ == "__main__":
    run()
