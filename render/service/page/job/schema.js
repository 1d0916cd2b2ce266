/* The schema of a result document, as the service has it: what may stand where, in the words of the schema. */
import { ask } from "/basics/ask.js";
import { words } from "/basics/printed.js";

let schema = null;

export async function load() {
  schema ??= await (await ask("/v1/schemas/result")).json();
}

/* A node with what it refers to. What the definition says stays beside what is said of its use. */
function resolved(node) {
  if (!node.$ref) return node;
  const definition = resolved(schema.definitions[node.$ref.split("/").at(-1)]), { $ref, ...own } = node;
  return { ...definition, ...own, of: $ref.split("/").at(-1), form: own.description && definition.description };
}

/* What gather writes of its sources; what belongs to the house is asked for once, at the end of the form. */
const unasked = ["origin", "origin_file", "internal"];
const long = 1000;  // more entries than anybody types

function kindOf(node) {
  if (unasked.includes(node.of)) return "none";
  if ("const" in node) return "none";
  if (node.enum) return "choice";
  if (node.type === "boolean") return "yes";
  if (node.type === "number" || node.type === "integer") return "number";
  if (node.type === "array") return kindOfArray(node);
  if (node.type === "object") return typeof node.additionalProperties === "object" ? "map" : "group";
  return "text";
}

/* Readings come from the instrument: they are looked at in figures and set aside there, and never typed over. */
function kindOfArray(node) {
  const item = resolved(node.items ?? {}), kind = kindOf(item);
  if (kind === "text" || kind === "choice") return "lines";
  if (kind === "number") return node.maxItems >= long ? "none" : "numbers";
  if (item.type === "array" || members(item).some(([key, , kind_]) => key === "deviations" && kind_ === "none")) return "none";
  return "list";
}

/* What an object may hold: key, node and kind of each. */
export function members(node) {
  return Object.entries(node.properties ?? {}).map(([key, member]) => { const of = resolved(member); return [key, of, kindOf(of)]; });
}

export function itemOf(node) {
  return resolved(node.items);
}

/* The parts of a document that are filled in, in the order of the schema. */
export function topics() {
  const given = ["$schema", "format", "version", "facts"];
  return Object.entries(schema.properties).filter(([key]) => !given.includes(key)).map(([key, node]) => {
    const of = resolved(node);
    return { key, node: of, kind: key === "internal" ? "group" : kindOf(of) };
  });
}

/* ---- labels: the key in words, its unit after it ---- */

const units = { um_per_m_K: "µm/(m K)", um_per_m: "µm/m", urad_per_m: "µrad/m", mm_per_min: "mm/min", deg_per_min: "°/min", urad: "µrad", um: "µm", mm: "mm", nm: "nm", hPa: "hPa", percent: "%", ppm: "ppm", deg: "°", C: "°C", s: "s" };
const suffix = new RegExp(`(^|_)(${Object.keys(units).join("|")})$`);

const plain = (words) => words.replaceAll("`", "").replace(/\bum\b/g, "µm").replace(/\burad\b/g, "µrad");
const upper = (words) => words[0].toUpperCase() + words.slice(1);

export function label(key, node) {
  const unit = suffix.exec(key)?.[2], bare = unit ? key.replace(suffix, "") : key;
  const name = bare ? words(bare) : (node.description ?? key).split(",")[0];
  return upper(name) + (unit ? ", " + units[unit] : "");
}

/* What the schema says beyond the label, of the entry and of the form that it has. */
export function hint(key, node) {
  const said = [node.description?.length > 24 ? node.description : "", node.form ?? "", node.type === "array" && node.items?.enum ? "any of: " + node.items.enum.join("; ") : ""];
  return said.filter(Boolean).map(plain).join(". ");
}

/* What an entry of a list is called: by what names it. */
export function nameOf(entry) {
  if (typeof entry !== "object" || entry === null) return "";
  const { error, state, id, name, role, kind, parameter, axis, time, file } = entry;
  if (error) return [error, state?.replace("-", " "), parameter].filter(Boolean).join(", ");
  return [role, name, kind ?? id, parameter && words(String(parameter)), axis && !name ? "axis " + axis : "", time, file].filter(Boolean)[0] ?? "";
}
