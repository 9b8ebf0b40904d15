import { type Browser, expect, type Page, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { DEMO_PASSWORD, type Site, startSite } from '../helpers/site.ts';

let site: Site;
test.beforeAll(async () => {
  site = await startSite('demo');
});
test.afterAll(async () => {
  await site.stop();
});

/** A page of its own for one person, without script: everything here works as plain forms. */
async function signIn(browser: Browser, who: string, width = 1280): Promise<Page> {
  const context = await browser.newContext({
    javaScriptEnabled: false,
    viewport: { width, height: 800 },
  });
  const page = await context.newPage();
  await page.goto(`${site.url}/sign-in`);
  await page.getByLabel('E-mail').fill(`${who}@alderlane.example`);
  await page.getByLabel('Password').fill(DEMO_PASSWORD);
  await page.getByRole('button', { name: 'Sign in', exact: true }).click();
  await page.waitForLoadState();
  return page;
}

async function rate(page: Page, people: number): Promise<void> {
  for (const field of await page.locator('.rating-form select').all()) {
    await field.selectOption(String(people / 20));
  }
  await page.getByRole('button', { name: /^Enter my ratings/ }).click();
}

async function expectAccessible(browser: Browser, from: Page): Promise<void> {
  const context = await browser.newContext({
    storageState: await from.context().storageState(),
    viewport: { width: 320, height: 640 },
  });
  const page = await context.newPage();
  await page.goto(from.url());
  const { violations } = await axe(page).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  expect(wide, `${from.url()} at 320 px`).toBeLessThanOrEqual(320);
  await context.close();
}

test('two trainers rate a test, unseen by each other, and one puts the mark in force', async ({
  browser,
}) => {
  const ruth = await signIn(browser, 'ruth.amsel');
  const dev = await signIn(browser, 'dev.pradhan');
  await ruth.getByRole('link', { name: 'Pass marks' }).click();
  await ruth.getByRole('link', { name: 'Before the practical', exact: true }).click();
  await expect(ruth.getByRole('heading', { name: 'Not set yet' })).toBeVisible();
  const address = ruth.url();

  await dev.goto(address);
  await expectAccessible(browser, dev);
  await rate(ruth, 16);
  await expect(ruth.getByText('Nothing can be worked out from one opinion')).toBeVisible();
  await expect(ruth.getByRole('button', { name: /in force/ })).toHaveCount(0);

  await dev.reload();
  await expect(dev.getByText('One trainer has rated this test already.')).toBeVisible();
  await expect(dev.getByRole('columnheader', { name: /Ruth Amsel/ })).toHaveCount(0);
  await rate(dev, 12);
  await expect(dev.getByRole('columnheader', { name: /Ruth Amsel/ })).toBeVisible();
  await expectAccessible(browser, dev);

  // round 2: they agree; nobody sees it of the other before giving their own
  await rate(dev, 14);
  await ruth.reload();
  await expect(ruth.getByText('Another trainer has gone on to round 2.')).toBeVisible();
  await expect(ruth.getByRole('button', { name: /in force/ })).toHaveCount(0);
  await rate(ruth, 14);
  await ruth.getByRole('button', { name: /^Put \d+ of 100 in force$/ }).click();
  await expect(ruth.getByRole('heading', { name: /^In force: \d+ of 100$/ })).toBeVisible();
  await expect(ruth.getByText('Put in force by Ruth Amsel')).toBeVisible();
  await expect(ruth.getByRole('button', { name: /in force/ })).toHaveCount(0);
});

test('a part left out costs nothing that was chosen', async ({ browser }) => {
  const ruth = await signIn(browser, 'ruth.amsel');
  await ruth.goto(`${site.url}/pass-marks/eu-test`);
  const fields = ruth.locator('.rating-form select');
  for (const field of await fields.all()) await field.selectOption('0.65');
  await ruth.getByLabel('The plan of the cut').selectOption('');
  // the browser would stop it; a form sent by hand must be told too
  const form = new URLSearchParams({ what: 'rate', version: '1' });
  for (const field of await fields.all()) {
    form.set((await field.getAttribute('name')) ?? '', await field.inputValue());
  }
  const answer = await ruth.request.post(`${site.url}/pass-marks/eu-test`, {
    headers: { origin: site.url, 'content-type': 'application/x-www-form-urlencoded' },
    data: form.toString(),
  });
  expect(answer.status()).toBe(400);
  const told = await answer.text();
  expect(told).toContain('The plan of the cut: choose how many of 20 people.');
  expect(told.match(/<option value="0.65" selected/g)?.length).toBe((await fields.count()) - 1);
});

test('pass marks and figures are for trainers, and the figures stay quiet of few', async ({
  browser,
}) => {
  for (const who of ['mira.holt', 'anna.weir']) {
    const page = await signIn(browser, who);
    for (const path of ['/pass-marks', '/pass-marks/rip-test', '/test-figures']) {
      const reply = await page.goto(`${site.url}${path}`);
      expect(reply?.status(), `${who} at ${path}`).toBe(403);
      await expect(page.getByRole('heading', { name: 'Not for you to open' })).toBeVisible();
    }
    const refused = await page.request.post(`${site.url}/api/pass-marks/rip-test/ratings`, {
      headers: { origin: site.url },
      data: { version: 1, ratings: {} },
    });
    expect(refused.status()).toBe(403);
  }
  const ruth = await signIn(browser, 'ruth.amsel');
  const foreign = await ruth.request.post(`${site.url}/api/pass-marks/rip-test/adoption`, {
    headers: { origin: 'http://elsewhere.example' },
    data: { version: 1, mark: 50 },
  });
  expect(foreign.status()).toBe(403);
  await ruth.goto(`${site.url}/test-figures`);
  await expect(ruth.getByText('Shown from 30 attempts on; 0 so far.').first()).toBeVisible();
  await expectAccessible(browser, ruth);
  await ruth.getByLabel('Test or task').selectOption({ label: 'Before the practical' });
  await ruth.getByRole('button', { name: 'Show', exact: true }).click();
  await expect(ruth.getByRole('heading', { name: 'Before the practical' })).toBeVisible();
});
