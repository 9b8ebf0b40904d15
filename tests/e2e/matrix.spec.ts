import { readFileSync } from 'node:fs';
import { expect, type Page, test } from '@playwright/test';
import { addDays, dayOf } from '../../src/competence/index.ts';
import { authoriseDemo } from '../helpers/authorise-demo.ts';
import { axe } from '../helpers/axe.ts';
import { signOffDemo } from '../helpers/sign-off-demo.ts';
import { type Site, startSite } from '../helpers/site.ts';
import { signInToDemo } from '../helpers/walk.ts';

const today = dayOf(new Date().toISOString());
let site: Site;
test.beforeAll(async () => {
  site = await startSite('demo');
  const basis = await signOffDemo(site, 'Mira Holt');
  const leave = { name: 'Mira Holt', basis, from: today, until: addDays(today, 25) };
  await authoriseDemo(site, leave);
});
test.afterAll(() => site.stop());

async function expectAccessible(page: Page): Promise<void> {
  expect((await axe(page).analyze()).violations).toEqual([]);
}

test('an employer asks who may, narrows it by keyboard without script, and takes it along', async ({
  browser,
}) => {
  const context = await browser.newContext({ javaScriptEnabled: true });
  const page = await context.newPage();
  await signInToDemo(page, site.url, 'anna.weir');
  await page.goto(`${site.url}/who-may`);
  const row = page.getByRole('row', { name: /^Mira Holt/ }).first();
  await expect(row).toContainText('ends in 25 days');
  await expect(
    page.getByRole('img', { name: 'ripping, AL-01: 1 may, 0 under supervision, 0 rest' }),
  ).toBeVisible();
  await expectAccessible(page);

  await page.getByLabel('State').selectOption({ label: 'Ends within 30 days' });
  await page.getByLabel('Work', { exact: true }).selectOption({ label: 'ripping' });
  await page.getByRole('button', { name: 'Show', exact: true }).press('Enter');
  await expect(page).toHaveURL(/state=due-30/);
  await expect(page.getByText('1 person', { exact: true })).toBeVisible();
  await expect(page.getByRole('row', { name: /^Tom Okafor/ })).toHaveCount(0);

  const waiting = page.waitForEvent('download');
  await page.getByRole('link', { name: 'Table (CSV)' }).click();
  const csv = readFileSync(await (await waiting).path(), 'utf8');
  expect(csv.trimEnd().split('\r\n').at(-1)).toContain('Mira Holt,trainee,AL-01');
  expect(csv).toContain('Work: ripping; State: Ends within 30 days');
  const statements = await page.request.get(`${site.url}/who-may/statements.jsonl`);
  const again = await page.request.get(`${site.url}/who-may/statements.jsonl`);
  expect(await statements.text()).toBe(await again.text());
  expect((await statements.text()).trimEnd().split('\n').length).toBeGreaterThan(7);

  await row.getByRole('link', { name: /^Open the authorisation/ }).click();
  await expect(page).toHaveURL(/\/authorisations\//);
  await context.close();
});

test('another day is asked for in the address, and a day that is none is told so', async ({
  page,
}) => {
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.setViewportSize({ width: 390, height: 800 });
  await signInToDemo(page, site.url, 'anna.weir');
  await page.goto(`${site.url}/who-may?on=${addDays(today, 40)}&view=short`);
  await expect(page.getByText(/^As of the end of .*, in UTC/)).toBeVisible();
  await expect(page.getByRole('row', { name: /^Mira Holt/ }).first()).toContainText('May not work');
  const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  expect(over).toBeLessThanOrEqual(0);
  await expectAccessible(page);
  const wrong = await page.goto(`${site.url}/who-may?on=2026-02-31`);
  expect(wrong?.status()).toBe(400);
  await expect(page.getByRole('alert')).toContainText('It says: 2026-02-31.');
  await expect(page.getByRole('table')).toHaveCount(0);
});

test('paper is landscape on A4 and on Letter, with the heads of the columns on every sheet', async ({
  page,
}) => {
  await signInToDemo(page, site.url, 'ruth.amsel');
  await page.goto(`${site.url}/de/who-may?view=reasons`);
  await expect(page.getByRole('heading', { name: 'Wer darf woran' })).toBeVisible();
  for (const format of ['A4', 'Letter'] as const) {
    const pdf = (await page.pdf({ format, preferCSSPageSize: true })).toString('latin1');
    const boxes = [...pdf.matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/g)];
    expect(boxes.length).toBeGreaterThan(1);
    for (const [, width, height] of boxes) expect(Number(width)).toBeGreaterThan(Number(height));
  }
  await page.emulateMedia({ media: 'print' });
  const heads = await page
    .locator('.standing thead')
    .first()
    .evaluate((head) => getComputedStyle(head).display);
  expect(heads).toBe('table-header-group');
});

test('a trainee takes no table and no statements', async ({ page }) => {
  await signInToDemo(page, site.url, 'mira.holt');
  for (const path of ['/who-may/matrix.csv', '/who-may/statements.jsonl', '/who-may']) {
    expect((await page.request.get(site.url + path)).status(), path).toBe(403);
  }
});
