/* One record: what was filed, whether it is still as it was, and a job filed from here. */
import { jobOf, placeOf, verdictOf } from "/archive.js";
import { facts, make, one, rowOf, save, say, cell } from "/dom.js";

let ask = null, parts = null, chosen = null;

/* `choice`: layout and paper of the report that is filed. */
export const prepare = (asker, makeParts, choice) => { [ask, parts, chosen] = [asker, makeParts, choice]; };

/* What a verification found, as rows of a table. */
export function checkRows(verdict) {
  const words = { holds: "holds", does_not_hold: "does not hold", not_shown: "not shown" };
  return verdict.checks.map((check) => {
    const head = make("th", check.what), outcome = cell("", words[check.outcome] ?? check.outcome);
    head.scope = "row";
    if (check.outcome !== "holds") for (const detail of check.details) outcome.append(make("p", detail, "grey"));
    return rowOf(head, outcome);
  });
}

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
async function tell(place) {
  try {
    const [visit] = (await (await ask(place)).json()).visits;
    one("#h-record").textContent = visit.title || jobOf(visit);
    const verdict = make("dd");
    verdict.append(verdictOf(visit));
    const list = facts([["job", jobOf(visit)], ["measured", visit.day || "no date"], ["machine", visit.machine || "not stated"], ["serial", visit.serial || "not stated"], ["customer", visit.customer || "not stated"]]);
    list.append(make("dt", "verdict"), verdict);
    if (visit.replaced) list.append(make("dt", "standing"), make("dd", "replaced by a later one"));
    one("#record-facts").replaceChildren(list);
    return visit.job || "record";
  } catch (error) {
    if (error.problem?.code !== "nothing-there") throw error;
    one("#h-record").textContent = "No sound record has this fingerprint.";
    one("#record-facts").replaceChildren();
    return "record";
  }
}

export async function open(fingerprint) {
  const place = "/v1/records/" + encodeURIComponent(fingerprint);
  one("#record-fingerprint").textContent = fingerprint.slice(0, 16);
  one("#record-checks-box").hidden = true;
  one("#record-said").textContent = "";
  const job = await tell(place), trouble = (error) => { one("#record-said").textContent = error.message; };
  const give = (part, name) => () => save(ask(`${place}/${part}`), name).catch(trouble);
  one("#record-report").onclick = give("report", job + ".pdf");
  one("#record-document").onclick = give("document", job + ".json");
  one("#record-packed").onclick = give("bag", job + ".zip");
  one("#record-verify").onclick = () => verify(place).catch(trouble);
  say(one("#h-record").textContent);
}

/* ---- a job filed from here ---- */

async function file() {
  const said = one("#filed");
  said.textContent = "Filing the record.";
  try {
    const filed = await (await ask("/v1/records?" + (await chosen()), parts())).json();
    const link = Object.assign(make("a", `${filed.job}, revision ${filed.revision}`), { href: "#" + placeOf(filed) });
    said.replaceChildren(make("span", filed.filed === "now" ? "Filed as " : "It had been filed before, as "), link, make("span", "."));
  } catch (error) {
    const fault = error.problem?.faults?.[0];
    said.textContent = error.problem?.code === "no-records" ? "This service keeps no records: it was started without a folder for them." : fault ? `Not filed: found ${fault.found}; expected ${fault.expected}.` : error.message;
  }
}

one("#file-record").addEventListener("click", file);
