import { describe, expect, it } from 'vitest';
import { createAttempt } from '../../src/panels/bench/work/attempt.ts';
import { createDesk } from '../../src/panels/bench/work/desk.ts';
import { writeNotebook } from '../../src/panels/bench/work/notebook.ts';
import { makeServer, makeShelf, makeStarted } from './fake-bench-server.ts';

async function layOut(mode: 'practice' | 'test' = 'practice') {
  const attempt = createAttempt(
    'walk-round',
    makeServer(makeStarted({ mode })).server,
    makeShelf(),
  );
  await attempt.begin();
  return { attempt, desk: createDesk(attempt) };
}

describe('the desk', () => {
  it('warns at the first touch with the supply on, once until it is switched on again', async () => {
    const { desk } = await layOut();
    desk.act({ do: 'try', part: 'knife' });
    expect(desk.said.value.tone).toBe('danger');
    desk.act({ do: 'try', part: 'guard' });
    expect(desk.said.value.tone).toBe('plain');
    expect(desk.isInDanger.value).toBe(true);
    desk.act({ do: 'isolate' });
    expect(desk.isInDanger.value).toBe(false);
    desk.act({ do: 'try', part: 'guard' });
    expect(desk.isInDanger.value).toBe(false);
    desk.act({ do: 'reconnect' });
    expect(desk.isInDanger.value).toBe(false);
    desk.act({ do: 'try', part: 'guard' });
    expect(desk.said.value.tone).toBe('danger');
  });

  it('keeps silent about it in a test', async () => {
    const { desk, attempt } = await layOut('test');
    desk.act({ do: 'try', part: 'knife' });
    expect(desk.said.value).toEqual({ text: 'Riving knife: it does not move.', tone: 'plain' });
    expect(desk.isInDanger.value).toBe(false);
    expect(attempt.done.value[0]?.effects[0]?.kind).toBe('not-isolated');
  });

  it('tells no figure in a test: what is read is typed, and goes with the measuring', async () => {
    const { desk, attempt } = await layOut('test');
    desk.act({ do: 'isolate' });
    desk.lay('calliper', 'knife-thickness');
    expect(desk.said.value.text).toBe(
      'Thickness of the riving knife: calliper in place. Read the scale.',
    );
    desk.writeReading(3.25);
    expect(attempt.actions.value).toEqual([
      { do: 'isolate' },
      { do: 'measure', with: 'calliper', at: 'knife-thickness', read: 3.25 },
    ]);
    const told = writeNotebook(attempt.done.value).flatMap(({ came }) => came);
    expect(told.map(({ text }) => text)).toEqual(['read as 3.25 mm']);
    // the last reading typed stands
    desk.writeReading(null);
    expect(attempt.actions.value.at(-1)).toMatchObject({ read: null });
    await attempt.handIn();
    expect(writeNotebook(attempt.done.value).at(-1)?.came[0]?.text).toContain('3.2 mm');
  });

  it('tells the figure in practice', async () => {
    const { desk } = await layOut();
    desk.act({ do: 'isolate' });
    desk.lay('calliper', 'knife-thickness');
    expect(desk.said.value.text).toContain('3.2 mm ± 0.05 mm');
  });

  it('writes a look at a part once, and none at a part that stays open', async () => {
    const { desk, attempt } = await layOut();
    desk.open('blade');
    desk.open('blade');
    desk.open('knife');
    expect(attempt.actions.value).toEqual([
      { do: 'look', at: 'blade' },
      { do: 'look', at: 'knife' },
    ]);
  });

  it('lays the tool in the hand on the part touched, where only one place takes it', async () => {
    const { desk, attempt } = await layOut();
    desk.act({ do: 'isolate' });
    desk.take('calliper');
    desk.pick('stock');
    expect(attempt.actions.value.at(-1)).toEqual({
      do: 'measure',
      with: 'calliper',
      at: 'stock-thickness',
    });
    // stock of 50 mm, calliper to 0.05 mm: common practice, no source
    expect(desk.said.value.text).toContain('50 mm ± 0.05 mm');
    desk.take('rule');
    desk.pick('guard');
    // three places on the guard take a rule: the sheet opens and nothing is guessed
    expect(attempt.actions.value.at(-1)).toEqual({ do: 'look', at: 'guard' });
  });

  it('tries by hand what can be tried, and only opens what cannot', async () => {
    const { desk, attempt } = await layOut();
    desk.take('hand');
    desk.pick('fence');
    expect(attempt.actions.value.at(-1)).toEqual({ do: 'try', part: 'fence' });
    desk.pick('table');
    expect(attempt.actions.value.at(-1)).toEqual({ do: 'look', at: 'table' });
    desk.pick('no such part');
    expect(desk.part.value).toBe('table');
  });

  it('clears the reading once its part is moved, and keeps it while others are tried', async () => {
    const { desk } = await layOut();
    desk.act({ do: 'isolate' });
    desk.lay('feeler', 'knife-gap-at-table');
    desk.act({ do: 'try', part: 'fence' });
    expect(desk.reading.value).not.toBeNull();
    desk.act({ do: 'unlock', part: 'knife' });
    expect(desk.reading.value).toBeNull();
  });

  it('turns the blade by hand only with the supply locked off', async () => {
    const { desk, attempt } = await layOut();
    desk.turnBlade(1);
    expect(desk.turned.value).toBe(0);
    desk.act({ do: 'isolate' });
    desk.turnBlade(1);
    desk.turnBlade(1);
    expect(desk.turned.value).toBe(2);
    // a touch on tooth 0 of the file is now on the third from the top
    desk.pick('blade', 0);
    expect(desk.said.value.text).toBe('Tooth 3, counted from the top toward the operator.');
    expect(attempt.bench.value?.blade).toEqual(makeStarted().bench.blade);
  });

  it('says the same thing twice so that it is heard twice', async () => {
    const { desk } = await layOut();
    desk.act({ do: 'isolate' });
    desk.act({ do: 'try', part: 'knife' });
    const first = desk.said.value.text;
    desk.act({ do: 'try', part: 'knife' });
    expect(desk.said.value.text).not.toBe(first);
    expect(desk.said.value.text.trim()).toBe(first);
  });
});
