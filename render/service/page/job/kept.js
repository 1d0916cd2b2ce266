/* Jobs kept in this browser and nowhere else: each with its document, the files beside it, exports with the answers about them, choices,
   and how to undo what was changed; nothing of pages, no token. */

/* A browser may answer never: one that was left in the middle of opening holds the door for the next page. Work goes on without being kept
   then, which is told, and the next change tries again, with less patience. */
const patient = 4000, impatient = 500;
let patience = patient;

const open = () => new Promise((done, failed) => {
  const opening = indexedDB.open("wayfolio-jobs", 1);
  let given_up = false;
  const waiting = setTimeout(() => {
    given_up = true;
    patience = impatient;
    failed(new Error("the browser does not open what it keeps"));
  }, patience);
  opening.onupgradeneeded = () => opening.result.createObjectStore("jobs", { keyPath: "id" });
  opening.onsuccess = () => {
    clearTimeout(waiting);
    patience = patient;
    given_up ? opening.result.close() : done(opening.result);
  };
  opening.onerror = () => { clearTimeout(waiting); failed(opening.error); };
});

async function within(mode, act) {
  const database = await open();
  return new Promise((done, failed) => {
    const during = database.transaction("jobs", mode), result = act(during.objectStore("jobs"));
    during.oncomplete = () => done(result.result);
    during.onabort = during.onerror = () => failed(during.error ?? result.error);
  }).finally(() => database.close());
}

/* Another window has kept this job since it was read here: what it kept is not overwritten. */
export class KeptElsewhere extends Error {}

/* Keeps a job over the version of it that `job.kept` counts; gives the count of the new one. Fails where the browser refuses. */
export function keep(job) {
  const next = { ...job, kept: job.kept + 1, changed: Date.now() };
  let overtaken = false;
  return within("readwrite", (jobs) => {
    const reading = jobs.get(job.id);
    reading.onsuccess = () => {
      overtaken = (reading.result?.kept ?? 0) !== job.kept;
      if (!overtaken) jobs.put(next);
    };
    return reading;
  }).then(() => {
    if (overtaken) throw new KeptElsewhere();
    return next.kept;
  });
}

export const read = (id) => within("readonly", (jobs) => jobs.get(id));
export const all = () => within("readonly", (jobs) => jobs.getAll()).then((jobs) => jobs.sort((a, b) => b.changed - a.changed));
export const discard = (id) => within("readwrite", (jobs) => jobs.delete(id));
export const bringBack = (job) => within("readwrite", (jobs) => jobs.put(job));

/* Which job this window is at; a window reloaded is at it again. */
const mine = "wayfolio job";
export function remember(id) {
  try {
    sessionStorage.setItem(mine, id);
  } catch { /* then a reload goes on with the latest */ }
}
export function remembered() {
  try {
    return sessionStorage.getItem(mine);
  } catch {
    return null;
  }
}

let letGo = () => {};

/* One window at a time changes a job. `told` hears whether this is it; a window that has to wait hears so when the other has let go. Where
   the browser has no locks (plain HTTP from another computer), keep() alone guards. */
export function hold(id, told) {
  letGo();
  if (!navigator.locks) return told(true);
  const gone = new AbortController();
  const held = (first) => (lock) => {
    if (!lock) return told(false);
    if (gone.signal.aborted) return undefined;
    told(true, !first);
    return new Promise((done) => gone.signal.addEventListener("abort", done));
  };
  letGo = () => gone.abort();
  navigator.locks.request("wayfolio " + id, { ifAvailable: true }, held(true)).then((refused) => {
    if (!gone.signal.aborted) return navigator.locks.request("wayfolio " + id, { signal: gone.signal }, held(false));
  }).catch(() => {});  // let go before it was its turn
}
