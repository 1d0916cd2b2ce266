/* The form of a document, made from the schema: what may be stated, with what the report lacks and what is at fault beside its field. */
import { button, count, link, make, made, one, say } from "/basics/dom.js";
import { lettersAt, put, steps, taken } from "/basics/json_text.js";
import { placeInWords, singular } from "/basics/printed.js";
import { field, numeral } from "/job/field.js";
import { itemOf, label, load, members, nameOf, topics } from "/job/schema.js";
import * as work from "/job/work.js";

const { job } = work;
let document_ = null, text = "", folds = [], fresh = false, wanted = "";

const below = (pointer, key) => `${pointer}/${String(key).replaceAll("~", "~0").replaceAll("/", "~1")}`;
const pathOf = (pointer) => steps(pointer, document_);

/* ---- changes ---- */

/* What a person has typed into a field; "" empties the entry. */
async function entered(pointer, json, name) {
  const path = pathOf(pointer), where = placeInWords(pointer.slice(0, pointer.lastIndexOf("/")) || pointer);
  await change((was) => (json ? put(was, path, json) : taken(was, path)), `${where}: ${name.toLowerCase()} ${json ? "is " + json.slice(0, 60) : "is no longer stated"}`);
}

async function change(how, what, again = false) {
  await work.change(how, { kind: "entry", words: what }).catch((error) => say(error.message));  // it is kept; the check follows when the service is back
  await read();
  if (again) await draw();
}

async function read() {
  document_ = await work.parsed();
  text = document_ ? await work.textOf(job.document) : "";
}

async function add(pointer, key) {
  const there = valueAt(pointer)?.length ?? 0, path = [...pathOf(pointer), there];
  await change((was) => put(was, path, "{}"), `${placeInWords(pointer)}: one more ${singular(key)}`, true);
  focusOn(below(pointer, there));
}

async function remove(pointer, name) {
  const path = pathOf(pointer);
  await change((was) => taken(was, path), `${name} was taken out`, true);
  focusOn(pointer.slice(0, pointer.lastIndexOf("/")));
}

const valueAt = (pointer) => pathOf(pointer).reduce((value, step) => value?.[step], document_);

/* ---- what is drawn ---- */

function part(key, node, kind, value, pointer) {
  if (kind === "none") return null;
  if (kind === "group") return fold(label(key, node), pointer, value !== undefined, () => partsOf(node, value, pointer));
  if (kind === "list") return entries(key, node, value, pointer);
  if (kind === "map") return map(key, node, value, pointer);
  const exact = Number.isInteger(value) && !Number.isSafeInteger(value) ? lettersAt(text, pathOf(pointer)) : value;  // all its digits
  return field({ key, node, kind, value: exact, pointer }, (json, name) => entered(pointer, json, name));
}

/* Fields first, then what holds fields. */
function partsOf(node, value, pointer) {
  const parts = members(node).map(([key, member, kind]) => part(key, member, kind, value?.[key], below(pointer, key))).filter(Boolean);
  return [...parts.filter((one_) => one_.matches(".field")), ...parts.filter((one_) => !one_.matches(".field"))];
}

/* What holds fields can be shut; what it holds is made when it is opened. */
function fold(name, pointer, open, fill) {
  const box = make("details", "", "group"), told = make("span", "", "mark told"), body = make("div", "", "fields");
  told.hidden = true;
  box.append(made("summary", make("span", name), " ", told), body);
  body.setAttribute("role", "group");
  body.setAttribute("aria-label", name);
  box.dataset.pointer = pointer;
  const filled = () => {
    if (!body.firstChild) body.append(...fill());
  };
  box.addEventListener("toggle", () => { if (box.open && !body.firstChild) { filled(); mark(); } });
  if (open) { filled(); box.open = true; }
  return Object.assign(box, { told, filled });
}

const most = 30;

function entries(key, node, value, pointer) {
  const item = itemOf(node), name = singular(key), list = Array.isArray(value) ? value : [];
  return fold(label(key, node), pointer, list.length > 0 && list.length <= most && pointer.split("/").length < 4, () => {
    if (list.length > most) return [make("p", `${count(list.length, "entry", "entries")}, as they were read. They are changed in the document itself.`, "grey small")];
    const made_ = list.map((entry, place) => {
      const at = below(pointer, place), title = [`${name[0].toUpperCase()}${name.slice(1)} ${place + 1}`, nameOf(entry)].filter(Boolean).join(": ");
      const box = fold(title, at, list.length === 1, () => [...partsOf(item, entry, at), button("Take this out", () => remove(at, title))]);
      return box;
    });
    return [...made_, button(`Add: ${name}`, () => add(pointer, key), "button two")];
  });
}

/* Values by names that the document chooses. */
function map(key, node, value, pointer) {
  const entry = (name, of) => field({ key: name, node: {}, kind: "number", value: of, pointer: below(pointer, name), name }, (json) => entered(below(pointer, name), json, name));
  return fold(label(key, node), pointer, value !== undefined, () => {
    const name = Object.assign(make("input"), { autocomplete: "off" }), number = Object.assign(make("input"), { autocomplete: "off", inputMode: "decimal" });
    const more = button("Add it", async () => {
      const empty = [name, number].find((input) => !input.value.trim());
      if (empty) return empty.focus();
      const at = below(pointer, name.value.trim()), path = pathOf(at);
      await change((was) => put(was, path, numeral(number.value)), `${placeInWords(pointer)}: ${name.value.trim()} is ${number.value.trim()}`, true);
      focusOn(at);
    });
    const entries_ = Object.entries(value ?? {}).filter(([name_]) => name_ !== "internal").map(([name_, of]) => entry(name_, of));
    return [...entries_, made("label", "One more, by its name ", name), made("label", "its value ", number), more];
  });
}

/* What a topic holds, in a line beside its name. */
function summary(value) {
  if (Array.isArray(value)) return value.map(nameOf).filter(Boolean).slice(0, 4).join(", ") + (value.length > 4 ? " …" : "");
  const plain = Object.values(typeof value === "object" && value ? value : {}).filter((one_) => typeof one_ === "string" || typeof one_ === "number").slice(0, 3).join(", ");
  return plain.length > 70 ? plain.slice(0, 67) + " …" : plain;
}

async function draw() {
  const open = new Set([...one("#topics").querySelectorAll("details[open]")].map((box) => box.dataset.pointer)), first = folds.length === 0;
  await read();
  one("#topics").hidden = !document_;
  if (!document_) return;
  folds = topics().map(({ key, node, kind }) => {
    const pointer = "/" + key, value = document_[key];
    const box = kind === "list" ? entries(key, node, value, pointer) : fold(label(key, node), pointer, false, () => partsOf(node, value, pointer));
    box.classList.add("topic");
    if (summary(value)) box.querySelector("summary").append(make("span", summary(value), "grey small"));
    if (kind === "list") box.open = false;
    return box;
  });
  one("#topics").replaceChildren(...folds);
  if (first) folds[0].open = true;
  for (const pointer of open) boxAt(pointer, true);
  mark();
  disable();
}

/* The box of a place, or of what it lies in; on the way there all is opened. */
function boxAt(pointer, opening) {
  let box = one("#topics"), found = null;
  for (;;) {
    const next = [...box.querySelectorAll("[data-pointer]")].find((one_) => one_ !== found && (pointer + "/").startsWith(one_.dataset.pointer + "/") && one_.dataset.pointer.length > (found?.dataset.pointer.length ?? 0));
    if (!next) return found;
    [found, box] = [next, next];
    if (next.filled && opening) { next.filled(); next.open = true; }
  }
}

function focusOn(pointer) {
  const box = boxAt(pointer, true);
  if (!box) return;
  const control = box.input ?? box.querySelector("div :is(input, select, textarea, button)") ?? box.querySelector("summary");
  control.focus();
  control.scrollIntoView({ block: "center" });
}

/* ---- what is lacking, and what is at fault ---- */

function tellAt(pointer, words, kind, told) {
  const box = boxAt(pointer, false);
  if (!box) return;
  if (box.input) {
    box.input.setAttribute("aria-invalid", String(kind === "fault"));
    box.told.replaceChildren(make("span", kind === "fault" ? "to mend" : "lacking", "mark"), " ", words);
    box.told.hidden = false;
    box.classList.add("open-place");
  }
  for (let holds = box.input ? box.parentElement.closest("details") : box; holds; holds = holds.parentElement.closest("details")) told.set(holds, [...(told.get(holds) ?? []), kind]);
}

function mark() {
  for (const box of one("#topics").querySelectorAll("[data-pointer]")) {
    box.told.hidden = true;
    box.classList.remove("open-place");
    box.input?.removeAttribute("aria-invalid");
  }
  const told = new Map(), found = job.findings ?? { lacking: [], faults: [] };
  for (const lack of found.lacking) tellAt(lack.pointer, "for " + lack.for, "lack", told);
  for (const { pointer, found: is, expected, hint } of found.faults) tellAt(pointer, `found ${is}; expected ${expected}${hint ? "; " + hint : ""}`, "fault", told);
  for (const [box, kinds] of told) {
    const faults = kinds.filter((kind) => kind === "fault").length, lacks = kinds.length - faults;
    box.told.textContent = [faults && `${faults} to mend`, lacks && `${lacks} lacking`].filter(Boolean).join(", ");
    box.told.hidden = false;
  }
  tellAll(found);
}

const jump = (words_, pointer) => {
  const to = link(words_, "form");
  to.addEventListener("click", (event) => { event.preventDefault(); focusOn(pointer); });
  return made("li", to);
};

function tellAll({ lacking, faults }) {
  const groups = new Map();
  for (const lack of lacking) groups.set(lack.for.split(" ").slice(0, 2).join(" "), [...(groups.get(lack.for.split(" ").slice(0, 2).join(" ")) ?? []), lack]);
  one("#form-faults").replaceChildren(...faults.map(({ pointer }) => jump(placeInWords(pointer), pointer)));
  one("#form-faults-box").hidden = faults.length === 0;
  one("#form-lacking").replaceChildren(...[...groups].flatMap(([name, of]) => [make("h3", "For " + name), made("ul", ...of.map((lack) => jump(lack.what, lack.pointer)))]));
  one("#form-lacking-none").hidden = lacking.length > 0;
  one("#form-lacking-box").hidden = faults.length > 0 || !work.checked();
  one("#h-form").textContent = !document_ ? "The text is no JSON as it stands: the faults say where." : !work.checked() ? "What was typed is kept; the service has not looked at it yet." : faults.length ? `${count(faults.length, "entry is", "entries are")} to be mended before anything can be drawn.` : lacking.length ? `${count(lacking.length, "entry is", "entries are")} lacking. None hinders the report, which names what it does not state.` : "Nothing is lacking.";
  one("#form-next").hidden = faults.length > 0;
}

function tellChanges() {
  const last = job.changes.at(-1);
  one("#changes-box").hidden = !last;
  one("#changes").replaceChildren(...job.changes.slice(-6).reverse().map(({ words: what }) => make("li", what)));
  one("#undo-change").hidden = Boolean(job.reads_only);
}

const disable = () => { one("#form-fields").disabled = one("#from-file").disabled = Boolean(job.reads_only); tellChanges(); };

/* To be led to when the form is opened next. */
export const lookAt = (pointer) => { wanted = pointer; };

export async function open() {
  await load();
  if (!fresh) await draw();
  fresh = true;
  mark();
  tellChanges();
  if (wanted) focusOn(wanted);
  wanted = "";
}

/* Mostly the service has looked by then, and nothing flickers. */
function tellUnchecked() {
  if (shown() && job.document && !work.checked()) tellAll(job.findings ?? { lacking: [], faults: [] });
}

const shown = () => !one("[data-screen=form]").hidden;

one("#form-fields").form.addEventListener("submit", (event) => event.preventDefault());
one("#undo-change").addEventListener("click", async () => {
  await work.undo().catch((error) => say(error.message));
  (job.changes.length ? one("#undo-change") : one("#main")).focus();
});
work.when("document", async (what) => {
  if (what === null) folds = [];
  else setTimeout(tellUnchecked, 500);
  fresh = fresh && what?.kind === "entry" && shown();
  if (shown() && what?.kind !== "entry" && job.document) await open();
});
work.when("findings", () => {
  load().catch(() => {});  // so that it can be filled in where no service answers any more
  if (shown()) { mark(); tellChanges(); }
});
work.when("reads", () => { if (shown()) disable(); });
