import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type Bench, trialCut } from '../../src/bench/index.ts';
import { createAttempt } from '../../src/panels/bench/work/attempt.ts';
import { createCutRun, slowedBy } from '../../src/panels/bench/work/cut-run.ts';
import {
  figuresOf,
  sayAssumed,
  sayNext,
  sayStrip,
  sayWhy,
} from '../../src/panels/bench/work/cut-words.ts';
import { createDesk } from '../../src/panels/bench/work/desk.ts';
import type { Stage } from '../../src/scene/index.ts';
import { makeBench } from '../helpers/bench.ts';
import { makeServer, makeShelf, makeStarted } from './fake-bench-server.ts';

/** The trial cut at the desk, by a clock that the test moves. */

const THROWS = { knife: null, fence: { toe: -1 } } as const;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] });
  vi.stubGlobal('requestAnimationFrame', (draw: (now: number) => void) =>
    setTimeout(() => draw(performance.now()), 16),
  );
  vi.stubGlobal('cancelAnimationFrame', clearTimeout);
  vi.stubGlobal('addEventListener', () => undefined);
  vi.stubGlobal('removeEventListener', () => undefined);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

async function layOut(bench: Bench = makeBench(), motion: 'full' | 'reduced' = 'full') {
  vi.stubGlobal('matchMedia', () => ({ matches: motion === 'reduced' }));
  const attempt = createAttempt(
    'walk-round',
    makeServer(makeStarted({ bench })).server,
    makeShelf(),
  );
  await attempt.begin();
  const desk = createDesk(attempt);
  const cutting = createCutRun(attempt, desk);
  const did = () => attempt.actions.value;
  return { attempt, desk, cutting, did };
}

describe('a trial cut at the desk', () => {
  it('is refused while the blade stands still, and says why', async () => {
    const { desk, cutting, did } = await layOut();
    cutting.begin();
    expect(cutting.run.value).toBeNull();
    expect(desk.said.value.text).toContain('not running');
    expect(did()).toEqual([{ do: 'feed', stopped: null }]);
  });

  it('goes by the clock, is entered at its end, and leaves the saw running', async () => {
    const { attempt, desk, cutting, did } = await layOut();
    desk.act({ do: 'start' });
    cutting.begin();
    vi.advanceTimersByTime(3000);
    expect(cutting.run.value?.s).toBeGreaterThan(2.5);
    expect(cutting.run.value?.s).toBeLessThan(3.5);
    // 3 s at 133 mm/s from 317 mm before the axis
    expect(desk.shownCut.value?.lead).toBeGreaterThan(0);
    expect(did()).toHaveLength(1);
    vi.advanceTimersByTime(20_000);
    expect(cutting.run.value).toBeNull();
    expect(did()).toEqual([{ do: 'start' }, { do: 'feed', stopped: null }]);
    expect(desk.said.value.text).toBe('It went through.');
    expect(attempt.bench.value?.controls.turning).toBe('running');
    expect(cutting.last.value?.cut.outcome).toBe('smooth');
  });

  it('can be held and let go on, and seen out at once', async () => {
    const { desk, cutting, did } = await layOut();
    desk.act({ do: 'start' });
    cutting.begin();
    vi.advanceTimersByTime(1000);
    cutting.hold();
    const at = cutting.run.value?.s;
    vi.advanceTimersByTime(5000);
    expect(cutting.run.value?.s).toBe(at);
    cutting.goOn();
    vi.advanceTimersByTime(1000);
    expect(cutting.run.value?.s).toBeGreaterThan(at ?? 0);
    cutting.finish();
    expect(did().at(-1)).toEqual({ do: 'feed', stopped: null });
    vi.advanceTimersByTime(5000);
    expect(did()).toHaveLength(2);
  });

  it('is cut short by stop, and the blade runs down', async () => {
    const { attempt, desk, cutting, did } = await layOut();
    desk.act({ do: 'start' });
    cutting.begin();
    vi.advanceTimersByTime(2000);
    desk.act({ do: 'stop' });
    expect(did().map((one) => one.do)).toEqual(['start', 'feed']);
    expect(attempt.bench.value?.controls.turning).toBe('slowing');
    expect(cutting.last.value?.cut.outcome).toBe('stopped');
    expect(desk.shownCut.value?.lead).toBeCloseTo(
      -Math.sqrt(200 ** 2 - 110 ** 2) - 150 + ((cutting.last.value?.cut.lasts ?? 0) * 8000) / 60,
      6,
    );
  });

  it('goes on where the stop fails, which is told', async () => {
    const { desk, cutting, did } = await layOut(makeBench({ controls: { stopWorks: false } }));
    desk.act({ do: 'start' });
    cutting.begin();
    desk.act({ do: 'stop' });
    expect(desk.said.value.text).toContain('runs on');
    expect(cutting.run.value).not.toBeNull();
    cutting.finish();
    expect(did().map((one) => one.do)).toEqual(['start', 'stop', 'feed']);
  });

  it('keeps both hands on the work', async () => {
    const { desk, cutting, did } = await layOut();
    desk.act({ do: 'start' });
    cutting.begin();
    desk.act({ do: 'try', part: 'knife' });
    expect(desk.said.value.text).toContain('hands are on the work');
    expect(did()).toEqual([{ do: 'start' }]);
  });

  it('throws the work back, drawn out for the eye, with the strip from then on', async () => {
    const { desk, cutting } = await layOut(makeBench(THROWS));
    const went: string[] = [];
    desk.stage.value = { goTo: (id: string) => went.push(id) } as unknown as Stage;
    desk.act({ do: 'start' });
    cutting.begin();
    const cut = trialCut(makeBench(THROWS));
    if (!cut?.thrown) throw new Error('not thrown');
    vi.advanceTimersByTime(cut.thrown.at * 1000 - 100);
    expect(desk.shownCut.value).toMatchObject({ thrown: false, strip: null });
    vi.advanceTimersByTime(1100);
    expect(desk.shownCut.value).toMatchObject({ thrown: true, strip: cut.thrown.strip });
    expect(cutting.run.value).not.toBeNull();
    expect(slowedBy(cut)).toBe(Math.round(2 / (cut.lasts - cut.thrown.at)));
    vi.advanceTimersByTime(3000);
    // once, to where the strip on the floor is seen
    expect(went).toEqual(['people']);
    desk.stage.value = null;
    expect(desk.said.value).toMatchObject({ tone: 'danger' });
    expect(desk.said.value.text).toContain('thrown back at');
    // the work is out of the picture once hands go to the bench
    desk.act({ do: 'stop' });
    expect(desk.shownCut.value).not.toBeNull();
    desk.act({ do: 'wait' });
    desk.act({ do: 'isolate' });
    expect(desk.shownCut.value).toBeNull();
  });

  it('goes in ten steps where motion is reduced', async () => {
    const { desk, cutting } = await layOut(makeBench(), 'reduced');
    desk.act({ do: 'start' });
    cutting.begin();
    const leads = new Set<number>();
    for (let i = 0; i < 200 && cutting.run.value !== null; i++) {
      leads.add(desk.shownCut.value?.lead ?? 0);
      vi.advanceTimersByTime(100);
    }
    expect(cutting.run.value).toBeNull();
    expect(leads.size).toBe(10);
  });
});

describe('a trial cut in words', () => {
  const cases: [string, Parameters<typeof makeBench>[0]][] = [
    ['smooth', {}],
    ['burning', { job: { fed: 6 } }],
    ['backwards', { blade: { mounted: 'backwards' } }],
    ['binding', { knife: { thickness: 2.4 }, job: { stock: { shape: 'twisted', moisture: 40 } } }],
    ['thrown', { ...THROWS, people: { operator: { z: 40 } } }],
    ['gripped', { knife: null, job: { stock: { shape: 'bowed' } } }],
    ['trapped', { job: { cut: 'crosscut', stop: 'fence' } }],
    ['stalled', { arbor: { motorPower: 200 } }],
    ['tips', { job: { stock: { length: 4000 } } }],
  ];
  it.each(cases)('has a sentence for all of it, no place left empty: %s', (_, over) => {
    const bench = makeBench(over ?? {});
    const cut = trialCut(bench);
    if (cut === null) throw new Error('not fed');
    const said = [
      ...sayWhy(cut, bench),
      sayNext(cut),
      ...sayStrip(cut, bench),
      ...sayAssumed(cut),
      ...figuresOf(cut, bench).flat(),
    ];
    expect(sayWhy(cut, bench).length).toBeGreaterThan(0);
    for (const sentence of said) expect(sentence).not.toMatch(/[{}]|undefined|NaN|^$/);
  });

  it('names the strip, who stands in it and how soon it is there', () => {
    const bench = makeBench({ ...THROWS, people: { operator: { z: 40 } } });
    const cut = trialCut(bench);
    const said = cut === null ? '' : sayStrip(cut, bench).join(' ');
    expect(said).toContain('From 2.1 mm left of the blade to 152.1 mm right of it');
    expect(said).toContain('The operator stands in it.');
    // 700 mm at 62.8319 x 2.74655/(2.74655 + 12.96) = 10.987 m/s: 63.7 ms
    expect(said).toContain('about 64 ms');
  });
});
