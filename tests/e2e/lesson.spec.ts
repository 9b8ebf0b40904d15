import { expect, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { type Site, startSite } from '../helpers/site.ts';

/** The lesson in a browser: units, rules, words, questions, progress, and all of it without script. */
const LESSON = '/lessons/riving-knife';

let site: Site;
test.beforeAll(async () => {
  site = await startSite('empty');
});
test.afterAll(async () => {
  await site.stop();
});

test('one touch shows text and drawings in inches', async ({ page }) => {
  await page.goto(site.url + LESSON);
  const size = page.locator('.bench-drawing--end .dimension[data-measure="blade.kerf"]');
  await expect(size.locator('.mm')).toBeVisible();
  await expect(size.locator('.inch')).toBeHidden();
  await page.getByRole('button', { name: /inch/i }).click();
  await expect(size.locator('.inch')).toBeVisible();
  await expect(size.locator('.inch')).toHaveText('11/64 in');
  await expect(size.locator('.mm')).toBeHidden();
  await expect(page.locator('.prose .length').nth(1)).toContainText(' in');
});

test('questions are checked in the page, explained, and kept on the device', async ({ page }) => {
  await page.goto(site.url + LESSON);
  const question = page.locator('#question-rear-teeth');
  const check = question.getByRole('button', { name: 'Check my answer' });
  const said = question.getByRole('status');
  await check.click();
  await expect(said).toHaveText('Choose an answer first.');
  await question.locator('label').nth(0).click();
  await check.click();
  await expect(said).toContainText('Not that one');
  await expect(question.locator('.why').nth(0)).toBeVisible();
  await question.locator('label').nth(1).click();
  await expect(said).toHaveText('');
  await check.click();
  await expect(said).toHaveText('Right.');

  const number = page.locator('#question-knife-in-the-kerf');
  await number.getByRole('textbox').fill('thin');
  await number.getByRole('button').click();
  await expect(number.getByRole('status')).toHaveText(
    'The length must be one number, such as 7.5 or 5/16.',
  );
  await expect(number.getByRole('textbox')).toHaveValue('thin');
  await number.getByRole('textbox').fill('1 mm');
  await number.getByRole('button').click();
  await expect(number.getByRole('status')).toHaveText('Right.');

  await page.goto(`${site.url}/lessons/`);
  await expect(page.locator('li[data-stop="riving-knife"] [data-state-line]')).toHaveText(
    /^2 of \d+ questions answered right\./,
  );
});

test('steps are put into order by keyboard', async ({ page }) => {
  await page.goto(site.url + LESSON);
  const question = page.locator('#question-order-of-work');
  const steps = question.locator('li[data-place]');
  for (let turn = 0; turn < 20; turn += 1) {
    const places = await steps.evaluateAll((all) =>
      all.map((one) => Number((one as HTMLElement).dataset['place'])),
    );
    const late = places.findIndex((place, i) => i > 0 && place < (places[i - 1] ?? 0));
    if (late === -1) break;
    await steps
      .nth(late)
      .getByRole('button', { name: /^Move up/ })
      .focus();
    await page.keyboard.press('Enter');
  }
  await question.getByRole('button', { name: 'Check my answer' }).click();
  await expect(question.getByRole('status')).toHaveText('Right, from first to last.');
});

test('the rules chosen are shown alone, and still chosen on the job aid', async ({ page }) => {
  await page.goto(site.url + LESSON);
  await expect(page.locator('[data-rules-of="gb"]')).toBeVisible();
  await page.getByRole('radio', { name: /Europe/ }).check();
  await expect(page.locator('[data-rules-of="gb"]')).toBeHidden();
  await expect(page.locator('[data-rules-of="eu"]')).toContainText('Outside the limit');
  await page.goto(`${site.url + LESSON}/job-aid`);
  await expect(page.locator('[data-rules-of="eu"]')).toBeVisible();
  await expect(page.locator('[data-rules-of="gb"]')).toBeHidden();
});

test('a trade word shows its meaning on focus, and Escape puts it away', async ({ page }) => {
  await page.goto(site.url + LESSON);
  const term = page.locator('.term').first();
  await term.getByRole('link').focus();
  await expect(term.getByRole('tooltip')).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(term.getByRole('tooltip')).toBeHidden();
  await term.getByRole('link').press('Enter');
  await expect(page).toHaveURL(/\/glossary\/?#riving-knife$/);
});

test('has nothing an accessibility check objects to, light and dark, and fits 320 px', async ({
  page,
}) => {
  for (const path of [LESSON, '/lessons/', '/glossary', `${LESSON}/job-aid`]) {
    await page.setViewportSize({ width: 320, height: 640 });
    await page.goto(site.url + path);
    expect(await page.evaluate(() => document.documentElement.scrollWidth), path).toBe(320);
    await page.setViewportSize({ width: 1280, height: 800 });
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      const { violations } = await axe(page).include('main').analyze();
      expect(
        violations.map((one) => one.id),
        `${path}, ${colorScheme}`,
      ).toEqual([]);
    }
  }
});

test('can be read, rules and answers and all, without script', async ({ browser }) => {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(site.url + LESSON);
  for (const set of ['gb', 'eu', 'us-ca', 'practice']) {
    await expect(page.locator(`[data-rules-of="${set}"]`)).toBeVisible();
  }
  await expect(page.getByRole('button', { name: 'Check my answer' })).toHaveCount(0);
  const answer = page.locator('#question-knife-in-the-kerf details');
  await answer.locator('summary').click();
  await expect(answer).toContainText('1 mm');
  await context.close();
});
