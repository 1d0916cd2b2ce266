/* The page of the service: a document comes in, is checked, looked at and delivered. What stands in it is only ever set as text. */
import { ask as asked, showToken } from "/ask.js";
import { count, facts, hand, make, notice, one, say } from "/dom.js";
import * as figures from "/figures.js";
import { goToFault, nextFault, showFaults } from "/faults.js";
import * as archive from "/archive.js";
import * as compare from "/compare.js";
import * as browser from "/kept.js";
import * as pages from "/pages.js";
import { watch } from "/preview.js";
import * as readings from "/readings.js";
import * as record from "/record.js";

const screens = [...document.querySelectorAll("[data-screen]")];
const job = { name: "", document: null, files: [], findings: null };

const ask = (path, body) => asked(path, body, (seconds) => say(`The service is busy; asked again in ${seconds} seconds.`));
const kept = () => browser.kept().catch(() => undefined);

function parts() {
  const form = new FormData();
  form.append("document", job.document, job.name);
  for (const file of job.files) form.append("file", file, file.name);
  return form;
}

/* ---- start ---- */

function refuse(what, hint) {
  one("#refused").hidden = false;
  one("#refused-what").textContent = what;
  one("#refused-hint").textContent = hint;
  location.hash = "start";
}

const exports = [".csv", ".txt", ".tsv", ".dat", ".asc", ".xlsx", ".ods"];
const is = (file, ending) => file.name.toLowerCase().endsWith(ending);

/* What a JSON file is says its format; what says none is taken for a document, whose faults are then told. */
async function formatOf(file) {
  try {
    return JSON.parse(await file.text()).format ?? "";
  } catch {
    return "";
  }
}

async function sorted(files) {
  const kinds = { "wayfolio-mapping": [], "wayfolio-facts": [], document: [], report: [], other: [] };
  for (const file of files) {
    const kind = is(file, ".pdf") ? "report" : is(file, ".json") ? await formatOf(file) : "other";
    (kinds[kind] ?? kinds.document).push(file);
  }
  return kinds;
}

/* Whether a document names all of these files; else they are readings that are added to it. */
async function namesAll(document, files) {
  const text = await document.text();
  return files.every((file) => text.includes(JSON.stringify(file.name)));
}

async function take(files) {
  one("#refused").hidden = true;
  try {
    const { "wayfolio-mapping": mappings, "wayfolio-facts": facts, document: documents, report: reports, other } = await sorted(files);
    const [document] = documents, few = mappings.length <= 1 && documents.length <= 1 && reports.length === 0;
    const readable = few && other.length > 0 && other.every((file) => exports.some((ending) => is(file, ending)));
    const whole = document && !mappings.length && !facts.length && (!readable || (await namesAll(document, other)));
    if (whole && few) await takeDocument(document, other);
    else if (readable) await takeExports({ exports: other, facts, into: document ?? null, mapping: mappings.length ? await mappings[0].text() : null });
    else if (reports.length === 1 && files.length === 1) await takeReport(reports[0]);
    else refuse(`${files.map((file) => file.name).join(", ")} cannot be read here.`, "Expected exports of readings, alone or with one mapping and facts; one result document (.json) with the files that it names; or one report (.pdf).");
  } catch (error) {
    refuse(error.message, whatIsWrong(error.problem) || "Nothing was lost: what you dropped is where it was.");
  }
}

/* The first fault of a problem, in a line. */
function whatIsWrong(problem) {
  const fault = problem?.faults?.[0];
  return fault ? `${fault.file ?? ""}: found ${fault.found}; expected ${fault.expected}` : "";
}

async function takeExports(given) {
  begin({ name: given.into?.name ?? given.exports[0].name, document: null, files: [] });
  say("Looking at " + count(given.exports.length, "file"));
  await readings.take(given);
  await keep();
  location.hash = "readings";
  show();
}

/* Another job: nothing of the one before may stand beside it. */
function begin({ name, document, files, account = "" }) {
  Object.assign(job, { name, document, files, account, findings: null });
  one("#job-name").textContent = name;
  pages.forget();
  figures.forget();
}

const keep = () => browser.keep({ ...job, readings: readings.taken() }).then(() => notice(""), () => notice("This browser refuses to keep anything: what you dropped is gone when this page is closed."));

/* `account` is of readings that the document was made of here; without it the document came as it is. */
async function takeDocument(file, files, account = "") {
  begin({ name: file.name, document: file, files, account });
  say("Checking " + file.name);
  if (!account) readings.forget();
  await keep();
  await check();
  location.hash = job.findings.faults.length ? "faults" : "soundness";
  show();
}

/* A previewed document was saved: what is looked at stays, with its new numbers, unless there are faults to be told. */
async function refresh(file, files) {
  begin({ name: file.name, document: file, files });
  await check();
  const here = location.hash.slice(1);
  if (job.findings.faults.length) location.hash = "faults";
  else if (["", "start", "faults"].includes(here)) location.hash = "pages";
  await show();
}

async function check() {
  job.findings = await (await ask("/v1/check", parts())).json();
  if (job.findings.faults.length) await showFaults(job.document, job.findings.faults);
  else showSoundness();
}

async function takeReport(file) {
  say("Checking " + file.name);
  const form = new FormData();
  form.append("pdf", file, file.name);
  const verdict = await (await ask("/v1/verification", form)).json();
  one("#h-verdict").textContent = verdict.sound ? "Nothing shows that this report was changed since it was made." : "This report is not as it was made.";
  one("#verdict-file").textContent = `${file.name}, fingerprint ${verdict.fingerprint.replace("sha256:", "").slice(0, 16) || "not readable"}`;
  one("#checks").replaceChildren(...record.checkRows(verdict));
  location.hash = "verdict";
  show();
}

/* ---- soundness ---- */

function fill(selector, words) {
  one(selector).replaceChildren(...words.map((text) => make("li", text)));
  const box = one(selector + "-box");
  if (box) box.hidden = words.length === 0;
}

function showSoundness() {
  const found = job.findings;
  one("#h-soundness").textContent = found.last_line;
  one("#findings").replaceChildren(...found.before_leaving.map((finding) => {
    const item = make("li");
    item.append(make("h2", finding.what), facts([["where", finding.where.replace(/ \(\/[^)]*\)$/, "")], ["how sure", finding.how_sure], ["do", finding.do]]));
    return item;
  }));
  one("#nothing-found").hidden = found.before_leaving.length > 0;
  one("#account-box").hidden = !job.account;
  one("#account").textContent = job.account;
  fill("#supported", found.supports.map((series) => `${series.error}: ${count(series.evaluated.length, "parameter")}`));
  fill("#lacking", found.lacking.map((lack) => lack.what ?? lack.text ?? lack.pointer));
  fill("#warnings", found.warnings.map((warning) => warning.text));
}

/* ---- which screen: its name is the address ---- */

/* What a screen needs before it can be shown. */
const needs = { readings: () => readings.taken(), faults: () => job.document, soundness: () => job.document, figures: () => job.document, pages: () => job.document, deliver: () => job.document };

function showSteps(name, faulty) {
  const steps = one("#job-steps"), document_ = job.document && !faulty;
  steps.hidden = !needs[name] || !(document_ || readings.taken());
  one("#job-name").hidden = !needs[name];
  for (const link of steps.querySelectorAll("a")) {
    link.parentElement.hidden = !(link.hash === "#readings" ? readings.taken() : document_);
    if (link.hash === "#" + name) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
}

/* What a screen shows beyond the job at hand: its name, and after "=" what of. */
const opened = { archive: archive.open, machine: archive.openMachine, record: record.open, compare: compare.open };

async function openFor(name, what) {
  try {
    await opened[name](what);
  } catch (error) {
    one("#h-" + name).textContent = error.problem?.code === "no-records" ? "This service keeps no records: it was started without a folder for them." : error.message;
  }
  document.title = `${one("#h-" + name).textContent} – wayfolio`;
}

function showEverywhere(name) {
  const here = { archive: "archive", machine: "archive", record: "archive", compare: "archive", verdict: "start", start: "start" }[name];
  for (const link of one("#everywhere").querySelectorAll("a")) {
    if (link.hash === "#" + here) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
}

async function show() {
  const [wanted, what] = (location.hash.slice(1) || "start").split("=").map(decodeURIComponent), needed = needs[wanted];
  if (needed && !needed()) await reopen();
  const screen = screens.find((one) => one.dataset.screen === wanted && (!needed || needed())) ?? screens[0];
  const changed = screen.hidden;
  for (const one of screens) one.hidden = one !== screen;
  const name = screen.dataset.screen, faulty = job.findings?.faults.length > 0;
  showSteps(name, faulty);
  showEverywhere(name);
  document.title = `${screen.querySelector("h1").textContent} – wayfolio`;
  if (changed) { scrollTo(0, 0); one("#main").focus(); }
  if (name === "faults") goToFault();
  if (name === "start") await offerKept();
  if (name === "figures" && !faulty) await figures.open(job.document).catch((error) => { one("#h-figures").textContent = error.message; });
  if (name === "pages" && !faulty) await pages.open();
  if (opened[name]) await openFor(name, what);
}

async function reopen() {
  const last = await kept();
  if (!last) return;
  begin(last);
  try {
    if (last.readings) await readings.take(last.readings);
    if (last.document) await check();
  } catch (error) {
    refuse(error.message, "");
  }
}

async function offerKept() {
  const last = await kept();
  one("#kept-job").hidden = !last;
  if (!last) return;
  one("#kept-open").textContent = "Go on with " + last.name;
  one("#kept-open").hash = last.document ? "soundness" : "readings";
}

/* The document with a reading set aside, or back in it. */
async function changeDocument(file) {
  job.document = file;
  pages.forget();
  await keep();
  await check();
}

archive.prepare(ask);
compare.prepare(ask);
record.prepare(ask, parts, pages.chosen);
pages.prepare(ask, parts);
figures.prepare(ask, changeDocument, parts);
readings.prepare(ask, (file, account) => takeDocument(file, [], account), keep, () => {
  const readings = figures.asideCount();
  return readings ? `${count(readings, "reading")} set aside here would count again.` : "";
});
one("#place").textContent = location.host;
one("#files").addEventListener("change", (event) => { take([...event.target.files]); event.target.value = ""; });
one("#next-fault").addEventListener("click", () => nextFault(1));
addEventListener("keydown", (event) => {
  if (!event.altKey || one("[data-screen=faults]").hidden || !["ArrowDown", "ArrowUp"].includes(event.key)) return;
  event.preventDefault();
  nextFault(event.key === "ArrowDown" ? 1 : -1);
});
one("#save-document").addEventListener("click", () => hand(job.document, job.name));
one("#discard").addEventListener("click", async () => {
  await browser.discard();
  readings.forget();
  begin({ name: "", document: null, files: [] });
  say("Discarded.");
  show();
});
one("#token-form").addEventListener("submit", (event) => {
  event.preventDefault();
  showToken(one("#token").value);
  one("#token").value = "";
  location.hash = "start";
});
let held = 0;
const over = (by) => { held = Math.max(0, held + by); one("#drop").classList.toggle("over", held > 0); };
addEventListener("dragenter", (event) => { event.preventDefault(); over(1); });
addEventListener("dragleave", () => over(-1));
addEventListener("dragover", (event) => event.preventDefault());
addEventListener("drop", (event) => { event.preventDefault(); over(-held); if (event.dataTransfer.files.length) take([...event.dataTransfer.files]); });
addEventListener("hashchange", show);
if (new URLSearchParams(location.search).has("preview")) watch(ask, refresh);
else show();
