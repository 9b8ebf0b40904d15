import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  auditLog,
  type EventDraft,
  leafHash,
  openCheckpoint,
  utf8,
  verifyInclusion,
} from '../../src/records/index.ts';
import { isEventRefused, isIdConflict } from '../../src/store/index.ts';
import { draftInvitation, ENGINES, ORG, SLOW, type TempStore } from './temp-store.ts';

let temp: TempStore;
afterEach(() => temp.remove());

async function openHead(note: string) {
  const opened = await openCheckpoint(note, [temp.siteKey.publicKey]);
  if (!opened.ok) throw new Error(opened.why);
  return opened.checkpoint;
}

describe.each(ENGINES)('append on %s', (_name, make) => {
  beforeEach(async () => {
    temp = await make();
  }, SLOW);

  it('enters events in order, stamped by the server, and reads them back whole', async () => {
    const drafts = [draftInvitation(), draftInvitation(), draftInvitation()];
    for (const [index, draft] of drafts.entries()) {
      const { seq, state, event } = await temp.store.append(draft);
      expect({ seq, state }).toEqual({ seq: index, state: 'logged' });
      expect(event).toEqual({ ...draft, received: event.received });
      expect(Math.abs(Date.now() - Date.parse(event.received))).toBeLessThan(5_000);
    }
    const stored = await temp.store.events({ org: ORG });
    expect(stored.map((one) => one.broken)).toEqual([null, null, null]);
    expect(stored.map((one) => one.event?.id)).toEqual(drafts.map((one) => one.id));
  });

  it('answers the same event again with the same answer and keeps one', async () => {
    const draft = draftInvitation();
    const first = await temp.store.append(draft);
    const again = await temp.store.append(structuredClone(draft));
    expect(again).toEqual({ ...first, state: 'repeat' });
    expect(await temp.store.events({ org: ORG })).toHaveLength(1);
  });

  it('refuses another event under a known id, and keeps the first', async () => {
    const draft = draftInvitation();
    await temp.store.append(draft);
    const other = { ...draft, body: { ...draft.body, role: 'trainer' as const } };
    const error = await temp.store.append(other).catch((e: unknown) => e);
    expect(isIdConflict(error)).toBe(true);
    expect((error as Error).message).toMatch(/belongs to another event/);
    expect(await temp.store.events({ org: ORG })).toHaveLength(1);
  });

  it('refuses what is no event with the field named, and keeps nothing', async () => {
    const broken = { ...draftInvitation(), body: { invitation: 'x', role: 'boss' } };
    const error = await temp.store.append(broken as unknown as EventDraft).catch((e: unknown) => e);
    expect(isEventRefused(error) && error.problem.path).toBe('body.role');
    expect(await temp.store.events({ org: ORG })).toEqual([]);
    expect((await openHead(await temp.store.checkpoint())).size).toBe(0);
  });

  it('keeps a hundred events sent at once in one row without a gap', async () => {
    const answers = await Promise.all(
      Array.from({ length: 100 }, () => temp.store.append(draftInvitation())),
    );
    expect(answers.map((one) => one.seq).sort((a, b) => a - b)).toEqual([...Array(100).keys()]);
    const report = await auditLog(temp.store.readAll(), {
      checkpoints: [await temp.store.checkpoint()],
      publicKeys: [temp.siteKey.publicKey],
      depth: 'events',
    });
    expect(report).toMatchObject({ ok: true, size: 100, firstBad: null });
  });

  it('keeps one log when two connections write in turn and at once', async () => {
    const second = await temp.reopen();
    try {
      await Promise.all(
        Array.from({ length: 40 }, (_, i) =>
          (i % 2 === 0 ? temp.store : second).append(draftInvitation()),
        ),
      );
      const report = await auditLog(second.readAll(), {
        checkpoints: [await temp.store.checkpoint()],
        publicKeys: [temp.siteKey.publicKey],
        depth: 'events',
      });
      expect(report).toMatchObject({ ok: true, size: 40 });
    } finally {
      await second.close();
    }
  });

  it('undoes everything of a write that fails half-way', async () => {
    const before = await temp.store.checkpoint();
    const failing = temp.store.write(async ({ append }) => {
      await append(draftInvitation());
      await append(draftInvitation());
      throw new Error('power cut');
    });
    await expect(failing).rejects.toThrow('power cut');
    expect(await temp.store.events({ org: ORG })).toEqual([]);
    expect(await temp.store.checkpoint()).toBe(before);
    expect((await temp.store.append(draftInvitation())).seq).toBe(0);
  });

  it('finds events by organisation, kind, person and subject', async () => {
    const joined: EventDraft = {
      ...draftInvitation(),
      kind: 'person.joined',
      about: 'person-2',
      by: 'person-2',
      body: { role: 'trainee', nameHash: `sha256$${'a'.repeat(64)}` },
    };
    await temp.store.append(draftInvitation());
    await temp.store.append(joined);
    await temp.store.append(draftInvitation({ org: 'org-2' }));
    const ids = async (filter: Parameters<typeof temp.store.events>[0]) =>
      (await temp.store.events(filter)).map((one) => one.seq);
    expect(await ids({ org: ORG })).toEqual([0, 1]);
    expect(await ids({ org: 'org-2' })).toEqual([2]);
    expect(await ids({ org: ORG, kinds: ['person.joined'] })).toEqual([1]);
    expect(await ids({ org: ORG, kinds: [] })).toEqual([]);
    expect(await ids({ org: ORG, about: 'person-2' })).toEqual([1]);
    expect(await ids({ org: ORG, by: 'person-1' })).toEqual([0]);
    expect((await temp.store.event(joined.id))?.seq).toBe(1);
    expect(await temp.store.event('nobody')).toBeNull();
  });
});

describe.each(ENGINES)('checkpoint and inclusion on %s', (_name, make) => {
  beforeEach(async () => {
    temp = await make();
  }, SLOW);

  it('signs the head of an empty log and of every size, each leaf leading to it (RFC 6962 2.1.1)', async () => {
    expect((await openHead(await temp.store.checkpoint())).size).toBe(0);
    for (let size = 1; size <= 18; size++) {
      await temp.store.append(draftInvitation());
      const { root } = await openHead(await temp.store.checkpoint());
      const stored = await temp.store.events({ org: ORG });
      for (const { seq, text } of stored) {
        const inclusion = await temp.store.inclusion(seq);
        expect(inclusion.size).toBe(size);
        const claim = { ...inclusion, leafHash: leafHash(utf8(text)), root };
        expect(verifyInclusion(claim)).toBe(true);
      }
    }
  });

  it('proves several records against one checkpoint', async () => {
    for (let i = 0; i < 5; i++) await temp.store.append(draftInvitation());
    const { checkpoint, entries, size } = await temp.store.prove([0, 4]);
    const { root } = await openHead(checkpoint);
    for (const { entry, path } of entries) {
      const claim = { index: entry.index, size, path, root, leafHash: entry.leafHash };
      expect(verifyInclusion(claim)).toBe(true);
    }
    expect(entries.map(({ entry }) => entry.index)).toEqual([0, 4]);
  });

  it('has no way to a record that is not there', async () => {
    await temp.store.append(draftInvitation());
    await expect(temp.store.inclusion(1)).rejects.toThrow(RangeError);
  });

  it('goes on with the same log after it was closed and opened again', async () => {
    await temp.store.append(draftInvitation());
    const before = await openHead(await temp.store.checkpoint());
    await temp.store.close();
    const again = await temp.reopen();
    const { seq } = await again.append(draftInvitation());
    const after = await openHead(await again.checkpoint());
    await again.close();
    expect({ seq, size: after.size, origin: after.origin }).toEqual({
      seq: 1,
      size: 2,
      origin: before.origin,
    });
  });
});
