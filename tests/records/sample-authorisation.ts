import {
  type Authorisation,
  type AuthorisationProofFile,
  type AuthorisationProofInput,
  authorisationMeaningOf,
  buildAuthorisationProof,
  buildStatusList,
  didOf,
  type EventDraft,
  logOriginOf,
  nameHash,
  type ShownLevel,
  type SigningKey,
  type StandingMarks,
  signCheckpoint,
  signStatement,
} from '../../src/records/index.ts';
import {
  keepLog,
  NAMES,
  SALTS,
  sampleDrafts,
  sampleId,
  sampleStatementNow,
  seedKey,
} from './sample-log.ts';

export const GIVER = { name: 'Anna Weir', salt: '0'.repeat(31).concat('3') };
/** Where the sample log has the authorisation, and the sign-offs it rests on. */
export const LEAVE_AT = 8;
export const BASIS_AT = [5, 7] as const;

type Change = Partial<Authorisation>;

/** Leave for Mira Holt to rip and crosscut on AL-01, given by Anna Weir. */
export function sampleAuthorisation(change: Change = {}): Authorisation {
  const unsaid = {
    schema: 'authorisation/1' as const,
    id: sampleId(61),
    org: 'org-1',
    who: { person: 'mira', nameHash: nameHash(NAMES.trainee.name, SALTS.trainee) },
    by: {
      person: 'anna',
      nameHash: nameHash(GIVER.name, GIVER.salt),
      role: 'employer' as const,
    },
    bench: { id: 'bench-1', asset: 'AL-01' },
    work: ['rip' as const, 'crosscut' as const],
    from: '2026-03-03',
    until: '2027-03-02',
    supervised: 'as-usual' as const,
    largest: { thickness: 75, length: null },
    conditions: ['Softwood only.'],
    age: { rule: 'gb', answer: 'old-enough' as const },
    basis: [sampleId(40), sampleId(44)],
    ...change,
  };
  return { ...unsaid, meaning: authorisationMeaningOf(unsaid) };
}

const draft = (number: number, kind: string, rest: Partial<EventDraft>): EventDraft =>
  ({
    id: sampleId(number),
    kind,
    version: 1,
    org: 'org-1',
    at: '2026-03-03T10:00:00.000Z',
    by: 'anna',
    about: 'mira',
    ...rest,
  }) as EventDraft;

/** The sample log with a second sign-off, leave given on both, and a second person who agrees. */
export async function authorisationDrafts(device: SigningKey, change: Change = {}) {
  const { drafts } = await sampleDrafts(device);
  const second = sampleStatementNow({
    signoff: sampleId(44),
    unit: { id: 'crosscut', version: '2', title: 'Crosscut with gauge and stops' },
    work: 'crosscut',
  });
  return [
    ...drafts,
    draft(44, 'practical.signed', { by: 'ruth', body: await signStatement(second, device) }),
    draft(61, 'authorisation.given', { body: { statement: sampleAuthorisation(change) } }),
    draft(62, 'authorisation.seconded', {
      by: 'dev',
      body: { authorisation: sampleId(61), answer: 'agrees', note: null },
    }),
  ];
}

export type SampleLeave = {
  readonly file: AuthorisationProofFile;
  readonly issuer: string;
  readonly site: SigningKey;
};

/** Status lists that mark these places, of the same morning. */
export async function statusLists(
  site: SigningKey,
  marks: Partial<StandingMarks> = {},
): Promise<AuthorisationProofFile['status']> {
  const lists = (['revocation', 'suspension'] as const).map((purpose) =>
    buildStatusList(site, {
      list: 0,
      purpose,
      withdrawn: marks[purpose] ?? [],
      asOf: '2026-03-03T11:00:00.000Z',
      validUntil: '2026-04-03T11:00:00.000Z',
    }),
  );
  const [revocation, suspension] = await Promise.all(lists);
  if (revocation === undefined || suspension === undefined) throw new Error('no lists');
  return { revocation: [revocation], suspension: [suspension] };
}

/** A proof file of the sample authorisation. */
export async function sampleLeave(
  change: {
    readonly shown?: ShownLevel;
    readonly authorisation?: Change;
    readonly marks?: Partial<StandingMarks>;
    readonly input?: Partial<AuthorisationProofInput>;
  } = {},
): Promise<SampleLeave> {
  const [site, device] = await Promise.all([seedKey(1), seedKey(2)]);
  const log = keepLog(await authorisationDrafts(device, change.authorisation));
  let salts = 0;
  const input: AuthorisationProofInput = {
    authorisation: log.prove(LEAVE_AT),
    second: log.prove(9),
    basis: BASIS_AT.map((index) => ({ signoff: log.prove(index), enrolment: log.prove(3) })),
    checkpoint: await signCheckpoint(
      { origin: logOriginOf(site.keyId), size: log.entries.length, root: log.root },
      site,
    ),
    organisation: 'Alder Lane Joinery',
    shown: change.shown ?? 'all',
    names: { trainee: NAMES.trainee, giver: GIVER, trainers: [NAMES.trainer] },
    alignments: [{ name: 'WCA 2.1', url: 'https://standards.example/wca/2.1', code: '2.1.1' }],
    status: await statusLists(site, change.marks),
    issuedAt: '2026-03-03T11:00:00.000Z',
    salt: () => String(++salts).padStart(32, '0'),
    ...change.input,
  };
  return { file: await buildAuthorisationProof(input, site), issuer: didOf(site.keyId), site };
}
