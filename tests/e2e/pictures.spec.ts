import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import type { Bench } from '../../src/bench/index.ts';
import { makeBench } from '../helpers/bench.ts';
import { serveStagePage } from '../helpers/stage-page.ts';
import { FAULT_SHOTS, GUARD_SHOTS, type Shot } from '../scene/pictures/shots.ts';
import {
  type Difference,
  decode,
  difference,
  encode,
  GRID,
  mismatch,
  strength,
} from '../scene/pictures/signature.ts';

/*
 * How each guard and each visible fault looks, against references a person has looked at.
 * `ACCEPT_PICTURES=1 npx playwright test --config tests/playwright.config.ts pictures` writes them anew,
 * with the pictures themselves in the git-ignored folder test-results/pictures: look at those first.
 * `ACCEPT_PICTURES=guard-` accepts only those whose name starts so.
 */

const REFERENCES = new URL('../fixtures/pictures/', import.meta.url).pathname;
const LOOKED_AT = new URL('../../test-results/pictures/', import.meta.url).pathname;
const accepted = process.env['ACCEPT_PICTURES'];
const accepts = (id: string): boolean =>
  accepted !== undefined && (accepted === '1' || id.startsWith(accepted));

/** Part of a look that may differ from its reference, and the least there must be to see (of 640 cells of 255). */
const TOLERANCE = 0.3;
const VISIBLE = 6;

let stage: Awaited<ReturnType<typeof serveStagePage>>;
test.beforeAll(async () => {
  stage = await serveStagePage();
});
test.afterAll(() => stage.stop());

type Seen = { readonly cells: readonly number[]; readonly picture: string | null };

/** The bench drawn from one place, as mean brightness of each cell. */
const draw = (page: Page, bench: Bench, from: Shot['from'], keep: 'keep' | 'cells') =>
  page.evaluate(
    ({ bench, from, keep, across, down }): Seen => {
      const { stage } = window.probe;
      stage?.update(bench);
      if ('view' in from) stage?.goTo(from.view);
      else stage?.lookAt(from.part);
      stage?.renderNow();
      const canvas = document.querySelector('canvas') as HTMLCanvasElement;
      const { width, height } = canvas;
      const flat = new OffscreenCanvas(width, height);
      const pen = flat.getContext('2d') as OffscreenCanvasRenderingContext2D;
      pen.drawImage(canvas, 0, 0);
      const { data } = pen.getImageData(0, 0, width, height);
      const sums = new Array<number>(across * down).fill(0);
      const counts = new Array<number>(across * down).fill(0);
      for (let i = 0; i < width * height; i++) {
        const x = Math.floor(((i % width) * across) / width);
        const y = Math.floor((Math.floor(i / width) * down) / height);
        const [r, g, b] = [data[4 * i] ?? 0, data[4 * i + 1] ?? 0, data[4 * i + 2] ?? 0];
        const cell = y * across + x;
        sums[cell] = (sums[cell] ?? 0) + 0.2126 * r + 0.7152 * g + 0.0722 * b;
        counts[cell] = (counts[cell] ?? 0) + 1;
      }
      return {
        cells: sums.map((sum, i) => sum / (counts[i] || 1)),
        picture: keep === 'keep' ? canvas.toDataURL('image/png') : null,
      };
    },
    { bench, from, keep, ...GRID },
  );

function keepPicture(id: string, picture: string | null): void {
  if (picture === null) return;
  mkdirSync(LOOKED_AT, { recursive: true });
  writeFileSync(join(LOOKED_AT, `${id}.png`), Buffer.from(picture.split(',')[1] ?? '', 'base64'));
}

/** Draws every shot on one stage and says what does not look as it was accepted. */
async function compare(page: Page, shots: readonly Shot[]): Promise<string[]> {
  await page.setViewportSize({ width: 288, height: 180 });
  await page.goto(stage.address);
  await page.evaluate((bench) => window.probe.open(bench, 'light'), makeBench());
  const bases = new Map<string, readonly number[]>();
  const amiss: string[] = [];
  for (const shot of shots) {
    const base = JSON.stringify([shot.without, shot.from]);
    const before = bases.get(base) ?? (await draw(page, shot.without, shot.from, 'cells')).cells;
    bases.set(base, before);
    const { cells, picture } = await draw(
      page,
      shot.with,
      shot.from,
      accepts(shot.id) ? 'keep' : 'cells',
    );
    const seen = difference(cells, before);
    const file = join(REFERENCES, `${shot.id}.json`);
    if (accepts(shot.id)) {
      mkdirSync(REFERENCES, { recursive: true });
      writeFileSync(file, `${JSON.stringify({ id: shot.id, ...GRID, look: encode(seen) })}\n`);
      keepPicture(shot.id, picture);
    }
    if (strength(seen) < VISIBLE)
      amiss.push(`${shot.id} cannot be seen (${strength(seen).toFixed(1)})`);
    if (!existsSync(file)) {
      amiss.push(`${shot.id} has no reference yet: look at it and accept it`);
      continue;
    }
    const kept = JSON.parse(readFileSync(file, 'utf8')) as { look: string };
    const wanted: Difference = decode(kept.look);
    const apart = mismatch(seen, wanted);
    if (apart > TOLERANCE) amiss.push(`${shot.id} looks otherwise (${apart.toFixed(2)})`);
  }
  return amiss;
}

test.setTimeout(240_000);

test('each visible fault looks as it did when it was looked at', async ({ page }) => {
  expect(await compare(page, FAULT_SHOTS)).toEqual([]);
});

test('each kind of guard looks as it did when it was looked at', async ({ page }) => {
  expect(await compare(page, GUARD_SHOTS)).toEqual([]);
});
