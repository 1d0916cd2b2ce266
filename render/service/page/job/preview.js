/* One document as it stands on the disk, shown again whenever it is saved. */
import { notice } from "/basics/dom.js";

const wait = (ms) => new Promise((done) => setTimeout(done, ms));

/* `take` gets the document and the files that it names. */
export async function watch(ask, take) {
  const file = async (name) => new File([await (await ask("/v1/previewed/" + encodeURIComponent(name))).blob()], name);
  for (let stamp = ""; ; await wait(700)) {
    try {
      const now = await (await ask("/v1/previewed")).json();
      notice("");
      if (now.stamp === stamp) continue;
      await take(await file(now.name), await Promise.all(now.files.map(file)));
      stamp = now.stamp;
    } catch (error) {
      notice(error.message);
    }
  }
}
