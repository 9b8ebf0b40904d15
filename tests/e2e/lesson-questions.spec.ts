import { readdirSync, readFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { expect, type Locator, type Page, test } from '@playwright/test';
import { parse } from 'yaml';
import { type Question, QuestionFileSchema } from '../../src/components/lesson/lesson-schema.ts';
import { axe } from '../helpers/axe.ts';
import { type Site, startSite } from '../helpers/site.ts';

/** Questions to match and to mark, by keyboard, by touch, in either unit, and without script. */
const BANKS = resolve(import.meta.dirname, '../../content/questions/en');
const banks = readdirSync(BANKS).map((file) => ({
  lesson: basename(file, '.yaml'),
  questions: QuestionFileSchema.parse(parse(readFileSync(join(BANKS, file), 'utf8'))).questions,
}));

/** The first question of any lesson that a test asks for. */
function find<Kind extends Question['kind']>(
  kind: Kind,
  suits: (question: Extract<Question, { kind: Kind }>) => boolean = () => true,
) {
  for (const { lesson, questions } of banks) {
    for (const question of questions) {
      const asked = question as Extract<Question, { kind: Kind }>;
      if (question.kind === kind && suits(asked)) return { lesson, question: asked };
    }
  }
  throw new Error(`no lesson asks a question of the kind ${kind}`);
}

let site: Site;
test.beforeAll(async () => {
  site = await startSite('empty');
});
test.afterAll(async () => {
  await site.stop();
});

async function open(page: Page, { lesson, question }: { lesson: string; question: Question }) {
  await page.goto(`${site.url}/lessons/${lesson}`);
  const box = page.locator(`#question-${question.id}`);
  await box.scrollIntoViewIfNeeded();
  await expect(box.getByRole('button', { name: 'Check my answer' })).toBeVisible();
  return box;
}

/** mm from the cross to the answer, as the page tells it; 0 when it is right. */
async function check(box: Locator): Promise<number> {
  await box.getByRole('button', { name: 'Check my answer' }).click();
  const said = (await box.locator('[data-verdict-line]').textContent()) ?? '';
  return said.startsWith('Right') ? 0 : Number(/by ([\d.]+) mm/.exec(said)?.[1] ?? Number.NaN);
}

test('sides are matched by keyboard, one choice for each', async ({ page }) => {
  const found = find('match');
  const box = await open(page, found);
  const said = box.locator('[data-verdict-line]');
  const selects = box.locator('select');
  await selects.first().focus();
  await page.keyboard.press('ArrowDown');
  await box.getByRole('button', { name: 'Check my answer' }).press('Enter');
  await expect(said).toHaveText('Choose something for each line first.');
  const { pairs } = found.question;
  for (const [i] of pairs.entries())
    await selects.nth(i).selectOption(String((i + 1) % pairs.length));
  await box.getByRole('button', { name: 'Check my answer' }).press('Enter');
  await expect(said).toContainText('Not yet');
  await expect(box.locator('[data-misplaced]')).toHaveCount(pairs.length);
  for (const [i] of pairs.entries()) await selects.nth(i).selectOption(String(i));
  await expect(said).toHaveText('');
  await box.getByRole('button', { name: 'Check my answer' }).press('Enter');
  await expect(said).toHaveText('Right, every one.');
  await expect(box.locator('.pair-why').first()).toBeVisible();
  await expect(box.locator('details')).toHaveAttribute('open', '');
});

test.describe('by touch', () => {
  test.use({ hasTouch: true, viewport: { width: 390, height: 844 } });

  test('a place is marked with a tap, and judged in mm', async ({ page }) => {
    const box = await open(
      page,
      find('mark', ({ target }) => 'part' in target),
    );
    const said = box.locator('[data-verdict-line]');
    await box.getByRole('button', { name: 'Check my answer' }).tap();
    await expect(said).toHaveText('Mark a place first.');
    await box.locator('.mark-pad').tap({ position: { x: 4, y: 4 } });
    await expect(box.locator('[data-mark-at]')).toContainText('Cross');
    expect(await check(box)).toBeGreaterThan(10);
    // the answer is out of sight until it has been given
    await expect(box.locator('.balloon-mark')).toBeHidden();
    const dot = await box.locator('.balloon-mark .dot').boundingBox();
    const pad = await box.locator('.mark-pad').boundingBox();
    if (dot === null || pad === null) throw new Error('nothing is laid out');
    await box.locator('.mark-pad').tap({
      position: { x: dot.x + dot.width / 2 - pad.x, y: dot.y + dot.height / 2 - pad.y },
    });
    await expect(said).toHaveText('');
    expect(await check(box)).toBe(0);
    await expect(box.locator('.balloon-mark')).toBeVisible();
  });
});

test('a place is found by arrow keys and words alone', async ({ page }) => {
  const box = await open(
    page,
    find('mark', ({ target }) => 'dimension' in target),
  );
  const pad = box.locator('.mark-pad');
  const told = box.locator('[data-mark-at]');
  await pad.focus();
  await page.keyboard.press('ArrowRight');
  const first = await told.textContent();
  expect(first).toMatch(/^Cross [\d.]+ mm .+, [\d.]+ mm .+\.$/);
  // one step is told as one step
  await page.keyboard.press('ArrowRight');
  expect(await told.textContent()).not.toBe(first);
  await page.keyboard.press('ArrowLeft');
  expect(await told.textContent()).toBe(first);
  // downhill by what the page says, as somebody would who cannot see it
  let off = await check(box);
  for (const fine of [false, true]) {
    for (let turn = 0; turn < 60 && off > 0; turn += 1) {
      const before = off;
      for (const [key, back] of [
        ['ArrowRight', 'ArrowLeft'],
        ['ArrowLeft', 'ArrowRight'],
        ['ArrowUp', 'ArrowDown'],
        ['ArrowDown', 'ArrowUp'],
      ] as const) {
        await pad.focus();
        await page.keyboard.press(fine ? `Shift+${key}` : key);
        const now = await check(box);
        if (now < off) {
          off = now;
          break;
        }
        await pad.focus();
        await page.keyboard.press(fine ? `Shift+${back}` : back);
      }
      if (off === before) break;
    }
  }
  expect(off).toBe(0);
  await expect(box.locator('.dimension')).toBeVisible();
});

test('the cross never leaves the drawing, and Enter gives the answer', async ({ page }) => {
  const box = await open(page, find('mark'));
  const pad = box.locator('.mark-pad');
  await pad.focus();
  for (let i = 0; i < 80; i += 1) await page.keyboard.press('ArrowLeft');
  const edge = await box.locator('[data-mark-at]').textContent();
  await page.keyboard.press('ArrowLeft');
  expect(await box.locator('[data-mark-at]').textContent()).toBe(edge);
  await page.keyboard.press('Enter');
  await expect(box.locator('[data-verdict-line]')).toContainText('Not there, by');
  await page.getByRole('button', { name: /inch/i }).click();
  await expect(box.locator('[data-mark-at]')).toContainText(' in ');
});

test('without script the answer lies folded under the drawing, and shows on it', async ({
  browser,
}) => {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  for (const found of [find('match'), find('mark', ({ target }) => 'dimension' in target)]) {
    await page.goto(`${site.url}/lessons/${found.lesson}`);
    const box = page.locator(`#question-${found.question.id}`);
    await expect(box.getByRole('button')).toHaveCount(0);
    if (found.question.kind === 'mark') await expect(box.locator('.dimension')).toBeHidden();
    await box.locator('summary').click();
    await expect(box.locator('details p').last()).toBeVisible();
    if (found.question.kind === 'mark') {
      await expect(box.locator('.dimension')).toBeVisible();
      await expect(box.locator('details')).toContainText('It is shown on the drawing');
    } else
      await expect(box.locator('details li')).toHaveCount(
        found.question.kind === 'match' ? found.question.pairs.length : 0,
      );
  }
  await context.close();
});

test('an accessibility check objects to none of the kinds, light and dark', async ({ page }) => {
  const lessons = new Set([find('match'), find('mark')].map(({ lesson }) => lesson));
  for (const lesson of lessons) {
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      await page.goto(`${site.url}/lessons/${lesson}`);
      const { violations } = await axe(page).include('.question').analyze();
      expect(violations.map((one) => one.id)).toEqual([]);
    }
  }
});
