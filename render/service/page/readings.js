/* What is what: exports of readings become a document. What they do not say is asked for; nothing is guessed. */
import { count, facts, hand, make, one, say } from "/dom.js";

/* What came: files of readings; files of facts; a document that they are added to; a mapping, or what was proposed with its answers. */
let job = null, ask = null, done = null, answered = null, lost = null, warned = false;

const tokens = (pointer) => pointer.split("/").slice(1).map((token) => token.replaceAll("~1", "/").replaceAll("~0", "~"));
const at = (json, pointer) => tokens(pointer).reduce((value, token) => value?.[token], json);

/* A JSON merge patch (RFC 7396), of one level. */
function merge(object, patch) {
  for (const [key, value] of Object.entries(patch)) {
    if (value === null) delete object[key];
    else object[key] = value;
  }
}

const open = (value) => value === "?" || (Array.isArray(value) && value.length === 1 && value[0] === "?");
const key = (question) => question.at + " " + question.key;

/* The mapping as far as it is answered, and what is still open in it. */
function mapped() {
  const mapping = structuredClone(job.proposal.mapping);
  for (const question of job.proposal.questions) {
    const answer = job.answers[key(question)], object = at(mapping, question.at);
    if (answer && object && open(object[question.key])) merge(object, answer);
  }
  const left = job.proposal.questions.filter((question) => open(at(mapping, question.at)?.[question.key]));
  return { mapping, left };
}

/* Series are called by the error that was named for them. */
function named(mapping) {
  const taken = new Set(), called = new Map();
  for (const series of mapping.series ?? []) {
    const plain = series.error.toLowerCase(), base = plain[2] + "-" + plain;
    let name = base;
    for (let number = 2; taken.has(name); ++number) name = `${base}-${number}`;
    taken.add(name);
    called.set(series.id, name);
    series.id = name;
  }
  for (const file of mapping.exports) for (const values of file.values ?? []) values.series = called.get(values.series) ?? values.series;
  return mapping;
}

export const mappingText = () => (job.mapping ? job.mapping : JSON.stringify(named(mapped().mapping), null, 2) + "\n");

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
  const others = make("button", "", "line");
  others.type = "button";
  input.addEventListener("change", () => { answer(question, patchOf(question, input.value)); refresh(); });
  others.addEventListener("click", () => { giveToOthers(question); refresh(); input.focus(); });
  box.append(label, input);
  if (hints[question.by]) {
    const hint = Object.assign(make("p", hints[question.by], "grey small"), { id: id + "-hint" });
    input.setAttribute("aria-describedby", hint.id);
    box.append(hint);
  }
  box.append(others);
  if (question.by === "pairs") {
    const said = make("button", question.choices[0].says, "line");
    said.type = "button";
    said.addEventListener("click", () => { answer(question, question.choices[0].patch); input.value = ""; refresh(); });
    box.append(said);
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

/* Which fields are left, what they may give to others, and whether the readings can be used. */
function refresh() {
  const { left } = mapped(), openNow = new Set(left.map(key));
  for (const box of document.querySelectorAll("#questions .ask")) {
    const given = job.answers[key(box.question)], others = given && ["error"].includes(box.question.key) ? [] : alike(box.question).filter((other) => openNow.has(key(other)));
    box.hidden = !given && !openNow.has(key(box.question));  // said by an answer to another
    box.classList.toggle("open-place", openNow.has(key(box.question)));
    box.others.hidden = !given || others.length === 0;
    box.others.textContent = `the same for ${count(others.length, "other")} that ${others.length === 1 ? "asks" : "ask"} this`;
  }
  tell(left.length);
  answered();
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
  const box = make("div", "", "scroll"), table = make("table"), caption = make("caption", seen.file), head = make("thead"), body = make("tbody"), row = make("tr");
  for (const words of ["Column", "taken for", "first values"]) row.append(Object.assign(make("th", words), { scope: "col" }));
  head.append(row);
  for (const column of seen.columns) {
    const line = make("tr");
    line.append(Object.assign(make("th", column.head || "without a head"), { scope: "row" }), make("td", column.becomes), make("td", column.first.join("  ")));
    body.append(line);
  }
  table.append(caption, head, body);
  box.append(table);
  Object.assign(box, { tabIndex: 0 }).setAttribute("role", "group");
  box.setAttribute("aria-label", "First rows of " + seen.file);
  return box;
}

function showQuestions() {
  const groups = new Map();
  job.proposal.questions.forEach((question, number) => {
    const group = "/" + tokens(question.at).slice(0, 2).join("/");
    if (!groups.has(group)) {
      const set = make("fieldset");
      set.append(make("legend", title(group)));
      groups.set(group, set);
    }
    groups.get(group).append(field(question, number));
  });
  one("#questions").replaceChildren(...groups.values());
  one("#columns").replaceChildren(...job.proposal.exports.map(columnsTable));
  refresh();
}

/* ---- from files to a document ---- */

function form(withMapping) {
  const sent = new FormData();
  if (withMapping) {
    sent.append("mapping", new Blob([mappingText()], { type: "application/json" }));
    for (const file of job.facts) sent.append("facts", file, file.name);
    if (job.into) sent.append("into", job.into, job.into.name);
  }
  for (const file of job.exports) sent.append("file", file, file.name);
  return sent;
}

/* `finish` takes the document, `keep` what is to be kept; `loss` says what a document made anew would lose, "" for nothing. */
export function prepare(asker, finish, keep, loss) {
  [ask, done, answered, lost] = [asker, finish, keep, loss];
}

/* Takes what was dropped, or what was kept. */
export async function take(given) {
  job = { answers: {}, state: "", proposal: null, mapping: null, ...given };
  one("#export-faults").replaceChildren();
  one("#state").value = job.state;
  if (!job.mapping && !job.proposal) job.proposal = await (await ask("/v1/proposal", form(false))).json();
  if (job.proposal) showQuestions();
  else {
    one("#questions").replaceChildren();
    one("#columns").replaceChildren();
    tell(0);
  }
}

export const taken = () => job;
export const forget = () => { job = null; };

async function use() {
  if (one("#use").getAttribute("aria-disabled") === "true") {
    const first = document.querySelector("#questions .open-place");
    first?.input.focus();
    return;
  }
  if (lost() && !warned) {
    warned = true;
    one("#use-why").textContent = `${lost()} Press once more to make the document anew.`;
    return say(one("#use-why").textContent);
  }
  warned = false;
  one("#export-faults").replaceChildren();
  say("Reading the files.");
  try {
    const made = await (await ask("/v1/gathered" + (job.state ? "?state=" + encodeURIComponent(job.state) : ""), form(true))).json();
    const name = job.into ? job.into.name : (job.exports.length === 1 ? job.exports[0].name.replace(/\.[^.]*$/, "") : "readings") + ".json";
    await done(new File([made.document], name, { type: "application/json" }), made.account);
  } catch (error) {
    showFaults(error);
  }
}

/* What is wrong in the files, each at its place. */
function showFaults(error) {
  const box = one("#export-faults"), list = make("ol", "", "findings");
  for (const fault of error.problem?.faults ?? []) {
    const item = make("li");
    const named = { into: job.into?.name }, where = [named[fault.file] ?? fault.file, fault.sheet && `sheet ${fault.sheet}`, fault.line && `line ${fault.line}`, fault.column && `column ${fault.column}`].filter(Boolean).join(", ");
    item.append(make("h2", where || fault.pointer || "the files"), facts([["found", fault.found], ["expected", fault.expected], ...(fault.hint ? [["hint", fault.hint]] : [])]));
    list.append(item);
  }
  box.replaceChildren(make("p", error.message, "mark"), list);
  box.scrollIntoView({ block: "nearest" });
  box.focus();
}

one("#use").addEventListener("click", use);
one("#state").addEventListener("change", () => { job.state = one("#state").value; answered(); });
one("#questions").addEventListener("submit", (event) => event.preventDefault());
one("#keep-mapping").addEventListener("click", () => hand(new Blob([mappingText()], { type: "application/json" }), "mapping.json"));
