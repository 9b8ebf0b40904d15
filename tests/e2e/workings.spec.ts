import { expect, type Page, test } from '@playwright/test';
import { cutOfBench, estimateThrow, rimSpeed, supportOf } from '../../src/bench/index.ts';
import { loadBenches } from '../../src/store/index.ts';
import { axe } from '../helpers/axe.ts';
import { type Site, startSite } from '../helpers/site.ts';

/** What the bench does: the page's figures against the engine, slips in its form, and how it reads. */
let site: Site;
test.beforeAll(async () => {
  site = await startSite();
});
test.afterAll(async () => {
  await site.stop();
});

const BENCH = 'alder-lane-1';
const bench = loadBenches().get(BENCH);
if (bench === undefined) throw new Error(`${BENCH} is not on file`);
const rowOf = (page: Page, name: RegExp) => page.getByRole('row', { name }).first();

test.describe('without script', () => {
  test.use({ javaScriptEnabled: false });

  test('the figures are those of the engine, for the bench and as it is set anew', async ({
    page,
  }) => {
    await page.goto(`${site.url}/limits`);
    await page.getByRole('link', { name: 'what a bench does' }).click();
    await page.getByLabel('Bench', { exact: true }).selectOption(BENCH);
    await page.getByRole('button', { name: 'Start from this bench' }).click();
    const rim = rimSpeed(bench.blade.diameter, bench.arbor.speed);
    await expect(rowOf(page, /^Rim speed/)).toContainText(`${rim.toFixed(1)} m/s`);

    // raised to 120 mm, the knife off, the stock 2.4 m long and fed at 6 m/min, a motor of 700 W
    await page.getByLabel(/^Blade height/).fill('120');
    await page.getByLabel(/^Feed/).fill('6');
    await page.getByLabel(/^Motor rating/).fill('700');
    await page.getByLabel('taken off').check();
    await page.getByLabel(/^Stock length/).fill('2400');
    await page.getByRole('button', { name: 'Work it out' }).first().click();
    await expect(page).toHaveURL(/#cutting$/);

    const set = {
      ...bench,
      knife: null,
      arbor: { ...bench.arbor, depth: bench.blade.diameter / 2 - 120, motorPower: 700 },
      job: { ...bench.job, fed: 6, stock: { ...bench.job.stock, length: 2400 } },
    };
    const cut = cutOfBench(set);
    const thrown = estimateThrow(set, { closing: 2 });
    if (cut === null || thrown === null || cut.powerShare === null) throw new Error('nothing cut');
    await expect(rowOf(page, /^Entry angle/)).toContainText(`${cut.entry.toFixed(1)}°`);
    await expect(rowOf(page, /^Teeth in the cut/)).toContainText(cut.teethInCut.toFixed(1));
    await expect(rowOf(page, /^Power wanted/)).toContainText(`${cut.power.toFixed(0)} W`);
    await expect(rowOf(page, /^Power wanted/)).toContainText(
      `${(100 * cut.powerShare).toFixed(0)} % of what the motor is rated for`,
    );
    await expect(rowOf(page, /^Push-back/)).toContainText(
      `${(100 * cut.pushBackShare).toFixed(0)} %`,
    );
    await expect(rowOf(page, /^Speed, estimated/)).toContainText(`${thrown.speed.toFixed(1)} m/s`);
    await expect(page.getByText('Does the piece tip?').locator('+ dd')).toContainText(
      supportOf(set).needsSupport ? 'Yes' : 'No',
    );
    // the estimate says so, names what it is held against, and calls no distance safe
    const binding = page.locator('#binding');
    await expect(binding).toContainText('estimate');
    for (const source of ['Bir, Stewart and Wilhelm', 'DDESB', 'NIOSH FACE report 98WA060']) {
      await expect(binding).toContainText(source);
    }
    expect(await binding.textContent()).not.toMatch(/safe distance|m away is safe/i);
  });

  test('a slip is told in one sentence, with nothing lost and nothing worked out', async ({
    page,
  }) => {
    const reply = await page.goto(`${site.url}/workings?height=ninety&fed=7&length=900`);
    expect(reply?.status()).toBe(422);
    await expect(page.getByRole('alert')).toHaveText(/Blade height .* 5 .*/);
    await expect(page.getByLabel(/^Blade height/)).toHaveValue('ninety');
    await expect(page.getByLabel(/^Feed/)).toHaveValue('7');
    await expect(page.getByLabel(/^Stock length/)).toHaveValue('900');
    await expect(page.locator('.plot')).toHaveCount(0);
    expect(await page.locator('main').textContent()).not.toMatch(/\bat .*\.(ts|mjs):\d|undefined/);
    const unknown = await page.goto(`${site.url}/workings?bench=..%2Fpasswd`);
    expect(unknown?.status()).toBe(422);
    await expect(page.getByRole('alert').first()).toContainText('Bench must be one of');
  });
});

for (const scheme of ['light', 'dark'] as const) {
  test(`it can be read with help, at 320 px, on a ${scheme} sheet`, async ({ page }) => {
    await page.emulateMedia({ colorScheme: scheme });
    await page.setViewportSize({ width: 320, height: 720 });
    await page.goto(`${site.url}/workings`);
    await page.evaluate(() => {
      for (const one of document.querySelectorAll('details')) one.open = true;
    });
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(over).toBeLessThanOrEqual(0);
    const { violations } = await axe(page)
      .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
      .analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  });
}

test('no words on a drawing cover others as the browser lays them out, in either unit', async ({
  page,
}) => {
  for (const unit of ['mm', 'inch']) {
    await page.goto(`${site.url}/workings?bench=${BENCH}&motor=1100`);
    await page.getByRole('button', { name: unit, exact: true }).click();
    const covered = await page.evaluate(() =>
      [...document.querySelectorAll('svg.bench-drawing')].flatMap((svg) => {
        const name = svg.querySelector('title')?.textContent;
        const sheet = svg.getBoundingClientRect();
        const texts = [...svg.querySelectorAll('text')]
          .map((text) => ({ said: text.textContent, box: text.getBoundingClientRect() }))
          .filter(({ box }) => box.width > 0);
        const pairs = texts.flatMap((a, i) =>
          texts
            .slice(i + 1)
            // a hair of leading around the letters is not ink
            .filter(
              ({ box }) =>
                a.box.left < box.right - 1 &&
                box.left < a.box.right - 1 &&
                a.box.top < box.bottom - 4 &&
                box.top < a.box.bottom - 4,
            )
            .map((b) => `${name}: ${a.said} and ${b.said}`),
        );
        const outside = texts
          .filter(({ box }) => box.left < sheet.left - 1 || box.right > sheet.right + 1)
          .map(({ said }) => `${name}: ${said} leaves the sheet`);
        return [...pairs, ...outside];
      }),
    );
    expect(covered).toEqual([]);
  }
});
