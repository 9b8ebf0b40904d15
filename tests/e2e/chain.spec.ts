import { readFileSync } from 'node:fs';
import { type Browser, expect, type Page, test } from '@playwright/test';
import { hasPostgres } from '../helpers/postgres.ts';
import { type Site, startSite } from '../helpers/site.ts';
import { fillSheet, goToPart, reviewSheet, signSheet, waitForVerdicts } from '../helpers/walk.ts';

/**
 * The whole chain in three roles, on an empty store: a workshop is set up; a trainee is invited,
 * learns, sets a bench and is graded; the trainer watches a practical and signs; the employer
 * opens the proof; and a changed byte in the store shows as broken.
 */
const PASSWORD = 'knife stands close behind';
const PLACE = 'Machine shop, Alder Lane';
const PEOPLE = {
  trainer: { name: 'Ruth Amsel', email: 'ruth@alderlane.example' },
  trainee: { name: 'Mira Holt', email: 'mira@alderlane.example' },
  employer: { name: 'Anna Weir', email: 'anna@alderlane.example' },
} as const;

let site: Site;
test.afterEach(() => site.stop());

/** A page of its own browser profile that fails the test on any error in the console. */
async function openAs(browser: Browser, errors: string[]): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1024, height: 768 } });
  // a wait that hangs says which it was, instead of using up the time of the whole test
  context.setDefaultTimeout(20_000);
  context.setDefaultNavigationTimeout(20_000);
  const page = await context.newPage();
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (message) => {
    // a refusal (4xx) that a test provokes is logged by the browser itself
    if (message.type() === 'error' && !/status of 4\d\d/.test(message.text())) {
      errors.push(message.text());
    }
  });
  return page;
}

async function setUp(page: Page): Promise<void> {
  await page.goto(`${site.url}/set-up`);
  await page.getByLabel('Name of the workshop').fill('Alder Lane Joinery');
  await page.getByLabel("Trainer's full name").fill(PEOPLE.trainer.name);
  await page.getByLabel("Trainer's e-mail").fill(PEOPLE.trainer.email);
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Make the workshop' }).click();
  await expect(page.getByRole('heading', { name: 'Board' })).toBeVisible();
}

/** Makes an invitation and returns its link. */
async function invite(page: Page, name: string, role: string): Promise<string> {
  await page.goto(`${site.url}/board`);
  await page.getByLabel('Name').fill(name);
  await page.getByRole('radio', { name: new RegExp(`^${role}`, 'i') }).check({ force: true });
  await page.getByRole('button', { name: 'Make an invitation' }).click();
  const made = page.locator('#new-invitation');
  await expect(made).toContainText('/invitation/');
  const link = ((await made.textContent()) ?? '').match(/\/invitation\/[\w-]{43}/)?.[0];
  return `${site.url}${link}`;
}

async function join_(page: Page, link: string, person: { email: string }): Promise<void> {
  await page.goto(link);
  await page.getByLabel('Your e-mail').fill(person.email);
  await page.getByLabel('Choose a password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Join' }).click();
  await page.waitForURL((url) => !url.pathname.startsWith('/invitation'));
}

async function openPart(page: Page, part: string): Promise<void> {
  await page.getByRole('tab', { name: 'Parts' }).click();
  const back = page.getByRole('button', { name: 'All parts' });
  if (await back.isVisible()) await back.click();
  await page
    .getByRole('button', { name: new RegExp(`^${part}`) })
    .first()
    .click();
}

async function setScale(page: Page, scale: string, value: string): Promise<void> {
  const entry = page.getByLabel(scale);
  await entry.fill(value);
  await entry.press('Enter');
}

/** Sets knife and guard from the parts list alone, as a person without the picture would. */
async function setKnifeAndGuard(page: Page): Promise<void> {
  await page.goto(`${site.url}/bench/knife-and-guard`);
  await expect(
    page.getByRole('heading', { level: 2, name: 'Set the riving knife and the guard' }),
  ).toBeVisible();
  await openPart(page, 'Isolator');
  await page.getByRole('button', { name: 'Switch off and lock off' }).click();

  await openPart(page, 'Riving knife');
  await page.getByRole('button', { name: 'Loosen the clamp' }).click();
  await setScale(page, "The scale up the knife's bracket", '0');
  await setScale(page, "The scale along the knife's bracket", '2');
  await page.getByRole('button', { name: 'Tighten the clamp' }).click();

  await openPart(page, 'Crown guard');
  await page.getByRole('button', { name: 'Loosen the clamp' }).click();
  await setScale(page, "The scale on the guard's post", '56');
  await setScale(page, "The scale on the guard's arm", '-235');
  await page.getByRole('button', { name: 'Tighten the clamp' }).click();
  await page.getByRole('button', { name: 'Let the fingers down' }).click();

  await page.getByRole('button', { name: 'How close am I?' }).click();
  await expect(page.getByText('HSE, circular saw bench').first()).toBeVisible();
  await page.getByRole('button', { name: 'Hand in', exact: true }).click();
  await page.getByRole('button', { name: 'Hand in now' }).click();
  await expect(page.getByRole('heading', { name: 'Result' })).toBeVisible();
}

async function registerBench(page: Page): Promise<void> {
  await page.goto(`${site.url}/register/new`);
  await page.locator('#asset').fill('AL-01');
  await page.locator('#title').fill('Bench 1');
  await page.locator('input[name=work][value=rip]').check({ force: true });
  const file = page.locator('#file');

  // impossible geometry is one sentence, and nothing typed is lost
  const bench = readFileSync('content/benches/alder-lane-1.yaml', 'utf8');
  await file.fill(bench.replace('depth: 110', 'depth: 210'));
  await page.getByRole('button', { name: 'Register this bench' }).click();
  await expect(
    page.getByText(/blade\.diameter must be more than twice arbor\.depth/),
  ).toBeVisible();
  await expect(page.locator('#asset')).toHaveValue('AL-01');

  await file.fill(bench);
  await page.getByRole('button', { name: 'Register this bench' }).click();
  await page.waitForURL(/\/register\/[0-9a-f-]+\?done=entered/);
  await expect(
    page.getByRole('cell', { name: 'AL-01' }).or(page.getByText('AL-01')).first(),
  ).toBeVisible();
}

const keptLine = (page: Page) => page.getByText(/^Kept on this device at/);

/** Fills the sheet for unit 3 as a trainer would, and signs. */
async function watchAndSign(page: Page): Promise<void> {
  await fillSheet(page, site.url, PEOPLE.trainee.name, PLACE);

  // a dead battery loses nothing that the sheet says is kept
  await expect(keptLine(page)).toBeVisible();
  await page.reload();
  await expect(page.getByLabel('Place')).toHaveValue(PLACE);
  await goToPart(page, /^3\./);
  await waitForVerdicts(page);
  await goToPart(page, 'Decide');
  await reviewSheet(page);
  await expect(page.getByRole('heading', { name: 'What your signature means' })).toBeVisible();

  // signing wants the password at that moment
  await signSheet(page, PEOPLE.trainer.name, 'not the password at all');
  await expect(page.getByRole('alert')).toBeVisible();
  await signSheet(page, PEOPLE.trainer.name, PASSWORD);
  await expect(page.getByText(/Logged as record \d+/)).toBeVisible();
}

/** Changes one letter of the stored sign-off, past the append-only guard, as a thief of the disk could. */
const LETTER =
  "update event set json = replace(json, 'Machine shop, Alder Lane', 'Machine shop, Elder Lane') where kind = 'practical.signed'";

async function walkTheChain(browser: Browser): Promise<void> {
  const errors: string[] = [];
  const trainer = await openAs(browser, errors);
  const trainee = await openAs(browser, errors);
  const employer = await openAs(browser, errors);

  await setUp(trainer);
  const traineeLink = await invite(trainer, PEOPLE.trainee.name, 'trainee');
  const employerLink = await invite(trainer, PEOPLE.employer.name, 'employer');
  await join_(trainee, traineeLink, PEOPLE.trainee);
  await join_(employer, employerLink, PEOPLE.employer);

  // a link works once
  const stranger = await openAs(browser, errors);
  const used = await stranger.goto(traineeLink);
  expect(used?.status()).toBeGreaterThanOrEqual(400);
  await expect(stranger.getByRole('heading', { name: 'This link does not work' })).toBeVisible();

  await trainee.goto(`${site.url}/lessons/riving-knife`);
  await expect(trainee.locator('figure svg').first()).toBeVisible();
  await setKnifeAndGuard(trainee);
  await trainee.goto(`${site.url}/my-book`);
  await expect(trainee.getByText('Set the riving knife and the guard').first()).toBeVisible();

  // a trainee opens neither the board nor a practical sheet
  for (const path of ['/board', '/practical/new', '/who-may']) {
    const reply = await trainee.goto(`${site.url}${path}`);
    expect(reply?.status(), path).toBe(403);
  }

  await trainer.goto(`${site.url}/board`);
  await trainer.getByRole('link', { name: PEOPLE.trainee.name }).first().click();
  await trainer
    .getByRole('link', { name: /Set the riving knife/ })
    .first()
    .click();
  await expect(trainer.getByText('Moved the riving knife').first()).toBeVisible();

  await registerBench(trainer);
  await watchAndSign(trainer);

  await employer.goto(`${site.url}/who-may`);
  const row = employer.getByRole('row', { name: new RegExp(PEOPLE.trainee.name) }).first();
  // the unit takes two practicals on two days, and one has been signed
  await expect(row).toContainText(/1 so far/);
  await expect(
    employer.getByRole('main').getByRole('button', { name: /sign|register|withdraw|invite/i }),
  ).toHaveCount(0);
  await row.getByRole('link', { name: /proof/i }).or(row.getByRole('link').last()).first().click();
  await expect(employer).toHaveURL(/\/proof\//);
  await expect(employer.getByRole('heading', { name: 'Proof of a practical' })).toBeVisible();
  await expect(employer.getByText(/genuine/i).first()).toBeVisible();
  await expect(employer.getByText('Broken').filter({ visible: true })).toHaveCount(0);

  expect(await site.tamper(LETTER)).toBe(1);
  await employer.reload();
  await expect(employer.getByText(/BROKEN/).first()).toBeVisible();
  await expect(employer.getByText(/genuine/i).filter({ visible: true })).toHaveCount(0);
  await employer.goto(`${site.url}/who-may`);
  await expect(
    employer.getByRole('row', { name: new RegExp(PEOPLE.trainee.name) }).first(),
  ).not.toContainText(/1 so far/);

  expect(errors).toEqual([]);
}

// the one walk that sees sign-up, an attempt, a practical and the matrix: on PostgreSQL, as every other is on SQLite
for (const engine of [hasPostgres() ? 'postgresql' : 'sqlite']) {
  test(`the whole chain, in three roles, on ${engine}`, async ({ browser }) => {
    test.setTimeout(200_000);
    site = await startSite('empty', engine);
    await walkTheChain(browser);
  });
}
