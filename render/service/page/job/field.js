/* Fields of the form: what is typed becomes JSON, and what stands in the document is shown as it would be typed. */
import { make, made } from "/basics/dom.js";
import { hint, label } from "/job/schema.js";

const number = /^-?(0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?$/;

/* Digits stay as they were typed. What is no number is written as text: the service then says what is expected in its place. */
export const numeral = (text) => {
  const typed = text.trim().replace("−", "-");
  return number.test(typed) ? typed : JSON.stringify(text.trim());
};

const list = (entries) => (entries.length ? `[${entries.join(", ")}]` : "");

/* JSON of what a field holds; "" for nothing. */
const written = {
  text: (text) => (text.trim() ? JSON.stringify(text.trim()) : ""),
  choice: (text, node) => (text === "" ? "" : JSON.stringify(node.enum[Number(text)])),
  yes: (text) => text,
  number: (text) => (text.trim() ? numeral(text) : ""),
  lines: (text) => list(text.split("\n").map((line) => line.trim()).filter(Boolean).map((line) => JSON.stringify(line))),
  numbers: (text) => list(text.split(/[,;]/).map((one) => one.trim()).filter(Boolean).map(numeral)),
};

const several = (value, between) => (Array.isArray(value) ? value.map((one) => (typeof one === "object" ? JSON.stringify(one) : String(one))).join(between) : String(value));

function shown(kind, value, node) {
  if (value === undefined) return "";
  if (kind === "choice") return String(node.enum.indexOf(value));
  if (kind === "lines") return several(value, "\n");
  if (kind === "numbers") return several(value, ", ");
  return typeof value === "object" ? JSON.stringify(value) : String(value);
}

function control(kind, node, value) {
  if (kind === "choice" || kind === "yes") {
    const select = make("select"), choices = kind === "yes" ? [["yes", "true"], ["no", "false"]] : node.enum.map((word, place) => [String(word).replaceAll("_", " ").replaceAll("-", " ").replace(/ISO (\d+) (\d)/, "ISO $1-$2"), String(place)]);
    select.append(new Option("not stated", ""), ...choices.map(([words, given]) => new Option(words, given)));
    return select;
  }
  if (kind === "lines") return Object.assign(make("textarea"), { rows: Math.min(6, Math.max(2, value?.length ?? 0)) });
  const input = Object.assign(make("input"), { autocomplete: "off" });
  if (kind === "number") input.inputMode = "decimal";
  return input;
}

let fields = 0;

/* A field of the entry `key`; `entered` gets its JSON, "" where it was emptied, and its label. */
export function field({ key, node, kind, value, pointer, name = label(key, node) }, entered) {
  const id = `entry-${++fields}`, input = control(kind, node, value), said = hint(key, node);
  const box = made("div", Object.assign(make("label", name), { htmlFor: id }), input);
  input.id = id;
  input.value = shown(kind, value, node);
  box.className = kind === "lines" || String(value ?? "").length > 40 ? "field long" : "field";
  if (said) box.append(Object.assign(make("p", said, "grey small"), { id: id + "-hint" }));
  const told = Object.assign(make("p", "", "small told"), { id: id + "-told", hidden: true });
  box.append(told);
  input.setAttribute("aria-describedby", [said && id + "-hint", told.id].filter(Boolean).join(" "));
  input.addEventListener("change", () => entered(written[kind](input.value, node), name));
  box.dataset.pointer = pointer;
  return Object.assign(box, { input, told });
}
