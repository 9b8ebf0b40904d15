import { describe, expect, it } from 'vitest';
import { describeProblem } from '../../src/bench/index.ts';
import {
  checkSignoff,
  meaningOf,
  type Signoff,
  SignoffError,
  type Statement,
  StatementSchema,
  signStatement,
} from '../../src/records/index.ts';
import { sampleStatement, seedKey } from './sample-log.ts';

const problemOf = (statement: unknown): string | null => {
  const read = StatementSchema.safeParse(statement);
  return read.success ? null : describeProblem(read.error, 'The statement').message;
};
const NOT_YET = { decision: 'not-yet', validFrom: null, validUntil: null } as const;
const unmet = (result: 'no' | 'not-seen') => [
  ...sampleStatement().criteria,
  { id: 'binding', text: 'Stops when the work binds.', result },
];

describe('a statement', () => {
  it('is taken as a sign-off and as a "not yet"', () => {
    expect(problemOf(sampleStatement())).toBeNull();
    expect(problemOf(sampleStatement({ ...NOT_YET, criteria: unmet('no') }))).toBeNull();
    expect(problemOf(sampleStatement({ validUntil: '2026-03-03' }))).toBeNull();
  });

  const { instrument, ...noInstrument } = sampleStatement()
    .settings[0] as Statement['settings'][number];
  it.each<[string, Partial<Record<keyof Statement, unknown>>, string]>([
    [
      'the trainer’s own practical',
      { trainer: { ...sampleStatement().trainer, person: 'mira' } },
      'trainer.person must not be the person watched: nobody signs for themselves.',
    ],
    [
      'an end before the beginning',
      { validUntil: '2026-03-02' },
      'validUntil must not be before validFrom, 2026-03-03.',
    ],
    [
      'a beginning before the practical',
      { validFrom: '2026-03-02' },
      'validFrom must not be before the day of the practical, 2026-03-03.',
    ],
    ['a sign-off with no end', { validUntil: null }, 'validUntil must be given on a sign-off.'],
    ['a sign-off with no beginning', { validFrom: null }, 'validFrom must be given on a sign-off.'],
    [
      'a "not yet" with an end',
      { decision: 'not-yet', validFrom: null },
      'validUntil must be empty when the decision is not-yet.',
    ],
    [
      'a sign-off with a criterion not met',
      { criteria: unmet('no') },
      'decision must be not-yet, because criterion binding was not met.',
    ],
    [
      'a sign-off with a criterion not seen',
      { criteria: unmet('not-seen') },
      'decision must be not-yet, because criterion binding was not seen.',
    ],
    [
      'a sign-off with a setting outside its limit',
      { settings: [{ ...sampleStatement().settings[0], verdict: 'outside' }] },
      'decision must be not-yet, because knife.gapAtTable is outside gb.knife.gap.',
    ],
    [
      'a result nobody knows',
      { criteria: [{ id: 'stick', text: 'x', result: 'maybe' }] },
      'criteria[0].result must be one of: yes, no, not-seen.',
    ],
    [
      'a setting measured with nothing',
      { settings: [noInstrument] },
      'settings[0].instrument must be text of 1 to 80 characters.',
    ],
    [
      'a setting of no measure of the bench',
      { settings: [{ ...sampleStatement().settings[0], measure: 'knife.colour' }] },
      'settings[0].measure must name a measure of the bench.',
    ],
    ['no criteria', { criteria: [] }, 'criteria must list at least one criterion.'],
    [
      'a criterion twice',
      { criteria: [...sampleStatement().criteria, sampleStatement().criteria[0]] },
      'criteria[2] must not list stick twice.',
    ],
    [
      'a plate thicker than the kerf',
      { blade: { ...sampleStatement().blade, plate: 5 } },
      'blade.plate must not be thicker than the kerf, 4.2 mm.',
    ],
    [
      'a date that is none',
      { observedAt: '2026-02-30' },
      'observedAt must be a date such as 2026-03-03.',
    ],
    [
      'a meaning of its own',
      { meaning: 'I like this person.' },
      'meaning must be the sentence that the other fields make.',
    ],
    [
      'a field it does not know',
      { grade: 'A' } as never,
      'The statement has no field named grade.',
    ],
    [
      'a name in place of a hash',
      { who: { person: 'mira', nameHash: 'Mira Holt' } },
      'who.nameHash must be sha256$ and 64 hexadecimal digits.',
    ],
    [
      'an address for an id',
      { org: 'info@alderlane.example' },
      'org must be an id of 1 to 64 letters, digits, - or _.',
    ],
  ])('refuses %s', (_, change, message) => {
    expect(problemOf({ ...sampleStatement(), ...change })).toBe(message);
  });
});

describe('the sentence of meaning', () => {
  it('names machine, day, work, unit and both ends of a sign-off', () => {
    const meaning = meaningOf(sampleStatement());
    for (const part of [
      'AL-01',
      '2026-03-03',
      'ripping',
      'Rip, with push stick',
      '2027-03-02',
      'not a licence',
    ]) {
      expect(meaning).toContain(part);
    }
    expect(meaning).toContain("employer's record of supervised competence");
  });

  it('of a "not yet" signs nobody off', () => {
    const meaning = meaningOf(sampleStatement({ ...NOT_YET, criteria: unmet('no') }));
    expect(meaning).toContain('I do not sign this person off');
    expect(meaning).not.toContain('until');
  });
});

describe('a sign-off', () => {
  it('signed on the device holds under that device’s key alone', async () => {
    const [device, other] = await Promise.all([seedKey(2), seedKey(3)]);
    const signoff = await signStatement(sampleStatement(), device);
    expect(await checkSignoff(signoff, device.publicKey)).toEqual({ ok: true });
    expect(await checkSignoff(signoff, other.publicKey)).toEqual({
      ok: false,
      sentence: 'The sign-off names another device key.',
    });
    expect(await checkSignoff({ ...signoff, keyId: other.keyId }, other.publicKey)).toEqual({
      ok: false,
      sentence: "The statement is not what the trainer's device signed.",
    });
  });

  it.each(Object.keys(sampleStatement()) as (keyof Statement)[])(
    'does not hold with another %s',
    async (field) => {
      const device = await seedKey(2);
      const signoff = await signStatement(sampleStatement(), device);
      const value = signoff.statement[field];
      const changed = typeof value === 'string' ? `${value}x` : { ...(value as object), x: 1 };
      const bent = { ...signoff, statement: { ...signoff.statement, [field]: changed } } as Signoff;
      expect((await checkSignoff(bent, device.publicKey)).ok).toBe(false);
    },
  );

  it('does not hold when it names another statement, or is no sign-off at all', async () => {
    const device = await seedKey(2);
    const signoff = await signStatement(sampleStatement(), device);
    expect((await checkSignoff({ ...signoff, signoff: 'x' }, device.publicKey)).ok).toBe(false);
    expect((await checkSignoff({ keyId: device.keyId } as Signoff, device.publicKey)).ok).toBe(
      false,
    );
  });

  it('is never made by the person it is about', async () => {
    const own = sampleStatement({ trainer: { ...sampleStatement().trainer, person: 'mira' } });
    const device = await seedKey(2);
    await expect(signStatement(own, device)).rejects.toThrow(SignoffError);
    // even one made by other means does not pass
    const forged = { ...(await signStatement(sampleStatement(), device)), statement: own };
    expect(await checkSignoff(forged, device.publicKey)).toEqual({
      ok: false,
      sentence: 'The trainer and the person signed off are the same.',
    });
  });

  it('is not made under a meaning its fields do not make', async () => {
    const bent = { ...sampleStatement(), meaning: 'Something else.' };
    await expect(signStatement(bent, await seedKey(2))).rejects.toThrow(
      'The meaning shown is not the one the statement makes.',
    );
  });
});
