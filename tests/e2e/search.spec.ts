import { expect, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { type Site, startSite } from '../helpers/site.ts';

/** The search in a browser: what it finds, by keyboard, in either unit, without script and without a network. */
let site: Site;
test.beforeAll(async () => {
  site = await startSite('empty');
});
test.afterAll(async () => {
  await site.stop();
});

test('finds a trade word by its other name, and says how many places', async ({ page }) => {
  await page.goto(`${site.url}/search`);
  const status = page.getByRole('status');
  await page.getByRole('searchbox').fill('splitter');
  await expect(status).toHaveText(/^\d+ places were found\./);
  const first = page.getByRole('list', { name: 'What was found' }).getByRole('listitem').first();
  await expect(first.getByRole('link')).toHaveText('riving knife');
  await expect(first).toContainText('Glossary');
  await expect(page).toHaveURL(/\?q=splitter$/);
  await page.getByRole('searchbox').fill('zzzz');
  await expect(status).toHaveText(/^Nothing was found for “zzzz”/);
  await page.getByRole('searchbox').fill('');
  await expect(status).toHaveText('');
});

test('leads by keyboard to the section where the words stand', async ({ page }) => {
  await page.goto(`${site.url}/search?q=ways`);
  const box = page.getByRole('searchbox');
  await box.fill('knifes gap clos');
  await expect(page.locator('[data-search-results] mark').first()).toBeVisible();
  await box.press('ArrowDown');
  const first = page.locator('[data-search-results] a').first();
  await expect(first).toBeFocused();
  await page.keyboard.press('ArrowUp');
  await expect(box).toBeFocused();
  await box.press('Enter');
  await expect(first).toBeFocused();
  const [path, anchor] = ((await first.getAttribute('href')) ?? '').split('#');
  await page.keyboard.press('Enter');
  await page.waitForURL((url) => url.pathname.replace(/\/$/, '') === path);
  // the heading the result names is there to be shown
  if (anchor !== undefined) await expect(page.locator(`[id="${anchor}"]`)).toBeVisible();
});

for (const language of ['en', 'de']) {
  test(`every place it names is there, in ${language}`, async ({ page }) => {
    await page.goto(`${site.url}/search`);
    const { index } = await (await page.request.get(`${site.url}/search/${language}.json`)).json();
    const hrefs = Object.values(index.storedFields as Record<string, { href: string }>).map(
      ({ href }) => href,
    );
    expect(hrefs.length).toBeGreaterThan(60);
    const pages = new Map<string, Set<string>>();
    for (const href of new Set(hrefs)) {
      const [path = '', anchor] = href.split('#');
      if (!pages.has(path)) {
        // as it comes, before any script of its own
        const { status, ids } = await page.evaluate(async (address) => {
          const reply = await fetch(address);
          const sheet = new DOMParser().parseFromString(await reply.text(), 'text/html');
          return {
            status: reply.status,
            ids: [...sheet.querySelectorAll('[id]')].map(({ id }) => id),
          };
        }, path);
        expect(status, href).toBe(200);
        pages.set(path, new Set(ids));
      }
      if (anchor !== undefined) expect([...(pages.get(path) ?? [])], href).toContain(anchor);
    }
  });
}

test('shows lengths in the unit of the reader', async ({ page }) => {
  await page.goto(`${site.url}/search?q=gap+to+the+knife+at+most`);
  const length = page.locator('[data-search-results] .length').first();
  await expect(length).toContainText('mm');
  await page.getByRole('button', { name: /inch/i }).click();
  await expect(length).toContainText(' in');
});

test('fetches its index once the box is used, and needs no network afterwards', async ({
  page,
  context,
}) => {
  const fetched: string[] = [];
  page.on('request', (request) => fetched.push(new URL(request.url()).pathname));
  await page.goto(`${site.url}/search`);
  await page.waitForLoadState('networkidle');
  expect(fetched).not.toContain('/search/en.json');
  await page.getByRole('searchbox').focus();
  await expect.poll(() => fetched).toContain('/search/en.json');
  await page.waitForLoadState('networkidle');
  await context.setOffline(true);
  await page.getByRole('searchbox').fill('kickback');
  await expect(page.locator('[data-search-results] li').first()).toBeVisible();
});

test('says what to do when the index does not come, and tries again', async ({ page }) => {
  await page.route('**/search/en.json', (route) => route.abort());
  await page.goto(`${site.url}/search?q=kerf`);
  await expect(page.getByRole('status')).toHaveText(/could not be fetched/);
  await page.unroute('**/search/en.json');
  await page.getByRole('searchbox').fill('kerfs');
  await expect(page.locator('[data-search-results] li').first()).toBeVisible();
});

test('leads elsewhere without script', async ({ browser }) => {
  const page = await browser.newPage({ javaScriptEnabled: false });
  await page.goto(`${site.url}/search`);
  await expect(page.getByRole('searchbox')).toBeHidden();
  await expect(page.getByRole('main').getByRole('link', { name: 'glossary' })).toBeVisible();
  await page.close();
});

test('speaks German on the German page', async ({ page }) => {
  await page.goto(`${site.url}/de/search?q=gap`);
  await expect(page.getByRole('status')).toHaveText(/Stellen? gefunden/);
});

test('breaks no rule of accessibility, and fits', async ({ page }) => {
  for (const width of [320, 390, 1024]) {
    await page.setViewportSize({ width, height: 800 });
    await page.goto(`${site.url}/search?q=knife`);
    await expect(page.locator('[data-search-results] li').first()).toBeVisible();
    const over = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(over, `${width} px`).toBeLessThanOrEqual(0);
    expect((await axe(page).analyze()).violations).toEqual([]);
  }
});
