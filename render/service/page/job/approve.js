/* Who authorizes the report, and when it is issued, written into the document at once. It is no signature. */
import { one, say } from "/basics/dom.js";
import { put } from "/basics/json_text.js";
import * as work from "/job/work.js";

/* As the check of what is lacking has it. */
const authorizes = (person) => /approv|author|releas/i.test(person?.role ?? "");
const people = (document) => (Array.isArray(document?.job?.people) ? document.job.people : []);

/* Offered as long as something of it is not stated. */
export function show(document) {
  const done = document?.job?.status === "final" && document.job.issued && people(document).some(authorizes);
  one("#approve-box").hidden = Boolean(done) || Boolean(work.job.reads_only);
}

async function ask() {
  const document = await work.parsed();
  one("#approver").value = people(document).find(authorizes)?.name ?? "";
  one("#approved-on").value = document?.job?.issued ?? "";
  one("#approve-dialog").showModal();
  one("#approver").focus();
}

async function approve(event) {
  event.preventDefault();
  const name = one("#approver").value.trim(), day = one("#approved-on").value.trim();
  if (!name) return one("#approver").focus();
  one("#approve-dialog").close();
  const all = people(await work.parsed()), at = all.findIndex(authorizes);
  const person = (text) => (at < 0 ? put(text, ["job", "people", all.length], JSON.stringify({ role: "approved by", name })) : put(text, ["job", "people", at, "name"], JSON.stringify(name)));
  await work.change((text) => put(put(person(text), ["job", "issued"], JSON.stringify(day)), ["job", "status"], '"final"'), { kind: "entry", words: `approved by ${name}, issued ${day}` });
  say(`Approved by ${name}, issued ${day}.`);
  one("#save").focus();
}

one("#approve").addEventListener("click", ask);
one("#approve-form").addEventListener("submit", (event) => approve(event).catch((error) => say(error.message)));
one("#approve-leave").addEventListener("click", () => one("#approve-dialog").close());
