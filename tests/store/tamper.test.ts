import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { auditLog, openCheckpoint, verifyInclusion } from '../../src/records/index.ts';
import { draftInvitation, ENGINES, ORG, SLOW, type TempStore, tamper } from './temp-store.ts';

let temp: TempStore;
afterEach(() => temp.remove());

const brokenSeqs = async () =>
  (await temp.store.events({ org: ORG }))
    .filter((one) => one.broken !== null)
    .map((one) => one.seq);

describe.each(ENGINES)('a stored event that was changed, on %s', (_name, make) => {
  beforeEach(async () => {
    temp = await make();
    for (let i = 0; i < 4; i++) await temp.store.append(draftInvitation());
  }, SLOW);

  it('reads as broken for every single byte that may be flipped', async () => {
    const [, victim] = await temp.store.events({ org: ORG });
    const original = Buffer.from(victim?.text ?? '', 'utf8');
    expect(original.length).toBeGreaterThan(200);
    for (let index = 0; index < original.length; index++) {
      const changed = Buffer.from(original);
      changed[index] = (changed[index] ?? 0) ^ 1;
      await tamper(temp, ['update event set json = ? where seq = 1', changed.toString('utf8')]);
      expect(await brokenSeqs(), `byte ${index}`).toEqual([1]);
    }
    await tamper(temp, ['update event set json = ? where seq = 1', original.toString('utf8')]);
    expect(await brokenSeqs()).toEqual([]);
  });

  it('is kept in the list with what can still be read of it, and the reason', async () => {
    await tamper(temp, [
      "update event set json = replace(json, 'trainee', 'trainer') where seq = 2",
    ]);
    const stored = await temp.store.events({ org: ORG, kinds: ['invitation.made'] });
    expect(stored).toHaveLength(4);
    expect(stored[2]?.broken).toBe('This record was changed after it entered the log.');
    expect(stored[2]?.event?.body.role).toBe('trainer');
  });

  it('is broken, and not a crash, when it is no JSON any more', async () => {
    await tamper(temp, ["update event set json = 'not json at all' where seq = 0"]);
    const [first] = await temp.store.events({ org: ORG });
    expect(first).toMatchObject({ event: null, text: 'not json at all' });
    expect(first?.broken).toMatch(/changed/);
  });

  it.each([
    ['kind', 'practical.signed'],
    ['by', 'person-9'],
    ['about', 'person-9'],
    ['id', 'another'],
  ])('is broken when it is filed under another %s', async (column, value) => {
    await tamper(temp, [`update event set "${column}" = ? where seq = 3`, value]);
    expect(await brokenSeqs()).toEqual([3]);
  });

  it('is broken when its hash is gone', async () => {
    await tamper(temp, ['delete from tree_node where level = 0 and position = 1']);
    const stored = await temp.store.events({ org: ORG });
    expect(stored[1]?.broken).toMatch(/hash of this record is missing/);
    expect(stored.filter((one) => one.broken !== null)).toHaveLength(1);
  });

  it('does not lead to the signed head when its hash was changed with it', async () => {
    const [copied] = await temp.runRaw('select json from event where seq = 0');
    const { json } = copied as { json: string };
    const [leaf] = await temp.runRaw('select hash from tree_node where level = 0 and position = 0');
    const { hash } = leaf as { hash: string };
    // record 1 becomes a perfect copy of record 0
    await tamper(
      temp,
      ['update event set json = ? where seq = 1', json],
      ['update tree_node set hash = ? where level = 0 and position = 1', hash],
    );
    const { checkpoint, entries, size } = await temp.store.prove([1]);
    const opened = await openCheckpoint(checkpoint, [temp.siteKey.publicKey]);
    if (!opened.ok) throw new Error(opened.why);
    const [proved] = entries;
    if (proved === undefined) throw new Error('nothing proved');
    const { root } = opened.checkpoint;
    const { entry, path } = proved;
    expect(verifyInclusion({ index: 1, size, path, root, leafHash: entry.leafHash })).toBe(false);
  });

  it.each([
    ['a record removed from the end', 'delete from event where seq = 3'],
    ['a record removed from the middle', 'delete from event where seq = 1'],
  ])('is noticed by the audit: %s', async (_name, statement) => {
    const checkpoints = [await temp.store.checkpoint()];
    const audit = () =>
      auditLog(temp.store.readAll(), {
        checkpoints,
        publicKeys: [temp.siteKey.publicKey],
        depth: 'events',
      });
    expect((await audit()).ok).toBe(true);
    await tamper(temp, [statement]);
    expect((await audit()).ok).toBe(false);
  });
});
