// The index: which question next, how each went, and progress in and out by file.

const view = JSON.parse(byId("page-data").textContent);
const names = new Map(view.principles.map((one) => [one.id, one.name]));

function show() {
  const list = attempts();
  const next = nextOf(view.pages, view.principles, list, null);
  byId("suggestion").hidden = !next;
  if (next) byId("suggestion-body").replaceChildren(make("p", { class: "onward" }, make("a", { href: next.page.href }, next.page.title), make("br"), whyNext(next)));
  for (const item of document.querySelectorAll("li[data-page]")) {
    item.querySelector(".went")?.remove();
    const last = list.filter((attempt) => attempt.scenario.id === item.dataset.page).at(-1);
    if (!last) continue;
    const scores = standing(last);
    item.append(make("span", { class: "went" }, ` Scored: ${scores.filter((score) => score.earned).length} of ${scores.length}.`));
  }
  const tables = tallies(list, names);
  const none = make("p", {}, "Nothing is scored yet. If your browser does not show here what you scored on a page, save it there to a file and load it here.");
  sums.replaceChildren(...(tables.length ? tables : [none]));
}

const sums = make("div", { class: "tallies" });
byId("progress-body").append(sums, progressButtons(show));
byId("progress").hidden = false;

show();
addEventListener("pageshow", (event) => event.persisted && show());
addEventListener("storage", show);
