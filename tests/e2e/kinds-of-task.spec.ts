import { expect, type Page, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { type Site, startSite } from '../helpers/site.ts';

/** Figures said beforehand and a choice from the rack, at the bench in a browser. */
// the picture is drawn coarse: no pixel of it is a fact here
test.use({ deviceScaleFactor: 0.25 });

let site: Site;
test.beforeAll(async () => {
  site = await startSite('empty');
});
test.afterAll(async () => {
  await site.stop();
});

async function checkAccess(page: Page): Promise<void> {
  const found = await axe(page)
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze();
  expect(found.violations.map(({ id }) => id)).toEqual([]);
}

async function handIn(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Hand in' }).first().click();
  await page
    .getByRole('button', { name: /hand.* in/i })
    .first()
    .click();
  await page.locator('#bench-result').waitFor();
}

test('figures are said before anything is moved, and told afterwards with how they come about', async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 780 });
  await page.goto(`${site.url}/bench/raise-and-feed`);
  await expect(page.getByText('Say figures beforehand (practice)').first()).toBeVisible();
  await page.getByRole('tab', { name: 'Beforehand' }).click();
  const first = page.locator('.bench-beforehand li').first();
  await first.getByRole('textbox').fill('much');
  await first.getByRole('button', { name: 'Write it down' }).click();
  await expect(first.getByRole('alert')).toContainText('cannot be read as a length');
  await first.getByRole('textbox').fill('1000');
  await first.getByRole('button', { name: 'Write it down' }).click();
  await expect(first).toContainText('Written down: 1000 mm');
  await checkAccess(page);
  // the fence is not moved while figures are still to be said
  await page
    .getByRole('tab', { name: /^(Bench|Parts|All parts)/ })
    .or(page.locator('#bench-tab-parts'))
    .first()
    .click();
  await page.locator('#bench-part-fence').click();
  await page
    .getByRole('button', { name: /loosen|open the clamp|unlock/i })
    .first()
    .click();
  await expect(page.locator('.bench-voice')).toContainText('First write down what you expect');
  await expect(page.locator('#bench-tab-beforehand')).toHaveAttribute('aria-selected', 'true');
  await handIn(page);
  const said = page.locator('.bench-outcome section').filter({ hasText: 'Said beforehand' });
  await expect(said).toContainText('0 of 4 near enough');
  await said.getByText('How it comes about').first().click();
  await expect(said).toContainText('Thickness of the stock');
  await checkAccess(page);
});

test('blade and knife are taken from the rack, and the choice is graded with reasons', async ({
  page,
}) => {
  await page.goto(`${site.url}/bench/blade-for-a-thick-board`);
  await page.locator('.bench-supply').click();
  await page.getByRole('button', { name: 'Switch off and lock off' }).click();
  await page.locator('#bench-tab-rack').click();
  await page.getByRole('button', { name: /^Fit Panel blade 303/ }).click();
  await expect(page.locator('.bench-voice')).toContainText('Panel blade 303');
  await checkAccess(page);
  await page.reload();
  await page
    .getByRole('button', { name: 'Carry on where you were' })
    .or(page.getByRole('button', { name: /carry on|go on/i }))
    .first()
    .click();
  await page.locator('#bench-tab-rack').click();
  await expect(page.locator('.bench-rack li').filter({ hasText: 'Panel blade 303' })).toContainText(
    'on the bench',
  );
  await handIn(page);
  const choice = page.locator('.bench-outcome section').filter({ hasText: 'Choice' }).first();
  await expect(choice).toContainText(/Better: /);
  await expect(choice).toContainText(/Wrong for this job|suits the job better/);
});
