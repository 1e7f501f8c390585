// The page in a browser: no accessibility violation, nothing wider than the screen, nothing loaded, answers printed.
// Run with `npm ci && npm test` in this folder, after `cargo build`. CHROMIUM names the browser where it is elsewhere.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
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
const sizes = [{ width: 360, height: 800 }, { width: 1280, height: 900 }];

let folder;
let browser;
let pages;

before(async () => {
  folder = mkdtempSync(join(tmpdir(), "toehold-"));
  execFileSync(program, ["generate", "--count", "6", "--seed", "3", "--format", "html", "--out", folder]);
  execFileSync(program, ["generate", "--count", "1", "--seed", "3", "--form", "long", "--out", folder]);
  const markdown = readdirSync(folder).find((name) => name.endsWith(".md"));
  const student = execFileSync(program, ["render", join(folder, markdown), "--student"]);
  writeFileSync(join(folder, "student.html"), student);
  pages = readdirSync(folder).filter((name) => name.endsWith(".html")).map((name) => join(folder, name));
  browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: flags });
});

after(async () => {
  await browser?.close();
  if (folder) rmSync(folder, { recursive: true });
});

// Opens each page at a size and theme, hands it over, and fails on any request beside the page's own.
async function each(options, look, paths = pages) {
  for (const path of paths) {
    const context = await browser.newContext(options);
    const page = await context.newPage();
    const requests = [];
    page.on("request", (request) => requests.push(request.url()));
    await page.goto(pathToFileURL(path).href);
    await look(page, path);
    assert.deepEqual(requests, [pathToFileURL(path).href], "the page loads nothing");
    await context.close();
  }
}

for (const viewport of sizes) {
  for (const colorScheme of ["light", "dark"]) {
    test(`axe finds nothing at ${viewport.width} px, ${colorScheme}`, async () => {
      await each({ viewport, colorScheme }, async (page, path) => {
        await page.evaluate(() => document.querySelectorAll("details").forEach((details) => (details.open = true)));
        const { violations } = await new AxeBuilder({ page }).analyze();
        const told = violations.map((found) => `${found.id}: ${found.nodes.map((node) => node.html).join(" ")}`);
        assert.deepEqual(told, [], path);
      }, pages.slice(0, 3));
    });
  }
  test(`nothing is wider than ${viewport.width} px, and letters are large enough`, async () => {
    await each({ viewport }, async (page, path) => {
      await page.evaluate(() => document.querySelectorAll("details").forEach((details) => (details.open = true)));
      const width = await page.evaluate(() => document.documentElement.scrollWidth);
      assert.ok(width <= viewport.width, `${path} is ${width} px wide`);
      const least = await page.evaluate(() => {
        const sizes = [...document.querySelectorAll("svg text")].map((text) => {
          const svg = text.ownerSVGElement;
          return (parseFloat(getComputedStyle(text).fontSize) * svg.getBoundingClientRect().width) / svg.viewBox.baseVal.width;
        });
        return Math.min(...sizes);
      });
      // A letter on a strand is the smallest; all words are larger.
      assert.ok(least >= 8, `${path} has letters of ${least} px`);
    });
  });
}

test("no two texts of a figure lie on one another", async () => {
  await each({ viewport: sizes[1] }, async (page, path) => {
    const clashes = await page.evaluate(() => {
      const found = [];
      for (const svg of document.querySelectorAll("svg")) {
        const boxes = [...svg.querySelectorAll("text")].map((text) => [text.textContent.trim(), text.getBoundingClientRect()]);
        const frame = svg.getBoundingClientRect();
        boxes.forEach(([words, a], place) => {
          if (a.left < frame.left - 1 || a.right > frame.right + 1 || a.bottom > frame.bottom + 1) found.push(`${words} is cut off`);
          for (const [others, b] of boxes.slice(place + 1)) {
            const apart = a.right <= b.left + 1 || b.right <= a.left + 1 || a.bottom <= b.top + 4 || b.bottom <= a.top + 4;
            if (!apart) found.push(`${words} on ${others}`);
          }
        });
      }
      return found;
    });
    assert.deepEqual(clashes, [], path);
  });
});

test("printed, answers stand open on pages of their own", async () => {
  await each({ viewport: sizes[1] }, async (page, path) => {
    await page.emulateMedia({ media: "print" });
    const heights = await page.evaluate(() =>
      [...document.querySelectorAll("details")].map((details) => details.getBoundingClientRect().height - details.querySelector("summary").getBoundingClientRect().height),
    );
    assert.ok(heights.every((height) => height > 10), `${path}: closed when printed`);
    const tall = await page.evaluate(() => document.querySelectorAll(".part, figure, tr").length);
    assert.ok(tall > 0, path);
  });
});

test("keys reach and open what is folded", async () => {
  await each({ viewport: sizes[0] }, async (page, path) => {
    const summary = page.locator("summary").first();
    if ((await summary.count()) === 0) return;
    await summary.focus();
    await page.keyboard.press("Enter");
    assert.ok(await page.locator("details").first().evaluate((details) => details.open), path);
  });
});
