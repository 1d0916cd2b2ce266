/* Numbers and units as the pages print them. */

const units = { um: "µm", uin: "µin", urad: "µrad", arcsec: "″", deg: "°", "um/m": "µm/m" };
export const unit = (word) => units[word] ?? word;
export const number = (value, digits) => value.toFixed(digits).replace("-", "−");

/* The hour, as this browser's clock shows it. */
export const clock = (time) => new Date(time).toLocaleTimeString("en", { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });

/* Decimals that an expanded uncertainty deserves: two of its digits (GUM 7.2.6); without one, three digits of the value. */
export function decimals(uncertainty, value) {
  const digits = uncertainty ? 1 - Math.floor(Math.log10(Number(uncertainty.toPrecision(2)))) : value ? 2 - Math.floor(Math.log10(Math.abs(value))) : 2;
  return Math.min(6, Math.max(0, digits));
}

/* A key of a document in words, and one entry of what it lists. */
export const words = (key) => key.replaceAll("_", " ");
const irregular = { people: "person", axes: "axis", series: "series" };
export const singular = (key) => irregular[key] ?? words(key).replace(/([^s])s$/, "$1");

/* Where something stands in a document, in words: "series 1, run 5, started". */
export function placeInWords(pointer) {
  const said = [];
  for (const token of pointer.split("/").slice(1)) {
    const key = token.replaceAll("~1", "/").replaceAll("~0", "~");
    if (/^\d+$/.test(key) && said.length) said.push(`${singular(said.pop())} ${Number(key) + 1}`);
    else said.push(words(key));
  }
  return said.join(", ") || "the whole document";
}

/* What the service says of a place, the place in words. */
export const inWords = (line) => line.replace(/^(\/\S.*?)(?=: )/, placeInWords).replace(/ \((\/[^)]*)\)/g, "");
