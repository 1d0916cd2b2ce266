/* Small pages beside the large ones, where there is room: each is the picture of its page, drawn when one of the two is seen. */
import { make, made, one } from "/basics/dom.js";

let watching = [];

/* The page that is looked at is the one across the middle of the window. */
function followPages(pages, buttons) {
  const seen = new IntersectionObserver((changes) => {
    for (const { isIntersecting, target } of changes) {
      if (!isIntersecting) continue;
      for (const button of buttons) button.removeAttribute("aria-current");
      const current = buttons[pages.indexOf(target)], list = one("#thumbs");
      current.setAttribute("aria-current", "true");
      list.scrollTop = current.offsetTop - list.clientHeight / 2 + current.offsetHeight / 2;
    }
  }, { rootMargin: "-50% 0px -50% 0px" });
  for (const page of pages) seen.observe(page);
  return seen;
}

function drawSeen(pages, buttons) {
  const seen = new IntersectionObserver((changes) => {
    for (const { isIntersecting, target } of changes) if (isIntersecting) { seen.unobserve(target); pages[buttons.indexOf(target)].draw(); }
  });
  for (const button of buttons) seen.observe(button);
  return seen;
}

/* `pages` can be drawn, and have a `thumb` that gets their picture. */
export function layThumbs(pages) {
  for (const watcher of watching.splice(0)) watcher.disconnect();
  const buttons = pages.map((page, place) => {
    const button = Object.assign(made("button", page.thumb, make("span", String(place + 1))), { type: "button" });
    button.setAttribute("aria-label", `Page ${place + 1}`);
    button.addEventListener("click", () => { page.scrollIntoView(); page.querySelector("summary").focus({ preventScroll: true }); });
    return button;
  });
  one("#thumbs").replaceChildren(...(pages.length > 1 ? buttons.map((button) => made("li", button)) : []));
  one("#thumbs-box").hidden = pages.length < 2;
  watching = [drawSeen(pages, buttons), followPages(pages, buttons)];
}
