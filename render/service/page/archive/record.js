/* One record: what was filed, whether it is still as it was, and a job filed from here. */
import { jobOf, verdictOf } from "/archive/archive.js";
import { checkRows, openJob } from "/archive/verdict.js";
import { ask } from "/basics/ask.js";
import { entitle, facts, one, save, say } from "/basics/dom.js";
import { unpacked } from "/basics/unpack.js";
import { takeDocument } from "/job/take.js";

async function verify(place) {
  one("#record-said").textContent = "Every number is evaluated again, every page drawn again.";
  say(one("#record-said").textContent);
  const verdict = await (await ask(place + "/verification")).json();
  one("#record-said").textContent = verdict.sound ? "Nothing shows that this record was changed since it was filed." : "This record is not as it was filed.";
  one("#record-checks").replaceChildren(...checkRows(verdict));
  one("#record-checks-box").hidden = false;
  say(one("#record-said").textContent);
}

/* A damaged record is in no list: it can only be looked at for what is changed. */
async function tell(fingerprint) {
  const { visits } = await (await ask("/v1/records")).json(), visit = visits.find((one_) => one_.fingerprint.replace("sha256:", "").startsWith(fingerprint));
  if (!visit) {
    entitle("#h-record", "No sound record has this fingerprint.");
    one("#record-facts").replaceChildren();
    return "record";
  }
  entitle("#h-record", visit.title || jobOf(visit));
  one("#record-facts").replaceChildren(facts([["job", jobOf(visit)], ["measured", visit.day || "no date"], ["machine", visit.machine || "not stated"], ["serial", visit.serial || "not stated"], ["customer", visit.customer || "not stated"], ["verdict", verdictOf(visit)], ...(visit.replaced ? [["standing", "replaced by a later one"]] : [])]));
  return visit.job || "record";
}

/* As it was filed, with the files that its document names: for a correction, or for the next visit. */
async function openAsJob(place) {
  const files = await unpacked(await (await ask(place + "/bag")).blob()), report = [...files.keys()].find((name) => name.endsWith("/data/report.pdf"));
  await openJob(files, report.slice(0, -"data/report.pdf".length), takeDocument);
}

export async function open(fingerprint) {
  const place = "/v1/records/" + encodeURIComponent(fingerprint);
  one("#record-fingerprint").textContent = fingerprint.slice(0, 16);
  one("#record-checks-box").hidden = true;
  one("#record-said").textContent = "";
  const job = await tell(fingerprint), trouble = (error) => { one("#record-said").textContent = error.message; };
  const give = (part, name) => () => save(ask(`${place}/${part}`), name).catch(trouble);
  one("#record-report").onclick = give("report", job + ".pdf");
  one("#record-document").onclick = give("document", job + ".json");
  one("#record-packed").onclick = give("bag", job + ".zip");
  one("#record-open").onclick = () => openAsJob(place).catch(trouble);
  one("#record-verify").onclick = () => verify(place).catch(trouble);
  say(one("#h-record").textContent);
}
