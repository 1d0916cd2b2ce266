/* The job at hand: what came, what was changed since, and what the service says of it. Each change is kept and can be undone. */
import { ask } from "/basics/ask.js";
import { notice, one, say } from "/basics/dom.js";
import { difference, undone } from "/basics/json_text.js";
import { clock } from "/basics/printed.js";
import * as browser from "/job/kept.js";

const nothing = { id: "", kept: 0, name: "", document: null, files: [], account: "", readings: null, choices: {}, changes: [], about: null, stands: "" };

/* `findings` and `reads_only` (why nothing can be changed here) are of this window. */
export const job = { ...nothing, findings: null, reads_only: "" };

/* Each hears of a document that is another one, of new findings, and of whether the job may be changed. */
const heard = { document: [], findings: [], reads: [] };
export const when = (what, act) => heard[what].push(act);
const tell = (what, ...about) => heard[what].forEach((act) => act(...about));

export function parts(document = job.document) {
  const form = new FormData();
  form.append("document", document, job.name);
  for (const file of job.files) form.append("file", file, file.name);
  return form;
}

export const faulty = () => (job.findings?.faults.length ?? 0) > 0;

/* @throws where it is not UTF-8: letters that cannot be read may not be replaced in silence. */
export const textOf = async (file) => new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(await file.arrayBuffer());

/* The document as JSON; nothing where it is none. */
export async function parsed() {
  try {
    return JSON.parse((await textOf(job.document)).replace(/^\ufeff/, ""));
  } catch {
    return null;
  }
}

/* ---- keeping ---- */

function readOnly(why) {
  job.reads_only = why;
  one("#reads-only").hidden = !why;
  one("#reads-only").textContent = why;
  document.body.classList.toggle("reads-only", Boolean(why));
  if (why) say(why);
  tell("reads");
}

const elsewhere = "This job is open in another window of this browser. Here it can be looked at; changes are made there.";

function hold() {
  browser.remember(job.id);
  const { id } = job;
  browser.hold(id, async (mine, later) => {
    if (job.id !== id) return;
    if (later) await bring(id);  // with what the other window has changed
    readOnly(mine ? "" : elsewhere);
  });
}

let keeping = Promise.resolve();

/* One after the other: each counts on the one before. */
export function keep() {
  keeping = keeping.then(write, write);
  return keeping;
}

async function write() {
  if (!job.id || job.reads_only) return;
  const { findings, reads_only, ...whole } = job;
  try {
    const kept = await browser.keep(whole);
    if (job.id !== whole.id) return;
    job.kept = kept;
    one("#kept").textContent = "Kept in this browser, " + clock(Date.now());
    notice("");
  } catch (error) {
    if (error instanceof browser.KeptElsewhere) return readOnly("Another window of this browser has changed this job since, and nothing of that is overwritten. The last change here is not kept: save the result document to have it, or reload to go on with the other.");
    one("#kept").textContent = "Not kept";
    notice("This browser refuses to keep anything: what you dropped is gone when this page is closed. Save the result document before.");
  }
}

/* ---- coming and going ---- */

const newId = () => [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, "0")).join("");

/* Another job: nothing of the one before may stand beside it. */
export function begin(given) {
  Object.assign(job, nothing, { files: [], choices: {}, changes: [] }, given, { id: newId(), kept: 0, findings: null, reads_only: "" });
  readOnly("");
  hold();
  tell("document", null);
}

/* The document that the readings of this job give; one made before is replaced. */
export async function make(document, account) {
  if (job.reads_only) return;
  Object.assign(job, { name: document.name, document, account, changes: [], findings: null });
  tell("document", {});
  await keep();
  await check();
}

/* A document from the disk as it stands now: it is changed there. */
export function preview(document, files) {
  Object.assign(job, nothing, { name: document.name, document, files, choices: job.choices, changes: [], findings: null });
  if (!job.reads_only) readOnly("This is the document as it stands on the disk: it is changed there, and shown again at each save.");
  tell("document", null);
}

async function bring(id) {
  const last = await browser.read(id);
  if (!last) return false;
  Object.assign(job, nothing, last, { findings: null });
  tell("document", null);
  if (job.document) await check().catch(() => {});
  return true;
}

/* The job that this window was at, or in a new window the latest; whether there is one. */
export async function reopen() {
  const id = browser.remembered(), last = id ? await browser.read(id).catch(() => undefined) : (await browser.all().catch(() => []))[0];
  if (!last) return false;
  Object.assign(job, nothing, last, { findings: null, reads_only: "" });
  hold();
  tell("document", null);
  return true;
}

export function leave() {
  Object.assign(job, nothing, { files: [], choices: {}, changes: [], findings: null });
  one("#kept").textContent = "";
  readOnly("");
  tell("document", null);
}

/* ---- what the service says of it ---- */

let checks = 0, looked = null;

/* Whether the findings are of the document as it is now, and not of the one before the last change. */
export const checked = () => Boolean(job.findings) && looked === job.document;

export async function check() {
  const number = ++checks, about = job.document, found = await (await ask("/v1/check", parts())).json();
  if (number !== checks || job.document !== about) return;  // another one came in between
  [job.findings, looked] = [found, about];
  await describe();
  tell("findings");
}

/* What a list of jobs says of this one. */
async function describe() {
  const document = await parsed(), found = job.findings, before = JSON.stringify([job.about, job.stands]);
  const machine = [document?.machine?.kind, document?.machine?.serial].filter(Boolean).join(", ");
  job.about = { number: String(document?.job?.number ?? ""), machine, measured: String(document?.job?.measured?.from ?? "").slice(0, 10) };
  job.stands = found.faults.length ? `${found.faults.length} to mend` : [found.before_leaving.filter((one_) => one_.at_machine).length && "open at the machine", found.lacking.length && "entries lacking"].filter(Boolean).join(", ") || "nothing open";
  one("#job-name").textContent = [job.about.number || job.name, machine].filter(Boolean).join(", ");
  if (before !== JSON.stringify([job.about, job.stands])) await keep();  // only looked at, a job is not written
}

/* ---- changes ---- */

const named = (text) => new File([text], job.name, { type: "application/json" });

let editing = Promise.resolve();

/* One after the other, each on what the one before has left; the answer is whether something was changed. */
function edit(how, what) {
  const { id } = job;
  const edited = editing.then(async () => {
    if (job.reads_only || job.id !== id) return false;
    const was = await textOf(job.document), now = how(was);
    if (now === was) return false;
    if (what) job.changes = [...job.changes, { ...what, ...difference(was, now) }];
    job.document = named(now);
    return true;
  });
  editing = edited.catch(() => {});
  return edited;
}

async function tellChanged(what) {
  tell("document", what);
  await keep();
  await check();
}

/* Changes the text of the document. `what` says in words what was done; its `kind` is entry or aside. */
export async function change(how, what) {
  if (await edit(how, what)) await tellChanged(what);
}

export async function undo() {
  const last = job.changes.at(-1);
  if (!last || !(await edit((text) => undone(text, last)))) return;
  job.changes = job.changes.filter((change_) => change_ !== last);
  await tellChanged({});
  say("Undone: " + last.words);
}
