import { beforeAll, describe, expect, it } from 'vitest';
import {
  addProof,
  buildStatusList,
  didOf,
  type JsonObject,
  ProofError,
  type ProofFile,
  type ShownName,
  VERDICTS,
  verifyProof,
} from '../../src/records/index.ts';
import {
  forgeProof,
  keepLog,
  NAMES,
  sampleDrafts,
  sampleProof,
  sampleStatement,
  seedKey,
} from './sample-log.ts';

const AT = '2026-03-10T12:00:00.000Z';
const sample = await sampleProof();
const check = (file: unknown, at = AT, trusted: readonly string[] = [sample.issuer]) =>
  verifyProof(file, { trusted, at });
const failed = async (file: unknown) =>
  (await check(file)).checks.filter((one) => one.state === 'failed').map((one) => one.id);

/** The file with one value changed, as a person with an editor would. */
function change(file: ProofFile, path: string, value: unknown): JsonObject {
  const copy = structuredClone(file) as unknown as Record<string, unknown>;
  const steps = path.split('.');
  const last = steps.pop() as string;
  const inner = steps.reduce<Record<string, unknown>>(
    (at, step) => at[step] as Record<string, unknown>,
    copy,
  );
  inner[last] = value;
  return copy;
}

describe('a proof', () => {
  it('is genuine, with a sentence for every check and what it cannot know', async () => {
    const verdict = await check(sample.file);
    expect(verdict.verdict).toBe('genuine');
    expect(verdict.checks.map(({ id, state }) => [id, state])).toEqual([
      ['form', 'ok'],
      ['signer', 'ok'],
      ['credential', 'ok'],
      ['checkpoint', 'ok'],
      ['log', 'ok'],
      ['enrolment', 'ok'],
      ['device', 'ok'],
      ['match', 'ok'],
      ['trainee', 'ok'],
      ['trainer', 'ok'],
      ['period', 'ok'],
      ['withdrawal', 'ok'],
    ]);
    for (const { sentence } of verdict.checks) expect(sentence).toMatch(/^[A-Z0-9].+\.$/);
    expect(verdict.cannotKnow.join(' ')).toContain(
      'A log held by one party alone cannot stop that party',
    );
    expect(verdict.record).toEqual({
      kind: 'practical',
      trainee: 'Mira Holt',
      trainer: 'Ruth Amsel',
      organisation: 'Alder Lane Joinery',
      signoff: sampleStatement().signoff,
      unit: 'Rip, with push stick and take-off',
      work: 'rip',
      bench: 'AL-01',
      observedAt: '2026-03-03',
      validFrom: '2026-03-03',
      validUntil: '2027-03-02',
    });
  });

  it('comes through a file unharmed', async () => {
    expect((await check(JSON.parse(JSON.stringify(sample.file, null, 2)))).verdict).toBe('genuine');
  });

  it('is genuine to the last day and ended on the next', async () => {
    const status = await buildStatusList(sample.site, {
      list: 0,
      withdrawn: [],
      asOf: '2027-03-01T00:00:00.000Z',
      validUntil: '2027-04-01T00:00:00.000Z',
    });
    const file = { ...sample.file, status };
    expect((await check(file, '2027-03-02T23:59:59.999Z')).verdict).toBe('genuine');
    const ended = await check(file, '2027-03-03T00:00:00.000Z');
    expect(ended).toMatchObject({ verdict: 'ended', asOf: null });
    expect(ended.sentence).toContain('held until 2027-03-02');
  });

  it('says nothing of the days before it begins', async () => {
    const before = '2026-03-02T23:00:00.000Z';
    expect(await check(sample.file, before)).toMatchObject({
      verdict: 'unknown as of a date',
      asOf: before,
    });
  });

  it('withdrawn is withdrawn, before and after its end', async () => {
    const { file } = await sampleProof({ withdrawn: [5] });
    for (const at of [AT, '2030-01-01T00:00:00.000Z']) {
      expect((await check(file, at)).verdict).toBe('withdrawn');
    }
    const neighbour = await sampleProof({ withdrawn: [4, 6] });
    expect((await check(neighbour.file)).verdict).toBe('genuine');
  });

  it('with no status list is unknown as of its making', async () => {
    expect(await check({ ...sample.file, status: null })).toMatchObject({
      verdict: 'unknown as of a date',
      asOf: '2026-03-03T11:00:00.000Z',
    });
  });

  it('with a status list grown old is unknown as of that list', async () => {
    expect((await check(sample.file, '2026-04-03T11:00:00.000Z')).verdict).toBe('genuine');
    expect(await check(sample.file, '2026-04-03T11:00:00.001Z')).toMatchObject({
      verdict: 'unknown as of a date',
      asOf: '2026-03-03T11:00:00.000Z',
    });
  });

  it('with names left out stays genuine and says so', async () => {
    const verdict = await check({ ...sample.file, names: {} });
    expect(verdict.verdict).toBe('genuine');
    expect(verdict.record).toMatchObject({ trainee: null, trainer: null });
    expect(verdict.checks.filter(({ state }) => state === 'unknown').map(({ id }) => id)).toEqual([
      'trainee',
      'trainer',
    ]);
    const text = JSON.stringify({ ...sample.file, names: {} });
    for (const name of [NAMES.trainee, NAMES.trainer] as ShownName[]) {
      expect(text).not.toContain(name.name);
      expect(text).not.toContain(name.salt);
    }
  });

  it('uses one vocabulary', () => {
    expect([...VERDICTS].sort()).toEqual([
      'altered',
      'ended',
      'genuine',
      'not from a trusted signer',
      'unknown as of a date',
      'withdrawn',
    ]);
  });
});

describe('trust', () => {
  it.each([
    ['nobody', []],
    ['somebody else', ['stranger']],
  ])('of %s makes it a stranger’s, and shows nothing of it', async (_, who) => {
    const trusted = await Promise.all(who.map(async () => didOf((await seedKey(9)).keyId)));
    expect(await check(sample.file, AT, trusted)).toMatchObject({
      verdict: 'not from a trusted signer',
      record: null,
    });
  });

  it('is never taken from the file: one made whole by a stranger stays a stranger’s', async () => {
    const stranger = await seedKey(9);
    const { file } = await sampleProof();
    const { proof, ...credential } = file.credential as JsonObject & { proof: unknown };
    const forged = await addProof(
      { ...credential, issuer: { ...(credential['issuer'] as object), id: didOf(stranger.keyId) } },
      stranger,
      { created: AT, issuer: didOf(stranger.keyId) },
    );
    expect(['altered', 'not from a trusted signer']).toContain(
      (await check({ ...file, credential: forged })).verdict,
    );
  });

  it('refuses a list that holds something else than keys, and a moment that is none', async () => {
    await expect(check(sample.file, AT, ['did:web:alderlane.example'])).rejects.toThrow(RangeError);
    await expect(check(sample.file, 'yesterday')).rejects.toThrow('at must be a moment.');
  });
});

describe('a proof put together by somebody with parts of others', () => {
  it.each<[string, string, unknown, string]>([
    ['another result', 'event.body.statement.criteria.0.result', 'no', 'device'],
    ['a later end', 'event.body.statement.validUntil', '2037-03-02', 'device'],
    ['another id', 'event.id', '019cb323-e506-7606-8606-060606060606', 'device'],
    ['another person', 'event.about', 'tom', 'log'],
    ['another trainer', 'event.by', 'dev', 'log'],
    [
      'another key enrolled',
      'enrolment.body.keyId',
      'z6MkrJVnaZkeFzdQyMZu1cgjg7k1pZZ6pvBQ7XJPt4swbTQ2',
      'enrolment',
    ],
    ['another place in the log', 'log.event.index', 4, 'log'],
    ['a path cut short', 'log.event.path', [], 'log'],
    [
      'another end on the credential',
      'credential.validUntil',
      '2037-03-02T23:59:59Z',
      'credential',
    ],
    ['another employer', 'credential.issuer.name', 'Another Workshop', 'credential'],
    ['another name', 'names.trainee.name', 'Tom Okafor', 'trainee'],
    ['another salt', 'names.trainer.salt', '0'.repeat(32), 'trainer'],
    ['a salt that is none', 'names.trainer.salt', 'salt', 'trainer'],
    ['a name of somebody nobody asked for', 'names.assessor', NAMES.trainer, 'form'],
    ['a name without its salt', 'names.trainee', { name: 'Mira Holt' }, 'form'],
    ['a field too many', 'note', 'Believe me.', 'form'],
    ['no log', 'log', {}, 'form'],
    ['another form', 'format', 'signed-to-saw/proof/2', 'form'],
  ])('with %s is altered', async (_, path, value, where) => {
    const bent = change(sample.file, path, value);
    expect((await check(bent)).verdict).toBe('altered');
    expect(await failed(bent)).toContain(where);
  });

  it('with another sign-off’s credential is altered', async () => {
    const other = await sampleProof({
      statement: sampleStatement({ work: 'crosscut', validUntil: '2028-03-02' }),
    });
    const mixed = { ...sample.file, credential: other.file.credential };
    expect((await check(mixed)).verdict).toBe('altered');
    expect(await failed(mixed)).toEqual(['match']);
  });

  it('with another list’s status, or one unpacked and changed, is altered', async () => {
    const elsewhere = await buildStatusList(sample.site, {
      list: 1,
      withdrawn: [],
      asOf: AT,
      validUntil: '2026-05-01T00:00:00.000Z',
    });
    expect((await check({ ...sample.file, status: elsewhere })).verdict).toBe('altered');
    const longer = change(sample.file, 'status.validUntil', '2099-01-01T00:00:00.000Z');
    expect((await check(longer)).verdict).toBe('altered');
  });

  it('signed by a key enrolled to somebody else is altered', async () => {
    const device = await seedKey(2);
    const { drafts, signoffIndex } = await sampleDrafts(device);
    const enrolment = drafts[3];
    if (enrolment === undefined) throw new Error('no enrolment');
    drafts[3] = { ...enrolment, by: 'dev', about: 'dev' };
    const log = keepLog(drafts);
    const site = await seedKey(1);
    await expect(
      sampleProof({
        input: {
          signoff: log.prove(signoffIndex),
          enrolment: log.prove(3),
          checkpoint: await import('../../src/records/index.ts').then(({ signCheckpoint }) =>
            signCheckpoint({ origin: 'log', size: log.entries.length, root: log.root }, site),
          ),
        },
      }),
    ).rejects.toThrow('The key that signed was enrolled to somebody else.');
  });

  it.each([[null], [[]], ['text'], [7], [{}], [{ format: 'signed-to-saw/proof/1' }]])(
    'that is %j has not the form of a proof',
    async (value) => {
      const verdict = await check(value);
      expect(verdict.verdict).toBe('altered');
      expect(verdict.checks.map(({ id }) => id)).toEqual(['form']);
    },
  );
});

/*
 * A site that lies, or is mistaken: every signature and hash in the file is good, and the key is
 * trusted. What is signed must still make sense.
 */
describe('a proof rightly signed by a trusted site', () => {
  let orderly: unknown;
  beforeAll(async () => {
    orderly = await forgeProof();
  });

  it('is genuine when what it says makes sense', async () => {
    expect((await check(orderly)).verdict).toBe('genuine');
  });

  it.each<[string, Parameters<typeof forgeProof>[0], string, string]>([
    [
      'of a key enrolled after it signed',
      { order: 'enrolled-after' },
      'enrolment',
      'The key was enrolled after it had signed.',
    ],
    [
      'of a key enrolled by somebody else',
      { enrolment: { by: 'dev' } },
      'enrolment',
      'The key that signed was enrolled to somebody else.',
    ],
    [
      'of a key enrolled in another workshop',
      { enrolment: { org: 'org-2' } },
      'enrolment',
      'The key that signed was enrolled to somebody else.',
    ],
    [
      'of a key that was ended, not enrolled',
      { enrolment: { kind: 'device-key.ended' } },
      'enrolment',
      'The file holds no key enrolment.',
    ],
    [
      'of an event that is no sign-off',
      { event: { kind: 'person.joined' } },
      'log',
      'The event in the file is not a sign-off.',
    ],
    [
      'entered by somebody else',
      { event: { by: 'dev' }, enrolment: { by: 'dev' } },
      'device',
      'The event and the statement in it are not of the same sign-off.',
    ],
    [
      'entered about somebody else',
      { event: { about: 'tom' } },
      'device',
      'The event and the statement in it are not of the same sign-off.',
    ],
    [
      'entered for another workshop',
      { event: { org: 'org-2' }, enrolment: { org: 'org-2' } },
      'device',
      'The event and the statement in it are not of the same sign-off.',
    ],
    [
      'entered a second time',
      { event: { id: '019cb323-e506-7606-8606-060606060606' } },
      'device',
      'The event and the statement in it are not of the same sign-off.',
    ],
    [
      'of a "not yet"',
      { statement: { decision: 'not-yet' } },
      'match',
      'The statement is not a sign-off.',
    ],
    [
      'of another kind of credential',
      { credential: { type: ['VerifiableCredential'] } },
      'match',
      'The credential is not a credential of achievement.',
    ],
    [
      'with another end',
      { credential: { validUntil: '2037-03-02T23:59:59Z' } },
      'match',
      'The credential and the statement differ in validUntil.',
    ],
    [
      'with another beginning',
      { credential: { validFrom: '2020-03-03T00:00:00Z' } },
      'match',
      'The credential and the statement differ in validFrom.',
    ],
    [
      'with another id',
      { credential: { id: 'urn:uuid:x' } },
      'match',
      'The credential and the statement differ in id.',
    ],
    [
      'with no record to go with it',
      { credential: { relatedResource: [] } },
      'match',
      'The credential and the statement differ in record.',
    ],
    [
      'with the status of another',
      { credential: { credentialStatus: { id: 'x' } } },
      'match',
      'The credential and the statement differ in status.',
    ],
  ])('%s is altered', async (_, lie, where, sentence) => {
    const verdict = await check(await forgeProof(lie));
    expect(verdict.verdict).toBe('altered');
    expect(verdict.checks.find(({ id }) => id === where)).toMatchObject({
      state: 'failed',
      sentence,
    });
  });

  it('signed by the trainee is altered', async () => {
    const own = { who: { person: 'ruth', nameHash: sampleStatement().who.nameHash } };
    const verdict = await check(await forgeProof({ statement: own, event: { about: 'ruth' } }));
    expect(verdict.checks.find(({ id }) => id === 'device')).toMatchObject({
      state: 'failed',
      sentence: 'The trainer and the person signed off are the same.',
    });
  });
});

describe('making a proof', () => {
  it('is refused for a practical not signed off', async () => {
    const statement = sampleStatement({ decision: 'not-yet', validFrom: null, validUntil: null });
    await expect(sampleProof({ statement })).rejects.toThrow(ProofError);
  });

  it('is refused when the parts do not belong together', async () => {
    const log = keepLog((await sampleDrafts(sample.device)).drafts);
    await expect(sampleProof({ input: { signoff: log.prove(0) } })).rejects.toThrow(
      'Event 0 of the log must be practical.signed.',
    );
    await expect(sampleProof({ input: { enrolment: log.prove(1) } })).rejects.toThrow(
      'Event 1 of the log must be device-key.enrolled.',
    );
    await expect(
      sampleProof({ input: { names: { trainee: { ...NAMES.trainee, name: 'Tom Okafor' } } } }),
    ).rejects.toThrow("The trainee's name is not the one signed for.");
    await expect(sampleProof({ input: { checkpoint: 'x' } })).rejects.toThrow(
      'The checkpoint is not a signed note.',
    );
  });
});

describe('the credential in a proof', () => {
  const credential = sample.file.credential as JsonObject & {
    credentialSubject: { identifier: JsonObject[]; achievement: { alignment: JsonObject[] } };
    proof: JsonObject[];
  };

  // Verifiable Credentials Data Model 2.0 section 4, Open Badges 3.0 AchievementCredential
  it('has the members that VC 2.0 and Open Badges 3.0 ask for', () => {
    expect((credential['@context'] as string[])[0]).toBe('https://www.w3.org/ns/credentials/v2');
    expect((credential['@context'] as string[])[1]).toMatch(
      /^https:\/\/purl\.imsglobal\.org\/spec\/ob\/v3p0\/context(-3\.\d\.\d)*\.json$/,
    );
    expect(credential['type']).toEqual(['VerifiableCredential', 'AchievementCredential']);
    expect(credential.proof).toHaveLength(1);
    expect(credential.proof[0]).toMatchObject({
      cryptosuite: 'eddsa-jcs-2022',
      proofPurpose: 'assertionMethod',
    });
    expect(credential.credentialSubject.identifier).toEqual([
      {
        type: 'IdentityObject',
        hashed: true,
        identityHash: sampleStatement().who.nameHash,
        identityType: 'name',
      },
    ]);
    expect(credential.credentialSubject.achievement.alignment).toEqual([
      {
        type: ['Alignment'],
        targetName: 'Use a circular saw bench',
        targetUrl: 'https://standards.example/x1',
        targetCode: 'X1',
      },
    ]);
  });

  it('calls itself a record, not a licence', () => {
    expect(credential['description']).toBe(
      "Employer's record of supervised competence. Not a licence.",
    );
  });
});

describe('a proof from before credentials named the standards of a unit', () => {
  it.each([
    ['an empty list of standards', { alignment: [] }],
    ['no list of standards at all', {}],
  ])('with %s is still genuine', async (_what, list) => {
    const { credential } = sample.file as unknown as { credential: JsonObject };
    const { proof: _proof, ...unsigned } = structuredClone(credential);
    const subject = unsigned['credentialSubject'] as JsonObject & { achievement: JsonObject };
    const { alignment, ...achievement } = subject.achievement;
    expect(alignment).toHaveLength(1);
    const old = {
      ...sample.file,
      credential: await addProof(
        {
          ...unsigned,
          credentialSubject: { ...subject, achievement: { ...achievement, ...list } },
        },
        sample.site,
        { created: '2026-03-03T11:00:00.000Z', issuer: sample.issuer },
      ),
    };
    expect(await failed(old)).toEqual([]);
    expect((await check(old)).verdict).toBe('genuine');
  });
});
