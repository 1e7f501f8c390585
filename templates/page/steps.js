// "What do you already know?": from principle to prediction, step by step. Support fades: every question of a step, with
// its answer once something is written; the same with the role told; only the questions; nothing.

const SUPPORT = [
  ["full", "Full", "recall, role and direction of every step, with answers to compare"],
  ["completion", "Completion", "recall, and finish the sentence of each step"],
  ["prompts", "Prompts", "only the questions; no replies before you commit"],
  ["none", "None", "straight to the prediction"],
];
const DIRECTIONS = [["rises", "goes up"], ["falls", "goes down"], ["unchanged", "stays the same"]];
const directionWords = (direction) => DIRECTIONS.find(([value]) => value === direction)?.[1] ?? "";

// Fills the list of steps. A step opens when the one before is answered, since its sentence says how that one ended.
function buildSteps(list, view, work, save, allDone) {
  list.replaceChildren();
  const open = () => {
    const at = list.children.length;
    if (at >= view.steps.length) return allDone();
    const item = stepItem(view, work, at, save, () => {
      if (list.children.length === at + 1) open();
    });
    list.append(item);
    if (work.steps[at].direction || (work.support === "prompts")) open();
  };
  open();
}

function stepItem(view, work, at, save, next) {
  const step = view.steps[at];
  const state = work.steps[at];
  const isLast = at === view.steps.length - 1;
  const item = make("li", { class: "step" });
  if (step.told) item.append(make("p", {}, "Told in the text: nothing to recall."));
  else item.append(recallField(`recall-${at}`, "Recall", step.recall, step.answer, state, "recall", work, save));
  if (work.support === "completion") item.append(make("p", {}, make("strong", {}, "Here. "), `${step.role} ${step.role_answer}`));
  else item.append(recallField(`role-${at}`, "Here", step.role, step.role_answer, state, "role", work, save));
  if (work.support === "prompts") return item;
  const reply = make("p", { class: "reply", role: "status" });
  const ask = choices(`direction-${at}`, `${step.step} …`, DIRECTIONS.map(([value, words]) => [value, words]), state.direction, (direction) => {
    state.direction = direction;
    state.first ??= direction;
    save();
    showReply(reply, step, state, isLast, work);
    next();
  });
  item.append(ask, reply);
  if (state.direction) showReply(reply, step, state, isLast, work);
  return item;
}

// The reply to a direction. That to the last step is the prediction itself: it waits until the prediction is locked.
function showReply(place, step, state, isLast, work) {
  const isRight = state.direction === step.direction;
  place.className = "reply";
  if (isLast && !work.prediction.locked) {
    place.textContent = "Noted. This step ends in the prediction, so the reply comes when you have committed yourself.";
  } else if (isRight) {
    place.classList.add("right");
    place.textContent = `Yes: it ${directionWords(step.direction)}.`;
  } else {
    place.classList.add("wrong");
    const belief = step.replies.find((reply) => reply.to === state.direction);
    const why = belief ? `A common belief leads there: ${belief.text}` : `Think of this: ${step.role_answer}`;
    place.textContent = `No: here it ${directionWords(step.direction)}. ${why}`;
  }
}

// A question, a field for the answer, and the model answer to compare once something is written.
function recallField(id, kind, question, answer, state, name, work, save) {
  const model = make("p", { class: "model", id: `${id}-model`, hidden: !state[`${name}Shown`] }, make("strong", {}, "To compare: "), answer);
  const show = button("Show the answer", () => {
    if (!(state[name] ?? "").trim()) {
      hint.textContent = "Write a few words first, however unsure: what you recall by yourself stays longer.";
      return;
    }
    hint.textContent = "";
    state[`${name}Shown`] = true;
    save();
    model.hidden = false;
    show.hidden = true;
    announce(`To compare: ${answer}`);
  }, { "aria-describedby": `${id}-hint` });
  const hint = make("p", { class: "told", id: `${id}-hint`, role: "status" });
  show.hidden = Boolean(state[`${name}Shown`]) || (work.support === "prompts" && !work.prediction.locked);
  const label = make("span", {}, make("strong", {}, `${kind}. `), question);
  const field = writing(id, label, state[name], (text) => {
    state[name] = text;
    save();
  }, { rows: 2 });
  return make("div", { class: "recall" }, field, show, hint, model);
}
