// SPDX-License-Identifier: MIT
// The report as a browser shows it. Arguments: folder with the pages. Each check says what it found; any failure ends
// with exit code 1.
import { chromium } from 'playwright-core';
import { HtmlValidate } from 'html-validate';
import { readFileSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const folder = process.argv[2];
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const widths = [360, 768, 1280, 1600];
let failures = 0, checks = 0;

function check(good, what) {
  checks++;
  if (!good) {
    failures++;
    console.log('FAIL ' + what);
  }
}

const launch = {
  executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync'],
};

// Rules that ask for another style of writing, not for other meaning: void elements as in XML, scroll boxes that are
// regions without being sections of the page, bold names in tiles.
const validator = new HtmlValidate({
  extends: ['html-validate:recommended'],
  rules: { 'void-style': 'off', 'prefer-native-element': 'off', 'no-trailing-whitespace': 'off', 'long-title': 'off',
    'no-inline-style': 'off' },
});

async function validate(name) {
  const report = await validator.validateFile(join(folder, name));
  for (const result of report.results)
    for (const message of result.messages)
      console.log(`  ${name}:${message.line}: ${message.message} (${message.ruleId})`);
  check(report.valid, `${name}: valid HTML`);
}

// A page that reports whatever goes wrong, and every request.
async function open(browser, name, options) {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  const seen = { errors: [], requests: [] };
  page.on('console', (m) => seen.errors.push(m.type() + ': ' + m.text()));
  page.on('pageerror', (e) => seen.errors.push(e.message));
  page.on('request', (r) => seen.requests.push(r.url()));
  const url = pathToFileURL(join(folder, name)).href;
  await page.goto(url, { waitUntil: 'load' });
  Object.defineProperty(seen, 'others', { get: () => seen.requests.filter((u) => u !== url && !u.startsWith('data:')) });
  return { context, page, seen };
}

async function layout(page, seen, name, width, colorScheme) {
  const about = `${name} at ${width}, ${colorScheme}`;
  await page.setViewportSize({ width, height: 800 });
  await page.emulateMedia({ colorScheme });
  const found = await page.evaluate(() => {
    const drawings = Array.from(document.querySelectorAll('figure svg, .sheets svg'));
    const words = Array.from(document.querySelectorAll('svg[role=img] text'));
    const title = (s) => s.querySelector('title').textContent;
    const letter = (t) => {
      const svg = t.ownerSVGElement;
      return parseFloat(getComputedStyle(t).fontSize) * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
    };
    const isCut = (t) => {
      const box = t.getBoundingClientRect(), svg = t.ownerSVGElement.getBoundingClientRect();
      return box.left < svg.left - 1 || box.right > svg.right + 1 || box.top < svg.top - 1 || box.bottom > svg.bottom + 1;
    };
    return {
      wide: document.documentElement.scrollWidth - window.innerWidth,
      hidden: drawings.filter((s) => { const b = s.getBoundingClientRect(); return b.width < 100 || b.height < 60; }).map(title),
      letters: Math.min(...words.map(letter)),
      cut: words.filter(isCut).map((t) => t.textContent),
    };
  });
  check(seen.errors.length === 0, `${about}: no console message, but ${seen.errors.join(' | ')}`);
  check(seen.others.length === 0, `${about}: no other request, but ${seen.others.join(' ')}`);
  check(found.wide <= 0, `${about}: no horizontal scroll, but ${found.wide} px too wide`);
  check(found.hidden.length === 0, `${about}: all drawings are seen, but not ${found.hidden.join(', ')}`);
  check(found.letters >= 7.5, `${about}: letters of 7.5 px at least, but ${found.letters.toFixed(1)}`);
  check(found.cut.length === 0, `${about}: all words are whole, but not ${found.cut.slice(0, 4).join(', ')}`);
}

async function accessible(page, session, name, colorScheme) {
  await page.setViewportSize({ width: 1280, height: 900 });
  await page.emulateMedia({ colorScheme });
  // The page's own policy forbids foreign scripts; the checker comes in through the debugger.
  await session.send('Runtime.evaluate', { expression: axe });
  const result = await page.evaluate(() => window.axe.run(document, { resultTypes: ['violations'] }));
  for (const v of result.violations)
    console.log(`  ${name}: ${v.id}: ${v.help}: ` + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 120)).join(' || '));
  check(result.violations.length === 0, `${name}, ${colorScheme}: axe finds no violation`);
}

async function look(browser, name) {
  const { context, page, seen } = await open(browser, name, { viewport: { width: 1280, height: 900 } });
  for (const width of widths)
    await layout(page, seen, name, width, 'light');
  await layout(page, seen, name, 360, 'dark');
  const session = await context.newCDPSession(page);
  await accessible(page, session, name, 'light');
  await accessible(page, session, name, 'dark');
  await context.close();
}

// What the page says must stand there without its script, too.
async function scriptless(browser, name) {
  const plain = await open(browser, name, { javaScriptEnabled: false, viewport: { width: 1280, height: 900 } });
  const scripted = await open(browser, name, { viewport: { width: 1280, height: 900 } });
  const text = (page) => page.locator('main').innerText();
  const without = await text(plain.page);
  const withScript = (await text(scripted.page)).replace(/Follow one vessel[^]*?\n\n/, '\n\n');
  check(without.length > 1000, `${name}: complete without script`);
  for (const word of ['Cautions', 'What is assumed', 'Worth a second look', 'Where this comes from'])
    check(without.includes(word), `${name}: '${word}' without script`);
  check(withScript.length >= without.length, `${name}: the script takes nothing away`);
  await plain.context.close();
  await scripted.context.close();
}

async function keyboard(browser, name) {
  const { context, page } = await open(browser, name, { viewport: { width: 1280, height: 900 } });
  const order = [];
  for (let i = 0; i < 14; i++) {
    await page.keyboard.press('Tab');
    order.push(await page.evaluate(() => {
      const e = document.activeElement;
      const b = e.getBoundingClientRect();
      return { name: e.tagName + ' ' + (e.getAttribute('href') || e.getAttribute('aria-label') || e.id),
        y: b.top + window.scrollY, seen: b.width > 0 && b.height > 0 };
    }));
  }
  check(order[0].name.includes('#answer'), `${name}: the first stop leads to the answer, but ${order[0].name}`);
  check(order.every((o) => o.seen), `${name}: each stop is seen: ${order.filter((o) => !o.seen).map((o) => o.name)}`);
  const down = order.slice(1).every((o, i, a) => i === 0 || o.y >= a[i - 1].y - 40);
  check(down, `${name}: stops run down the page: ${order.map((o) => o.name).join(', ')}`);
  await context.close();
}

async function hover(browser, name) {
  const { context, page, seen } = await open(browser, name, { viewport: { width: 1280, height: 900 } });
  const chart = page.locator('figure.card svg').first();
  await chart.scrollIntoViewIfNeeded();
  const box = await chart.boundingBox();
  await page.mouse.move(box.x + box.width * 0.5, box.y + box.height * 0.5);
  const read = await page.locator('.read:not([hidden])').innerText();
  check(/\d/.test(read), `${name}: values under the pointer, but '${read}'`);
  const select = page.locator('#follow');
  if (await select.count()) {
    await select.selectOption({ index: 1 });
    check(await page.locator('.followed').count() > 0, `${name}: a vessel can be followed`);
  }
  check(seen.errors.length === 0, `${name}: no error while reading values: ${seen.errors.join(' | ')}`);
  await context.close();
}

async function print(browser, name) {
  const { context, page } = await open(browser, name, { viewport: { width: 1280, height: 900 }, colorScheme: 'dark' });
  const pdf = join(folder, name.replace('.html', '.pdf'));
  await page.pdf({ path: pdf, format: 'A4', preferCSSPageSize: true });
  const pages = Number(/Pages:\s+(\d+)/.exec(execFileSync('pdfinfo', [pdf], { encoding: 'utf8' }))[1]);
  let empty = 0;
  for (let p = 1; p <= pages; p++) {
    const text = execFileSync('pdftotext', ['-f', String(p), '-l', String(p), pdf, '-'], { encoding: 'utf8' });
    empty += text.trim().length < 20;
  }
  check(pages >= 2 && empty === 0, `${name}: prints whole pages, but ${empty} of ${pages} are empty`);
  // Printed on paper, whatever the screen's scheme: light ground, and nothing wider than the paper.
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: 703, height: 1000 }); // A4 less its margins, at 96 px an inch
  const state = await page.evaluate(() => ({
    ground: getComputedStyle(document.body).backgroundColor,
    wide: document.documentElement.scrollWidth - window.innerWidth,
    cut: Array.from(document.querySelectorAll('.scroll table, .sheets svg, figure svg'))
      .filter((e) => e.getBoundingClientRect().right > window.innerWidth + 1).length,
    tall: Array.from(document.querySelectorAll('figure, .sheets>svg'))
      .filter((e) => e.getBoundingClientRect().height > 1000).length,
  }));
  const light = state.ground.match(/\d+/g).map(Number).every((c) => c > 200);
  check(light, `${name}: prints on light ground, but ${state.ground}`);
  check(state.wide <= 0 && state.cut === 0, `${name}: fits the paper, but ${state.cut} parts stick out`);
  check(state.tall === 0, `${name}: each drawing fits a page, but ${state.tall} do not`);
  await context.close();
}

const browser = await chromium.launch(launch);
for (const name of readdirSync(folder).filter((f) => f.endsWith('.html')).sort()) {
  const before = failures;
  for (const part of [(b, n) => validate(n), look, scriptless, keyboard, hover, print])
    await part(browser, name).catch((e) => check(false, `${name}: ${e.message.split('\n')[0]}`));
  console.log(`${failures === before ? 'ok  ' : 'FAIL'} ${name}`);
}
// A drawing by itself opens in a browser, too.
for (const name of readdirSync(folder).filter((f) => f.endsWith('.svg')).sort()) {
  const { context, page, seen } = await open(browser, name, { viewport: { width: 1280, height: 900 } });
  const box = await page.evaluate(() => { const b = document.documentElement.getBoundingClientRect(); return [b.width, b.height]; });
  check(seen.errors.length === 0 && seen.others.length === 0 && box[0] > 100 && box[1] > 60, `${name}: opens by itself`);
  await context.close();
}
await browser.close();
// Counted as cmocka's tests are.
console.log(`[  PASSED  ] ${checks - failures} test(s).`);
if (failures)
  console.log(`[  FAILED  ] ${failures} test(s)`);
process.exit(failures ? 1 : 0);
