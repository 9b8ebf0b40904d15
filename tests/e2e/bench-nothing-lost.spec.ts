import { expect, type Page, test } from '@playwright/test';
import { type Site, startSite } from '../helpers/site.ts';

/** What was done at a bench outlives a reload, a lost network and a refusal; nothing runs while nothing changes. */
// the picture is drawn coarse: no pixel of it is a fact here
test.use({ deviceScaleFactor: 0.25 });

let site: Site;
test.beforeAll(async () => {
  site = await startSite('empty');
});
test.afterAll(async () => {
  await site.stop();
});

async function openBench(page: Page, task = 'walk-round'): Promise<void> {
  await page.goto(`${site.url}/bench/${task}`);
  await expect(page.getByRole('tab', { name: 'Job' })).toBeVisible();
}

async function doSomething(page: Page): Promise<void> {
  await page.locator('.bench-supply').click();
  await page.getByRole('button', { name: 'Switch off and lock off' }).click();
  await page.getByRole('tab', { name: 'Faults' }).click();
  await page.getByLabel('Which part').selectOption('blade');
  await page.getByLabel('Cracked gullet').check();
  await page.getByLabel('What you would do').selectOption({ index: 1 });
  await page.getByRole('button', { name: 'Write it down' }).click();
  // and a second one half written
  await page.getByLabel('Which part').selectOption('fence');
}

test('work left on a bench is offered after a reload, and carried on', async ({ page }) => {
  await openBench(page);
  await doSomething(page);
  await page.reload();
  await expect(page.locator('.bench-door')).toContainText('1 thing done and 1 fault written down');
  await page.getByRole('button', { name: 'Carry on where you left' }).click();
  await expect(page.locator('.bench-supply')).toHaveText('Locked off');
  await page.getByRole('tab', { name: /Faults/ }).click();
  await expect(page.locator('.bench-claims li')).toContainText('Cracked gullet');
  await expect(page.getByLabel('Which part')).toHaveValue('fence');
});

test('a fresh bench is taken only when asked for', async ({ page }) => {
  await openBench(page);
  await doSomething(page);
  const before = await page.evaluate(() => localStorage.getItem('bench-task:walk-round'));
  await page.reload();
  await page.getByRole('button', { name: 'Take a fresh bench' }).click();
  await expect(page.locator('.bench-supply')).toHaveText('Supply on');
  const after = await page.evaluate(() => localStorage.getItem('bench-task:walk-round'));
  expect(JSON.parse(after ?? '{}').started.token).not.toBe(
    JSON.parse(before ?? '{}').started.token,
  );
});

test('a lost network while handing in loses nothing, and trying again goes through', async ({
  page,
}) => {
  await openBench(page);
  await doSomething(page);
  await page.getByRole('button', { name: 'Hand in', exact: true }).click();
  await page.route('**/api/attempts/submit', (route) => route.abort('internetdisconnected'));
  await page.getByRole('button', { name: 'Hand in now' }).click();
  await expect(page.locator('.bench-foot [role=alert]')).toContainText('Nothing you did is lost');
  await expect(page.locator('.bench-claims li')).toHaveCount(1);
  await page.unroute('**/api/attempts/submit');
  await page.getByRole('button', { name: 'Hand in now' }).click();
  await expect(page.locator('.bench-outcome')).toBeVisible();
  await page.reload();
  await page.getByRole('button', { name: 'See the result' }).click();
  await expect(page.locator('.bench-outcome')).toBeVisible();
});

test('a refusal is shown in the server’s own words', async ({ page }) => {
  await openBench(page);
  await page.evaluate(() => {
    const kept = JSON.parse(localStorage.getItem('bench-task:walk-round') ?? '{}');
    kept.started.token = 'not a token';
    localStorage.setItem('bench-task:walk-round', JSON.stringify(kept));
  });
  await page.reload();
  await page.getByRole('button', { name: 'Carry on where you left' }).click();
  await page.getByRole('button', { name: 'Hand in', exact: true }).click();
  await page.getByRole('button', { name: 'Hand in now' }).click();
  await expect(page.locator('.bench-foot [role=alert]')).toContainText('take a fresh one');
});

test('a bench that cannot be fetched says so and can be asked for again', async ({ page }) => {
  await page.route('**/api/attempts', (route) => route.abort('internetdisconnected'));
  await page.goto(`${site.url}/bench/walk-round`);
  await expect(page.getByRole('alert')).toContainText('did not answer');
  await page.unroute('**/api/attempts');
  await page.getByRole('button', { name: 'Try again' }).click();
  await expect(page.getByRole('tab', { name: 'Job' })).toBeVisible();
});

test('a part touched in the picture opens its sheet, and a move is drawn', async ({ page }) => {
  await openBench(page, 'knife-and-guard');
  await page.getByRole('button', { name: 'Fence side' }).click();
  const canvas = page.locator('canvas');
  await expect(canvas).toBeVisible();
  const box = await canvas.boundingBox();
  if (box === null) throw new Error('no picture');
  await page.waitForTimeout(2000);
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  await expect(page.locator('#bench-sheet-name')).toBeVisible();
  // the sheet lies beside the picture, never over it
  const sheet = await page.locator('.bench-papers').boundingBox();
  expect(sheet?.x ?? 0).toBeGreaterThanOrEqual(box.x + box.width - 1);
});

test.describe('on a phone', () => {
  test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, deviceScaleFactor: 1 });

  test('the papers fold down, every control is large enough, nothing runs off the side', async ({
    page,
  }) => {
    await openBench(page);
    const open = await page.locator('.bench-view').boundingBox();
    await page.getByRole('tab', { name: 'Job' }).click();
    const folded = await page.locator('.bench-view').boundingBox();
    expect(folded?.height ?? 0).toBeGreaterThan((open?.height ?? 0) * 1.5);
    await page.getByRole('tab', { name: 'Parts' }).click();
    await page.locator('#bench-part-knife').click();
    await page.getByRole('button', { name: 'Loosen the clamp' }).click();
    const small = await page
      .locator('.bench button, .bench input, .bench select, .bench summary')
      .evaluateAll((controls) =>
        controls
          .map((control) => ({ box: control.getBoundingClientRect(), name: control.textContent }))
          .filter(({ box }) => box.width > 0 && (box.width < 44 || box.height < 44))
          .map(({ box, name }) => `${name} ${box.width} x ${box.height}`),
      );
    expect(small).toEqual([]);
    for (const width of [390, 320]) {
      await page.setViewportSize({ width, height: 844 });
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      expect(wide).toBeLessThanOrEqual(width);
    }
  });
});
