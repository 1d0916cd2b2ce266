/* Soundness before leaving the machine: what was found, where, how sure that is and what to do; and what the readings support. */
import { ask } from "/basics/ask.js";
import { cell, count, facts, items, link, make, made, one, rowHead, rowOf, say } from "/basics/dom.js";
import { inWords, unit } from "/basics/printed.js";
import * as figures from "/job/figures.js";
import * as form from "/job/form.js";
import { showTests } from "/job/tests.js";
import * as work from "/job/work.js";

const { job } = work;
let document_ = null;

const seriesName = (series) => [series?.error, series?.state?.replace("-", " ")].filter(Boolean).join(", ");
const pointerOf = (where) => / \((\/[^)]*)\)$/.exec(where)?.[1] ?? "";
const seriesAt = (pointer) => Number(/^\/series\/(\d+)/.exec(pointer)?.[1] ?? -1);

/* The place as a person calls it; a series by its error, not by its id. */
function place(where) {
  const series = document_?.series?.[seriesAt(pointerOf(where))], words = inWords(where);
  return series ? words.replace(`series ${series.id}`, seriesName(series)) : words;
}

/* Where a finding is seen: the figure of its series, or the form. */
function lookAt(finding) {
  const pointer = pointerOf(finding.where), at = seriesAt(pointer);
  if (finding.about === "readings" && at >= 0) {
    const to = link("Look at the readings", "figures"), target = Number(/target (\d+)/.exec(finding.what)?.[1] ?? 0);
    to.addEventListener("click", () => figures.lookAt(document_.series[at].id, target));
    return to;
  }
  if (!pointer) return null;
  const to = link("Go to the entry", "form");
  to.addEventListener("click", () => form.lookAt(pointer));
  return to;
}

function findingOf(finding) {
  const to = lookAt(finding);
  return made("li", make("h3", finding.what), facts([["where", place(finding.where)], ["how sure", finding.how_sure], ["do", finding.do]]), ...(to ? [made("p", to)] : []));
}

function showFindings() {
  const found = job.findings, at = found.before_leaving.filter((finding) => finding.at_machine), desk = found.before_leaving.filter((finding) => !finding.at_machine);
  one("#h-soundness").textContent = found.last_line;
  one("#findings").replaceChildren(...at.map(findingOf));
  one("#desk").replaceChildren(...desk.map(findingOf));
  one("#machine-box").hidden = at.length === 0;
  one("#desk-box").hidden = desk.length === 0;
  one("#nothing-found").hidden = at.length > 0;
  one("#account-box").hidden = !job.account;
  one("#account").textContent = job.account;
  items("#lacking", found.lacking.map((lack) => lack.what));
  one("#lacking-box").hidden = found.lacking.length === 0;
  items("#warnings", found.warnings.map((warning) => inWords(warning.text)));
  one("#warnings-box").hidden = found.warnings.length === 0;
}

/* ---- series by series ---- */

/* The means along the axis, each approach; each drawing has its own height. */
function curve(of) {
  const [width, height] = [240, 56], picture = one("#curve").content.firstElementChild.cloneNode(true);
  const lines = ["positive", "negative"].map((approach) => [approach, of.targets.filter((at) => typeof at["mean_" + approach] === "number").map((at) => [at.position, at["mean_" + approach]])]).filter(([, points]) => points.length > 1);
  const all = lines.flatMap(([, points]) => points);
  if (!all.length) return make("span", "no curve", "grey");
  const range = (values) => [Math.min(...values), Math.max(...values)], [left, right] = range(all.map(([x]) => x)), [low, high] = range([0, ...all.map(([, y]) => y)]);
  const x = (value) => 4 + ((value - left) / (right - left || 1)) * (width - 8), y = (value) => height - 4 - ((value - low) / (high - low || 1)) * (height - 8);
  const zero = picture.querySelector(".zero");
  for (const end of ["y1", "y2"]) zero.setAttribute(end, y(0));
  for (const [approach, points] of lines) picture.querySelector("." + approach).setAttribute("points", points.map(([at, value]) => `${x(at).toFixed(1)},${y(value).toFixed(1)}`).join(" "));
  return picture;
}

function seriesRow(support, at) {
  const series = document_?.series?.[at], evaluated = figures.evaluated()?.series.find((one_) => one_.id === support.series);
  const numbers = job.findings.before_leaving.filter((finding) => seriesAt(pointerOf(finding.where)) === at && finding.about === "readings");
  const readings = (series?.runs ?? []).flatMap((run) => run.deviations ?? []).filter((value) => value !== null).length;
  const head = rowHead(make("span", seriesName(series) || support.error), make("p", series ? unit(series.unit) : "", "grey"));
  const unmet = support.conditions.filter((condition) => condition.holds === false);
  const told = made("div", numbers.length ? make("span", count(numbers.length, "finding"), "mark") : make("span", "nothing found"), ...unmet.map((condition) => make("p", condition.text, "grey")));
  const shown = evaluated?.targets?.length ? curve(evaluated) : make("span", support.source === "stated" ? "stated only" : "no curve", "grey");
  return rowOf(head, cell("mean, each approach", shown), cell("readings", String(readings || "–")), cell("evaluated", count(support.evaluated.length, "parameter")), cell("findings", told));
}

export async function open() {
  if (!work.checked()) {
    one("#h-soundness").textContent = "Testing the readings.";
    await work.check();
  }
  document_ = await work.parsed();
  showFindings();
  const rows = () => one("#supported").replaceChildren(...job.findings.supports.map(seriesRow));
  rows();
  tests();
  if (await figures.evaluate().catch((error) => { say(error.message); })) { rows(); tests(); }
}

/* What an opened list shows is of the document as it is now. */
function tests() {
  if (!one("#tests-box").open) return one("#tests").replaceChildren();
  if (figures.evaluated()) showTests(figures.evaluated(), document_, seriesName);
  else one("#tests").replaceChildren(make("p", "Evaluating the readings.", "grey"));
}

one("#tests-box").addEventListener("toggle", tests);

work.when("findings", () => { if (!one("[data-screen=soundness]").hidden && !work.faulty()) open(); });
