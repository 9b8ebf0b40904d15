import { chromium, type Page } from '@playwright/test';
import type { Bench } from '../../src/bench/index.ts';
import { loadBenches } from '../../src/store/content-files.ts';
import { CHROMIUM_FLAGS, findChromium } from '../helpers/find-chromium.ts';
import { serveStagePage } from '../helpers/stage-page.ts';
import type {} from '../scene/page/main.ts';

/** Size the picture is timed at, CSS pixels, one device pixel each. */
const SIZE = { width: 1280, height: 720 };
/** s of turning round the bench that are timed. */
const TURNING = 5;
/** The picture's budgets: what a frame may hold, and how it must keep up in software rendering on two cores. */
const BUDGET = { calls: 80, triangles: 200_000, framesPerSecond: 15, firstFrame: 2000 };

const kept = (value: number, holds: boolean): string =>
  `${Math.round(value).toLocaleString('en')}${holds ? '' : '  (over its budget)'}`;

/** The picture of the fullest bench in content, in a real browser drawing by software. */
export async function runScenePerf(say: (line: string) => void): Promise<void> {
  const executablePath = findChromium();
  const stagePage = await serveStagePage();
  const browser = await chromium.launch({
    args: [...CHROMIUM_FLAGS],
    ...(executablePath === undefined ? {} : { executablePath }),
  });
  try {
    const page = await browser.newPage({ viewport: SIZE });
    say(`\nPicture at ${SIZE.width} x ${SIZE.height}, drawn by software`);
    for (const [name, bench] of loadBenches())
      await timeBench(page, stagePage.address, name, bench, say);
  } finally {
    await browser.close();
    await stagePage.stop();
  }
}

async function timeBench(
  page: Page,
  address: string,
  name: string,
  bench: Bench,
  say: (line: string) => void,
): Promise<void> {
  await page.goto(address);
  const first = await page.evaluate(async (one) => {
    const began = performance.now();
    window.probe.open(one, 'light', 'smooth');
    const stage = window.probe.stage;
    // shown, not only asked for: the frame after the first one drawn
    while ((stage?.frames() ?? 0) === 0) await new Promise(requestAnimationFrame);
    await new Promise(requestAnimationFrame);
    await new Promise(requestAnimationFrame);
    return performance.now() - began;
  }, bench);
  // the workshop comes after the first picture; then one frame as it is drawn while nothing is moved
  await page.evaluate(() => window.probe.stage?.whole);
  await page.waitForTimeout(2500);
  const rest = await page.evaluate(() => {
    window.probe.stage?.renderNow();
    return window.probe.stage?.info();
  });
  const turned = await page.evaluate(
    (seconds) =>
      new Promise<{ frames: number; level: number }>((done) => {
        const stage = window.probe.stage;
        if (stage === null) throw new Error('no stage');
        const before = stage.frames();
        const began = performance.now();
        const turn = (now: number): void => {
          stage.orbit(4, 0);
          if (now - began < seconds * 1000) requestAnimationFrame(turn);
          else done({ frames: stage.frames() - before, level: stage.info().level });
        };
        requestAnimationFrame(turn);
      }),
    TURNING,
  );
  await page.waitForTimeout(2500);
  const before = await page.evaluate(() => window.probe.stage?.frames() ?? 0);
  await page.waitForTimeout(2000);
  const idle = (await page.evaluate(() => window.probe.stage?.frames() ?? 0)) - before;
  const rate = turned.frames / TURNING;
  say(`  ${name}`);
  say(`    first usable frame, ms        ${kept(first, first < BUDGET.firstFrame)}`);
  say(
    `    draw calls                    ${kept(rest?.calls ?? 0, (rest?.calls ?? 0) <= BUDGET.calls)}`,
  );
  say(
    `    triangles                     ${kept(rest?.triangles ?? 0, (rest?.triangles ?? 0) <= BUDGET.triangles)}`,
  );
  say(
    `    frames a second, turning      ${kept(rate, rate >= BUDGET.framesPerSecond)} at level ${turned.level}`,
  );
  say(`    frames in two seconds at rest ${kept(idle, idle === 0)}`);
}
