import { expect, type Page, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { signOffDemo } from '../helpers/sign-off-demo.ts';
import { DEMO_PASSWORD, type Site, startSite } from '../helpers/site.ts';
import { signInToDemo } from '../helpers/walk.ts';

let site: Site;
test.beforeAll(async () => {
  site = await startSite('demo');
  await signOffDemo(site, 'Mira Holt');
});
test.afterAll(() => site.stop());
test.describe.configure({ mode: 'serial' });

let sheet = '';

async function signInAs(page: Page, who: string): Promise<void> {
  await page.context().clearCookies();
  await signInToDemo(page, site.url, who);
}

async function expectAccessible(page: Page): Promise<void> {
  expect((await axe(page).analyze()).violations).toEqual([]);
}

/** Pages of paper, counted in the file itself. */
async function pagesOn(page: Page, format: 'A4' | 'Letter'): Promise<number> {
  const pdf = (await page.pdf({ format })).toString('latin1');
  return pdf.match(/\/Type\s*\/Page\b/g)?.length ?? 0;
}

test('the rules ask for a second person', async ({ page }) => {
  await signInAs(page, 'anna.weir');
  await page.goto(`${site.url}/rules`);
  await expectAccessible(page);
  await page.getByLabel('Longest time of a sign-off').fill('61');
  await page.locator('main form[action="/rules"]').evaluate((form: HTMLFormElement) => {
    form.noValidate = true;
  });
  await page.getByRole('button', { name: 'Set these rules' }).click();
  await expect(page.getByRole('alert')).toHaveText('months must be a whole number from 1 to 60.');
  await page.getByLabel('Longest time of a sign-off').fill('24');
  await page.getByLabel('Each authorisation', { exact: true }).check();
  await page.getByRole('button', { name: 'Set these rules' }).click();
  await expect(page.getByText('The rules are set.')).toBeVisible();
  await expect(page.getByText('Anna Weir: 24 months')).toBeVisible();
});

test('the rules say how long photos and accounts are kept, by a form of their own', async ({
  page,
}) => {
  await signInAs(page, 'anna.weir');
  await page.goto(`${site.url}/rules`);
  const photos = page.getByLabel('Photos of practicals, months');
  await expect(photos).toHaveValue('36');
  await photos.fill('2');
  await page.locator('main form[action="/rules#keep"]').evaluate((form: HTMLFormElement) => {
    form.noValidate = true;
  });
  await page.getByRole('button', { name: 'Set these times' }).click();
  await expect(page.getByRole('alert')).toHaveText(
    'Months for photos must be a whole number from 3 to 120.',
  );
  await expect(photos).toHaveValue('2');
  await photos.fill('12');
  await page.getByRole('button', { name: 'Set these times' }).click();
  await expect(page.getByText('The times are set.')).toBeVisible();
  await expect(page.getByText('Photos: 12 months, chosen by Anna Weir on')).toBeVisible();
  await expect(page.getByText(/^Accounts: 36 months/)).toHaveCount(0);
  await expectAccessible(page);
});

test('the employer gives an authorisation with the keyboard alone', async ({ page }) => {
  await signInAs(page, 'anna.weir');
  await page.goto(`${site.url}/authorisations/new`);
  await page.getByLabel('Person').selectOption({ label: 'Mira Holt, trainee' });
  await page.getByLabel('Bench').selectOption({ label: 'Bench 1, AL-01' });
  await page.getByRole('button', { name: 'Go on' }).press('Enter');
  await expect(page.getByRole('checkbox', { name: 'ripping' })).toBeChecked();
  await expect(page.getByRole('checkbox', { name: 'crosscutting' })).toHaveCount(0);
  await expect(page.getByText('Not offered, because')).toBeVisible();
  await expectAccessible(page);
  await page.getByLabel('Conditions').fill('No rebating.\nA second person takes off.');
  await page.getByLabel('Largest thickness, mm').fill('60');
  await page.getByRole('radio', { name: 'Yes', exact: true }).press('Space');
  await page.getByRole('button', { name: 'Read it before you sign' }).press('Enter');
  await expect(page.getByRole('heading', { name: 'Read what you sign' })).toBeVisible();
  await expect(page.getByText('This person may use AL-01 for ripping')).toBeVisible();
  await expectAccessible(page);

  await page.getByRole('button', { name: 'Change something' }).press('Enter');
  await expect(page.getByLabel('Conditions')).toHaveValue(/A second person takes off/);
  await page.getByRole('button', { name: 'Read it before you sign' }).click();
  await page.getByLabel('Your password').fill('not the password');
  await page.getByRole('button', { name: 'Sign as Anna Weir' }).click();
  await expect(page.getByRole('alert')).toContainText('That is not your password');
  await page.getByLabel('Your password').fill(DEMO_PASSWORD);
  await page.getByLabel('Your password').press('Enter');
  await expect(page.getByRole('heading', { name: 'Authorisation', exact: true })).toBeVisible();
  sheet = page.url();
  await expect(page.locator('.proof-stamp')).toHaveText('Waits for a second person');
  await expect(page.getByText('As a second person')).toHaveCount(0);
  await expectAccessible(page);
});

test('a second person agrees, and the sheet prints on one page', async ({ page }) => {
  await signInAs(page, 'dev.pradhan');
  await page.goto(sheet);
  await page.getByRole('radio', { name: 'I do not agree' }).check();
  await page.getByRole('button', { name: 'Enter my answer' }).click();
  await expect(page.getByRole('alert')).toContainText('reason must be 1 to 300 characters');
  await page.getByRole('radio', { name: 'I agree', exact: true }).check();
  await page.getByRole('button', { name: 'Enter my answer' }).click();
  await expect(page.locator('.proof-stamp')).toHaveText('In force');
  await expect(page.getByText('Dev Pradhan agreed as a second person')).toBeVisible();
  expect(await pagesOn(page, 'A4')).toBe(1);
  expect(await pagesOn(page, 'Letter')).toBe(1);
});

test('the trainee sees it, and may change nothing of it', async ({ page }) => {
  await signInAs(page, 'mira.holt');
  await page.goto(`${site.url}/my-book`);
  await expect(page.getByRole('heading', { name: 'Your authorisations' })).toBeVisible();
  await page.goto(sheet);
  await expect(page.locator('.proof-stamp')).toHaveText('In force');
  await expect(page.locator('.changes')).toHaveCount(0);
  const headers = { origin: site.url };
  const form = { do: 'end', id: crypto.randomUUID(), reason: 'mine' };
  const refused = await page.request.post(sheet, { form, headers, maxRedirects: 0 });
  expect(refused.status()).toBe(403);
  expect((await page.goto(`${site.url}/authorisations/new`))?.status()).toBe(403);
  await signInAs(page, 'tom.okafor');
  expect((await page.goto(sheet))?.status()).toBe(403);
});

test('it rests when suspended, is refreshed, and ends for good', async ({ page }) => {
  await signInAs(page, 'dev.pradhan');
  await page.goto(sheet);
  await page.getByText('Suspend it', { exact: true }).click();
  await page.getByRole('radio', { name: 'a near miss' }).check();
  await page.locator('#suspend-note').fill('The push stick was left away.');
  await page.getByRole('button', { name: 'Suspend', exact: true }).click();
  await expect(page.locator('.proof-stamp')).toHaveText('Rests');
  await page.goto(`${site.url}/due`);
  await expect(
    page.getByText('Mira Holt, AL-01: the authorisation for ripping rests').first(),
  ).toBeVisible();
  await page.goto(sheet);
  await page.getByText('Refresh it').click();
  await page.getByRole('radio', { name: 'Shown and talked through' }).check();
  await page.locator('#refresh-note').fill('Push stick, at the machine.');
  await page.getByRole('button', { name: 'Refresh', exact: true }).click();
  await expect(page.locator('.proof-stamp')).toHaveText('In force');
  await page.getByText('End it', { exact: true }).click();
  await page.locator('#end-note').fill('Moves to another bench.');
  await page.getByRole('button', { name: 'End the authorisation' }).click();
  await expect(page.locator('.proof-stamp')).toHaveText('Ended');
  await expect(page.locator('.changes')).toHaveCount(0);
  await page.goto(`${site.url}/authorisations?state=ended`);
  await expect(page.getByText('1 authorisation', { exact: true })).toBeVisible();
  await expectAccessible(page);
  await page.goto(`${site.url}/authorisations?state=in-force`);
  await expect(page.getByText('There is no authorisation that fits.')).toBeVisible();
});

test('the form works in German and without script', async ({ browser }) => {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(`${site.url}/de/sign-in`);
  await page.getByLabel('E-Mail').fill('ruth.amsel@alderlane.example');
  await page.getByLabel('Passwort').fill(DEMO_PASSWORD);
  await page.getByRole('main').getByRole('button').click();
  await page.goto(`${site.url}/de/authorisations/new`);
  await page.getByLabel('Person').selectOption({ label: 'Mira Holt, lernend' });
  await page.getByLabel('Säge', { exact: true }).selectOption({ index: 1 });
  await page.getByRole('button', { name: 'Weiter' }).click();
  await page.getByRole('radio', { name: 'Ja' }).check();
  await page.getByRole('button', { name: 'Vor der Unterschrift lesen' }).click();
  await page.getByLabel('Ihr Passwort').fill(DEMO_PASSWORD);
  await page.getByRole('button', { name: 'Als Ruth Amsel unterschreiben' }).click();
  await expect(page.locator('.proof-stamp')).toHaveText('Wartet auf eine zweite Person');
  await context.close();
});
