// Opens one HTML file in a headless browser, as a phone and as a desk would, and says as JSON
// what it saw: node look.mjs FOLDER-OF-PACKAGES BROWSER FILE.html [WORD]
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

const [packages, browserPath, file, word] = process.argv.slice(2);
const require = createRequire(`${packages}/package.json`);
const puppeteer = require("puppeteer-core");
const address = pathToFileURL(file).href;
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const browser = await puppeteer.launch({
  executablePath: browserPath,
  args: ["--no-sandbox", "--disable-dev-shm-usage"],
  protocolTimeout: 600_000, // axe-core reads every letter of a long manual
});
const seen = {};

const opened = async (width, { scripts = true } = {}) => {
  const page = await browser.newPage();
  const asked = [];
  const faults = [];
  page.on("request", (request) => asked.push(request.url()));
  page.on("pageerror", (fault) => faults.push(String(fault)));
  page.on("console", (line) => line.type() === "error" && faults.push(line.text()));
  await page.setJavaScriptEnabled(scripts);
  await page.setViewport({ width, height: 900 });
  await page.goto(address);
  return { page, asked, faults };
};

const judged = async (width) => {
  const { page, asked, faults } = await opened(width);
  await page.evaluate(axe); // over the debugging line, which the page's policy does not bind
  const found = await page.evaluate(() => axe.run(document, { resultTypes: ["violations"] }));
  seen[width] = {
    violations: found.violations.map((v) => `${v.id}: ${v.nodes[0].html.slice(0, 160)}`),
    rules: found.passes.length,
    page_width: await page.evaluate(() => document.documentElement.scrollWidth),
    asked: asked.filter((url) => url !== address && !url.startsWith("data:")),
    faults,
  };
  await page.close();
};

// Tab from the top to the end: every stop, and those whose focus cannot be seen.
const walked = async (page, most) => {
  const stops = await page.evaluate(() => {
    const all = document.querySelectorAll("a[href], button, input, [tabindex='0']");
    const shown = [...all].filter((each) => each.checkVisibility());
    shown.forEach((each, number) => (each.dataset.stop = number));
    return shown.length;
  });
  const reached = [];
  const unseen = [];
  for (let count = 0; count < Math.min(stops, most); count += 1) {
    await page.keyboard.press("Tab");
    const [number, outline, words] = await page.evaluate(() => {
      const at = document.activeElement;
      return [at.dataset.stop, getComputedStyle(at).outlineStyle, at.textContent.slice(0, 40)];
    });
    reached.push(Number(number));
    if (outline === "none") unseen.push(words);
  }
  return { stops, reached, unseen };
};

// By key alone: the first stop is the search, Enter goes to what it found, Enter again goes there.
const searched = async (page) => {
  await page.keyboard.press("Tab");
  const first = await page.evaluate(() => document.activeElement.id);
  await page.keyboard.type(word);
  await page.keyboard.press("Enter");
  const link = await page.evaluate(() => document.activeElement.textContent);
  const told = await page.$eval("#search-told", (place) => place.textContent);
  await page.keyboard.press("Enter");
  const reached = await page.evaluate(() => document.querySelector(":target")?.textContent ?? "");
  await page.focus("#search-words");
  await page.keyboard.type("zzqzz");
  const nothing = await page.$eval("#search-told", (place) => place.textContent);
  return { first, link, told, reached, nothing };
};

// A wall: its panel is a link that a key reaches, and a click on it shows what is behind.
const clicked = async (leads) => {
  const to = await leads.evaluate((a) => a.getAttribute("href"));
  await leads.evaluate((a) => a.scrollIntoView({ block: "center" }));
  await leads.click();
  const behind = await leads.evaluate(() => document.querySelector(":target")?.innerText ?? "");
  const focused = await leads.evaluate((a) => (a.focus(), document.activeElement === a));
  return { to, behind, focused };
};

await judged(420);
await judged(1100);
if (word) {
  const { page } = await opened(420);
  seen.search = await searched(page);
  const leads = await page.$("a.leads");
  if (leads) seen.wall = await clicked(leads);
  await page.close();
}
const walk = await opened(420);
seen.walk = await walked(walk.page, 200);
await walk.page.close();
const plain = await opened(420, { scripts: false });
seen.without_scripts = await plain.page.evaluate(() => ({
  text: document.body.innerText,
  search_shown: document.querySelector(".search")?.checkVisibility() ?? false,
}));
await browser.close();
process.stdout.write(JSON.stringify(seen));
