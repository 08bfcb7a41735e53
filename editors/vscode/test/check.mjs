// Looks, in a browser over code-server, for what a writer would see of the
// demo manuscript in VS Code; called by check.sh. Writes pictures.
import { spawn, spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

const { chromium } = createRequire(`${process.env.NODE_PATH}/`)('playwright-core');

const folder = path.resolve(process.argv[2]);
const pictures = process.env.PICTURES;
const [program, ...first] = process.env.CODE_SERVER.split(' ');
const home = mkdtempSync(path.join(tmpdir(), 'code-'));
const dirs = ['--user-data-dir', path.join(home, 'data'), '--extensions-dir', path.join(home, 'ext')];

const say = (text) => console.log(`vscode: ${text}`);
function must(holds, what) {
  if (!holds) throw new Error(what);
}

function install() {
  mkdirSync(path.join(home, 'data/User'), { recursive: true });
  writeFileSync(path.join(home, 'data/User/settings.json'), JSON.stringify({
    'security.workspace.trust.enabled': false, // else the extension waits for a click
    'workbench.startupEditor': 'none',
    'workbench.colorTheme': 'Default Light Modern',
    'telemetry.telemetryLevel': 'off',
    'extensions.autoCheckUpdates': false,
    'chat.disableAIFeatures': true,
    'editor.minimap.enabled': false,
    'workbench.secondarySideBar.defaultVisibility': 'hidden',
  }));
  const done = spawnSync(program, [...first, ...dirs, '--install-extension', process.env.EXTENSION], { encoding: 'utf8' });
  must(done.status === 0, done.stdout + done.stderr);
}

/** Starts code-server on a free port and resolves to its address. */
function serve() {
  const child = spawn(program, [...first, ...dirs, '--auth', 'none', '--bind-addr', '127.0.0.1:0', '--disable-telemetry', '--disable-update-check', folder]);
  return new Promise((resolve, reject) => {
    let said = '';
    child.stdout.on('data', (data) => {
      said += data;
      const address = /HTTP server listening on (http:\S+?)\/?\s/.exec(said);
      if (address) resolve({ child, address: address[1] });
    });
    child.on('exit', (code) => reject(new Error(`code-server ended with ${code}: ${said}`)));
  });
}

async function settled(locator, holds, what) {
  const end = Date.now() + 15_000;
  for (;;) {
    const count = await locator.count();
    if (holds(count)) return count;
    must(Date.now() < end, `${what}: ${count}`);
    await new Promise((resolve) => { setTimeout(resolve, 100); });
  }
}

/** The count once it has not changed for two seconds: findings follow typing after a moment. */
async function steady(locator) {
  let last = -1;
  for (let same = 0; same < 20; same += 1) {
    const count = await locator.count();
    if (count !== last) same = 0;
    last = count;
    await new Promise((resolve) => { setTimeout(resolve, 100); });
  }
  return last;
}

/** Waits for an element with a text in a page that VS Code shows in a frame of its own. */
async function inPage(page, element, text) {
  const end = Date.now() + 15_000;
  for (;;) {
    for (const frame of page.frames()) {
      if (await frame.locator(element, { hasText: text }).count().catch(() => 0)) return;
    }
    must(Date.now() < end, `no ${element} with ${text} on a page`);
    await new Promise((resolve) => { setTimeout(resolve, 100); });
  }
}

/** A line that is being written is not marked before the pen leaves it, nor is its end a choice. */
async function unfinishedLine({ page, picture }) {
  // The marks in view change as the text moves up; the status bar counts all.
  const problems = page.locator('#status\\.problems');
  const counted = async () => (await problems.innerText()).match(/\d+/g).reduce((sum, n) => sum + Number(n), 0);
  const length = await page.locator('.codelens-decoration', { hasText: 'spreads' }).innerText();
  await page.keyboard.press('Control+End');
  await page.keyboard.type('\n\nAnd up in the tower, where nobody goes,\n');
  await steady({ count: counted });
  const before = await counted();
  await page.keyboard.type('The mice keep a candle ');
  await page.locator('.suggest-widget.visible').waitFor({ timeout: 15_000 }); // unasked, at the space
  await picture('writing');
  must(await counted() === before, 'a line that is being written is marked');
  await page.keyboard.press('Enter');
  await settled({ count: counted }, (n) => n > before, 'findings after leaving a line unfinished');
  // Behind the line stands its hint, and no word that nobody chose.
  await page.locator('.view-line', { hasText: /^The\smice\skeep\sa\scandle\s*\d/ }).waitFor({ timeout: 15_000 });
  say('an unfinished line is marked when the pen leaves it, and Enter ends it');
  // There is nothing else to undo: what was done before is undone.
  for (let i = 0; i < 40; i += 1) await page.keyboard.press('Control+Z');
  await page.keyboard.press('Control+Home');
  await page.locator('.codelens-decoration', { hasText: length }).waitFor({ timeout: 15_000 });
}

async function look(page, address) {
  const picture = async (name) => {
    // What fades in is pictured when it has.
    await page.evaluate(() => Promise.all(document.getAnimations().map((a) => a.finished.catch(() => {}))));
    await page.screenshot({ path: path.join(pictures, `${name}.png`) });
  };
  const marks = page.locator('.squiggly-warning, .squiggly-info, .squiggly-hint');
  const row = (text) => page.locator('.view-line', { hasText: text }).first();
  const goTo = async (line, column) => {
    await page.keyboard.press('Control+G');
    await page.waitForSelector('.quick-input-widget input');
    await page.keyboard.type(`${line}:${column}`, { delay: 10 }); // after the colon that is there
    await page.keyboard.press('Enter');
  };

  await page.goto(`${address}/?folder=${encodeURIComponent(folder)}`);
  await page.waitForSelector('.monaco-workbench', { timeout: 60_000 });
  await page.keyboard.press('Control+B'); // no side bar
  await page.keyboard.press('Control+P');
  await page.waitForSelector('.quick-input-widget input');
  await page.keyboard.type('demo.verse', { delay: 20 });
  await page.waitForSelector('.quick-input-list .monaco-list-row');
  await page.keyboard.press('Enter');
  await marks.first().waitFor({ timeout: 60_000 });
  must(await page.locator('#status\\.editor\\.mode').innerText() === 'Verse', 'the language is not Verse');
  await page.locator('.codelens-decoration', { hasText: 'AABB' }).first().waitFor({ timeout: 15_000 });
  await picture('open');
  say(`the demo is open: ${await marks.count()} underlines in view, code lenses over the stanzas`);

  // A hover over the first verse line shows its feet.
  await row('forgotten').getByText('square').first().hover();
  const hover = page.locator('.monaco-hover:visible', { hasText: /x ?\/ ?\| ?x ?x ?\/ ?\| ?x ?x ?\/ ?\| ?x ?x ?\// });
  await hover.waitFor({ timeout: 15_000 });
  await picture('hover');
  say('the hover shows the feet');
  await page.keyboard.press('Escape');

  // A line that loses its last word is offered rhymes; one is taken.
  await row('So nobody').click();
  await page.keyboard.press('End');
  await page.keyboard.press('Control+Backspace');
  await page.keyboard.press('Control+Backspace');
  await page.keyboard.type(' ');
  await page.keyboard.press('Control+Space');
  // A rhyme shows its beats, which a snippet does not have.
  const rhymes = page.locator('.suggest-widget.visible .monaco-list-row', { hasText: '/' });
  await rhymes.first().waitFor({ timeout: 15_000 });
  await picture('rhymes');
  const offered = await rhymes.first().innerText();
  await page.keyboard.press('Enter');
  must(await row('So nobody knew').count() === 1, 'the line is gone');
  say(`a rhyme was offered and taken: ${offered.split('\n')[0]}`);
  for (let i = 0; i < 12; i += 1) await page.keyboard.press('Control+Z');

  // A broken line is marked; undoing the change takes the mark away.
  const before = await steady(marks);
  must(before > 0, 'no underlines after undoing');
  await row('The baker slept in').click();
  await page.keyboard.press('Home');
  await page.keyboard.press('Shift+End');
  await page.keyboard.type('The baker slept.');
  await settled(marks, (n) => n > before, 'underlines after breaking a line');
  await picture('broken');
  await page.keyboard.press('Control+Z');
  for (let i = 0; i < 20 && !(await row('The baker slept in').count()); i += 1) await page.keyboard.press('Control+Z');
  await settled(marks, (n) => n === before, 'underlines after mending it');
  say('a broken line is marked, and a mended one is not');

  await unfinishedLine({ page, picture });

  // The code of a finding opens its page.
  await row('She just opened').getByText('just').first().hover();
  const link = page.locator('.monaco-hover:visible a.code-link', { hasText: 'word/filler' }).first();
  await link.waitFor({ timeout: 15_000 });
  await page.locator('.monaco-hover:visible', { hasText: 'x/|xx/|xx/|xx/' }).waitFor({ timeout: 15_000 });
  await picture('finding');
  await link.click();
  await page.locator('.tab.active', { hasText: 'filler' }).waitFor({ timeout: 15_000 });
  await inPage(page, 'h1', 'word/filler');
  await picture('page');
  say('the code of a finding opens its page, set as a page');
  await page.locator('.tab', { hasText: 'demo.verse' }).click();
  await row('She just opened').waitFor({ timeout: 15_000 });

  // A stanza's lens opens its feet beside it, as a page that asks for no saving.
  await page.locator('.codelens-decoration a', { hasText: 'AABB' }).first().click();
  await row(/The.clock.\|.in.the.square.\|/).waitFor({ timeout: 15_000 });
  await picture('feet');
  say('a lens opens the feet of its stanza beside it');
  await page.locator('.tab', { hasText: 'Feet' }).hover();
  await page.locator('.tab', { hasText: 'Feet' }).locator('.action-label').first().click();
  await page.locator('.tab', { hasText: 'Feet' }).waitFor({ state: 'detached', timeout: 15_000 });

  // A fix from the lamp makes its mark go.
  await row('The clock').click();
  await goTo(27, 1);
  await row('She tightened').waitFor({ timeout: 15_000 });
  await page.keyboard.press('F8'); // the next mark is the line's own
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+.');
  const shown = await marks.count();
  const fix = page.locator('.action-widget .monaco-list-row.action').first();
  await fix.waitFor({ timeout: 15_000 });
  await picture('fixes');
  const title = await fix.innerText();
  await fix.click();
  await settled(marks, (n) => n < shown, `underlines after ${title}`);
  say(`the fix "${title.trim()}" makes its mark go`);
}

install();
const { child, address } = await serve();
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
    '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
try {
  const page = await browser.newPage({ viewport: { width: 1100, height: 720 } });
  try {
    await look(page, address);
  } catch (error) {
    await page.screenshot({ path: path.join(pictures, 'failed.png') });
    throw error;
  }
  say(`ok, in Chromium ${browser.version()}`);
} finally {
  await browser.close();
  child.removeAllListeners('exit');
  child.kill();
}
await new Promise((resolve) => { child.once('exit', resolve); });
rmSync(home, { recursive: true, force: true });
