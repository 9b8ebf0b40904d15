import { expect, type Page, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { type Site, startSite } from '../helpers/site.ts';

/** In a test no figure is told: the scale is read, by eye or by the words, and what is read is typed. */
// the picture beside the scale is drawn coarse: no pixel of it is a fact here
test.use({ deviceScaleFactor: 0.25 });

let site: Site;
test.beforeAll(async () => {
  site = await startSite('empty');
});
test.afterAll(async () => {
  await site.stop();
});

async function openAt(page: Page, part: string): Promise<void> {
  await page.goto(`${site.url}/bench/read-the-tools`);
  await page.locator('.bench-supply').click();
  await page.getByRole('button', { name: 'Switch off and lock off' }).click();
  await page.getByRole('button', { name: 'All parts' }).click();
  await page.locator(`#bench-part-${part}`).click();
}

test('a vernier is read by its words, typed, and graded', async ({ page }) => {
  await openAt(page, 'blade');
  const place = page.getByRole('group', { name: 'Width over the teeth (kerf)' });
  await place.getByRole('button', { name: 'Measure with Calliper' }).click();
  const card = page.locator('.bench-scale-card');
  await expect(card.locator('svg')).toHaveAttribute('aria-label', /vernier/);
  await expect(page.locator('.bench-reading')).toHaveText(/read its scale/);
  await card.getByText('The scale in words').click();
  const told = (await card.locator('details p').textContent()) ?? '';
  expect(told).not.toMatch(/\d mm ±/);
  // the textbook's rule: figure, whole lines after it, and a twentieth for each line of the vernier
  const [, figure, lines] = /figure (\d+) of the beam and (no|one|\d+) whole/.exec(told) ?? [];
  const meets = / line number (\d+) /.exec(told)?.[1] ?? '0';
  const whole = { no: 0, one: 1 }[lines ?? ''] ?? Number(lines);
  const read = Number(figure) + whole + Number(meets) * 0.05;

  await card.getByLabel('What do you read?').fill('seven');
  await card.getByRole('button', { name: 'Write it down' }).click();
  await expect(card.getByRole('alert')).toHaveText(
    'The reading must be one number, such as 7.5 or 5/16.',
  );
  await card.getByLabel('What do you read?').fill(read.toFixed(2));
  await card.getByRole('button', { name: 'Write it down' }).click();
  await expect(place).toContainText('read as');
  const found = await axe(page)
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze();
  expect(found.violations.map(({ id }) => id)).toEqual([]);

  await page.getByRole('button', { name: 'Hand in' }).click();
  await page.getByRole('button', { name: 'Hand in now' }).click();
  const outcome = page.locator('.bench-outcome');
  await expect(outcome).toContainText('1 of 7 read right');
  await expect(outcome.locator('li', { hasText: 'Width over the teeth' })).toContainText('Agrees');
});

test('the close-up fits a phone of 320 px, and grows at a touch', async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 640 });
  await openAt(page, 'fence');
  await page
    .getByRole('group', { name: 'Fence, pushed from side to side' })
    .getByRole('button', { name: 'Measure with Dial gauge' })
    .click();
  const svg = page.locator('.bench-scale-view svg');
  await expect(svg).toBeVisible();
  const small = (await svg.boundingBox())?.width ?? 0;
  expect(small).toBeLessThan(320);
  await page.getByRole('button', { name: 'Larger' }).click();
  expect((await svg.boundingBox())?.width ?? 0).toBeGreaterThan(small * 2);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  expect(wide).toBeLessThanOrEqual(320);
});
