/* Whatever is dropped or chosen: what it is decides where it goes. */
import { about, requireRoom } from "/basics/ask.js";
import { count, one, say } from "/basics/dom.js";
import { unpacked } from "/basics/unpack.js";
import * as batches from "/archive/batches.js";
import * as compare from "/archive/compare.js";
import { showRecord, showReport } from "/archive/verdict.js";
import * as readings from "/job/readings.js";
import * as work from "/job/work.js";

let show = null;

function refuse(what, hint) {
  one("#refused").hidden = false;
  one("#refused-what").textContent = what;
  one("#refused-hint").textContent = hint;
  go("start");
}

/* To a screen, also where its address is the one already. */
function go(name) {
  if (location.hash === "#" + name) show();
  else location.hash = name;
}

const exports = [".csv", ".txt", ".tsv", ".dat", ".asc", ".xlsx", ".ods"], packed = [".zip", ".tar", ".tar.gz", ".tgz"];
const is = (file, ...endings) => endings.some((ending) => file.name.toLowerCase().endsWith(ending));

/* What a JSON file is says its format; what says none is taken for a document, whose faults are then told. */
async function formatOf(file) {
  try {
    return JSON.parse(await file.text()).format ?? "";
  } catch {
    return "";
  }
}

async function sorted(files) {
  const kinds = { "wayfolio-mapping": [], "wayfolio-facts": [], document: [], report: [], record: [], other: [] };
  for (const file of files) {
    const kind = is(file, ".pdf") ? "report" : is(file, ...packed) ? "record" : is(file, ".json") ? await formatOf(file) : "other";
    (kinds[kind] ?? kinds.document).push(file);
  }
  return kinds;
}

/* Whether a document names all of these files; else they are readings that are added to it. */
async function namesAll(document, files) {
  const text = await document.text();
  return files.every((file) => text.includes(JSON.stringify(file.name)));
}

async function sort(files) {
  const { "wayfolio-mapping": mappings, "wayfolio-facts": facts, document: documents, report: reports, record: records, other } = await sorted(files);
  const [document] = documents, few = mappings.length <= 1 && documents.length <= 1 && reports.length === 0 && records.length === 0;
  const readable = few && other.length > 0 && other.every((file) => is(file, ...exports));
  const whole = document && !mappings.length && !facts.length && (!readable || (await namesAll(document, other)));
  if (whole && few) return takeDocument(document, other);
  if (readable) return takeExports({ exports: other, facts, into: document ?? null, mapping: mappings.length ? await mappings[0].text() : null });
  if (documents.length === 2 && files.length === 2) return compareTwo(documents);
  if (documents.length > 2 && !mappings.length && !facts.length && !reports.length && !records.length && (await about())?.batches) return takeBatch(documents, other);
  if (reports.length === 1 && files.length === 1) return takeReport(reports[0]);
  if (records.length === 1 && files.length === 1) return takeRecord(records[0]);
  return refuse(`${files.map((file) => file.name).join(", ")} cannot be read here.`, "Expected exports of readings, alone or with one mapping and facts; one result document (.json) with the files that it names; two of them to compare; one report (.pdf); or one record (.zip, .tar).");
}

/* The first fault of a problem, in a line. */
function whatIsWrong(problem) {
  const fault = problem?.faults?.[0];
  return fault ? `${fault.file ?? ""}: found ${fault.found}; expected ${fault.expected}` : "";
}

/* Some files by their names, many by their number. */
const called = (files) => (files.length > 4 ? `These ${files.length} files` : files.map((file) => file.name).join(", "));

async function take(files) {
  one("#refused").hidden = true;
  try {
    await sort(files);
  } catch (error) {
    if (error.problem?.status === 401) return;  // its token is asked for
    if (error.problem?.code === "too-large") return refuse(`${called(files)}. ${error.message}`, error.problem.hint ?? "Drop the runs of one axis at a time.");
    const words = error.problem?.code === "faulty-input" ? `${files.map((file) => file.name).join(", ")} cannot be read.` : error.message;
    refuse(words, whatIsWrong(error.problem) || "Nothing was lost: what you dropped is where it was.");
  }
}

async function takeExports(given) {
  const { taken } = await looking("Looking at " + count(given.exports.length, "file"), () => readings.propose(given));
  work.begin({ name: given.into?.name ?? given.exports[0].name, readings: taken });
  await work.keep();
  go("readings");
}

/* What takes a moment is said where it was asked for. */
async function looking(words, act) {
  one("#reading").textContent = words + " …";
  say(words);
  try {
    return { taken: await act() };
  } finally {
    one("#reading").textContent = "";
  }
}

/* What could never be sent begins no job. */
async function requireSendable(files) {
  const form = new FormData();
  for (const file of files) form.append("file", file, file.name);
  await requireRoom("/v1/check", form);
}

export async function takeDocument(file, files) {
  await requireSendable([file, ...files]);
  work.begin({ name: file.name, document: file, files });
  await work.keep();
  await looking("Checking " + file.name, work.check);
  go(work.faulty() ? "faults" : "soundness");
}

async function compareTwo(documents) {
  await looking("Comparing " + documents.map((file) => file.name).join(" and "), () => compare.between(documents));
  go("compare");
}

async function takeBatch(documents, files) {
  const { taken } = await looking(`Posting ${count(documents.length, "document")}`, () => batches.post(documents, files));
  go("batch=" + taken);
}

async function takeReport(file) {
  await looking("Checking " + file.name, () => showReport(file));
  go("verdict");
}

async function takeRecord(file) {
  const { taken: files } = await looking("Unpacking " + file.name, async () => {
    try {
      return await unpacked(file);
    } catch (error) {
      throw new Error(`${file.name} cannot be unpacked: ${error.message}.`);
    }
  });
  const report = await showRecord(file.name, files, takeDocument);
  if (!report) return refuse(`${file.name} holds no record.`, "Expected what wayfolio, or this service, packed as a record: revision-0/data/report.pdf and what lies beside it. Exports are dropped unpacked.");
  go("verdict");
}

/* What is pasted anywhere but in a field: files, or the text of one. */
function pasted(event) {
  if (event.target.closest?.("input, textarea")) return;
  const text = event.clipboardData.getData("text"), files = [...event.clipboardData.files];
  if (files.length) take(files);
  else if (text.trim()) take([new File([text], text.trim().startsWith("{") ? "pasted.json" : "pasted.txt")]);
}

/* Files chosen, or dropped anywhere on the page; `showing` shows the screen of the address. */
export function arrive(showing) {
  show = showing;
  readings.prepare(go);
  for (const input of [one("#files"), one("#report-file")]) input.addEventListener("change", () => { take([...input.files]); input.value = ""; });
  addEventListener("paste", pasted);
  let held = 0;
  const over = (by) => { held = Math.max(0, held + by); one("#drop").classList.toggle("over", held > 0); };
  addEventListener("dragenter", (event) => { event.preventDefault(); over(1); });
  addEventListener("dragleave", () => over(-1));
  addEventListener("dragover", (event) => event.preventDefault());
  addEventListener("drop", (event) => { event.preventDefault(); over(-held); if (event.dataTransfer.files.length) take([...event.dataTransfer.files]); });
}
