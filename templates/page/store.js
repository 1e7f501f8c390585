// What stays on this device: the work in hand, letter by letter, and the attempts that were scored. Nothing leaves it
// but by a file that the reader saves.

const PREFIX = "toehold/";
const ATTEMPTS = `${PREFIX}attempts`;
const STUDENT = `${PREFIX}student`;

// Where the browser refuses to keep anything, the page still works, and says so.
const memory = new Map();
const shelf = (() => {
  try {
    localStorage.setItem(`${PREFIX}probe`, "1");
    localStorage.removeItem(`${PREFIX}probe`);
    return localStorage;
  } catch {
    return null;
  }
})();
const keepsWork = () => shelf !== null;

function keep(key, value) {
  const text = JSON.stringify(value);
  memory.set(key, text);
  try {
    shelf?.setItem(key, text);
    return shelf !== null;
  } catch {
    return false;
  }
}

function kept(key) {
  const text = shelf ? shelf.getItem(key) : (memory.get(key) ?? null);
  if (text === null) return null;
  try {
    return JSON.parse(text);
  } catch {
    // Whatever it was, it is not thrown away.
    try {
      shelf?.setItem(`${key}/damaged`, text);
    } catch { /* no room: the damaged text stays where it is until it is written over */ }
    return null;
  }
}

function forget(key) {
  memory.delete(key);
  shelf?.removeItem(key);
}

const workKey = (scenario) => `${PREFIX}work/${scenario.id}/${scenario.concepts}`;

const isList = (value) => value === undefined || (Array.isArray(value) && value.every((one) => typeof one === "string"));
const isAttempt = (one) =>
  typeof one?.id === "string" && typeof one.started === "string" && typeof one.scenario?.id === "string" && Array.isArray(one.answers) && Array.isArray(one.scores) &&
  one.scores.every((score) => typeof score?.part === "string" && typeof score.point === "string" && typeof score.earned === "boolean" &&
    isList(score.principles) && isList(score.habits));

const attempts = () => (kept(ATTEMPTS) ?? []).filter(isAttempt);

// Two versions of an attempt: every entry of both, once. Nothing is taken out; later entries stand above earlier ones.
function joined(one, other) {
  const entries = (key) => {
    const all = new Map();
    for (const entry of [...(one[key] ?? []), ...(other[key] ?? [])]) all.set(JSON.stringify([entry.step, entry.point, entry.text, entry.verdict, entry.earned, entry.at]), entry);
    return [...all.values()];
  };
  const more = other.corrections || one.corrections ? { corrections: entries("corrections") } : {};
  return { ...one, ...other, answers: entries("answers"), scores: entries("scores"), ...more };
}

// The scores that stand: the last of each point, with what a teacher corrected; a voided point counts for nothing.
function standing(attempt) {
  const scores = new Map();
  const inOrder = [...attempt.scores].sort((a, b) => (a.at ?? attempt.started).localeCompare(b.at ?? attempt.started));
  for (const score of inOrder) scores.set(score.point, score);
  const corrections = [...(attempt.corrections ?? [])].sort((a, b) => a.at.localeCompare(b.at));
  for (const { point, verdict } of corrections) {
    const score = scores.get(point);
    if (!score) continue;
    if (verdict === "void") scores.delete(point);
    else scores.set(point, { ...score, earned: verdict === "earned" });
  }
  return [...scores.values()];
}

// Puts attempts among those that are there. The same attempt is never counted twice.
function addAttempts(more) {
  const all = new Map(attempts().map((one) => [one.id, one]));
  let added = 0;
  for (const one of more) {
    const there = all.get(one.id);
    if (!there) added += 1;
    all.set(one.id, there ? joined(there, one) : one);
  }
  const stays = keep(ATTEMPTS, [...all.values()]);
  return { added, stays };
}

function newId() {
  if (globalThis.crypto?.randomUUID) return crypto.randomUUID();
  const random = () => Math.floor(Math.random() * 0x100000000).toString(16).padStart(8, "0");
  return `${Date.now().toString(16)}-${random()}-${random()}`;
}

// The file of all attempts, as text.
function progressFile() {
  const student = kept(STUDENT);
  return JSON.stringify({ toehold_progress: 1, ...(student ? { student } : {}), attempts: attempts() }, null, 1);
}

// The attempts of a saved file.
function readProgress(text) {
  let file;
  try {
    file = JSON.parse(text);
  } catch {
    throw new Error("this is not a progress file: it is not JSON");
  }
  if (file === null || typeof file !== "object" || !("toehold_progress" in file)) {
    throw new Error("this is not a progress file: it has no “toehold_progress”");
  }
  if (file.toehold_progress !== 1) throw new Error("this progress file was written by a newer version");
  if (!Array.isArray(file.attempts) || !file.attempts.every(isAttempt)) throw new Error("an attempt in this file cannot be read");
  return file.attempts;
}

function saveFile(name, text) {
  const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  make("a", { href: address, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(address), 10000);
}

// Buttons to save all progress to a file and to load it, with a place to say what happened.
function progressButtons(changed) {
  const told = make("p", { class: "told", role: "status" });
  const input = make("input", { type: "file", id: "load-progress", accept: ".json,application/json", class: "unseen" });
  input.addEventListener("change", async () => {
    const file = input.files[0];
    if (!file) return;
    try {
      const { added, stays } = addAttempts(readProgress(await file.text()));
      told.textContent = added === 0 ? "Nothing new in this file: all its attempts are here already." : `${counted(added, "attempt")} added.`;
      if (!stays) told.textContent += " This browser does not keep them after it is closed.";
      changed();
    } catch (error) {
      told.textContent = `${sentence(error.message)}. Nothing was changed.`;
    }
    input.value = "";
  });
  const code = make("input", { type: "text", id: "student-code", maxlength: 40, autocomplete: "off" });
  code.value = kept(STUDENT) ?? "";
  // What a name is made of on the command line too.
  const named = () => code.value.replace(/[^\p{L}\p{N} ._/-]/gu, "").replace(/^[^\p{L}\p{N}]+/u, "").trim();
  code.addEventListener("input", () => (named() ? keep(STUDENT, named()) : forget(STUDENT)));
  return make("div", { class: "keeping" },
    make("div", { class: "field short" }, make("label", { for: "student-code" }, "Code for your teacher, if you were given one"), code),
    make("div", { class: "row" },
      button("Save all progress to a file", () => saveFile("toehold-progress.json", progressFile())),
      input, make("label", { for: "load-progress", class: "button" }, "Load progress from a file")),
    told);
}
