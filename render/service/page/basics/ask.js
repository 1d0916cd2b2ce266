/* Asking the service: its problems become errors with words for a person. Whether it answers at all is told to who listens. */

export class Told extends Error {
  constructor(problem) {
    super(problem.detail || problem.title);
    this.problem = problem;
  }
}

let token = "", lostAt = null, known = null, heard = { lost: () => {}, back: () => {}, busy: () => {}, locked: () => {} };
export const showToken = (shown) => { token = shown; };

/* `lost` when it stops answering, `back` when it answers again, `busy` with the seconds until it is asked again, `locked` when it wants its token. */
export const listen = (listeners) => { heard = listeners; };
const isLost = () => lostAt !== null;

const wait = (seconds) => new Promise((done) => setTimeout(done, seconds * 1000));

/* As long as nothing answers, the service is looked for; nobody has to press anything. */
async function look() {
  while (isLost()) {
    await wait(2);
    await fetch("/healthz", { cache: "no-store" }).then(answered, () => {});
  }
}

function answered() {
  if (!isLost()) return;
  lostAt = known = null;  // it may have been started with other limits
  heard.back();
}

function unanswered() {
  if (!isLost()) {
    lostAt = new Date();
    heard.lost(lostAt);
    look();
  }
  return new Told({ code: "lost", title: "The service cannot be reached. Your work is kept in this browser; it goes on by itself when the service is back." });
}

export const headers = () => (token ? { Authorization: "Bearer " + token } : {});

/* What the service is (its limits, what it keeps); null as long as it does not say so: it then tells itself what is too much. */
export async function about() {
  try {
    known ??= await fetch("/v1/service", { headers: headers() }).then((answer) => (answer.ok ? answer.json() : null));
  } catch {
    known = null;
  }
  return known;
}

const megabytes = (bytes, round) => (round(bytes / 1e5) / 10).toFixed(1) + " MB";

/* What is too much is told before anything is sent. Each part has a head of its own, which is counted generously. */
export async function requireRoom(path, body) {
  const parts = body instanceof FormData ? [...body.values()] : [body], head = 512;
  const limits = (await about())?.limits, most = path.startsWith("/v1/batches") ? limits?.parts_of_a_batch : limits?.parts;
  const bytes = parts.reduce((sum, part) => sum + head + (part.size ?? part.length), 0);
  if (bytes > limits?.body_bytes) throw new Told({ code: "too-large", title: `Too large: ${megabytes(bytes, Math.ceil)}, where this service takes ${megabytes(limits.body_bytes, Math.floor)} at once. Nothing was sent.`, hint: "Drop the runs of one axis at a time. Of one file: traces and logs take most; leave out what the job does not need, or thin them out." });
  if (parts.length > most) throw new Told({ code: "too-large", title: `Too many: ${parts.length} parts, where this service takes ${most} at once. Nothing was sent.`, hint: "Drop fewer files: the runs of one axis at a time." });
}

/* The tag of what would be answered, without its being made (If-None-Match: *); of a report it is the fingerprint. */
export async function tagOf(path, body) {
  await requireRoom(path, body);
  const answer = await fetch(path, { method: "POST", body, headers: { ...headers(), "If-None-Match": "*" } }).catch(() => { throw unanswered(); });
  if (answer.status !== 304) throw new Told(await answer.json().catch(() => ({ title: "The service answered " + answer.status })));
  return answer.headers.get("ETag").replaceAll('"', "");
}

/* A busy service is asked once more, when it says when. A GET has no body. */
export async function ask(path, body, method = body ? "POST" : "GET", tries = 2) {
  let answer;
  if (body) await requireRoom(path, body);
  try {
    answer = await fetch(path, { method, body, headers: headers() });
  } catch {
    throw unanswered();
  }
  answered();
  if (answer.ok) return whole(answer);
  const problem = await answer.json().catch(() => ({ title: "The service answered " + answer.status }));
  if (answer.status === 401) heard.locked();
  if (problem.code === "busy" && tries > 1) {
    const seconds = Number(answer.headers.get("Retry-After")) || 2;
    heard.busy(seconds);
    await wait(seconds);
    return ask(path, body, method, tries - 1);
  }
  throw new Told(problem);
}

/* An answer that breaks off in its middle is no answer. */
function whole(answer) {
  const complete = (promise) => promise.catch(() => { throw unanswered(); });
  return { json: () => complete(answer.json()), blob: () => complete(answer.blob()) };
}
