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
let page: Page;
test.beforeAll(async ({ browser }) => {
  site = await startSite('empty');
  page = await browser.newPage({ serviceWorkers: 'block' });
  await page.goto(`${site.url}/sign-in`);
});
test.afterAll(async () => {
  await page?.close();
  await site?.stop();
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

/** Links to places of the page that are not there, and ids that stand on it twice. */
const findLost = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const ids = [...document.querySelectorAll('[id]')].map(({ id }) => id);
    const links = [...document.querySelectorAll('main a[href^="#"]')].map(
      (link) => link.getAttribute('href') ?? '',
    );
    return [
      ...links.filter((href) => !ids.includes(decodeURIComponent(href.slice(1)))),
      ...ids.filter((id, i) => ids.indexOf(id) !== i).map((id) => `${id} is used twice`),
    ];
  });

const objections = async (page: Page): Promise<string[]> =>
  (await axe(page).include('main').analyze()).violations.map(
    ({ id, nodes }) => `${id}: ${nodes[0]?.html}`,
  );

// one page for all, so that what they share is fetched once; each fact is told even when one before it failed
for (const lesson of LESSONS) {
  test(`${lesson} is drawn clear in either unit, prints, fits 320 px, and can be read with help`, async () => {
    for (const unit of ['mm', 'inch']) {
      await page.evaluate((kept) => localStorage.setItem('unit', kept), unit);
      // the two pages share their colours and their frame: one of them in each light tells both
      for (const [path, colorScheme] of [
        [`/lessons/${lesson}`, 'light'],
        [`/lessons/${lesson}/job-aid`, 'dark'],
      ] as const) {
        await page.emulateMedia({ media: null, colorScheme });
        await page.setViewportSize({ width: 1440, height: 900 });
        await page.goto(site.url + path);
        await page.evaluate(() => document.fonts.ready);
        const where = `${path}, ${unit}`;
        expect(await page.evaluate(() => document.documentElement.dataset['unit'])).toBe(unit);
        for (const width of [390, 1440]) {
          await page.setViewportSize({ width, height: 900 });
          expect.soft(await findClashes(page), `${where}, ${width} px`).toEqual([]);
        }
        if (unit === 'mm') {
          expect.soft(await objections(page), `${where}, ${colorScheme}`).toEqual([]);
          await page.setViewportSize({ width: 320, height: 640 });
          const wide = await page.evaluate(() => document.documentElement.scrollWidth);
          expect.soft(wide, where).toBe(320);
          expect.soft(await findLost(page), where).toEqual([]);
        }
        await page.emulateMedia({ media: 'print' });
        await page.setViewportSize({ width: 700, height: 990 });
        expect.soft(await findClashes(page), `${where}, on paper`).toEqual([]);
        if (unit === 'mm' && path.endsWith('/job-aid')) {
          for (const format of ['A4', 'Letter']) {
            const pdf = (await page.pdf({ format })).toString('latin1');
            expect.soft(pdf.match(/\/Type\s*\/Page[^s]/g)?.length, `${where}, ${format}`).toBe(1);
          }
        }
      }
    }
  });
}
