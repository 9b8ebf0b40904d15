import { expect, type Page, test } from '@playwright/test';
import type { Bench } from '../../src/bench/index.ts';
import { makeBench } from '../helpers/bench.ts';
import { serveStagePage } from '../helpers/stage-page.ts';

/** The stage alone on a page of its own, in a real browser: drawn, idle, driven, lost and recovered. */
let stagePage: Awaited<ReturnType<typeof serveStagePage>>;

/** One opening for all that only look: building the workshop and its shaders takes longer than any look. */
let shared: Page;
let complaints: string[] = [];

test.beforeAll(async ({ browser }) => {
  stagePage = await serveStagePage();
  shared = await browser.newPage();
  complaints = await open(shared);
});

test.afterAll(async () => {
  await shared?.close();
  await stagePage?.stop();
});

/** The shared stage as it was opened: the plain bench, seen by the operator, nothing touched. */
async function asOpened(): Promise<Page> {
  await shared.evaluate(async (bench) => {
    window.probe.picks = [];
    await window.probe.stage?.showInstrument(null);
    window.probe.stage?.update(bench);
    window.probe.stage?.goTo('operator');
  }, makeBench());
  return shared;
}

/** Opens the page on a small canvas: what is looked at here is not sharpness. */
async function open(
  page: Page,
  bench: Bench = makeBench(),
  size = { width: 480, height: 320 },
): Promise<string[]> {
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.setViewportSize(size);
  await page.goto(stagePage.address);
  await page.evaluate((one) => window.probe.open(one, 'light'), bench);
  return complaints;
}

const frames = (page: Page) => page.evaluate(() => window.probe.stage?.frames() ?? 0);

/** Waits until nothing has been drawn for a while. */
async function untilAtRest(page: Page): Promise<number> {
  let last = -1;
  let looks = 0;
  await expect
    .poll(
      async () => {
        const now = await frames(page);
        // the frame of full quality waits for a quiet moment, which a busy machine gives late
        looks = now === last && now > 0 ? looks + 1 : 0;
        last = now;
        return looks >= 4;
      },
      { intervals: [700], timeout: 60_000 },
    )
    .toBe(true);
  return last;
}

/** The picture as brightness, row by row on a coarse grid. */
const look = (page: Page) =>
  page.evaluate(() => {
    window.probe.stage?.renderNow();
    const from = document.querySelector('canvas') as HTMLCanvasElement;
    const small = document.createElement('canvas');
    small.width = 48;
    small.height = 32;
    const pen = small.getContext('2d') as CanvasRenderingContext2D;
    pen.drawImage(from, 0, 0, 48, 32);
    const { data } = pen.getImageData(0, 0, 48, 32);
    const grey: number[] = [];
    for (let i = 0; i < data.length; i += 4) {
      grey.push(((data[i] ?? 0) + (data[i + 1] ?? 0) + (data[i + 2] ?? 0)) / 3);
    }
    return grey;
  });

const difference = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, i) => sum + Math.abs(value - (b[i] ?? 0)), 0) / a.length;

test('draws a picture that is not blank, and another from each viewpoint', async () => {
  const page = await asOpened();
  const places = await page.evaluate(
    () => window.probe.stage?.viewpoints.map(({ id }) => id) ?? [],
  );
  expect(places.length).toBeGreaterThanOrEqual(7);
  const seen: number[][] = [];
  for (const id of places) {
    await page.evaluate((to) => window.probe.stage?.goTo(to), id);
    const grey = await look(page);
    const mean = grey.reduce((a, b) => a + b, 0) / grey.length;
    const spread = Math.sqrt(grey.reduce((a, b) => a + (b - mean) ** 2, 0) / grey.length);
    expect(spread, `${id} is blank`).toBeGreaterThan(8);
    for (const other of seen)
      expect(difference(grey, other), `${id} is a repeat`).toBeGreaterThan(4);
    seen.push(grey);
  }
  expect(complaints).toEqual([]);
});

test('draws nothing while nothing changes, and once more when something has', async () => {
  const page = await asOpened();
  const before = await untilAtRest(page);
  await page.waitForTimeout(2500);
  expect(await frames(page)).toBe(before);
  await page.evaluate(
    (bench) => window.probe.stage?.update(bench),
    makeBench({ guard: { height: 80 } }),
  );
  const after = await untilAtRest(page);
  expect(after).toBeGreaterThan(before);
  // one light frame and one at rest, not a film
  expect(after - before).toBeLessThanOrEqual(3);
});

test('draws the same bench the same way twice', async () => {
  const page = await asOpened();
  const first = await look(page);
  await page.evaluate(
    (bench) => window.probe.stage?.update(bench),
    makeBench({ guard: { height: 140 } }),
  );
  expect(difference(await look(page), first)).toBeGreaterThan(0.5);
  await page.evaluate((bench) => window.probe.stage?.update(bench), makeBench());
  expect(difference(await look(page), first)).toBeLessThan(0.02);
});

test('shows each fault where it is looked for', async () => {
  const page = await asOpened();
  const at = async (bench: Bench, view: string) => {
    await page.evaluate(
      ([one, to]) => {
        window.probe.stage?.update(one);
        // a place to stand, or else a part to look at
        window.probe.stage?.goTo(to);
        if (to === 'insert') window.probe.stage?.lookAt(to);
      },
      [bench, view] as const,
    );
    return look(page);
  };
  const crack = { length: 18, at: 'gullet', tooth: 4 } as const;
  const faults: [string, Bench, string][] = [
    ['burnt', makeBench({ blade: { condition: { burnt: true } } }), 'teeth'],
    ['cracked', makeBench({ blade: { condition: { cracks: [crack] } } }), 'teeth'],
    ['square gullets', makeBench({ blade: { condition: { gullets: 'square' } } }), 'teeth'],
    ['missing tooth', makeBench({ blade: { condition: { missingTeeth: [14] } } }), 'teeth'],
    ['knife far', makeBench({ knife: { along: 20 } }), 'knife'],
    ['wide insert', makeBench({ insert: { gaps: [14, 14] } }), 'insert'],
    ['guard high', makeBench({ guard: { height: 130 } }), 'operator'],
    ['guard short', makeBench({ guard: { front: -110 } }), 'operator'],
    ['fence past', makeBench({ fence: { end: 160 } }), 'fence-side'],
  ];
  const sound: Record<string, number[]> = {};
  for (const [name, bench, view] of faults) {
    sound[view] ??= await at(makeBench(), view);
    expect(difference(await at(bench, view), sound[view]), name).toBeGreaterThan(0.12);
  }
});

test('turns by drag, comes closer by wheel, and tells what was touched', async () => {
  const page = await asOpened();
  const first = await look(page);
  await page.mouse.move(240, 160);
  await page.mouse.down();
  await page.mouse.move(330, 150, { steps: 4 });
  await page.mouse.up();
  const turned = await look(page);
  expect(difference(turned, first)).toBeGreaterThan(2);
  await page.mouse.wheel(0, -400);
  await untilAtRest(page);
  expect(difference(await look(page), turned)).toBeGreaterThan(2);
  expect(await page.evaluate(() => window.probe.picks)).toEqual([]);
  await page.evaluate(() => window.probe.stage?.goTo('teeth'));
  await look(page);
  await page.mouse.click(70, 150);
  expect(await page.evaluate(() => window.probe.picks)).toEqual([{ part: 'blade' }]);
});

test('is frugal: draw calls, triangles, and nothing left over after twenty openings', async ({
  page,
}) => {
  // each opening waits until the whole workshop is drawn at rest
  test.setTimeout(360_000);
  await open(page, makeBench(), { width: 96, height: 64 });
  // the first picture also throws the shadows anew; the second is what turning about costs
  await look(page);
  await look(page);
  const info = await page.evaluate(() => window.probe.stage?.info());
  expect(info?.calls).toBeLessThanOrEqual(80);
  expect(info?.triangles).toBeLessThanOrEqual(200_000);
  const counts = await page.evaluate(async (bench) => {
    const rows: string[] = [];
    for (let i = 0; i < 20; i++) {
      await window.probe.open(bench, 'light');
      window.probe.stage?.renderNow();
      const after = window.probe.stage?.info();
      rows.push(`${after?.geometries} ${after?.textures}`);
    }
    return [...new Set(rows)];
  }, makeBench());
  expect(counts).toHaveLength(1);
});

test('lays an instrument in the picture, and the picture is as before when it is put away', async () => {
  const page = await asOpened();
  await page.evaluate(async () => {
    const stage = window.probe.stage;
    await stage?.showInstrument({ instrument: 'rule', at: 'knife-gap-at-table', reading: 5.5 });
  });
  const laid = await look(page);
  const shapes = () => page.evaluate(() => window.probe.stage?.info().geometries ?? 0);
  const held = await shapes();
  await page.evaluate(() => window.probe.stage?.showInstrument(null));
  expect(difference(await look(page), laid)).toBeGreaterThan(0.5);
  expect(await shapes()).toBeLessThan(held);
  expect(complaints).toEqual([]);
});

test('comes back after the graphics context is lost', async ({ page }) => {
  await open(page);
  const before = await look(page);
  await page.evaluate(async () => {
    const canvas = document.querySelector('canvas') as HTMLCanvasElement;
    const lose = canvas.getContext('webgl2')?.getExtension('WEBGL_lose_context');
    const told = (name: string) => new Promise((done) => canvas.addEventListener(name, done));
    const lost = told('webglcontextlost');
    lose?.loseContext();
    await lost;
    // a context may only be asked back once the page is done hearing that it went
    await new Promise((done) => setTimeout(done, 50));
    const restored = told('webglcontextrestored');
    lose?.restoreContext();
    await restored;
  });
  expect(await page.evaluate(() => window.probe.events)).toEqual(['lost', 'restored']);
  expect(difference(await look(page), before)).toBeLessThan(0.5);
});

test('says so where there is no WebGL', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(HTMLCanvasElement.prototype, 'getContext', { value: () => null });
  });
  await page.goto(stagePage.address);
  expect(await page.evaluate(() => window.probe.hasWebGL())).toBe(false);
});
