// SPDX-License-Identifier: MIT
// The page that computes by itself, opened from a file without a network, beside a session of the program with the same
// commands: what comes back is the same to the byte. Arguments: the program, a plant file, a scratch folder. Ends with size and
// times, which are told and not tested, but for the size.
import { execFileSync, spawn } from 'node:child_process';
import { copyFileSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { check, checks, failures, launch } from './common.mjs';

const [program, source, folder] = process.argv.slice(2);
const file = resolve(join(folder, 'live.html')), plant = join(folder, 'live.xml');
copyFileSync(source, plant);

const commands = ['do=set&part=s1&attribute=bore&value=25+mm&seen=1', 'do=set&part=s1&attribute=bore&value=wide',
  'do=set&part=v1&attribute=open&value=40+%25', 'do=set&part=boiler&attribute=fire&value=60+%25', 'do=undo', 'do=redo', 'do=back&change=0',
  'do=add&like=bench6&hose=&far=2+m', 'do=effects', 'do=away&part=bench1', 'do=away&part=bench4', 'do=effects&all=yes', 'do=ask&what=why', 'do=try&proposal=0', 'do=undo', 'do=ask&what=odds', 'do=ask&what=week', 'do=set&part=b%C3%BC&attribute=bore&value=1', 'do=fly'];

// What the program's own session answers, and the page before.
async function fromServer(plant, commands) {
  const child = spawn(program, ['try', plant, '--start', '06:30'], { stdio: ['ignore', 'pipe', 'ignore'] });
  const url = await new Promise((done) => child.stdout.once('data', (d) => done(String(d).trim())));
  const answers = [await (await fetch(url)).text()];
  for (const body of commands)
    answers.push(await (await fetch(url + 'do', { method: 'POST', body, redirect: 'manual',
      headers: { Origin: new URL(url).origin, Accept: 'application/json', 'Content-Type': 'application/x-www-form-urlencoded' } })).text());
  for (const name of ['plant.xml', 'report.html'])
    answers.push(await (await fetch(url + name)).text());
  child.kill('SIGINT');
  return answers;
}

const fromPage = (page, commands) => page.evaluate(async (list) => {
  const worker = new Worker(URL.createObjectURL(new Blob([document.getElementById('engine').textContent])));
  const ask = (m) => new Promise((done) => { worker.onmessage = (e) => done(e.data); worker.postMessage(m); });
  await ask({ ...JSON.parse(document.getElementById('begins').textContent), date: '' }); // as a session has none
  const answers = [await ask({ name: '', form: '' })];
  for (const form of list)
    answers.push(await ask({ name: 'do', form }));
  for (const name of ['plant.xml', 'report.html'])
    answers.push(await ask({ name, form: '' }));
  return answers;
}, commands);

async function same(page, plant, commands) {
  const ours = await fromServer(plant, commands), theirs = await fromPage(page, commands);
  ['the page', ...commands, 'the plant file', 'the report'].forEach((what, i) => {
    let at = 0;
    while (at < ours[i].length && ours[i][at] === theirs[i][at])
      at++;
    check(ours[i] === theirs[i], `${what}: the same to the byte, but ${ours[i].slice(at - 30, at + 50)} | ${String(theirs[i]).slice(at - 30, at + 50)}`);
  });
  return ours.slice(1, -2).map((answer) => JSON.parse(answer));
}

const painted = (page, command) => page.evaluate((value) => new Promise((done) => {
  const begin = performance.now();
  new MutationObserver((_, o) => {
    o.disconnect();
    requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - begin)));
  }).observe(document.querySelector('main'), { childList: true });
  const input = document.querySelector('form:has([name=part][value=boiler]):has([name=attribute][value=fire]) [name=value]');
  input.value = value;
  input.form.requestSubmit();
}), command);

execFileSync(program, ['report', plant, '--live', '--start', '06:30', '-o', file]);
const size = statSync(file).size, packed = gzipSync(readFileSync(file), { level: 9 }).length;
check(size <= 1.5e6 && packed <= 9e5, `at most 1.5 MB, 900 kB compressed, but ${size} and ${packed}`);
const browser = await launch();
for (const [width, colorScheme] of [[390, 'light'], [1280, 'dark']]) {
  const context = await browser.newContext({ viewport: { width, height: 800 }, colorScheme, offline: true, acceptDownloads: true });
  const page = await context.newPage(), errors = [], others = [];
  page.setDefaultTimeout(120000);
  page.on('console', (m) => errors.push(m.text()));
  page.on('pageerror', (e) => errors.push(e.message));
  page.on('request', (r) => { if (!/^(file|data|blob):/.test(r.url())) others.push(r.url()); });
  page.on('dialog', (d) => d.accept());
  await page.goto('file://' + file);
  const paint = await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime);
  if (width === 390) {
    const [good, wrong] = await same(page, plant, commands);
    check(!good.refused && wrong.refused, 'a good and a wrong value are told apart');
  }
  const first = await page.locator('#answer .lead').innerText(), times = [];
  await page.locator('#write summary:has-text("hose s1")').click();
  const bore = page.locator('form:has([name=part][value=s1]):has([name=attribute][value=bore]) [name=value]');
  await bore.fill('1 1/4 in');
  await bore.press('Enter');
  await page.waitForFunction((b) => document.querySelector('#answer .lead').innerText !== b, first);
  check(await page.locator('#changes ol li').innerText().then((t) => /1\s1\/4\sin/.test(t)), 'a bore is changed, and the answer follows');
  await page.screenshot({ path: join(folder, `live-${width}.png`) });
  for (let i = 0; i < 9; i++)
    times.push(await painted(page, `${80 + i} %`));
  const [down] = await Promise.all([page.waitForEvent('download'), page.locator('#bar button:has-text("Save")').click()]);
  const kept = readFileSync(await down.path(), 'utf8');
  check(kept.includes('bore="1 1/4 in"') && kept.includes('fire="88 %"'), 'Save hands the plant file down');
  check(errors.length === 0, `no console message, but ${errors.slice(0, 3).join(' | ')}`);
  check(others.length === 0, `no request, but ${others.join(' ')}`);
  times.sort((a, b) => a - b);
  console.log(`live, ${width} px: first paint ${paint?.toFixed(0)} ms, from Enter to the painted answer ${times[4].toFixed(0)} ms (median of 9; ${times[0].toFixed(0)} to ${times[8].toFixed(0)} ms)`);
  await context.close();
}
// Each question that takes many runs, of a small plant with people: answered as the program does, and what is proposed is tried.
const small = join(folder, 'small.xml'), asked = ['size', 'carry', 'plan', 'week'].map((what) => `do=ask&what=${what}`);
rmSync(small, { force: true });
execFileSync(program, ['new', small, '--defaults', '--vessels', '2, 4 m', '--hose', '16 mm, 2 m, 6 m'], { stdio: 'ignore' });
writeFileSync(small, readFileSync(small, 'utf8').replace('</network>', '<work><crew days="mon-fri" from="07:00" to="22:00" people="2"/></work></network>'));
const whole = readFileSync(file, 'utf8'), broken = resolve(join(folder, 'broken.html')), begun = Date.now();
execFileSync(program, ['report', small, '--live', '--start', '06:30', '-o', file]);
const quiet = await browser.newContext({ offline: true });
const answering = await quiet.newPage();
answering.setDefaultTimeout(0);
await answering.goto('file://' + file);
const answers = await same(answering, small, asked.flatMap((ask) => [ask, 'do=try&proposal=0', 'do=undo']));
asked.forEach((ask, i) => {
  const html = answers[3 * i].fragments.find((f) => f.id === 'ask').html, tried = /Try this/.test(html);
  check(!answers[3 * i].refused && html.includes('<li>'), `${ask} is answered with what would help`);
  check(tried === !answers[3 * i + 1].refused && (tried || ask.endsWith('week')), `${ask}: what is proposed is tried`);
});
console.log(`live: size, carry, plan and week of two vessels, by both, in ${((Date.now() - begun) / 1000).toFixed(0)} s`);
await quiet.close();
// A browser that cannot unpack or run the program says so, at once, and goes on to say so where something is changed.
const works = await browser.newContext({ viewport: { width: 390, height: 800 }, offline: true });
for (const [what, from, to, words] of [
  ['without DecompressionStream', "var packed='", "delete self.DecompressionStream;var packed='", /one from 2023 or later/],
  ['without WebAssembly', "var packed='", "delete self.WebAssembly;var packed='", /one from 2023 or later/],
  ['with a torn program', "var packed='", "var packed='AAAA", /one from 2023 or later/],
  ['where it stops at a change', 'call("web_ask"', 'call("web_gone"', /has stopped/]]) {
  writeFileSync(broken, whole.replace(from, to));
  const page = await works.newPage();
  await page.goto('file://' + broken);
  const said = (pattern) => page.waitForFunction((p) => new RegExp(p).test(document.querySelector('#bar .wrong')?.innerText), pattern.source, { timeout: 20000 }).then(() => true, () => false);
  if (words.source.includes('2023'))
    check(await said(words), `${what}, the page says so as it opens`);
  const fire = page.locator('form:has([name=part][value=boiler]):has([name=attribute][value=fire]) [name=value]');
  await fire.fill('70 %');
  await fire.press('Enter');
  check(await said(words) && await page.locator('html.busy').count() === 0, `${what}, a change is answered with a sentence`);
  await page.close();
}
await works.close();
// From nothing: a wrong answer is told, the others stay, and the page of the plant follows, with all its charts.
execFileSync(program, ['report', '--live', '-o', file]);
const empty = await browser.newContext({ viewport: { width: 390, height: 800 }, offline: true, acceptDownloads: true });
const page = await empty.newPage(), errors = [];
page.setDefaultTimeout(120000);
page.on('console', (m) => errors.push(m.text()));
page.on('pageerror', (e) => errors.push(e.message));
page.on('dialog', (d) => d.accept());
await page.goto('file://' + file);
check(await page.locator('.question').count() === 8 && await page.locator('.question svg').count() === 8, 'eight questions with pictures');
check(await page.evaluate(() => Array.from(document.querySelectorAll('.question svg')).every((svg) => {
  const frame = svg.getBoundingClientRect(), words = Array.from(svg.querySelectorAll('text')).map((t) => t.getBoundingClientRect());
  return words.every((a, i) => a.left >= frame.left && a.right <= frame.right && a.bottom <= frame.bottom &&
    words.every((b, k) => k === i || a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top));
})), 'the words of the pictures lie inside them, and on no other');
await page.screenshot({ path: join(folder, 'new-390.png') });
await page.getByLabel(/How many vessels/).fill('3, 2.5 m');
await page.getByLabel(/hoses/).fill('19 parsec');
await page.keyboard.press('Enter');
await page.waitForSelector('.question .wrong');
check(await page.getByLabel(/How many vessels/).inputValue() === '3, 2.5 m', 'what was typed stays');
await page.getByLabel(/hoses/).fill('19, 3');
await page.keyboard.press('Enter');
await page.waitForSelector('#answer .lead');
check(await page.locator('#charts svg').count() > 2 && await page.locator('nav').count() === 1, 'then the page of the plant');
check(await page.locator('#plant figure.card').first().evaluate((f) => f.tabIndex) !== undefined, 'with its drawings');
const first = page.waitForEvent('download');
await page.locator('#bar button:has-text("Save")').click();
const made = readFileSync(await (await first).path(), 'utf8');
check((made.match(/<vessel /g) || []).length === 3 && /bore="19 mm" known="tape"/.test(made) && /output="24 kW".*known="guess/.test(made),
  'what was measured and what was guessed stand in the file');
check(errors.length === 0, `no console message, but ${errors.slice(0, 3).join(' | ')}`);
await page.screenshot({ path: join(folder, 'new-390-then.png') });
await browser.close();
console.log(`live: ${size} bytes, ${packed} compressed; ${checks} checks of the page that computes, ${failures} failed`);
process.exit(failures ? 1 : 0);
