/* Figures, large, with the values at each target beside them. */
import { ask } from "/basics/ask.js";
import { button, entitle, made, make, one, picture, rowHead, rowOf, save, say } from "/basics/dom.js";
import { number, unit } from "/basics/printed.js";
import * as aside from "/job/aside.js";
import * as pointing from "/job/pointing.js";
import * as work from "/job/work.js";

const { job } = work;
let of_ = null, document_ = null, evaluation = null, evaluating = null, figures = null, wanted = null;

function forget() {
  [of_, document_, evaluation, evaluating, figures] = [null, null, null, null, null];
}

const shown = () => figures?.[Number(one("#figure").value)];
const seriesPlace = () => document_.series.findIndex((series) => series.id === shown()?.series);
const series = () => document_.series[seriesPlace()];

export const evaluated = () => evaluation;

/* Every number of the document as it is now; asked for once. */
export function evaluate() {
  const about = job.document;
  evaluating ??= ask("/v1/evaluation", work.parts()).then((answer) => answer.json()).then((found) => {
    if (job.document === about) evaluation = found;
    return found;
  });
  return evaluating.catch((error) => { evaluating = null; throw error; });
}

const decimals = (of) => Math.max(0, ...of.runs.flatMap((run) => run.deviations).map((value) => (value === null ? 0 : (String(value).split(".")[1] ?? "").length)));

/* Run numbers count within their approach, as on the pages: "run 4, positive". */
export const runName = (of, place) => `run ${of.runs.slice(0, place + 1).filter((run) => run.approach === of.runs[place].approach).length}, ${of.runs[place].approach}`;
const excluded = (run, target) => run.excluded?.find((entry) => entry.target === target);

/* ---- what is shown ---- */

export async function open() {
  if (of_ !== job.document) await read();
  if (wanted) choose();
  aside.show();
  await draw();
}

/* To be shown when it is opened next: the figure of a series, at a target (from 1; 0: the one that is chosen). */
export const lookAt = (id, target) => { wanted = { id, target }; };

function choose() {
  const place = figures.findIndex((figure) => figure.series === wanted.id);
  if (place >= 0) one("#figure").value = String(place);
  if (place >= 0 && wanted.target) {
    one("#target").max = String(series().targets.length);
    one("#target").value = String(wanted.target);
  }
  wanted = null;
}

async function read() {
  const about = job.document, before = one("#figure").selectedOptions[0]?.text;
  const [, listed] = await Promise.all([evaluate(), ask("/v1/figures", work.parts()).then((answer) => answer.json())]);
  const document = JSON.parse(await about.text());
  if (about !== job.document) return;
  [of_, document_, figures] = [about, document, listed];
  one("#figure").replaceChildren(...figures.map((figure, place) => new Option(figure.title, String(place))));
  one("#figure").value = String(Math.max(0, figures.findIndex((figure) => figure.title === before)));
}

async function draw() {
  const figure = shown(), runs = figure?.series ? series()?.runs : null;
  entitle("#h-figures", figure ? figure.title : "The document supports no figure.");
  one("#picture").hidden = !figure;
  one("#target-box").hidden = one("#values-box").hidden = !runs;
  one("#save-figure").hidden = !figure;
  if (!figure) return;
  showSaves(figure, runs);
  if (runs) {
    one("#target").max = String(series().targets.length);
    if (Number(one("#target").value) > series().targets.length) one("#target").value = "1";
    showValues();
  }
  const answer = await ask("/v1/figure?" + query(figure, "svg", innerWidth < 520 ? "narrow" : "column"), work.parts());
  if (shown() !== figure) return;
  const drawing = await answer.blob();
  pointing.read(runs ? await drawing.text() : "", runs ? unit(series().position_unit) : "");
  picture(one("#picture"), drawing);
  one("#picture").alt = figure.title;
  if (runs) pointing.show(series().targets[Number(one("#target").value) - 1]);
  else one("#pointed").hidden = true;
}

const query = ({ name, series }, format, width) => new URLSearchParams({ name, format, width, ...(series ? { series } : {}) });

function showSaves(figure, runs) {
  const name = `${job.name.replace(/\.json$/i, "")} ${figure.title}`, told = (error) => say(error.message);
  const saves = ["svg", "pdf", "png"].map((format) => button(format.toUpperCase(), () => save(ask("/v1/figure?" + query(figure, format, "column"), work.parts()), `${name}.${format}`).catch(told)));
  if (runs) saves.push(button("readings as CSV", () => save(ask("/v1/table?" + new URLSearchParams({ series: figure.series }), work.parts()), `${name}.csv`).catch(told)));
  one("#save-figure").replaceChildren("Save it as ", ...saves);
}

function reading(of, place, target) {
  const run = of.runs[place], value = run.deviations[target], out = excluded(run, target), missing = value === null || value === undefined;
  const act = make("td");
  if (out) act.append(make("span", "set aside: " + out.reason, "grey"));
  else if (!missing && !job.reads_only) {
    const away = button("Set aside", () => question(place, target));
    away.setAttribute("aria-label", `Set aside: ${runName(of, place)}`);
    act.append(away);
  }
  return rowOf(rowHead(runName(of, place)), make("td", missing ? "missing" : number(value, decimals(of)), "number"), act);
}

function question(run, target) {
  const of = series(), value = `${number(of.runs[run].deviations[target], decimals(of))} ${unit(of.unit)}`;
  aside.question({ place: seriesPlace(), id: of.id, run, target, evaluation, words: `${shown().title}: ${runName(of, run)}, ${one("#at").textContent.toLowerCase()}: ${value}.` });
}

function showValues() {
  const of = series(), target = Number(one("#target").value) - 1, digits = decimals(of) + 1;
  const at = evaluation.series.find((one_) => one_.id === shown()?.series).targets?.[target];
  const place = `${number(of.targets[target], (String(of.targets[target]).split(".")[1] ?? "").length)} ${unit(of.position_unit)}`;
  one("#target").setAttribute("aria-valuetext", `target ${target + 1} of ${of.targets.length}, at ${place}`);
  one("#at").textContent = `Target ${target + 1} of ${of.targets.length}, at ${place}`;
  one("#unit").textContent = unit(of.unit);
  pointing.show(of.targets[target]);
  one("#values").replaceChildren(...of.runs.map((_, run) => reading(of, run, target)));
  const names = { mean_positive: "mean, positive", mean_negative: "mean, negative", s_positive: "s, positive", s_negative: "s, negative", reversal: "reversal" };
  one("#means").replaceChildren(...Object.entries(names).filter(([key]) => typeof at?.[key] === "number").map(([key, words]) => rowOf(rowHead(words), make("td", number(at[key], digits), "number"), made("td"))));
}

const visible = () => !one("[data-screen=figures]").hidden;

one("#figure").addEventListener("change", () => draw().catch((error) => say(error.message)));
one("#target").addEventListener("input", showValues);
pointing.point(() => (shown()?.series && series().runs ? series().targets : null), (place) => {
  if (one("#target").value === String(place + 1)) return;
  one("#target").value = String(place + 1);
  showValues();
});
work.when("document", forget);
work.when("findings", () => { if (visible() && !work.faulty()) open().catch((error) => say(error.message)); });
work.when("reads", () => { if (visible() && shown()?.series) showValues(); });
