"""What the walks through the page share: a server, a browser at it, and what has to hold of every screen."""
import pathlib
import sys
import tempfile
import unittest

from browser import Browser
from selenium.webdriver.support.ui import Select
from server import Server

program, source = str(pathlib.Path(sys.argv[1]).resolve()), pathlib.Path(sys.argv[2]).resolve()
samples = source / "sample-results"


class PageTest(unittest.TestCase):
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

    def look(self, name):
        """What has to hold of every screen in every state."""
        self.browser.wait_screen(name)
        for pixels in (320, 390, 1440):
            self.browser.width(pixels)
            self.assertLessEqual(self.browser.overflow(), 0, f"{name} is wider than {pixels} px")
            self.browser.assert_accessible(name)
        self.assertEqual(self.browser.unnamed_controls(), [], f"a control of {name} has no name")
        self.assertTrue(self.browser.words(f"[data-screen={name}] h1"), f"{name} has no sentence")

    def assert_quiet(self):
        self.assertEqual(self.browser.complaints(), [])

    def field(self, label):
        """The field of the form that is called so, in what is opened."""
        for box in self.browser.all("#topics .field"):
            if box.is_displayed() and box.find_element("css selector", "label").text == label:
                return box.find_element("css selector", "input, select, textarea")
        raise AssertionError(f"no field {label!r}")

    def column(self, name):
        """The choice of what a column is, by how it is called there."""
        return Select(next(one for one in self.browser.all("#columns select") if one.get_attribute("aria-label").startswith(name + ", of ")))

    def role(self, name):
        return self.column(name).first_selected_option.text

    def told_at(self, field):
        return self.browser.words("#" + field.get_attribute("id") + "-told")

    def at_the_form(self, document):
        self.browser.choose(document)
        self.browser.wait_screen("soundness")
        self.browser.go("#form")
        self.browser.wait(lambda: self.browser.one("#topics .field"), "the form")

    def saved_document(self, name):
        """What the page holds, letter for letter."""
        self.browser.go("#deliver")
        self.browser.wait_screen("deliver")
        self.browser.one("#save-document").click()
        saved = self.browser.wait_saved(name, "the saved document")
        text = saved.read_text()
        saved.unlink()
        return text

    def open(self, place, sentence):
        """By its address, as from a bookmark."""
        self.browser.go("#" + place)
        name = place.split("=")[0]
        self.browser.wait(lambda: sentence in self.browser.words("#h-" + name), sentence)


def run():
    unittest.main(argv=[sys.argv[0], *sys.argv[3:]])
