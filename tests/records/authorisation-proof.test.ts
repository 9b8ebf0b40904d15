import { describe, expect, it } from 'vitest';
import {
  addProof,
  buildStatusList,
  canonicalText,
  didOf,
  type EventDraft,
  type JsonObject,
  logOriginOf,
  ProofError,
  type StatementNow,
  signCheckpoint,
  signStatement,
  toBase64,
  verifyProof,
} from '../../src/records/index.ts';
import { bendFile } from './bend-file.ts';
import {
  authorisationDrafts,
  BASIS_AT,
  GIVER,
  LEAVE_AT,
  sampleAuthorisation,
  sampleLeave,
  statusLists,
} from './sample-authorisation.ts';
import { keepLog, NAMES, sampleId, sampleStatementNow, seedKey } from './sample-log.ts';

const AT = '2026-03-10T12:00:00.000Z';
const whole = await sampleLeave();
const results = await sampleLeave({ shown: 'results' });
const least = await sampleLeave({ shown: 'nothing' });
const { issuer, site } = whole;
const check = (file: unknown, at = AT, trusted: readonly string[] = [issuer]) =>
  verifyProof(file, { trusted, at });
const failed = async (file: unknown) =>
  (await check(file)).checks.filter(({ state }) => state === 'failed').map(({ id }) => id);

describe('a proof of leave to work', () => {
  it('is genuine, with a sentence for every check', async () => {
    const verdict = await check(JSON.parse(JSON.stringify(whole.file)));
    expect(verdict.verdict).toBe('genuine');
    expect(verdict.checks.map(({ id, state }) => `${id} ${state}`)).toEqual(
      'form signer credential checkpoint log basis device second match trainee giver trainer left-out period withdrawal'
        .split(' ')
        .map((id) => `${id} ok`),
    );
    expect(verdict.record).toMatchObject({
      kind: 'authorisation',
      trainee: 'Mira Holt',
      giver: 'Anna Weir',
      work: ['rip', 'crosscut'],
      bench: 'AL-01',
      machine: 'hand-fed circular saw bench',
      largest: { thickness: 75, length: null },
      validUntil: '2027-03-02',
    });
    if (verdict.record?.kind !== 'authorisation') throw new Error('no record');
    expect(
      verdict.record.practicals.map(({ shown, trainer, unit }) => [unit, trainer, shown]),
    ).toEqual([
      ['Rip, with push stick and take-off', 'Ruth Amsel', 'all'],
      ['Crosscut with gauge and stops', 'Ruth Amsel', 'all'],
    ]);
    expect(verdict.record.practicals[0]?.settings[0]).toMatchObject({
      measure: 'knife.gapAtTable',
      value: 5.5,
    });
  });

  it('with results alone is genuine, holds no setting and no signature, and says so', async () => {
    const verdict = await check(results.file);
    expect(verdict.verdict).toBe('genuine');
    const text = JSON.stringify(results.file);
    expect(text).toContain('Takes up the push stick');
    for (const kept of ['feeler gauge', 'deviceSignature', 'redwood', 'Café'])
      expect(text).not.toContain(kept);
    expect(verdict.checks.find(({ id }) => id === 'left-out')).toMatchObject({
      state: 'unknown',
      sentence: expect.stringMatching(/^Left out: settings .* of 2 of 2 practicals/),
    });
    expect(verdict.checks.find(({ id }) => id === 'device')?.state).toBe('unknown');
    expect(verdict.cannotKnow.at(-1)).toContain('What the holder left out');
  });

  it('with nothing but who and what is genuine, and holds no result', async () => {
    const verdict = await check(least.file);
    expect(verdict.verdict).toBe('genuine');
    expect(JSON.stringify(least.file)).not.toContain('push stick for the last');
    expect(verdict.checks.find(({ id }) => id === 'left-out')?.sentence).toMatch(
      /^Left out: results, settings .* of 2 of 2 practicals/,
    );
    if (verdict.record?.kind !== 'authorisation') throw new Error('no record');
    expect(verdict.record.practicals[1]).toMatchObject({
      unit: 'Crosscut with gauge and stops',
      observedAt: '2026-03-03',
      criteria: [],
      settings: [],
    });
  });

  it('may show one practical whole and another not at all', async () => {
    const [first] = whole.file.basis;
    const [, second] = least.file.basis;
    const mixed = { ...whole.file, basis: [first, second] };
    // same salts in each sample, so that the credentials are one
    expect(canonicalText(least.file.credential)).toBe(canonicalText(whole.file.credential));
    expect((await check(mixed)).verdict).toBe('genuine');
    const both = { ...least.file, basis: [results.file.basis[0], second] };
    const left = (await check(both)).checks.filter(({ id }) => id === 'left-out');
    expect(left.map(({ sentence }) => sentence.slice(0, 28))).toEqual([
      'Left out: results, settings ',
      'Left out: settings and the t',
    ]);
  });

  it('without names names nobody: neither name nor salt is in it', async () => {
    const file = { ...least.file, names: {} };
    const verdict = await check(file);
    expect(verdict.verdict).toBe('genuine');
    const text = JSON.stringify(file);
    for (const { name, salt } of [NAMES.trainee, NAMES.trainer, GIVER]) {
      expect(text).not.toContain(name);
      expect(text).not.toContain(`"salt":"${salt}"`);
    }
    expect(verdict.record).toMatchObject({ trainee: null, giver: null });
    const unknown = verdict.checks.filter(({ state }) => state === 'unknown').map(({ id }) => id);
    expect(unknown).toEqual(['device', 'trainee', 'giver', 'trainer', 'left-out']);
  });

  it('without a second person says so, and holds', async () => {
    const verdict = await check({ ...whole.file, second: null });
    expect(verdict.verdict).toBe('genuine');
    expect(verdict.checks.find(({ id }) => id === 'second')?.state).toBe('unknown');
  });

  it('shows nothing of a stranger’s', async () => {
    const stranger = didOf((await seedKey(9)).keyId);
    for (const trusted of [[], [stranger]]) {
      expect(await check(whole.file, AT, trusted)).toMatchObject({
        verdict: 'not from a trusted signer',
        record: null,
      });
    }
  });
});

describe('leave to work in the status lists', () => {
  const withMarks = async (marks: Parameters<typeof statusLists>[1]) => ({
    ...whole.file,
    status: await statusLists(site, marks),
  });

  it('marked ended is ended, and marked with a practical of its own is withdrawn', async () => {
    expect(await check(await withMarks({ revocation: [LEAVE_AT] }))).toMatchObject({
      verdict: 'ended',
      sentence: expect.stringContaining('before its time'),
    });
    for (const index of BASIS_AT) {
      const verdict = await check(await withMarks({ revocation: [index, LEAVE_AT] }));
      expect(verdict.verdict).toBe('withdrawn');
      expect((await check(await withMarks({ revocation: [index] }))).verdict).toBe('withdrawn');
    }
    expect((await check(await withMarks({ revocation: [4, 6, 9] }))).verdict).toBe('genuine');
  });

  it('marked resting is withdrawn for now, while the list is fresh', async () => {
    const file = await withMarks({ suspension: [LEAVE_AT] });
    expect(await check(file)).toMatchObject({
      verdict: 'withdrawn',
      sentence: expect.stringMatching(/^Withdrawn for now\..*until it is refreshed\.$/),
    });
    expect(await check(file, '2026-04-04T00:00:00.000Z')).toMatchObject({
      verdict: 'unknown as of a date',
      asOf: '2026-03-03T11:00:00.000Z',
    });
    expect((await check(file, '2027-03-03T00:00:00.000Z')).verdict).not.toBe('genuine');
  });

  it('is unknown with either list missing or old, and ended after its last day', async () => {
    const { revocation, suspension } = whole.file.status;
    for (const status of [
      { revocation: [], suspension },
      { revocation, suspension: [] },
      { revocation: [], suspension: [] },
    ]) {
      expect((await check({ ...whole.file, status })).verdict).toBe('unknown as of a date');
    }
    expect((await check(whole.file, '2026-04-03T11:00:00.001Z')).verdict).toBe(
      'unknown as of a date',
    );
    expect((await check(whole.file, '2027-03-03T00:00:00.000Z')).verdict).toBe('ended');
    expect((await check(whole.file, '2026-03-02T12:00:00.000Z')).verdict).toBe(
      'unknown as of a date',
    );
  });

  it('of another list, a stranger or another purpose spoils the file', async () => {
    const times = { asOf: AT, validUntil: '2026-05-01T00:00:00.000Z' };
    const elsewhere = await buildStatusList(site, { list: 1, withdrawn: [], ...times });
    const strange = await buildStatusList(await seedKey(9), { list: 0, withdrawn: [], ...times });
    const { revocation, suspension } = whole.file.status;
    for (const status of [
      { revocation: [...revocation, elsewhere], suspension },
      { revocation: [strange], suspension },
      { revocation, suspension: revocation },
      { revocation: [...revocation, ...revocation], suspension },
    ]) {
      expect((await check({ ...whole.file, status })).verdict).toBe('altered');
    }
  });
});

describe('a proof of leave put together by somebody with parts of others', () => {
  it.each<[string, string, unknown, string]>([
    ['a later end', 'event.body.statement.until', '2037-03-02', 'log'],
    ['more work', 'event.body.statement.work', ['rip', 'deep'], 'log'],
    ['another machine', 'event.body.statement.bench.asset', 'AL-02', 'log'],
    ['another person', 'event.about', 'tom', 'log'],
    ['another place in the log', 'log.event.index', 7, 'log'],
    ['a path cut short', 'log.event.path', [], 'log'],
    [
      'another end on the credential',
      'credential.validUntil',
      '2037-03-02T23:59:59Z',
      'credential',
    ],
    [
      'another sort of machine',
      'credential.credentialSubject.achievement.specialization',
      'x',
      'credential',
    ],
    [
      'another result in a practical',
      'basis.0.event.body.statement.criteria.0.result',
      'no',
      'basis',
    ],
    ['another reading in a practical', 'basis.1.event.body.statement.settings.0.value', 6, 'basis'],
    ['a practical moved', 'basis.0.index', 4, 'basis'],
    ['a practical less', 'basis', whole.file.basis.slice(0, 1), 'basis'],
    ['another key enrolled', 'enrolments.0.event.body.label', 'phone', 'device'],
    ['another word of the second', 'second.event.by', 'ruth', 'second'],
    ['another name', 'names.trainee.name', 'Tom Okafor', 'trainee'],
    ['another giver', 'names.giver.name', 'Dev Pradhan', 'giver'],
    ['another trainer', 'names.trainers.0.name', 'Dev Pradhan', 'trainer'],
    ['a field too many', 'note', 'Believe me.', 'form'],
    ['a name nobody asked for', 'names.assessor', GIVER, 'form'],
    ['an enrolment of nobody shown', 'enrolments.1', { event: {}, index: 1, path: [] }, 'form'],
    ['an unknown way of showing', 'basis.0.shown', 'half', 'form'],
  ])('with %s is altered', async (_, path, value, where) => {
    const bent = bendFile(whole.file, path, value);
    expect((await check(bent)).verdict).toBe('altered');
    expect(await failed(bent)).toContain(where);
  });

  it.each<[string, string, unknown, string]>([
    ['another result', 'basis.0.results.criteria.0.result', 'no', 'basis'],
    ['another salt', 'basis.0.results.salt', '0'.repeat(32), 'basis'],
    ['a condition less', 'basis.0.results.conditions', [], 'basis'],
    ['another leaf', 'basis.0.leaf', toBase64(new Uint8Array(32)), 'basis'],
    ['a leaf that is none', 'basis.0.leaf', 'AA==', 'form'],
  ])('showing results, with %s is altered', async (_, path, value, where) => {
    const bent = bendFile(results.file, path, value);
    expect((await check(bent)).verdict).toBe('altered');
    expect(await failed(bent)).toContain(where);
  });

  it('with the practicals swapped is altered', async () => {
    for (const { file } of [whole, results, least]) {
      const swapped = { ...file, basis: [...file.basis].reverse() };
      expect(await failed(swapped)).toContain('basis');
    }
  });

  it('with leaves of other events passed off as the practicals is altered', async () => {
    const log = keepLog(await authorisationDrafts(await seedKey(2)));
    const { entry, path } = log.prove(2);
    const other = {
      shown: 'nothing',
      leaf: toBase64(entry.leafHash),
      index: 2,
      path: path.map(toBase64),
    };
    const bent = bendFile(least.file, 'basis.0', other);
    const { checks } = await check(bent);
    expect(checks.find(({ id }) => id === 'basis')?.sentence).toBe(
      'Practical 1 is not the one that the credential means.',
    );
  });
});

/* A site that lies, or is mistaken: every signature and hash is good, and the key is trusted. */
describe('a proof of leave rightly signed by a trusted site', () => {
  const again = async (change: (credential: JsonObject) => JsonObject) => {
    const { proof: _, ...credential } = whole.file.credential as JsonObject & { proof: unknown };
    const signed = await addProof(change(credential), site, { created: AT, issuer });
    return { ...whole.file, credential: signed };
  };

  it('is genuine when it says the same', async () => {
    expect((await check(await again((same) => same))).verdict).toBe('genuine');
  });

  it.each<[string, JsonObject, string, string]>([
    ['another end', { validUntil: '2037-03-02T23:59:59Z' }, 'match', 'differ in validUntil'],
    ['another beginning', { validFrom: '2020-03-02T00:00:00Z' }, 'match', 'differ in validFrom'],
    ['another id', { id: 'urn:uuid:x' }, 'match', 'differ in id'],
    ['the status of another', { credentialStatus: [] }, 'match', 'differ in status'],
    ['no evidence', { evidence: [] }, 'basis', 'does not hold every practical'],
    ['no digests', { relatedResource: [] }, 'basis', 'does not hold every practical'],
    ['another kind', { type: ['VerifiableCredential'] }, 'match', 'credential of achievement'],
  ])('with %s is altered', async (_, lie, where, sentence) => {
    const file = await again((credential) => ({ ...credential, ...lie }));
    const verdict = await check(file);
    expect(verdict.verdict).toBe('altered');
    expect(verdict.checks.find(({ id }) => id === where)).toMatchObject({
      state: 'failed',
      sentence: expect.stringContaining(sentence),
    });
  });

  it('with a practical told otherwise than it was is altered', async () => {
    const file = await again((credential) => ({
      ...credential,
      evidence: (credential['evidence'] as JsonObject[]).map((one, at) =>
        at === 0 ? { ...one, observedAt: '2026-01-01' } : one,
      ),
    }));
    expect((await check(file)).checks.find(({ id }) => id === 'device')?.sentence).toBe(
      'The credential and practical 1 do not say the same.',
    );
  });

  const { schema: _schema, meaning: _meaning, ...rest } = sampleStatementNow();
  it.each<[string, Partial<StatementNow>]>([
    [
      'of another person',
      {
        who: { ...rest.who, person: 'ruth' },
        trainer: { ...rest.trainer, person: 'dev' },
      },
    ],
    ['on another machine', { bench: { ...rest.bench, id: 'bench-2' } }],
  ])('is never made on a practical %s', async (_, change) => {
    const device = await seedKey(2);
    const statement = sampleStatementNow({ ...rest, ...change, signoff: sampleId(44) });
    const drafts = await authorisationDrafts(device);
    drafts[7] = {
      ...drafts[7],
      by: statement.trainer.person,
      about: statement.who.person,
      body: await signStatement(statement, device),
    } as EventDraft;
    const log = keepLog(drafts);
    const head = { origin: logOriginOf(site.keyId), size: log.entries.length, root: log.root };
    const input = {
      authorisation: log.prove(LEAVE_AT),
      second: null,
      basis: BASIS_AT.map((index) => ({ signoff: log.prove(index), enrolment: log.prove(3) })),
      checkpoint: await signCheckpoint(head, site),
      names: {},
    };
    await expect(sampleLeave({ input })).rejects.toThrow(
      'Practical 2 is not a sign-off of this person on this machine.',
    );
  });

  it.each<[string, Partial<EventDraft>]>([
    ['the giver', { by: 'anna' }],
    [
      'somebody who does not agree',
      { body: { authorisation: sampleId(61), answer: 'disagrees', note: 'Not yet.' } } as never,
    ],
    [
      'somebody who agrees to another',
      { body: { authorisation: sampleId(60), answer: 'agrees', note: null } } as never,
    ],
  ])('is never made with the word of %s as the second person', async (_, change) => {
    const drafts = await authorisationDrafts(await seedKey(2));
    drafts[9] = { ...drafts[9], ...change } as EventDraft;
    const log = keepLog(drafts);
    const head = { origin: logOriginOf(site.keyId), size: log.entries.length, root: log.root };
    const input = {
      authorisation: log.prove(LEAVE_AT),
      second: log.prove(9),
      basis: BASIS_AT.map((index) => ({ signoff: log.prove(index), enrolment: log.prove(3) })),
      checkpoint: await signCheckpoint(head, site),
    };
    await expect(sampleLeave({ input })).rejects.toThrow(
      "The second person's word is not that somebody else agrees to this.",
    );
  });

  it('is never made when a practical is missing, or a name is another', async () => {
    await expect(sampleLeave({ input: { basis: [] } })).rejects.toThrow(ProofError);
    await expect(
      sampleLeave({ input: { names: { giver: { ...GIVER, name: 'Dev Pradhan' } } } }),
    ).rejects.toThrow('The name of who gave it is not the one logged.');
  });
});

describe('the credential of leave', () => {
  const credential = whole.file.credential as JsonObject & {
    credentialSubject: { achievement: { alignment: JsonObject[]; achievementType: string } };
  };

  it('names units by id and version, and published units beside them', () => {
    expect(
      credential.credentialSubject.achievement.alignment.map(({ targetCode }) => targetCode),
    ).toEqual(['rip 1', 'crosscut 2', '2.1.1']);
  });

  it('has two status entries at the place of the event, and never calls itself a licence', () => {
    // Bitstring Status List v1.0 section 2.1: one entry a purpose
    expect(credential['credentialStatus']).toMatchObject([
      { statusPurpose: 'revocation', statusListIndex: String(LEAVE_AT) },
      { statusPurpose: 'suspension', statusListIndex: String(LEAVE_AT) },
    ]);
    expect(credential.credentialSubject.achievement.achievementType).toBe('Competency');
    expect(credential['description']).toContain('Not a licence.');
    expect(sampleAuthorisation().meaning).toContain('It is not a licence.');
  });
});
