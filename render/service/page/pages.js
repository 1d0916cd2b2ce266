/* The pages of the report as they are printed, and the report itself. */
import { count, hand, make, one, say } from "/dom.js";

let ask = null, parts = null, drawn = "", addresses = [], documents = 0;

export function prepare(asker, makeParts) {
  [ask, parts] = [asker, makeParts];
}

/* The document is another one. */
export function forget() {
  ++documents;
  forgetSheets();
}

function forgetSheets() {
  drawn = "";
  one("#sheets").replaceChildren();
  for (const address of addresses.splice(0)) URL.revokeObjectURL(address);
}

const choice = () => `layout=${encodeURIComponent(one("#layout").value)}&paper=${encodeURIComponent(one("#paper").value)}`;

async function fillLayouts() {
  if (one("#layout").options.length) return;
  const layouts = await (await ask("/v1/layouts")).json();
  one("#layout").replaceChildren(...layouts.map(({ name, title }) => Object.assign(new Option(name, name, name === "report", name === "report"), { title })));
  tellLayout();
}

/* Layout and paper as they are chosen. */
export async function chosen() {
  await fillLayouts();
  return choice();
}

const tellLayout = () => { one("#layout-title").textContent = one("#layout").selectedOptions[0]?.title ?? ""; };

function sheet(page, query, form, near) {
  const box = make("figure", "", "page"), image = make("img", "", "sheet"), fold = make("details");
  image.alt = "Page " + page.number;
  box.append(image, fold);
  fold.append(make("summary", `Page ${page.number} as text`), make("pre", page.words));
  box.draw = async () => {
    const picture = await (await ask(`/v1/page?${query}&number=${page.number}&dpi=96`, form)).blob();
    addresses.push(image.src = URL.createObjectURL(picture));
  };
  near.observe(box);
  return box;
}

function entitle(words) {
  one("#h-pages").textContent = words;
  document.title = words + " – wayfolio";
  say(words);
}

export async function open() {
  try {
    await fillLayouts();
    const query = choice(), form = parts(), about = documents;
    if (drawn === query) return;
    one("#sheets").classList.add("stale");
    entitle("Drawing the report.");
    const { pages } = await (await ask("/v1/pages?" + query, form)).json();
    if (documents !== about || choice() !== query) return;  // another job or choice came in between
    forgetSheets();
    const near = new IntersectionObserver((seen) => {
      for (const { isIntersecting, target } of seen) if (isIntersecting) { near.unobserve(target); target.draw().catch((error) => say(error.message)); }
    }, { rootMargin: "600px" });
    one("#sheets").replaceChildren(...pages.map((page) => sheet(page, query, form, near)));
    drawn = query;
    entitle(`${count(pages.length, "page")}, as they are printed.`);
  } catch (error) {
    entitle(error.message);
  } finally {
    one("#sheets").classList.remove("stale");
  }
}

async function save() {
  one("#saved").textContent = "Making the report.";
  try {
    await fillLayouts();
    const form = parts(), name = form.get("document").name.replace(/\.json$/i, "") + ".pdf";
    const report = await (await ask("/v1/report?" + choice(), form)).blob();
    hand(report, name);
    one("#saved").textContent = `${name}, ${Math.round(report.size / 1000)} kB, was given to the browser to save.`;
  } catch (error) {
    one("#saved").textContent = error.message;
  }
}

one("#choices").addEventListener("change", () => { tellLayout(); open(); });
one("#save").addEventListener("click", save);
