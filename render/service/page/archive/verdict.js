/* Whether a report, or a record, is still as it was made; and what can be had of it. */
import { ask } from "/basics/ask.js";
import { button, cell, count, entitle, make, made, one, rowHead, rowOf, save, say } from "/basics/dom.js";
import { inWords } from "/basics/printed.js";

const outcomes = { holds: "holds", fails: "does not hold", not_shown: "not shown" };

/* What a verification found, as rows of a table. */
export function checkRows(verdict) {
  return verdict.checks.map((check) => {
    const outcome = cell("", make("span", outcomes[check.outcome] ?? check.outcome, check.outcome === "holds" ? "" : "mark"));
    if (check.outcome !== "holds") for (const detail of check.details) outcome.append(make("p", inWords(detail), "grey"));
    return rowOf(rowHead(check.what), outcome);
  });
}

let report = null;

async function verify(pdf, against) {
  const form = new FormData();
  form.append("pdf", pdf, "report.pdf");
  return (await ask("/v1/verification" + (against ? "?against=" + encodeURIComponent(against) : ""), form)).json();
}

function show(verdict) {
  const { name, what, checks, of = "" } = report, sound = verdict.sound && checks.every((check) => check.outcome !== "fails");
  one("#verdict-none").hidden = true;
  one("#verdict-found").hidden = one("#verdict-act").hidden = one("#verdict-more").hidden = false;
  entitle("#h-verdict", sound ? `Nothing shows that this ${what} was changed since it was made.` : `This ${what} is not as it was made.`);
  one("#verdict-file").textContent = `${name}, fingerprint ${verdict.fingerprint.replace("sha256:", "").slice(0, 16) || "not readable"}${of}`;
  one("#checks").replaceChildren(...checkRows({ checks: [...checks, ...verdict.checks] }));
  one("#verdict-said").textContent = "";
  say(one("#h-verdict").textContent);
}

/* Of another report nothing may stay. */
function another() {
  one("#against").value = "";
  one("#verdict-open").replaceChildren();
}

export async function showReport(file) {
  const verdict = await verify(file);
  report = { file, name: file.name, what: "report", checks: [] };
  another();
  show(verdict);
}

/* ---- records ---- */

const hex = (bytes) => [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, "0")).join("");

/* The files of a revision against the list of their digests (BagIt, RFC 8493). Browsers reckon digests over HTTPS and on this computer only. */
async function filesCheck(files, bag) {
  const what = "every file of the record, by its digest";
  if (!crypto.subtle) return { what, outcome: "not_shown", details: ["this browser reckons digests only over HTTPS, or of a service on this computer"] };
  const listed = new Map((await files.get(bag + "manifest-sha256.txt")?.text() ?? "").split("\n").filter(Boolean).map((line) => [line.slice(66).trim(), line.slice(0, 64)])), details = [];
  if (!listed.size) details.push("the list of digests is missing");
  for (const [name, digest] of listed) {
    const file = files.get(bag + name);
    if (!file) details.push(`${name}: missing`);
    else if (hex(await crypto.subtle.digest("SHA-256", await file.arrayBuffer())) !== digest) details.push(`${name}: not as it was filed`);
  }
  for (const name of files.keys()) if (name.startsWith(bag + "data/") && !listed.has(name.slice(bag.length))) details.push(`${name.slice(bag.length)}: nobody filed it`);
  return { what, outcome: details.length ? "fails" : "holds", details };
}

const inputs = "data/inputs/";

/* Its document as a job, with the files that it names. */
export function openJob(files, bag, take) {
  const beside = [...files].filter(([name]) => name.startsWith(bag + inputs) && !/wayfolio-[^/]*\.json$/.test(name)).map(([name, file]) => new File([file], name.slice(bag.length + inputs.length)));
  const number = bag.split("/").at(-3) ?? "record";
  return take(new File([files.get(bag + inputs + "wayfolio-result.json")], number + ".json", { type: "application/json" }), beside);
}

/* The latest revision in a packed record; false where there is none. `take` takes a document. */
export async function showRecord(name, files, take) {
  const revision = (path) => Number(/revision-(\d+)\/data\/report\.pdf$/.exec(path)?.[1] ?? 0);
  const reports = [...files.keys()].filter((path) => path.endsWith("/data/report.pdf")).sort((a, b) => revision(a) - revision(b)), last = reports.at(-1);
  if (!last) return false;
  const bag = last.slice(0, -"data/report.pdf".length), pdf = new File([files.get(last)], "report.pdf");
  const [check, verdict] = [await filesCheck(files, bag), await verify(pdf)];
  report = { file: pdf, name, what: "record", checks: [check], of: `; ${count(reports.length, "revision")}, looked at: revision ${revision(last)}` };
  another();
  show(verdict);
  if (files.has(bag + inputs + "wayfolio-result.json")) one("#verdict-open").replaceChildren(made("p", button("Open its document as a job", () => openJob(files, bag, take).catch((error) => { one("#verdict-said").textContent = error.message; }), "button two")));
  return true;
}

/* ---- what can be had of it ---- */

function redraw() {
  const form = new FormData();
  form.append("pdf", report.file, "report.pdf");
  one("#verdict-said").textContent = "Drawing it again from the data inside.";
  return save(ask("/v1/redrawing", form), report.name.replace(/\.[a-z.]+$/i, "") + " drawn again.pdf").then(() => { one("#verdict-said").textContent = "Drawn again from the data inside; given to the browser to save."; });
}

async function holdAgainst(event) {
  event.preventDefault();
  show(await verify(report.file, one("#against").value.trim()));
}

const told = (act) => (event) => act(event).catch((error) => { one("#verdict-said").textContent = error.problem?.faults?.[0] ? `found ${error.problem.faults[0].found}; expected ${error.problem.faults[0].expected}` : error.message; });

one("#redraw").addEventListener("click", told(redraw));
one("#against-form").addEventListener("submit", told(holdAgainst));
