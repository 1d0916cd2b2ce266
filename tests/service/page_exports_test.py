#!/usr/bin/env python3
"""Exports that do not say what they are, walked in Chromium: columns get their roles by hand, workbooks are asked for their sheets.

    page_exports_test.py PROGRAM SOURCE_FOLDER
"""
import json

from page import PageTest, program, run
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import Select
from server import Server
from workbook import workbook

PAST = "past the target, or turned in the positive sense (actual minus target)"

# Two columns of positions, degrees, a column of signs, a head of two lines with the units below, rows that end in empty cells, a line of words.
AWKWARD = [["Invented data"], [], ["Angle", "Encoder", "Sense", "Cycle", "Pitch", "Seen"], ["\u00b0", "\u00b0", "-", "-", "arcsec"],
           ["0", "0.1", "+", "1"], ["90", "90.2", "+", "1", "1.5"], ["90", "90.1", "-", "1", "0.5"], ["0", "0.3", "-", "1", "0.25"]]


class Exports(PageTest):
    def give(self, column, role):
        self.browser.wait(lambda: self.column(column), column)
        self.column(column).select_by_visible_text(role)
        self.browser.wait(lambda: self.role(column) == role and "said by hand" in self.browser.words("#columns"), f"{column} as {role}")

    def said(self):
        return [item.text for item in self.browser.all("#said li")]

    def answer(self, *answers):
        for question, said, group in answers:
            self.browser.fill(question, said, group)

    def use(self):
        self.assertIn("every column is decided", self.browser.words("#h-readings"))
        self.browser.one("#use").click()
        self.browser.wait_screen("soundness")

    def runs(self, name):
        return [[(run["approach"], run["deviations"]) for run in series["runs"]] for series in json.loads(self.saved_document(name))["series"]]

    def test_the_columns_of_an_awkward_sheet_get_their_roles_by_hand(self):
        self.browser.choose(self.file("swivel.xlsx", workbook({"Swivel": AWKWARD})))
        self.browser.wait_screen("readings")
        self.give("column 1, Angle [\u00b0]", "target position")
        self.give("column 2, Encoder [\u00b0]", "is not read")
        self.give("column 3, Sense", "approach")
        self.look("readings")
        self.answer(("Which error", "ECC: positioning of C", "swivel.xlsx: column 5, Pitch"), ("positive reading", PAST, "swivel.xlsx: column 5"))
        self.assertEqual(len(self.said()), 3)
        self.browser.driver.refresh()
        self.browser.wait(lambda: self.role("column 3, Sense") == "approach", "what was said, after a reload")
        self.assertIn("every column is decided", self.browser.words("#h-readings"))
        self.browser.one("#undo-said").click()
        self.browser.wait(lambda: self.role("column 3, Sense") == "is not read", "that it was undone")
        self.assertIn("From which side", self.browser.words("#questions"))
        self.assertEqual(len(self.said()), 2)
        self.give("column 3, Sense", "approach")
        self.use()
        self.assertEqual(self.runs("swivel.json"), [[("positive", [None, 1.5]), ("negative", [0.25, 0.5])]])
        [series] = json.loads(self.saved_document("swivel.json"))["series"]
        self.assertEqual((series["position_unit"], series["unit"], series["targets"]), ("deg", "arcsec", [0, 90]))
        self.assert_quiet()

    def test_an_answer_outlasts_another_role_and_what_one_column_alone_can_be_is_no_other(self):
        rows = ["0;0.0;+;1;0.5", "5;5.0;+;1;1.5", "5;5.0;-;1;1.0", "0;0.0;-;1;0.4"]
        self.browser.choose(self.file("two.csv", "\n".join(["Target [mm];Position [mm];Dir;Run;EXX [um]", *rows]) + "\n"))
        self.browser.wait_screen("readings")
        self.assertIn("another column is taken", self.role("column 2, Position [mm]"))
        self.answer(("positive reading", PAST, "two.csv: EXX"))
        self.give("column 2, Position [mm]", "target position")
        self.assertIn("another column is taken", self.role("column 1, Target [mm]"))
        self.give("column 1, Target [mm]", "target position")
        self.assertIn("another column is taken", self.role("column 2, Position [mm]"))
        self.assertIn("every column is decided", self.browser.words("#h-readings"), "the answer is still there")
        self.browser.one("#keep-mapping").click()
        mapping = self.browser.wait_saved("mapping.json", "the saved mapping")
        self.assertEqual(json.loads(mapping.read_text())["exports"][0]["position"], {"column": "Target [mm]"})
        self.use()
        self.assert_quiet()

    def test_by_arrow_keys_a_column_goes_through_its_roles_and_takes_nothing_from_another_on_the_way(self):
        self.browser.choose(self.file("swivel.xlsx", workbook({"Swivel": AWKWARD})))
        self.browser.wait_screen("readings")
        self.give("column 1, Angle [\u00b0]", "target position")
        self.browser.tab_to("column 3, Sense", most=120)
        for role, angle in (("target position", "readings, error open, in deg"), ("approach", "target position")):
            self.browser.press(Keys.ARROW_DOWN)
            self.browser.wait(lambda: self.role("column 3, Sense") == role and self.role("column 1, Angle [\u00b0]") == angle, role)
            self.browser.wait(lambda: "column 3, Sense" in self.browser.driver.switch_to.active_element.accessible_name, "that focus stays")
        self.assertEqual(len(self.said()), 2)
        self.browser.tab_to("Undo the last", most=120)
        self.browser.press(Keys.ENTER)
        self.browser.wait(lambda: self.role("column 3, Sense") == "is not read", "that it was undone")
        self.assertEqual(self.role("column 1, Angle [\u00b0]"), "target position")
        self.assert_quiet()

    def test_the_target_positions_are_asked_for_as_a_column(self):
        rows = ["0;0.5;0.6", "5;1.5;1.6"]
        self.browser.choose(self.file("bare.csv", "\n".join(["Place;A;B", *rows]) + "\n"))
        self.browser.wait_screen("readings")
        self.browser.fill("Which column has the target positions?", "column 1, Place", "bare.csv")
        self.browser.wait(lambda: self.role("column 1, Place") == "target position", "the role")
        self.give("column 2, A", "readings: one run, positive approach")
        self.give("column 3, B", "readings: one run, negative approach")
        self.answer(*((question, said, "bare.csv: A, B") for question, said in
                      (("Which error", "EXX: positioning of X"), ("In which unit are the readings", "\u00b5m"), ("In which unit are the positions", "mm"), ("positive reading", PAST))))
        self.use()
        self.assertEqual(self.runs("bare.json"), [[("positive", [0.5, 1.5]), ("negative", [0.6, 1.6])]])
        self.assert_quiet()

    def read_as(self, what):
        return next(select for select in self.browser.all(".read-as select") if select.accessible_name.startswith(what))

    def test_how_a_text_is_read_is_told_and_said_by_hand_where_it_was_seen_wrong(self):
        text = "Target [mm];Dir;Run;EXX [\u00b5m]\n0;+;1;1,234\n5;+;1;2,345\n5;-;1;0,5\n0;-;1;1,25\n"
        self.browser.choose(self.file("comma.csv", text.encode("latin-1")))
        self.browser.wait_screen("readings")
        self.assertIn("Read as: semicolons between columns, a comma before decimals, Latin-1, readings from line 2 on.", self.browser.words("#columns"))
        self.browser.one(".read-as summary").click()
        self.look("readings")
        Select(self.read_as("Between columns")).select_by_visible_text("commas")
        self.browser.wait(lambda: "Read as: commas between columns" in self.browser.words("#columns"), "other columns")
        self.look("readings")
        self.assertEqual(self.said(), ["comma.csv: between columns commas"])
        self.browser.driver.refresh()
        self.browser.wait(lambda: "Read as: commas between columns" in self.browser.words("#columns"), "what was said, after a reload")
        Select(self.read_as("Between columns")).select_by_visible_text("vertical bars")
        self.browser.wait(lambda: "no rows of numbers in columns" in self.browser.words("#export-faults"), "that there are no columns then")
        self.assertIn("Read as: commas between columns", self.browser.words("#columns"), "what is refused leaves all as it was")
        self.assertEqual(len(self.browser.complaints()), 1, "of the refusal")
        self.browser.one("#undo-said").click()
        self.browser.wait(lambda: "Read as: semicolons" in self.browser.words("#columns"), "that it was undone")
        self.answer(("positive reading", PAST, "comma.csv: EXX"))
        self.use()
        self.assertEqual(self.runs("comma.json"), [[("positive", [1.234, 2.345]), ("negative", [1.25, 0.5])]])
        self.assert_quiet()

    def test_a_file_of_which_nothing_is_read_is_left_out_and_where_nothing_is_left_that_is_said(self):
        self.browser.choose(self.file("x.csv", "Target [mm];Dir;Run;EXX [um]\n0;+;1;0.5\n5;+;1;1.5\n5;-;1;0.5\n"), self.file("list.csv", "Number;Piece\n1;4711\n2;4712\n"))
        self.browser.wait_screen("readings")
        for column in ("column 1, Number", "column 2, Piece"):
            self.give(column, "is not read")
        self.browser.wait(lambda: "nothing of it is read" in self.browser.words("#columns"), "that it is left out")
        self.answer(("positive reading", PAST, "x.csv: EXX"))
        self.look("readings")
        self.use()
        self.assertIn("list.csv", self.browser.words("#account-box"))
        self.assertEqual(self.runs("readings.json"), [[("positive", [0.5, 1.5]), ("negative", [None, 0.5])]])
        self.browser.go("#readings")
        self.browser.wait_screen("readings")
        self.give("column 4, EXX [um]", "is not read")
        self.browser.wait(lambda: "No column is taken for readings" in self.browser.words("#h-readings"), "that nothing is left")
        self.browser.one("#use").click()
        self.assertEqual(self.browser.driver.switch_to.active_element.tag_name, "select")
        self.look("readings")
        self.assert_quiet()

    def sheet(self, file, name):
        return next(box for box in self.browser.all("#questions input[type=checkbox]") if box.get_attribute("data-key") == f"sheet {file} {name}")

    def test_a_workbook_is_asked_which_of_its_sheets_are_read(self):
        head, rows = "Target [mm];Direction;Run".split(";"), [["0", "+", "1", "0.5"], ["5", "+", "1", "1.5"], ["5", "-", "1", "1.0"], ["0", "-", "1", "0.4"]]
        book = {"Along": [[*head, "EXX [um]"], *rows], "Across": [[*head, "EYX [um]"], *rows], "Notes": [["seen by", "nobody"]]}
        self.browser.choose(self.file("book.xlsx", workbook(book)))
        self.browser.wait_screen("readings")
        self.assertIn("1 answer is needed", self.browser.words("#h-readings"))
        self.look("readings")
        self.browser.one("#use").click()  # leads to what is open
        self.assertEqual(self.browser.driver.switch_to.active_element.get_attribute("data-key"), "sheet book.xlsx Along")
        self.browser.press(Keys.SPACE)
        self.browser.wait(lambda: "book.xlsx, sheet Along" in self.browser.words("#columns"), "its columns")
        self.assertEqual(self.browser.driver.switch_to.active_element.get_attribute("data-key"), "sheet book.xlsx Along", "focus stays")
        self.sheet("book.xlsx", "Across").click()
        self.browser.wait(lambda: "book.xlsx, sheet Across" in self.browser.words("#columns"), "the columns of the other")
        self.answer(("positive reading", PAST, "book.xlsx, sheet Along: EXX"), ("positive reading", PAST, "book.xlsx, sheet Across: EYX"))
        self.look("readings")
        self.browser.driver.refresh()
        self.browser.wait(lambda: "every column is decided" in self.browser.words("#h-readings"), "the answers after a reload")
        self.browser.one("#undo-said").click()
        self.browser.wait(lambda: "sheet Across" not in self.browser.words("#columns"), "one sheet less")
        self.sheet("book.xlsx", "Across").click()
        self.browser.wait(lambda: "every column is decided" in self.browser.words("#h-readings"), "the answer is still there")
        self.use()
        self.assertEqual(self.runs("book.json"), [[("positive", [0.5, 1.5]), ("negative", [0.4, 1.0])]] * 2)
        self.assert_quiet()

    def test_a_sheet_without_readings_is_told_and_leaves_all_as_it_was(self):
        rows = [["Target [mm]", "Run", "EXX [um]"], ["0", "1", "0.5"], ["5", "1", "1.5"]]
        self.browser.choose(self.file("book.xlsx", workbook({"Along": rows, "Notes": [["seen by", "nobody"]]})))
        self.browser.wait_screen("readings")
        self.sheet("book.xlsx", "Notes").click()
        self.browser.wait(lambda: "no rows of numbers" in self.browser.words("#export-faults"), "what is wrong")
        self.assertFalse(self.sheet("book.xlsx", "Notes").is_selected())
        self.look("readings")
        self.sheet("book.xlsx", "Along").click()
        self.browser.wait(lambda: "sheet Along" in self.browser.words("#columns"), "its columns")
        self.assertEqual(self.browser.words("#export-faults"), "")
        self.server.end()
        self.column("column 2, Run").select_by_visible_text("is not read")
        self.browser.wait(lambda: "cannot be reached" in self.browser.words("#export-faults"), "that the service is away")
        self.assertEqual(self.role("column 2, Run"), "run", "what could not be looked at is not said")
        again = Server(program, port=self.server.port)
        self.addCleanup(again.__exit__)
        self.browser.wait(lambda: not self.browser.one("#lost").is_displayed(), "that it is back")
        self.give("column 2, Run", "is not read")


if __name__ == "__main__":
    run()
