// What the scored attempts say, and what to do next. The estimate of the chance of earning a point is the mean under
// the Jeffreys prior, (earned + 1/2) / (asked + 1): one half where nothing is known (Brown, Cai & Das Gupta 2001,
// Statistical Science 16:101-133). The command line reckons the same way.

const READY = 0.5;

function tally(list) {
  const sums = { principle: new Map(), term: new Map(), habit: new Map() };
  const add = (sum, key, earned) => {
    const entry = sum.get(key) ?? { earned: 0, asked: 0 };
    entry.asked += 1;
    entry.earned += earned ? 1 : 0;
    sum.set(key, entry);
  };
  for (const score of list.flatMap(standing)) {
    for (const id of score.principles ?? []) add(sums.principle, id, score.earned);
    if (score.command_term) add(sums.term, score.command_term, score.earned);
    if (!score.earned) for (const habit of score.habits ?? []) add(sums.habit, habit, false);
  }
  return sums;
}

const estimate = (entry) => ((entry?.earned ?? 0) + 0.5) / ((entry?.asked ?? 0) + 1);

// How much support to offer, after the latest scored attempt: one level less where the prediction and all directions
// were right and 70 % of the points were earned; one more where the prediction was wrong or less than 40 % were.
const LEVELS = ["full", "completion", "prompts", "none"];
function supportFor(list) {
  const last = list.filter((attempt) => attempt.scores.length > 0).sort((a, b) => a.started.localeCompare(b.started)).at(-1);
  if (!last) return "full";
  const at = Math.max(0, LEVELS.indexOf(last.support ?? "full"));
  const scores = standing(last);
  const share = scores.length ? scores.filter((score) => score.earned).length / scores.length : 0;
  const checked = last.answers.filter((answer) => answer.right !== undefined);
  const prediction = checked.some((answer) => answer.step === "prediction" && answer.right);
  if (!prediction || share < 0.4) return LEVELS[Math.max(0, at - 1)];
  return checked.every((answer) => answer.right) && share >= 0.7 ? LEVELS[Math.min(3, at + 1)] : LEVELS[at];
}

// The question that exercises the weakest principle whose prerequisites are in place; one that is new, where there is one.
function nextOf(pages, principles, list, current) {
  const known = tally(list).principle;
  const level = (id) => estimate(known.get(id));
  const times = (page) => list.filter((attempt) => attempt.scenario.id === page.id).length;
  const others = pages.filter((page) => page.id !== current);
  const order = principles
    .filter((one) => one.requires.every((id) => level(id) >= READY))
    .sort((a, b) => level(a.id) - level(b.id) || known.has(b.id) - known.has(a.id) || a.requires.length - b.requires.length);
  for (const isNew of [true, false]) {
    for (const principle of order) {
      const fits = others.filter((page) => page.principles.includes(principle.id) && (times(page) === 0) === isNew);
      const page = fits.sort((a, b) => times(a) - times(b))[0];
      if (page) return { page, principle, entry: known.get(principle.id) };
    }
  }
  return others[0] ? { page: others[0], principle: null, entry: undefined } : null;
}

function whyNext({ principle, entry }) {
  if (!principle) return "";
  if (!entry) return `It exercises ${principle.name}, which has not come up yet; what it rests on is in place.`;
  return `It exercises ${principle.name}: ${entry.earned} of ${counted(entry.asked, "point")} so far; what it rests on is in place.`;
}

// A table of what was earned under each heading, weakest first.
function tallyTable(caption, first, sums, nameOf, isLoss = false) {
  const rows = [...sums.entries()].sort((a, b) => estimate(a[1]) - estimate(b[1]) || (a[0] < b[0] ? -1 : 1));
  if (rows.length === 0) return null;
  const cells = ([key, { earned, asked }]) =>
    make("tr", {}, make("th", { scope: "row" }, nameOf(key)), make("td", {}, isLoss ? String(asked) : `${earned} of ${asked}`));
  return make("table", { class: "tally" }, make("caption", {}, caption),
    make("thead", {}, make("tr", {}, make("th", { scope: "col" }, first), make("th", { scope: "col" }, isLoss ? "points lost" : "earned"))),
    make("tbody", {}, rows.map(cells)));
}

// By principle, command term and habit.
function tallies(list, names) {
  const sums = tally(list);
  return [
    tallyTable("By principle", "principle", sums.principle, (id) => sentence(names.get(id) ?? id.replaceAll("-", " "))),
    tallyTable("By command term", "command term", sums.term, sentence),
    tallyTable("By habit", "habit", sums.habit, (kind) => sentence(habitWords(kind)), true),
  ].filter((table) => table !== null);
}

// Habits that cost points, in words.
const HABITS = {
  "restates": "says the question again",
  "no-reason": "gives no reason",
  "over-count": "gives more than was asked for",
  "bullets": "bullets instead of sentences",
  "unit-missing": "leaves out a unit",
  "no-setup": "shows no setup of the calculation",
  "figures": "more or fewer significant figures than the guide",
  "blank": "leaves a part blank",
};
const habitWords = (kind) => HABITS[kind] ?? kind.replaceAll("-", " ");
