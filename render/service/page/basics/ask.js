/* Asking the service: its problems become errors with words for a person. Whether it answers at all is told to who listens. */

export class Told extends Error {
  constructor(problem) {
    super(problem.detail || problem.title);
    this.problem = problem;
  }
}

let token = "", lostAt = null, heard = { lost: () => {}, back: () => {}, busy: () => {}, locked: () => {} };
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
  lostAt = null;
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

/* A busy service is asked once more, when it says when. A GET has no body. */
export async function ask(path, body, tries = 2) {
  let answer;
  try {
    answer = await fetch(path, { method: body ? "POST" : "GET", body, headers: token ? { Authorization: "Bearer " + token } : {} });
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
    return ask(path, body, tries - 1);
  }
  throw new Told(problem);
}

/* An answer that breaks off in its middle is no answer. */
function whole(answer) {
  const complete = (promise) => promise.catch(() => { throw unanswered(); });
  return { json: () => complete(answer.json()), blob: () => complete(answer.blob()) };
}
