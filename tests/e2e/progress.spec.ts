import { type BrowserContext, expect, type Page, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { type Site, startSite } from '../helpers/site.ts';
import { signInToDemo } from '../helpers/walk.ts';

/** Learning: what is answered, what comes again, and whose it is. */
const LESSON = '/lessons/riving-knife';
const DAY = 86_400_000;

let site: Site;
test.beforeAll(async () => {
  site = await startSite('demo');
});
test.afterAll(async () => {
  await site.stop();
});

const signIn = (page: Page, who: string) => signInToDemo(page, site.url, who);

async function answerRight(page: Page): Promise<void> {
  await page.goto(site.url + LESSON);
  const question = page.locator('#question-rear-teeth');
  await question.locator('label').nth(1).click();
  await question.getByRole('button', { name: 'Check my answer' }).click();
  await expect(question.getByRole('status')).toHaveText('Right.');
}

/** Moves every answer on this device back in time, and opens the page anew. */
async function letDaysPass(page: Page, days: number): Promise<void> {
  await page.evaluate((ms) => {
    const shelf = JSON.parse(localStorage.getItem('learning') ?? '{}') as {
      books: Record<string, { answers: [string, string, string, number, string][] }>;
    };
    for (const { answers } of Object.values(shelf.books)) {
      for (const answer of answers) {
        answer[4] = new Date(Date.parse(answer[4]) - ms).toISOString();
      }
    }
    localStorage.setItem('learning', JSON.stringify(shelf));
  }, days * DAY);
}

const place = (page: Page) => page.locator('li[data-stop="riving-knife"]');
const kept = (page: Page) => page.locator('[data-kept-line]');
const shelfText = (page: Page) => page.evaluate(() => localStorage.getItem('learning') ?? '');

test('without an account: answered, due, gone over again, and due later', async ({ page }) => {
  await answerRight(page);
  await page.goto(`${site.url}/lessons/`);
  await expect(place(page)).toContainText(/1 of \d+ questions answered right\./);
  await expect(page.locator('[data-due-line]')).toContainText('Nothing is due to go over again.');
  await letDaysPass(page, 4);
  await page.reload();
  await expect(page.locator('[data-due-line]')).toHaveText('1 question is due to go over again.');
  await page.getByRole('link', { name: 'Go over again' }).click();
  await page.getByRole('button', { name: 'Start' }).click();
  await expect(page.locator('[data-again-place]')).toHaveText(
    'Question 1 of 1, from the lesson The riving knife',
  );
  await page.locator('#question-rear-teeth label').nth(1).click();
  await page.getByRole('button', { name: 'Check my answer' }).click();
  await page.getByRole('button', { name: 'Finish' }).click();
  await expect(page.locator('[data-again-line]')).toContainText('1 of 1 right.');
  await expect(page.locator('[data-again-line]')).toContainText('The next are due on');
  await expect(kept(page)).toHaveText('2 answers are kept, on this device only.');
});

test('by keyboard alone, a wrong answer counts and comes back', async ({ page }) => {
  await answerRight(page);
  await letDaysPass(page, 4);
  await page.goto(`${site.url}/again`);
  await page.getByRole('button', { name: 'Start' }).focus();
  await page.keyboard.press('Enter');
  await expect(page.locator('[data-again-place]')).toBeFocused();
  await page.keyboard.press('Tab');
  await expect(page.locator('[data-again-place] a')).toBeFocused();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Space');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await expect(page.locator('#question-rear-teeth').getByRole('status')).toContainText(
    'Not that one',
  );
  await page.getByRole('button', { name: 'Finish' }).focus();
  await page.keyboard.press('Enter');
  await expect(page.locator('[data-again-line]')).toContainText('0 of 1 right.');
  await expect(page.locator('[data-again-line]')).toBeFocused();
});

test('without a network it says why no question comes, and works again with one', async ({
  page,
  context,
}) => {
  await answerRight(page);
  await letDaysPass(page, 4);
  await page.goto(`${site.url}/again`);
  await expect(page.getByRole('button', { name: 'Start' })).toBeVisible();
  await context.route('**/lessons/**', (route) => route.abort());
  await page.getByRole('button', { name: 'Start' }).click();
  await expect(page.locator('[data-again-line]')).toContainText('could not be fetched');
  await context.unroute('**/lessons/**');
  await page.getByRole('button', { name: 'Start' }).click();
  await expect(page.locator('#question-rear-teeth')).toBeVisible();
});

test('what an earlier version kept is not lost', async ({ page }) => {
  await page.goto(`${site.url}/limits`);
  await page.evaluate(() =>
    localStorage.setItem('lesson:riving-knife', '{"version":1,"right":["rear-teeth"]}'),
  );
  await page.goto(`${site.url}/lessons/`);
  await expect(place(page)).toContainText(/1 of \d+ questions answered right\./);
});

/** The lesson everything builds on. */
const first = (page: Page) => page.locator('li[data-stop="why-this-machine-hurts"]');

test('the map marks the next lesson in words and in the drawing', async ({ page }) => {
  await page.goto(`${site.url}/lessons/`);
  await expect(first(page).locator('[data-state-word]')).toHaveText('Next');
  const board = page.locator('[data-stop-of="why-this-machine-hurts"]');
  await expect(board.locator('[data-state-word]')).toHaveText('Next');
  await expect(board.locator('.course-next')).toBeVisible();
  await expect(board.locator('.course-done')).toBeHidden();
  await page.evaluate(() => {
    const asks = document.querySelector<HTMLElement>(
      'li[data-stop="why-this-machine-hurts"]',
    )?.dataset;
    const answers = (asks?.['asks'] ?? '')
      .split(' ')
      .map((question, i) => [
        `answer-${i}`,
        'why-this-machine-hurts',
        question,
        1,
        '2026-11-28T00:00:00Z',
      ]);
    const tasks = (asks?.['tasks'] ?? '').split(' ');
    localStorage.setItem(
      'learning',
      JSON.stringify({ version: 1, who: null, books: { '': { answers, tasks } } }),
    );
  });
  await page.reload();
  await expect(first(page).locator('[data-state-word]')).toHaveText('Done');
  await expect(board.locator('.course-done')).toBeVisible();
});

test('two devices of one person agree, and erasing reaches both', async ({ browser }) => {
  const first = await browser.newContext();
  const second = await browser.newContext();
  const phone = await first.newPage();
  await signIn(phone, 'mira.holt');
  await expect.poll(() => shelfText(phone)).toContain('"who":"');
  await answerRight(phone);
  // the answer goes on the next visit
  const sent = phone.waitForResponse(
    (reply) => reply.url().endsWith('/api/progress') && reply.request().method() === 'POST',
  );
  await phone.goto(`${site.url}/lessons/`);
  await sent;

  const laptop = await second.newPage();
  await signIn(laptop, 'mira.holt');
  await laptop.goto(`${site.url}/lessons/`);
  await expect(place(laptop)).toContainText(/1 of \d+ questions answered right\./);
  await laptop.goto(`${site.url}/again`);
  await expect(kept(laptop)).toContainText('1 answer is kept for you');
  await laptop.getByText('Erase my answers').click();
  await laptop.getByRole('button', { name: 'Erase them all' }).click();
  await expect(laptop.locator('[data-erase-told]')).toHaveText('Erased.');
  await phone.goto(`${site.url}/again`);
  await expect(kept(phone)).toHaveText('No answers are kept here.');
  await first.close();
  await second.close();
});

async function signOut(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.waitForURL(`${site.url}/`);
}

async function sharedDevice(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  await answerRight(page);
  return page;
}

test('on a shared device answers are joined only when asked, and go with their owner', async ({
  context,
}) => {
  const page = await sharedDevice(context);
  await signIn(page, 'tom.okafor');
  const ask = page.locator('[data-unowned]');
  await expect(ask).toContainText(
    'This 1 answer was given on this device before you signed in. Yours?',
  );
  await ask.getByRole('button', { name: 'No, leave them' }).click();
  await expect(ask).toBeHidden();
  await page.goto(`${site.url}/lessons/`);
  await expect(place(page).locator('[data-state-line]')).not.toContainText('answered right');
  await signOut(page);
  await page.goto(`${site.url}/lessons/`);
  await expect(place(page)).toContainText(/1 of \d+ questions answered right\./);

  await signIn(page, 'jess.lindqvist');
  await ask.getByRole('button', { name: 'Yes, they are mine' }).click();
  await expect(ask).toBeHidden();
  await page.goto(`${site.url}/lessons/`);
  await expect(place(page)).toContainText(/1 of \d+ questions answered right\./);
  // one more, which nothing has sent yet when Jess signs out
  await answerRight(page);
  await signOut(page);
  expect(await shelfText(page)).not.toContain('rear-teeth');
  await page.goto(`${site.url}/lessons/`);
  await expect(place(page).locator('[data-state-line]')).not.toContainText('answered right');
  await signIn(page, 'jess.lindqvist');
  await page.goto(`${site.url}/again`);
  await expect(kept(page)).toContainText('2 answers are kept for you');
});

test('a trainer sees lessons done, and no answers', async ({ page, browser }) => {
  const context = await browser.newContext();
  const trainee = await context.newPage();
  await signIn(trainee, 'mira.holt');
  await expect.poll(() => shelfText(trainee)).toContain('"who":"');
  await answerRight(trainee);
  await trainee.goto(`${site.url}/lessons/`);
  await trainee.waitForLoadState('networkidle');
  await trainee.goto(`${site.url}/my-book`);
  await expect(trainee.getByRole('row', { name: /The riving knife/ })).toContainText(/1 of \d+/);
  await context.close();

  await signIn(page, 'ruth.amsel');
  await page.goto(`${site.url}/board`);
  await page.getByRole('main').getByRole('link', { name: 'Mira Holt' }).first().click();
  const row = page.getByRole('row', { name: /The riving knife/ });
  await expect(row).toContainText(/1 of \d+/);
  await expect(page.getByRole('main')).not.toContainText('rear-teeth');
});

test('the server takes no answers of somebody else, and none from elsewhere', async ({ page }) => {
  await signIn(page, 'tom.okafor');
  const post = (body: unknown, origin: string) =>
    page.request.post(`${site.url}/api/progress`, { data: body as object, headers: { origin } });
  const answers = [
    {
      id: 'answer-1',
      lesson: 'riving-knife',
      question: 'rear-teeth',
      right: true,
      at: '2026-11-28T00:00:00Z',
    },
  ];
  const other = await post({ person: 'mira', answers }, site.url);
  expect(other.status()).toBe(409);
  const own = (await (await page.request.get(`${site.url}/api/progress`)).json()) as {
    person: string;
  };
  expect((await post({ person: own.person, answers }, 'https://elsewhere.example')).status()).toBe(
    403,
  );
  expect((await post({ person: own.person, answers: 'x' }, site.url)).status()).toBe(400);
  const taken = await post({ person: own.person, answers }, site.url);
  expect(taken.status()).toBe(200);
  expect(await taken.json()).toMatchObject({
    answers: [{ id: 'answer-1', question: 'rear-teeth' }],
  });
});

test('has nothing an accessibility check objects to, and fits 320 px', async ({ page }) => {
  await answerRight(page);
  await letDaysPass(page, 4);
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    for (const path of ['/lessons/', '/again']) {
      await page.setViewportSize({ width: 1280, height: 800 });
      await page.goto(site.url + path);
      const start = page.getByRole('button', { name: 'Start' });
      if (path === '/again') {
        await start.click();
        await page.locator('#question-rear-teeth').waitFor();
      }
      const { violations } = await axe(page).include('main').analyze();
      expect(
        violations.map((one) => one.id),
        `${path}, ${colorScheme}`,
      ).toEqual([]);
      await page.setViewportSize({ width: 320, height: 640 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth), path).toBe(320);
    }
  }
});
