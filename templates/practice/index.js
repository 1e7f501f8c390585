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
    const earned = last.scores.filter((score) => score.earned).length;
    item.append(make("span", { class: "went" }, ` Scored: ${earned} of ${last.scores.length}.`));
  }
  byId("progress").hidden = false;
  const tables = tallies(list, names);
  const none = make("p", {}, "Nothing is scored yet. If your browser does not show here what you scored on a page, save it there to a file and load it here.");
  byId("progress-body").replaceChildren(make("div", { class: "tallies" }, tables.length ? tables : none), progressButtons(show));
}

show();
addEventListener("pageshow", (event) => event.persisted && show());
addEventListener("storage", show);
