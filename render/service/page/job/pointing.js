/* Which target of a figure is pointed at: the figure says at its foot where along the axis what stands. */
import { one } from "/basics/dom.js";

let scale = null;  // where a position stands in the width of the drawing, and back

const numberOf = (words) => Number(words.replace("−", "-").replace(/\s/g, ""));

/* The words of a drawing, each with where it stands (points). */
const wordsOf = (svg) => [...svg.matchAll(/<text x="([\d.]+)" y="([\d.]+)"[^>]* textLength="([\d.]+)"[^>]*>([^<]*)<\/text>/g)].map(([, x, y, length, words]) => ({ middle: Number(x) + Number(length) / 2, y, words }));

/* The row of labels that begins with the name of the axis, as "X / mm"; nothing where a figure has none. `unit` as it is printed. */
export function read(svg, unit) {
  const all = wordsOf(svg), width = Number(/viewBox="0 0 ([\d.]+) /.exec(svg)?.[1]);
  const name = all.findLast(({ words }) => /^[XYZABCUVW]\d* \/ /.test(words) && words.endsWith(" / " + unit));
  const labels = all.filter((one_) => one_ !== name && one_.y === name?.y).map(({ middle, words }) => ({ value: numberOf(words), at: middle })).filter(({ value }) => Number.isFinite(value));
  const [first, last] = [labels[0], labels.at(-1)];
  scale = null;
  if (!width || labels.length < 2 || first.value === last.value) return;
  const each = (last.at - first.at) / (last.value - first.value);
  scale = { share: (position) => (first.at + (position - first.value) * each) / width, position: (share) => first.value + (share * width - first.at) / each };
}

/* The line at a target. */
export function show(position) {
  const line = one("#pointed"), share = scale?.share(position) ?? -1;
  line.hidden = !(share >= 0 && share <= 1);
  line.style.left = share * 100 + "%";
}

/* `targets` gives the positions, or nothing; `choose` gets the nearest to where somebody points. */
export function point(targets, choose) {
  const moved = (event) => {
    const all = targets(), frame = one("#picture").getBoundingClientRect();
    if (!scale || !all) return;
    const here = scale.position((event.clientX - frame.left) / frame.width);
    choose(all.reduce((nearest, target, place) => (Math.abs(target - here) < Math.abs(all[nearest] - here) ? place : nearest), 0));
  };
  one("#picture").addEventListener("pointermove", moved);
  one("#picture").addEventListener("pointerdown", moved);
}
