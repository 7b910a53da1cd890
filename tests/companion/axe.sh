#!/usr/bin/env bash
# Looks at a companion page with axe-core in headless Chromium, as wide as a telephone and as a desk, with the list and
# with a panel: tells what it finds and ends with 1 where it finds anything. No part of the usual tests: it needs chromium
# (apt-get install chromium) and node, and a folder with the packages axe-core and puppeteer-core
# (npm install axe-core@4.14.1 puppeteer-core@24.8.2 in it).
# Usage: tests/companion/axe.sh COMPANION.html FOLDER_WITH_NODE_MODULES
set -euo pipefail
if [ $# -ne 2 ]; then
  echo "usage: $0 COMPANION.html FOLDER_WITH_NODE_MODULES" >&2
  exit 64
fi
page=$(realpath "$1")
modules=$(realpath "$2")/node_modules
for needed in chromium node; do
  command -v "$needed" >/dev/null || { echo "$needed is not installed" >&2; exit 3; }
done
for needed in axe-core/axe.min.js puppeteer-core/package.json; do
  [ -e "$modules/$needed" ] || { echo "$modules has no $needed" >&2; exit 3; }
done

NODE_PATH=$modules PAGE=$page AXE=$modules/axe-core/axe.min.js node - <<'SCRIPT'
const puppeteer = require("puppeteer-core");
const fs = require("fs");
const sizes = { telephone: { width: 390, height: 844 }, desk: { width: 1280, height: 900 } };
(async function () {
  const browser = await puppeteer.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
  let faults = 0;
  const fault = function (text) { faults += 1; console.log(text); };
  for (const [name, size] of Object.entries(sizes)) {
    for (const state of ["list", "panel"]) {
      // First as it stands, under its own policy, which refuses what it does not know: that is an error of the page.
      for (const bypass of [false, true]) {
        const page = await browser.newPage();
        page.on("pageerror", function (error) { fault(name + " " + state + ": " + error.message); });
        page.on("console", function (message) { if (message.type() === "error") fault(name + " " + state + ": " + message.text()); });
        await page.setBypassCSP(bypass);
        await page.setViewport(size);
        await page.goto("file://" + process.env.PAGE);
        if (state === "panel") {
          await page.focus("#search");
          await page.keyboard.press("Enter");
          await page.waitForSelector("#panel-heading");
        }
        if (bypass) {
          await page.evaluate(fs.readFileSync(process.env.AXE, "utf8"));
          const result = await page.evaluate(function () { return axe.run(document); });
          for (const found of result.violations) {
            fault(name + " " + state + ": " + found.id + ": " + found.help);
            for (const node of found.nodes.slice(0, 5)) console.log("  " + node.html.slice(0, 200));
          }
          console.log(name + " " + state + ": " + result.passes.length + " rules kept, " + result.violations.length + " broken");
        }
        await page.close();
      }
    }
  }
  await browser.close();
  process.exit(faults === 0 ? 0 : 1);
}());
SCRIPT
