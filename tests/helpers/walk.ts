import { expect, type Page } from '@playwright/test';
import { DEMO_PASSWORD } from './site.ts';

/** Steps that people take on the site, shared by the walks and the pictures. */

export async function signIn(
  page: Page,
  url: string,
  email: string,
  password: string,
): Promise<void> {
  await page.goto(`${url}/sign-in`);
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password').fill(password);
  await page.getByRole('main').getByRole('button', { name: 'Sign in', exact: true }).click();
  await page.waitForURL((at) => at.pathname !== '/sign-in');
}

/** Signs in somebody of the demo by the first part of their e-mail, `mira.holt`. */
export const signInToDemo = (page: Page, url: string, who: string): Promise<void> =>
  signIn(page, url, `${who}@alderlane.example`, DEMO_PASSWORD);

/** The bench task of knife and guard, done in the order of work, as the panel would send it. */
const SET_RIGHT = [
  { do: 'isolate' },
  { do: 'unlock', part: 'knife' },
  { do: 'set', setting: 'knife.up', to: 0 },
  { do: 'set', setting: 'knife.along', to: 3 },
  { do: 'measure', with: 'feeler', at: 'knife-gap-at-table' },
  { do: 'lock', part: 'knife' },
  { do: 'unlock', part: 'guard' },
  { do: 'set', setting: 'guard.height', to: 57 },
  { do: 'set', setting: 'guard.front', to: -235 },
  { do: 'lock', part: 'guard' },
  { do: 'rest-fingers' },
];

/** Hands in an attempt over the interface, as whoever the page is signed in as; returns its id. */
export async function handInAttempt(page: Page, url: string, task: string): Promise<string> {
  const headers = { origin: url };
  const start = await page.request.post(`${url}/api/attempts`, { data: { task }, headers });
  const { token, attempt } = (await start.json()) as { token: string; attempt: string };
  const claims = [
    { part: 'blade', fault: 'cracked-gullet', remedy: 'take-out-of-service' },
    { part: 'guard', fault: 'guard-too-high', remedy: 'put-right' },
    { part: 'knife', fault: 'knife-too-far', remedy: 'put-right' },
  ];
  const work =
    task === 'walk-round'
      ? { actions: [{ do: 'isolate' }], claims }
      : { actions: SET_RIGHT, claims: [] };
  const done = await page.request.post(`${url}/api/attempts/submit`, {
    data: { token, ...work },
    headers,
  });
  expect(done.ok()).toBe(true);
  return attempt;
}

/** What a trainer reads off a bench set well, in the order of unit 3. */
const READINGS = ['7/32', '6.5', '2', '3.2', '8', '65', '65'];

/** Opens the sheet of a practical for somebody, on the first bench, for ripping. */
export async function openSheet(page: Page, url: string, trainee: string): Promise<void> {
  await page.goto(`${url}/practical/sheet`);
  await page.getByLabel('Person you watch').selectOption({ label: trainee });
  await page.getByLabel('Bench').selectOption({ index: 1 });
  await page.getByLabel('Kind of work').selectOption('rip');
  await page.getByRole('button', { name: 'Open the sheet' }).click();
  await expect(page.getByRole('heading', { name: /^Practical:/ })).toBeVisible();
}

/** Goes to one of the parts along the top of the sheet. */
export const goToPart = (page: Page, name: string | RegExp): Promise<void> =>
  page
    .getByRole('navigation', { name: 'Parts of the practical' })
    .getByRole('button', { name })
    .click();

/** Opens the sheet and fills unit 3 in, decided and ready to review. */
export async function fillSheet(
  page: Page,
  url: string,
  trainee: string,
  place: string,
): Promise<void> {
  await openSheet(page, url, trainee);
  await page.getByLabel('Place').fill(place);
  await page.getByLabel('Stock', { exact: true }).fill('Redwood, 50 by 220, dry');
  await page.getByRole('textbox', { name: 'Kerf, over the teeth' }).fill('4,2');
  await page.getByRole('textbox', { name: 'Blade plate' }).fill('2.8');
  await goToPart(page, /^3\./);
  for (const answer of await page.locator('.watch-answer', { hasText: /^Yes$/ }).all()) {
    await answer.click();
  }
  const readings = page.locator('.measure');
  await expect(readings).toHaveCount(READINGS.length);
  for (const [i, value] of READINGS.entries()) {
    await readings.nth(i).getByRole('textbox').fill(value);
    if (value.includes('/'))
      await readings
        .nth(i)
        .getByLabel(/^Unit of/)
        .selectOption('inch');
  }
  await waitForVerdicts(page);
  await goToPart(page, 'Decide');
  // the page moves to its heading first, and nothing is pressed on the way
  await expect(page.locator('#part-decision')).toBeFocused();
  await page.getByRole('radio', { name: 'Sign off' }).check();
}

/** Every reading is held against its limit before anything can be signed. */
export async function waitForVerdicts(page: Page): Promise<void> {
  await expect(page.getByText('Within the limit').first()).toBeVisible();
}

/** Reviews a sheet: the person watched hears the result and agrees, then the trainer reads what they sign. */
export async function reviewSheet(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Review what you sign' }).click();
  await page.getByRole('radio', { name: 'I was told the result, and I agree' }).check();
  await page.getByRole('button', { name: /^Give it back to/ }).click();
  await expect(page.getByRole('heading', { name: 'Review what you sign' })).toBeVisible();
  await expect(page.getByLabel('Your password')).toBeVisible();
}

export async function signSheet(page: Page, trainer: string, password: string): Promise<void> {
  await page.getByLabel('Your password').fill(password);
  await page.getByRole('button', { name: `Sign as ${trainer}` }).click();
}
