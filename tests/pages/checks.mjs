// What every page must keep to. Each check returns what is wrong, one line each; nothing when all is well.
import { execFileSync } from 'node:child_process';
import { createRequire } from 'node:module';
import fs from 'node:fs';
import os from 'node:os';

const require = createRequire(import.meta.url);
const axe = fs.readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');

const mostBytes = 500_000;
const mostPages = 14;
const marginPt = 28; // a printer's own margin and more, 10 mm

export function size(file) {
  const bytes = fs.statSync(file).size;
  return bytes < mostBytes ? [] : [`${bytes} bytes`];
}

/** Nothing of this machine: no folder, no user, no host. */
export function noPlaces(file, folder) {
  const html = fs.readFileSync(file, 'utf8');
  return [folder, os.homedir() + '/', os.tmpdir() + '/', '/usr/', '/home/'].filter(place => html.includes(place)).map(place => `names ${place}`);
}

export async function accessible(page) {
  // Through the debugger, which the page's own policy does not bind.
  if (!await page.evaluate(() => 'axe' in globalThis)) await page.evaluate(axe);
  // A drawing is one picture to those who hear it; its strokes are not gone through.
  const { violations } = await page.evaluate(() => globalThis.axe.run({ exclude: ['svg > *'] }, { resultTypes: ['violations'] }));
  return violations.map(one => `${one.id}: ${one.help}: ${one.nodes.slice(0, 3).map(node => node.target.join(' ')).join(', ')}`);
}

/** Nothing sticks out sideways, but in boxes that scroll by themselves. */
export function withinWidth(page) {
  return page.evaluate(() => {
    const wide = document.documentElement.scrollWidth - innerWidth;
    const out = [...document.querySelectorAll(':is(main, header, footer) *:not(:is(.table, .drawing) *, .heard)')]
      .filter(element => element.getBoundingClientRect().right > innerWidth + 1);
    return [...(wide > 0 ? [`the page is ${wide} px too wide`] : []), ...out.slice(0, 3).map(element => `${element.localName} "${element.textContent.slice(0, 30)}" sticks out`)];
  });
}

/** The first screen holds the outcome, whole. */
export function answerFirst(page) {
  return page.evaluate(() => {
    const box = document.querySelector('.outcome').getBoundingClientRect();
    return box.height > 0 && box.bottom <= innerHeight ? [] : [`the outcome ends at ${Math.round(box.bottom)} px`];
  });
}

/** Tab reaches every link and every box that scrolls, each seen to be reached; the first leads past the head. */
export async function keyboard(page, afresh) {
  const wrong = [];
  await afresh();
  const wanted = await page.evaluate(() => {
    const all = [...document.querySelectorAll('a[href], [tabindex="0"]')];
    all.forEach((element, i) => { element.dataset.stop = i; });
    return all.length;
  });
  const reached = new Set();
  for (let i = 0; i < wanted; i++) {
    await page.keyboard.press('Tab');
    const stop = await page.evaluate(() => {
      const element = document.activeElement;
      const style = getComputedStyle(element);
      const box = element.getBoundingClientRect();
      return { id: element.dataset.stop, seen: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2 && box.width > 0 && box.right > 0 && box.bottom > 0 && box.top < innerHeight };
    });
    if (stop.id === undefined) break;
    if (!stop.seen) wrong.push(`stop ${stop.id} is not seen to have the focus`);
    reached.add(stop.id);
  }
  if (reached.size !== wanted) wrong.push(`${reached.size} of ${wanted} stops are reached`);
  await page.evaluate(() => document.querySelector('.skip').focus());
  await page.keyboard.press('Enter');
  if (await page.evaluate(() => document.activeElement.id) !== 'answer') wrong.push('the skip link does not lead to the answer');
  return wrong;
}

/** In the dark the ground is dark, and figures, which are drawn on white, keep a white card. */
export function dark(page) {
  return page.evaluate(() => {
    const sum = element => getComputedStyle(element).backgroundColor.match(/\d+/g).slice(0, 3).reduce((a, b) => a + Number(b), 0);
    const wrong = sum(document.documentElement) < 200 ? [] : ['the ground is not dark'];
    return [...wrong, ...[...document.querySelectorAll('.drawing')].filter(card => sum(card) !== 765).map(() => 'a figure is not on white')];
  });
}

/** What was meant as text is text: no script, no picture from outside, no style in an attribute. */
export function unharmed(page) {
  return page.evaluate(() => {
    const wrong = [...document.querySelectorAll('script, img, iframe, object, embed, form, base')].map(element => `<${element.localName}> has come in`);
    if (!document.body.innerText.includes('onerror=alert(1)')) wrong.push('the hostile name is not shown');
    if (/[\u202A-\u202E\u2066-\u2069]/.test(document.documentElement.outerHTML)) wrong.push('the direction of writing is turned');
    return wrong;
  });
}

/** On paper: not too many pages, nothing in the margin, every word of the page there. */
export async function paper(page, format, file) {
  await page.pdf({ path: file, format, preferCSSPageSize: false });
  const wrong = [];
  const info = execFileSync('pdfinfo', [file], { encoding: 'utf8' });
  const pages = Number(/^Pages:\s+(\d+)/m.exec(info)[1]);
  if (pages > mostPages) wrong.push(`${pages} pages`);

  const boxes = execFileSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8', maxBuffer: 64e6 });
  const printed = new Set();
  let width = 0;
  for (const line of boxes.split('\n')) {
    const sheet = /<page width="([\d.]+)"/.exec(line);
    if (sheet) width = Number(sheet[1]);
    const word = /<word xMin="([\d.-]+)" yMin="[\d.-]+" xMax="([\d.-]+)" yMax="[\d.-]+">(.*)<\/word>/.exec(line);
    if (!word) continue;
    if (Number(word[1]) < marginPt || Number(word[2]) > width - marginPt) wrong.push(`"${word[3]}" is in the margin`);
    printed.add(word[3].replace(/&lt;/g, '<').replace(/&gt;/g, '>').replace(/&quot;/g, '"').replace(/&#39;|&apos;/g, "'").replace(/&amp;/g, '&'));
  }

  // Words that may be cut at the end of a line are not looked for.
  const cells = await page.evaluate(() => [...document.querySelectorAll('h1, h2, h3, .outcome p, .watch dt, .watch dd, .steps li, .cautions li, .notices li, .pairs dt, .pairs dd, th, td, caption:not(.heard), figcaption')]
    .flatMap(element => element.textContent.split(/[\s\u00A0]+/)).filter(word => word.length > 0 && word.length < 20 && !/[-/–—]./.test(word)));
  const lost = [...new Set(cells)].filter(word => !printed.has(word));
  if (cells.length < 50) wrong.push('the page has hardly a word');
  if (lost.length > 0) wrong.push(`not on paper: ${lost.slice(0, 8).join(' ')}`);
  const first = execFileSync('pdftotext', ['-l', '1', file, '-'], { encoding: 'utf8' }).replace(/\s+/g, '');
  const verdict = (await page.evaluate(() => document.querySelector('.verdict').textContent)).replace(/[\s\u00A0]+/g, '');
  if (!first.includes(verdict)) wrong.push('the first page does not hold the verdict');
  return wrong;
}
