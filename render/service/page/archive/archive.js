/* The records that the service keeps: which there are, and what one machine's visits say together. */
import { ask } from "/basics/ask.js";
import { cell, count, entitle, items, link, make, one, picture, rowHead, rowOf, save, say } from "/basics/dom.js";
import { number, decimals, unit } from "/basics/printed.js";

const newest = (visits) => visits.reduce((last, visit) => (visit.day >= last.day ? visit : last));
export const jobOf = (visit) => `${visit.job || "no number"}, revision ${visit.revision}`;
export const placeOf = (visit) => "record=" + visit.fingerprint.replace("sha256:", "");

/* A verdict that needs somebody bears the marker, and always its word. */
export function verdictOf(visit) {
  const good = ["Inside", "no limit set"].includes(visit.verdict);
  return make("span", visit.verdict, good ? "" : "mark");
}

/* ---- all of them, by machine ---- */

const asked = () => new URLSearchParams([...new FormData(one("#search"))].map(([name, value]) => [name, value.trim()]).filter(([, value]) => value));

function machineRow(visits) {
  const last = newest(visits), name = last.machine || "machine not stated";
  const head = rowHead(last.serial ? link(name, "machine=" + encodeURIComponent(last.serial)) : make("span", name), make("p", `serial ${last.serial || "not stated"}; ${last.customer || "customer not stated"}`, "grey"));
  return rowOf(head, cell("latest visit", last.day || "no date"), cell("verdict", verdictOf(last)), cell("records", link(count(visits.length, "record"), visits.length === 1 ? placeOf(last) : "machine=" + encodeURIComponent(last.serial))));
}

/* Without a serial number nobody knows whether two are one machine: each record stands for itself. */
function byMachine(visits) {
  const machines = new Map();
  for (const visit of visits) {
    const key = visit.serial ? "serial " + visit.serial : "record " + visit.fingerprint;
    machines.set(key, [...(machines.get(key) ?? []), visit]);
  }
  return [...machines.values()].sort((a, b) => newest(b).day.localeCompare(newest(a).day));
}

/* ---- what is due ---- */

const oneDay = 24 * 60 * 60 * 1000, seenAhead = 60;
const dayIn = (days) => new Date(Date.now() + days * oneDay).toISOString().slice(0, 10);

function dueRow(visit) {
  const days = Math.round((Date.parse(visit.due) - Date.parse(dayIn(0))) / oneDay), machine = visit.machine || "machine not stated";
  const when = days < 0 ? `${visit.due}, ${count(-days, "day")} ago` : days === 0 ? `${visit.due}, today` : `${visit.due}, in ${count(days, "day")}`;
  const head = rowHead(link(machine, visit.serial ? "machine=" + encodeURIComponent(visit.serial) : placeOf(visit)), make("p", `serial ${visit.serial || "not stated"}; ${visit.customer || "customer not stated"}`, "grey"));
  return rowOf(head, cell("last measured", link(`${visit.day}, ${jobOf(visit)}`, placeOf(visit))), cell("due", make("span", when, days <= 0 ? "mark" : "")));
}

/* Of the whole archive, whatever is looked for below: nobody finds a visit that is due by looking for another. */
async function openDue() {
  const { visits } = await (await ask("/v1/records?due_by=" + dayIn(seenAhead))).json();
  one("#due").replaceChildren(...visits.map(dueRow));
  one("#due-box").hidden = visits.length === 0;
}

/* What is looked for stands in the address, so that reload and back find it again. */
function fillIn(looked) {
  const said = new URLSearchParams(looked ?? "");
  for (const field of one("#search").elements) if (field.name) field.value = said.get(field.name) ?? "";
}

export async function open(looked) {
  fillIn(looked);
  const query = asked(), { visits, damaged } = await (await ask("/v1/records?" + query)).json();
  await openDue();
  const current = visits.filter((visit) => !visit.replaced), machines = byMachine(current);
  const found = `${count(current.length, "record")} of ${count(machines.length, "machine")}`;
  entitle("#h-archive", visits.length ? found + (query.size ? " as asked." : ".") : damaged.length ? `No sound record${query.size ? " is as asked" : " is kept"}: ${damaged.length} ${damaged.length === 1 ? "is" : "are"} damaged.` : query.size ? "No record is as asked." : "No record is kept yet.");
  one("#machines").replaceChildren(...machines.map(machineRow));
  one("#machines-box").hidden = machines.length === 0;
  items("#damaged", damaged);
  one("#damaged-box").hidden = damaged.length === 0;
  say(one("#h-archive").textContent);
}

/* ---- one machine ---- */

function visitRow(visits, at) {
  const visit = visits[at], before = visits.slice(0, at).reverse().find((other) => !other.replaced);
  const compared = before && !visit.replaced ? link("compare with the one before", `compare=${placeOf(before).slice(7)},${placeOf(visit).slice(7)}`) : "";
  return rowOf(rowHead(link(jobOf(visit), placeOf(visit))), cell("measured", visit.day || "no date"), cell("verdict", visit.replaced ? make("span", "replaced", "grey") : verdictOf(visit)), cell("as found", visit.as_found ?? "–"), cell("", compared));
}

const value = (line, point) => number(point.value, decimals(point.expanded, point.value)) + (point.expanded ? " ± " + number(point.expanded, decimals(point.expanded)) : "");

function lineRow(line) {
  const points = line.points.filter((point) => point.value !== undefined), [first, last] = [points[0], points.at(-1)];
  const head = rowHead(`${line.error} ${line.parameter.replaceAll("_", " ")}`, make("p", unit(line.unit), "grey"));
  const limit = line.points.findLast((point) => point.limit !== undefined)?.limit;
  const slope = line.trend.significant ? number(line.trend.slope_per_year, 2) + " a year" : "none shown";
  return rowOf(head, cell("first", first ? value(line, first) : "not evaluated"), cell("latest", last ? value(line, last) : "not evaluated"), cell("limit", limit ?? "–"), cell("trend", slope));
}

function tellHistory(history) {
  const warnings = history.lines.flatMap((line) => line.warnings.map((warning) => `${line.error} ${line.parameter}: ${warning.text}`));
  const anyLimit = history.lines.some((line) => line.points.some((point) => point.limit !== undefined));
  entitle("#h-machine", `${history.machine || "This machine"}: ${count(history.visits, "visit")}, ` + (!anyLimit ? "no limit is set, so that nothing is warned of." : warnings.length ? `${count(warnings.length, "warning")} about what comes.` : "no warning about what comes."));
  items("#machine-warnings", warnings);
  one("#machine-warnings-box").hidden = warnings.length === 0;
  items("#left-out", history.left_out);
  one("#left-out-box").hidden = history.left_out.length === 0;
  const limited = history.lines.filter((line) => line.points.some((point) => point.limit !== undefined));
  one("#lines-of-machine").replaceChildren(...(limited.length ? limited : history.lines).map(lineRow));
  one("#machine-notice").textContent = history.notices.join("; ");
}

/* A machine may have records without one value that a history could hold. */
async function showHistory(query) {
  const image = one("#history-figure"), box = one("#history-box");
  try {
    tellHistory(await (await ask("/v1/history?" + query)).json());
    box.hidden = false;
    picture(image, await (await ask(`/v1/history?${query}&format=svg`)).blob());
    image.hidden = false;
  } catch (error) {
    if (error.problem?.code !== "nothing-there") throw error;
    image.hidden = true;
    if (box.hidden) entitle("#h-machine", "No record of this machine has a value with a date.");
  }
}

export async function openMachine(serial) {
  const query = new URLSearchParams({ serial });
  one("#machine-serial").textContent = serial;
  one("#history-box").hidden = true;
  const { visits } = await (await ask("/v1/records?" + query)).json();
  one("#visits").replaceChildren(...visits.map((_, at) => visitRow(visits, at)).reverse());
  await showHistory(query);
  one("#save-history").onclick = () => save(ask(`/v1/history?${query}&format=pdf`), `history-${serial}.pdf`);
  one("#save-values").onclick = () => save(ask("/v1/history?" + query), `history-${serial}.json`);
  say(one("#h-machine").textContent);
}

one("#search").addEventListener("submit", (event) => {
  event.preventDefault();
  const query = String(asked()), place = query ? "#archive=" + encodeURIComponent(query) : "#archive";
  if (location.hash === place) open(query).catch((error) => entitle("#h-archive", error.message));
  else location.hash = place;
});
