/* Two records beside each other: what changed by more than its uncertainty, and which verdicts are others. */
import { jobOf, placeOf } from "/archive/archive.js";
import { ask } from "/basics/ask.js";
import { cell, count, entitle, facts, items, link, make, one, rowHead, rowOf, save, say } from "/basics/dom.js";
import { decimals, number, placeInWords, unit } from "/basics/printed.js";

const name = (result) => `${result.error} ${result.parameter.replaceAll("_", " ")}`;

/* What stands beside a limit on the pages; the others say what it is made of. */
const isHeadline = (result) => !result.parameter.includes("_") && !result.at_tool_point && !result.parameter.startsWith("local");

function verdictWords(result, verdicts) {
  const other = verdicts.find((verdict) => verdict.series === (result.series ?? "") && verdict.parameter === result.parameter);
  return other ? `${other.verdict_was ?? "no limit"} → ${other.verdict_now ?? "no limit"}` : "";
}

function resultRow(result, verdicts) {
  const digits = decimals(result.U_difference, result.difference), shown = (value) => (value === undefined ? "not evaluated" : number(value, digits));
  const head = rowHead(name(result), make("p", [unit(result.unit), result.state?.replace("-", " ")].filter(Boolean).join(", "), "grey"));
  const ratio = result.difference_over_U === undefined ? "–" : make("span", number(result.difference_over_U, 2), Math.abs(result.difference_over_U) > 1 ? "mark" : "");
  const verdict = verdictWords(result, verdicts);
  return rowOf(head, cell("old → new", `${shown(result.was)} → ${shown(result.now)}`), cell("difference", result.difference === undefined ? "–" : shown(result.difference)), cell("U of it", result.U_difference === undefined ? "–" : number(result.U_difference, digits)), cell("difference / U", ratio), cell("verdict, where another", verdict ? make("span", verdict, "mark") : ""));
}

function sentence(found, beyond, partsBeyond) {
  if (found.same) return "Both say the same.";
  if (!found.series_compared) return "They have no series in common: nothing can be compared.";
  const parts = partsBeyond.length ? `, and ${partsBeyond.length} of what they are made of` : "";
  const unknown = found.parameters.filter((result) => isHeadline(result) && result.difference && result.U_difference === undefined).length;
  const judged = found.parameters.some((result) => isHeadline(result) && result.U_difference !== undefined);
  const results = !judged && unknown ? `${count(unknown, "result changed, and has", "results changed, and have")} no U to hold that against` : beyond.length ? `${count(beyond.length, "result")}${parts} changed by more than U` : `No result is shown to have changed by more than U${partsBeyond.length ? `, but ${partsBeyond.length} of what they are made of` : ""}`;
  const besides = judged && unknown ? `; ${unknown} more changed and ${unknown === 1 ? "has" : "have"} no U` : "";
  return `${results}${besides}; ${found.verdicts.length ? count(found.verdicts.length, "verdict is another one", "verdicts are others") : "no verdict is another one"}.`;
}

const mostChanges = 30;

/* JSON as a person reads it, and no more of it than fits a line or two. */
function brief(json) {
  if (json === undefined) return "not stated";
  if (/^[[{]/.test(json)) return "as given";
  const words = /^"[^"\\]*"$/.test(json) ? json.slice(1, -1) : json;
  return words.length > 80 ? words.slice(0, 77) + " …" : words;
}

const changeInWords = ({ pointer, was, now }) => `${placeInWords(pointer)}: ${brief(was)} → ${brief(now)}`;

function rest(found) {
  const words = [];
  const readings = found.readings.reduce((sum, one_) => sum + (one_.other_values ?? 0), 0);
  if (readings) words.push(`${count(readings, "reading differs", "readings differ")}, in ${count(found.readings.length, "series", "series")}.`);
  words.push(...found.changes.slice(0, mostChanges).map(changeInWords));
  if (found.changes.length > mostChanges) words.push(`${count(found.changes.length - mostChanges, "more entry differs", "more entries differ")}.`);
  if (found.only_was.length) words.push(`Only in the old record: ${found.only_was.join(", ")}.`);
  if (found.only_now.length) words.push(`Only in the new record: ${found.only_now.join(", ")}.`);
  return words.length ? words : ["Nothing."];
}

async function tellSide(selector, fingerprint) {
  const [visit] = (await (await ask("/v1/records/" + fingerprint)).json()).visits;
  one(selector).replaceChildren(link(jobOf(visit), placeOf(visit)), facts([["measured", visit.day || "no date"], ["serial", visit.serial || "not stated"]]));
}

/* Two documents that were dropped, or nothing. */
let dropped = null;

async function dayOf(file) {
  try {
    return String(JSON.parse(await file.text()).job?.measured?.from ?? "");
  } catch {
    return "";  // its faults are told by the service
  }
}

/* The one that was measured earlier is the old one. What cannot be compared is told where it was dropped. */
export async function between(files) {
  const days = new Map(await Promise.all(files.map(async (file) => [file, await dayOf(file)])));
  const [old, now] = [...files].sort((a, b) => days.get(a).localeCompare(days.get(b)));
  const form = new FormData();
  form.append("old", old, old.name);
  form.append("new", now, now.name);
  await ask("/v1/comparison", form);
  dropped = { form, sides: [["#old-side", old], ["#new-side", now]].map(([side, file]) => [side, file.name, days.get(file)]) };
}

async function comparison(both) {
  const beside = "beside=" + one("#beside").value;
  one("#save-comparison").parentElement.hidden = !both;  // pages with both curves are drawn of records
  if (!both) {
    for (const [side, name_, day] of dropped.sides) one(side).replaceChildren(name_, facts([["measured", day || "no date"]]));
    return (await ask("/v1/comparison?" + beside, dropped.form)).json();
  }
  const [old, now] = both.split(",").map(encodeURIComponent), query = `old=${old}&new=${now}&${beside}`;
  one("#save-comparison").onclick = () => save(ask(`/v1/comparison?${query}&format=pdf`), "comparison.pdf").catch((error) => say(error.message));
  await Promise.all([tellSide("#old-side", old), tellSide("#new-side", now)]);
  return (await ask("/v1/comparison?" + query)).json();
}

export async function open(both) {
  if (!both && !dropped) {
    location.hash = "start";
    return;
  }
  const found = await comparison(both);
  const beyond = found.parameters.filter((result) => isHeadline(result) && Math.abs(result.difference_over_U ?? 0) > 1);
  const partsBeyond = found.parameters.filter((result) => !isHeadline(result) && Math.abs(result.difference_over_U ?? 0) > 1);
  entitle("#h-compare", sentence(found, beyond, partsBeyond));
  const changed = (result) => result.difference !== 0 || verdictWords(result, found.verdicts);
  const rows = found.parameters.filter(changed);
  const shown = (selector, results) => one(selector).replaceChildren(...results.map((result) => resultRow(result, found.verdicts)));
  const atOnce = (result) => isHeadline(result) || verdictWords(result, found.verdicts);
  shown("#results", rows.filter(atOnce));
  shown("#parts", rows.filter((result) => !atOnce(result)));
  one("#parts-box").hidden = rows.every(atOnce);
  one("#results-box").hidden = rows.length === 0;
  items("#rest", rest(found));
  say(one("#h-compare").textContent);
}

one("#beside").addEventListener("change", () => dispatchEvent(new Event("hashchange")));
