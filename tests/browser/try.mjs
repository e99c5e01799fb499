// SPDX-License-Identifier: MIT
// The page that is written in, as a browser and a grower use it. Arguments: the program, a plant file, a scratch folder.
// Ends with the time from a key to the new answer, which is told and not tested.
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { check, checks, failures, launch } from './common.mjs';

const [program, source, folder] = process.argv.slice(2);
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const plant = join(folder, 'try.xml');

function start(file, ...more) {
  const child = spawn(program, ['try', file, '--start', '06:30', ...more], { stdio: ['ignore', 'pipe', 'ignore'] });
  return new Promise((resolve) => child.stdout.once('data', (d) => resolve({ child, url: String(d).trim() })));
}

const end = (session) => new Promise((resolve) => {
  session.child.once('exit', resolve);
  session.child.kill('SIGINT');
});

async function open(browser, url, options) {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  page.setDefaultTimeout(120000);
  const seen = { errors: [], others: [] };
  page.on('console', (m) => seen.errors.push(m.text()));
  page.on('pageerror', (e) => seen.errors.push(e.message));
  page.on('request', (r) => { if (!r.url().startsWith(url) && !r.url().startsWith('data:')) seen.others.push(r.url()); });
  page.on('dialog', (d) => d.accept());
  await page.goto(url);
  return { context, page, seen };
}

const field = (page, part, attribute) => page.locator(
  `form.field:has(input[name=part][value="${part}"]):has(input[name=attribute][value="${attribute}"]) [name=value]`);
const lead = (page) => page.locator('#answer .lead').innerText();
const changed = (page, before) => page.waitForFunction((b) => document.querySelector('#answer .lead').innerText !== b, before);
const quiet = (page) => page.waitForFunction(() => !document.documentElement.classList.contains('busy'));

// By keyboard alone: from the top of the page to a hose's valve, change, answer, take back, change, save.
async function byKeyboard(browser, session) {
  const { context, page, seen } = await open(browser, session.url, { viewport: { width: 1280, height: 900 } });
  const begun = readFileSync(plant, 'utf8'), first = await lead(page);
  const valve = field(page, 'v1', 'open');
  for (let i = 0; i < 200 && !(await valve.evaluate((e) => e === document.activeElement)); i++)
    await page.keyboard.press('Tab');
  check(await valve.evaluate((e) => e === document.activeElement), 'Tab leads to the valve of a hose');
  await page.keyboard.type('40 %');
  await page.keyboard.press('Enter');
  await changed(page, first);
  check(/bench6/.test(await lead(page)) && await page.locator('#changes tbody tr').count() === 6, 'the answer follows, with what was before');
  check(await valve.evaluate((e) => e === document.activeElement), 'the focus stays');
  check(await page.locator('#changes ol li').innerText().then((t) => /40\s%/.test(t)), 'the change stands in the list');
  check(readFileSync(plant, 'utf8') === begun, 'the file is as it was');
  const figure = await page.locator('figure.card:has(polyline)').first().evaluate((f) => f.tabIndex);
  check(figure === 0, 'charts that came in can be read by keyboard');
  const second = await lead(page);
  await page.keyboard.press('Control+z');
  await changed(page, second);
  check(await lead(page) === first, 'Ctrl-Z takes it back');
  await page.keyboard.press('Control+y');
  await changed(page, first);
  await page.locator('#changes ol button').focus();
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => !document.querySelector('#changes ol'));
  check(await lead(page) === first, 'the button beside a change takes it back');
  await valve.focus();
  await page.keyboard.type('40 %');
  await changed(page, first);
  check(true, 'what is typed is sent without Enter');
  await quiet(page);
  await page.keyboard.press('Control+s');
  await page.waitForFunction(() => document.querySelector('#bar').innerText.includes('Saved'));
  check(readFileSync(plant, 'utf8') === begun.replace('<valve id="v1" type="ball-valve"/>', '<valve id="v1" type="ball-valve" open="40 %"/>')
    .replace(/(<hose id="s[2-6]" like="s1"[^/]*)\/>/g, '$1>\n    <valve type="ball-valve"/>\n    <barb bore="16 mm" count="2"/>\n  </hose>'),
    'saved, the file has one attribute more, the other hoses the valves that they had from it, and no other byte changed');
  await page.keyboard.press('Control+z');
  await page.waitForFunction(() => !document.querySelector('#changes ol'));
  await page.keyboard.press('Control+s');
  await page.waitForFunction(() => document.querySelector('#bar').innerText.includes('Saved'));
  check(readFileSync(plant, 'utf8') === begun, 'taken back and saved, it is what it was, byte for byte');
  check(seen.errors.length === 0, `no console message, but ${seen.errors.slice(0, 3).join(' | ')}`);
  check(seen.others.length === 0, `no other request, but ${seen.others.join(' ')}`);
  await context.close();
}

// What was before stays pale until the next change; what each change does alone comes by itself.
async function beforeAndAlone(browser, session) {
  const { context, page, seen } = await open(browser, session.url, { viewport: { width: 1280, height: 900 } });
  const alone = () => page.locator('#changes .alone').count();
  const count = await page.locator('#changes ol li').count(), first = await lead(page);
  await field(page, 'v1', 'open').fill('25 %');
  await page.keyboard.press('Enter');
  await changed(page, first);
  check(/The last change: last core .* (earlier|later)/.test(await page.locator('#answer .difference').innerText()), 'what the change did is said');
  const pale = await page.locator('#charts .ghost polyline').count();
  check(pale >= 7 && await page.locator('#plant .ghost').count() > 0, 'what was before stands pale in charts and drawing');
  check(await page.locator('#when g.row .ghost').count() === 6, 'and under each bar of the time line');
  const second = await lead(page);
  await page.locator('#write summary:has-text("hose s6")').click();
  await field(page, 's6', 'bore').fill('25 mm');
  await page.keyboard.press('Enter');
  await changed(page, second);
  await page.waitForFunction((n) => document.querySelectorAll('#changes .alone').length === n, count + 2);
  check(await alone() === count + 2 && await page.locator('form.effects').count() === 0, 'what each change does alone comes by itself');
  check(await field(page, 's6', 'bore').evaluate((e) => e === document.activeElement), 'and takes no focus');
  await page.screenshot({ path: join(folder, 'try-ghost.png'), fullPage: true });
  for (const i of [1, 0])
    await page.locator(`#changes ol li:nth-child(${count + i + 1}) button`).click(), await quiet(page);
  check(await lead(page) === first, 'both are taken back');
  check(seen.errors.length === 0, `no console message, but ${seen.errors.slice(0, 3).join(' | ')}`);
  await context.close();
}

// An answer that comes while a button is held down does not take it away from under the finger.
async function pressed(browser, session) {
  const { context, page } = await open(browser, session.url, { viewport: { width: 1280, height: 900 } });
  const first = await lead(page), fire = field(page, 'boiler', 'fire'), undo = page.locator('#bar button:has-text("Undo")');
  const undone = () => page.waitForFunction((b) => document.querySelector('#answer .lead').innerText === b, first, { timeout: 20000 }).then(() => true, () => false);
  await fire.fill('71 %');
  await page.keyboard.press('Enter');
  await changed(page, first);
  await quiet(page);
  await page.route('**/do', async (route) => {
    const response = await route.fetch();
    await new Promise((done) => setTimeout(done, 400));
    await route.fulfill({ response });
  });
  for (const hold of ['mouse', 'Space']) {
    const before = await lead(page), name = `a press of the ${hold} on Undo, during which an answer comes, takes back`;
    const [answer] = await Promise.all([page.waitForResponse((r) => r.request().method() === 'POST'), (async () => {
      await fire.fill(hold === 'mouse' ? '72 %' : '74 %');
      const box = await undo.boundingBox();
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      await page.keyboard.press('Enter');
      if (hold === 'mouse')
        return page.mouse.down();
      await undo.focus();
      return page.keyboard.down('Space');
    })()]);
    await answer.finished();
    await page.waitForTimeout(300);
    check(await lead(page) === before, 'the page stands still under the finger');
    await (hold === 'mouse' ? page.mouse.up() : page.keyboard.up('Space'));
    await page.waitForFunction(() => /71/.test(document.querySelector('#changes ol').innerText), null, { timeout: 20000 }).then(() => check(true, name), () => check(false, name));
    await quiet(page);
  }
  await undo.click();
  check(await undone(), 'and once more, what was before');
  await context.close();
}

async function wrongValues(browser, session) {
  const { context, page } = await open(browser, session.url, { viewport: { width: 1280, height: 900 } });
  const first = await lead(page);
  await page.locator('#write summary:has-text("hose s1")').click();
  const bore = field(page, 's1', 'bore');
  await bore.fill('25');
  await bore.press('Enter');
  await page.waitForSelector('.field .wrong');
  check(/bare number/.test(await page.locator('.field .wrong').innerText()), 'the reader says beside the field what is wrong');
  check(await lead(page) === first && await page.locator('#changes ol').count() === 0, 'nothing changes');
  check(await bore.evaluate((e) => e === document.activeElement && e.getAttribute('aria-invalid') === 'true'), 'the field is marked and keeps the focus');
  await page.keyboard.press('Escape');
  check(await bore.inputValue() === '19 mm', 'Escape brings the value back');
  await bore.fill('1 1/4 in');
  await bore.press('Enter');
  await changed(page, first);
  check(await page.locator('.field .wrong').count() === 0, 'a good value ends it');
  const two = await open(browser, session.url, {});
  await field(two.page, 'boiler', 'fire').fill('90 %');
  await two.page.keyboard.press('Enter');
  await two.page.waitForFunction(() => document.querySelectorAll('#changes ol li').length === 2);
  await bore.fill('25 mm');
  await bore.press('Enter');
  await page.waitForSelector('#changes .wrong');
  check(/elsewhere/.test(await page.locator('#changes .wrong').innerText()) && await page.locator('#changes ol li').count() === 2,
    'a second window is told of the first');
  await two.context.close();
  await context.close();
}

// Parts come and go in sentences; what is saved then has these lines more or less, and no other byte changed.
async function sentences(browser, session) {
  const { context, page, seen } = await open(browser, session.url, { viewport: { width: 390, height: 800 } });
  const undo = page.locator('#bar button:has-text("Undo")');
  while (await undo.isEnabled())
    await undo.click(), await quiet(page);
  const begun = readFileSync(plant, 'utf8'), first = await lead(page);
  const form = (command) => page.locator(`form.sentence:has(input[name=do][value=${command}])`);
  await form('add').locator('[name=like]').selectOption('bench6');
  await form('add').locator('[name=far]').fill('far');
  await page.keyboard.press('Enter');
  await page.waitForSelector('form.sentence .wrong');
  check(await form('add').locator('[name=far]').inputValue() === 'far' && await form('add').locator('[name=like]').inputValue() === 'bench6',
    'a sentence that is refused keeps what was typed, beside the reason');
  await form('add').locator('[name=far]').fill('2 m');
  await page.keyboard.press('Enter');
  await changed(page, first);
  check(await page.locator('#plant .vessel[data-vessel=bench7]').count() === 1, 'a vessel more stands in the drawing');
  const second = await lead(page);
  await form('away').locator('[name=part]').selectOption('bench4');
  await form('away').locator('button').click();
  await changed(page, second);
  check(await page.locator('#changes ol li').count() === 2, 'each is one change');
  await form('add').locator('[name=far]').fill('3 m');
  await page.keyboard.press('Control+z');
  await quiet(page);
  check(await page.locator('#changes ol li').count() === 2, 'Ctrl-Z in what is being typed leaves the plant alone');
  await page.keyboard.press('Control+s');
  await page.waitForFunction(() => document.querySelector('#bar').innerText.includes('Saved'));
  const lines = (text) => text.split('\n'), now = readFileSync(plant, 'utf8');
  check(lines(now).filter((l) => !lines(begun).includes(l)).length === 3 && lines(begun).filter((l) => !lines(now).includes(l)).length === 3,
    'the file has the three lines of the new parts more, those of the others less');
  await page.locator('#changes ol li:nth-child(2) button').click();
  await page.waitForFunction(() => document.querySelectorAll('#changes ol li').length === 1);
  await page.locator('#changes ol li:nth-child(1) button').click();
  await page.waitForFunction(() => !document.querySelector('#changes ol'));
  await page.keyboard.press('Control+s');
  await page.waitForFunction(() => document.querySelector('#bar').innerText.includes('Saved'));
  check(readFileSync(plant, 'utf8') === begun, 'taken back and saved, it is what it was, byte for byte');
  check(seen.errors.length === 0, `no console message, but ${seen.errors.slice(0, 3).join(' | ')}`);
  await context.close();
}

// What is asked is answered in its place, and what it proposes is one press away.
async function asked(browser, session) {
  const { context, page, seen } = await open(browser, session.url, { viewport: { width: 390, height: 800 } });
  const first = await lead(page), before = await page.locator('#changes ol li').count();
  await page.locator('#ask button:has-text("Why")').focus();
  await page.keyboard.press('Enter');
  await page.waitForSelector('#ask .commands li', { timeout: 120000 });
  check(/would do/.test(await page.locator('#ask .what').innerText()), 'why says what holds the last vessel up');
  check(await page.locator('#ask button:has-text("Why")').evaluate((e) => e === document.activeElement), 'and the focus stays');
  await page.locator('#ask .commands button').first().click();
  await changed(page, first);
  check(await page.locator('#changes ol li').count() === before + 1, 'a proposal is one change');
  check(/earlier/.test(await page.locator('#answer .difference').innerText()), 'and does what it says');
  await page.locator('#bar button:has-text("Undo")').click();
  await page.waitForFunction((n) => document.querySelectorAll('#changes ol li').length === n, before);
  check(seen.errors.length === 0, `no console message, but ${seen.errors.slice(0, 3).join(' | ')}`);
  await context.close();
}

async function withoutScript(browser, session) {
  const { context, page } = await open(browser, session.url, { javaScriptEnabled: false, viewport: { width: 390, height: 800 } });
  const count = await page.locator('#changes ol li').count();
  await field(page, 's2.valve1', 'open').fill('50 %');
  await field(page, 's2.valve1', 'open').press('Enter');
  await page.waitForLoadState();
  check(await page.locator('#changes ol li').count() === count + 1, 'a form alone changes a value');
  await field(page, 's2.valve1', 'open').fill('half');
  await field(page, 's2.valve1', 'open').press('Enter');
  await page.waitForLoadState();
  check(await page.locator('.field .wrong').count() === 1, 'and says what is wrong');
  await page.locator('#bar button:has-text("Undo")').click();
  await page.waitForLoadState();
  check(await page.locator('#changes ol li').count() === count, 'and is undone');
  await context.close();
}

async function byTouch(browser, session) {
  for (const [width, colorScheme] of [[360, 'light'], [390, 'dark'], [1400, 'dark']]) {
    const { context, page, seen } = await open(browser, session.url, { viewport: { width, height: 800 }, colorScheme, hasTouch: true });
    const about = `${width} px, ${colorScheme}`;
    await page.evaluate(() => document.querySelectorAll('details').forEach((d) => { d.open = true; }));
    check(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth) <= 0, `${about}: no horizontal scroll`);
    const small = await page.evaluate(() => Array.from(document.querySelectorAll('main button, main form input:not([type=hidden]), main select, main summary, nav a, .keep a'))
      .filter((e) => e.offsetParent && Math.min(e.getBoundingClientRect().height, e.getBoundingClientRect().width) < 43.9)
      .map((e) => e.outerHTML.slice(0, 60)));
    check(small.length === 0, `${about}: all that is tapped is 44 px, but not ${small.slice(0, 3).join(' ')}`);
    // The checker comes in through the debugger, past the page's own rules.
    const debug = await context.newCDPSession(page);
    await debug.send('Runtime.evaluate', { expression: axe });
    await page.evaluate(() => document.querySelectorAll('nav, #bar').forEach((n) => { n.style.position = 'static'; }));
    const result = await page.evaluate(() => window.axe.run(document));
    for (const v of result.violations)
      console.log(`  ${v.id}: ${v.help}: ` + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 120)).join(' || '));
    check(result.violations.length === 0, `${about}: axe finds no violation`);
    check(seen.errors.length === 0, `${about}: no console message, but ${seen.errors.slice(0, 3).join(' | ')}`);
    await page.screenshot({ path: join(folder, `try-${width}-${colorScheme}.png`) });
    await page.locator('#write').scrollIntoViewIfNeeded();
    await page.evaluate(() => document.querySelector('#changes').scrollIntoView());
    await page.screenshot({ path: join(folder, `try-${width}-${colorScheme}-write.png`) });
    await context.close();
  }
}

// From Enter to the painted answer.
async function speed(browser, session) {
  const { context, page } = await open(browser, session.url, { viewport: { width: 1280, height: 900 } });
  const fire = field(page, 'boiler', 'fire'), times = [];
  for (let i = 0; i < 9; i++) {
    await fire.fill(`${80 + i} %`);
    times.push(await page.evaluate(() => new Promise((resolve) => {
      const begin = performance.now();
      new MutationObserver((_, o) => {
        o.disconnect();
        requestAnimationFrame(() => requestAnimationFrame(() => resolve(performance.now() - begin)));
      }).observe(document.querySelector('main'), { childList: true });
      document.activeElement.form.requestSubmit();
    })));
    await quiet(page);
  }
  times.sort((a, b) => a - b);
  console.log(`try: from Enter to the painted answer ${times[4].toFixed(0)} ms (median of 9; ${times[0].toFixed(0)} to ${times[8].toFixed(0)} ms)`);
  await context.close();
}

copyFileSync(source, plant);
const browser = await launch();
const session = await start(plant);
for (const look of [byKeyboard, beforeAndAlone, pressed, wrongValues, sentences, asked, withoutScript, byTouch, speed]) {
  try {
    await look(browser, session);
  } catch (error) {
    check(false, `${look.name}: ${error.stack.split('\n').filter((l, i) => i === 0 || l.includes('try.mjs')).join(' ')}`);
  }
}
check(await end(session) === 0, 'Ctrl-C ends it');
await browser.close();
console.log(`${checks} checks of the page that is written in, ${failures} failed`);
process.exit(failures ? 1 : 0);
