/* The latest job, kept in this browser and nowhere else: its document and the files beside it, exports with the answers about them; nothing of pages, no token. */

const open = () => new Promise((done, failed) => {
  const opening = indexedDB.open("wayfolio", 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore("jobs");
  opening.onsuccess = () => done(opening.result);
  opening.onerror = () => failed(opening.error);
});

async function within(mode, act) {
  const database = await open();
  return new Promise((done, failed) => {
    const asked = act(database.transaction("jobs", mode).objectStore("jobs"));
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
  }).finally(() => database.close());
}

/* Each fails where the browser refuses to keep anything. */
export const keep = ({ name, document, files, account, readings }) => within("readwrite", (jobs) => jobs.put({ name, document, files, account, readings }, "latest"));
export const kept = () => within("readonly", (jobs) => jobs.get("latest"));
export const discard = () => within("readwrite", (jobs) => jobs.delete("latest"));
