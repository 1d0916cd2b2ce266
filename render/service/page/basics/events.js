/* Server-Sent Events, read by fetch: an EventSource could not show a token. */
import { ask, headers } from "/basics/ask.js";

/* One event as it is written: its lines by their names. */
function eventOf(text) {
  const event = { id: "", event: "", data: "" };
  for (const line of text.split("\n")) {
    const colon = line.indexOf(":"), name = line.slice(0, colon);
    if (colon > 0 && name in event) event[name] = line.slice(colon + 1).trim();
  }
  return event;
}

/* Hands on events until the stream ends; the last number that came, with which another stream goes on. */
async function read(path, after, take, signal) {
  const answer = await fetch(`${path}?after=${after}`, { headers: headers(), signal });
  if (!answer.ok) throw new Error("The service answered " + answer.status);
  const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
  for (let text = ""; ; ) {
    const { done, value } = await reader.read();
    if (done) return after;
    const events = (text + value).split("\n\n");
    text = events.pop();
    for (const event of events.map(eventOf)) {
      if (event.id) after = event.id;
      if (event.event) take(event.event, JSON.parse(event.data));
    }
  }
}

const wait = (seconds) => new Promise((done) => setTimeout(done, seconds * 1000));

/* Follows the events of a path until `take` was told "ended", or until `signal`: a line that breaks is begun anew where it ended. A service
   that is away is told by ask(); who listens begins again when it is back. */
export async function follow(path, ask_path, take, signal) {
  let ended = false, after = "0";
  const told = (event, data) => { ended ||= event === "ended"; take(event, data); };
  while (!ended && !signal.aborted) {
    try {
      after = await read(path, after, (event, data) => { if (!signal.aborted) told(event, data); }, signal);
    } catch {
      if (signal.aborted) return;
      await ask(ask_path);
    }
    if (!ended) await wait(1);
  }
}
