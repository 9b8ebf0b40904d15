import { expect, type Page, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { openPart, press, tabTo, withoutWebGL } from '../helpers/by-keys.ts';
import { type Site, startSite } from '../helpers/site.ts';

/** Both tasks whole, by keyboard alone, in a browser that shows no picture: drawings, lists and words. */
let site: Site;
test.beforeAll(async () => {
  site = await startSite('empty');
});
test.afterAll(async () => {
  await site.stop();
});

async function typeOn(page: Page, scale: string, value: string): Promise<void> {
  await tabTo(page, scale);
  await page.keyboard.type(value);
  await page.keyboard.press('Enter');
}

async function openTask(page: Page, task: string): Promise<void> {
  await withoutWebGL(page);
  await page.goto(`${site.url}/bench/${task}`);
  await expect(page.getByRole('tab', { name: 'Job' })).toBeVisible();
  await expect(page.locator('svg.bench-drawing')).toBeVisible();
  await expect(page.locator('.bench-voice')).toContainText('no picture in three dimensions');
}

test('sets knife and guard, measures them and is told how close', async ({ page }) => {
  const errors: string[] = [];
  page.on('console', (line) => line.type() === 'error' && errors.push(line.text()));
  page.on('pageerror', (error) => errors.push(error.message));
  await openTask(page, 'knife-and-guard');

  await openPart(page, 'Isolator and stop');
  await press(page, 'Switch off and lock off');
  await expect(page.locator('.bench-supply')).toHaveText('Locked off');

  await openPart(page, 'Riving knife');
  await expect(page.locator('.bench-words li').first()).toContainText('stands behind the blade');
  await press(page, 'Loosen the clamp');
  await typeOn(page, "The scale along the knife's bracket", '500');
  await expect(page.getByRole('alert')).toHaveText(
    "The scale along the knife's bracket must be from -60 to 120 mm.",
  );
  await page.keyboard.press('Escape');
  await page.keyboard.press('Shift+Tab');
  await typeOn(page, "The scale along the knife's bracket", '2');
  await typeOn(page, "The scale up the knife's bracket", '0');
  await press(page, 'Measure with Feeler leaves');
  // edge 204 mm set 2 mm behind a 200 mm blade, table 110 mm up: sqrt(204^2 + 4 + 8 cos a * 102) - 200,
  // with sin a = 110/204, is 5.69 mm; leaves to 0.05 mm read 5.65 (plane geometry)
  await expect(page.locator('.bench-voice [role=status]')).toContainText('5.65 mm ± 0.05 mm');
  await openPart(page, 'Riving knife');
  await press(page, 'Tighten the clamp');

  await openPart(page, 'Crown guard');
  await press(page, 'Loosen the clamp');
  await typeOn(page, "The scale on the guard's post", '58');
  await typeOn(page, "The scale on the guard's arm", '-235');
  await openPart(page, 'Crown guard');
  await press(page, 'Tighten the clamp');
  await press(page, 'Let the fingers down');

  await press(page, 'How close am I?');
  const verdict = page.locator('.bench-verdict');
  await expect(verdict).toBeVisible();
  await expect(page.locator('#bench-verdict')).toBeFocused();
  await expect(verdict.locator('li').first()).toContainText('HSE');
  await expect(verdict.locator('[data-verdict=outside]')).toHaveCount(0);
  expect(await verdict.locator('[data-verdict=within]').count()).toBeGreaterThan(3);

  await press(page, 'Hand in');
  await press(page, 'Hand in now');
  await expect(page.locator('#bench-result')).toBeFocused();
  await expect(page.locator('.bench-outcome')).toContainText('nothing was found that stops');
  await expect(page.locator('.bench-outcome')).not.toContainText('could have hurt');
  await expect(page.locator('.bench-outcome')).toContainText('authorises nobody');
  expect(errors).toEqual([]);
});

test('finds a fault by the words, writes it down and hands it in', async ({ page }) => {
  await openTask(page, 'walk-round');
  // touched with the supply on: told at once, and again with the result
  await openPart(page, 'Crown guard');
  await press(page, 'Try it for play');
  await expect(page.locator('.bench-voice')).toContainText('the supply is on');
  await press(page, 'Write down a fault here');
  await expect(page.locator('#bench-write')).toBeFocused();

  await tabTo(page, 'Which part');
  await expect(page.getByLabel('Which part')).toHaveValue('guard');
  await tabTo(page, /.*/);
  await page.keyboard.press('Space');
  await tabTo(page, 'What you would do');
  await page.keyboard.press('ArrowDown');
  await press(page, 'Write it down');
  await expect(page.locator('.bench-claims li')).toHaveCount(1);

  await press(page, 'Hand in');
  await expect(page.locator('.bench-foot')).toContainText('Hand in with 1 fault written down?');
  await press(page, 'Hand in now');
  const outcome = page.locator('.bench-outcome');
  await expect(outcome).toContainText('What could have hurt somebody');
  await expect(outcome).toContainText('before the supply was locked off');
  await expect(outcome).toContainText(/\d of \d found/);
  await expect(outcome.locator('.bench-missed li').first()).toBeVisible();
});

for (const look of ['no picture', 'light', 'dark'] as const) {
  test(`passes an accessibility check on every paper: ${look}`, async ({ browser }) => {
    const context = await browser.newContext({
      colorScheme: look === 'dark' ? 'dark' : 'light',
      reducedMotion: 'reduce',
      // colours and names are read from the page, and the picture is drawn coarse
      deviceScaleFactor: 0.25,
    });
    const page = await context.newPage();
    if (look === 'no picture') await withoutWebGL(page);
    await page.goto(`${site.url}/bench/walk-round`);
    const shown = look === 'no picture' ? 'svg.bench-drawing' : '.bench-places button';
    await page.locator(shown).first().waitFor();
    await page.getByRole('tab', { name: 'Parts' }).click();
    await page.locator('#bench-part-knife').click();
    await page.getByRole('button', { name: 'Loosen the clamp' }).click();
    for (const paper of ['Parts', 'Job', 'Faults', 'Notebook']) {
      await page.getByRole('tab', { name: paper }).click();
      const found = await axe(page)
        .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
        .analyze();
      const told = found.violations.map(
        ({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join(', ')}`,
      );
      expect(told, paper).toEqual([]);
    }
    await context.close();
  });
}
