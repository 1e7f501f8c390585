// Scoring, point by point. The tool gives advice with its evidence; the score is the reader's.

// Fills the section: each part with the answer, its points, and a choice for each; then the sum and what was lost.
function buildScoring(place, view, work, save, review, scored) {
  const sum = make("p", { class: "sum", role: "status" });
  const tell = () => {
    const open = view.points.filter((point) => work.scores[point.point] === undefined).length;
    const earned = view.points.filter((point) => work.scores[point.point] === true).length;
    sum.textContent = `${earned} of ${counted(view.points.length, "point")}.${open ? ` ${counted(open, "point has", "points have")} no score yet.` : ""}`;
  };
  const changed = () => {
    save();
    tell();
  };
  const intro = review
    ? "Compare each point with your answer. The tool shows what it found and where; it can be wrong. The score is yours."
    : "Compare each point with your answer and score it yourself.";
  const done = make("div", { class: "lost" });
  const finish = button("Save this score", () => {
    const open = view.points.find((point) => work.scores[point.point] === undefined);
    if (open) {
      announce("Some points have no score yet.");
      byId(`earn-${open.point}-yes`).focus();
      return;
    }
    scored(done);
  }, { class: "main" });
  place.replaceChildren(
    make("p", {}, intro),
    ...view.parts.map((part) => scoredPart(part, view, work, changed, review?.get(part.label))),
    sum, finish, done);
  tell();
  if (work.saved) scored(done, true);
}

function scoredPart(part, view, work, changed, review) {
  const points = view.points.filter((point) => point.part === part.label);
  const text = work.answers[part.label] ?? "";
  const evidence = (review?.points ?? []).flatMap((one) => one.evidence.map((span) => ({ ...span, kind: kindOf(span, one.status), why: `Point ${one.id}` })));
  const answer = text.trim()
    ? make("blockquote", { class: "answer", tabindex: -1 }, marked(text, evidence))
    : make("p", { class: "quiet" }, "You left this part blank.");
  const own = review?.habits?.map((habit) => habit.kind) ?? [];
  if (!text.trim() && !own.includes("blank")) own.push("blank");
  work.habits[part.label] ??= own;
  return make("section", { class: "scored", "aria-labelledby": `scored-${part.label}` },
    make("h3", { id: `scored-${part.label}` }, `(${part.label}) ${sentence(part.command_term)}`),
    answer,
    chainBox(review?.chain ?? []),
    points.map((point) => scoredPoint(point, text, work, changed, review?.points?.find((one) => one.id === point.point))),
    habitBox(part, own, work, changed));
}

// The steps of the guide beside the answer's, so that the missing link is visible.
function chainBox(chain) {
  if (chain.length === 0) return null;
  const state = { "said": "said", "elsewhere": "said, out of order", "missing": "the missing link" };
  const rows = chain.map((step) => make("li", { class: step.state }, step.step, " ", make("em", {}, state[step.state] ?? step.state)));
  return make("details", { class: "chain" }, make("summary", {}, "The chain of the guide, and what the tool saw of it"), make("ol", {}, rows));
}

function scoredPoint(point, text, work, changed, advice) {
  const list = (words, items) => (items.length ? make("p", { class: "quiet" }, `${words}: ${items.join("; ")}`) : null);
  const id = point.point;
  const choice = choices(`earn-${id}`, `Point ${id}: does your answer earn it?`, [["yes", "Earned"], ["no", "Not earned"]],
    work.scores[id] === undefined ? undefined : work.scores[id] ? "yes" : "no", (value) => {
      work.scores[id] = value === "yes";
      changed();
    }, { class: "earn" });
  return make("div", { class: "point" },
    make("p", {}, make("strong", {}, `${id} `), point.statement),
    list("Also earns", point.accept), list("Does not earn", point.reject),
    advice ? adviceLine(advice) : null, choice);
}

function adviceLine(advice) {
  const quotes = (role) => advice.evidence.filter((span) => span.role === role).map((span) => `“${span.text}”`).join(", ");
  const seen = (quotes("earns") ? ` It relied on ${quotes("earns")}.` : "") + (quotes("denies") ? ` Against it speaks ${quotes("denies")}.` : "");
  return make("p", { class: `advice ${advice.status}` }, (STATUS[advice.status] ?? "") + seen);
}

// Habits that cost points: those that the tool saw are ticked; the reader has the last word.
function habitBox(part, own, work, changed) {
  const kinds = [...new Set([...Object.keys(HABITS), ...own])].filter((kind) => kind !== "blank" || own.includes("blank"));
  const rows = kinds.map((kind) => {
    const id = `habit-${part.label}-${kind}`;
    const input = make("input", { type: "checkbox", id });
    input.checked = work.habits[part.label].includes(kind);
    input.addEventListener("change", () => {
      const others = work.habits[part.label].filter((one) => one !== kind);
      work.habits[part.label] = input.checked ? [...others, kind] : others;
      changed();
    });
    return make("div", { class: "choice" }, input, make("label", { for: id }, habitWords(kind)));
  });
  return make("details", { class: "habits" }, make("summary", {}, `Habits in this answer${own.length ? ` (the tool saw ${own.length})` : ""}`),
    make("div", { class: "choices" }, rows));
}

// The attempt as it is kept and saved: the shape of a progress file, which `toehold progress add` reads.
function attemptOf(view, work) {
  const { id, title, seed, form, points, principles } = view.scenario;
  const student = kept(STUDENT);
  const answers = [];
  const answer = (step, text, right) => {
    if ((text ?? "") !== "") answers.push(right === undefined ? { step, text } : { step, text, right });
  };
  answer("plan", work.plan);
  work.steps.forEach((state, at) => {
    answer(`step-${at + 1}/recall`, state.recall);
    answer(`step-${at + 1}/role`, state.role);
    answer(`step-${at + 1}/direction`, state.first, state.first === view.steps[at].direction);
  });
  answer("chain", work.chain);
  answer("prediction", work.prediction.direction, work.prediction.direction === view.prediction);
  answer("prediction/because", work.prediction.because);
  for (const part of view.parts) answer(`part-${part.label}`, work.answers[part.label]);
  const at = new Date().toISOString();
  const scores = view.points.filter((point) => work.scores[point.point] !== undefined).map((point) => ({
    part: point.part,
    point: point.point,
    earned: work.scores[point.point],
    principles: point.principles,
    command_term: view.parts.find((part) => part.label === point.part)?.command_term ?? "none",
    habits: work.habits[point.part] ?? [],
    at,
  }));
  return {
    id: work.id, ...(student ? { student } : {}), started: work.started, support: work.support,
    scenario: { id, title, seed, form, points, principles }, answers, scores,
  };
}
