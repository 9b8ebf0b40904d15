import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, type Page, test } from '@playwright/test';
import jsQR from 'jsqr';
import { axe } from '../helpers/axe.ts';
import { readInOwnPage } from '../helpers/read-pixels.ts';
import { DEMO_PASSWORD, type Site, startSite } from '../helpers/site.ts';
import { goToPart, openSheet as open, reviewSheet, signInToDemo } from '../helpers/walk.ts';

let site: Site;
test.beforeAll(async () => {
  site = await startSite('demo');
});
test.afterAll(async () => {
  await site.stop();
});
test.use({ viewport: { width: 1024, height: 768 }, hasTouch: true });

const signIn = (page: Page, who: string) => signInToDemo(page, site.url, who);

const openSheet = (page: Page, person: string) => open(page, site.url, person);

const READINGS: readonly (readonly [string, string])[] = [
  ['Gap from the back teeth to the knife, at the table', '7,5'],
  ['Gap from the teeth to the knife, where it is widest', '8'],
  ['Top of the blade down to the top of the knife', '2'],
  ['Thickness of the riving knife', '3.2'],
  ['Gap from the crown guard down to the stock', '5/16 in'],
];

async function fillMachine(page: Page): Promise<void> {
  await page.getByLabel('Place').fill('Machine shop');
  await page.getByLabel('Stock', { exact: true }).fill('Redwood, 50 by 200, dry');
  await page.getByRole('textbox', { name: 'Kerf, over the teeth' }).fill('4.2');
  await page.getByRole('textbox', { name: 'Blade plate' }).fill('2.8');
}

async function fillSheet(page: Page): Promise<void> {
  await fillMachine(page);
  await goToPart(page, /^3\./);
  for (const yes of await page.getByRole('radio', { name: 'Yes' }).all()) await yes.check();
  for (const [ask, value] of READINGS) {
    await page.getByRole('textbox', { name: ask, exact: true }).fill(value);
  }
  await expect(page.getByText('Within the limit')).toHaveCount(3);
  await goToPart(page, 'Decide');
  await page.getByRole('radio', { name: 'Sign off' }).check();
}

async function sign(page: Page): Promise<void> {
  await reviewSheet(page);
  await expect(page.getByRole('heading', { name: 'What your signature means' })).toBeVisible();
  await page.getByLabel('Your password').fill(DEMO_PASSWORD);
  await page.getByRole('button', { name: 'Sign as Ruth Amsel' }).click();
}

function countSigned(): number {
  const store = new DatabaseSync(join(site.data, 'store.sqlite'), { readOnly: true });
  const row = store
    .prepare("select count(*) as n from event where kind = 'practical.signed'")
    .get();
  store.close();
  return Number(row?.['n']);
}

test('a sheet survives a reload as typed, and is gone once it is logged', async ({ page }) => {
  await signIn(page, 'ruth.amsel');
  await openSheet(page, 'Mira Holt');
  await fillSheet(page);
  await expect(page.getByText(/^Kept on this device at/)).toBeVisible();
  await page.reload();
  await expect(page.getByText('is back as you left it')).toBeVisible();
  await goToPart(page, /^3\./);
  await expect(page.getByRole('textbox', { name: READINGS[0]?.[0] ?? '' })).toHaveValue('7,5');
  await expect(page.getByText('Within the limit')).toHaveCount(3);
  await goToPart(page, 'Decide');
  await expect(page.getByRole('radio', { name: 'Sign off' })).toBeChecked();
  const accessible = await axe(page).analyze();
  expect(accessible.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  await sign(page);
  await expect(page.getByRole('heading', { name: 'Signed and logged' })).toBeVisible();
  await openSheet(page, 'Mira Holt');
  await expect(page.getByText('is back as you left it')).toHaveCount(0);
  await expect(page.getByLabel('Place')).toHaveValue('');
});

test('an answer lost on the way back loses nothing and doubles nothing', async ({ page }) => {
  await signIn(page, 'ruth.amsel');
  await openSheet(page, 'Tom Okafor');
  await fillSheet(page);
  const before = countSigned();
  // the site takes the record in, and its answer never arrives
  await page.route(
    '**/api/practicals',
    async (route) => {
      await route.fetch({ maxRetries: 2 });
      await route.abort();
    },
    { times: 1 },
  );
  await sign(page);
  await expect(
    page.getByRole('heading', { name: 'Signed, and kept on this device' }),
  ).toBeVisible();
  await expect(page.getByText(/Not received by the site yet/)).toBeVisible();
  expect(countSigned()).toBe(before + 1);
  await page.goto(`${site.url}/practical/sheet`);
  // it goes by itself, and the site answers as it did the first time
  await expect(
    page.getByText('Nothing waits: all that was signed here is with the site.'),
  ).toBeVisible();
  expect(countSigned()).toBe(before + 1);
});

test("the device's key cannot be read out, and a wrong password signs nothing", async ({
  page,
}) => {
  await signIn(page, 'ruth.amsel');
  await openSheet(page, 'Jess Lindqvist');
  await fillSheet(page);
  const before = countSigned();
  await reviewSheet(page);
  await page.getByLabel('Your password').fill('not the right one');
  await page.getByRole('button', { name: 'Sign as Ruth Amsel' }).click();
  await expect(page.getByRole('alert')).toHaveText(
    'That is not your password, so nothing was signed.',
  );
  expect(countSigned()).toBe(before);
  await page.getByLabel('Your password').fill(DEMO_PASSWORD);
  await page.getByRole('button', { name: 'Sign as Ruth Amsel' }).click();
  await expect(page.getByRole('heading', { name: 'Signed and logged' })).toBeVisible();
  const exported = await page.evaluate(async () => {
    const open = indexedDB.open('signed-to-saw');
    const db = await new Promise<IDBDatabase>((done) => {
      open.onsuccess = () => done(open.result);
    });
    const read = db.transaction('keys').objectStore('keys').getAll();
    const keys = await new Promise<{ privateKey: CryptoKey }[]>((done) => {
      read.onsuccess = () => done(read.result);
    });
    const key = keys[0]?.privateKey;
    if (key === undefined) return 'no key';
    return crypto.subtle.exportKey('jwk', key).then(
      () => 'read out',
      () => `kept, ${key.extractable}`,
    );
  });
  expect(exported).toBe('kept, false');
});

test('a browser that may not sign says why in one sentence, and the sheet is kept', async ({
  page,
}) => {
  // as a browser is when the site was opened over plain http from another machine
  await page.addInitScript(() => {
    Object.defineProperty(window, 'isSecureContext', { value: false });
  });
  await signIn(page, 'dev.pradhan');
  await openSheet(page, 'Tom Okafor');
  await fillSheet(page);
  await page.getByRole('button', { name: 'Review what you sign' }).click();
  await page.getByRole('radio', { name: 'I was told the result, and I agree' }).check();
  await page.getByRole('button', { name: /^Give it back to/ }).click();
  await expect(page.getByRole('alert')).toHaveText(
    'This browser cannot sign here, because the site was opened over plain http from another machine: open it by its https address, or at the machine it runs on.',
  );
  await expect(page.getByLabel('Your password')).toHaveCount(0);
  await page.getByRole('button', { name: 'Back to the sheet' }).click();
  await goToPart(page, /^Machine and stock/);
  await expect(page.getByLabel('Place')).toHaveValue('Machine shop');
});

test('a record the site will not take is opened again as a sheet, or thrown away when asked twice', async ({
  page,
}) => {
  await signIn(page, 'ruth.amsel');
  await openSheet(page, 'Jess Lindqvist');
  await fillSheet(page);
  const before = countSigned();
  const refusal = { error: { path: 'validUntil', message: 'Valid until lies too far ahead.' } };
  await page.route('**/api/practicals', (route) => route.fulfill({ status: 422, json: refusal }), {
    times: 1,
  });
  await sign(page);
  await expect(page.getByText(/Valid until lies too far ahead\./).first()).toBeVisible();
  await page.goto(`${site.url}/practical/sheet`);
  await page.getByRole('button', { name: /^Open the sheet again/ }).click();
  await expect(page.getByText('is back as you left it')).toBeVisible();
  await expect(page.getByLabel('Place')).toHaveValue('Machine shop');
  await page.goto(`${site.url}/practical/sheet`);
  await page.getByRole('button', { name: /^Throw it away/ }).click();
  await expect(page.getByText('It is nowhere else.')).toBeVisible();
  await page.getByRole('button', { name: /^Throw it away/ }).click();
  await expect(page.getByText('The record was thrown away.')).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Not taken by the site' })).toHaveCount(0);
  expect(countSigned()).toBe(before);
});

test('a stop-the-work error ends the practical as not yet', async ({ page }) => {
  await signIn(page, 'dev.pradhan');
  await openSheet(page, 'Jess Lindqvist');
  await page.getByLabel('Place').fill('Machine shop');
  await page.getByRole('button', { name: 'Stop the work' }).click();
  await expect(
    page.getByRole('heading', { name: 'Stop the work if you see one of these' }),
  ).toBeFocused();
  await page.getByRole('checkbox', { name: /^Loosens the knife or the guard/ }).check();
  await expect(page.getByRole('heading', { name: 'The practical has ended' })).toBeVisible();
  await page
    .getByLabel('What happened')
    .fill('Reached for the clamp with the key in the isolator.');
  // nothing else of the same practical can be signed off any more
  await goToPart(page, /^1\./);
  await page.getByRole('radio', { name: 'Yes' }).first().check();
  await goToPart(page, 'Decide');
  await expect(page.getByText('Not yet: the work was stopped.')).toHaveCount(2);
  await expect(page.getByRole('radio', { name: 'Sign off' })).toHaveCount(0);
  await page.getByRole('button', { name: 'Review what you sign' }).click();
  await expect(page.getByText('Result: not yet.')).toHaveCount(2);
  await page.getByRole('radio', { name: 'I was told the result, and I do not agree' }).check();
  await page.getByRole('button', { name: /^Give it back to/ }).click();
  await expect(page.getByRole('alert')).toHaveText(
    'In your own words must say why, in 1 to 500 characters.',
  );
  await page.getByLabel('In your own words').fill('The key was turned off.');
  await page.getByRole('button', { name: /^Give it back to/ }).click();
  await page.locator('.review-unit > summary').first().click();
  await expect(
    page.getByText('I do not sign this person off for this work.').first(),
  ).toBeVisible();
  await expect(page.getByText('they did not agree').first()).toBeVisible();
  await page.getByLabel('Your password').fill(DEMO_PASSWORD);
  await page.getByRole('button', { name: 'Sign as Dev Pradhan' }).click();
  await expect(page.getByRole('heading', { name: 'Signed and logged' })).toBeVisible();
  await expect(page.getByRole('link', { name: /^Open the proof/ })).toHaveCount(0);
});

test('a bench out of service is said on the sheet before anything else', async ({ page }) => {
  await signIn(page, 'dev.pradhan');
  await page.goto(`${site.url}/register`);
  await page
    .getByRole('link', { name: /Bench 1/ })
    .first()
    .click();
  await page.getByRole('link', { name: 'Take out of service' }).click();
  await page.getByLabel('What is wrong').fill('Belt frayed.');
  await page.getByRole('button', { name: 'Take out of service' }).click();
  await expect(page.getByText('Out of service: do not use')).toBeVisible();
  await openSheet(page, 'Mira Holt');
  await expect(page.getByText('AL-01 is out of service')).toBeVisible();
  await expect(page.getByText(/Belt frayed/)).toBeVisible();
  await page.goto(`${site.url}/register`);
  await page
    .getByRole('link', { name: /Bench 1/ })
    .first()
    .click();
  await page.getByRole('link', { name: 'Return to service' }).click();
  await page.getByLabel('What was done').fill('New belt, run for ten minutes');
  await page.getByRole('button', { name: 'Return to service' }).click();
  await openSheet(page, 'Mira Holt');
  await expect(page.getByText('AL-01 is out of service')).toHaveCount(0);
});

/** Changes one stored record as somebody would who has the file. Returns how to put it back. */
function writeOver(id: string, change: (json: string) => string): () => void {
  const store = new DatabaseSync(join(site.data, 'store.sqlite'));
  const guards = store
    .prepare("select name, sql from sqlite_master where type = 'trigger' and tbl_name = 'event'")
    .all();
  for (const { name } of guards) store.exec(`drop trigger "${name}"`);
  const was = String(store.prepare('select json from event where id = ?').get(id)?.['json']);
  const put = store.prepare('update event set json = ? where id = ?');
  put.run(change(was), id);
  return () => {
    put.run(was, id);
    for (const { sql } of guards) store.exec(String(sql));
    store.close();
  };
}

test('a proof is checked here and in the browser, and a changed record says so on screen and on paper', async ({
  page,
}) => {
  await signIn(page, 'anna.weir');
  await page.goto(`${site.url}/who-may`);
  await expect(page.getByText(/2 practicals on 2 days: 1 so far/).first()).toBeVisible();
  const row = page.getByRole('row', { name: /Mira Holt/ }).first();
  await row.getByRole('link', { name: /^Open the proof/ }).click();
  await expect(page.getByText(/Again in this browser, .*: genuine\./)).toBeVisible();
  await expect(page.getByText('Genuine: signed, logged, in force')).toBeVisible();
  const accessible = await axe(page).analyze();
  expect(accessible.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);

  const code = await page.getByRole('img', { name: /^Code to open/ }).screenshot();
  const read = await readInOwnPage(page, code);
  expect(jsQR(Uint8ClampedArray.from(read.data), read.width, read.height)?.data).toBe(page.url());

  const id = page.url().split('/').at(-1) ?? '';
  const putBack = writeOver(id, (json) => json.replace('Redwood', 'Hardwood'));
  try {
    await page.reload();
    await expect(page.getByText('BROKEN: do not rely on this sheet')).toBeVisible();
    await expect(page.getByText(/Again in this browser, .*: broken\./)).toBeVisible();
    await page.emulateMedia({ media: 'print' });
    await expect(page.getByText('BROKEN: do not rely on this sheet')).toBeVisible();
    await expect(page.getByText('Genuine: signed, logged, in force')).toBeHidden();
    await expect(page.getByText('I sign this person off')).toHaveCount(0);
    await page.emulateMedia({ media: 'screen' });
    await page.goto(`${site.url}/who-may`);
    await expect(page.getByText('Altered records')).toBeVisible();
  } finally {
    putBack();
  }
});
