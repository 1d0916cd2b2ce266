/* Changes a JSON text at one place and leaves every other letter as it was: a number keeps the digits that it was written with. */

const space = /\s*/y, string = /"(?:[^"\\]|\\.)*"/y, scalar = /[^\s,\]}]+/y;

const past = (pattern, text, from) => {
  pattern.lastIndex = from;
  return pattern.test(text) ? pattern.lastIndex : from;
};
const blank = (text, from) => past(space, text, from);

/* Where the value ends that begins at `from`. */
function end(text, from) {
  if (text[from] === '"') return past(string, text, from);
  if (text[from] !== "{" && text[from] !== "[") return past(scalar, text, from);
  let depth = 0;
  for (let at = from; at < text.length; ++at) {
    if (text[at] === '"') at = past(string, text, at) - 1;
    else if (text[at] === "{" || text[at] === "[") ++depth;
    else if ((text[at] === "}" || text[at] === "]") && --depth === 0) return at + 1;
  }
  throw new Error("this JSON text has no end");
}

/* The values inside the object or array that begins at `from`, each with its key or place. */
function* inside(text, from) {
  const object = text[from] === "{";
  for (let at = blank(text, from + 1), place = 0; text[at] !== "}" && text[at] !== "]"; ++place) {
    let key = place;
    if (object) {
      const closed = end(text, at);
      key = JSON.parse(text.slice(at, closed));
      at = blank(text, blank(text, closed) + 1);
    }
    const stop = end(text, at);
    yield { key, from: at, stop };
    at = blank(text, stop);
    if (text[at] === ",") at = blank(text, at + 1);
  }
}

/* Where the value at a path begins and ends, or nothing. */
function span(text, path) {
  let found = { from: blank(text, 0), stop: text.length };
  for (const step of path) {
    found = [...inside(text, found.from)].find(({ key }) => key === step);
    if (!found) return null;
  }
  return found;
}

/* Puts a value last into the object or array at `path`; `key` is of a member. */
function added(text, path, value, key) {
  const { from, stop } = span(text, path), filled = !inside(text, from).next().done, last = text.slice(0, stop - 1).trimEnd().length;
  const words = (key === undefined ? "" : JSON.stringify(key) + ": ") + JSON.stringify(value);
  return text.slice(0, last) + (filled ? ", " : "") + words + text.slice(last);
}

/* The document with one reading set aside, by series, run and target, each counted from 0. */
export function setAside(text, series, run, target, reason) {
  const of = ["series", series, "runs", run], entry = { target, reason };
  return span(text, [...of, "excluded"]) ? added(text, [...of, "excluded"], entry) : added(text, of, [entry], "excluded");
}
