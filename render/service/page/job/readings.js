/* What is what: exports of readings become a document. What they do not say is asked for; nothing is guessed. */
import { ask } from "/basics/ask.js";
import { button, count, facts, hand, items, make, made, one, say } from "/basics/dom.js";
import { inWords, placeInWords } from "/basics/printed.js";
import { called, columnCalled, columnsTable, placesOf, sentOf, sheetsAsked, withRole } from "/job/columns.js";
import { at, columnsOf, isRead, key, mapped, mappingText, openWorkbooks, tokens } from "/job/mapping.js";
import { readAs } from "/job/read_as.js";
import * as work from "/job/work.js";

/* Of the job at hand: files of readings; files of facts; a document that they are added to; a mapping, or what was proposed with its answers
   and with what was said by hand before it was proposed. */
let job = null, go = null, warned = false;

const keyOf = (question) => key(job, question);
const seenOf = (file) => job.proposal.exports[job.proposal.mapping.exports.indexOf(file)];

/* ---- the questions ---- */

/* A column by its head, with its number where the mapping names it so. */
function inWordsOf(seen, by) {
  return [by].flat().map((one_) => (typeof one_ === "number" ? columnCalled(seen.columns[one_ - 1], one_ - 1) : one_)).join(", ");
}

/* "x-eyx.csv: Run # up [µm], Run # down [µm]" of a series; the name of a file. */
function title(pointer) {
  const { mapping } = job.proposal, [what, place] = tokens(pointer);
  if (what === "exports") return called(job.proposal.exports[place]);
  const columns = new Map();
  for (const { file, columns: by } of columnsOf(mapping, mapping.series[place].id)) columns.set(file, [...(columns.get(file) ?? []), inWordsOf(seenOf(file), by)]);
  return [...columns].map(([file, words]) => `${called(seenOf(file))}: ${words.join(", ")}`).join("; ");
}

/* What a question is about, where its title does not say it: a column of a log, columns there or back. */
function about(question) {
  const object = at(job.proposal.mapping, question.at), place = tokens(question.at), by = object.column ?? object.columns;
  if (place.length <= 2) return "";
  return String(by !== undefined ? inWordsOf(job.proposal.exports[place[1]], by) : object.above ?? place.at(-1)) + ": ";
}

function patchOf(question, text) {
  if (question.by === "choice") return text === "" ? null : question.choices[Number(text)].patch;
  if (text.trim() === "") return null;
  if (question.by === "words") return { [question.key]: text.split(",").map((word) => word.trim()).filter(Boolean) };
  if (question.by === "pairs") return { [question.key]: Object.fromEntries(text.split(";").map((pair) => pair.split("=").map((word) => word.trim())).filter(([mark, reason]) => mark && reason)) };
  return { [question.key]: text.trim() };
}

function answer(question, patch) {
  if (patch) job.answers[keyOf(question)] = patch;
  else delete job.answers[keyOf(question)];
}

/* An answer given is an answer kept; `text` is what the field holds. */
function textOf(question) {
  const patch = job.answers[keyOf(question)];
  if (!patch) return "";
  if (question.by === "choice") return String(question.choices.findIndex((choice) => JSON.stringify(choice.patch) === JSON.stringify(patch)));
  const value = patch[question.key];
  if (Array.isArray(value)) return value.join(", ");
  return typeof value === "object" && value ? Object.entries(value).map((pair) => pair.join(" = ")).join("; ") : value ?? "";
}

const hints = { words: "one or several, with commas between", pairs: "as x = beam interrupted; y = door opened", text: "" };

/* Which column is meant: said as the role of that column. */
function columnAsked(question, input) {
  const seen = job.proposal.exports[tokens(question.at)[1]];
  input.append(new Option("open", ""), ...seen.columns.map((column, place) => new Option(columnCalled(column, place), String(place + 1))));
  input.addEventListener("change", () => {
    const column = Number(input.value), says = `${columnCalled(seen.columns[column - 1], column - 1)}, of ${called(seen)}: ${job.proposal.roles.find(({ role }) => role === question.key).says}`;
    give((before) => withRole(before, job.proposal.roles, seen, [column], question.key), says);
  });
}

function field(question, number) {
  const box = make("div", "", "ask"), label = make("label", about(question) + question.asks), id = "answer-" + number, chosen = ["choice", "column"].includes(question.by);
  const input = make(chosen ? "select" : "input");
  input.id = label.htmlFor = id;
  input.dataset.key = keyOf(question);
  if (question.by === "column") columnAsked(question, input);
  if (question.by === "choice") {
    input.append(new Option("open", ""));
    question.choices.forEach((choice, place) => input.append(new Option(choice.says, String(place))));
  }
  input.value = textOf(question);
  const others = button("", () => { giveToOthers(question); answered(); input.focus(); });
  if (question.by !== "column") input.addEventListener("change", () => { answer(question, patchOf(question, input.value)); answered(); });
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
const alike = (question) => job.proposal.questions.filter((other) => other !== question && other.key === question.key && other.by === question.by && other.asks === question.asks && !job.answers[keyOf(other)]);

function giveToOthers(question) {
  for (const other of alike(question)) answer(other, job.answers[keyOf(question)]);
  for (const box of document.querySelectorAll("#questions .ask")) box.input.value = textOf(box.question);
}

function answered() {
  refresh();
  work.keep();
}

/* Which fields are left, what they may give to others, and whether the readings can be used. */
function refresh() {
  const { mapping, left } = mapped(job), openNow = new Set(left.map(keyOf));
  for (const box of document.querySelectorAll("#questions .ask")) {
    const given = job.answers[keyOf(box.question)], others = given && ["error"].includes(box.question.key) ? [] : alike(box.question).filter((other) => openNow.has(keyOf(other)));
    box.hidden = !given && !openNow.has(keyOf(box.question));  // said by an answer to another
    box.classList.toggle("open-place", openNow.has(keyOf(box.question)));
    box.others.hidden = !given || others.length === 0;
    box.others.textContent = `the same for ${count(others.length, "other")} that ${others.length === 1 ? "asks" : "ask"} this`;
  }
  tell(left.length + openWorkbooks(job).length);
  if (!left.length && !openWorkbooks(job).length && !mapping.exports.length) tellNothing();
}

function tellNothing() {
  one("#h-readings").textContent = "No column is taken for readings or surroundings: say below what each is.";
  one("#use").setAttribute("aria-disabled", "true");
  one("#use-why").textContent = "Once a column is taken for readings.";
}

function tell(left) {
  const files = count(job.exports.length, "file") + " of readings";
  one("#h-readings").textContent = job.mapping ? `${files}, and a mapping that says what is what.` : left === 0
    ? `${files}: every column is decided.`
    : `${count(left, "answer is", "answers are")} needed. The files do not say them, and nothing is guessed.`;
  one("#use").setAttribute("aria-disabled", String(left > 0));
  const told = one("#job-steps a[href='#readings'] .n");
  told.textContent = left || "";
  told.hidden = !left;
  one("#use-why").textContent = left > 0 ? `After the ${count(left, "answer")} below.` : "";
}

/* A column that is no reading, such as a count of lines: what is asked of it falls away. */
function leaveOut(id) {
  const [{ file, columns }] = columnsOf(job.proposal.mapping, id), all = columnsOf(job.proposal.mapping, id).map((one_) => one_.columns), seen = seenOf(file);
  give((before) => withRole(before, job.proposal.roles, seen, all.flatMap((by) => placesOf(seen, by)), "nothing"), `${called(seen)}: ${inWordsOf(seen, columns)}: is not read`);
}

function groupOf(group) {
  const set = made("fieldset", make("legend", title(group))), [what, place] = tokens(group);
  if (what !== "series") return set;
  set.leave = button("These are no readings: leave them out", () => leaveOut(job.proposal.mapping.series[place].id));
  set.leave.classList.add("leave");
  return set;
}

function showQuestions() {
  const groups = new Map(), { proposal } = job, focused = document.activeElement?.dataset?.key;
  proposal.questions.forEach((question, number) => {
    const group = "/" + tokens(question.at).slice(0, 2).join("/");
    if (!groups.has(group)) groups.set(group, groupOf(group));
    groups.get(group).append(field(question, number));
  });
  for (const set of groups.values()) if (set.leave) set.append(set.leave);
  one("#questions").replaceChildren(...proposal.sheets.map((workbook) => sheetsAsked(workbook, job, give)), ...groups.values());
  one("#columns").replaceChildren(...proposal.exports.flatMap((seen, place) => [columnsTable(seen, isRead(proposal.mapping.exports[place]), job, give), readAs(seen, job.given, give)].filter(Boolean)));
  items("#said", job.said.map(({ words }) => words));
  one("#said-box").hidden = job.said.length === 0;
  refresh();
  disable();
  if (focused) [...document.querySelectorAll("[data-key]")].find((one_) => one_.dataset.key === focused)?.focus();
}

function disable() {
  for (const field of document.querySelectorAll("#questions select, #questions input, #questions button, #columns select, #undo-said, #state")) field.disabled = Boolean(work.job.reads_only);
}

/* ---- what is said by hand ---- */

const proposed = async (exports, given) => (await ask("/v1/proposal", form({ exports }, false, given))).json();

let saying = Promise.resolve();

/* One after the other, each on what the one before has left. What is refused leaves all as it was. Arrow keys go through the roles of a
   column one by one: what was said of the same thing just before counts as not said. */
function give(how, words, topic) {
  saying = saying.then(() => proposeAgain(job, (of) => {
    const last = of.said.at(-1), again = topic && last?.topic === topic, before = again ? last.before : of.given, given = how(before);
    const same = JSON.stringify(given) === JSON.stringify(before);
    return { given, said: [...(again ? of.said.slice(0, -1) : of.said), ...(same ? [] : [{ words, before, topic }])] };
  }));
}

function undoSaid() {
  saying = saying.then(() => (job.said.length ? proposeAgain(job, (of) => ({ given: of.said.at(-1).before, said: of.said.slice(0, -1) })) : null));
}

async function proposeAgain(of, how) {
  const now = how(of);
  one("#export-faults").replaceChildren();
  say("Looking at the files again.");
  try {
    now.proposal = await proposed(of.exports, now.given);
  } catch (error) {
    if (of === job) { showQuestions(); showFaults(error); }
    return;
  }
  if (of !== work.job.readings) return;  // another job came in between
  Object.assign(of, now);
  showQuestions();
  say(one("#h-readings").textContent);
  await work.keep();
}

/* ---- from files to a document ---- */

function form(job, withMapping, given) {
  const sent = new FormData();
  if (given) sent.append("given", new Blob([JSON.stringify(sentOf(given))], { type: "application/json" }));
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
  const dropped = { answers: {}, given: { roles: [], sheets: [] }, said: [], state: "", proposal: null, mapping: null, ...given };
  if (!dropped.mapping) dropped.proposal = await proposed(dropped.exports, dropped.given);
  return dropped;
}

/* A job that this browser keeps from before columns were said by hand: what was answered is asked again. */
function proposeAnew(of) {
  Object.assign(of, { answers: {}, given: { roles: [], sheets: [] }, said: [] });
  return proposeAgain(of, ({ given, said }) => ({ given, said }));
}

export function open() {
  if (job === work.job.readings) return;
  [job, warned] = [work.job.readings, false];
  one("#export-faults").replaceChildren();
  one("#state").value = job.state;
  if (job.proposal) return job.given ? showQuestions() : proposeAnew(job);
  one("#questions").replaceChildren();
  one("#columns").replaceChildren();
  one("#said-box").hidden = true;
  tell(0);
}

function warn() {
  warned = true;
  one("#use-why").textContent = `${count(work.job.changes.length, "change")} made here would be lost. Press once more to make the document anew.`;
  say(one("#use-why").textContent);
}

async function use() {
  if (work.job.reads_only) return say(work.job.reads_only);
  if (one("#use").getAttribute("aria-disabled") === "true") return (document.querySelector("#questions .open-workbook, #questions .open-place:not([hidden])")?.input ?? one("#columns select"))?.focus();
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
one("#undo-said").addEventListener("click", undoSaid);
one("#keep-mapping").addEventListener("click", () => hand(new Blob([mappingText(job)], { type: "application/json" }), "mapping.json"));
work.when("document", (changed) => { if (!changed) job = null; });
work.when("reads", disable);
