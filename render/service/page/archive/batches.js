/* Batches that the service draws: how far each is, as it goes on, and what came of each job. */
import { ask } from "/basics/ask.js";
import { button, cell, count, entitle, link, make, made, one, rowHead, rowOf, save, say } from "/basics/dom.js";
import { follow } from "/basics/events.js";

const most_rows = 500;  // beyond it the list is for a file, and not for a person
const placeOf = (name) => "/v1/batches/" + encodeURIComponent(name);

let listening = new AbortController();

/* What is not looked at is not followed. */
export function leave() {
  listening.abort();
  listening = new AbortController();
}

/* "3 drawn, 1 faulty, 8 wait" */
function standing({ done, faulty, failed, cancelled, waiting, at_work }) {
  const parts = [[done, "drawn"], [faulty, "faulty"], [failed, "failed"], [cancelled, "cancelled"], [at_work, "at work"], [waiting, waiting === 1 ? "waits" : "wait"]];
  return parts.filter(([number]) => number > 0).map(([number, words]) => `${number} ${words}`).join(", ") || "nothing is begun";
}

function progressOf(batch) {
  const bar = Object.assign(make("progress"), { max: batch.jobs, value: batch.jobs - batch.waiting - batch.at_work });
  bar.setAttribute("aria-label", `Ended of ${count(batch.jobs, "job")}`);
  return bar;
}

/* Asks how far a batch is, once at a time however many events come, and tells it. */
function counter(name, tell, signal) {
  let asking = false, again = false;
  return async function counted() {
    again = asking;
    if (asking) return;
    asking = true;
    try {
      const batch = await (await ask(placeOf(name))).json();
      if (!signal.aborted) tell(batch);
    } catch {  // which is told where all is followed
    }
    asking = false;
    if (again && !signal.aborted) await counted();
  };
}

/* ---- all of them ---- */

function fillRow(row, batch) {
  const name = link(batch.batch, "batch=" + batch.batch);
  row.replaceChildren(rowHead(name), cell("jobs", String(batch.jobs)), cell("", progressOf(batch)), cell("", standing(batch)));
}

export async function open() {
  const { batches } = await (await ask("/v1/batches")).json(), { signal } = listening, at_work = batches.filter((batch) => !batch.ended).length;
  entitle("#h-batches", batches.length ? `${count(batches.length, "batch", "batches")}, ${at_work ? `${at_work} still at work` : "all ended"}.` : "No batch was posted yet.");
  one("#batches-box").hidden = batches.length === 0;
  one("#batches").replaceChildren(...batches.map((batch) => {
    const row = rowOf();
    fillRow(row, batch);
    if (!batch.ended) {
      const counted = counter(batch.batch, (now) => fillRow(row, now), signal);
      follow(placeOf(batch.batch) + "/events", placeOf(batch.batch), counted, signal).catch((error) => say(error.message));
    }
    return row;
  }));
}

/* ---- one ---- */

function resultRow(name, line) {
  const saves = (line.files ?? []).map(({ file }) => {
    const give = button("Save " + file, () => save(ask(`${placeOf(name)}/result?name=${encodeURIComponent(file)}`), file).catch((error) => say(error.message)));
    return give;
  });
  const [fault] = line.faults ?? [], told = fault ? `${fault.pointer ?? ""} found ${fault.found}; expected ${fault.expected}` + (line.faults.length > 1 ? `; and ${line.faults.length - 1} more` : "") : line.reason ?? "";
  const state = make("span", line.state === "done" ? "drawn" : line.state, line.state === "done" ? "" : "mark");
  return rowOf(rowHead(line.name), cell("", made("div", state, make("p", told, "grey"))), cell("", made("div", ...saves)));
}

function tellBatch(batch) {
  entitle("#h-batch", `${count(batch.jobs, "job")}: ${standing(batch)}.`);
  one("#batch-progress").replaceChildren(progressOf(batch));
  one("#cancel-batch").hidden = one("#cancel-why").hidden = batch.ended;
  one("#forget-box").hidden = !batch.ended;
  if (batch.ended) say(one("#h-batch").textContent);
}

/* What was drawn for others is not lost by one press. */
function offerToForget(place, trouble) {
  const forget = one("#forget-batch"), sure = "Press once more: its reports are lost";
  forget.textContent = "Forget the batch";
  forget.onclick = () => {
    if (forget.textContent !== sure) {
      forget.textContent = sure;
      return say(sure);
    }
    ask(place, undefined, "DELETE").then(() => { location.hash = "batches"; }).catch(trouble);
  };
}

export async function openOne(name) {
  const { signal } = listening, place = placeOf(name);
  one("#batch-results").replaceChildren();
  one("#batch-more").textContent = one("#batch-said").textContent = "";
  one("#batch-name").textContent = name;
  tellBatch(await (await ask(place)).json());
  const counted = counter(name, tellBatch, signal), seen = new Set();
  const trouble = (error) => { one("#batch-said").textContent = error.message; };
  one("#cancel-batch").onclick = () => ask(place + "/cancellation", new Blob()).then((answer) => answer.json()).then(tellBatch).catch(trouble);
  offerToForget(place, trouble);
  one("#save-results").onclick = () => save(ask(place + "/results"), "results.jsonl").catch(trouble);
  follow(place + "/events", place, (event, line) => {
    counted();
    if (event !== "job" || seen.has(line.name)) return;
    seen.add(line.name);
    if (seen.size <= most_rows) one("#batch-results").append(resultRow(name, line));
    else one("#batch-more").textContent = `And ${seen.size - most_rows} more, in the results.`;
  }, signal).catch(trouble);
}

/* ---- posting ---- */

/* Each document is a job; what they name travels with them. The batch's name is the answer. */
export async function post(documents, files) {
  const sent = new FormData(), manifest = documents.map(({ name }) => JSON.stringify({ document: name }) + "\n").join("");
  sent.append("manifest", new Blob([manifest], { type: "application/jsonl" }));
  for (const file of [...documents, ...files]) sent.append("file", file, file.name);
  return (await (await ask("/v1/batches", sent)).json()).batch;
}
