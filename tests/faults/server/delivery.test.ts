import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newId } from '../../../src/records/index.ts';
import { isIdConflict, openSiteKey, openStore, type Store } from '../../../src/store/index.ts';
import { draftInvitation } from '../../store/temp-store.ts';
import type { Engine } from './engine.ts';
import { ENGINES } from './engines.ts';
import { findWrong } from './independent-log.ts';

const CONNECTIONS = 4;
const COPIES = 20;

describe.each(ENGINES)('one event delivered many times over on %s', (_name, open) => {
  let engine: Engine;
  let stores: Store[];
  beforeAll(async () => {
    engine = await open();
    const key = await openSiteKey(engine.keyFile, false);
    stores = [];
    for (let one = 0; one < CONNECTIONS; one++) stores.push(await openStore(engine.place, key));
  });
  afterAll(async () => {
    for (const store of stores) await store.close();
    await engine.remove();
  });
  const at = (copy: number) => stores[copy % CONNECTIONS] as Store;

  it('is entered once, whichever connection it came by, and each copy gets the same answer', async () => {
    const draft = draftInvitation();
    const answers = await Promise.all(
      Array.from({ length: COPIES }, (_, copy) => at(copy).append(draft)),
    );
    expect(answers.filter(({ state }) => state === 'logged')).toHaveLength(1);
    expect(new Set(answers.map(({ seq, event }) => `${seq} ${event.received}`)).size).toBe(1);
    const log = await engine.readLog();
    expect(log.rows.filter(({ id }) => id === draft.id)).toHaveLength(1);
    expect(findWrong(log, engine.keyFile)).toEqual([]);
  });

  it('with another body is refused by every connection, and the first stands', async () => {
    const draft = draftInvitation();
    await at(0).append(draft);
    const others = Array.from({ length: COPIES }, (_, copy) =>
      at(copy)
        .append({ ...draft, body: { ...draft.body, invitation: newId() } })
        .then(() => 'taken', isIdConflict),
    );
    expect(new Set(await Promise.all(others))).toEqual(new Set([true]));
    const log = await engine.readLog();
    const kept = log.rows.filter(({ id }) => id === draft.id);
    expect(kept.map(({ json }) => JSON.parse(json).body)).toEqual([draft.body]);
  });

  it('in two bodies at once keeps one of them and refuses the other', async () => {
    const id = newId();
    const came = await Promise.allSettled(
      Array.from({ length: 8 }, (_, copy) => at(copy).append(draftInvitation({ id }))),
    );
    expect(came.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    expect(came.every((one) => one.status === 'fulfilled' || isIdConflict(one.reason))).toBe(true);
    expect(findWrong(await engine.readLog(), engine.keyFile)).toEqual([]);
  });

  it('among hundreds of others at once leaves one log without a gap', async () => {
    const before = (await engine.readLog()).rows.length;
    const drafts = Array.from({ length: 100 }, () => draftInvitation());
    await Promise.all(
      [...drafts, ...drafts, ...drafts].map((draft, copy) => at(copy).append(draft)),
    );
    const log = await engine.readLog();
    expect(log.rows.length).toBe(before + drafts.length);
    expect(findWrong(log, engine.keyFile)).toEqual([]);
  });
});
