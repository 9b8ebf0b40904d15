import { describe, expect, it } from 'vitest';
import {
  type AuditOptions,
  auditLog,
  cosignMeaningOf,
  type EventDraft,
  type LogEntry,
  leafHash,
  signCheckpoint,
  signCosign,
  toHex,
  utf8,
} from '../../src/records/index.ts';
import { keepLog, sampleDrafts, sampleId, sampleStatement, seedKey } from './sample-log.ts';

const [site, device] = await Promise.all([seedKey(1), seedKey(2)]);
const { drafts } = await sampleDrafts(device);

async function* replay(entries: readonly LogEntry[]): AsyncGenerator<LogEntry> {
  yield* entries;
}

/** Checkpoints of the untouched log after each of these many events. */
const checkpointsAt = (sizes: readonly number[]) =>
  Promise.all(
    sizes.map((size) => {
      const { root } = keepLog(drafts.slice(0, size));
      return signCheckpoint({ origin: 'log', size, root }, site);
    }),
  );

async function audit(
  entries: readonly LogEntry[],
  sizes: readonly number[],
  change: Partial<AuditOptions> = {},
) {
  return auditLog(replay(entries), {
    checkpoints: await checkpointsAt(sizes),
    publicKeys: [site.publicKey],
    depth: 'events',
    ...change,
  });
}

const whole = keepLog(drafts).entries;
const rewrite = (index: number, from: string, to: string, keepHash: 'old-hash' | 'new-hash') =>
  whole.map((entry) => {
    if (entry.index !== index) return entry;
    const text = entry.text.replace(from, to);
    if (text === entry.text) throw new Error('nothing was rewritten');
    return {
      ...entry,
      text,
      leafHash: keepHash === 'old-hash' ? entry.leafHash : leafHash(utf8(text)),
    };
  });

describe('an audit', () => {
  it('finds a whole log whole, at every checkpoint', async () => {
    const report = await audit(whole, [7, 0, 3]);
    expect(report).toMatchObject({ ok: true, size: 7, firstBad: null });
    expect(report.checkpoints.map(({ sentence }) => sentence)).toEqual([
      'The first 0 events are those of the checkpoint at 0.',
      'The first 3 events are those of the checkpoint at 3.',
      'The first 7 events are those of the checkpoint at 7.',
    ]);
    expect(report.root).toBe(Buffer.from(keepLog(drafts).root).toString('base64'));
  });

  it('finds an empty log whole', async () => {
    expect(await audit([], [0])).toMatchObject({ ok: true, size: 0 });
  });

  it('names an event altered under its hash', async () => {
    const report = await audit(rewrite(2, 'trainee', 'trainer', 'old-hash'), [7]);
    expect(report).toMatchObject({
      ok: false,
      firstBad: { index: 2, sentence: 'It was altered after it was entered.' },
    });
  });

  it('brackets an event altered together with its hash between the checkpoints around it', async () => {
    const report = await audit(rewrite(2, 'trainee', 'trainer', 'new-hash'), [1, 2, 4, 7]);
    expect(report).toMatchObject({ ok: false, firstBad: null });
    expect(report.checkpoints.map(({ ok }) => ok)).toEqual([true, true, false, false]);
    expect(report.checkpoints[2]?.sentence).toBe(
      'The log is not the one of the checkpoint at 4: look in the events 2 to 3.',
    );
  });

  it.each<[string, LogEntry[], number, string]>([
    ['deleted', whole.filter(({ index }) => index !== 3), 3, 'It stands where event 3 belongs.'],
    [
      'deleted, the rest moved up',
      whole.filter(({ index }) => index !== 3).map((entry, index) => ({ ...entry, index })),
      4,
      'It is signed with a device key that was not enrolled, or had ended.',
    ],
    [
      'swapped',
      [0, 1, 2, 3, 5, 4, 6].map((from, index) => ({ ...(whole[from] as LogEntry), index })),
      -1,
      '',
    ],
    ['doubled', [...whole, { ...(whole[6] as LogEntry), index: 7 }], 7, 'Its id was used before.'],
    [
      'spelt with a space',
      rewrite(1, '{"about"', '{ "about"', 'new-hash'),
      1,
      'It is not kept in canonical form.',
    ],
    ['cut short', rewrite(1, '}', '', 'new-hash'), 1, 'It is not JSON.'],
    [
      'of no kind',
      rewrite(1, 'person.joined', 'person.gone', 'new-hash'),
      1,
      'kind must name a kind of event',
    ],
    [
      'signed otherwise',
      rewrite(5, '"result":"yes"', '"result":"no"', 'new-hash'),
      5,
      'must be not-yet',
    ],
  ])('does not let pass an event %s', async (_, entries, index, sentence) => {
    const report = await audit(entries, [7]);
    expect(report.ok).toBe(false);
    if (index === -1) expect(report.checkpoints[0]?.ok).toBe(false);
    else
      expect(report.firstBad).toMatchObject({ index, sentence: expect.stringContaining(sentence) });
  });

  it('tells a log that lost its end', async () => {
    const report = await audit(whole.slice(0, 5), [3, 7]);
    expect(report.checkpoints.at(-1)).toEqual({
      ok: false,
      sentence: 'The log has 5 events, fewer than its checkpoint at 7.',
    });
    expect(report.ok).toBe(false);
  });

  it('does not count a checkpoint of a stranger, or one changed', async () => {
    const stranger = await seedKey(9);
    const note = await signCheckpoint(
      { origin: 'log', size: 7, root: keepLog(drafts).root },
      stranger,
    );
    const [good = ''] = await checkpointsAt([7]);
    const report = await audit(whole, [], {
      checkpoints: [note, good.replace('\n7\n', '\n6\n'), 'x'],
    });
    expect(report.checkpoints.map(({ sentence }) => sentence)).toEqual([
      'A checkpoint given is not signed by a key you trust.',
      'A checkpoint given is not what its signer signed.',
      'A checkpoint given is not a signed note.',
    ]);
    expect(report.ok).toBe(false);
  });

  it('of hashes alone reads no event', async () => {
    const nonsense = ['not', 'events'].map((text, index) => ({
      index,
      text,
      leafHash: leafHash(utf8(text)),
    }));
    const report = await audit(nonsense, [], { depth: 'hashes' });
    expect(report).toMatchObject({ ok: true, size: 2 });
    expect((await audit(nonsense, [])).firstBad).toEqual({ index: 0, sentence: 'It is not JSON.' });
  });
});

describe('device keys along the log', () => {
  const with_ = (extra: EventDraft, at: number) => [
    ...drafts.slice(0, at),
    extra,
    ...drafts.slice(at),
  ];
  const ended = {
    ...drafts[3],
    id: sampleId(60),
    kind: 'device-key.ended',
    body: { keyId: device.keyId, reason: 'lost' },
  } as EventDraft;

  it('sign nothing after they ended', async () => {
    const { entries } = keepLog(with_(ended, 4));
    expect((await audit(entries, [])).firstBad).toEqual({
      index: 6,
      sentence: 'It is signed with a device key that was not enrolled, or had ended.',
    });
    expect(await audit(keepLog(with_(ended, 6)).entries, [])).toMatchObject({ ok: true });
  });

  it('end once, and begin once', async () => {
    const twice = keepLog([...with_(ended, 6), { ...ended, id: sampleId(61) }]).entries;
    expect((await audit(twice, [])).firstBad?.sentence).toBe(
      'It ends a device key that is not enrolled.',
    );
    const again = { ...(drafts[3] as EventDraft), id: sampleId(62) };
    expect((await audit(keepLog(with_(again, 5)).entries, [])).firstBad?.sentence).toBe(
      'It enrols a device key that is enrolled already.',
    );
  });

  it('sign for nobody but their owner', async () => {
    const others = drafts.map((one, index) =>
      index === 3 ? { ...one, by: 'dev', about: 'dev' } : one,
    );
    expect((await audit(keepLog(others as EventDraft[]).entries, [])).firstBad).toEqual({
      index: 5,
      sentence: "It is signed with somebody else's device key.",
    });
  });

  it('of a second trainer are followed in the same way', async () => {
    const bare = {
      schema: 'cosign/1' as const,
      id: sampleId(64),
      org: 'org-1',
      signoff: sampleId(40),
      statementHash: 'cd'.repeat(32),
      unit: 'Rip',
      trainer: { ...sampleStatement().trainer, person: 'ruth' },
      answer: 'agrees' as const,
      note: null,
    };
    const body = await signCosign({ ...bare, meaning: cosignMeaningOf(bare) }, device);
    const cosigned = {
      ...drafts[5],
      id: sampleId(64),
      kind: 'practical.cosigned',
      body,
    } as EventDraft;
    expect(await audit(keepLog([...drafts, cosigned]).entries, [])).toMatchObject({ ok: true });
    const turned = {
      ...cosigned,
      body: { ...body, deviceSignature: `A${body.deviceSignature.slice(1)}` },
    } as EventDraft;
    expect((await audit(keepLog([...drafts, turned]).entries, [])).firstBad).toEqual({
      index: 7,
      sentence: "The co-signature is not what the trainer's device signed.",
    });
    expect((await audit(keepLog([...with_(ended, 6), cosigned]).entries, [])).firstBad).toEqual({
      index: 8,
      sentence: 'It is signed with a device key that was not enrolled, or had ended.',
    });
  });

  it('sign for no other organisation', async () => {
    const elsewhere = await sampleDrafts(device, sampleStatement({ org: 'org-2' }));
    const moved = drafts.map((one, index) =>
      index === 5 ? { ...(elsewhere.drafts[5] as EventDraft), org: 'org-2' } : one,
    );
    expect((await audit(keepLog(moved).entries, [])).firstBad).toEqual({
      index: 5,
      sentence: "It is signed with somebody else's device key.",
    });
  });

  it('leave a root that depends on all of it', () => {
    expect(toHex(keepLog(drafts).root)).not.toBe(toHex(keepLog(with_(ended, 6)).root));
  });
});
