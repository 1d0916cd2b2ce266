/* The page of the service: a document comes in, is checked, looked at and delivered. What stands in it is only ever set as text. */
import { ask as asked, showToken } from "/ask.js";
import * as browser from "/kept.js";

const one = (selector) => document.querySelector(selector);
const make = (name, words, className) => Object.assign(document.createElement(name), { textContent: words ?? "", className: className ?? "" });
const screens = [...document.querySelectorAll("[data-screen]")];
const job = { name: "", document: null, files: [], findings: null };

/* Announced, for those who do not see what changed. */
const say = (words) => { one("#say").textContent = words; };

/* Told to everybody, until it is no longer so. */
function notice(words) {
  one("#notice").textContent = words;
  if (words) say(words);
}

const ask = (path, body) => asked(path, body, (seconds) => say(`The service is busy; asked again in ${seconds} seconds.`));
const kept = () => browser.kept().catch(() => undefined);

const count = (number, word, words) => `${number} ${number === 1 ? word : words ?? word + "s"}`;

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

const is = (file, ending) => file.name.toLowerCase().endsWith(ending);

async function take(files) {
  one("#refused").hidden = true;
  const documents = files.filter((file) => is(file, ".json")), reports = files.filter((file) => is(file, ".pdf"));
  try {
    if (documents.length === 1) await takeDocument(documents[0], files.filter((file) => file !== documents[0]));
    else if (documents.length === 0 && reports.length === 1 && files.length === 1) await takeReport(reports[0]);
    else refuse(`${files.map((file) => file.name).join(", ")} cannot be read here.`, "Expected one result document (.json) with the files that it names, or one report (.pdf). Exports of readings become a document by the command gather.");
  } catch (error) {
    refuse(error.message, "Nothing was lost: what you dropped is where it was.");
  }
}

/* Another job: nothing of the one before may stand beside it. */
function begin({ name, document, files }) {
  Object.assign(job, { name, document, files, findings: null });
  one("#job-name").textContent = name;
  forgetPages();
}

async function takeDocument(file, files) {
  begin({ name: file.name, document: file, files });
  say("Checking " + file.name);
  await browser.keep(job).then(() => notice(""), () => notice("This browser refuses to keep anything: what you dropped is gone when this page is closed."));
  await check();
  location.hash = job.findings.faults.length ? "faults" : "soundness";
  show();
}

async function check() {
  job.findings = await (await ask("/v1/check", parts())).json();
  if (job.findings.faults.length) await showFaults();
  else showSoundness();
}

async function takeReport(file) {
  say("Checking " + file.name);
  const form = new FormData();
  form.append("pdf", file, file.name);
  const verdict = await (await ask("/v1/verification", form)).json();
  one("#h-verdict").textContent = verdict.sound ? "Nothing shows that this report was changed since it was made." : "This report is not as it was made.";
  one("#verdict-file").textContent = `${file.name}, fingerprint ${verdict.fingerprint.replace("sha256:", "").slice(0, 16) || "not readable"}`;
  const words = { holds: "holds", does_not_hold: "does not hold", not_shown: "not shown" };
  one("#checks").replaceChildren(...verdict.checks.map((check) => {
    const row = make("tr"), what = make("th", check.what), outcome = make("td", words[check.outcome] ?? check.outcome);
    what.scope = "row";
    if (check.outcome !== "holds") for (const detail of check.details) outcome.append(make("p", detail, "grey"));
    row.append(what, outcome);
    return row;
  }));
  location.hash = "verdict";
  show();
}

/* ---- faults: beside the text ---- */

let fault = 0;

/* Columns of the service count bytes of UTF-8; text is shown by letters. */
function placeOf(column, text) {
  return new TextDecoder().decode(new TextEncoder().encode(text).slice(0, Math.max(0, column - 1))).length;
}

/* A line with every fault of it marked: `marked` holds the faults' numbers by column. */
function lineOf(text, marked) {
  const words = make("span");
  let done = 0;
  for (const [column, number] of [...marked].sort(([a], [b]) => a - b)) {
    const from = placeOf(column, text), length = /^("(\\.|[^"\\])*"|[^\s,\]}:]+|.)/.exec(text.slice(from))?.[0].length ?? 0;
    const mark = make("mark", text.slice(from, from + length) || " ");
    mark.id = "fault-" + number;
    words.append(text.slice(done, from), mark);
    done = from + length;
  }
  words.append(text.slice(done));
  return words;
}

async function showFaults() {
  const faults = job.findings.faults, lines = (await job.document.text()).split("\n"), marks = new Map();
  faults.forEach(({ line, column }, number) => marks.set(line, (marks.get(line) ?? new Map()).set(column, number)));
  const most = 5000, shown = lines.map((text, i) => ({ text, number: i + 1 })).filter(({ number }) => number <= most || marks.has(number));
  one("#lines").replaceChildren(...shown.map(({ text, number }) => {
    const item = make("li");
    item.id = "line-" + number;
    item.append(make("span", String(number), "number"), lineOf(text, marks.get(number) ?? []));
    return item;
  }));
  one("#h-faults").textContent = `${count(faults.length, "fault")} in ${job.name}: nothing can be drawn until ${faults.length === 1 ? "it is" : "they are"} mended.`;
  goToFault(0);
}

function goToFault(number) {
  const faults = job.findings.faults;
  fault = (number + faults.length) % faults.length;
  const { line, column, pointer, found, expected, hint } = faults[fault];
  one("#fault-place").textContent = `line ${line}, column ${column}${pointer ? ", at " + pointer : ""}`;
  one("#fault-found").textContent = found;
  one("#fault-expected").textContent = expected;
  one("#fault-hint").textContent = hint ?? "";
  one("#hint-name").hidden = one("#fault-hint").hidden = !hint;
  one("#fault-count").textContent = `Fault ${fault + 1} of ${faults.length}`;
  for (const item of document.querySelectorAll("#lines .now")) item.classList.remove("now");
  const item = one("#line-" + line);
  if (!item) return;
  item.classList.add("now");
  const box = one("#text"), mark = one("#fault-" + fault) ?? item;
  box.scrollTop = item.offsetTop - box.offsetTop - box.clientHeight / 2;
  box.scrollLeft = Math.max(0, mark.offsetLeft - box.offsetLeft - 96);
}

/* ---- soundness ---- */

function facts(pairs) {
  const list = make("dl", "", "facts");
  for (const [name, value] of pairs) list.append(make("dt", name), make("dd", value));
  return list;
}

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
  fill("#supported", found.supports.map((series) => `${series.series}: ${series.error}, ${count(series.evaluated.length, "parameter")}`));
  fill("#lacking", found.lacking.map((lack) => lack.what ?? lack.text ?? lack.pointer));
  fill("#warnings", found.warnings.map((warning) => warning.text));
}

/* ---- pages ---- */

let drawn = "", addresses = [];

function forgetPages() {
  drawn = "";
  one("#sheets").replaceChildren();
  for (const address of addresses.splice(0)) URL.revokeObjectURL(address);
}

const choice = () => `layout=${encodeURIComponent(one("#layout").value)}&paper=${encodeURIComponent(one("#paper").value)}`;

async function fillLayouts() {
  if (one("#layout").options.length) return;
  const layouts = await (await ask("/v1/layouts")).json();
  one("#layout").replaceChildren(...layouts.map(({ name, title }) => Object.assign(new Option(name, name, name === "report", name === "report"), { title })));
  tellLayout();
}

const tellLayout = () => { one("#layout-title").textContent = one("#layout").selectedOptions[0]?.title ?? ""; };

function sheet(page, query, job_, near) {
  const box = make("figure", "", "page"), image = make("img", "", "sheet"), fold = make("details");
  image.alt = "Page " + page.number;
  box.append(image, fold);
  fold.append(make("summary", `Page ${page.number} as text`), make("pre", page.words));
  box.draw = async () => {
    const picture = await (await ask(`/v1/page?${query}&number=${page.number}&dpi=96`, job_)).blob();
    addresses.push(image.src = URL.createObjectURL(picture));
  };
  near.observe(box);
  return box;
}

function entitle(words) {
  one("#h-pages").textContent = words;
  document.title = words + " – wayfolio";
  say(words);
}

async function drawPages() {
  try {
    await fillLayouts();
    const query = choice(), form = parts(), about = job.document;
    if (drawn === query) return;
    one("#sheets").classList.add("stale");
    entitle("Drawing the report.");
    const { pages } = await (await ask("/v1/pages?" + query, form)).json();
    if (job.document !== about || choice() !== query) return;  // another job or choice came in between
    forgetPages();
    const near = new IntersectionObserver((seen) => {
      for (const { isIntersecting, target } of seen) if (isIntersecting) { near.unobserve(target); target.draw().catch((error) => say(error.message)); }
    }, { rootMargin: "600px" });
    one("#sheets").replaceChildren(...pages.map((page) => sheet(page, query, form, near)));
    drawn = query;
    entitle(`${count(pages.length, "page")}, as they are printed.`);
  } catch (error) {
    entitle(error.message);
  } finally {
    one("#sheets").classList.remove("stale");
  }
}

/* ---- deliver ---- */

async function save() {
  one("#saved").textContent = "Making the report.";
  try {
    await fillLayouts();
    const report = await (await ask("/v1/report?" + choice(), parts())).blob(), link = make("a");
    link.href = URL.createObjectURL(report);
    link.download = job.name.replace(/\.json$/i, "") + ".pdf";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
    one("#saved").textContent = `${link.download}, ${Math.round(report.size / 1000)} kB, was given to the browser to save.`;
  } catch (error) {
    one("#saved").textContent = error.message;
  }
}

/* ---- which screen: its name is the address ---- */

async function show() {
  const wanted = location.hash.slice(1) || "start", about = ["faults", "soundness", "pages", "deliver"].includes(wanted);
  if (about && !job.document) await reopen();
  const screen = screens.find((one) => one.dataset.screen === wanted && (!about || job.document)) ?? screens[0];
  const changed = screen.hidden;
  for (const one of screens) one.hidden = one !== screen;
  const name = screen.dataset.screen, faulty = job.findings?.faults.length > 0;
  one("#job-steps").hidden = !job.document || faulty || !about;
  one("#job-name").hidden = !about;
  for (const link of document.querySelectorAll("#job-steps a")) {
    if (link.hash === "#" + name) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
  document.title = `${screen.querySelector("h1").textContent} – wayfolio`;
  if (changed) { scrollTo(0, 0); one("#main").focus(); }
  if (name === "faults") goToFault(fault);  // only what is shown can be scrolled to
  if (name === "start") await offerKept();
  if (name === "pages" && !faulty) await drawPages();
}

async function reopen() {
  const last = await kept();
  if (!last) return;
  begin(last);
  await check().catch((error) => refuse(error.message, ""));
}

async function offerKept() {
  const last = await kept();
  one("#kept-job").hidden = !last;
  if (last) one("#kept-open").textContent = "Go on with " + last.name;
}

one("#place").textContent = location.host;
one("#files").addEventListener("change", (event) => { take([...event.target.files]); event.target.value = ""; });
one("#next-fault").addEventListener("click", () => goToFault(fault + 1));
addEventListener("keydown", (event) => {
  if (!event.altKey || one("[data-screen=faults]").hidden || !["ArrowDown", "ArrowUp"].includes(event.key)) return;
  event.preventDefault();
  goToFault(fault + (event.key === "ArrowDown" ? 1 : -1));
});
one("#choices").addEventListener("change", () => { tellLayout(); drawPages(); });
one("#save").addEventListener("click", save);
one("#discard").addEventListener("click", async () => {
  await browser.discard();
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
show();
