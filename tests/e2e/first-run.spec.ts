import { expect, type Page, test } from '@playwright/test';
import { type Site, startSite } from '../helpers/site.ts';

/** The first run and the sign-ins, as plain forms: everything here works without script. */
test.use({ javaScriptEnabled: false });
test.describe.configure({ mode: 'serial' });

const PASSWORD = 'planes and chisels';
let site: Site;
let invitation = '';

test.beforeAll(async () => {
  site = await startSite('empty');
});
test.afterAll(() => site.stop());

async function signIn(page: Page, email: string, password: string): Promise<void> {
  await page.goto(`${site.url}/sign-in`);
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password').fill(password);
  await page.getByRole('main').getByRole('button', { name: 'Sign in', exact: true }).click();
}

test('a refused form says why and keeps what was typed, but never the password', async ({
  page,
}) => {
  await page.goto(`${site.url}/set-up`);
  await page.getByLabel('Name of the workshop').fill('Shop of this test');
  await page.getByLabel('full name').fill('Pat Tester');
  await page.getByLabel('e-mail').fill('pat@shop.example');
  await page.getByLabel('Password').evaluate((field) => field.removeAttribute('minlength'));
  await page.getByLabel('Password').fill('short');
  await page.getByRole('button', { name: 'Make the workshop' }).click();
  await expect(page.getByText('Password must be at least 12 characters.')).toBeVisible();
  await expect(page.getByLabel('full name')).toHaveValue('Pat Tester');
  await expect(page.getByLabel('Password')).toHaveValue('');
  expect(await page.content()).not.toContain('short"');
});

test('the set-up makes the workshop, signs its trainer in, and is over', async ({ page }) => {
  await page.goto(`${site.url}/set-up`);
  await page.getByLabel('Name of the workshop').fill('Shop of this test');
  await page.getByLabel('full name').fill('Pat Tester');
  await page.getByLabel('e-mail').fill('pat@shop.example');
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Make the workshop' }).click();
  await expect(page).toHaveURL(`${site.url}/board`);
  await expect(page.getByRole('banner')).toContainText('Pat Tester');
  await page.goto(`${site.url}/set-up`);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('This site is set up');

  const made = await page.request.post(`${site.url}/api/invitations`, {
    headers: { origin: site.url },
    data: { role: 'trainee', name: 'Sam' },
  });
  expect(made.status()).toBe(201);
  invitation = (await made.json()).path;
});

test('an invitation lets one person join, once', async ({ page }) => {
  await page.goto(site.url + invitation);
  await expect(page.getByLabel('full name')).toHaveValue('Sam');
  await page.getByLabel('e-mail').fill('sam@shop.example');
  await page.getByLabel('password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Join' }).click();
  await expect(page).toHaveURL(`${site.url}/my-book`);
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.goto(site.url + invitation);
  await expect(page.getByText('This invitation was already used')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Join' })).toHaveCount(0);
});

test('signing in leads each role to its own first page, and never off the site', async ({
  page,
}) => {
  await signIn(page, 'sam@shop.example', PASSWORD);
  await expect(page).toHaveURL(`${site.url}/my-book`);
  await page.goto(`${site.url}/sign-in?next=//evil.example`);
  await expect(page).toHaveURL(`${site.url}/my-book`);
  await page.getByRole('button', { name: 'Sign out' }).click();
  await signIn(page, 'pat@shop.example', PASSWORD);
  await expect(page).toHaveURL(`${site.url}/board`);
});

test('wrong passwords meet one sentence, and then a wait', async ({ page }) => {
  await signIn(page, 'sam@shop.example', 'wrong password');
  await expect(page.getByRole('alert')).toHaveText(
    'That e-mail and password do not belong together.',
  );
  for (let i = 0; i < 5; i++) await signIn(page, 'sam@shop.example', 'wrong password');
  await expect(page.getByRole('alert')).toHaveText(
    /^Too many wrong passwords; try again in \d seconds?\.$/,
  );
});

test('a stranger gets no cookie, and every real reply its headers', async ({ request }) => {
  const paths = [
    '/',
    '/sign-in',
    '/lessons/',
    '/favicon.svg',
    '/nothing',
    '/api/nothing',
    '/api/people',
    '/api/health',
  ];
  for (const path of paths) {
    const headers = (await request.get(site.url + path)).headers();
    expect(headers['set-cookie'], path).toBeUndefined();
    expect(headers['content-security-policy'], path).toContain("script-src 'self'");
    expect(headers['x-content-type-options'], path).toBe('nosniff');
  }
  const foreign = await request.post(`${site.url}/api/invitations`, {
    headers: { origin: 'https://evil.example' },
    data: { role: 'trainer', name: 'X' },
  });
  expect(foreign.status()).toBe(403);
  const wrongMethod = await request.delete(`${site.url}/api/invitations`, {
    headers: { origin: site.url },
  });
  expect(wrongMethod.status()).toBe(405);
  expect((await wrongMethod.json()).error.message).toBe('This address does not take DELETE.');
});
