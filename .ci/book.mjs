// The filters of a fuel book: for every choice in every list, the rows shown are those that have it, and the count says so.
// Usage: node .ci/book.mjs BOOK
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const [book] = process.argv.slice(2);
const driver = `
  const out = [];
  const selects = [...form.elements].filter(e => e.tagName === "SELECT");
  const all = [...document.querySelectorAll("#book tbody tr")];
  const set = (select, value) => { select.value = value; select.dispatchEvent(new Event("change", { bubbles: true })); };
  for (const select of selects) {
    for (const { value } of [...select.options].filter(o => o.value !== "")) {
      set(select, value);
      const shown = all.filter(row => row.offsetParent !== null || row.getClientRects().length > 0);
      const wanted = all.filter(row => row.dataset[select.name] === value);
      const told = form.querySelector("output").value;
      const right = wanted.length > 0 && shown.length === wanted.length && wanted.every(row => shown.includes(row))
        && told === wanted.length + " of " + all.length + " shown";
      out.push((right ? "right" : "wrong") + ": " + select.name + " = " + value + ": " + told);
    }
    set(select, "");
  }
  selects[0].focus();
  out.push((document.activeElement === selects[0] && selects.every(s => s.labels.length === 1) ? "right" : "wrong") + ": lists have labels and take the keyboard");
  document.body.replaceChildren(Object.assign(document.createElement("pre"), { id: "out", textContent: JSON.stringify(out) }));`;
const folder = mkdtempSync(join(tmpdir(), "book-"));
try {
  const page = join(folder, "page.html");
  writeFileSync(page, readFileSync(book, "utf8").replace("</body>", `<script>${driver}</script></body>`));
  const flags = ["--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", `--user-data-dir=${join(folder, "profile")}`];
  const dom = execFileSync("chromium", [...flags, "--dump-dom", `file://${page}`], { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] });
  const lines = JSON.parse(dom.match(/<pre id="out">(.*?)<\/pre>/s)[1].replace(/&amp;/g, "&").replace(/&lt;/g, "<").replace(/&gt;/g, ">"));
  const wrong = lines.filter(line => !line.startsWith("right"));
  wrong.forEach(line => console.error(line));
  console.log(`book: ${lines.length - wrong.length} of ${lines.length} choices and labels as they should be`);
  process.exitCode = wrong.length > 0 || lines.length < 4 ? 1 : 0;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
