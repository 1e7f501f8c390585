// The page to practise on, in a real browser from a file with the network cut: walked through to the score by mouse and by
// keys, reloaded in the middle, looked at by axe at every stage, printed.
// Run with `npm ci && npm test` in this folder, after `cargo build`. CHROMIUM names the browser where it is elsewhere.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath, pathToFileURL } from "node:url";
import { AxeBuilder } from "@axe-core/playwright";
import { chromium } from "playwright-core";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const program = process.env.TOEHOLD ?? join(root, "target", "debug", "toehold");
const flags = [
  "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
  "--disable-component-update", "--disable-sync",
];
const phone = { width: 360, height: 800 };
const desktop = { width: 1280, height: 900 };
const ANSWER = "The reading falls because more of it takes up more light, so less gets through.";

let folder;
let browser;
let files;

before(async () => {
  folder = mkdtempSync(join(tmpdir(), "toehold-"));
  execFileSync(program, ["practise", "--page", folder, "--count", "6", "--seed", "5"]);
  files = readdirSync(folder).filter((name) => name.endsWith(".html") && name !== "index.html").sort();
  browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: flags });
});

after(async () => {
  await browser?.close();
  if (folder) rmSync(folder, { recursive: true });
});

const ofForm = (form) => files.find((name) => name.includes(`-${form}-`));
const address = (name) => pathToFileURL(join(folder, name)).href;

// A page offline, with everything that goes wrong on it kept.
async function open(name, options = {}, prepare = null, ownTime = false) {
  const context = options.context ?? (await browser.newContext({ viewport: desktop, ...options, offline: true }));
  if (prepare) await context.addInitScript(prepare);
  const page = await context.newPage();
  page.wrong = [];
  page.on("pageerror", (error) => page.wrong.push(error.message));
  page.on("console", (message) => ["error", "warning"].includes(message.type()) && page.wrong.push(message.text()));
  page.on("request", (request) => /^(file|data|blob):/.test(request.url()) || page.wrong.push(`asks for ${request.url()}`));
  if (ownTime) await page.clock.install();
  await page.goto(address(name));
  return page;
}

const done = async (page) => {
  assert.deepEqual(page.wrong, []);
  await page.context().close();
};
const dataOf = (page) => page.evaluate(() => JSON.parse(document.getElementById("page-data").textContent));
const press = (page, name) => page.getByRole("button", { name }).click();

// Each stage of the way; `look` is called after each.
async function walk(page, look = async () => {}, upTo = "next") {
  const view = await dataOf(page);
  await look("start");
  await press(page, "Begin reading");
  await page.getByLabel("Planning box (not scored)").fill("Which principles?");
  await look("read");
  if (upTo === "read") return view;
  await press(page, "I have read it: go on");
  await look("know");
  for (let at = 0; at < view.steps.length; at += 1) {
    if (!view.steps[at].told) {
      await page.locator(`#recall-${at}`).fill("What I recall");
      await page.locator(`.recall:has(#recall-${at})`).getByRole("button").click();
      assert.ok((await page.locator(`#recall-${at}-model`).innerText()).includes(view.steps[at].answer));
    }
    const wrong = view.steps[at].direction === "rises" ? "falls" : "rises";
    await page.locator(`#direction-${at}-${at === 1 ? wrong : view.steps[at].direction}`).check();
  }
  await look("steps");
  if (upTo === "know") return view;
  await press(page, "Go to the prediction");
  await page.locator(`#prediction-${view.prediction}`).check();
  await page.locator("#because").fill("because of the chain");
  await look("predict");
  if (upTo === "predict") return view;
  await press(page, "Lock my prediction and show the data");
  await look("write");
  for (const part of view.parts) await page.locator(`#answer-${part.label}`).fill(ANSWER);
  await look("answered");
  if (upTo === "write") return view;
  await press(page, "Hand in");
  await page.locator(".sum").waitFor();
  await look("score");
  for (const [at, point] of view.points.entries()) await page.locator(`#earn-${point.point}-${at === 0 ? "no" : "yes"}`).check();
  if (upTo === "score") return view;
  await press(page, "Save this score");
  await page.locator("#next-heading").waitFor();
  await look("next");
  return view;
}

for (const [size, viewport] of [["phone", phone], ["desktop", desktop]]) {
  test(`a walk to the score: ${size}; axe finds nothing at any stage in light and dark, nothing is too wide`, async () => {
    const page = await open(ofForm(size === "phone" ? "short" : "long"), { viewport });
    await walk(page, async (stage) => {
      const width = await page.evaluate(() => document.documentElement.scrollWidth);
      assert.ok(width <= viewport.width, `${stage} is ${width} px wide`);
      const cut = await page.evaluate(() => [...document.querySelectorAll("svg.plot text")].filter((text) => {
        const [word, frame] = [text.getBoundingClientRect(), text.ownerSVGElement.getBoundingClientRect()];
        return word.left < frame.left - 0.5 || word.right > frame.right + 0.5 || word.top < frame.top - 0.5 || word.bottom > frame.bottom + 0.5;
      }).map((text) => text.textContent));
      assert.deepEqual(cut, [], `${stage}: words of the plot are cut off`);
      await page.evaluate(() => document.querySelectorAll("details").forEach((details) => (details.open = true)));
      for (const colorScheme of ["light", "dark"]) {
        await page.emulateMedia({ colorScheme });
        const { violations } = await new AxeBuilder({ page }).analyze();
        const told = violations.map((found) => `${stage}, ${colorScheme}: ${found.id}: ${found.nodes.map((node) => node.html).join(" ")}`);
        assert.deepEqual(told, []);
      }
    });
    await done(page);
  });
}

test("what a reader sees before the lock tells nothing of the outcome", async () => {
  for (const name of files.slice(0, 3)) {
    const page = await open(name);
    let view;
    await walk(page, async (stage) => {
      view ??= await dataOf(page);
      const words = await page.evaluate(() => document.body.innerText);
      const outcome = `${view.reading.the} ${view.prediction}`.toLowerCase();
      if (["start", "read", "know", "steps", "predict"].includes(stage)) {
        assert.equal(await page.locator("table, svg.plot, #treatment, [role=switch]").count(), 0, stage);
        assert.ok(!words.includes("SEM") && !words.toLowerCase().includes(outcome), stage);
        for (const point of view.points.filter((one) => one.statement.length > 40)) assert.ok(!words.includes(point.statement), stage);
        // The reply to the last step would be the prediction.
        if (stage === "steps") assert.match(await page.locator(".step .reply").last().innerText(), /reply comes when you have committed/);
      }
    }, "predict");
    await press(page, "Lock my prediction and show the data");
    assert.ok((await page.locator("#data-body td").count()) >= 2 * view.plain.rows.length);
    assert.ok(await page.locator("#prediction-rises").isDisabled(), "the prediction is locked");
    assert.equal(await page.locator("[role=switch]").count(), 0, "the changed experiment is still asked about");
    assert.equal(await page.locator("svg.plot").count(), view.to_draw ? 0 : 1, "a graph that is asked for is not shown");
    await page.reload();
    assert.ok(await page.locator("#prediction-rises").isDisabled(), "a reload does not unlock it");
    await done(page);
  }
});

test("a wrong direction gets the reply to its belief, a right one is confirmed", async () => {
  const page = await open(ofForm("long"));
  const view = await walk(page, undefined, "know");
  const replies = await page.locator(".step .reply").allInnerTexts();
  assert.match(replies[0], /^Yes/);
  assert.match(replies[1], /^No: here it/);
  const wrong = view.steps[1].direction === "rises" ? "falls" : "rises";
  const belief = view.steps[1].replies.find((reply) => reply.to === wrong);
  assert.ok(replies[1].includes(belief ? belief.text : view.steps[1].role_answer));
  await done(page);
});

test("a reload or a closed window in the middle loses no letter", async () => {
  const page = await open(ofForm("long"));
  const context = page.context();
  await walk(page, undefined, "write");
  await page.locator("#answer-a").press("End");
  await page.keyboard.type(" One more letter: x");
  await page.reload();
  assert.equal(await page.locator("#answer-a").inputValue(), `${ANSWER} One more letter: x`);
  assert.equal(await page.getByLabel("Planning box (not scored)").inputValue(), "Which principles?");
  assert.equal(await page.locator("#because").inputValue(), "because of the chain");
  await page.locator("#answer-a").press("End");
  await page.keyboard.type("y");
  await page.close({ runBeforeUnload: false });
  const again = await open(ofForm("long"), { context });
  assert.equal(await again.locator("#answer-a").inputValue(), `${ANSWER} One more letter: xy`);
  await press(again, "Hand in");
  await again.locator(".sum").waitFor();
  await again.locator("#earn-a-no").check();
  await again.reload();
  await again.locator(".sum").waitFor();
  assert.ok(await again.locator("#earn-a-no").isChecked());
  assert.deepEqual(page.wrong, []);
  await done(again);
});

test("the slider follows the model's own curve, and the changed experiment switches", async () => {
  const page = await open(files.find((name) => name.includes("-long-")));
  const view = await walk(page, undefined, "score");
  const slider = page.locator("#treatment");
  const shown = async () => Number((await page.locator("#reading-here").innerText()).match(/gives ([−\d]+(?:\.\d+)?)/)[1].replace("−", "-"));
  await slider.press("Home");
  const close = (a, b, run) => {
    const values = run.curve.map(([, y]) => y);
    return Math.abs(a - b) <= 0.01 * (Math.max(...values) - Math.min(...values)) + 1e-9;
  };
  assert.ok(close(await shown(), view.plain.curve[0][1], view.plain));
  await slider.press("End");
  assert.ok(close(await shown(), view.plain.curve.at(-1)[1], view.plain));
  if (view.twisted) {
    const toggle = page.getByRole("switch");
    assert.equal(await toggle.getAttribute("aria-checked"), "false");
    await toggle.click();
    assert.equal(await toggle.getAttribute("aria-checked"), "true");
    assert.ok(close(await shown(), view.twisted.curve.at(-1)[1], view.plain));
  }
  await done(page);
});

// Goes on with Tab until the element is reached.
async function tabTo(page, selector) {
  for (let presses = 0; presses < 400; presses += 1) {
    await page.keyboard.press("Tab");
    if (await page.evaluate((wanted) => document.activeElement?.matches(wanted) ?? false, selector)) return;
  }
  assert.fail(`Tab never reaches ${selector}`);
}

test("by keys alone from the beginning to the score", async () => {
  const page = await open(ofForm("short"));
  const view = await dataOf(page);
  const into = async (selector, text) => {
    await tabTo(page, selector);
    await page.keyboard.type(text);
  };
  // A group of choices is one stop: the first of it is reached, then the arrows choose.
  const choose = async (name, values, value) => {
    await tabTo(page, `[name="${name}"]`);
    await page.keyboard.press("Space");
    for (let at = 0; at < values.indexOf(value); at += 1) await page.keyboard.press("ArrowDown");
    assert.ok(await page.locator(`#${name}-${value}`).isChecked(), `${name}: ${value}`);
  };
  const directions = ["rises", "falls", "unchanged"];
  const main = async (section) => {
    await tabTo(page, `#${section}-body button.main`);
    await page.keyboard.press("Enter");
  };
  await main("start");
  await main("read");
  for (const [at, step] of view.steps.entries()) await choose(`direction-${at}`, directions, step.direction);
  await into("#chain", "It follows because of the steps.");
  await main("know");
  await choose("prediction", directions, view.prediction);
  await main("predict");
  for (const part of view.parts) await into(`#answer-${part.label}`, ANSWER);
  await main("write");
  await page.locator(".sum").waitFor();
  for (const point of view.points) await choose(`earn-${point.point}`, ["yes", "no"], "yes");
  await main("score");
  await page.locator("#next-body").waitFor();
  const kept = await page.evaluate(() => JSON.parse(localStorage.getItem("toehold/attempts")));
  assert.equal(kept.length, 1);
  assert.equal(kept[0].scores.length, view.points.length);
  await done(page);
});

test("progress goes to a file and back, once, and leads to the next question", async () => {
  const page = await open(ofForm("short"));
  const view = await walk(page);
  assert.match(await page.locator("#score-body .lost").innerText(), /By principle|By command term/);
  assert.equal(await page.locator("#next-body .onward a").count(), 1);
  const [download] = await Promise.all([page.waitForEvent("download"), press(page, "Save all progress to a file")]);
  const saved = await download.path();
  const file = JSON.parse(readFileSync(saved, "utf8"));
  assert.equal(file.toehold_progress, 1);
  assert.equal(file.attempts.length, 1);
  const [attempt] = file.attempts;
  assert.deepEqual(attempt.scores.map((score) => score.earned), view.points.map((_, at) => at !== 0));
  assert.equal(attempt.answers.find((answer) => answer.step === `part-${view.parts[0].label}`).text, ANSWER);
  assert.deepEqual(Object.keys(attempt.scenario).sort(), ["form", "id", "points", "principles", "seed", "title"]);
  await done(page);

  const index = await open("index.html", { viewport: phone });
  const load = async (path) => {
    await index.locator("#load-progress").setInputFiles(path);
    await index.waitForFunction(() => document.querySelector(".keeping .told").textContent !== "");
    return index.locator(".keeping .told").innerText();
  };
  const { violations } = await new AxeBuilder({ page: index }).analyze();
  assert.deepEqual(violations.map((found) => found.id), []);
  const copy = join(folder, "progress.json");
  writeFileSync(copy, JSON.stringify(file));
  // The program takes the file in, and counts it once.
  const progress = (...words) => execFileSync(program, ["progress", ...words, "--data", join(folder, "attempts.sqlite")], { encoding: "utf8" });
  progress("add", copy);
  progress("add", copy);
  const report = JSON.parse(progress("--format", "json"));
  assert.equal(report.attempts, 1);
  assert.deepEqual(report.points, { earned: view.points.length - 1, of: view.points.length });
  await load(copy);
  assert.match(await index.locator(`li[data-page="${view.scenario.id}"]`).innerText(), /Scored: \d+ of \d+/);
  await load(copy);
  assert.equal(await index.evaluate(() => JSON.parse(localStorage.getItem("toehold/attempts")).length), 1, "not counted twice");
  const bad = join(folder, "bad.json");
  writeFileSync(bad, "{\"attempts\": 3}");
  assert.match(await load(bad), /not a progress file.*Nothing was changed/);
  const href = await index.locator("#suggestion-body a").getAttribute("href");
  assert.ok(files.includes(href) && href !== ofForm("short"), "another question is suggested");
  await done(index);
});

test("the reviewer shows its evidence, and without WebAssembly the reader scores alone", async () => {
  const page = await open(ofForm("long"));
  const hasReviewer = await page.locator("#reviewer").count();
  const view = await dataOf(page);
  await walk(page, undefined, "write");
  // The guide's own words are an answer that says it all.
  for (const part of view.parts) {
    const words = view.points.filter((point) => point.part === part.label).map((point) => point.statement).join(" ");
    await page.locator(`#answer-${part.label}`).fill(words);
  }
  await press(page, "Hand in");
  await page.locator(".sum").waitFor();
  if (hasReviewer) {
    assert.equal(await page.locator(".advice").count(), view.points.length);
    const found = await page.locator(".advice.found").count();
    assert.ok(found >= view.points.length / 2, `${found} of ${view.points.length} points found in the guide's own words`);
    const answers = await page.locator(".answer").allInnerTexts();
    const marks = await page.locator(".answer mark").allInnerTexts();
    assert.ok(marks.length > 0 && marks.every((mark) => answers.some((answer) => answer.includes(mark))));
  }
  assert.equal(await page.locator(".point input:checked").count(), 0, "no point is scored by the tool");
  await done(page);

  const alone = await open(ofForm("long"), {}, () => delete globalThis.WebAssembly);
  await walk(alone);
  assert.equal(await alone.locator(".advice").count(), 0);
  await done(alone);
});

test("a browser that keeps nothing still lets one practise, and says so", async () => {
  const page = await open(ofForm("short"), {}, () => {
    Object.defineProperty(globalThis, "localStorage", { get() { throw new Error("no storage here"); } });
  });
  assert.match(await page.locator("#storage-note").innerText(), /keeps nothing/);
  await walk(page);
  await done(page);
});

test("the clock can be off, longer, or stopped, and takes nothing away", async () => {
  const page = await open(ofForm("short"), { viewport: phone });
  const view = await dataOf(page);
  await page.locator("#pace-off").check();
  await press(page, "Begin reading");
  assert.ok(await page.locator("#clock").isHidden());
  await done(page);
  const slow = await open(ofForm("short"), {}, null, true);
  await slow.locator("#pace-100").check();
  await press(slow, "Begin reading");
  const left = () => slow.getByRole("timer").innerText();
  assert.equal(await left(), `Reading: ${2 * view.minutes.reading}:00`);
  await slow.clock.fastForward(30_000);
  const [, minutes, seconds] = (await left()).match(/(\d+):(\d+)/);
  assert.ok(Math.abs(60 * minutes + Number(seconds) - (120 * view.minutes.reading - 30)) <= 3);
  await press(slow, "Stop the clock");
  const stopped = await left();
  await slow.clock.fastForward(60_000);
  assert.equal(await left(), stopped);
  await press(slow, "Let the clock run");
  await slow.clock.fastForward(3_600_000);
  assert.equal(await left(), "Reading: time is up");
  assert.match(await slow.locator("#say").textContent(), /Nothing closes/);
  await press(slow, "I have read it: go on");
  await slow.locator("#know-heading").waitFor();
  await done(slow);
});

test("printed, the question and the answers are on paper and the buttons are not", async () => {
  const page = await open(ofForm("short"));
  await walk(page, undefined, "score");
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.locator("button:visible, nav:visible, input[type=range]:visible").count(), 0);
  assert.ok(await page.locator("#answer-a").isVisible());
  assert.ok(await page.locator("#data-body table").isVisible());
  await done(page);
});

test("letters twice as large still fit a phone", async () => {
  const page = await open(ofForm("short"), { viewport: phone });
  await page.addStyleTag({ content: "html { font-size: 200%; }" });
  await walk(page, async (stage) => {
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(width <= phone.width, `${stage} is ${width} px wide`);
  });
  await done(page);
});
