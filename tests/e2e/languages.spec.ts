import { expect, type Page, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { type Site, startSite } from '../helpers/site.ts';

/** The same pages in another language, and laid out from right to left. */
let site: Site;
test.beforeAll(async () => {
  site = await startSite('empty');
});
test.afterAll(async () => {
  await site.stop();
});

const OPEN_PAGES = ['/', '/lessons/', '/lessons/riving-knife', '/glossary', '/limits', '/sign-in'];

const overflow = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

test('a German page says so, stays German, and leads to the same page in English', async ({
  page,
}) => {
  await page.goto(`${site.url}/de/`);
  await expect(page.locator('html')).toHaveAttribute('lang', 'de');
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Die Kreissäge');
  await page.getByRole('link', { name: 'Lektionen' }).first().click();
  await expect(page).toHaveURL(`${site.url}/de/lessons/`);
  await page
    .getByRole('link', { name: /English/ })
    .first()
    .click();
  await expect(page).toHaveURL(`${site.url}/lessons/`);
  await expect(page.locator('html')).toHaveAttribute('lang', 'en');
});

test('lengths and drawings take a decimal comma in German, in the page and after the switch', async ({
  page,
}) => {
  await page.goto(`${site.url}/de/`);
  const length = page.locator('figcaption .length').first();
  await expect(length).toHaveText(/^\d+(,\d)? mm$/);
  await expect(page.locator('svg .size.mm').first()).toHaveText(/^\d+(,\d)? mm$/);
  await page.getByRole('button', { name: 'Zoll' }).click();
  await page.getByRole('button', { name: 'mm', exact: true }).click();
  await expect(length).toHaveText(/^\d+(,\d)? mm$/);
});

test('a German bench speaks German', async ({ page }) => {
  await page.goto(`${site.url}/de/bench/knife-and-guard`);
  await expect(page.getByRole('button', { name: 'Abgeben' }).first()).toBeVisible({
    timeout: 30_000,
  });
  await expect(page.locator('html')).toHaveAttribute('lang', 'de');
});

for (const path of OPEN_PAGES) {
  test(`${path} can be laid out from right to left on a phone and a wide screen`, async ({
    page,
  }) => {
    // no language of the site runs this way yet: the page is turned round as one would turn it
    await page.addInitScript(() => {
      addEventListener('DOMContentLoaded', () => {
        document.documentElement.dir = 'rtl';
      });
    });
    for (const width of [320, 1440]) {
      await page.setViewportSize({ width, height: 800 });
      await page.goto(site.url + path);
      expect(await overflow(page), `${path} at ${width}`).toBeLessThanOrEqual(0);
      const name = await page.locator('.strip-name').boundingBox();
      expect(name && name.x + name.width, 'the name stands at the right edge').toBeGreaterThan(
        width - 40,
      );
    }
    const { violations } = await axe(page).analyze();
    expect(violations.map(({ id }) => id)).toEqual([]);
  });
}

test('a drawing is not turned round with the page', async ({ page }) => {
  await page.goto(`${site.url}/lessons/riving-knife`);
  const wordsAt = () =>
    page
      .locator('svg.bench-drawing')
      .first()
      .evaluate((svg) => {
        const { left, width } = svg.getBoundingClientRect();
        return [...svg.querySelectorAll('text')]
          .map((text) => text.getBoundingClientRect())
          .map((box) => (box.width === 0 ? 0 : Math.round((1000 * (box.left - left)) / width)));
      });
  const before = await wordsAt();
  expect(Math.max(...before)).toBeGreaterThan(0);
  await page.evaluate(() => {
    document.documentElement.dir = 'rtl';
  });
  for (const [i, at] of (await wordsAt()).entries()) {
    expect(Math.abs(at - (before[i] as number))).toBeLessThan(8);
  }
});
