/* The faults of a document, each beside the text that is at fault. */
import { count, make, one, say } from "/basics/dom.js";
import { put, steps } from "/basics/json_text.js";
import { placeInWords } from "/basics/printed.js";
import * as work from "/job/work.js";

let faults = [], fault = 0, shown = null;

/* Columns of the service count bytes of UTF-8; text is shown by letters. */
function placeOf(column, text) {
  return new TextDecoder().decode(new TextEncoder().encode(text).slice(0, Math.max(0, column - 1))).length;
}

/* A line with every fault of it marked: `marked` holds the faults' numbers by column. */
function lineOf(text, marked) {
  const words = make("span");
  let done = 0;
  for (const [column, number] of [...marked].sort(([a], [b]) => a - b)) {
    const from = placeOf(column, text), length = /^("(\\.|[^"\\])*"|[^\s,\]}:]+|.)/.exec(text.slice(from))?.[0].length ?? 0;
    const mark = make("mark", text.slice(from, from + length) || " ");
    mark.id = "fault-" + number;
    words.append(text.slice(done, from), mark);
    done = from + length;
  }
  words.append(text.slice(done));
  return words;
}

async function showFaults(file, found) {
  const lines = (await file.text()).split("\n"), marks = new Map();
  faults = found;
  faults.forEach(({ line, column }, number) => marks.set(line, (marks.get(line) ?? new Map()).set(column, number)));
  const most = 5000, shown = lines.map((text, i) => ({ text, number: i + 1 })).filter(({ number }) => number <= most || marks.has(number));
  one("#lines").replaceChildren(...shown.map(({ text, number }) => {
    const item = make("li");
    item.id = "line-" + number;
    item.append(make("span", String(number), "number"), lineOf(text, marks.get(number) ?? []));
    return item;
  }));
  one("#mend-in-form").hidden = !(await work.parsed());
  one("#h-faults").textContent = `${count(faults.length, "fault")} in ${work.job.name}: nothing can be drawn until ${faults.length === 1 ? "it is" : "they are"} mended.`;
  goToFault(0);
}

/* A word that is meant for certain can be written here; where a key is misspelt, it is not. */
async function offer({ pointer, found, hint }) {
  const meant = /^did you mean ("[^"]*")\?$/.exec(hint ?? "")?.[1], document_ = meant && (await work.parsed()), path = document_ ? steps(pointer, document_) : [];
  const value = path.reduce((of, step) => of?.[step], document_);
  one("#write-meant").hidden = typeof value !== "string" || JSON.stringify(value) !== found || Boolean(work.job.reads_only);
  one("#write-meant").textContent = "Write " + meant;
  one("#write-meant").onclick = () => work.change((text) => put(text, path, meant), { kind: "entry", words: `${placeInWords(pointer)} is ${meant}` }).then(() => {
    if (!work.faulty()) location.hash = "soundness";
  }, (error) => say(error.message));
}

/* Without a number the same one again: only what is shown can be scrolled to. */
function goToFault(number = fault) {
  if (faults.length === 0) return;
  fault = (number + faults.length) % faults.length;
  const { line, column, pointer, found, expected, hint } = faults[fault];
  one("#fault-place").textContent = `line ${line}, column ${column}${pointer ? ": " + placeInWords(pointer) : ""}`;
  one("#fault-found").textContent = found;
  one("#fault-expected").textContent = expected;
  one("#fault-hint").textContent = hint ?? "";
  offer(faults[fault]);
  one("#hint-name").hidden = one("#fault-hint").hidden = !hint;
  one("#fault-count").textContent = `Fault ${fault + 1} of ${faults.length}`;
  for (const item of document.querySelectorAll("#lines .now")) item.classList.remove("now");
  const item = one("#line-" + line);
  if (!item) return;
  item.classList.add("now");
  const box = one("#text"), mark = one("#fault-" + fault) ?? item;
  box.scrollTop = item.offsetTop - box.offsetTop - box.clientHeight / 2;
  const from = mark.offsetLeft - box.offsetLeft;  // the beginning of the line stays in view where it can
  box.scrollLeft = from + mark.offsetWidth + 24 < box.clientWidth ? 0 : from - box.clientWidth / 3;
}

const nextFault = (step) => goToFault(fault + step);

export async function open() {
  const { document, findings } = work.job;
  if (!findings) return;
  if (shown !== findings) await showFaults(document, findings.faults);
  shown = findings;
  goToFault();
}

one("#next-fault").addEventListener("click", () => nextFault(1));
addEventListener("keydown", (event) => {
  if (!event.altKey || one("[data-screen=faults]").hidden || !["ArrowDown", "ArrowUp"].includes(event.key)) return;
  event.preventDefault();
  nextFault(event.key === "ArrowDown" ? 1 : -1);
});
work.when("findings", () => { if (!one("[data-screen=faults]").hidden && work.faulty()) open(); });
