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

/* The values inside the object or array that begins at `from`, each with its key or place, and where its key begins. */
function* inside(text, from) {
  const object = text[from] === "{";
  for (let at = blank(text, from + 1), place = 0; text[at] !== "}" && text[at] !== "]"; ++place) {
    const start = at;
    let key = place;
    if (object) {
      const closed = end(text, at);
      key = JSON.parse(text.slice(at, closed));
      at = blank(text, blank(text, closed) + 1);
    }
    const stop = end(text, at);
    yield { key, start, from: at, stop };
    at = blank(text, stop);
    if (text[at] === ",") at = blank(text, at + 1);
  }
}

/* Where the value at a path begins and ends, or nothing. */
function span(text, path) {
  let found = { from: blank(text, 0), stop: text.length };
  for (const step of path) {
    if (text[found.from] !== "{" && text[found.from] !== "[") return null;
    found = [...inside(text, found.from)].find(({ key }) => key === step);
    if (!found) return null;
  }
  return found;
}

/* Puts a value last into the object or array at `path`; `key` is of a member. */
function added(text, path, words, key) {
  const { from } = span(text, path), filled = !inside(text, from).next().done, last = text.slice(0, end(text, from) - 1).trimEnd().length;
  return text.slice(0, last) + (filled ? ", " : "") + (typeof key === "string" ? JSON.stringify(key) + ": " : "") + words + text.slice(last);
}

/* The letters of the value at a path; "" for none. */
export function lettersAt(text, path) {
  const there = span(text, path);
  return there ? text.slice(there.from, there.stop) : "";
}

/* The text with `words`, itself JSON, at a path; what lies on the way to it is made, in the place of what can hold nothing. */
export function put(text, path, words) {
  const there = span(text, path);
  if (there) return text.slice(0, there.from) + words + text.slice(there.stop);
  const [parent, step] = [path.slice(0, -1), path.at(-1)], holder = span(text, parent);
  if (holder && text[holder.from] === (typeof step === "string" ? "{" : "[")) return added(text, parent, words, step);
  return put(text, parent, typeof step === "string" ? `{${JSON.stringify(step)}: ${words}}` : `[${words}]`);
}

/* The text without what is at a path; an object or array that was left empty by it goes, too, unless it stands in a list or at the top. */
export function taken(text, path) {
  const parent = span(text, path.slice(0, -1));
  if (!parent) return text;
  const all = [...inside(text, parent.from)], at = all.findIndex(({ key }) => key === path.at(-1));
  if (at < 0) return text;
  if (all.length === 1 && path.length > 2 && typeof path.at(-2) === "string") return taken(text, path.slice(0, -1));
  const [from, stop] = at + 1 < all.length ? [all[at].start, all[at + 1].start] : [at > 0 ? all[at - 1].stop : all[at].start, all[at].stop];
  return text.slice(0, from) + text.slice(stop);
}

/* The document with one reading set aside, by series, run and target, each counted from 0. */
export function setAside(text, series, run, target, reason) {
  const of = ["series", series, "runs", run], entry = JSON.stringify({ target, reason });
  return span(text, [...of, "excluded"]) ? added(text, [...of, "excluded"], entry) : added(text, of, `[${entry}]`, "excluded");
}

/* What makes one text of another, and back: one place, and what stood there. */
export function difference(was, now) {
  const most = Math.min(was.length, now.length);
  let same = 0, tail = 0;
  while (same < most && was[same] === now[same]) ++same;
  while (tail < most - same && was[was.length - 1 - tail] === now[now.length - 1 - tail]) ++tail;
  return { at: same, was: was.slice(same, was.length - tail), now: now.slice(same, now.length - tail) };
}

export const undone = (text, { at, was, now }) => text.slice(0, at) + was + text.slice(at + now.length);

/* A JSON Pointer (RFC 6901) as steps; places in lists are numbers. `within` tells what is a list. */
export function steps(pointer, within) {
  let here = within;
  return pointer.split("/").slice(1).map((token) => {
    const word = token.replaceAll("~1", "/").replaceAll("~0", "~"), step = Array.isArray(here) ? Number(word) : word;
    here = here?.[step];
    return step;
  });
}
