/* The pages of the report as they are printed, and the report itself. */
import { ask } from "/basics/ask.js";
import { count, entitle, made, make, one, say } from "/basics/dom.js";
import { layThumbs } from "/job/thumbs.js";
import * as work from "/job/work.js";

const { job } = work;
let drawn = "", addresses = [], of_ = null;

function forgetSheets() {
  drawn = "";
  one("#sheets").replaceChildren();
  layThumbs([]);
  for (const address of addresses.splice(0)) URL.revokeObjectURL(address);
}

/* Of another job nothing may stay; of a document that was changed the old pages stay, pale, until the new ones are there. */
work.when("document", (changed) => { if (!changed) { forgetSheets(); layOut(); } else drawn = ""; });
work.when("findings", () => { if (!one("[data-screen=pages]").hidden && !work.faulty()) open().catch((error) => say(error.message)); });

const choice = () => `layout=${encodeURIComponent(one("#layout").value)}&paper=${encodeURIComponent(one("#paper").value)}`;

async function fillLayouts() {
  if (one("#layout").options.length) return;
  const layouts = await (await ask("/v1/layouts")).json();
  one("#layout").replaceChildren(...layouts.map(({ name, title }) => Object.assign(new Option(name, name), { title })));
  layOut();
}

/* As it was chosen for this job. */
function layOut() {
  const { layout = "report", paper = "A4" } = job.choices;
  one("#layout").value = [...one("#layout").options].some(({ value }) => value === layout) ? layout : "report";
  one("#paper").value = paper;
  tellLayout();
}

/* Layout and paper as they are chosen. */
export async function chosen() {
  await fillLayouts();
  return choice();
}

const tellLayout = () => { one("#layout-title").textContent = one("#layout").selectedOptions[0]?.title ?? ""; };

function sheet(page, query, form) {
  const image = make("img", "", "sheet"), box = Object.assign(made("figure", image, made("details", make("summary", `Page ${page.number} as text`), make("pre", page.words))), { className: "page", id: "page-" + page.number });
  image.alt = "Page " + page.number;
  box.thumb = Object.assign(make("img"), { alt: "" });
  const draw = async () => {
    box.failed = false;
    try {
      const picture = await (await ask(`/v1/page?${query}&number=${page.number}&dpi=96`, form)).blob();
      addresses.push(image.src = box.thumb.src = URL.createObjectURL(picture));
    } catch (error) {
      box.failed = true;
      box.begun = null;
      say(error.message);
    }
  };
  box.draw = () => (box.begun ??= draw());
  return box;
}

/* Pages are drawn when they come near. */
function lay(pages, query, form) {
  const near = new IntersectionObserver((seen) => {
    for (const { isIntersecting, target } of seen) if (isIntersecting) { near.unobserve(target); target.draw(); }
  }, { rootMargin: "600px" });
  const sheets = pages.map((page) => sheet(page, query, form));
  one("#sheets").replaceChildren(...sheets);
  one("#sheets").classList.toggle("letter", query.endsWith("paper=Letter"));
  layThumbs(sheets);
  for (const one_ of sheets) near.observe(one_);
  one("#page-count").textContent = String(pages.length);
  one("#page-number").max = String(pages.length);
  one("#page-box").hidden = pages.length < 2;
}

function tell(words) {
  entitle("#h-pages", words);
  say(words);
}

export async function open() {
  await fillLayouts();
  const query = choice(), about = job.document;
  if (drawn === query && of_ === about) {  // but for what could not be drawn before
    for (const box of one("#sheets").children) if (box.failed) box.draw();
    return;
  }
  one("#sheets").classList.add("stale");
  tell("Drawing the report.");
  try {
    const form = work.parts(), { pages } = await (await ask("/v1/pages?" + query, form)).json();
    if (job.document !== about || choice() !== query) return;  // another job or choice came in between
    forgetSheets();
    lay(pages, query, form);
    [drawn, of_] = [query, about];
    tell(`${count(pages.length, "page")}, as they are printed.`);
  } catch (error) {
    tell(error.message);
    throw error;
  } finally {
    if (job.document === about && drawn === query) one("#sheets").classList.remove("stale");
  }
}

async function choose() {
  tellLayout();
  work.job.choices = { layout: one("#layout").value, paper: one("#paper").value };
  await Promise.all([work.keep(), open().catch((error) => say(error.message))]);
}

one("#choices").addEventListener("change", choose);
one("#choices").addEventListener("submit", (event) => event.preventDefault());
one("#page-number").addEventListener("change", () => document.getElementById("page-" + one("#page-number").value)?.scrollIntoView());
