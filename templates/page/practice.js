// The page of one scenario: read, recall, commit, see, answer, score. Each stage opens when the one before is done, and
// every letter is kept at once, so that a reload in the middle loses nothing.

const view = JSON.parse(byId("page-data").textContent);
const STAGES = [
  ["start", "Begin"], ["read", "Read"], ["know", "Recall"], ["predict", "Predict"], ["write", "Answer"], ["score", "Score"], ["next", "Next"],
];
const order = (stage) => STAGES.findIndex(([name]) => name === stage);
const names = new Map(view.principles.map((one) => [one.id, one.name]));

const fresh = () => ({
  version: 1,
  id: newId(),
  started: null,
  stage: "start",
  support: supportFor(attempts()),
  clock: { pace: "0", left: {}, stopped: false },
  plan: "",
  steps: view.steps.map(() => ({})),
  chain: "",
  prediction: {},
  answers: {},
  scores: {},
  habits: {},
  saved: false,
});

function readWork() {
  const work = kept(workKey(view.scenario));
  const fits = work?.version === 1 && order(work.stage) >= 0 && work.steps?.length === view.steps.length;
  return fits ? { ...fresh(), ...work } : fresh();
}

let work = readWork();
const save = () => {
  if (!keep(workKey(view.scenario), work)) byId("storage-note")?.removeAttribute("hidden");
};
const clock = new Clock(byId("clock"), view.minutes, work.clock, save);

// Goes on to a stage, shows what is open there, and puts the reader at its heading.
function go(stage) {
  if (order(stage) > order(work.stage)) work.stage = stage;
  save();
  show();
  const heading = byId(`${stage === "write" ? "outcome" : stage}-heading`);
  heading.focus();
  heading.scrollIntoView({ block: "start" });
}

const reached = (stage) => order(work.stage) >= order(stage);

function show() {
  byId("start").hidden = reached("read");
  byId("bar").hidden = byId("desk").hidden = !reached("read");
  for (const stage of ["read", "know", "predict", "write", "score", "next"]) byId(stage).hidden = !reached(stage);
  byId("outcome").hidden = byId("data").hidden = !reached("write");
  stageList();
  if (!reached("read")) buildStart();
  else {
    buildRead();
    buildKnow();
    buildPrediction();
    if (reached("write")) {
      revealData();
      buildOutcome();
      buildAnswers();
    }
    if (reached("score")) buildScore();
    if (reached("next")) buildNext();
  }
  fold("read", reached("know"));
  fold("know", reached("write"));
  if (work.stage === "read") clock.start("reading");
  else if (work.stage === "write") clock.start("writing");
  else clock.end();
}

// A stage that is behind folds away under its heading; a press opens it again.
function fold(stage, isPast) {
  const body = byId(`${stage}-body`);
  const there = byId(`${stage}-fold`);
  if (!isPast || there) return;
  const toggle = button("Show", () => {
    body.hidden = !body.hidden;
    toggle.textContent = body.hidden ? "Show" : "Hide";
    toggle.setAttribute("aria-expanded", String(!body.hidden));
  }, { id: `${stage}-fold`, class: "fold", "aria-expanded": "false", "aria-controls": body.id, "aria-describedby": `${stage}-heading` });
  body.hidden = true;
  body.before(toggle);
}

function stageList() {
  const items = STAGES.slice(1).map(([stage, words]) => {
    const isHere = stage === work.stage;
    if (!reached(stage)) return make("li", {}, words);
    const target = stage === "write" ? "outcome" : stage;
    return make("li", {}, make("a", { href: `#${target}-heading`, "aria-current": isHere ? "step" : null }, words));
  });
  byId("stages").replaceChildren(...items);
}

// Builds a section once; what the reader is writing in is not built again under the pen.
const built = new Map();
function once(name, key, build) {
  if (built.get(name) === key) return;
  built.set(name, key);
  build(byId(`${name}-body`));
}

function buildStart() {
  once("start", "", (place) => {
    const picked = work.support;
    const intro = make("p", {},
      "You will meet a technique that does not exist. You read about it, recall what you already know, commit to a prediction, ",
      "and only then see the data. Then you answer as in an exam and score yourself against the guide.");
    const support = choices("support", "How much support?", SUPPORT.map(([value, words, more]) => [value, value === picked ? `${words} (suggested)` : words, more]), picked, (value) => {
      work.support = value;
      save();
    });
    const { reading, writing: minutes } = view.minutes;
    const pace = choices("pace", `Time: ${counted(reading, "minute")} to read, ${counted(minutes, "minute")} to write`, PACES, work.clock.pace, (value) => {
      work.clock.pace = value;
      save();
    });
    place.replaceChildren(intro, support, pace,
      make("p", { class: "notice", id: "storage-note", hidden: keepsWork() }, "This browser keeps nothing for this page: save your progress to a file before you close it."),
      button("Begin reading", () => {
        work.started ??= new Date().toISOString();
        go("read");
      }, { class: "main" }));
  });
}

// The text of a part, as often as it is needed.
const partText = (label) => document.querySelector(`template[data-part="${label}"]`).content.cloneNode(true);

function buildRead() {
  once("read", work.stage === "read" ? "reading" : "read", (place) => {
    const isReading = work.stage === "read";
    const items = view.parts.map((part) => {
      const isEarly = document.querySelector(`template[data-part="${part.label}"]`).hasAttribute("data-early");
      const later = make("p", {}, `(${part.label}) `, make("strong", {}, sentence(part.command_term)), ` … (${part.points}): opens with the data.`);
      return make("li", {}, isEarly ? partText(part.label) : later);
    });
    place.replaceChildren(
      make("p", {}, "Read the whole text. Note in the planning box which principles might be at work. These will be asked:"),
      make("ul", { class: "asked" }, items),
      isReading ? button("I have read it: go on", () => go("know"), { class: "main" }) : "");
  });
  const planning = byId("planning");
  if (!planning.hasChildNodes()) {
    planning.append(writing("plan", "Planning box (not scored)", work.plan, (text) => {
      work.plan = text;
      save();
    }));
  }
}

function buildKnow() {
  if (!reached("know")) return;
  once("know", `${work.support}${Boolean(work.prediction.locked)}`, (place) => {
    const support = choices("support-now", "Support", SUPPORT.map(([value, words]) => [value, words]), work.support, (value) => {
      work.support = value;
      save();
      buildKnow();
      byId(`support-now-${value}`).focus();
    }, { class: "inline" });
    const list = make("ol", { class: "steps" });
    const after = make("div");
    place.replaceChildren(support);
    if (work.support !== "none") place.append(list);
    place.append(after);
    const onward = () => after.replaceChildren(
      chainField(),
      reached("predict") ? "" : button("Go to the prediction", () => go("predict"), { class: "main" }));
    if (work.support === "none") onward();
    else buildSteps(list, view, work, save, onward);
    if (!after.hasChildNodes() && !reached("predict")) after.replaceChildren(button("Skip to the prediction", () => go("predict")));
  });
}

function chainField() {
  const label = `Chain: ${view.dial.name} up → … → ${view.reading.name} … . One sentence with “because” in it.`;
  return writing("chain", label, work.chain, (text) => {
    work.chain = text;
    save();
  }, { rows: 2 });
}

function buildPrediction() {
  if (!reached("predict")) return;
  once("predict", String(Boolean(work.prediction.locked)), (place) => {
    const isLocked = Boolean(work.prediction.locked);
    const told = make("p", { class: "told", role: "status" });
    const ask = choices("prediction", `As ${view.dial.the} goes up, ${view.reading.the} …`, DIRECTIONS, work.prediction.direction, (value) => {
      work.prediction.direction = value;
      told.textContent = "";
      save();
    }, { disabled: isLocked });
    const because = writing("because", "Because", work.prediction.because, (text) => {
      work.prediction.because = text;
      save();
    }, { rows: 2, readonly: isLocked });
    const lock = button("Lock my prediction and show the data", () => {
      if (!work.prediction.direction) {
        told.textContent = "Choose a direction first. A guess that you commit to teaches more than none.";
        byId("prediction-rises").focus();
        return;
      }
      work.prediction.locked = new Date().toISOString();
      go("write");
    }, { class: "main" });
    place.replaceChildren(
      make("p", {}, "Commit yourself before you see the data. It cannot be changed afterwards."),
      ask, because, told, isLocked ? make("p", { class: "quiet" }, "Locked.") : lock);
  });
}

// The data enter the page here, and not before.
function revealData() {
  const place = byId("data-body");
  if (place.hasChildNodes()) return;
  place.append(byId("data-later").content.cloneNode(true));
  for (const heading of place.querySelectorAll("h3")) if (heading.textContent.trim() === "Data") heading.remove();
}

function buildOutcome() {
  once("outcome", String(reached("score")), (place) => {
    const isRight = work.prediction.direction === view.prediction;
    const compare = make("p", { class: `reply ${isRight ? "right" : "wrong"}` },
      `You predicted that ${view.reading.the} ${directionWords(work.prediction.direction)}. In the data it ${directionWords(view.prediction)}. `,
      isRight ? "Does the chain that you wrote lead there, step by step?" : "Which step of your chain would have to be different? Put that right before you answer.");
    place.replaceChildren(compare);
    const waits = view.to_draw && !reached("score");
    if (waits) return place.append(make("p", {}, "You are asked to draw the graph yourself. The page draws it when you have handed in."));
    const figure = make("div", { class: "moving" });
    place.append(figure);
    // The changed experiment is asked about: its outcome opens when the answers are in.
    new Outcome(figure, reached("score") ? view : { ...view, twisted: null }, work, save);
    if (view.twisted && !reached("score")) place.append(make("p", { class: "quiet" }, "The changed experiment can be switched on when you have handed in."));
  });
}

function buildAnswers() {
  const isIn = reached("score");
  once("write", String(isIn), (place) => {
    const parts = view.parts.map((part) => {
      const label = `Your answer to (${part.label}): ${part.command_term}, ${counted(part.points, "point")}`;
      const note = part.to_draw ? make("p", { class: "quiet" }, "Draw on paper. Write here what a marker would see: title, axes with units, scales, how points and bars are drawn.") : null;
      return make("div", { class: "part-work" }, partText(part.label), note,
        writing(`answer-${part.label}`, label, work.answers[part.label], (text) => {
          work.answers[part.label] = text;
          save();
        }, { rows: 4, readonly: isIn }));
    });
    const told = make("p", { class: "told", role: "status" });
    let asked = false;
    const hand = button("Hand in", () => {
      const blank = view.parts.filter((part) => !(work.answers[part.label] ?? "").trim());
      if (blank.length && !asked) {
        asked = true;
        told.textContent = `Still blank: ${blank.map((part) => `(${part.label})`).join(", ")}. A blank earns nothing, a try may. Press again to hand in as it is.`;
        return;
      }
      go("score");
    }, { class: "main" });
    place.replaceChildren(
      make("p", {}, "Whole sentences; answer the command term; only as many as are asked for; show the setup of a calculation."),
      ...parts, told, isIn ? make("p", { class: "quiet" }, "Handed in.") : hand);
  });
}

async function buildScore() {
  if (built.has("score")) return;
  built.set("score", "");
  const review = await reviewOf(view, work);
  const place = byId("score-body");
  buildScoring(place, view, work, save, review, (done, again = false) => {
    if (!again) {
      addAttempts([attemptOf(view, work)]);
      work.saved = true;
      built.delete("next");
    }
    const attempt = attemptOf(view, work);
    const earned = attempt.scores.filter((score) => score.earned).length;
    done.replaceChildren(
      make("h3", {}, `${earned} of ${counted(view.points.length, "point")}: where they went`),
      ...tallies([attempt], names));
    if (!again) {
      go("next");
      announce(`Saved: ${earned} of ${counted(view.points.length, "point")}.`);
    }
  });
}

function buildNext() {
  once("next", "", (place) => {
    const onward = make("p", { class: "onward" });
    const sums = make("div", { class: "tallies" });
    const tell = () => {
      const next = nextOf(view.pages, view.principles, attempts(), view.scenario.id);
      onward.replaceChildren(...(next
        ? [make("a", { href: next.page.href }, `Next: ${next.page.title}`), make("br"), whyNext(next)]
        : ["Ask for more questions, or come back to this one in a week with less support."]));
      sums.replaceChildren(...tallies(attempts(), names));
    };
    tell();
    const again = button("Start this question afresh", () => {
      forget(workKey(view.scenario));
      location.reload();
    });
    place.replaceChildren(onward, make("h3", {}, "So far on this device"), sums, progressButtons(tell), make("h3", { class: "again" }, "Once more"), again);
  });
}

show();
