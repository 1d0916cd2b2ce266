/* The mapping that is proposed for exports, as far as it is answered. `readings` are those of a job: proposal and answers. */

export const tokens = (pointer) => pointer.split("/").slice(1).map((token) => token.replaceAll("~1", "/").replaceAll("~0", "~"));
export const at = (json, pointer) => tokens(pointer).reduce((value, token) => value?.[token], json);

/* A JSON merge patch (RFC 7396), of one level. */
function merge(object, patch) {
  for (const [key, value] of Object.entries(patch)) {
    if (value === null) delete object[key];
    else object[key] = value;
  }
}

const isOpen = (value) => value === "?" || (Array.isArray(value) && value.length === 1 && value[0] === "?");

/* The columns that go into a series, each with the export it stands in. */
export function columnsOf(mapping, id) {
  return mapping.exports.flatMap((file) => (file.values ?? []).filter(({ series }) => series === id).map((values) => ({ file, columns: values.columns ?? values.column })));
}

/* What a question is about, and not its place: an answer outlasts a proposal in which something else was said. */
export function key({ proposal: { mapping } }, question) {
  const [what, place, ...rest] = tokens(question.at);
  if (what === "series") return JSON.stringify([columnsOf(mapping, mapping.series[place].id).map(({ file, columns }) => [file.file, file.sheet, columns]), question.key]);
  const file = mapping.exports[place], { column, columns, above } = at(mapping, question.at);
  return JSON.stringify([file.file, file.sheet, rest[0] === "values" ? "values" : rest, column ?? columns ?? above, question.key]);
}

/* Workbooks of which nobody has said yet which sheets are read. */
export const openWorkbooks = (readings) => readings.proposal.sheets.filter(({ file }) => !readings.given.sheets.some((chosen) => chosen.file === file));

/* Whether anything of an export is read; one of which nothing is stays out of the mapping. */
export const isRead = (file) => Boolean(file.values?.length || file.environment || file.trace);

/* The mapping as far as it is answered, and what is still open in it. */
export function mapped(readings) {
  const mapping = structuredClone(readings.proposal.mapping), { questions } = readings.proposal;
  for (const question of questions) {
    const answer = readings.answers[key(readings, question)], object = at(mapping, question.at);
    if (answer && object && isOpen(object[question.key])) merge(object, answer);
  }
  const left = questions.filter((question) => isOpen(at(mapping, question.at)?.[question.key]));
  mapping.exports = mapping.exports.filter(isRead);
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

export const mappingText = (readings) => (readings.mapping ? readings.mapping : JSON.stringify(named(mapped(readings).mapping), null, 2) + "\n");
