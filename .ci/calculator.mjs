// The calculator of a report against the command `predict`: a dozen jobs, some beyond the burns, in metric and United States
// units, asked of both; every number must be the same text. Usage: node .ci/calculator.mjs REPORT PIPELINE CALEFACT
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const [report, pipeline, calefact] = process.argv.slice(2);
// Water, from, to, air, and the moisture of the wood in %; without it that of the burns.
const jobs = [
  ["metric", 160, 10, 55, 10], ["metric", 155, 12, 52, 12], ["metric", 120, 8, 45, -5], ["metric", 90, 15, 60, 20],
  ["metric", 60, 12, 50, 15, 30], ["metric", 250, 11, 42, 8], ["metric", 380, 12, 40, 8, 16], ["metric", 161.5, 14.5, 70, 14.5],
  ["us", 42, 50, 130, 50], ["us", 25, 55, 120, 60, 8.5], ["us", 100, 54, 104, 46], ["us", 12.5, 48, 105.5, 30],
];
const refused = [["metric", 160, 55, 50, 10], ["metric", 160, 10, 99, 10], ["metric", 0, 10, 50, 10], ["metric", 100, -3, 50, 10]];

const squeezed = text => text.replace(/[\u00a0\s]+/g, " ").replace(/−/g, "-").replace(/°/g, "deg").trim();

// What the command says: one line a combination, numbers in columns parted by two blanks or more.
function predicted([units, water, from, to, air, moisture]) {
  const [volume, degrees] = units === "us" ? ["gal_us", "degF"] : ["L", "degC"];
  const options = [`--water=${water} ${volume}`, `--from=${from} ${degrees}`, `--to=${to} ${degrees}`, `--ambient=${air} ${degrees}`,
    ...(moisture === undefined ? [] : [`--fuel-moisture=${moisture} %`])];
  let text;
  try {
    text = execFileSync(calefact, ["predict", pipeline, ...options, `--units=${units}`], { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] });
  } catch (error) {
    text = error.stdout;
  }
  const lines = text.split("\n");
  const head = lines.findIndex(line => line.startsWith("  with "));
  if (head < 0) return [squeezed(lines.find(line => line.includes("no answer")))];
  const rows = [];
  for (const line of lines.slice(head + 1)) {
    const cells = line.trim().split(/ {2,}/);
    if (cells.length < 8) break;
    rows.push([cells[0], cells[1].split(" ")[0], ...cells.slice(2, 8)].map(squeezed).join(" | "));
  }
  return rows;
}

// What the page says, asked in its own fields by a script at its end.
function calculated(all) {
  const folder = mkdtempSync(join(tmpdir(), "calculator-"));
  const driver = `
    const out = [];
    const form = document.querySelector("#calculator form");
    const set = (name, value) => { form.elements[name].value = value; form.elements[name].dispatchEvent(new Event("change", { bubbles: true })); };
    for (const name of ["stove", "fuel", "exchanger"]) if (form.elements[name].options[0].value === "") set(name, "");
    for (const [units, water, from, to, air, moisture] of ${JSON.stringify(all)}) {
      set("units", units);
      for (const [name, value] of Object.entries({ water, from, to, air, moisture: moisture ?? "" })) set(name, value);
      const rows = [...document.querySelectorAll("#answered tbody tr")].map(row => [...row.cells].map(cell => cell.textContent));
      out.push(rows.length ? rows : document.querySelector("#answered").textContent);
    }
    document.body.replaceChildren(Object.assign(document.createElement("pre"), { id: "out", textContent: JSON.stringify(out) }));`;
  try {
    const page = join(folder, "page.html");
    writeFileSync(page, readFileSync(report, "utf8").replace("</body>", `<script>${driver}</script></body>`));
    const flags = ["--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", `--user-data-dir=${join(folder, "profile")}`];
    const dom = execFileSync("chromium", [...flags, "--dump-dom", `file://${page}`], { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"], maxBuffer: 1 << 28 });
    const text = dom.match(/<pre id="out">(.*?)<\/pre>/s)[1].replace(/&nbsp;/g, " ").replace(/&lt;/g, "<").replace(/&gt;/g, ">").replace(/&amp;/g, "&");
    return JSON.parse(text).map(rows => typeof rows === "string" ? [squeezed(rows)] : rows.map(row => row.map(squeezed).join(" | ")));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const found = calculated([...jobs, ...refused]);
let wrong = 0, compared = 0;
jobs.forEach((job, i) => {
  const wanted = predicted(job);
  compared += wanted.length;
  if (wanted.length < 2 || JSON.stringify(wanted) !== JSON.stringify(found[i])) {
    wrong += 1;
    const differing = wanted.findIndex((row, n) => row !== found[i][n]);
    console.error(`${job.join(" ")}:\n  predict:    ${wanted[differing]}\n  calculator: ${found[i][differing]}`);
  }
});
refused.forEach((job, i) => {
  const wanted = predicted(job)[0].toLowerCase(), got = found[jobs.length + i][0].toLowerCase().replace(/\.$/, "");
  if (wanted !== got) {
    wrong += 1;
    console.error(`${job.join(" ")}:\n  predict:    ${wanted}\n  calculator: ${got}`);
  }
});
console.log(`calculator: ${jobs.length + refused.length - wrong} of ${jobs.length + refused.length} jobs as predict answers them, ${compared} rows`);
process.exit(wrong ? 1 : 0);
