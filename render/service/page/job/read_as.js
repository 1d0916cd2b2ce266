/* How the text of an export is read, and what a person says it is instead. */
import { made, make } from "/basics/dom.js";

const words = {
  delimiter: { ";": "semicolons", ",": "commas", tab: "tabs", "|": "vertical bars", blanks: "blanks" },
  decimal_mark: { ".": "a point", ",": "a comma" },
  encoding: { "utf-8": "UTF-8", "utf-16": "UTF-16", "latin-1": "Latin-1" },
};
const asks = { delimiter: "Between columns", decimal_mark: "Before decimals", encoding: "Letters" };

const saidOf = (given, file) => (given.read_as ?? []).find((one) => one.file === file);

/* What was said, with an export read otherwise. */
function withReadAs(given, file, entry, value) {
  const others = (given.read_as ?? []).filter((one) => one.file !== file);
  return { ...given, read_as: [...others, { file, ...saidOf(given, file), [entry]: value }] };
}

function choice(seen, entry, give) {
  const select = make("select"), label = make("label", asks[entry]), topic = `read ${seen.file} ${entry}`;
  select.id = label.htmlFor = topic.replaceAll(" ", "-");
  select.setAttribute("aria-label", `${asks[entry]}, of ${seen.file}`);
  select.dataset.key = topic;
  if (!seen.read_as[entry]) select.append(new Option("open", ""));
  select.append(...Object.entries(words[entry]).map(([value, says]) => new Option(says, value)));
  select.value = seen.read_as[entry];
  select.addEventListener("change", () => give((before) => withReadAs(before, seen.file, entry, select.value), `${seen.file}: ${asks[entry].toLowerCase()} ${select.selectedOptions[0].text}`, topic));
  return made("div", label, select);
}

/* Nothing for a workbook, which says itself what a cell is. */
export function readAs(seen, given, give) {
  if (!seen.read_as) return null;
  const { delimiter, decimal_mark, encoding, first_row } = seen.read_as, box = make("details", "", "read-as"), fields = make("div", "", "fields");
  const decimals = decimal_mark ? `${words.decimal_mark[decimal_mark]} before decimals` : "what stands before decimals is open";
  box.append(made("summary", `Read as: ${words.delimiter[delimiter]} between columns, ${decimals}, ${words.encoding[encoding]}, readings from line ${first_row} on. `, make("span", "Change")));
  fields.append(...Object.keys(asks).map((entry) => choice(seen, entry, give)));
  box.append(fields);
  box.open = Boolean(saidOf(given, seen.file));
  return box;
}
