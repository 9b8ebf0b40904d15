import { expect, type Page, test } from '@playwright/test';
import type { Statement } from '../../src/records/index.ts';
import { axe } from '../helpers/axe.ts';
import { signOverInterface } from '../helpers/signed-practical.ts';
import { DEMO_PASSWORD, type Site, startSite } from '../helpers/site.ts';
import { signInToDemo } from '../helpers/walk.ts';

let site: Site;
test.beforeAll(async () => {
  site = await startSite('demo');
});
test.afterAll(async () => {
  await site.stop();
});
test.use({ viewport: { width: 1024, height: 768 }, hasTouch: true });

const signIn = (page: Page, who: string) => signInToDemo(page, site.url, who);
const signOut = async (page: Page) => page.context().clearCookies();
const record = ({ signoff }: Statement) => `${site.url}/practical/${signoff}`;

async function expectAccessible(page: Page): Promise<void> {
  const { violations } = await axe(page).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
}

/** A picture as a tablet's browser makes it. */
async function takePhoto(page: Page): Promise<Uint8Array> {
  await page.goto(`${site.url}/limits`);
  const bytes = await page.evaluate(async () => {
    const canvas = new OffscreenCanvas(320, 240);
    canvas.getContext('2d')?.fillRect(20, 20, 100, 100);
    const blob = await canvas.convertToBlob({ type: 'image/jpeg' });
    return [...new Uint8Array(await blob.arrayBuffer())];
  });
  return new Uint8Array(bytes);
}

async function signedByRuth(page: Page, trainee = 'Mira Holt'): Promise<Statement> {
  await signIn(page, 'ruth.amsel');
  return signOverInterface(page, site.url, trainee);
}

test('a record shows its photos by what they are of, and says of one that it has not come', async ({
  page,
}) => {
  await signIn(page, 'ruth.amsel');
  const photo = await takePhoto(page);
  const statement = await signOverInterface(page, site.url, 'Mira Holt', photo);
  await page.goto(record(statement));
  const shown = page.getByRole('img', { name: `Photo of: ${statement.criteria[0]?.text}` });
  await shown.scrollIntoViewIfNeeded();
  await expect
    .poll(() => shown.evaluate((img) => (img as HTMLImageElement).naturalWidth))
    .toBe(320);
  await expect(page.getByText('This photo has not come yet.')).toHaveCount(1);
  await expect(page.getByText('I will check the gap again.')).toBeVisible();
  await expect(page.getByText('On the site, for this signature')).toBeVisible();
  await expectAccessible(page);
});

test('a second trainer reads, signs by keyboard, and stands in the story and on the proof', async ({
  page,
}) => {
  const statement = await signedByRuth(page);
  await page.goto(record(statement));
  // who signed first is not asked to sign a second time
  await expect(page.getByRole('heading', { name: 'What became of it' })).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Sign as a second trainer' })).toHaveCount(0);
  await signOut(page);
  await signIn(page, 'dev.pradhan');
  await page.goto(record(statement));
  const button = page.getByRole('button', { name: 'Sign as Dev Pradhan' });
  await expect(button).toBeVisible();
  await expectAccessible(page);

  await button.focus();
  await page.keyboard.press('Enter');
  await expect(page.getByText('answer must be chosen')).toBeVisible();
  await page.keyboard.press('ArrowDown');
  await expect(page.getByRole('radio', { name: 'I do not agree', exact: true })).toBeChecked();
  await button.press('Enter');
  await expect(page.getByText('note must say why')).toBeVisible();
  await expect(page.getByLabel('Why', { exact: true })).toBeFocused();
  await page.keyboard.press('Shift+Tab');
  await page.keyboard.press('ArrowUp');
  await expect(page.getByText('I agree with its result, as a second trainer.')).toBeVisible();
  await page.getByLabel('Your password').fill('not the right one');
  await page.keyboard.press('Enter');
  await expect(page.getByText('That is not your password, so nothing was signed.')).toBeVisible();
  await expect(page.getByLabel('Your password')).toBeFocused();
  await page.keyboard.type(DEMO_PASSWORD);
  await page.keyboard.press('Enter');
  await expect(page.getByText('Your signature is in the log, beside the record.')).toBeVisible();
  const story = page.locator('.story');
  await expect(story).toContainText('Dev Pradhan read it as a second trainer and signed');
  await expect(page.getByRole('heading', { name: 'Sign as a second trainer' })).toHaveCount(0);

  await page.goto(`${site.url}/proof/${statement.signoff}`);
  await expect(page.getByText('Dev Pradhan read it as a second trainer and signed')).toBeVisible();
  await expect(page.getByText('Genuine: signed, logged, in force')).toBeVisible();
});

test('the person appeals, another trainer has it watched again, and all of it is told in order', async ({
  page,
}) => {
  const statement = await signedByRuth(page, 'Tom Okafor');
  await signOut(page);
  await signIn(page, 'tom.okafor');
  await page.goto(record(statement));
  await expectAccessible(page);
  await page.getByRole('radio', { name: 'I appeal' }).check();
  await page.getByRole('button', { name: 'Send this answer' }).click();
  await expect(page.getByRole('alert')).toHaveText(/^words must say why/);
  await expect(page.getByRole('radio', { name: 'I appeal' })).toBeChecked();
  await page.getByLabel('Why').fill('The guard was set by somebody else.');
  await page.getByRole('button', { name: 'Send this answer' }).click();
  await expect(page.getByText('Your answer is kept with the record.')).toBeVisible();
  await expect(page.getByRole('radio', { name: 'I appeal' })).toHaveCount(0);

  await signOut(page);
  await signIn(page, 'ruth.amsel');
  await page.goto(record(statement));
  await expect(page.getByText('so another trainer or the employer settles')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Settle this appeal' })).toHaveCount(0);

  await signOut(page);
  await signIn(page, 'dev.pradhan');
  await page.goto(record(statement));
  await page.getByRole('radio', { name: 'It is to be watched again' }).check();
  const settle = page.getByRole('region').or(page.locator('form', { hasText: 'What comes of it' }));
  await settle.getByLabel('Reason').first().fill('The gap was not measured on the day.');
  await expectAccessible(page);
  await page.getByRole('button', { name: 'Settle this appeal' }).click();
  await expect(page.getByText('The appeal is settled')).toBeVisible();
  const lines = page.locator('.story > li');
  await expect(lines).toHaveCount(3);
  await expect(lines.nth(1)).toContainText('Tom Okafor appeals');
  await expect(lines.nth(2)).toContainText('to be watched again by another trainer');
  await expect(lines.nth(2).getByRole('link', { name: 'Open a new practical' })).toBeVisible();
});

test('a lost device is ended, its owner signed out elsewhere, and what it signed stays genuine', async ({
  page,
  browser,
}) => {
  const statement = await signedByRuth(page, 'Jess Lindqvist');
  const thief = await browser.newContext();
  const tablet = await thief.newPage();
  await signIn(tablet, 'ruth.amsel');

  await page.goto(`${site.url}/my-book`);
  await page.getByRole('link', { name: 'Devices that sign for you' }).click();
  await page.locator('.device').first().locator('summary').click();
  await expectAccessible(page);
  const device = page.locator('.device').first();
  await device.getByRole('radio', { name: 'lost' }).check();
  await device.getByLabel('Your own password').fill('not the right one');
  await device.getByRole('button', { name: 'End this device' }).click();
  await expect(page.getByText('That is not your password, so nothing was changed.')).toBeVisible();
  await expect(device.getByRole('radio', { name: 'lost' })).toBeChecked();
  await device.getByLabel('Your own password').fill(DEMO_PASSWORD);
  await device.getByRole('button', { name: 'End this device' }).click();
  await expect(page.getByText('The device is ended.')).toBeVisible();
  await expect(page.locator('.device').first()).toContainText('by Ruth Amsel: lost');

  await tablet.goto(`${site.url}/my-book`);
  await expect(tablet).toHaveURL(/sign-in/);
  await thief.close();
  await page.goto(`${site.url}/proof/${statement.signoff}`);
  await expect(page.getByText('Genuine: signed, logged, in force')).toBeVisible();
});

test('the pages hold on a screen of 320 px', async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 640 });
  const statement = await signedByRuth(page);
  await signOut(page);
  await signIn(page, 'dev.pradhan');
  for (const path of [
    `/practical/${statement.signoff}`,
    `/de/practical/${statement.signoff}`,
    '/devices',
    '/de/devices',
  ]) {
    await page.goto(`${site.url}${path}`);
    await page.evaluate(() => {
      for (const one of document.querySelectorAll('details')) one.open = true;
    });
    const wider = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(wider, path).toBeLessThanOrEqual(0);
  }
});
