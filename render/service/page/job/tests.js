/* Every test of the readings with its level and what came of it, and the conditions and checks beside them: as the evaluation has them. */
import { cell, make, made, one, rowHead, rowOf } from "/basics/dom.js";
import { number, unit, words } from "/basics/printed.js";
import { runName } from "/job/figures.js";

const about = {
  trend: "drift from run to run", growth: "a slope that changes from run to run", run_apart: "one run off the others", run_jump: "all runs from one on off those before",
  readings_swapped: "two readings exchanged", missed_count: "a run off from one target on", closure: "reversal that differs between the ends", periodic: "a periodic error",
  outliers: "one reading off the others",
};

const raised = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/* Two digits, as 2.9 × 10⁻³⁷ where it is small. */
function probability(p) {
  if (p >= 0.001) return p.toPrecision(2);
  if (p === 0) return "below what can be computed";
  const [digits, power] = p.toExponential(1).split("e-");
  return `${digits} × 10⁻${[...power].map((digit) => raised[digit]).join("")}`;
}

/* How large it is, whether it was raised or not. */
function size(test, of) {
  const value = test.by ?? test.change ?? test.difference ?? test.amplitude, at = [];
  if (value === undefined) return "";
  if (test.run !== undefined) at.push(runName(of, test.run));
  if (test.target !== undefined) at.push(`target ${test.target + 1}`);
  if (test.targets) at.push(`targets ${test.targets.map((place) => place + 1).join(" and ")}`);
  if (test.period !== undefined) at.push(`period ${number(test.period, 0)} ${unit(test.position_unit)}`);
  return `${at.length && !test.raised ? "largest: " : ""}${number(value, 2)} ${unit(test.unit)}${at.length ? ", " + at.join(", ") : ""}`;
}

function outcome(test, of) {
  if (test.not_evaluated !== undefined) return made("span", "not evaluated: ", test.not_evaluated);
  const told = test.raised ? make("span", "finding", "mark") : make("span", test.p < test.level ? "explained by another finding" : "nothing found");
  return made("div", told, make("p", size(test, of), "grey"));
}

function testRow(key, test, of) {
  const head = rowHead(about[key] ?? words(key), make("p", test.statistic ?? "", "grey"));
  return rowOf(head, cell("p", test.p === undefined ? "" : probability(test.p)), cell("level", test.level === undefined ? "" : probability(test.level)), cell("", outcome(test, of)));
}

const conditionRow = (condition) => rowOf(rowHead(words(condition.name), make("p", condition.text, "grey")), cell("p", ""), cell("level", ""), cell("", condition.holds === null ? "not stated" : condition.holds ? "holds" : make("span", "does not hold", "mark")));

const outcomes = { pass: "holds", fail: "does not hold", not_decided: "not decided" };

function checkRow(check) {
  const told = make("span", outcomes[check.outcome], check.outcome === "fail" ? "mark" : ""), head = rowHead(check.name, make("p", [check.reason, check.common_practice && "limit of common practice"].filter(Boolean).join("; "), "grey"));
  return rowOf(head, cell("p", ""), cell("level", ""), cell("", told));
}

function table(caption, rows) {
  const head = rowOf(...["Test", "p", "level", "outcome"].map((title) => Object.assign(make("th", title), { scope: "col" })));
  return Object.assign(made("table", make("caption", caption), made("thead", head), made("tbody", ...rows)), { className: "stacked tests" });
}

function testsOf(series, of) {
  const rows = [];
  for (const [key, test] of Object.entries(series.hints ?? {})) {
    if (key === "left_out") continue;
    for (const one_ of [test].flat()) rows.push(testRow(key, one_, of));
  }
  const left_out = series.hints?.left_out ?? [];
  if (left_out.length) rows.push(rowOf(rowHead("runs that look written down wrongly"), cell("p", ""), cell("level", ""), cell("", `${left_out.map((place) => runName(of, place)).join("; ")}: the other tests did not see them`)));
  if (!rows.length) rows.push(rowOf(rowHead("tests of the readings"), cell("p", ""), cell("level", ""), cell("", "none was made of this series, or the document asks for none")));
  return [...rows, ...series.conditions.map(conditionRow)];
}

/* `called` names a series as the page does. */
export function showTests(evaluation, document_, called) {
  const tables = evaluation.series.map((series, place) => table(called(series), testsOf(series, document_.series[place])));
  if (evaluation.setup.length) tables.push(table("Set-up", evaluation.setup.map(checkRow)));
  one("#tests").replaceChildren(...tables);
}
