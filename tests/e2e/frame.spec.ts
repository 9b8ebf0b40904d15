import { expect, type Page, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { DEMO_PASSWORD, type Site, startSite } from '../helpers/site.ts';
import { signInToDemo } from '../helpers/walk.ts';

/** The frame of every page: units, theme, narrow screens, reading aids, and who may open what. */
let site: Site;
test.beforeAll(async () => {
  site = await startSite('demo');
});
test.afterAll(async () => {
  await site.stop();
});

const signIn = (page: Page, who: string) => signInToDemo(page, site.url, who);

test('lengths follow the unit switch, and the choice is kept on the next page', async ({
  page,
}) => {
  await page.goto(`${site.url}/limits`);
  const figure = page
    .getByRole('row', { name: /Push stick length/ })
    .locator('.length')
    .first();
  await expect(figure).toHaveText('400 mm');
  await page.getByRole('button', { name: 'inch' }).click();
  // 400 mm is 15.748 in: 15 3/4 to the nearest 1/64
  await expect(figure).toHaveText('15 3/4 in');
  await page.goto(`${site.url}/`);
  await expect(page.locator('figcaption .length').first()).toHaveText(/ in$/);
  await expect(page.getByRole('button', { name: 'inch' })).toHaveAttribute('aria-pressed', 'true');
});

test('the theme can be turned against the device, and stays so', async ({ page }) => {
  await page.emulateMedia({ colorScheme: 'light' });
  await page.goto(site.url);
  const ground = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  const light = await ground();
  await page.getByRole('button', { name: 'Show on a dark sheet' }).click();
  const dark = await ground();
  expect(dark).not.toBe(light);
  await page.reload();
  expect(await ground()).toBe(dark);
});

test('a page built ahead tells who is signed in', async ({ page }) => {
  await signIn(page, 'mira.holt');
  await page.goto(`${site.url}/lessons/riving-knife`);
  await expect(page.getByRole('navigation', { name: 'Main' }).getByText('My book')).toBeVisible();
  await expect(page.getByRole('banner').getByText('Mira Holt')).toBeVisible();
  await expect(page.getByRole('link', { name: 'Sign in' })).toBeHidden();
});

test('the skip link comes first and leads to the sheet', async ({ page }) => {
  await page.goto(`${site.url}/limits`);
  await page.keyboard.press('Tab');
  await expect(page.getByRole('link', { name: 'Skip to the sheet' })).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(page.locator('main')).toBeFocused();
});

const OPEN = ['/', '/limits', '/lessons/', '/sign-in', '/no-such-sheet'];
const BY_ROLE = [
  { person: 'mira.holt', paths: ['/my-book'] },
  { person: 'ruth.amsel', paths: ['/board', '/register', '/practical/new'] },
  { person: 'anna.weir', paths: ['/who-may'] },
];

for (const scheme of ['light', 'dark'] as const) {
  test(`every page can be read with help, at 320 px, on a ${scheme} sheet`, async ({ page }) => {
    await page.emulateMedia({ colorScheme: scheme });
    await page.setViewportSize({ width: 320, height: 720 });
    const check = async (path: string) => {
      await page.goto(site.url + path);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(over, `${path} is wider than the screen`).toBeLessThanOrEqual(0);
      const { violations } = await axe(page)
        .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
        .analyze();
      expect(violations.map(({ id, nodes }) => `${path} ${id}: ${nodes[0]?.html}`)).toEqual([]);
    };
    for (const path of OPEN) await check(path);
    for (const { person, paths } of BY_ROLE) {
      await page.context().clearCookies();
      await signIn(page, person);
      for (const path of paths) await check(path);
    }
  });
}

test('a visitor is sent to sign in and comes back; a wrong role reads one sentence', async ({
  page,
}) => {
  const people = await page.request.get(`${site.url}/board`, { maxRedirects: 0 });
  expect(people.status()).toBe(302);
  expect(people.headers()['location']).toBe('/sign-in?next=%2Fboard');

  await page.goto(`${site.url}/board`);
  await page.getByLabel('E-mail').fill('ruth.amsel@alderlane.example');
  await page.getByLabel('Password').fill(DEMO_PASSWORD);
  await page.getByRole('button', { name: 'Sign in', exact: true }).click();
  await expect(page).toHaveURL(`${site.url}/board`);
  const tom = await page.getByRole('link', { name: 'Tom Okafor' }).getAttribute('href');

  await page.context().clearCookies();
  await signIn(page, 'mira.holt');
  for (const path of ['/board', tom ?? '', '/people/nobody']) {
    const reply = await page.goto(site.url + path);
    expect(reply?.status(), path).toBe(403);
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Not for you to open');
  }
  expect((await page.goto(`${site.url}/attempts/none`))?.status()).toBe(404);
});

test('a refused invitation keeps what was typed; a made one is shown once, with its code', async ({
  page,
}) => {
  await signIn(page, 'dev.pradhan');
  await page.goto(`${site.url}/board`);
  await page.getByRole('radio', { name: /employer/ }).check({ force: true });
  await page.getByRole('button', { name: 'Make an invitation' }).click();
  await expect(page.getByRole('alert')).toContainText('name must be');
  await expect(page.getByRole('radio', { name: /employer/ })).toBeChecked();

  await page.getByLabel('Name').fill('Sam Fielding');
  await page.getByRole('button', { name: 'Make an invitation' }).click();
  const made = page.locator('#new-invitation');
  await expect(made.getByRole('link')).toHaveText(new RegExp(`^${site.url}/invitation/`));
  await expect(made.getByLabel(/as a code for a phone/)).toBeVisible();
  await page.goto(`${site.url}/board`);
  await expect(page.getByText('/invitation/')).toHaveCount(0);
  await expect(page.getByText('Sam Fielding, employer: open until')).toBeVisible();
});
