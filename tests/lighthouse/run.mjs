// Lighthouse on pages of a site, as a phone: node run.mjs CHROMIUM ADDRESS...
// Prints one line of JSON for each page: the four scores, and what each score below 100 is short of.
import * as chromeLauncher from "chrome-launcher";
import lighthouse from "lighthouse";

const [chromePath, ...addresses] = process.argv.slice(2);
const CATEGORIES = ["performance", "accessibility", "best-practices", "seo"];
const RUNS = 3; // the middle one counts: the speed of this machine varies

function shortOf(result, name) {
  const { auditRefs } = result.categories[name];
  return auditRefs
    .filter(({ id, weight }) => weight > 0 && (result.audits[id].score ?? 1) < 0.9)
    .map(({ id }) => `${id} ${result.audits[id].displayValue ?? ""}`.trim());
}

const chrome = await chromeLauncher.launch({
  chromePath,
  chromeFlags: ["--headless=new", "--no-sandbox", "--disable-background-networking", "--disable-component-update"],
});
try {
  for (const address of addresses) {
    const results = [];
    for (let run = 0; run < RUNS; run += 1) {
      const { lhr } = await lighthouse(address, { port: chrome.port, onlyCategories: CATEGORIES, logLevel: "error" });
      if (lhr.runtimeError) throw new Error(lhr.runtimeError.message);
      results.push(lhr);
    }
    results.sort((one, other) => one.categories.performance.score - other.categories.performance.score);
    const middle = results[Math.floor(RUNS / 2)];
    const scores = Object.fromEntries(CATEGORIES.map((name) => [name, Math.round(100 * middle.categories[name].score)]));
    const short = Object.fromEntries(
      CATEGORIES.map((name) => [name, shortOf(middle, name)]).filter(([, audits]) => audits.length),
    );
    console.log(JSON.stringify({ address, scores, short }));
  }
} finally {
  await chrome.kill();
}
