import { expect, type Page, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { type Site, startSite } from '../helpers/site.ts';
import { signInToDemo } from '../helpers/walk.ts';
import { type ManyFile, makeManyFiles } from '../records/many-files.ts';

/** The page that checks proofs, the file it hands out, and the checkpoints for those who keep them. */
let site: Site;
let files: ManyFile[] = [];
test.beforeAll(async () => {
  site = await startSite('demo');
  files = await makeManyFiles();
});
test.afterAll(async () => {
  await site.stop();
});

const fits = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth);

test('the page gives every verdict under the policy of the site, and asks for nothing', async ({
  page,
}) => {
  const refused: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') refused.push(message.text());
  });
  await page.goto(`${site.url}/verify`);
  await page.waitForLoadState('networkidle');
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  const words = [...new Set(files.map(({ verdict }) => verdict))];
  for (const word of words) {
    const one = files.find(({ verdict }) => verdict === word) as ManyFile;
    await page.getByLabel('Signers you trust').fill(one.trusted.join('\n'));
    await page.getByRole('textbox', { name: 'The proof' }).fill(JSON.stringify(one.file));
    await page.getByLabel('For which day').fill(one.day);
    await page.getByRole('button', { name: 'Check the proof' }).click();
    await expect(page.locator(`[data-verdict="${word}"]`)).toBeVisible();
  }
  expect(words).toHaveLength(6);
  // a face for bold type may come late; nothing that was typed goes anywhere
  expect(asked.filter((url) => !url.endsWith('.woff2'))).toEqual([]);
  expect(refused).toEqual([]);
});

test('the page reads well in both languages, light and dark, down to 320 px', async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 640 });
  const one = files.find(({ name }) => name === 'leave, all shown') as ManyFile;
  for (const [path, check] of [
    ['/verify', 'Check the proof'],
    ['/de/verify', 'Nachweis prüfen'],
  ] as const) {
    await page.emulateMedia({ colorScheme: path === '/verify' ? 'light' : 'dark' });
    await page.goto(site.url + path);
    await page.locator('#verify-signers').fill(one.trusted.join('\n'));
    await page.locator('#verify-proof').fill(JSON.stringify(one.file));
    await page.locator('#verify-day').fill(one.day);
    await page.getByRole('button', { name: check, exact: true }).click();
    await expect(page.locator('[data-verdict="genuine"]')).toBeVisible();
    expect(await fits(page)).toBe(true);
    const { violations } = await axe(page).include('main').analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  }
  await expect(page.locator('[data-verdict]')).toContainText('Echt');
});

test('the file that checks alone is a download with the key of the site to compare', async ({
  page,
}) => {
  const reply = await page.request.get(`${site.url}/verifier.html`);
  const headers = reply.headers();
  expect(headers['content-disposition']).toBe('attachment; filename="verifier.html"');
  expect(headers['content-security-policy']).toContain("script-src 'self'");
  const text = await reply.text();
  expect(text).toMatch(/data-suggested="did:key:z6Mk[1-9A-HJ-NP-Za-km-z]+"/);
  expect(Buffer.byteLength(text)).toBeLessThanOrEqual(60 * 1024);
});

test('an employer takes a checkpoint and finds the log going on from it', async ({ page }) => {
  await signInToDemo(page, site.url, 'anna.weir');
  await page.goto(`${site.url}/checkpoints`);
  const note = await page.locator('[data-checkpoint]').textContent();
  const file = await page.request.get(`${site.url}/api/checkpoints`);
  expect(await file.text()).toBe(note);
  await page.getByLabel('Checkpoint you kept').fill(note ?? '');
  await page.getByRole('button', { name: 'Compare it' }).click();
  await expect(page.locator('[data-compared="same"]')).toContainText('Yes.');
  await page.getByLabel('Checkpoint you kept').fill('hello');
  const answered = page.waitForResponse((reply) => reply.request().method() === 'POST');
  await page.getByRole('button', { name: 'Compare it' }).click();
  expect((await answered).status()).toBe(400);
  await expect(page.locator('#kept-problem')).toContainText('must be a signed note');
  await expect(page.getByLabel('Checkpoint you kept')).toHaveValue('hello');
  await page.setViewportSize({ width: 320, height: 640 });
  expect(await fits(page)).toBe(true);
  const { violations } = await axe(page).include('main').analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
});

test('a checkpoint is not for trainees, and strangers are asked to sign in', async ({ page }) => {
  await page.goto(`${site.url}/checkpoints`);
  await expect(page).toHaveURL(/sign-in/);
  expect((await page.request.get(`${site.url}/api/checkpoints`)).status()).toBe(401);
  await signInToDemo(page, site.url, 'mira.holt');
  expect((await page.goto(`${site.url}/checkpoints`))?.status()).toBe(403);
  expect((await page.request.get(`${site.url}/api/checkpoints`)).status()).toBe(403);
});
