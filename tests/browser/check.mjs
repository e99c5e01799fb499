// SPDX-License-Identifier: MIT
// The report as a browser shows it. Arguments: folder with the pages. Each check says what it found; any failure ends
// with exit code 1.
import { HtmlValidate } from 'html-validate';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { check, checks, failures, launch } from './common.mjs';

const folder = process.argv[2];
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const widths = [360, 390, 800, 1400];
let smallest = Infinity;

// Rules that ask for another style of writing, not for other meaning: void elements and attributes as in XML, scroll boxes that are
// regions without being sections of the page, bold names in tiles.
const validator = new HtmlValidate({
  extends: ['html-validate:recommended'],
  rules: { 'void-style': 'off', 'prefer-native-element': 'off', 'no-trailing-whitespace': 'off', 'long-title': 'off',
    'no-inline-style': 'off', 'attribute-boolean-style': 'off' },
});

// True where every point of the element shows the element itself, what it holds, or what holds it.
function liesFree(selector) {
  const e = document.querySelector(selector);
  e.scrollIntoView({ block: 'center' });
  const r = e.getBoundingClientRect();
  for (let y = r.top + 1; y < r.bottom; y += 6)
    for (let x = r.left + 1; x < r.right; x += 12) {
      const top = document.elementFromPoint(x, y);
      if (top && !e.contains(top) && !top.contains(e)) return false;
    }
  return true;
}

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

async function layout(page, seen, name, width, colorScheme, enlarged = '') {
  const about = `${name} at ${width}, ${colorScheme}${enlarged && ', text ' + enlarged}`;
  await page.setViewportSize({ width, height: 800 });
  await page.emulateMedia({ colorScheme });
  await page.evaluate((size) => {
    document.documentElement.style.fontSize = size;
    document.querySelectorAll('details').forEach((d) => { d.open = true; });
  }, enlarged);
  const found = await page.evaluate(() => {
    const drawings = Array.from(document.querySelectorAll('figure svg, .sheets>svg'));
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
    // Boxes of letters reach a little above and below what is inked.
    const meet = (a, b) => a.right > b.left + 1 && b.right > a.left + 1 && a.bottom > b.top + 3 && b.bottom > a.top + 3;
    const overlaps = [];
    for (const svg of document.querySelectorAll('svg[role=img]')) {
      const boxes = Array.from(svg.querySelectorAll('text')).map((t) => [t.getBoundingClientRect(), t.textContent]);
      boxes.forEach(([a, one], i) => boxes.slice(0, i).forEach(([b, other]) => {
        if (meet(a, b)) overlaps.push(`${title(svg)}: '${one}' and '${other}'`);
      }));
    }
    return {
      overlaps,
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
  check(found.letters >= 10.9, `${about}: letters of 11 px at least, but ${found.letters.toFixed(1)}`);
  check(found.overlaps.length === 0, `${about}: no words on words, but ${found.overlaps.slice(0, 3).join('; ')}`);
  smallest = Math.min(smallest, found.letters);
  check(found.cut.length === 0, `${about}: all words are whole, but not ${found.cut.slice(0, 4).join(', ')}`);
}

// Words in drawings whose contrast with what lies under them is less than 4.5 (WCAG 2.1, 1.4.3): the page's ground, and
// rectangles drawn before them, as far as they cover it.
function faintWords() {
  const parse = (c) => (c.match(/[\d.]+/g) || [0, 0, 0]).map(Number);
  const linear = (v) => (v <= 0.04045 * 255 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4);
  const light = ([r, g, b]) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
  const blend = (under, over, share) => under.map((u, i) => u + (over[i] - u) * share);
  const paper = parse(getComputedStyle(document.body).backgroundColor).slice(0, 3);
  const found = [];
  for (const svg of document.querySelectorAll('svg[role=img]')) {
    const rects = Array.from(svg.querySelectorAll('rect')).filter((r) => getComputedStyle(r).fill !== 'none')
      .map((r) => [r, r.getBoundingClientRect(), getComputedStyle(r)]);
    for (const t of svg.querySelectorAll('text, tspan')) {
      if (t.querySelector('tspan') && !t.firstChild.nodeValue) continue;
      const box = t.getBoundingClientRect(), x = (box.left + box.right) / 2, y = (box.top + box.bottom) / 2;
      let ground = paper;
      for (const [r, b, style] of rects)
        if (r.compareDocumentPosition(t) & 4 && x > b.left && x < b.right && y > b.top && y < b.bottom)
          ground = blend(ground, parse(style.fill), Number(style.fillOpacity));
      const a = light(parse(getComputedStyle(t).fill)), g = light(ground);
      const ratio = (Math.max(a, g) + 0.05) / (Math.min(a, g) + 0.05);
      if (ratio < 4.5) found.push(`'${t.textContent}' at ${ratio.toFixed(1)}`);
    }
  }
  return found;
}

async function accessible(page, session, name, colorScheme) {
  await page.setViewportSize({ width: 1280, height: 900 });
  await page.emulateMedia({ colorScheme });
  // The page's own policy forbids foreign scripts; the checker comes in through the debugger.
  await session.send('Runtime.evaluate', { expression: axe });
  await page.evaluate(() => document.querySelectorAll('details').forEach((d) => { d.open = true; }));
  // What stays in sight lies over whatever is below it just now.
  await page.evaluate(() => { for (const n of document.querySelectorAll('nav')) n.style.position = 'static'; });
  const result = await page.evaluate(() => window.axe.run(document));
  for (const v of result.violations)
    console.log(`  ${name}: ${v.id}: ${v.help}: ` + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 120)).join(' || '));
  check(result.violations.length === 0, `${name}, ${colorScheme}: axe finds no violation`);
  // Of words in drawings the checker cannot tell the ground; they are measured below.
  const unsaid = result.incomplete.filter((v) => v.id === 'color-contrast').flatMap((v) => v.nodes)
    .filter((n) => !/^<(text|tspan)/.test(n.html));
  // It counts what a drawing cuts off at its edge as lying over its neighbours. Whether anything does, the browser knows.
  const unsure = [];
  for (const n of unsaid)
    if (!(await page.evaluate(liesFree, n.target[0]))) unsure.push(n);
  for (const n of unsure.slice(0, 3))
    console.log(`  ${name}: contrast unsure: ${n.html.slice(0, 140)} ${n.any[0] && n.any[0].message}`);
  check(unsure.length === 0, `${name}, ${colorScheme}: axe is sure of every contrast`);
  const faint = await page.evaluate(faintWords);
  check(faint.length === 0, `${name}, ${colorScheme}: words in drawings at 4.5:1, but ${faint.slice(0, 3).join('; ')}`);
}

async function look(browser, name) {
  const { context, page, seen } = await open(browser, name, { viewport: { width: 1280, height: 900 } });
  for (const width of widths)
    await layout(page, seen, name, width, 'light');
  await layout(page, seen, name, 360, 'dark');
  await layout(page, seen, name, 800, 'light', '200%');
  await layout(page, seen, name, 390, 'light', '200%');
  await layout(page, seen, name, 1400, 'light');
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
  const chart = page.locator('figure.card:has(polyline) svg').first();
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

// One page on either paper.
async function sheet(browser, name) {
  const { context, page, seen } = await open(browser, name, { viewport: { width: 800, height: 1000 } });
  for (const format of ['A4', 'Letter']) {
    const pdf = join(folder, `${name}.${format}.pdf`);
    await page.pdf({ path: pdf, format });
    const pages = Number(/Pages:\s+(\d+)/.exec(execFileSync('pdfinfo', [pdf], { encoding: 'utf8' }))[1]);
    check(pages === 1, `${name}: one page of ${format}, but ${pages}`);
    const text = execFileSync('pdftotext', [pdf, '-'], { encoding: 'utf8' });
    for (const word of ['What to do and when', 'Cautions', 'allowed'])
      check(text.includes(word), `${name}: '${word}' on ${format}`);
  }
  await page.emulateMedia({ media: 'print' });
  check(await page.evaluate(() => {
    const parts = Array.from(document.querySelectorAll('.sheet .pictures>div>svg')).concat(document.querySelector('.warn')).map((e) => e.getBoundingClientRect());
    return parts.every((part, i) => i === 0 || parts[i - 1].bottom <= part.top + 1);
  }), `${name}: the parts of the drawing stand below each other, above the cautions`);
  check(seen.errors.length === 0, `${name}: no console message, but ${seen.errors.join(' | ')}`);
  await context.close();
}

// A finger's readout stays until the next tap, and arrow keys read a chart out.
async function readouts(browser, name) {
  const { context, page } = await open(browser, name, { viewport: { width: 390, height: 800 }, hasTouch: true });
  const figure = page.locator('figure.card:has(polyline)').first();
  await figure.scrollIntoViewIfNeeded();
  const box = await figure.locator('svg').boundingBox();
  await page.touchscreen.tap(box.x + box.width * 0.4, box.y + box.height * 0.5);
  check(await page.locator('.read:not([hidden])').count() > 0, `${name}: a tap reads values out`);
  await page.waitForTimeout(300);
  check(await page.locator('.read:not([hidden])').count() > 0, `${name}: they stay`);
  await page.touchscreen.tap(4, 400);
  check(await page.locator('.read:not([hidden])').count() === 0, `${name}: the next tap takes them away`);
  await figure.focus();
  for (let i = 0; i < 10; i++)
    await page.keyboard.press('ArrowRight');
  check(/\d/.test(await page.locator('.live').innerText()), `${name}: arrow keys read values out`);
  await context.close();
}

// Every value that the plant file gives stands in the text of the page, in the unit it was measured in.
async function entered(browser, name) {
  const plant = [`networks/${name.replace('.html', '.xml')}`, join(folder, '..', name.replace('.html', '.xml'))].find(existsSync);
  if (!plant)
    return;
  const { context, page } = await open(browser, name, { javaScriptEnabled: false, viewport: { width: 1280, height: 900 } });
  const text = (await page.locator('#entered table').first().evaluate((e) => Array.from(e.querySelectorAll('td'), (c) => c.textContent).join('\n'))).replaceAll('\u00b0', 'deg');
  const xml = readFileSync(plant, 'utf8').replace(/<!--[^]*?-->/g, '');
  const missing = [];
  for (const [, attribute, value] of xml.matchAll(/([\w-]+)="([^"]*)"/g)) {
    const measured = /^(-?[\d.]+)(?: (\d+)\/(\d+)|\/(\d+))? ?([A-Za-z%][\w/%.]*)?$/.exec(value);
    if (!measured || ['version', 'id', 'title', 'xmlns'].includes(attribute))
      continue;
    const [, whole, over, under, only, unit] = measured;
    const number = only ? whole / only : Number(whole) + (over ? over / under : 0);
    // The same size in another unit of its kind is as good: 1 m3 and 1000 L, 100 mm and 0.1 m.
    const same = Array.from(text.matchAll(new RegExp(`${attribute} (-?[\\d.]+(?:e[+-]?\\d+)?)\\s?([^\\s,)]*)`, 'g')));
    const scale = { m: 1, mm: 1e-3, cm: 1e-2, in: 0.0254, ft: 0.3048, bar: 1e5, mbar: 100, kPa: 1e3, psi: 6894.757, hPa: 100, atm: 101325,
      kW: 1e3, W: 1, boiler_hp: 9809.5, m2: 1, cm2: 1e-4, ft2: 0.09290304, m3: 1, L: 1e-3, gal: 3.785412e-3, kg: 1, g: 1e-3, lb: 0.45359237,
      h: 3600, min: 60, s: 1, d: 86400, '%': 0.01, '': 1, J: 1, kJ: 1e3, MJ: 1e6, 'J/kg/K': 1, 'kJ/kg/K': 1e3 };
    const si = (v, u) => v * (scale[u] ?? 1);
    const alike = (a, b) => Math.abs(a - b) <= 2e-3 * Math.max(Math.abs(a), Math.abs(b), 1e-9);
    if (!same.some(([, v, u]) => alike(Number(v), number) || alike(si(Number(v), u), si(number, unit ?? ''))))
      missing.push(`${attribute}="${value}"`);
  }
  check(missing.length === 0, `${name}: every value of the file on the page, but not ${missing.slice(0, 6).join(' ')}`);
  const due = await page.locator('.due').count();
  check(/within="/.test(xml) && name !== 'far-bench-moment.html' ? due > 0 : true, `${name}: the time allowed is drawn`);
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
      .filter((e) => e.getBoundingClientRect().right > window.innerWidth + 1)
      .map((e) => e.textContent.slice(0, 30)),
    tall: Array.from(document.querySelectorAll('figure, .sheets>svg'))
      .filter((e) => e.getBoundingClientRect().height > 1000).length,
  }));
  const light = state.ground.match(/\d+/g).map(Number).every((c) => c > 200);
  check(light, `${name}: prints on light ground, but ${state.ground}`);
  check(state.wide <= 0 && state.cut.length === 0, `${name}: fits the paper, but not ${state.cut.join('; ')}`);
  check(state.tall === 0, `${name}: each drawing fits a page, but ${state.tall} do not`);
  await context.close();
}

const browser = await launch();
for (const name of readdirSync(folder).filter((f) => f.endsWith('.html') && !f.includes('sheet')).sort()) {
  const before = failures;
  for (const part of [(b, n) => validate(n), look, scriptless, keyboard, hover, readouts, entered, print])
    await part(browser, name).catch((e) => check(false, `${name}: ${e.message.split('\n')[0]}`));
  console.log(`${failures === before ? 'ok  ' : 'FAIL'} ${name}`);
}
for (const name of readdirSync(folder).filter((f) => f.endsWith('sheet.html')).sort())
  await sheet(browser, name).catch((e) => check(false, `${name}: ${e.message.split('\n')[0]}`));
console.log(`smallest letters of any drawing at any width: ${smallest.toFixed(1)} px`);
// A drawing by itself opens in a browser, too.
for (const name of readdirSync(folder).filter((f) => f.endsWith('.svg')).sort()) {
  const { context, page, seen } = await open(browser, name, { viewport: { width: 1280, height: 900 } });
  const box = await page.evaluate(() => { const b = document.documentElement.getBoundingClientRect(); return [b.width, b.height]; });
  check(seen.errors.length === 0 && seen.others.length === 0 && box[0] > 100 && box[1] > 60, `${name}: opens by itself`);
  const overlaps = await page.evaluate(() => {
    const boxes = Array.from(document.querySelectorAll('text')).map((t) => [t.getBoundingClientRect(), t.textContent]);
    const meet = (a, b) => a.right > b.left + 1 && b.right > a.left + 1 && a.bottom > b.top + 3 && b.bottom > a.top + 3;
    return boxes.flatMap(([a, one], i) => boxes.slice(0, i).filter(([b]) => meet(a, b)).map(([, other]) => `${one} and ${other}`));
  });
  check(overlaps.length === 0, `${name}: no words on words, but ${overlaps.slice(0, 3).join('; ')}`);
  await context.close();
}
await browser.close();
// Counted as cmocka's tests are.
console.log(`[  PASSED  ] ${checks - failures} test(s).`);
if (failures)
  console.log(`[  FAILED  ] ${failures} test(s)`);
process.exit(failures ? 1 : 0);
