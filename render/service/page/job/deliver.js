/* What a job gives: to take away, and to file. */
import { placeOf } from "/archive/archive.js";
import { ask, tagOf } from "/basics/ask.js";
import { button, cell, entitle, facts, hand, link, make, made, one, rowHead, rowOf, say } from "/basics/dom.js";
import { put, taken } from "/basics/json_text.js";
import * as approve from "/job/approve.js";
import * as form from "/job/form.js";
import { chosen } from "/job/pages.js";
import { discardThis } from "/job/recent.js";
import * as work from "/job/work.js";

const { job } = work;
const stem = () => job.name.replace(/\.json$/i, "");
const size = (bytes) => (bytes < 1e6 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`);

async function give(said, words, name, make_) {
  said.textContent = words;
  say(words);
  try {
    const blob = await make_();
    hand(blob, name);
    said.textContent = `${name}, ${size(blob.size)}, was given to the browser to save.`;
  } catch (error) {
    said.textContent = error.message;
  }
  say(said.textContent);
}

const answered = async (path) => (await ask(path, work.parts())).blob();

const takeAway = [
  ["Record", "for keeping: document, report, figures, numbers and fonts with their digests", async (said) => give(said, "Packing the record.", stem() + ".zip", async () => answered("/v1/record?" + (await chosen())))],
  ["Numbers", "every evaluated value, unrounded, as JSON", (said) => give(said, "Evaluating.", stem() + " numbers.json", () => answered("/v1/evaluation"))],
  ["Certificate draft", "machine-readable (XML), without signature", (said) => give(said, "Writing the draft.", stem() + ".xml", () => answered("/v1/certificate"))],
];

function fill() {
  if (one("#take-away").childElementCount) return;
  one("#take-away").append(...takeAway.map(([name, words, act]) => {
    const said = make("p", "", "grey"), save = button("Save", () => act(said).catch((error) => { said.textContent = error.message; }));
    save.setAttribute("aria-label", "Save: " + name);
    return rowOf(rowHead(name), cell("", made("div", words, said)), cell("", save));
  }));
}

const revisionOf = (document) => Number(document?.job?.revision ?? 0);

/* The next revision replaces this one; when it is issued, and why, is for a person to say. */
async function correct() {
  const of = (await work.parsed()).job ?? {}, number = revisionOf({ job: of });
  const replaces = JSON.stringify({ number: of.number, revision: number, issued: of.issued });
  form.lookAt("/job/replaces/reason");
  await work.change((text) => taken(put(put(text, ["job", "revision"], String(number + 1)), ["job", "replaces"], replaces), ["job", "issued"]), { kind: "entry", words: `revision ${number + 1} was begun` });
  location.hash = "form";
}

export async function open() {
  const document = await work.parsed(), listed = (list) => (list.length ? String(list.length) : "none");
  fill();
  entitle("#h-deliver", "The report carries all that it was made from.");
  one("#save-document").textContent = `Save ${job.name}`;
  one("#correct").textContent = `Begin revision ${revisionOf(document) + 1}`;
  one("#correct").disabled = Boolean(job.reads_only);
  approve.show(document);
  if (!work.checked()) await work.check();
  const stated = (value) => String(value ?? "not stated");
  one("#deliver-state").replaceChildren(facts([["status", stated(document?.job?.status)], ["revision", stated(document?.job?.revision)], ["issued", stated(document?.job?.issued)], ["findings", listed(job.findings.before_leaving)], ["lacking", listed(job.findings.lacking)]]));
  await showFingerprint();
}

/* Of the report as it would be saved now: document, layout, paper and program give it. In groups for reading, without blanks for copying. */
async function showFingerprint() {
  const box = one("#fingerprint"), about = job.document, query = await chosen();
  box.textContent = "Computing it.";
  one("#copied").textContent = "";
  one("#copy-fingerprint").hidden = true;
  try {
    const digits = await tagOf("/v1/report?" + query, work.parts());
    if (about !== job.document || query !== await chosen()) return;  // a later one is on its way
    box.replaceChildren(...digits.match(/.{4}/g).map((group) => make("span", group)));
    one("#copy-fingerprint").hidden = !navigator.clipboard;
    one("#copy-fingerprint").onclick = () => navigator.clipboard.writeText(digits).then(() => { one("#copied").textContent = "Copied."; }, () => { one("#copied").textContent = "The browser refuses to copy: mark the digits."; });
  } catch (error) {
    box.textContent = error.message;
  }
}

async function file() {
  const said = one("#filed");
  said.textContent = "Filing the record.";
  try {
    const filed = await (await ask("/v1/records?" + (await chosen()), work.parts())).json();
    said.replaceChildren(filed.filed === "now" ? "Filed as " : "It had been filed before, as ", link(`${filed.job}, revision ${filed.revision}`, placeOf(filed)), ".");
  } catch (error) {
    const fault = error.problem?.faults?.[0];
    said.textContent = error.problem?.code === "no-records" ? "This service keeps no records: it was started without a folder for them." : fault ? `Not filed: found ${fault.found}; expected ${fault.expected}.` : error.message;
  }
}

one("#save").addEventListener("click", async () => give(one("#saved"), "Making the report.", stem() + ".pdf", async () => answered("/v1/report?" + (await chosen()))));
one("#save-document").addEventListener("click", () => hand(job.document, job.name));
one("#file-record").addEventListener("click", file);
one("#correct").addEventListener("click", () => correct().catch((error) => { one("#saved").textContent = error.message; }));
one("#discard-this").addEventListener("click", () => discardThis().catch((error) => say(error.message)));
work.when("findings", () => { if (!one("[data-screen=deliver]").hidden && !work.faulty()) open().catch((error) => say(error.message)); });
work.when("document", (changed) => { if (!changed) one("#saved").textContent = one("#filed").textContent = ""; });
