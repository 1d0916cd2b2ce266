/* Figures, large: the values at each target beside them, and a reading set aside with its reason. */
import { count, make, one, say } from "/dom.js";
import { setAside } from "/json_text.js";
import { number, unit } from "/printed.js";

let ask = null, changed = null, parts = null;
let text = "", document_ = null, evaluation = null, figures = [], aside = [], address = "";

export function prepare(asker, onChange, makeParts) {
  [ask, changed, parts] = [asker, onChange, makeParts];
}

/* How many readings were set aside here. */
export const asideCount = () => aside.length;

export function forget() {
  [text, document_, evaluation, figures, aside] = ["", null, null, [], []];
}

const shown = () => figures[Number(one("#figure").value)];
const seriesPlace = () => document_.series.findIndex((series) => series.id === shown()?.series);
const series = () => document_.series[seriesPlace()];
const evaluated = () => evaluation.series.find((one_) => one_.id === shown()?.series);

const decimals = (of) => Math.max(0, ...of.runs.flatMap((run) => run.deviations).map((value) => (value === null ? 0 : (String(value).split(".")[1] ?? "").length)));

/* Run numbers count within their approach, as on the pages: "run 4, positive". */
const runName = (of, place) => `run ${of.runs.slice(0, place + 1).filter((run) => run.approach === of.runs[place].approach).length}, ${of.runs[place].approach}`;
const excluded = (run, target) => run.excluded?.find((entry) => entry.target === target);

/* ---- what is shown ---- */

export async function open(file) {
  const now = await file.text();
  if (now !== text) await read(now);
  await draw();
}

async function read(now) {
  [evaluation, figures] = await Promise.all([ask("/v1/evaluation", parts()).then((answer) => answer.json()), ask("/v1/figures", parts()).then((answer) => answer.json())]);
  text = now;
  document_ = JSON.parse(text);
  const before = one("#figure").selectedOptions[0]?.text;
  one("#figure").replaceChildren(...figures.map((figure, place) => new Option(figure.title, String(place))));
  const again = figures.findIndex((figure) => figure.title === before);
  one("#figure").value = String(Math.max(0, again));
}

async function draw() {
  const figure = shown(), runs = figure?.series ? series()?.runs : null;
  one("#h-figures").textContent = figure ? figure.title : "The document supports no figure.";
  one("#target-box").hidden = one("#values-box").hidden = !runs;
  if (!figure) return;
  if (runs) {
    one("#target").max = String(series().targets.length);
    if (Number(one("#target").value) > series().targets.length) one("#target").value = "1";
    showValues();
  }
  const width = innerWidth < 520 ? "narrow" : "column";
  const query = new URLSearchParams({ name: figure.name, format: "svg", width, ...(figure.series ? { series: figure.series } : {}) });
  const picture = await (await ask("/v1/figure?" + query, parts())).blob();
  if (shown() !== figure) return;
  URL.revokeObjectURL(address);
  one("#picture").src = address = URL.createObjectURL(picture);
  one("#picture").alt = figure.title;
}

function reading(of, place, target) {
  const run = of.runs[place], value = run.deviations[target], out = excluded(run, target), row = make("tr"), cell = make("td", "", "number");
  row.append(Object.assign(make("th", runName(of, place)), { scope: "row" }), cell);
  cell.textContent = value === null || value === undefined ? "missing" : number(value, decimals(of));
  const act = make("td");
  if (out) act.append(make("span", "set aside: " + out.reason, "grey"));
  else if (cell.textContent !== "missing") {
    const button = make("button", "Set aside", "line");
    button.type = "button";
    button.setAttribute("aria-label", `Set aside: ${runName(of, place)}`);
    button.addEventListener("click", () => question(place, target));
    act.append(button);
  }
  row.append(act);
  return row;
}

function showValues() {
  const of = series(), target = Number(one("#target").value) - 1, at = evaluated().targets?.[target], digits = decimals(of) + 1;
  const place = `${number(of.targets[target], (String(of.targets[target]).split(".")[1] ?? "").length)} ${unit(of.position_unit)}`;
  one("#target").setAttribute("aria-valuetext", `target ${target + 1} of ${of.targets.length}, at ${place}`);
  one("#at").textContent = `Target ${target + 1} of ${of.targets.length}, at ${place}`;
  one("#unit").textContent = unit(of.unit);
  one("#values").replaceChildren(...of.runs.map((_, run) => reading(of, run, target)));
  const names = { mean_positive: "mean, positive", mean_negative: "mean, negative", s_positive: "s, positive", s_negative: "s, negative", reversal: "reversal" };
  one("#means").replaceChildren(...Object.entries(names).filter(([key]) => typeof at?.[key] === "number").map(([key, words]) => {
    const row = make("tr");
    row.append(Object.assign(make("th", words), { scope: "row" }), make("td", number(at[key], digits), "number"), make("td"));
    return row;
  }));
}

/* ---- set aside ---- */

/* Every parameter of a series with its verdict, where it has one. */
function results(of, id) {
  const all = new Map(), found = of.series.find((one_) => one_.id === id);
  for (const [name, parameter] of Object.entries(found?.parameters ?? {}))
    all.set(name, { value: parameter.value, unit: parameter.unit, verdict: of.decisions.find((decision) => decision.series === id && decision.parameter === name)?.verdict ?? "" });
  return all;
}

/* Two values with as many digits as tell them apart, two at least. */
function apart(then, now) {
  let digits = 2;
  while (digits < 6 && then !== now && then.toFixed(digits) === now.toFixed(digits)) ++digits;
  return [number(then, digits), number(now, digits)];
}

function changes(before, after, id) {
  const was = results(before, id), is = results(after, id), rows = [];
  for (const [name, now] of is) {
    const then = was.get(name);
    if (!then || (then.value === now.value && then.verdict === now.verdict)) continue;
    rows.push({ name, text: `${apart(then.value, now.value).join(" → ")} ${unit(now.unit)}`, verdict: then.verdict === now.verdict ? now.verdict : `${then.verdict} → ${now.verdict}` });
  }
  for (const name of was.keys()) if (!is.has(name)) rows.push({ name, text: "is no longer evaluated", verdict: "" });
  return rows;
}

function tell(rows, list) {
  list.replaceChildren(...(rows.length ? rows : [{ name: "", text: "No parameter changes.", verdict: "" }]).map(({ name, text: words, verdict }) => {
    const item = make("li");
    item.append(make("b", name.replaceAll("_", ", ")), ` ${words}${verdict ? ", " + verdict : ""}`);
    return item;
  }));
}

const withText = (words) => new File([words], parts().get("document").name, { type: "application/json" });

async function evaluationOf(words) {
  const form = parts();
  form.set("document", withText(words));
  return (await ask("/v1/evaluation", form)).json();
}

let asked = null;

async function question(run, target) {
  const of = series();
  asked = { run, target, place: seriesPlace(), id: of.id };
  one("#aside-which").textContent = `${shown().title}: ${runName(of, run)}, ${one("#at").textContent.toLowerCase()}: ${number(of.runs[run].deviations[target], decimals(of))} ${unit(of.unit)}.`;
  one("#reason").value = "";
  one("#aside-changes").replaceChildren(make("li", "Evaluating without it."));
  one("#aside").showModal();
  one("#reason").focus();
  try {
    const without = await evaluationOf(setAside(text, asked.place, run, target, "to be said"));
    tell(changes(evaluation, without, asked.id), one("#aside-changes"));
  } catch (error) {
    one("#aside-changes").replaceChildren(make("li", error.message));
  }
}

async function confirm(event) {
  event.preventDefault();
  const reason = one("#reason").value.trim();
  if (!reason) return one("#reason").focus();
  const before = evaluation, was = text, name = one("#aside-which").textContent, without = setAside(text, asked.place, asked.run, asked.target, reason);
  try {
    await evaluationOf(without);  // what cannot be evaluated any more is not taken over
    await change(without);
  } catch (error) {
    one("#aside-changes").replaceChildren(make("li", `Not set aside. ${error.message}`));
    return say(`Not set aside. ${error.message}`);
  }
  one("#aside").close();
  aside.push({ was, name, reason });
  const rows = changes(before, evaluation, asked.id);
  tell(rows, one("#changed"));
  showAside();
  say(`Set aside. ${rows.slice(0, 3).map((row) => `${row.name} ${row.text} ${row.verdict}`).join("; ") || "No parameter changes."}`);
  one("#undo").focus();
}

async function change(words) {
  await changed(withText(words));
  await read(words);
  await draw();
}

function showAside() {
  one("#aside-box").hidden = aside.length === 0;
  one("#aside-list").replaceChildren(...aside.map(({ name, reason }) => make("li", `${name} ${reason}`)));
  one("#undo").textContent = `Undo the ${aside.length > 1 ? "last" : "setting aside"}`;
}

async function undo() {
  const { was } = aside.pop();
  await change(was);
  one("#changed").replaceChildren();
  showAside();
  say(`Undone: ${count(aside.length, "reading is", "readings are")} set aside here.`);
  (aside.length ? one("#undo") : one("#target")).focus();
}

one("#figure").addEventListener("change", () => draw().catch((error) => say(error.message)));
one("#target").addEventListener("input", showValues);
one("#aside-form").addEventListener("submit", confirm);
one("#leave-in").addEventListener("click", () => one("#aside").close());
one("#undo").addEventListener("click", () => undo().catch((error) => say(error.message)));
