import { readdirSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { axe } from '../helpers/axe.ts';
import { type Site, startSite } from '../helpers/site.ts';

/** Every lesson and job aid there is: drawings and plots in either unit, on a phone, on paper; axe; 320 px. */
const LESSONS = readdirSync(resolve(import.meta.dirname, '../../content/lessons/en')).map((file) =>
  basename(file, '.mdx'),
);

let site: Site;
test.beforeAll(async () => {
  site = await startSite('empty');
});
test.afterAll(async () => {
  await site.stop();
});

/** Texts of drawings that leave their sheet or stand over one another. */
const findClashes = (page: Page): Promise<string[]> =>
  page.locator('svg.bench-drawing').evaluateAll((drawings) =>
    drawings.flatMap((drawing) => {
      const name = drawing.querySelector('title')?.textContent ?? '';
      const frame = drawing.getBoundingClientRect();
      const boxes = [...drawing.querySelectorAll('text')]
        .filter((text) => {
          const { display, visibility } = getComputedStyle(text);
          return display !== 'none' && visibility !== 'hidden' && text.getClientRects().length > 0;
        })
        .map((text) => ({ text: text.textContent, box: text.getBoundingClientRect() }));
      const outside = boxes
        .filter(
          ({ box }) =>
            box.left < frame.left - 1 ||
            box.right > frame.right + 1 ||
            box.top < frame.top - 1 ||
            box.bottom > frame.bottom + 2,
        )
        .map(({ text }) => `${name}: ${text} leaves the sheet`);
      const pairs = boxes.flatMap((a, i) =>
        boxes
          .slice(i + 1)
          .filter(
            (b) =>
              a.box.left < b.box.right &&
              b.box.left < a.box.right &&
              a.box.top + 2 < b.box.bottom &&
              b.box.top + 2 < a.box.bottom,
          )
          .map((b) => `${name}: ${a.text} over ${b.text}`),
      );
      return [...outside, ...pairs];
    }),
  );

for (const lesson of LESSONS) {
  test.describe(lesson, () => {
    test('draws no text over another, on a phone, a laptop and paper, in either unit', async ({
      page,
    }) => {
      const clashes: string[] = [];
      for (const unit of ['mm', 'inch']) {
        await page.addInitScript((kept) => localStorage.setItem('unit', kept), unit);
        for (const path of [`/lessons/${lesson}`, `/lessons/${lesson}/job-aid`]) {
          await page.setViewportSize({ width: 1440, height: 900 });
          await page.goto(site.url + path);
          await page.evaluate(() => document.fonts.ready);
          for (const width of [390, 1440]) {
            await page.setViewportSize({ width, height: 900 });
            clashes.push(...(await findClashes(page)).map((one) => `${width} ${unit} ${one}`));
          }
          await page.emulateMedia({ media: 'print' });
          await page.setViewportSize({ width: 700, height: 990 });
          clashes.push(...(await findClashes(page)).map((one) => `print ${unit} ${one}`));
          await page.emulateMedia({ media: 'screen' });
        }
      }
      expect(clashes).toEqual([]);
    });

    test('prints its job aid on one page', async ({ page }) => {
      await page.goto(`${site.url}/lessons/${lesson}/job-aid`);
      for (const format of ['A4', 'Letter']) {
        const pdf = (await page.pdf({ format })).toString('latin1');
        expect(pdf.match(/\/Type\s*\/Page[^s]/g)?.length, format).toBe(1);
      }
    });

    test('leads nowhere that is not there, and fits 320 px', async ({ page }) => {
      await page.setViewportSize({ width: 320, height: 640 });
      for (const path of [`/lessons/${lesson}`, `/lessons/${lesson}/job-aid`]) {
        await page.goto(site.url + path);
        expect(await page.evaluate(() => document.documentElement.scrollWidth), path).toBe(320);
        const lost = await page
          .locator('main a[href^="#"]')
          .evaluateAll((links) =>
            links
              .map((link) => link.getAttribute('href') ?? '')
              .filter(
                (href) => document.getElementById(decodeURIComponent(href.slice(1))) === null,
              ),
          );
        expect(lost, path).toEqual([]);
        const ids = await page
          .locator('[id]')
          .evaluateAll((all) =>
            all.map((one) => one.id).filter((id, i, ids) => ids.indexOf(id) !== i),
          );
        expect(ids, `${path}: ids used twice`).toEqual([]);
      }
    });

    test('has nothing an accessibility check objects to, light and dark', async ({ page }) => {
      // the two pages share their colours and their frame: one of them in each light tells both
      for (const [path, colorScheme] of [
        [`/lessons/${lesson}`, 'light'],
        [`/lessons/${lesson}/job-aid`, 'dark'],
      ] as const) {
        await page.emulateMedia({ colorScheme });
        await page.goto(site.url + path);
        const { violations } = await axe(page).include('main').analyze();
        expect(
          violations.map((one) => `${one.id}: ${one.nodes[0]?.html}`),
          `${path}, ${colorScheme}`,
        ).toEqual([]);
      }
    });
  });
}
