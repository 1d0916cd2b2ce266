/* The jobs that this browser keeps: one to go on with, and what to discard. */
import { about, ask } from "/basics/ask.js";
import { button, cell, link, made, one, rowHead, rowOf, say } from "/basics/dom.js";
import { clock } from "/basics/printed.js";
import * as browser from "/job/kept.js";
import * as work from "/job/work.js";

/* What was discarded here, until the page is closed. */
let discarded = [];

const titleOf = (job) => job.about?.number || job.name;

function when(time) {
  const day = new Date(time), today = new Date().toDateString() === day.toDateString();
  return today ? "today, " + clock(day) : [day.getFullYear(), day.getMonth() + 1, day.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
}

const stands = (job) => (job.document ? job.stands || "not checked yet" : "what each column is");

async function discard(job) {
  await browser.discard(job.id);
  discarded.push(job);
  if (work.job.id === job.id) work.leave();
  await open();
  say(`${titleOf(job)} was discarded from this browser.`);
  one("#bring-back").focus();
}

function row(job) {
  const go = link(titleOf(job), job.document ? "soundness" : "readings"), name = titleOf(job);
  go.addEventListener("click", () => { if (work.job.id !== job.id) { work.leave(); browser.remember(job.id); } });
  const away = button("Discard", () => discard(job));
  away.setAttribute("aria-label", "Discard " + name);
  return rowOf(rowHead(go), cell("about", job.about?.machine || job.name), cell("measured", job.about?.measured || "–"), cell("stands at", stands(job)), cell("last changed", when(job.changed)), cell("", away));
}

async function bringBack() {
  const job = discarded.pop();
  await browser.bringBack(job);
  await open();
  say(`${titleOf(job)} is back.`);
  one("#jobs a")?.focus();
}

/* ---- what the service has: its archive, and documents to try it with ---- */

let take = null;

/* `takeDocument` gets a document and the files that it names. */
export const prepare = (takeDocument) => { take = takeDocument; };

async function openSample({ name, files }) {
  const said = one("#samples-said"), file = async (called) => new File([await (await ask("/v1/samples/" + encodeURIComponent(called))).blob()], called);
  said.textContent = `Opening ${name}.`;
  try {
    await take(await file(name), await Promise.all(files.map(file)));
    said.textContent = "";
  } catch (error) {
    said.textContent = error.message;
  }
}

async function showService() {
  const service = await about();
  const kept = [service?.records && "the records that you file", service?.batches && "the batches that you post"].filter(Boolean);
  if (kept.length) one("#keeps").textContent = `It keeps ${kept.join(" and ")}, and nothing else once it has answered.`;
  one("#look-box").hidden = !service?.records;
  if (!service?.samples) { one("#samples-box").hidden = true; return; }
  const samples = await (await ask("/v1/samples")).json();
  one("#samples-box").hidden = samples.length === 0;
  one("#samples").replaceChildren(...samples.map((sample) => made("li", button(sample.title || sample.name, () => openSample(sample), "line sample"))));
}

one("#look").addEventListener("submit", (event) => {
  event.preventDefault();
  location.hash = "archive=" + encodeURIComponent(new URLSearchParams({ [one("#look-by").value]: one("#look-for").value.trim() }));
});

const noJobs = one("#no-jobs").textContent, notShown = "This browser does not show what it keeps. Load the page again; if that changes nothing, it keeps nothing.";

export async function open() {
  showService().catch(() => { one("#samples-box").hidden = true; });
  const kept = await browser.all().catch(() => null), jobs = kept ?? [], last = discarded.at(-1);
  one("#jobs").replaceChildren(...jobs.map(row));
  one("#jobs-box").hidden = jobs.length === 0;
  one("#no-jobs").hidden = jobs.length > 0;
  one("#no-jobs").textContent = kept ? noJobs : notShown;
  one("#discarded").hidden = !last;
  if (last) one("#discarded-what").replaceChildren(made("b", titleOf(last)), " was discarded from this browser.");
}

/* The job at hand, after it was delivered. */
export async function discardThis() {
  const job = await browser.read(work.job.id);
  location.hash = "start";
  if (job) await discard(job);
}

one("#bring-back").addEventListener("click", bringBack);
