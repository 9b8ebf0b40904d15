import { expect, type Page, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { openPart, press, turnTo, withoutWebGL } from '../helpers/by-keys.ts';
import { type Site, startSite } from '../helpers/site.ts';

/** Trial cuts by keyboard alone, in a browser that shows no picture: told, drawn, counted. */
let site: Site;
test.beforeAll(async () => {
  site = await startSite('empty');
});
test.afterAll(async () => {
  await site.stop();
});

async function openCut(page: Page, task: string): Promise<string[]> {
  const errors: string[] = [];
  page.on('console', (line) => line.type() === 'error' && errors.push(line.text()));
  page.on('pageerror', (error) => errors.push(error.message));
  await withoutWebGL(page);
  await page.goto(`${site.url}/bench/${task}`);
  await expect(page.locator('svg.bench-drawing')).toBeVisible();
  await turnTo(page, 'Cut');
  await expect(page.getByRole('heading', { name: 'Trial cut' })).toBeVisible();
  return errors;
}

const voice = (page: Page) => page.locator('.bench-voice [role=status]');

async function checkAccess(page: Page): Promise<void> {
  const found = await axe(page)
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze();
  expect(
    found.violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join(', ')}`,
    ),
  ).toEqual([]);
}

test('cuts smoothly on a bench set right, and is not marked for it', async ({ page }) => {
  const errors = await openCut(page, 'knife-and-guard');
  await openPart(page, 'Isolator and stop');
  await press(page, 'Switch off and lock off');
  await openPart(page, 'Riving knife');
  await press(page, 'Loosen the clamp');
  for (const [scale, value] of [
    ["The scale along the knife's bracket", '2'],
    ["The scale up the knife's bracket", '0'],
  ] as const) {
    await page.getByLabel(scale, { exact: true }).focus();
    await page.keyboard.type(value);
    await page.keyboard.press('Enter');
  }
  await openPart(page, 'Riving knife');
  await press(page, 'Tighten the clamp');
  await openPart(page, 'Crown guard');
  await press(page, 'Loosen the clamp');
  for (const [scale, value] of [
    ["The scale on the guard's post", '58'],
    ["The scale on the guard's arm", '-235'],
  ] as const) {
    await page.getByLabel(scale, { exact: true }).focus();
    await page.keyboard.type(value);
    await page.keyboard.press('Enter');
  }
  await openPart(page, 'Crown guard');
  await press(page, 'Tighten the clamp');
  await press(page, 'Let the fingers down');

  await turnTo(page, 'Cut');
  await press(page, 'Start');
  await expect(voice(page)).toHaveText('Nothing happens: the supply is locked off.');
  await openPart(page, 'Isolator and stop');
  await press(page, 'Take the lock off and switch on');
  await press(page, 'Start, stop and trial cut');
  await turnTo(page, 'Cut');
  await press(page, 'Feed the work');
  await expect(voice(page)).toHaveText('The saw is not running: start it first.');
  await press(page, 'Start');
  await expect(page.locator('.bench-supply')).toHaveText('Running');
  await press(page, 'Feed the work');
  await expect(page.locator('progress')).toBeVisible();
  await press(page, 'Hold the picture');
  await expect(page.locator('.bench-cut-at')).toContainText('The saw would not wait');
  await checkAccess(page);
  await press(page, 'See the end');
  await expect(page.locator('#bench-cut-result')).toHaveText('The cut goes through');
  await expect(page.locator('#bench-cut-result')).toBeFocused();
  await expect(voice(page)).toHaveText('It went through.');
  await expect(page.locator('.bench-cut-moments').last()).toContainText('past the rear teeth');
  await checkAccess(page);
  await press(page, 'Stop');
  await press(page, 'Wait for standstill');
  await expect(page.locator('.bench-cut-state')).toHaveText('The blade stands still.');
  await openPart(page, 'Isolator and stop');
  await press(page, 'Switch off and lock off');
  await turnTo(page, 'Notebook');
  await expect(page.locator('.bench-notes')).toContainText('It went through.');
  await press(page, 'Hand in');
  await press(page, 'Hand in now');
  await expect(page.locator('#bench-result')).toBeFocused();
  await expect(page.locator('.bench-outcome')).not.toContainText('could have hurt');
  expect(errors).toEqual([]);
});

test('throws the work back on a bench left in a hurry, names the strip, and counts it', async ({
  page,
}) => {
  const errors = await openCut(page, 'would-you-start');
  await press(page, 'Start');
  await press(page, 'Feed the work');
  await press(page, 'See the end');
  const result = page.locator('.bench-cut-result');
  await expect(page.locator('#bench-cut-result')).toHaveText('The work is thrown back');
  await expect(voice(page)).toContainText('thrown back at');
  await expect(result).toContainText('1.5 mm nearer the blade at the rear teeth');
  await expect(result).toContainText('No riving knife stands there');
  // half the kerf of 4.2 mm to one side, the fence at 120 mm beyond the other
  await expect(result).toContainText('From 2.1 mm left of the blade to 122.1 mm right of it');
  await expect(result).toContainText('No distance in it is safe');
  await expect(result).toContainText('The operator stands in it.');
  await press(page, 'Plan');
  await expect(page.locator('svg [data-part=strip]')).toHaveCount(1);
  await expect(page.locator('svg')).toContainText(['Keep clear']);
  await checkAccess(page);

  // a hand at the machine while it turns: told at once
  await openPart(page, 'Crown guard');
  await press(page, 'Try it for play');
  await expect(page.locator('.bench-voice')).toContainText('the blade is turning');
  await press(page, 'Hand in');
  await press(page, 'Hand in now');
  const outcome = page.locator('.bench-outcome');
  await expect(outcome).toContainText('while the blade was turning. About 360 teeth');
  await expect(outcome).toContainText('You fed work into the saw once with something on it');
  await expect(outcome).toContainText('the operator stood in the strip');
  expect(errors).toEqual([]);
});

test('goes in steps where motion is reduced, and can be stopped on the way', async ({
  browser,
}) => {
  const context = await browser.newContext({ reducedMotion: 'reduce', colorScheme: 'dark' });
  const page = await context.newPage();
  const errors = await openCut(page, 'would-you-start');
  await press(page, 'Start');
  await press(page, 'Feed the work');
  await expect(page.locator('.bench-cut-moments li')).toHaveCount(2);
  await press(page, 'Stop');
  await expect(page.locator('#bench-cut-result')).toHaveText('Stopped part way');
  await expect(page.locator('.bench-supply')).toHaveText('Running down');
  await checkAccess(page);
  expect(errors).toEqual([]);
  await context.close();
});
