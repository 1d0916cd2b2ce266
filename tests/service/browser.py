"""The page in Debian's Chromium, as a person has it: files are chosen from the disk, keys pressed, what stands there is read."""
import os
import pathlib
import tempfile

from selenium import webdriver
from selenium.webdriver import ActionChains
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import Select, WebDriverWait

UNNAMED = {"button", "link", "textbox", "combobox", "slider", "checkbox", "radio", "image", "region", "table"}


class Browser:
    """A fresh profile; Debian's own driver, so that nothing is fetched."""

    def __init__(self, port):
        self.home = f"http://127.0.0.1:{port}/"
        self.folder = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        self.saved = pathlib.Path(self.folder.name, "saved")
        self.saved.mkdir()
        options = Options()
        options.binary_location = "/usr/bin/chromium"
        # A container lets no browser build its own sandbox, and has little shared memory; nothing but this page is opened.
        for word in ("--headless=new", "--no-sandbox", "--disable-dev-shm-usage", "--disable-gpu", f"--user-data-dir={self.folder.name}/profile"):
            options.add_argument(word)
        options.add_experimental_option("prefs", {"download.default_directory": str(self.saved)})
        options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
        self.driver = webdriver.Chrome(service=Service("/usr/bin/chromedriver"), options=options)
        self.go("")

    def go(self, place):
        self.driver.get(self.home + place)

    def one(self, selector):
        return self.driver.find_element(By.CSS_SELECTOR, selector)

    def all(self, selector):
        return self.driver.find_elements(By.CSS_SELECTOR, selector)

    def words(self, selector):
        return self.one(selector).text

    def wait(self, holds, what, seconds=60):
        WebDriverWait(self.driver, seconds, 0.05, ignored_exceptions=[Exception]).until(lambda _: holds(), f"never seen: {what}")

    def wait_saved(self, name, what):
        """Where a saved file lies, whole: Chromium makes an empty one of its name first, for its permissions, and moves the filled one over it."""
        saved = self.saved / name
        self.wait(lambda: saved.stat().st_size > 0, what)
        return saved

    def wait_screen(self, name):
        self.wait(lambda: self.one(f"[data-screen={name}]").is_displayed(), f"the screen {name}")

    def click_named(self, selector, begin):
        """The one of these that begins so, as soon as it is there to be seen."""
        named = lambda: next(element for element in self.all(selector) if element.text.startswith(begin))
        self.wait(named, begin)
        named().click()

    def choose(self, *files):
        """As the dialog for files does; the page's drop area takes the same way in the script."""
        self.one("#files").send_keys("\n".join(map(str, files)))

    def fill(self, question, said, group=""):
        """Answers a question in the group whose title begins so: by a choice's words, or in words."""
        for box in self.all("fieldset"):
            if box.find_element(By.TAG_NAME, "legend").text.startswith(group):
                for label in box.find_elements(By.TAG_NAME, "label"):
                    if question in label.text:
                        field = self.one("#" + label.get_attribute("for"))
                        if field.tag_name == "select":
                            Select(field).select_by_visible_text(said)
                        else:
                            field.send_keys(said, Keys.TAB)
                        return field
        raise AssertionError(f"nobody asks {question!r} in {group!r}")

    def press(self, *keys):
        active = self.driver.switch_to.active_element
        if active.get_attribute("type") == "file":  # it would take the keys for the name of a file
            ActionChains(self.driver).send_keys(*keys).perform()
        else:
            active.send_keys(*keys)

    def tab_to(self, words, most=60):
        """By the keyboard alone, as far as a control that is called so; every stop on the way has to be seen."""
        for _ in range(most):
            self.press(Keys.TAB)
            active = self.driver.switch_to.active_element
            if not active.is_displayed() and active.get_attribute("type") != "file":
                raise AssertionError(f"focus is on what cannot be seen: {active.get_attribute('outerHTML')[:200]}")
            if active.tag_name != "body" and words in active.accessible_name:
                return active
        raise AssertionError(f"no way by keyboard to {words!r}")

    def width(self, pixels):
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {"width": pixels, "height": 900, "deviceScaleFactor": 1, "mobile": False})

    def overflow(self):
        return self.driver.execute_script("return document.documentElement.scrollWidth - document.documentElement.clientWidth")

    def unnamed_controls(self):
        """What a screen reader would meet without a name."""
        nodes = self.driver.execute_cdp_cmd("Accessibility.getFullAXTree", {})["nodes"]
        return [node["role"]["value"] for node in nodes
                if not node.get("ignored") and node["role"]["value"] in UNNAMED and not node.get("name", {}).get("value")]

    def assert_accessible(self, what):
        """No rule of axe-core is broken, light and dark: where AXE_CORE names its script, which is no part of this project."""
        if "AXE_CORE" not in os.environ:
            return
        if not self.driver.execute_script("return Boolean(window.axe)"):
            self.driver.execute_script(pathlib.Path(os.environ["AXE_CORE"]).read_text())
        for scheme in ("dark", "light"):
            self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": scheme}]})
            found = self.driver.execute_async_script("""const done = arguments[0], tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
                axe.run(document, {runOnly: tags}).then(({violations}) => done(violations.map(({id, nodes}) => id + ": " + nodes[0].html)));""")
            if found:
                raise AssertionError(f"{what}, {scheme}: {found}")

    def complaints(self):
        """What the console holds: errors of the script, and whatever the policy of the page refused."""
        return [entry["message"] for entry in self.driver.get_log("browser") if entry["level"] in ("SEVERE", "WARNING")]

    def end(self):
        self.driver.quit()
        self.folder.cleanup()
