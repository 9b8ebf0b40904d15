import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { unzipSync } from 'fflate';
import ICAL from 'ical.js';
import jsQR from 'jsqr';
import { openSite } from '../../src/accounts/index.ts';
import { addDays } from '../../src/competence/index.ts';
import { asSite } from '../../src/store/index.ts';
import { readInOwnPage } from '../helpers/read-pixels.ts';
import { type Site, startSite } from '../helpers/site.ts';
import { signIn } from '../helpers/walk.ts';
import { openPackStage } from '../pack/stage.ts';
import { PASSWORD } from '../practical/workshop.ts';

/** What leaves the workshop: a pack in two files, a link that shows until it is ended, a proof, a label, a calendar. */
let site: Site;
/** the id of Mira Holt's authorisation */
let leave = '';
let employer: Page;
test.beforeAll(async ({ browser }) => {
  site = await startSite('empty');
  leave = await fillBeside(site);
  employer = await (await browser.newContext()).newPage();
  await signIn(employer, site.url, 'anna.weir@alderlane.example', PASSWORD);
});
test.afterAll(async () => {
  await employer.context().close();
  await site.stop();
});

/** The invented workshop beside the running site, with records that can be proved; returns the id of Mira's leave. */
async function fillBeside({ data, database, url }: Site): Promise<string> {
  const own = await openSite({
    dataDir: data,
    contentDir: 'content',
    address: new URL(url),
    database,
  });
  return asSite(async () => {
    const stage = await openPackStage({
      site: own,
      dataDir: data,
      tamper: () => Promise.reject(new Error('a running site is left alone')),
      remove: () => own.store.close(),
    });
    try {
      return await stage.authorise('Mira Holt', addDays(stage.today, 25));
    } finally {
      await stage.close();
    }
  });
}

async function expectAccessible(page: Page): Promise<void> {
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  // words for a screen reader alone are not seen, and no word is a key that nobody wrote
  const heard = page.locator('main .visually-hidden');
  expect(await heard.evaluateAll((all) => all.filter((one) => one.clientWidth > 1).length)).toBe(0);
  await expect(page.getByRole('main')).not.toContainText(/\b(proof|pack|share)\.[a-z]+\.[a-z]/);
}

/** Presses what brings a file, and says where the file lies, under its own name. */
async function take(page: Page, role: 'link' | 'button', name: string): Promise<string> {
  const waiting = page.waitForEvent('download');
  await page.getByRole('main').getByRole(role, { name }).click();
  const download = await waiting;
  const place = test.info().outputPath(download.suggestedFilename());
  await download.saveAs(place);
  return place;
}

/** The command as anybody runs it, with nothing of the site but its key. */
async function verify(file: string, signer: string): Promise<string> {
  const words = ['run', '--silent', 'verify', '--', file, '--trust', signer];
  const child = spawn('npm', words, { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.on('data', (part) => {
      said += String(part);
    });
  }
  const [code] = await once(child, 'close');
  return `${said}\nexit code ${code}`;
}

const membersOf = (file: string): string[] => Object.keys(unzipSync(readFileSync(file)));

/** Every piece of text in the part of a page that is about something, in the order it is read. */
const textsOf = (page: Page, selector: string): Promise<string[]> =>
  page.locator(selector).evaluate((node) => {
    const walker = document.createTreeWalker(node, NodeFilter.SHOW_TEXT);
    const texts: string[] = [];
    while (walker.nextNode()) {
      const text = walker.currentNode.textContent?.trim().replace(/\s+/g, ' ') ?? '';
      if (text !== '' && walker.currentNode.parentElement?.tagName !== 'SCRIPT') texts.push(text);
    }
    return texts;
  });

/** What a calendar may hold; the fields that say twice that a day is whole, for one maker's programs, are left aside. */
const CALENDAR = new Set([
  ...[
    'method',
    'name',
    'prodid',
    'refresh-interval',
    'version',
    'x-published-ttl',
    'x-wr-calname',
  ].map((name) => `vcalendar.${name}`),
  ...['description', 'dtstamp', 'dtstart', 'sequence', 'summary', 'transp', 'uid'].map(
    (name) => `vevent.${name}`,
  ),
  ...['action', 'description', 'trigger'].map((name) => `valarm.${name}`),
]);
const fieldsOf = (one: InstanceType<typeof ICAL.Component>): string[] => [
  ...one
    .getAllProperties()
    .map(({ name }) => `${one.name}.${name}`)
    .filter((name) => !/\.x-.+-alldayevent$/.test(name)),
  ...one.getAllSubcomponents().flatMap(fieldsOf),
];

async function chooseMira(page: Page): Promise<void> {
  await page.getByRole('radio', { name: 'Only the people ticked below' }).check();
  await page.getByRole('checkbox', { name: /^Mira Holt/ }).check();
}

test('the employer hands out a pack that the command calls genuine', async () => {
  const page = employer;
  await page.goto(`${site.url}/who-may`);
  await test.step('from a page whose states are words, and which shows where the keyboard is', async () => {
    const words = await page
      .locator('main .mark')
      .evaluateAll((marks) => marks.map((mark) => mark.parentElement?.textContent?.trim() ?? ''));
    expect(words.length).toBeGreaterThan(5);
    expect(words.filter((word) => word.length < 3)).toEqual([]);
    await page.locator('#main').focus();
    for (let step = 0; step < 40; step++) {
      await page.keyboard.press('Tab');
      const [where, outline] = await page.evaluate(() => {
        const here = document.activeElement ?? document.body;
        const { outlineStyle, outlineWidth } = getComputedStyle(here);
        return [
          here.outerHTML.slice(0, 80),
          `${outlineStyle} ${Number.parseFloat(outlineWidth) >= 2}`,
        ];
      });
      // the browser itself marks the part of a day or an hour that is being typed
      if (!/type="(date|time)"/.test(where ?? '')) expect(outline, where).toBe('solid true');
    }
  });
  await page.getByRole('link', { name: 'Proof pack for an inspector' }).click();
  await expectAccessible(page);
  await chooseMira(page);
  await page.getByRole('button', { name: 'Make the pack' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('The pack is ready');
  await expectAccessible(page);
  const signer = (await page.getByText(/^did:key:/).textContent()) ?? '';
  const pdf = await take(page, 'link', 'Take the document (PDF)');
  expect(readFileSync(pdf).subarray(0, 5).toString()).toBe('%PDF-');
  const zip = await take(page, 'link', 'Take the zip');
  const members = membersOf(zip);
  expect(members).toEqual(expect.arrayContaining(['READ-FIRST.txt', 'pack.pdf', 'manifest.json']));
  expect(members).toContain(`proofs/authorisation-${leave}.json`);
  const said = await verify(zip, signer);
  expect(said).toContain('Genuine. Every file is as it was signed');
  expect(said).toContain('exit code 0');
});

test('an inspector looks by a link without signing in, until the employer ends it', async ({
  page: inspector,
}) => {
  const page = employer;
  await page.goto(`${site.url}/who-may`);
  await page.getByRole('link', { name: 'Links for an inspector' }).click();
  await chooseMira(page);
  await page.getByLabel('Machine').selectOption({ label: 'Bench 1, AL-01' });
  await page.getByLabel('Whom it is for, and why').fill('Yearly inspection');
  await page.getByRole('button', { name: 'Make the link' }).click();
  const address = (await page.locator('[data-share-address]').textContent()) ?? '';
  expect(address).toContain('/shared/');
  await expectAccessible(page);

  const shown = await inspector.goto(address);
  expect(shown?.status()).toBe(200);
  expect(shown?.headers()).toMatchObject({
    'cache-control': 'no-store',
    'referrer-policy': 'no-referrer',
    'x-robots-tag': 'noindex, nofollow',
  });
  const main = inspector.getByRole('main');
  await expect(main).toContainText('for: Yearly inspection.');
  await expect(main.getByRole('row', { name: /^Mira Holt/ }).first()).toContainText('May, until');
  // nothing to press, fill in or send: files to take along are all there is
  await expect(main.locator('button, input, select, textarea, form')).toHaveCount(0);
  const leads = await main
    .getByRole('link')
    .evaluateAll((links) => links.map((link) => (link as HTMLAnchorElement).href));
  expect(leads.filter((lead) => !lead.startsWith(`${address}/`))).toEqual([]);
  await expectAccessible(inspector);
  await test.step('which holds the fields that were thought about, and no others', async () => {
    const days = /\d{1,2} [A-Z][a-z]+ \d{4}(, \d\d:\d\d UTC)?/g;
    const texts = (await textsOf(inspector, 'main')).map((one) => one.replace(days, 'DAY'));
    const table = (when: string) => [
      ...[when, 'Bench 1, AL-01, as of DAY', 'Person', 'ripping', 'crosscutting'],
      ...['Mira Holt', 'May, until DAY', 'No authorisation'],
    ];
    expect(texts).toEqual([
      "Employer's record of supervised competence",
      'Who may do what on which saw bench',
      'Shown by Alder Lane Joinery for: Yearly inspection.',
      'This link was made on DAY and works until DAY, unless the employer ends it before. ' +
        'Opening it is counted; nothing about you is kept.',
      ...['Demonstration only', 'This workshop and everybody in it are invented.'],
      ...[...table('Now'), ...table('When the link was made'), 'Authorisations in force now'],
      'Mira Holt: ripping on AL-01, from DAY until DAY',
      ...['Proof file', 'of Mira Holt, AL-01', 'Take the proofs along'],
      'The document and the zip hold the same content, as of now: each authorisation, each signed ' +
        'sheet, and what to check them with. At busy times they take a moment to make.',
      ...['Document on A4 (PDF)', 'Document on Letter (PDF)', 'Zip with every proof'],
      'Ask the employer for the key of this site another way than by this link: on paper, or read ' +
        'out by telephone.',
    ]);
    const html = await main.evaluate((node) => node.outerHTML);
    const ids = html.match(/[0-9a-f]{8}-[0-9a-f-]{27}/g) ?? [];
    expect([...new Set(ids)]).toEqual([leave]);
    expect(html).not.toMatch(/[\w.+-]+@[\w-]+\.[a-z]/i);
  });
  const zip = await take(inspector, 'link', 'Zip with every proof');
  expect(membersOf(zip)).toContain('manifest.json');

  await page.goto(`${site.url}/share`);
  const row = page.getByRole('row', { name: /^Yearly inspection/ });
  await row.getByText('When it was opened, by the log').click();
  await expect(row.getByRole('listitem')).toContainText('opened once');
  await row.getByRole('button', { name: /^End it now/ }).click();
  await expect(page.getByText('The link is ended. From now on it opens nothing.')).toBeVisible();
  await expect(row).toContainText('Ended on');

  const over = await inspector.goto(address);
  expect(over?.status()).toBe(404);
  const ended = await main.textContent();
  await inspector.goto(`${site.url}/shared/${'a'.repeat(43)}`);
  expect(await main.textContent()).toBe(ended);
});

test('a proof of leave is found again by its code, and checked without a network with parts left out', async ({
  browser,
}) => {
  const page = employer;
  await page.goto(`${site.url}/proof/leave/${leave}`);
  await expect(page.getByText('This sheet proves nothing about anybody.')).toBeVisible();
  await expectAccessible(page);
  const code = page.getByRole('img', { name: /^Code to open/ });
  const read = await readInOwnPage(page, await code.screenshot());
  const address = jsQR(Uint8ClampedArray.from(read.data), read.width, read.height)?.data;
  expect(address).toBe(page.url());
  await expect(page.getByText(`Record ${leave}, at ${address}.`)).toBeVisible();
  const signer = (await page.getByText(/^did:key:/).textContent()) ?? '';
  const least = readFileSync(await take(page, 'button', 'Take the proof file'), 'utf8');
  await page.getByRole('radio', { name: /^With everything/ }).check();
  const whole = readFileSync(await take(page, 'button', 'Take the proof file'), 'utf8');
  await page.goto(`${site.url}/verify`);
  const verifier = await take(page, 'link', 'Take the file that checks proofs');

  const away = await (await browser.newContext({ offline: true })).newPage();
  const asked: string[] = [];
  away.on('request', (request) => asked.push(request.url()));
  await away.goto(pathToFileURL(verifier).href);
  await away.getByLabel('Signers you trust').fill(signer);
  const answer = away.locator('.verify-answer');
  for (const [text, verdict, word] of [
    [least, 'genuine', 'Left out: results, settings and the trainer'],
    [whole, 'genuine', 'Nothing is left out of the 7 practicals shown.'],
    [least.replace('"AL-01"', '"AL-02"'), 'altered', 'Altered'],
  ] as const) {
    await away.locator('form').evaluate((form, dropped) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([dropped], 'proof.json'));
      form.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
    }, text);
    await expect(away.getByRole('textbox', { name: 'The proof' })).toHaveValue(text);
    await away.getByRole('button', { name: 'Check the proof' }).click();
    await expect(answer.locator('[data-verdict]')).toHaveAttribute('data-verdict', verdict);
    await expect(answer).toContainText(word);
  }
  expect(asked).toEqual([pathToFileURL(verifier).href]);
  await away.context().close();
});

test('a label and a calendar say what they are for, and nothing else', async () => {
  const page = employer;
  await page.goto(`${site.url}/register`);
  await page.getByRole('link', { name: 'Bench 1', exact: true }).click();
  const machine = page.url();
  await page.goto(`${machine}/label`);
  expect(await textsOf(page, '.machine-label')).toEqual([
    'AL-01',
    'Bench 1',
    'Scan for checks, documents and who may work here.',
    'Alder Lane Joinery, invented workshop',
  ]);

  for (const [names, title] of [
    ['Names of people and work', /^Mira Holt, AL-01: the authorisation for ripping ends/],
    ['Only that something is due, without names', /^Something is due on the saw bench site$/],
  ] as const) {
    await page.goto(`${site.url}/due`);
    await page.getByRole('radio', { name: names }).check();
    await page.getByRole('button', { name: /^(Make an|Renew the) address$/ }).click();
    const address = (await page.locator('.secret-address').textContent()) ?? '';
    const text = await (await fetch(address)).text();
    const calendar = new ICAL.Component(ICAL.parse(text));
    expect([...new Set(fieldsOf(calendar))].filter((field) => !CALENDAR.has(field))).toEqual([]);
    const [day, ...more] = calendar.getAllSubcomponents('vevent');
    expect(more).toEqual([]);
    expect(day?.getFirstPropertyValue('summary')).toMatch(title);
    expect(day?.getFirstPropertyValue('description')).toBe(`Open the due list: ${site.url}/due`);
    // no id of anybody or anything in the log, and no e-mail address but the shape of the event's own id
    expect(text.replaceAll(/UID:[0-9a-f]{32}@signed-to-saw/g, '')).not.toMatch(
      /[0-9a-f]{8}-[0-9a-f]{4}|@/,
    );
    if (names.startsWith('Only')) expect(text).not.toMatch(/Mira|Holt|AL-01|Alder|ripping/);
  }
});
