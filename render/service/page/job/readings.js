/* What is what: exports of readings become a document. What they do not say is asked for; nothing is guessed. */
import { ask } from "/basics/ask.js";
import { button, count, facts, hand, made, make, one, rowHead, rowOf, say } from "/basics/dom.js";
import { inWords, placeInWords } from "/basics/printed.js";
import { at, isLeftOut, key, mapped, mappingText, seriesOf, tokens } from "/job/mapping.js";
import * as work from "/job/work.js";

/* Of the job at hand: files of readings; files of facts; a document that they are added to; a mapping, or what was proposed with its answers. */
let job = null, go = null, warned = false;

/* ---- the questions ---- */

/* "x-eyx.csv: Run # up [µm], Run # down [µm]" of a series; the name of a file. */
function title(pointer) {
  const mapping = job.proposal.mapping, [what, place] = tokens(pointer);
  if (what === "exports") return mapping.exports[place].file;
  const columns = [];
  for (const file of mapping.exports) {
    const own = (file.values ?? []).filter((values) => values.series === mapping.series[place].id);
    if (own.length) columns.push(`${file.file}: ${own.map((values) => values.columns ?? values.column).join(", ")}`);
  }
  return columns.join("; ");
}

/* What a question is about, where its title does not say it: a column of a log, columns there or back. */
function about(question) {
  const object = at(job.proposal.mapping, question.at), place = tokens(question.at);
  return place.length > 2 ? String(object.column ?? object.columns ?? object.above ?? place.at(-1)) + ": " : "";
}

function patchOf(question, text) {
  if (question.by === "choice") return text === "" ? null : question.choices[Number(text)].patch;
  if (text.trim() === "") return null;
  if (question.by === "words") return { [question.key]: text.split(",").map((word) => word.trim()).filter(Boolean) };
  if (question.by === "pairs") return { [question.key]: Object.fromEntries(text.split(";").map((pair) => pair.split("=").map((word) => word.trim())).filter(([mark, reason]) => mark && reason)) };
  return { [question.key]: text.trim() };
}

function answer(question, patch) {
  if (patch) job.answers[key(question)] = patch;
  else delete job.answers[key(question)];
}

/* An answer given is an answer kept; `text` is what the field holds. */
function textOf(question) {
  const patch = job.answers[key(question)];
  if (!patch) return "";
  if (question.by === "choice") return String(question.choices.findIndex((choice) => JSON.stringify(choice.patch) === JSON.stringify(patch)));
  const value = patch[question.key];
  if (Array.isArray(value)) return value.join(", ");
  return typeof value === "object" && value ? Object.entries(value).map((pair) => pair.join(" = ")).join("; ") : value ?? "";
}

const hints = { words: "one or several, with commas between", pairs: "as x = beam interrupted; y = door opened", text: "" };

function field(question, number) {
  const box = make("div", "", "ask"), label = make("label", about(question) + question.asks), id = "answer-" + number;
  const input = make(question.by === "choice" ? "select" : "input");
  input.id = label.htmlFor = id;
  if (question.by === "choice") {
    input.append(new Option("open", ""));
    question.choices.forEach((choice, place) => input.append(new Option(choice.says, String(place))));
  }
  input.value = textOf(question);
  const others = button("", () => { giveToOthers(question); answered(); input.focus(); });
  input.addEventListener("change", () => { answer(question, patchOf(question, input.value)); answered(); });
  box.append(label, input);
  if (hints[question.by]) {
    const hint = Object.assign(make("p", hints[question.by], "grey small"), { id: id + "-hint" });
    input.setAttribute("aria-describedby", hint.id);
    box.append(hint);
  }
  box.append(others);
  if (question.by === "pairs") {
    box.append(button(question.choices[0].says, () => { answer(question, question.choices[0].patch); input.value = ""; answered(); }));
  }
  Object.assign(box, { question, input, others });
  return box;
}

/* Questions that ask the same of another series or file. */
const alike = (question) => job.proposal.questions.filter((other) => other !== question && other.key === question.key && other.by === question.by && other.asks === question.asks && !job.answers[key(other)]);

function giveToOthers(question) {
  for (const other of alike(question)) answer(other, job.answers[key(question)]);
  for (const box of document.querySelectorAll("#questions .ask")) box.input.value = textOf(box.question);
}

function answered() {
  refresh();
  work.keep();
}

/* Which fields are left, what they may give to others, and whether the readings can be used. */
function refresh() {
  const { left } = mapped(job), openNow = new Set(left.map(key));
  for (const set of document.querySelectorAll("#questions fieldset")) {
    if (set.leave) set.leave.textContent = job.left_out?.includes(set.id_) ? "Left out. Read it after all" : "These are no readings: leave them out";
  }
  for (const box of document.querySelectorAll("#questions .ask")) {
    const given = job.answers[key(box.question)], others = given && ["error"].includes(box.question.key) ? [] : alike(box.question).filter((other) => openNow.has(key(other)));
    box.hidden = (!given && !openNow.has(key(box.question))) || job.left_out?.includes(seriesOf(job, box.question));  // said by an answer to another, or nobody's
    box.classList.toggle("open-place", openNow.has(key(box.question)));
    box.others.hidden = !given || others.length === 0;
    box.others.textContent = `the same for ${count(others.length, "other")} that ${others.length === 1 ? "asks" : "ask"} this`;
  }
  tell(left.length);
}

function tell(left) {
  const files = count(job.exports.length, "file") + " of readings";
  one("#h-readings").textContent = job.mapping ? `${files}, and a mapping that says what is what.` : left === 0
    ? `${files}: every column is decided.`
    : `${count(left, "answer is", "answers are")} needed. The files do not say them, and nothing is guessed.`;
  one("#use").setAttribute("aria-disabled", String(left > 0));
  one("#use-why").textContent = left > 0 ? `After the ${count(left, "answer")} below.` : "";
}

function columnsTable(seen) {
  const head = make("thead"), body = make("tbody");
  head.append(rowOf(...["Column", "taken for", "first values"].map((words) => Object.assign(make("th", words), { scope: "col" }))));
  body.append(...seen.columns.map((column, place) => rowOf(rowHead(column.head || "without a head"), make("td", isLeftOut(job, seen.file, column, place) ? "is left out" : column.becomes), make("td", column.first.join("  ")))));
  const box = Object.assign(made("div", made("table", make("caption", seen.file), head, body)), { className: "scroll", tabIndex: 0 });
  box.setAttribute("role", "group");
  box.setAttribute("aria-label", "First rows of " + seen.file);
  return box;
}

/* A column that is no reading, such as a count of lines: what is asked of it falls away. */
function leaveOut(id) {
  const out = job.left_out ?? [];
  job.left_out = out.includes(id) ? out.filter((one_) => one_ !== id) : [...out, id];
  showColumns();
  answered();
}

function groupOf(group, question) {
  const set = made("fieldset", make("legend", title(group))), id = group.startsWith("/series/") ? seriesOf(job, question) : undefined;
  if (id === undefined) return set;
  set.leave = button("", () => leaveOut(id));
  set.leave.classList.add("leave");
  set.id_ = id;
  return set;
}

const showColumns = () => one("#columns").replaceChildren(...job.proposal.exports.map(columnsTable));

function showQuestions() {
  const groups = new Map();
  job.proposal.questions.forEach((question, number) => {
    const group = "/" + tokens(question.at).slice(0, 2).join("/");
    if (!groups.has(group)) groups.set(group, groupOf(group, question));
    groups.get(group).append(field(question, number));
  });
  for (const set of groups.values()) if (set.leave) set.append(set.leave);
  one("#questions").replaceChildren(...groups.values());
  showColumns();
  refresh();
  disable();
}

function disable() {
  for (const field of document.querySelectorAll("#questions select, #questions input, #questions button, #state")) field.disabled = Boolean(work.job.reads_only);
}

/* ---- from files to a document ---- */

function form(job, withMapping) {
  const sent = new FormData();
  if (withMapping) {
    sent.append("mapping", new Blob([mappingText(job)], { type: "application/json" }));
    for (const file of job.facts) sent.append("facts", file, file.name);
    if (job.into) sent.append("into", job.into, job.into.name);
  }
  for (const file of job.exports) sent.append("file", file, file.name);
  return sent;
}

/* `leadTo` shows a screen. */
export const prepare = (leadTo) => { go = leadTo; };

/* What is dropped, with the mapping that is proposed for it where none came. */
export async function propose(given) {
  const dropped = { answers: {}, state: "", proposal: null, mapping: null, ...given };
  if (!dropped.mapping) dropped.proposal = await (await ask("/v1/proposal", form(dropped, false))).json();
  return dropped;
}

export function open() {
  if (job === work.job.readings) return;
  [job, warned] = [work.job.readings, false];
  one("#export-faults").replaceChildren();
  one("#state").value = job.state;
  if (job.proposal) return showQuestions();
  one("#questions").replaceChildren();
  one("#columns").replaceChildren();
  tell(0);
}

function warn() {
  warned = true;
  one("#use-why").textContent = `${count(work.job.changes.length, "change")} made here would be lost. Press once more to make the document anew.`;
  say(one("#use-why").textContent);
}

async function use() {
  if (work.job.reads_only) return say(work.job.reads_only);
  if (one("#use").getAttribute("aria-disabled") === "true") return document.querySelector("#questions .open-place")?.input.focus();
  if (work.job.changes.length && !warned) return warn();
  warned = false;
  one("#export-faults").replaceChildren();
  one("#use-why").textContent = "Reading the files.";
  say("Reading the files.");
  try {
    const made = await (await ask("/v1/gathered" + (job.state ? "?state=" + encodeURIComponent(job.state) : ""), form(job, true))).json();
    const name = job.into ? job.into.name : (job.exports.length === 1 ? job.exports[0].name.replace(/\.[^.]*$/, "") : "readings") + ".json";
    await work.make(new File([made.document], name, { type: "application/json" }), made.account);
    go(work.faulty() ? "faults" : "soundness");
  } catch (error) {
    showFaults(error);
  } finally {
    one("#use-why").textContent = "";
  }
}

/* What is wrong in the files, each at its place. */
function showFaults(error) {
  const box = one("#export-faults"), list = make("ol", "", "findings");
  for (const fault of error.problem?.faults ?? []) {
    const named = { into: job.into?.name }, where = [named[fault.file] ?? fault.file, fault.sheet && `sheet ${fault.sheet}`, fault.line && `line ${fault.line}`, fault.column && `column ${fault.column}`].filter(Boolean).join(", ");
    list.append(made("li", make("h2", where || (fault.pointer ? placeInWords(fault.pointer) : "the files")), facts([["found", fault.found], ["expected", fault.expected], ...(fault.hint ? [["hint", fault.hint]] : [])])));
  }
  box.replaceChildren(make("p", inWords(error.message), "mark"), list);
  box.scrollIntoView({ block: "nearest" });
  box.focus();
}

one("#use").addEventListener("click", use);
one("#state").addEventListener("change", () => { job.state = one("#state").value; work.keep(); });
one("#questions").addEventListener("submit", (event) => event.preventDefault());
one("#keep-mapping").addEventListener("click", () => hand(new Blob([mappingText(job)], { type: "application/json" }), "mapping.json"));
work.when("document", (changed) => { if (!changed) job = null; });
work.when("reads", disable);
