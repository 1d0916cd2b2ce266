/* What every part of the page does with its document. Words are only ever set as text. */

export const one = (selector) => document.querySelector(selector);
export const make = (name, words, className) => Object.assign(document.createElement(name), { textContent: words ?? "", className: className ?? "" });
export const count = (number, word, words) => `${number} ${number === 1 ? word : words ?? word + "s"}`;

/* Announced, for those who do not see what changed. */
export const say = (words) => { one("#say").textContent = words; };

/* Told to everybody, until it is no longer so. */
export function notice(words) {
  if (one("#notice").textContent === words) return;
  one("#notice").textContent = words;
  if (words) say(words);
}

/* What a screen says, also as the name of the window. */
export function entitle(selector, words) {
  one(selector).textContent = words;
  document.title = words + " – wayfolio";
}

export function made(name, ...content) {
  const element = make(name);
  element.append(...content);
  return element;
}

export const link = (words, place) => Object.assign(make("a", words), { href: "#" + place });

export function button(words, act, className = "line") {
  const pressed = Object.assign(make("button", words, className), { type: "button" });
  pressed.addEventListener("click", act);
  return pressed;
}

export const items = (selector, words) => one(selector).replaceChildren(...words.map((text) => make("li", text)));

export function facts(pairs) {
  const list = make("dl", "", "facts");
  for (const [name, value] of pairs) list.append(make("dt", name), made("dd", value));
  return list;
}

/* A cell of a table; where the table is stacked, its column's name stands before it. */
export function cell(column, content) {
  const one_ = made("td", content);
  one_.dataset.column = column;
  return one_;
}

export function rowHead(...content) {
  return Object.assign(made("th", ...content), { scope: "row" });
}

export const rowOf = (...cells) => made("tr", ...cells);

/* Shows what was answered as an image; the one before is let go of. */
export function picture(image, blob) {
  const shown = URL.createObjectURL(blob);
  if (image.src.startsWith("blob:")) URL.revokeObjectURL(image.src);
  image.src = shown;
}

export const save = async (asked, name) => hand(await (await asked).blob(), name);

/* Gives the browser a file to save. */
export function hand(blob, name) {
  const given = Object.assign(make("a"), { href: URL.createObjectURL(blob), download: name });
  given.click();
  setTimeout(() => URL.revokeObjectURL(given.href), 10000);
}
