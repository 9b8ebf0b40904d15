import { expect, type Page, test } from '@playwright/test';
import jsQR from 'jsqr';
import { axe } from '../helpers/axe.ts';
import { readInOwnPage } from '../helpers/read-pixels.ts';
import { type Site, startSite } from '../helpers/site.ts';
import { signInToDemo } from '../helpers/walk.ts';

let site: Site;
test.beforeAll(async () => {
  site = await startSite('demo');
});
test.afterAll(async () => {
  await site.stop();
});
test.use({ viewport: { width: 1024, height: 768 }, hasTouch: true });

/** Signs in somebody else on the same device. */
async function signIn(page: Page, who: string): Promise<void> {
  await page.context().clearCookies();
  await signInToDemo(page, site.url, who);
}

/** Pictures to look at, only where a folder for them is named. */
async function picture(page: Page, name: string): Promise<void> {
  const folder = process.env['SHOTS'];
  if (folder === undefined) return;
  for (const width of [1024, 390]) {
    await page.setViewportSize({ width, height: 800 });
    await page.screenshot({ path: `${folder}/${name}-${width}.png`, fullPage: true });
  }
  await page.setViewportSize({ width: 1024, height: 768 });
}

async function openMachine(page: Page, asset: string): Promise<void> {
  await page.goto(`${site.url}/register`);
  await page
    .getByRole('row', { name: new RegExp(asset) })
    .getByRole('link', { name: /^Bench/ })
    .click();
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await expect(page.locator('.machine-asset')).toHaveText(asset);
}

async function expectAccessible(page: Page): Promise<void> {
  const { violations } = await axe(page).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth > innerWidth);
  expect(wide).toBe(false);
}

const answerAll = async (page: Page, answer: string) => {
  for (const one of await page.getByRole('radio', { name: answer, exact: true }).all()) {
    await one.check();
  }
};

test('the page of a machine shows everybody what it is, and what each may do there', async ({
  page,
}) => {
  await signIn(page, 'mira.holt');
  await openMachine(page, 'AL-01');
  await expect(page.getByText('In service', { exact: true })).toBeVisible();
  await expect(page.getByRole('img', { name: 'Side view of AL-01' })).toBeVisible();
  // plate 2.8 and kerf 4.2: a knife of 3.2 mm stands between them
  await expect(page.getByRole('row', { name: /R 400.*Goes together/ })).toBeVisible();
  await expect(page.getByText('Shelf beside the office door')).toBeVisible();
  await expect(page.getByRole('heading', { name: 'What you may do on it' })).toBeVisible();
  await expect(page.getByRole('link', { name: 'Start a practical' })).toHaveCount(0);
  await expect(page.getByRole('link', { name: 'Change entry' })).toHaveCount(0);
  await expectAccessible(page);
  await picture(page, 'machine');
  await page.setViewportSize({ width: 320, height: 640 });
  await expectAccessible(page);
  await signIn(page, 'ruth.amsel');
  await openMachine(page, 'AL-01');
  await expect(page.getByRole('heading', { name: 'Who may do what on it' })).toBeVisible();
  await expect(page.getByRole('link', { name: 'Start a practical' })).toBeVisible();
  await page.goto(page.url().replace('/register/', '/de/register/'));
  await expect(page.getByRole('heading', { name: 'Tägliche Prüfungen' })).toBeVisible();
  expect((await page.goto(`${site.url}/register/none`))?.status()).toBe(404);
});

test('the label carries the address of the page, and prints at its own size', async ({ page }) => {
  await signIn(page, 'anna.weir');
  await openMachine(page, 'AL-02');
  const address = page.url();
  await page.getByRole('link', { name: 'Label with code' }).click();
  const code = page.getByRole('img', { name: /^Code to open/ });
  const read = await readInOwnPage(page, await code.screenshot());
  expect(jsQR(Uint8ClampedArray.from(read.data), read.width, read.height)?.data).toBe(address);
  await expectAccessible(page);
  await picture(page, 'label');
  const box = await page.locator('.machine-label').boundingBox();
  // CSS: 96 px to the inch of 25.4 mm
  expect(box?.width).toBeCloseTo((62 / 25.4) * 96, 0);
  expect(box?.height).toBeCloseTo((100 / 25.4) * 96, 0);
  const sizesOf = async () => {
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    return [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map(([, width, height]) => [
      Math.round((Number(width) / 72) * 25.4),
      Math.round((Number(height) / 72) * 25.4),
    ]);
  };
  expect(await sizesOf()).toEqual([[62, 100]]);
  await page.getByRole('link', { name: 'Show it on A4' }).click();
  await expect(page.locator('.machine-label[data-paper="a4"]')).toBeVisible();
  expect(await sizesOf()).toEqual([[210, 297]]);
});

test('a check that finds a fault takes the bench out, and a trainer returns it', async ({
  page,
}) => {
  await signIn(page, 'mira.holt');
  await openMachine(page, 'AL-01');
  await page.getByRole('link', { name: 'Daily check' }).click();
  await expect(page.getByText('Limit in force here').first()).toBeVisible();
  await expectAccessible(page);
  await picture(page, 'check');
  await answerAll(page, 'Sound');
  const guard = page.getByRole('group', { name: /^The crown guard/ });
  await guard.getByRole('radio', { name: 'Not sound' }).check();
  await guard.getByText('Add a note').click();
  await guard.getByRole('textbox').fill('Stays up when let go');
  await page.getByRole('radio', { name: /^Fit for use/ }).check();
  await page.getByRole('button', { name: 'Enter the check' }).click();
  await expect(page.getByRole('alert')).toContainText('must be not fit');
  await expect(guard.getByRole('textbox')).toHaveValue('Stays up when let go');
  await page.getByRole('radio', { name: /^Not fit for use/ }).check();
  await page.getByRole('checkbox', { name: /out of service with this check/ }).check();
  await page.getByLabel('What is wrong').fill('Guard stays up when let go');
  await page.getByRole('button', { name: 'Enter the check' }).click();
  await expect(page.getByText('Out of service: do not use')).toBeVisible();
  await expect(page.getByText('Guard stays up when let go').first()).toBeVisible();
  await expect(page.getByRole('link', { name: 'Return to service' })).toHaveCount(0);
  await expectAccessible(page);
  await picture(page, 'out');

  await signIn(page, 'ruth.amsel');
  await page.goto(`${site.url}/register`);
  await expect(page.getByText('Out of service: do not use')).toBeVisible();
  await openMachine(page, 'AL-01');
  await expect(page.getByRole('link', { name: 'Start a practical' })).toHaveCount(0);
  const machine = page.url();
  await page.goto(`${site.url}/authorisations/new?bench=${machine.split('/').at(-1)}`);
  await expect(page.getByRole('note').getByText(/AL-01 is out of service/)).toBeVisible();
  await page.goto(machine);
  await page.getByRole('link', { name: 'Return to service' }).click();
  await page.getByLabel('What was done').fill('New spring, tried ten times');
  await page.getByRole('button', { name: 'Return to service' }).click();
  await expect(page.getByText('AL-01 is in service again.')).toBeVisible();
  await expect(page.getByText('In service', { exact: true })).toBeVisible();
});

test('a near miss is reported from the keyboard, and takes the bench out at once', async ({
  page,
}) => {
  await signIn(page, 'tom.okafor');
  await openMachine(page, 'AL-02');
  await page.getByRole('link', { name: 'Report a near miss' }).click();
  await expect(page.getByText('An injury is also reported as the law asks')).toBeVisible();
  await expectAccessible(page);
  await picture(page, 'report');
  await page.getByLabel('Time it happened').fill('00:01');
  await page.getByLabel('Work being done').selectOption('rip');
  await page.getByRole('checkbox', { name: 'Mira Holt' }).focus();
  await page.keyboard.press('Space');
  await page.getByRole('radio', { name: 'Nobody was hurt' }).focus();
  await page.keyboard.press('Space');
  await page.getByLabel('What happened').focus();
  await page.keyboard.type('The offcut closed on the blade and was thrown back.');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Space');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await expect(page.getByText('The near miss is entered.')).toBeVisible();
  await expect(page.getByText('Out of service: do not use')).toBeVisible();
  // a trainee does not read who else was at the bench
  await expect(page.locator('#near-misses + ul')).not.toContainText('Mira Holt');
  await signIn(page, 'anna.weir');
  await openMachine(page, 'AL-02');
  await expect(page.locator('#near-misses + ul')).toContainText('At the bench: Mira Holt.');
});

test('practice is noted by the trainee and confirmed by the supervisor', async ({ page }) => {
  await signIn(page, 'jess.lindqvist');
  await page.goto(`${site.url}/practice`);
  await expectAccessible(page);
  const yesterday = new Date(Date.now() - 86_400_000).toISOString().slice(0, 10);
  const note = async (from: string, to: string) => {
    await page.getByLabel('Bench').selectOption({ label: 'Bench 1, AL-01' });
    await page.getByLabel('Kind of work').selectOption('rip');
    await page.getByLabel('Supervisor').selectOption({ label: 'Ruth Amsel' });
    await page.getByLabel('Day').fill(yesterday);
    await page.getByLabel('From').fill(from);
    await page.getByLabel('Until').fill(to);
    await page.getByLabel('What was cut').fill('Twelve rips in redwood');
    await page.getByRole('button', { name: 'Note this session' }).click();
  };
  await note('08:00', '09:30');
  await expect(page.getByText('Waits for confirmation')).toBeVisible();
  await note('09:00', '10:00');
  await expect(page.getByRole('alert')).toContainText('The session must not overlap another');
  await expect(page.getByLabel('What was cut')).toHaveValue('Twelve rips in redwood');
  await note('09:30', '10:00');
  await expect(page.getByText('Waits for confirmation')).toHaveCount(2);
  await picture(page, 'practice');

  await signIn(page, 'ruth.amsel');
  await page.goto(`${site.url}/practice`);
  await expectAccessible(page);
  await picture(page, 'confirm');
  await page.getByRole('radio', { name: 'It was so' }).first().check();
  await page.getByRole('radio', { name: 'It was not so' }).last().check();
  await page
    .getByLabel(/^Note; needed/)
    .last()
    .fill('Not with me');
  await page.getByRole('button', { name: 'Enter the answers' }).click();
  await expect(page.getByText('No session waits for you.')).toBeVisible();
  await page.goto(`${site.url}/board`);
  await page.getByRole('link', { name: 'Jess Lindqvist' }).first().click();
  await expect(page.getByText('Confirmed on AL-01, ripping: 1.5 h')).toBeVisible();
  await expect(page.getByText('Not with me')).toBeVisible();
});

test.describe('without script', () => {
  test.use({ javaScriptEnabled: false });

  test('an entry takes rows of blades, keeps what was typed, and tells what it changed', async ({
    page,
  }) => {
    await signIn(page, 'dev.pradhan');
    await openMachine(page, 'AL-02');
    await page.getByRole('link', { name: 'Change entry' }).click();
    await expect(page.getByText('0 people are authorised on AL-02 now.')).toBeVisible();
    await picture(page, 'entry');
    await page.getByLabel('The entry alone: the machine is as it was').check();
    await page.getByLabel('Mark, row 3').first().fill('R 350');
    await page.getByRole('button', { name: 'More rows' }).click();
    await expect(page.getByLabel('Mark, row 3').first()).toHaveValue('R 350');
    await expect(page.getByLabel('Mark, row 9').first()).toBeVisible();
    await page.getByLabel('Diameter, mm, row 3').fill('350');
    await page.getByLabel('Kerf, mm, row 3').fill('2,4');
    await page.getByLabel('Plate, mm, row 3').fill('2.5');
    await page.getByLabel('Teeth, row 3').fill('28');
    await page.getByRole('button', { name: 'Replace the entry' }).click();
    await expect(page.getByRole('alert')).toHaveText(
      'Blade 3: the kerf must be wider than the plate.',
    );
    await expect(page.getByLabel('Kerf, mm, row 3')).toHaveValue('2,4');
    await page.getByLabel('Kerf, mm, row 3').fill('3,6');
    await page.getByRole('button', { name: 'Replace the entry' }).click();
    await expect(page.getByText('The entry of AL-02 is in the register.')).toBeVisible();
    await expect(page.getByText('entry corrected')).toBeVisible();
    await expect(page.getByText('blades[2].kerf')).toBeVisible();
    await expect(page.getByRole('row', { name: /R 350.*Goes together/ })).toBeVisible();
  });

  test('a bench is taken out and returned, and times are taken as UTC', async ({ page }) => {
    await signIn(page, 'dev.pradhan');
    await openMachine(page, 'AL-01');
    await page.getByRole('link', { name: 'Take out of service' }).click();
    await page.getByLabel('What is wrong').fill('Belt frayed');
    await page.getByRole('button', { name: 'Take out of service' }).click();
    await expect(page.getByText('Out of service: do not use')).toBeVisible();
    await page.getByRole('link', { name: 'Return to service' }).click();
    await page.getByLabel('What was done').fill('New belt, run for ten minutes');
    await page.getByRole('button', { name: 'Return to service' }).click();
    await expect(page.getByText('AL-01 is in service again.')).toBeVisible();
    await page.goto(`${site.url}/practice`);
    await expect(page.getByText('Times in UTC')).toBeVisible();
  });
});
