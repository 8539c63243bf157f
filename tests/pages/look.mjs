// Makes the pages, looks at each, and counts.
import fs from 'node:fs';
import path from 'node:path';
import { make } from './cases.mjs';
import { launch, open, schemes, sizes } from './browser.mjs';
import * as checks from './checks.mjs';

const { CHROMIUM, FLOWSIM, WORK, KEEP } = process.env;
let passed = 0;
let failed = 0;

function count(what, wrong) {
  if (wrong.length === 0) {
    passed++;
    return;
  }
  failed++;
  console.error(`${what}:\n  ${wrong.slice(0, 12).join('\n  ')}`);
}

async function look(browser, { name, file, hostile }) {
  count(`${name}, size`, checks.size(file));
  count(`${name}, places of this machine`, checks.noPlaces(file, WORK));
  const { page, said, afresh, close } = await open(browser, file);
  for (const scheme of schemes) {
    for (const [kind, viewport] of Object.entries(sizes)) {
      const at = `${name}, ${kind}, ${scheme}`;
      await page.setViewportSize(viewport);
      await page.emulateMedia({ colorScheme: scheme });
      count(`${at}, first screen`, await checks.answerFirst(page));
      count(`${at}, width`, await checks.withinWidth(page));
      if (scheme === 'dark') count(`${at}, dark`, await checks.dark(page));
      if (hostile) count(`${at}, hostile input`, await checks.unharmed(page));
      if (KEEP) {
        await page.screenshot({ path: path.join(KEEP, `${name}-${kind}-${scheme}-first.png`) });
        await page.screenshot({ path: path.join(KEEP, `${name}-${kind}-${scheme}.png`), fullPage: true });
      }
      count(`${at}, accessibility`, await checks.accessible(page));
      if (scheme === 'light') count(`${at}, keyboard`, await checks.keyboard(page, afresh));
    }
  }

  // The narrowest that reflow is asked for: 320 px, which is 1280 px at 400 %.
  await page.setViewportSize({ width: 320, height: 640 });
  count(`${name}, 320 px wide`, await checks.withinWidth(page));
  for (const format of ['A4', 'Letter']) {
    const pdf = path.join(KEEP || WORK, `${name}-${format}.pdf`);
    count(`${name}, ${format}`, await checks.paper(page, format, pdf));
  }
  count(`${name}, network, console and dialogs`, said);
  await close();
  if (KEEP) fs.copyFileSync(file, path.join(KEEP, `${name}.html`));
}

let browser;
try {
  const pages = make(WORK, FLOWSIM);
  browser = await launch(CHROMIUM);
  for (const page of pages) await look(browser, page);
} catch (trouble) {
  failed++;
  console.error(trouble.stderr ? `${trouble.message}\n${trouble.stderr}` : trouble);
} finally {
  await browser?.close();
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
