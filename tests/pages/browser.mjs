// A browser that reaches nothing: the page is handed to it, and whatever else it asks for is refused and counted.
import fs from 'node:fs';
import { chromium } from 'playwright-core';

const origin = 'http://sheet.invalid/';

export const schemes = ['light', 'dark'];
export const sizes = { phone: { width: 360, height: 740 }, desktop: { width: 1280, height: 800 } };

export function launch(executablePath) {
  return chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  });
}

/** Opens a page, and `afresh` opens it again; `said` collects what must not be: requests, complaints of the console, errors, dialogs. */
export async function open(browser, file) {
  const context = await browser.newContext();
  const page = await context.newPage();
  const said = [];
  await context.route('**/*', route => {
    if (route.request().url() === origin) return route.fulfill({ contentType: 'text/html; charset=utf-8', body: fs.readFileSync(file) });
    said.push(`asks for ${route.request().url()}`);
    return route.abort();
  });
  page.on('console', message => said.push(`console: ${message.text()}`));
  page.on('pageerror', error => said.push(`error: ${error.message}`));
  page.on('dialog', dialog => { said.push(`dialog: ${dialog.message()}`); dialog.dismiss(); });
  const afresh = async () => {
    // Not a reload, which would begin where the last link led to.
    await page.goto('about:blank');
    await page.goto(origin);
  };
  await afresh();
  return { page, said, afresh, close: () => context.close() };
}
