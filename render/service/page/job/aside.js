/* A reading set aside with its reason: what it changes is told before and after, and it can be undone. */
import { ask } from "/basics/ask.js";
import { make, made, one, say } from "/basics/dom.js";
import { setAside } from "/basics/json_text.js";
import { number, unit } from "/basics/printed.js";
import * as work from "/job/work.js";

const { job } = work;
let asked = null;

/* Every parameter of a series with its verdict, where it has one. */
function results(of, id) {
  const all = new Map(), found = of.series.find((one_) => one_.id === id);
  for (const [name, parameter] of Object.entries(found?.parameters ?? {}))
    all.set(name, { value: parameter.value, unit: parameter.unit, verdict: of.decisions.find((decision) => decision.series === id && decision.parameter === name)?.verdict ?? "" });
  return all;
}

/* Two values with as many digits as tell them apart, two at least. */
function apart(then, now) {
  let digits = 2;
  while (digits < 6 && then !== now && then.toFixed(digits) === now.toFixed(digits)) ++digits;
  return [number(then, digits), number(now, digits)];
}

function changes(before, after, id) {
  const was = results(before, id), is = results(after, id), rows = [];
  for (const [name, now] of is) {
    const then = was.get(name);
    if (!then || (then.value === now.value && then.verdict === now.verdict)) continue;
    rows.push({ name, text: `${apart(then.value, now.value).join(" → ")} ${unit(now.unit)}`, verdict: then.verdict === now.verdict ? now.verdict : `${then.verdict} → ${now.verdict}` });
  }
  for (const name of was.keys()) if (!is.has(name)) rows.push({ name, text: "is no longer evaluated", verdict: "" });
  return rows;
}

const row = ({ name, text, verdict }) => made("li", make("b", name.replaceAll("_", ", ")), ` ${text}${verdict ? ", " + verdict : ""}`);
const tell = (rows, list) => list.replaceChildren(...(rows.length ? rows : [{ name: "", text: "No parameter changes.", verdict: "" }]).map(row));

async function evaluationOf(text) {
  return (await ask("/v1/evaluation", work.parts(new File([text], job.name, { type: "application/json" })))).json();
}

/* `about`: series, run and target with what they are called, and the numbers as they are. */
export async function question(about) {
  asked = about;
  one("#aside-which").textContent = about.words;
  one("#reason").value = "";
  one("#aside-changes").replaceChildren(make("li", "Evaluating without it."));
  one("#aside").showModal();
  one("#reason").focus();
  try {
    const without = await evaluationOf(setAside(await job.document.text(), about.place, about.run, about.target, "to be said"));
    if (asked === about) tell(changes(about.evaluation, without, about.id), one("#aside-changes"));
  } catch (error) {
    one("#aside-changes").replaceChildren(make("li", error.message));
  }
}

async function confirm(event) {
  event.preventDefault();
  const reason = one("#reason").value.trim(), about = asked;
  if (!reason) return one("#reason").focus();
  const without = (text) => setAside(text, about.place, about.run, about.target, reason);
  let rows;
  try {
    rows = changes(about.evaluation, await evaluationOf(without(await job.document.text())), about.id);  // what cannot be evaluated any more is not taken over
    await work.change(without, { kind: "aside", words: `${about.words} ${reason}` });
  } catch (error) {
    one("#aside-changes").replaceChildren(make("li", `Not set aside. ${error.message}`));
    return say(`Not set aside. ${error.message}`);
  }
  one("#aside").close();
  show();
  tell(rows, one("#changed"));
  say(`Set aside. ${rows.slice(0, 3).map((one_) => `${one_.name} ${one_.text} ${one_.verdict}`).join("; ") || "No parameter changes."}`);
  one("#undo").focus();
}

/* What was set aside in this job; the last change of all is the one that can be undone. */
export function show() {
  const all = job.changes.filter((change) => change.kind === "aside"), last = job.changes.at(-1);
  one("#aside-box").hidden = all.length === 0;
  one("#aside-list").replaceChildren(...all.map(({ words }) => make("li", words)));
  one("#undo").hidden = Boolean(job.reads_only);
  one("#undo").textContent = last?.kind === "aside" ? `Undo the ${all.length > 1 ? "last" : "setting aside"}` : "Undo the last change, made in the form";
  if (!all.length) one("#changed").replaceChildren();
}

async function undo() {
  await work.undo();
  one("#changed").replaceChildren();
  show();
  (one("#aside-box").hidden ? one("#target") : one("#undo")).focus();
}

one("#aside-form").addEventListener("submit", confirm);
one("#leave-in").addEventListener("click", () => one("#aside").close());
one("#undo").addEventListener("click", () => undo().catch((error) => say(error.message)));
work.when("reads", show);
