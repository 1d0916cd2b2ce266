/* Asking the service: its problems become errors with words for a person. */

export class Told extends Error {
  constructor(problem) {
    super(problem.detail || problem.title);
    this.problem = problem;
  }
}

let token = "";
export const showToken = (shown) => { token = shown; };

const wait = (seconds) => new Promise((done) => setTimeout(done, seconds * 1000));

/* A busy service is asked once more, when it says when; `busy` is told how long that is. */
export async function ask(path, body, busy, tries = 2) {
  let answer;
  try {
    answer = await fetch(path, { method: body ? "POST" : "GET", body, headers: token ? { Authorization: "Bearer " + token } : {} });
  } catch {
    throw new Told({ code: "lost", title: "The service cannot be reached. Your work is kept in this browser; try again when it is back." });
  }
  if (answer.ok) return answer;
  const problem = await answer.json().catch(() => ({ title: "The service answered " + answer.status }));
  if (answer.status === 401) location.hash = "token";
  if (problem.code === "busy" && tries > 1) {
    const seconds = Number(answer.headers.get("Retry-After")) || 2;
    busy(seconds);
    await wait(seconds);
    return ask(path, body, busy, tries - 1);
  }
  throw new Told(problem);
}
