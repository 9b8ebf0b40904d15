import { describe, expect, it } from 'vitest';
import { describeProblem } from '../../src/bench/index.ts';
import {
  type Authorisation,
  authorisationMeaningOf,
  type Cosign,
  checkCosign,
  checkSignoff,
  cosignMeaningOf,
  meaningOf,
  SignoffError,
  StatementSchema,
  signCosign,
  signStatement,
  verifyProof,
} from '../../src/records/index.ts';
import { sampleProof, sampleStatement, sampleStatementNow, seedKey } from './sample-log.ts';

const problemOf = (statement: unknown): string | null => {
  const read = StatementSchema.safeParse(statement);
  return read.success ? null : describeProblem(read.error, 'The statement').message;
};

describe('a statement in the form of today', () => {
  it('is taken, and the first form is taken beside it as it was', () => {
    expect(problemOf(sampleStatementNow())).toBeNull();
    expect(problemOf(sampleStatement())).toBeNull();
  });

  it.each<[string, object, string]>([
    [
      'a form nobody knows',
      { schema: 'statement/3' },
      'schema must be "statement/1" or "statement/2".',
    ],
    [
      'fields of today under the first name',
      { schema: 'statement/1' },
      'The statement has no field named practical, photos, acknowledged, confirmed.',
    ],
    [
      'a disagreement without words',
      { acknowledged: { answer: 'disagrees', words: null } },
      'acknowledged.words must say why the person disagrees.',
    ],
    [
      'one photo twice',
      { photos: [sampleStatementNow().photos[0], sampleStatementNow().photos[0]] },
      'photos[1] must not list abababababababababababababababababababababababababababababababab twice.',
    ],
    [
      'a photo without its digest',
      { photos: [{ digest: 'abc', criterion: null }] },
      'photos[0].digest must be 64 hexadecimal digits.',
    ],
    ['a sign-in nowhere', { confirmed: 'later' }, 'confirmed must be one of: site, device.'],
  ])('refuses %s', (_, change, message) => {
    expect(problemOf({ ...sampleStatementNow(), ...change })).toBe(message);
  });

  it('says in its meaning what the person watched said, and the first form says nothing of it', () => {
    const words = 'The stock was wet.';
    const said = (answer: 'agrees' | 'disagrees' | 'not-asked') =>
      meaningOf(sampleStatementNow({ acknowledged: { answer, words } }));
    expect(said('agrees')).toContain('I told this person the result, and they agreed.');
    expect(said('disagrees')).toContain('they did not agree');
    expect(said('not-asked')).toContain('I did not tell this person the result.');
    expect(meaningOf(sampleStatement())).not.toContain('told this person');
  });

  it('is signed, checked and proved like the first', async () => {
    const device = await seedKey(2);
    const signed = await signStatement(sampleStatementNow(), device);
    expect(await checkSignoff(signed, device.publicKey)).toEqual({ ok: true });
    const heard = { ...signed.statement, acknowledged: { answer: 'not-asked', words: null } };
    expect(
      await checkSignoff({ ...signed, statement: heard as never }, device.publicKey),
    ).toMatchObject({ ok: false });
    const { file, issuer } = await sampleProof({ statement: sampleStatementNow() });
    const verdict = await verifyProof(file, { trusted: [issuer], at: '2026-03-04T10:00:00.000Z' });
    expect(verdict.verdict).toBe('genuine');
  });
});

describe('a second trainer’s word', () => {
  const bare: Omit<Cosign, 'meaning'> = {
    schema: 'cosign/1',
    id: '019cb323-e56d-7d6d-ad6d-6d6d6d6d6d6d',
    org: 'org-1',
    signoff: sampleStatement().signoff,
    statementHash: 'cd'.repeat(32),
    unit: 'Rip, with push stick and take-off',
    trainer: { ...sampleStatement().trainer, person: 'dev' },
    answer: 'disagrees',
    note: 'The guard stood 40 mm over the stock on the photo.',
  };
  const statement: Cosign = { ...bare, meaning: cosignMeaningOf(bare) };

  it('holds under the key that made it, and no other', async () => {
    const [own, other] = await Promise.all([seedKey(3), seedKey(4)]);
    const signed = await signCosign(statement, own);
    expect(await checkCosign(signed, own.publicKey)).toEqual({ ok: true });
    expect(await checkCosign(signed, other.publicKey)).toMatchObject({ ok: false });
    const turned = { ...signed, statement: { ...statement, answer: 'agrees' as const } };
    expect(await checkCosign(turned, own.publicKey)).toMatchObject({ ok: false });
    expect(await checkCosign({ ...signed, deviceSignature: '=' }, own.publicKey)).toMatchObject({
      ok: false,
    });
  });

  it('is not signed with a meaning that is not its own', async () => {
    const signing = signCosign({ ...statement, meaning: 'I agree.' }, await seedKey(3));
    await expect(signing).rejects.toThrow(SignoffError);
  });
});

describe('the sentence of an authorisation', () => {
  const said = (supervised: Authorisation['supervised']) =>
    authorisationMeaningOf({
      bench: { id: 'bench-1', asset: 'AL-01' },
      work: ['rip', 'crosscut'],
      from: '2026-03-03',
      until: '2029-03-02',
      supervised,
    } as Authorisation);

  it('names bench, work, days, what it rests after, and that it is no licence', () => {
    for (const part of ['AL-01', 'ripping, crosscutting', '2026-03-03', '2029-03-02', 'near miss'])
      expect(said('as-usual')).toContain(part);
    expect(said('as-usual')).toContain('not a licence');
  });

  it('says when somebody must stand by', () => {
    expect(said('always')).toContain('only while');
    expect(said('as-usual')).not.toContain('only while');
  });
});
