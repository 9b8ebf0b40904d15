import { readFileSync } from 'node:fs';
import { expect, type Page, test } from '@playwright/test';
import ICAL from 'ical.js';
import { axe } from '../helpers/axe.ts';
import { signOffDemo } from '../helpers/sign-off-demo.ts';
import { type Site, startSite } from '../helpers/site.ts';
import { signInToDemo } from '../helpers/walk.ts';

let site: Site;
test.beforeAll(async () => {
  site = await startSite('demo');
  await signOffDemo(site, 'Mira Holt');
});
test.afterAll(() => site.stop());

async function expectAccessible(page: Page): Promise<void> {
  expect((await axe(page).analyze()).violations).toEqual([]);
}

test('the board says who is ready, and shows one group alone', async ({ page }) => {
  await signInToDemo(page, site.url, 'ruth.amsel');
  await page.goto(`${site.url}/groups`);
  await page.getByLabel('Name of the group').fill('Monday class');
  await page.getByRole('button', { name: 'Make the group' }).click();
  await expect(page.getByRole('heading', { name: 'Monday class' })).toBeVisible();
  await page.getByRole('checkbox', { name: /Mira Holt/ }).check();
  await page.getByRole('button', { name: 'Keep these people' }).click();
  await expect(page.getByText('The group is kept.')).toBeVisible();
  await expectAccessible(page);

  await page.goto(`${site.url}/board`);
  await expect(page.getByRole('row', { name: /Mira Holt/ })).toContainText(
    'ripping, AL-01: 7 of 7',
  );
  await expect(page.getByRole('row', { name: /Mira Holt/ })).toContainText(
    'Confirmed practice: 6 h',
  );
  await expect(page.getByRole('row', { name: /Tom Okafor/ })).toContainText('nothing signed yet');
  await expectAccessible(page);
  await page.getByLabel('Group').selectOption({ label: 'Monday class' });
  await page.getByRole('button', { name: 'Show', exact: true }).click();
  await expect(page.getByRole('row', { name: /Mira Holt/ })).toBeVisible();
  await expect(page.getByRole('row', { name: /Tom Okafor/ })).toHaveCount(0);
});

test('a list is checked before anybody is invited, and its links are handed out once', async ({
  page,
}) => {
  await signInToDemo(page, site.url, 'ruth.amsel');
  await page.goto(`${site.url}/invite`);
  await expectAccessible(page);
  await page
    .getByLabel('Paste the table here')
    .fill('name,role,group\nMira Holt,trainee,\nIda Quist,boss,\n=Bo Lind,trainee,Tuesday class');
  await page.getByRole('button', { name: 'Check the list' }).click();
  const problems = page.getByRole('region', { name: '2 problems to mend' });
  await expect(problems.getByRole('row', { name: /^2 name/ })).toContainText('is here already');
  await expect(problems.getByRole('row', { name: /^3 role/ })).toContainText('It says: boss');
  await expect(page.getByText('These groups are made with it: Tuesday class.')).toBeVisible();
  await expectAccessible(page);
  await page.goto(`${site.url}/board`);
  await expect(page.getByText('Bo Lind')).toHaveCount(0);

  await page.goto(`${site.url}/invite`);
  await page.getByLabel('Or choose a CSV file').setInputFiles({
    name: 'people.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from('\uFEFFName;Rolle;Gruppe\r\n=Bo Lind;lernend;Tuesday class\r\n'),
  });
  await page.getByRole('button', { name: 'Check the list' }).click();
  await expect(page.getByText('1 person can be invited.')).toBeVisible();
  await page.getByRole('button', { name: 'Make 1 invitation' }).click();
  await expect(page.getByRole('heading', { name: 'Links to hand out' })).toBeVisible();
  const link = await page.locator('.invitation-link').getAttribute('href');
  await expectAccessible(page);
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Take them as a CSV file' }).click();
  const csv = readFileSync(await (await waiting).path(), 'utf8');
  expect(csv).toContain(link ?? 'no link');
  expect(csv).toContain("'=Bo Lind");
  expect((await page.goto(link ?? ''))?.status()).toBe(200);
});

test('a file in another code is refused with one sentence', async ({ page }) => {
  await signInToDemo(page, site.url, 'ruth.amsel');
  await page.goto(`${site.url}/invite`);
  await page.getByLabel('Or choose a CSV file').setInputFiles({
    name: 'people.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from('Zoë Grün,trainee', 'latin1'),
  });
  await page.getByRole('button', { name: 'Check the list' }).click();
  await expect(page.getByRole('alert')).toContainText('must be text in UTF-8');
});

test('the calendar opens by its secret alone, and names nobody to a trainee', async ({ page }) => {
  await signInToDemo(page, site.url, 'ruth.amsel');
  await page.goto(`${site.url}/due`);
  await expectAccessible(page);
  await expect(page.getByText('This site sends no e-mail.')).toBeVisible();
  await page.getByRole('radio', { name: 'Names of people and work' }).check();
  await page.getByRole('button', { name: 'Make an address' }).click();
  const address = (await page.locator('.secret-address').getAttribute('href')) ?? '';
  const reply = await fetch(address);
  expect(reply.status).toBe(200);
  expect(reply.headers.get('content-type')).toContain('text/calendar');
  const calendar = new ICAL.Component(ICAL.parse(await reply.text()));
  expect(calendar.getFirstPropertyValue('version')).toBe('2.0');

  await page.reload();
  await page.goto(`${site.url}/due`);
  await expect(page.locator('.secret-address')).toHaveCount(0);
  await page.getByRole('button', { name: 'Renew the address' }).click();
  expect((await fetch(address)).status).toBe(404);
  const wrong = await fetch(`${site.url}/calendar/nobody.ics`);
  expect(wrong.status).toBe(404);
  expect(await wrong.text()).toBe('Not found\n');
  await page.getByRole('button', { name: 'Remove the address' }).click();
  await expect(page.getByRole('button', { name: 'Make an address' })).toBeVisible();
});

test('board, groups and invitations are for trainers', async ({ page }) => {
  await signInToDemo(page, site.url, 'mira.holt');
  for (const path of ['board', 'groups', 'invite', 'rules']) {
    expect((await page.goto(`${site.url}/${path}`))?.status(), path).toBe(403);
  }
  expect((await page.goto(`${site.url}/due`))?.status()).toBe(200);
  expect((await page.goto(`${site.url}/authorisations`))?.status()).toBe(200);
});
