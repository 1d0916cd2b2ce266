/* Entries filled in from another file: facts that jobs have in common, or the document of another visit. Only what is empty is filled,
   and nothing that was found or read at a visit. */
import { cell, count, make, made, one, rowHead, rowOf, say } from "/basics/dom.js";
import { put } from "/basics/json_text.js";
import { label, nameOf } from "/job/schema.js";
import * as work from "/job/work.js";

const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
const only = (from, keys) => Object.fromEntries(keys.filter((key) => from?.[key] !== undefined).map((key) => [key, from[key]]));

/* What another visit and this one may share. Another machine's plate, customer and place are not this one's. */
function lastingOf(document, now) {
  const same = document.machine?.serial !== undefined && document.machine.serial === now.machine?.serial, { condition, ...machine } = document.machine ?? {};
  return {
    job: only(document.job, ["laboratory", "people", "method", ...(same ? ["customer", "place", "place_kind"] : [])]),
    ...(same ? { machine } : {}), instruments: document.instruments ?? [], evaluation: document.evaluation ?? {},
    uncertainty: only(document.uncertainty, ["contributors"]),
  };
}

const factsOf = (facts, now) => {
  const other = facts.machine?.serial !== undefined && now.machine?.serial !== undefined && facts.machine.serial !== now.machine.serial;
  return { ...facts, machine: other ? {} : facts.machine };
};

/* What is given, and not stated yet: path and value of each. */
function missing(given, now, path = []) {
  return Object.entries(given).filter(([key]) => key !== "internal" && !key.startsWith("$")).flatMap(([key, value]) => {
    const at = [...path, key];
    if (now?.[key] === undefined) return isObject(value) && path.length === 0 ? missing(value, {}, at) : [{ path: at, value }];
    return isObject(value) && isObject(now[key]) ? missing(value, now[key], at) : [];
  });
}

/* An instrument is the same one by its id, unless it has another serial number. */
function instruments(given, now) {
  const there = Array.isArray(now) ? now : [];
  let next = there.length;
  return given.flatMap((instrument) => {
    const at = there.findIndex((one_) => one_?.id === instrument.id);
    if (at < 0) return [{ path: ["instruments", next++], value: instrument }];
    const other = there[at].serial !== undefined && instrument.serial !== undefined && there[at].serial !== instrument.serial;
    return other ? [] : missing(instrument, there[at], ["instruments", at]);
  });
}

function offers(file, now) {
  const { format, version, instruments: given = [], ...rest } = file.format === "wayfolio-facts" ? factsOf(file, now) : lastingOf(file, now);
  return [...missing(only(rest, ["job", "machine", "environment", "setup", "evaluation", "uncertainty"]), now), ...instruments(given, now.instruments)];
}

/* ---- asked before it is done ---- */

let offered = [];

const brief = (value) => {
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (Array.isArray(value)) return value.map((one_) => (isObject(one_) ? nameOf(one_) : String(one_))).join("; ");
  return isObject(value) ? nameOf(value) || Object.values(value).filter((one_) => !isObject(one_)).join(", ") : String(value);
};

const placeOf = (path) => path.map((step, at) => (typeof step === "number" ? "" : typeof path[at + 1] === "number" ? `instrument ${path[at + 1] + 1}` : label(step, {}).toLowerCase().replace("°c", "°C"))).filter(Boolean).join(", ");

function row({ path, value }, at) {
  const tick = Object.assign(make("input"), { type: "checkbox", checked: true, value: String(at) });
  tick.addEventListener("change", tell);
  return rowOf(rowHead(made("label", tick, " " + placeOf(path))), cell("then", brief(value)));
}

const ticked = () => [...one("#template-rows").querySelectorAll("input:checked")].map((tick) => offered[Number(tick.value)]);

function tell() {
  one("#template-fill").textContent = `Fill in ${count(ticked().length, "entry", "entries")}`;
}

async function choose(file) {
  const told = one("#template-told");
  try {
    const from = JSON.parse(await work.textOf(file)), now = await work.parsed();
    if (!["wayfolio-facts", "wayfolio-result"].includes(from.format)) throw new Error();
    offered = offers(from, now);
    told.textContent = offered.length ? "" : `${file.name} gives nothing that is not stated already.`;
  } catch {
    told.textContent = `${file.name} is neither a file of facts nor a result document.`;
    offered = [];
  }
  if (!offered.length) return say(told.textContent);
  one("#template-rows").replaceChildren(...offered.map(row));
  one("#template-file").textContent = file.name;
  tell();
  one("#template").showModal();
  one("#template-fill").focus();
}

async function fill(event) {
  event.preventDefault();
  const chosen = ticked(), name = one("#template-file").textContent;
  one("#template").close();
  if (!chosen.length) return;
  const all = (text) => chosen.reduce((now, { path, value }) => put(now, path, JSON.stringify(value)), text);
  await work.change(all, { kind: "template", words: `${count(chosen.length, "entry", "entries")} from ${name}` }).catch((error) => say(error.message));
  say(`${count(chosen.length, "entry was", "entries were")} filled in.`);
  one("#main").focus();
}

one("#from-file").addEventListener("change", () => { choose(one("#from-file").files[0]); one("#from-file").value = ""; });
one("#template-form").addEventListener("submit", fill);
one("#template-leave").addEventListener("click", () => one("#template").close());
