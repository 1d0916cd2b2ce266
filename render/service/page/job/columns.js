/* What each column was taken for, and what a person says it is instead; which sheets of a workbook are read. */
import { button, cell, count, make, made, rowHead, rowOf } from "/basics/dom.js";

export const called = (seen) => (seen.sheet ? `${seen.file}, sheet ${seen.sheet}` : seen.file);
export const columnCalled = (column, place) => (column.head ? `column ${place + 1}, ${column.head}` : `column ${place + 1}`);

const isOf = (role, seen) => role.file === seen.file && (role.sheet ?? "") === (seen.sheet ?? "");
const roleOf = (given, seen, column) => given.roles.find((role) => isOf(role, seen) && role.column === column)?.role ?? "";

/* What was said, with another role for columns of an export; "" is what was proposed. What one column alone can be, no other is any more. */
export function withRole(given, known, seen, columns, role) {
  const single = known.find((one) => one.role === role)?.only_one;
  const roles = given.roles.filter((one) => !isOf(one, seen) || !(columns.includes(one.column) || (single && one.role === role)));
  if (role) for (const column of columns) roles.push({ file: seen.file, ...(seen.sheet ? { sheet: seen.sheet } : {}), column, role });
  return { ...given, roles };
}

/* What was said, with other sheets of a workbook; roles in sheets that are not read any more stay for the case that they are again. */
export const withSheets = (given, file, names) => ({ ...given, sheets: [...given.sheets.filter((one) => one.file !== file), ...(names.length ? [{ file, names }] : [])] });

/* As the service takes it: roles in sheets that are not read have nothing to say. */
export function sentOf(given) {
  const isRead = ({ file, sheet }) => !sheet || given.sheets.some((one) => one.names.includes(sheet) && (one.file === file || !given.sheets.some((other) => other.file === file)));
  return { ...given, roles: given.roles.filter(isRead) };
}

/* The places, from 1, of the columns that a part of a mapping names: heads, numbers, or a pattern of heads. */
export function placesOf(seen, columns) {
  const escaped = (words) => words.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"), all = seen.columns.map((column, place) => ({ head: column.head, number: place + 1 }));
  const is = (by) => ({ head, number }) => by === number || by === head || (typeof by === "string" && by.includes("#") && new RegExp(`^${escaped(by).replace("#", "[-+]?[\\d.,]+")}$`).test(head));
  return [columns].flat().flatMap((by) => all.filter(is(by)).map(({ number }) => number));
}

function choice(seen, column, place, { proposal, given }, give) {
  const select = make("select"), role = roleOf(given, seen, place + 1), name = columnCalled(column, place);
  select.setAttribute("aria-label", `${name}, of ${called(seen)}, is`);
  select.dataset.key = `role ${called(seen)} ${place}`;
  select.append(new Option(role ? "as it was proposed" : column.becomes, ""));
  for (const one of proposal.roles) select.append(new Option(one.says, one.role));
  select.value = role;
  select.addEventListener("change", () => {
    const says = select.value ? `${name}, of ${called(seen)}: ${select.selectedOptions[0].text}` : `${name}, of ${called(seen)}: as it was proposed`;
    give((before) => withRole(before, proposal.roles, seen, [place + 1], select.value), says, select.dataset.key);
  });
  const box = made("div", select);
  if (role) box.append(make("p", column.becomes === select.selectedOptions[0].text ? "said by hand" : `said by hand: ${column.becomes}`, "grey small"));
  return box;
}

/* `give` is told how what was said changes, that in words, and what it is about. */
export function columnsTable(seen, read, readings, give) {
  const head = make("thead"), body = make("tbody"), caption = make("caption", called(seen));
  if (!read) caption.append(" ", make("span", "nothing of it is read", "mark"));
  head.append(rowOf(...["Column", "is", "first values"].map((words) => Object.assign(make("th", words), { scope: "col" }))));
  body.append(...seen.columns.map((column, place) => rowOf(rowHead(column.head || `column ${place + 1}, without a head`), cell("", choice(seen, column, place, readings, give)), cell("first values", column.first.map((value) => value || "(empty)").join("  ")))));
  return Object.assign(made("table", caption, head, body), { className: "stacked columns" });
}

/* Which sheets of a workbook are read: each is then asked like a file. */
export function sheetsAsked({ file, names }, { proposal, given }, give) {
  const chosen = given.sheets.find((one) => one.file === file)?.names ?? [], legend = make("legend", `${file}: which of its sheets are read? `);
  if (!chosen.length) legend.append(make("span", "open", "mark"));
  const set = made("fieldset", legend), tell = (book, sheets) => give((before) => withSheets(before, book, sheets), sheets.length ? `${book}: ${count(sheets.length, "sheet")}, ${sheets.join(", ")}` : `${book}: no sheet`);
  for (const name of names) {
    const box = Object.assign(make("input"), { type: "checkbox", checked: chosen.includes(name) });
    box.dataset.key = `sheet ${file} ${name}`;
    box.addEventListener("change", () => tell(file, names.filter((one) => (one === name ? box.checked : chosen.includes(one)))));
    const label = made("label", box, name);
    label.className = "pick";
    set.append(label);
    set.input ??= box;
  }
  const others = proposal.sheets.filter((other) => other.file !== file && !given.sheets.some((one) => one.file === other.file) && chosen.every((name) => other.names.includes(name)));
  if (chosen.length && others.length) {
    const say = () => give((before) => others.reduce((so_far, other) => withSheets(so_far, other.file, chosen), before), `${others.map((other) => other.file).join(", ")}: ${chosen.join(", ")}`);
    set.append(button(`the same for ${count(others.length, "other")} that ${others.length === 1 ? "asks" : "ask"} this`, say, "line leave"));
  }
  set.classList.toggle("open-workbook", !chosen.length);
  return set;
}
