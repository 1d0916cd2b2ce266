/* The mapping that is proposed for exports, as far as it is answered. `readings` are those of a job: proposal, answers, what is left out. */

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
export const key = (question) => question.at + " " + question.key;

const without = (readings, id) => readings.left_out?.includes(id) ?? false;

/* The id of the series that a question is about; nothing for a question about a file. */
export function seriesOf(readings, question) {
  const [what, place, ...rest] = tokens(question.at), mapping = readings.proposal.mapping;
  if (what === "series") return mapping.series[place].id;
  return rest[0] === "values" ? mapping.exports[place].values[rest[1]].series : undefined;
}

/* The mapping as far as it is answered, and what is still open in it. Places count as proposed until what is left out goes. */
export function mapped(readings) {
  const mapping = structuredClone(readings.proposal.mapping), asked = readings.proposal.questions.filter((question) => !without(readings, seriesOf(readings, question)));
  for (const question of asked) {
    const answer = readings.answers[key(question)], object = at(mapping, question.at);
    if (answer && object && isOpen(object[question.key])) merge(object, answer);
  }
  const left = asked.filter((question) => isOpen(at(mapping, question.at)?.[question.key]));
  mapping.series = mapping.series?.filter(({ id }) => !without(readings, id));
  for (const file of mapping.exports) if (file.values) file.values = file.values.filter(({ series }) => !without(readings, series));
  return { mapping, left };
}

const escaped = (words) => words.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

/* Whether a column of a file, by its place from 0, was left out. */
export function isLeftOut(readings, file, column, place) {
  const values = readings.proposal.mapping.exports.find((one) => one.file === file)?.values ?? [];
  const is = ({ column: by, columns }) => by === column.head || by === place + 1 || (columns && new RegExp(`^${escaped(columns).replace("#", "\\d+")}$`).test(column.head));
  return values.some((one) => without(readings, one.series) && is(one));
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
