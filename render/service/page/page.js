/* The page of the service: a document comes in, is checked, looked at and delivered. This part shows one screen after another. */
import { about, ask, listen, showToken } from "/basics/ask.js";
import { count, entitle, hand, notice, one, say } from "/basics/dom.js";
import { clock } from "/basics/printed.js";
import * as archive from "/archive/archive.js";
import * as batches from "/archive/batches.js";
import * as compare from "/archive/compare.js";
import * as record from "/archive/record.js";
import * as deliver from "/job/deliver.js";
import * as faults from "/job/faults.js";
import * as figures from "/job/figures.js";
import * as form from "/job/form.js";
import * as pages from "/job/pages.js";
import { watch } from "/job/preview.js";
import * as readings from "/job/readings.js";
import * as recent from "/job/recent.js";
import * as soundness from "/job/soundness.js";
import "/job/template.js";
import { arrive, takeDocument } from "/job/take.js";
import * as work from "/job/work.js";

const { job } = work;
const screens = [...document.querySelectorAll("[data-screen]")];

/* What a screen needs before it can be shown, and what then fills it. */
const hasDocument = () => job.document, hasReadings = () => job.readings;
const ofJob = {
  readings: { needs: hasReadings, open: readings.open },
  faults: { needs: hasDocument, open: faults.open },
  soundness: { needs: hasDocument, open: soundness.open },
  form: { needs: hasDocument, open: form.open },
  figures: { needs: hasDocument, open: figures.open },
  pages: { needs: hasDocument, open: pages.open },
  deliver: { needs: hasDocument, open: deliver.open },
};
const others = { start: recent.open, archive: archive.open, machine: archive.openMachine, batches: batches.open, batch: batches.openOne, record: record.open, compare: compare.open };

/* What of a job with faults can be shown. */
const ofFaulty = ["readings", "faults", "form"];

const current = (element, is) => (is ? element.setAttribute("aria-current", "page") : element.removeAttribute("aria-current"));

function showSteps(name) {
  const steps = one("#job-steps");
  steps.hidden = !ofJob[name];
  one("#job-name").hidden = one("#kept").hidden = !ofJob[name];
  one("#reads-only").hidden = !ofJob[name] || !job.reads_only;
  for (const step of steps.querySelectorAll("a")) {
    const of = step.hash.slice(1);
    step.parentElement.hidden = of === "readings" ? !job.readings : !job.document || (work.faulty() ? !ofFaulty.includes(of) : of === "faults");
    current(step, of === name);
  }
}

const places = { archive: "archive", machine: "archive", record: "archive", compare: "archive", batches: "batches", batch: "batches", verdict: "verdict", start: "start" };

/* Also what a link to a screen of a job leads to that has none, or faults. */
async function screenOf(wanted) {
  const of = ofJob[wanted];
  if (of && !of.needs() && !(await work.reopen())) return "start";
  if (of?.needs() && shows === 1) reveal(wanted);  // a page that was loaded again shows where it was, while the service looks
  if (of && job.document && !job.findings) await work.check().catch(() => {});
  if (of && !of.needs()) return "start";
  if (of && work.faulty() && !ofFaulty.includes(wanted)) return "faults";
  return screens.some((one_) => one_.dataset.screen === wanted) ? wanted : "start";
}

let shows = 0;

function reveal(name) {
  const screen = screens.find((one_) => one_.dataset.screen === name), changed = screen.hidden;
  for (const one_ of screens) one_.hidden = one_ !== screen;
  showSteps(name);
  for (const place of one("#everywhere").querySelectorAll("a")) current(place, place.hash === "#" + places[name]);
  document.title = `${screen.querySelector("h1").textContent} – wayfolio`;
  if (changed) { scrollTo(0, 0); one("#main").focus(); }
  return screen;
}

async function show() {
  const [wanted, what] = (location.hash.slice(1) || "start").split("=").map(decodeURIComponent), number = ++shows;
  batches.leave();
  about().then((service) => { one("#to-batches").hidden = !service?.batches; });
  const name = await screenOf(wanted);
  if (number !== shows) return;
  const screen = reveal(name);
  await (ofJob[name]?.open ?? others[name])?.(what);
  if (number === shows) document.title = `${screen.querySelector("h1").textContent} – wayfolio`;
}

/* Why a screen could not be filled stands where its sentence stands. */
async function showSafely() {
  try {
    await show();
  } catch (error) {
    const screen = screens.find((one_) => !one_.hidden), told = { "no-records": "This service keeps no records: it was started without a folder for them.", "no-batches": "This service takes no batches: it was started without a file for them." };
    entitle("#" + screen.querySelector("h1").id, told[error.problem?.code] ?? error.message);
  }
}

function counted() {
  const found = job.findings, open = found && !work.faulty() ? { soundness: found.before_leaving.length, form: found.lacking.length } : { soundness: 0, form: 0 };
  for (const [step, number] of [...Object.entries(open), ["faults", found?.faults.length ?? 0]]) {
    const told = one(`#job-steps a[href="#${step}"] .n`);
    told.textContent = number || "";
    told.hidden = !number;
  }
  const shown = screens.find((one_) => !one_.hidden)?.dataset.screen;
  if (ofJob[shown]) showSteps(shown);
  if (ofJob[shown] && work.faulty() && !ofFaulty.includes(shown) && work.checked()) location.hash = "faults";
}

function lost(since) {
  const box = one("#lost");
  box.hidden = false;
  one("#lost-since").textContent = `${location.host} does not answer since ${clock(since)}.`;
  one("#lost-save").hidden = !job.document;
  one("#lost-save").textContent = `Save ${job.name}`;
  say(one("#lost-since").textContent);
}

/* What had to wait goes on: the check of what was changed meanwhile, and the screen that is shown. */
async function back() {
  one("#lost").hidden = true;
  notice("");
  say("The service answers again.");
  if (job.document) await work.check().catch(() => {});
  await showSafely();
}

function busy(seconds) {
  notice(`The service is busy; it is asked again in ${count(seconds, "second")}.`);
  setTimeout(() => notice(""), seconds * 1000);
}

/* Where it was wanted, it goes on once the token was shown. */
let wantedBefore = "";

function locked() {
  const here = location.hash.slice(1);
  if (here !== "token") wantedBefore = here;
  location.hash = "token";
}

function unlocked() {
  const waits = job.document ? "soundness" : job.readings ? "readings" : "start";
  location.hash = ["", "start"].includes(wantedBefore) ? waits : wantedBefore;
}

listen({ lost, back, busy, locked });
work.when("findings", counted);
work.when("document", (changed) => { if (!changed) { job.findings = null; counted(); } });
one("#lost-save").addEventListener("click", () => hand(job.document, job.name));
one("#place").textContent = location.host;
one("#token-form").addEventListener("submit", (event) => {
  event.preventDefault();
  showToken(one("#token").value);
  one("#token").value = "";
  unlocked();
});
arrive(showSafely);
recent.prepare(takeDocument);
addEventListener("hashchange", showSafely);
if (new URLSearchParams(location.search).has("preview")) watch(ask, async (file, files) => {
  work.preview(file, files);
  await work.check();
  const here = location.hash.slice(1), next = work.faulty() ? "faults" : ["", "start", "faults"].includes(here) ? "pages" : here;
  if (next !== here) location.hash = next;
  await show();
});
else showSafely();
