import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { type BrowserContext, expect, type Page, test } from '@playwright/test';
import { DEMO_PASSWORD, type Site, startSite } from '../helpers/site.ts';

/** The course without a network: the site is stopped, or the network cut, and what was kept is read. */
test.use({ serviceWorkers: 'allow' });

/** Waits until the worker says that all of the course is kept. */
async function keepAll(page: Page, url: string): Promise<void> {
  await page.goto(`${url}/lessons/`);
  await expect(page.locator('[data-kept-line]')).toContainText('can be read without a network', {
    timeout: 60_000,
  });
}

/** Every address in every cache of this browser. */
const keptIn = (page: Page): Promise<string[]> =>
  page.evaluate(async () => {
    const names = await caches.keys();
    const all = await Promise.all(
      names.map(async (name) => (await (await caches.open(name)).keys()).map(({ url }) => url)),
    );
    return all.flat().map((url) => new URL(url).pathname);
  });

test('a lesson never opened before is read with the site stopped, and a question answered', async ({
  page,
  context,
}) => {
  const site = await startSite('empty');
  await keepAll(page, site.url);
  await expect(page.locator('[data-kept-line]')).toContainText(/Kept on \d+ \w+ \d{4}, \d+ kB/);
  await site.stop();
  await context.setOffline(true);
  await page.goto(`${site.url}/lessons/riving-knife`);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  // in its own face and style: the sheet came from the device too
  const face = await page.evaluate(() => getComputedStyle(document.body).fontFamily);
  expect(face).toContain('Atkinson');
  const question = page.locator('[data-question]').first();
  await question.getByRole('radio').or(question.getByRole('checkbox')).first().check();
  await question.getByRole('button').first().click();
  await expect(
    question.getByRole('status').or(question.locator('[data-said]')).first(),
  ).not.toBeEmpty();
  await page.goto(`${site.url}/lessons/riving-knife/job-aid`);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
});

test.describe('with the network cut', () => {
  let site: Site;
  test.beforeAll(async () => {
    site = await startSite('demo');
  });
  test.afterAll(async () => {
    await site.stop();
  });

  const cut = async (page: Page, context: BrowserContext) => {
    await keepAll(page, site.url);
    await context.setOffline(true);
  };

  test('search, glossary, limits and what is due open', async ({ page, context }) => {
    await cut(page, context);
    await page.goto(`${site.url}/search?q=kickback`);
    await page.getByRole('searchbox').fill('kickback');
    await expect(page.locator('[data-search-results] li').first()).toBeVisible();
    for (const path of ['glossary', 'limits', 'again', 'lessons', '']) {
      await page.goto(`${site.url}/${path}`);
      await expect(page.getByRole('heading', { level: 1 })).not.toHaveText('No network');
    }
  });

  test('a page that is not kept says so in plain words, with what can be opened', async ({
    page,
    context,
  }) => {
    await cut(page, context);
    const reply = await page.goto(`${site.url}/my-book`);
    expect(reply?.status()).toBe(503);
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('No network');
    expect(reply?.headers()['content-security-policy']).toContain("script-src 'self'");
    const links = page.getByRole('main').getByRole('link');
    expect(await links.count()).toBeGreaterThan(10);
    await page.getByRole('link', { name: 'Words of the trade' }).click();
    await expect(page).toHaveURL(/glossary/);
    await expect(page.getByRole('heading', { level: 1 })).not.toHaveText('No network');
  });

  test('a bench that was opened goes on where it was left, and one that was not is said not to', async ({
    page,
    context,
  }) => {
    test.setTimeout(240_000);
    await keepAll(page, site.url);
    await page.goto(`${site.url}/bench/knife-and-guard`);
    await page
      .getByRole('tab', { name: 'Bench' })
      .or(page.getByRole('tab').nth(1))
      .first()
      .waitFor();
    await expect.poll(() => keptIn(page), { timeout: 60_000 }).toContain('/bench/knife-and-guard');
    await context.setOffline(true);
    await page.goto(`${site.url}/bench/knife-and-guard`);
    await expect(
      page.getByRole('button', { name: /carry on|go on|where you/i }).first(),
    ).toBeVisible();
    await page.goto(`${site.url}/bench/walk-round`);
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('No network');
    await expect(page.locator('[data-kept-benches] li:visible')).toHaveCount(1);
  });

  test('keeps nothing that belongs to a person, signed in and walking about', async ({ page }) => {
    await keepAll(page, site.url);
    await page.goto(`${site.url}/sign-in`);
    await page.locator('input[name=email]').fill('mira.holt@alderlane.example');
    await page.locator('input[name=password]').fill(DEMO_PASSWORD);
    await page.getByRole('button', { name: 'Sign in', exact: true }).click();
    await expect(page.getByRole('alert')).toHaveCount(0);
    await page.waitForURL((url) => !url.pathname.includes('sign-in'));
    // kept once more with somebody signed in: still nothing of theirs comes along
    await page.goto(`${site.url}/lessons/`);
    await page.getByRole('button', { name: 'Take it off this device' }).click();
    await page.getByRole('button', { name: 'Keep it on this device' }).click();
    await keepAll(page, site.url);
    for (const path of ['my-book', 'people', 'limits', '', 'register', 'practical', 'lessons/']) {
      await page.goto(`${site.url}/${path}`);
    }
    await page.evaluate(() => fetch('/api/people/me'));
    await page.waitForTimeout(1000);
    const kept = await keptIn(page);
    expect(kept.length).toBeGreaterThan(40);
    const personal =
      /^(\/\w\w)?\/(api|my-book|people|practical|proof|register|attempts|sittings|board|sign-in|invitation)(\/|$)/;
    expect(kept.filter((path) => personal.test(path))).toEqual([]);
    const texts = await page.evaluate(async () => {
      const found: string[] = [];
      for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        for (const request of await cache.keys()) {
          const text = await (await cache.match(request))?.text();
          if (/Mira Holt|alderlane\.example/.test(text ?? '')) found.push(request.url);
        }
      }
      return found;
    });
    expect(texts).toEqual([]);
  });

  test('is taken off the device when asked, and kept again when asked', async ({ page }) => {
    await keepAll(page, site.url);
    await page.getByRole('button', { name: 'Take it off this device' }).click();
    await expect(page.locator('[data-kept-line]')).toHaveText(
      'The course is not kept on this device.',
    );
    await expect.poll(() => keptIn(page)).toEqual([]);
    await page.reload();
    await expect(page.getByRole('button', { name: 'Keep it on this device' })).toBeVisible();
    await page.getByRole('button', { name: 'Keep it on this device' }).click();
    await expect(page.locator('[data-kept-line]')).toContainText('can be read without a network', {
      timeout: 60_000,
    });
  });
});

test('fetches nothing unasked where the device saves data', async ({ page }) => {
  const site = await startSite('empty');
  await page.addInitScript(() => {
    Object.defineProperty(navigator, 'connection', { value: { saveData: true } });
  });
  await page.goto(`${site.url}/lessons/`);
  await expect(page.locator('[data-kept-line]')).toContainText('saves data');
  await page.waitForTimeout(4000);
  expect(await keptIn(page)).toEqual([]);
  await page.getByRole('button', { name: 'Keep it on this device' }).click();
  await expect(page.locator('[data-kept-line]')).toContainText('can be read without a network', {
    timeout: 60_000,
  });
  await site.stop();
});

/** Built files served as they lie in a folder that a test may change. */
function serveFolder(folder: string): Promise<{ url: string; stop: () => void }> {
  const types: Record<string, string> = {
    html: 'text/html; charset=utf-8',
    js: 'text/javascript',
    css: 'text/css',
    json: 'application/json',
    woff2: 'font/woff2',
    svg: 'image/svg+xml',
  };
  const server: Server = createServer((request, response) => {
    const path = decodeURIComponent((request.url ?? '/').split('?')[0] ?? '/');
    for (const file of [path, `${path}/index.html`]) {
      try {
        const body = readFileSync(join(folder, file));
        const type = types[file.split('.').pop() ?? ''] ?? 'application/octet-stream';
        response.writeHead(200, { 'content-type': type }).end(body);
        return;
      } catch {
        // not that one
      }
    }
    response.writeHead(404).end();
  });
  return new Promise((done) => {
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      const port = typeof address === 'object' && address !== null ? address.port : 0;
      done({ url: `http://127.0.0.1:${port}`, stop: () => server.close() });
    });
  });
}

test('an update takes the place of what was kept, and an open page keeps its own files', async ({
  page,
  context,
}) => {
  const folder = mkdtempSync(join(tmpdir(), 'two-builds-'));
  cpSync(resolve(import.meta.dirname, '../../dist/client'), folder, { recursive: true });
  const site = await serveFolder(folder);
  await keepAll(page, site.url);
  const before = await page.evaluate(() => caches.keys());
  const open = await context.newPage();
  await open.goto(`${site.url}/glossary`);
  const [oldFile = ''] = (await keptIn(page)).filter((path) => /_astro\/.*\.js$/.test(path));

  // the next build: another version, a lesson with another sentence, one script under another name
  const worker = join(folder, 'worker.js');
  const text = readFileSync(worker, 'utf8');
  const [, version = ''] = /version:\s*[`"']([0-9a-f]{12})[`"']/.exec(text) ?? [];
  expect(version).not.toBe('');
  writeFileSync(
    worker,
    text.replaceAll(version, 'fedcba987654').replaceAll(oldFile, oldFile.replace('.js', '2.js')),
  );
  const name = oldFile.split('/').pop() ?? '';
  cpSync(join(folder, oldFile), join(folder, oldFile.replace('.js', '2.js')));
  rmSync(join(folder, oldFile));
  for (const file of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    if (!/\.(html|js)$/.test(file) || file === 'worker.js') continue;
    const was = readFileSync(join(folder, file), 'utf8');
    writeFileSync(join(folder, file), was.replaceAll(name, name.replace('.js', '2.js')));
  }
  const lesson = join(folder, 'lessons/riving-knife/index.html');
  writeFileSync(lesson, readFileSync(lesson, 'utf8').replace('</h1>', ' of the next build</h1>'));

  await page.goto(`${site.url}/lessons/`);
  await expect
    .poll(() => page.evaluate(() => caches.keys()), { timeout: 60_000 })
    .toContain('pages-en-fedcba987654');
  await expect
    .poll(() => page.evaluate(() => caches.keys()), { timeout: 60_000 })
    .not.toContain(before.find((one) => one.startsWith('pages-en-')));
  // the page left open asks for a file the site no longer has
  expect(await open.evaluate((file) => fetch(file).then(({ ok }) => ok), oldFile)).toBe(true);
  site.stop();
  await context.setOffline(true);
  await page.goto(`${site.url}/lessons/riving-knife`);
  await expect(page.getByRole('heading', { level: 1 })).toContainText('of the next build');
  rmSync(folder, { recursive: true });
});
