/* What every part of the page does with its document. Words are only ever set as text. */

export const one = (selector) => document.querySelector(selector);
export const make = (name, words, className) => Object.assign(document.createElement(name), { textContent: words ?? "", className: className ?? "" });
export const count = (number, word, words) => `${number} ${number === 1 ? word : words ?? word + "s"}`;

/* Announced, for those who do not see what changed. */
export const say = (words) => { one("#say").textContent = words; };

/* Told to everybody, until it is no longer so. */
export function notice(words) {
  one("#notice").textContent = words;
  if (words) say(words);
}

export function facts(pairs) {
  const list = make("dl", "", "facts");
  for (const [name, value] of pairs) list.append(make("dt", name), make("dd", value));
  return list;
}

/* A cell of a table; where the table is stacked, its column's name stands before it. */
export function cell(column, content) {
  const made = make("td");
  made.dataset.column = column;
  made.append(content);
  return made;
}

export function rowOf(...cells) {
  const row = make("tr");
  row.append(...cells);
  return row;
}

/* Shows what was answered as an image; the one before is let go of. */
export async function picture(image, answer) {
  if (image.src.startsWith("blob:")) URL.revokeObjectURL(image.src);
  image.src = URL.createObjectURL(await answer.blob());
}

export const save = async (asked, name) => hand(await (await asked).blob(), name);

/* Gives the browser a file to save. */
export function hand(blob, name) {
  const link = Object.assign(make("a"), { href: URL.createObjectURL(blob), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}
