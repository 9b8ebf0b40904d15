import { gzipSync } from 'node:zlib';
import { expect, type Page, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { focused, tabTo } from '../helpers/by-keys.ts';
import { DEMO_PASSWORD, type Site, startSite } from '../helpers/site.ts';
import { fillSheet, goToPart, openSheet, reviewSheet, signInToDemo } from '../helpers/walk.ts';

/* The practical sheet as a trainer uses it at the machine: every unit, every step, every way in. */
const SCRIPT_KB = 170;

let site: Site;
test.setTimeout(90_000);
test.beforeAll(async () => {
  site = await startSite('demo');
});
test.afterAll(async () => {
  await site.stop();
});
test.use({ viewport: { width: 1024, height: 768 }, hasTouch: true });

const parts = (page: Page) =>
  page.getByRole('navigation', { name: 'Parts of the practical' }).getByRole('button');

async function expectAccessible(page: Page, where: string): Promise<void> {
  const { violations } = await axe(page).analyze();
  expect(
    violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`),
    where,
  ).toEqual([]);
}

/** A picture as a camera would give it, drawn in the page. */
async function picture(page: Page): Promise<Buffer> {
  const bytes = await page.evaluate(async () => {
    const canvas = new OffscreenCanvas(64, 48);
    const context = canvas.getContext('2d');
    context?.fillRect(8, 8, 20, 20);
    return [
      ...new Uint8Array(await (await canvas.convertToBlob({ type: 'image/jpeg' })).arrayBuffer()),
    ];
  });
  return Buffer.from(bytes);
}

test.describe('without a network', () => {
  test.use({ serviceWorkers: 'allow' });

  test('all seven units are signed with one password without a network, with a photo, and sent', async ({
    page,
    context,
  }) => {
    await signInToDemo(page, site.url, 'ruth.amsel');
    await page.goto(`${site.url}/practical/sheet`);
    await page.getByLabel('Your password').fill(DEMO_PASSWORD);
    await page.getByRole('button', { name: 'Make it ready' }).click();
    await expect(
      page.getByText('This device is ready to be used without a network.'),
    ).toBeVisible();
    await context.setOffline(true);

    await openSheet(page, site.url, 'Jess Lindqvist');
    await page.getByLabel('Place').fill('Machine shop');
    await page.getByLabel('Stock', { exact: true }).fill('Redwood, 50 by 200, dry');
    await page.getByRole('textbox', { name: 'Kerf, over the teeth' }).fill('4.2');
    await page.getByRole('textbox', { name: 'Blade plate' }).fill('2.8');
    const units = await parts(page).filter({ hasText: /^\d\./ }).count();
    expect(units).toBe(7);
    for (let index = 1; index <= units; index += 1) {
      await parts(page).nth(index).click();
      for (const yes of await page.locator('.watch-answer', { hasText: /^Yes$/ }).all()) {
        await yes.click();
      }
      await expect(parts(page).nth(index)).toContainText(/(\d) of \1 seen/);
    }
    const photo = { name: 'knife.jpg', mimeType: 'image/jpeg', buffer: await picture(page) };
    await page.locator('[id="photo.machine"]').setInputFiles(photo);
    await expect(page.locator('.photo img')).toHaveCount(1);

    await goToPart(page, 'Decide');
    await page.getByRole('button', { name: 'Propose a decision on each' }).click();
    // what was not measured speaks against a sign-off
    await expect(page.getByRole('radio', { name: 'Not yet', checked: true })).not.toHaveCount(0);
    await expect(page.getByRole('radio', { name: 'Sign off', checked: true })).not.toHaveCount(0);
    await reviewSheet(page);
    await expect(page.getByText('your password is checked on this device')).toBeVisible();
    await page.getByLabel('Your password').fill(DEMO_PASSWORD);
    await page.getByRole('button', { name: 'Sign as Ruth Amsel' }).click();
    await expect(
      page.getByRole('heading', { name: 'Signed, and kept on this device' }),
    ).toBeVisible();
    await expect(page.getByText(/Not received by the site yet/)).toHaveCount(7);
    await expect(page.getByRole('alert')).toContainText('7 signed records wait on this device.');

    await context.setOffline(false);
    await page.goto(`${site.url}/practical/sheet`);
    await expect(
      page.getByText('Nothing waits: all that was signed here is with the site.'),
    ).toBeVisible({ timeout: 30_000 });
    await page.getByLabel('Person you watch').selectOption({ label: 'Jess Lindqvist' });
    await page.getByLabel('Bench').selectOption({ index: 1 });
    await page.getByLabel('Kind of work').selectOption('rip');
    await page.reload();
    await page.getByLabel('Person you watch').selectOption({ label: 'Jess Lindqvist' });
    await page.getByLabel('Bench').selectOption({ index: 1 });
    await page.getByLabel('Kind of work').selectOption('rip');
    await expect(page.getByText(/by Ruth Amsel|watched by Ruth Amsel/)).toHaveCount(7);
  });
});

test('every step is accessible, and fits 390 px without going over the side', async ({ page }) => {
  const fits = async (where: string) => {
    await page.setViewportSize({ width: 390, height: 844 });
    const over = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(over, where).toBeLessThanOrEqual(0);
    await page.setViewportSize({ width: 1024, height: 768 });
  };
  const check = async (where: string) => {
    await expectAccessible(page, where);
    await fits(where);
  };
  await signInToDemo(page, site.url, 'ruth.amsel');
  await page.goto(`${site.url}/practical/sheet`);
  await expect(page.getByRole('heading', { name: 'Ready for the machine' })).toBeVisible();
  await check('start');
  await openSheet(page, site.url, 'Tom Okafor');
  await check('machine');
  await page.getByRole('button', { name: 'Stop the work' }).click();
  await expect(page.getByRole('heading', { name: /^Stop the work/ })).toBeFocused();
  await check('stop');
  await fillSheet(page, site.url, 'Tom Okafor', 'Machine shop');
  await check('decide');
  await goToPart(page, /^3\./);
  await check('unit');
  await goToPart(page, 'Decide');
  await page.getByRole('button', { name: 'Review what you sign' }).click();
  await expect(page.getByRole('heading', { name: 'Hand the device to Tom Okafor' })).toBeFocused();
  await check('hear');
  await page.getByRole('button', { name: 'Back to the sheet' }).click();
  await reviewSheet(page);
  await check('review');
  // a print of it must not pass for a signed record
  const mark = page.getByText('Not signed. This is a draft and proves nothing.');
  await expect(mark).toBeHidden();
  await page.emulateMedia({ media: 'print' });
  await expect(mark).toBeVisible();
  const size = await mark.evaluate((node) => Number.parseFloat(getComputedStyle(node).fontSize));
  expect(size).toBeGreaterThanOrEqual(28);
  await page.emulateMedia({ media: 'screen' });
  await page.getByLabel('Your password').fill(DEMO_PASSWORD);
  await page.getByRole('button', { name: 'Sign as Ruth Amsel' }).click();
  await expect(page.getByRole('heading', { name: 'Signed and logged' })).toBeFocused();
  await check('outcome');
});

test('the whole sheet is worked by keyboard alone', async ({ page }) => {
  await signInToDemo(page, site.url, 'dev.pradhan');
  await openSheet(page, site.url, 'Mira Holt');
  await page.getByLabel('Day of the practical').focus();
  await tabTo(page, 'Place');
  await page.keyboard.type('Machine shop');
  await tabTo(page, /^Stock/);
  await page.keyboard.type('Redwood, dry');
  await tabTo(page, 'Next part');
  await page.keyboard.press('Enter');
  // each step begins at its heading, so that a reader hears where they are
  await expect.poll(() => focused(page)).toMatch(/^1\./);
  await tabTo(page, 'Yes');
  await page.keyboard.press('Space');
  await page.keyboard.press('ArrowRight');
  await expect.poll(() => focused(page)).toBe('No');
  await tabTo(page, 'Decide');
  await page.keyboard.press('Enter');
  await expect.poll(() => focused(page)).toMatch(/^Your decision on Mira Holt/);
  await tabTo(page, 'Sign off');
  await page.keyboard.press('ArrowDown');
  await expect.poll(() => focused(page)).toBe('Not yet');
  await tabTo(page, /stand in the way|stands in the way/);
  await page.keyboard.press('Enter');
  await tabTo(page, /was seen, and answered no/);
  await page.keyboard.press('Enter');
  // the way to what is in the way
  await expect(page.getByRole('navigation').locator('[aria-current="step"]')).toContainText('1.');
  await expect(page.locator('fieldset:focus')).toBeVisible();
  await tabTo(page, 'Decide');
  await page.keyboard.press('Enter');
  await tabTo(page, 'Review what you sign');
  await page.keyboard.press('Enter');
  await tabTo(page, /^I was told the result, and I agree/);
  await page.keyboard.press('Space');
  await tabTo(page, /^Give it back to/);
  await page.keyboard.press('Enter');
  await tabTo(page, 'Your password');
  await page.keyboard.type(DEMO_PASSWORD);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Signed and logged' })).toBeFocused();
});

test('who was told one result is asked again about another, and a reason is asked where nobody agreed', async ({
  page,
}) => {
  await signInToDemo(page, site.url, 'ruth.amsel');
  await fillSheet(page, site.url, 'Mira Holt', 'Machine shop');
  await reviewSheet(page);
  await page.getByRole('button', { name: 'Back to the sheet' }).click();
  await goToPart(page, 'Decide');
  await page.getByRole('radio', { name: 'Not yet' }).check();
  await page.getByRole('button', { name: 'Review what you sign' }).click();
  await expect(
    page.getByRole('radio', { name: 'I was told the result, and I agree' }),
  ).not.toBeChecked();
  await page.getByRole('radio', { name: 'Not asked' }).check();
  await page.getByRole('button', { name: /^Give it back to/ }).click();
  await expect(page.getByRole('alert')).toHaveText(
    'In your own words must say why, in 1 to 500 characters.',
  );
  await page.getByLabel('In your own words').fill('Called away to the yard.');
  await page.getByRole('button', { name: /^Give it back to/ }).click();
  await expect(page.getByRole('heading', { name: 'Review what you sign' })).toBeVisible();
});

test('a sheet of one unit from before is on the disk in its new form before the old one goes', async ({
  page,
}) => {
  await signInToDemo(page, site.url, 'ruth.amsel');
  await openSheet(page, site.url, 'Tom Okafor');
  await page.getByLabel('Place').fill('Yard');
  await expect(page.getByText(/^Kept on this device at/)).toBeVisible();
  // as the page before this one left it: one unit, six parts to its key
  const sheets = () =>
    page.evaluate(async () => {
      const open = indexedDB.open('signed-to-saw');
      const db = await new Promise<IDBDatabase>((done) => {
        open.onsuccess = () => done(open.result);
      });
      const ask = db.transaction('sheets').objectStore('sheets').getAll();
      return new Promise<{ sheetKey: string; sheet: Record<string, unknown> }[]>((done) => {
        ask.onsuccess = () => {
          db.close();
          done(ask.result);
        };
      });
    });
  await page.evaluate(async () => {
    const open = indexedDB.open('signed-to-saw');
    const db = await new Promise<IDBDatabase>((done) => {
      open.onsuccess = () => done(open.result);
    });
    const change = db.transaction('sheets', 'readwrite');
    const store = change.objectStore('sheets');
    const ask = store.getAll();
    await new Promise<void>((done) => {
      ask.onsuccess = () => {
        const [now] = ask.result.filter(({ title }) => title.includes('Tom Okafor'));
        store.delete(now.sheetKey);
        store.put({
          ...now,
          sheetKey: `${now.sheetKey}/set-knife-and-guard/1`,
          sheet: {
            ...now.sheet.shared,
            criteria: { 'isolated-first': { result: 'yes', note: 'Said who holds the key' } },
            readings: {},
            stops: [],
            stopNote: '',
            decision: null,
          },
        });
      };
      change.oncomplete = () => done();
    });
    db.close();
  });
  await page.reload();
  await expect(parts(page).nth(3)).toContainText('1 of 9 seen');
  // nothing is typed, and the sheet is there all the same
  await expect
    .poll(
      async () =>
        (await sheets()).filter(({ sheetKey }) => sheetKey.split('/').length === 4).length,
    )
    .toBeGreaterThan(0);
  await page.reload();
  await goToPart(page, /^3\./);
  await expect(page.getByLabel(/^Note on what was seen/).first()).toHaveValue(
    'Said who holds the key',
  );
});

test('in German the sheet, its limits and what stands in the way are in German', async ({
  page,
}) => {
  await signInToDemo(page, site.url, 'ruth.amsel');
  await page.goto(`${site.url}/de/practical/sheet`);
  await page.getByLabel('Person, die Sie prüfen').selectOption({ label: 'Tom Okafor' });
  await page.getByLabel('Säge', { exact: true }).selectOption({ index: 1 });
  await page.getByLabel('Art der Arbeit').selectOption('rip');
  await page.getByRole('button', { name: 'Bogen öffnen' }).click();
  await page.getByRole('textbox', { name: 'Schnittbreite, über die Zähne' }).fill('4,2');
  await page.getByRole('textbox', { name: 'Stammblatt' }).fill('2,8');
  const bar = page.getByRole('navigation', { name: 'Teile der Prüfung' });
  await bar.getByRole('button', { name: /^3\./ }).click();
  await page.locator('.measure').nth(3).getByRole('textbox').fill('2');
  await expect(page.locator('.measure-verdict').nth(3)).toContainText(
    /höchstens|mindestens|mehr als|weniger als/,
  );
  await bar.getByRole('button', { name: 'Entscheiden' }).click();
  await page.locator('.blockers > summary').click();
  await expect(page.locator('.blockers')).toContainText(
    /außerhalb des Grenzwerts: .*(höchstens|mindestens|mehr als|weniger als)/,
  );
});

test('the script of the sheet keeps to its bytes, and carries no schema library', async ({
  page,
}) => {
  await signInToDemo(page, site.url, 'ruth.amsel');
  await openSheet(page, site.url, 'Tom Okafor');
  await page.waitForLoadState('networkidle');
  // asked for again by address: what the browser has of them went with the page before
  const paths = await page.evaluate(() =>
    performance
      .getEntriesByType('resource')
      .map(({ name }) => name)
      .filter((name) => /\.js(\?|$)/.test(name)),
  );
  const scripts = new Map<string, Buffer>();
  for (const path of new Set(paths)) {
    scripts.set(path, await (await page.request.get(path)).body());
  }
  const kB =
    [...scripts.values()].reduce((sum, body) => sum + gzipSync(body, { level: 9 }).length, 0) /
    1024;
  console.log(`practical sheet: script ${kB.toFixed(1)} kB in ${scripts.size} files`);
  expect(scripts.size).toBeGreaterThan(2);
  expect(kB).toBeLessThanOrEqual(SCRIPT_KB);
  for (const [url, body] of scripts) expect(body.includes('ZodError'), url).toBe(false);
});
