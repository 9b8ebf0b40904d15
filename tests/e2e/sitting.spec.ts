import { expect, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { press, tabTo, turnTo, withoutWebGL } from '../helpers/by-keys.ts';
import { DEMO_PASSWORD, type Site, startSite } from '../helpers/site.ts';

/** A whole sitting by keyboard, without a picture, with the network lost and the page reloaded on the way. */
let site: Site;
test.beforeAll(async () => {
  site = await startSite('demo');
});
test.afterAll(async () => {
  await site.stop();
});

test('a test is begun, kept through a lost network and a reload, handed in and read', async ({
  page,
  context,
}) => {
  await withoutWebGL(page);
  await page.goto(`${site.url}/sign-in`);
  await page.getByLabel(/e-mail/i).fill('mira.holt@alderlane.example');
  await page.getByLabel(/password/i).fill(DEMO_PASSWORD);
  await page.keyboard.press('Enter');
  await page.waitForURL(/my-book/);
  await page.goto(`${site.url}/tests/walk-and-name`);
  await press(page, 'Begin');
  await expect(page.locator('.sitting-head')).toBeVisible();

  await turnTo(page, 'Faults');
  await expect(page.locator('#bench-claim-part')).toBeVisible();
  await context.setOffline(true);
  await page.locator('#bench-claim-part').selectOption('guard');
  await page.locator('input[name=bench-claim-fault]').first().check();
  await page.locator('#bench-claim-remedy').selectOption({ index: 1 });
  await page.getByLabel('Certain').focus();
  await page.keyboard.press('Space');
  await press(page, /^Write/);
  await expect(page.locator('.bench-claims li')).toHaveCount(1);
  await expect(page.locator('.sitting-kept')).toHaveText('No network: kept on this device');
  await context.setOffline(false);
  await expect(page.locator('.sitting-kept')).toHaveText('Kept on the site', { timeout: 15_000 });

  await page.reload();
  await expect(page.locator('.sitting-head')).toContainText('begun');
  await turnTo(page, 'Faults');
  await expect(page.locator('.bench-claims li')).toContainText('certain');
  const found = await axe(page).withTags(['wcag2a', 'wcag2aa', 'wcag22aa']).analyze();
  expect(found.violations.map(({ id }) => id)).toEqual([]);

  await page.locator('body').focus();
  await page.getByRole('button', { name: 'Pause' }).focus();
  await press(page, 'Hand in');
  await press(page, 'Hand in now');
  await tabTo(page, 'Read the result');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'How sure, and how right' })).toBeVisible();
  // back to the test: it is over, and a fresh one waits
  await page.goBack();
  await expect(page.getByRole('button', { name: 'Begin' })).toBeVisible();
});
