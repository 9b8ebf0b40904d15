import { createPrivateKey } from 'node:crypto';
import {
  addProof,
  appendLeaf,
  type Bytes,
  buildProof,
  buildStatusList,
  canonicalBytes,
  didOf,
  EMPTY_EDGE,
  type EventDraft,
  type EventOf,
  edgeRoot,
  idAt,
  importSigningKey,
  inclusionPath,
  type JsonObject,
  type LogEntry,
  type LogEvent,
  logOriginOf,
  nameHash,
  nodeHash,
  PROOF_FORMAT,
  type ProofFile,
  type ProofInput,
  publicJwkOf,
  readEvent,
  type SigningKey,
  type Statement,
  type StatementNow,
  signBytes,
  signCheckpoint,
  signStatement,
  toBase64,
  toBase64Url,
  toLogEntry,
  withMeaning,
} from '../../src/records/index.ts';
import { credentialOf } from '../../src/records/proof/credential.ts';

/** The key of a seed of one repeated byte: the same in every run. */
export function seedKey(byte: number): Promise<SigningKey> {
  const prefix = Buffer.from('302e020100300506032b657004220420', 'hex');
  const der = Buffer.concat([prefix, Buffer.alloc(32, byte)]);
  const jwk = createPrivateKey({ key: der, format: 'der', type: 'pkcs8' }).export({
    format: 'jwk',
  });
  return importSigningKey({ kty: 'OKP', crv: 'Ed25519', x: jwk.x as string, d: jwk.d as string });
}

export const SALTS = { trainee: '0'.repeat(31).concat('1'), trainer: '0'.repeat(31).concat('2') };
export const NAMES = {
  trainee: { name: 'Mira Holt', salt: SALTS.trainee },
  trainer: { name: 'Ruth Amsel', salt: SALTS.trainer },
};

/** An id that is the same in every run. */
export const sampleId = (number: number): string =>
  idAt(Date.parse('2026-03-03T10:00:00.000Z') + number, new Uint8Array(10).fill(number));

type FirstStatement = Extract<Statement, { schema: 'statement/1' }>;

/** The same in the form written today. */
export const sampleStatementNow = (change: Partial<StatementNow> = {}): StatementNow => {
  const { meaning: _, ...first } = sampleStatement();
  return withMeaning({
    ...first,
    schema: 'statement/2',
    practical: sampleId(41),
    photos: [{ digest: 'ab'.repeat(32), criterion: 'stick' }],
    acknowledged: { answer: 'agrees', words: null },
    confirmed: 'device',
    ...change,
  });
};

/** A sign-off of Mira Holt by Ruth Amsel for ripping on Bench 1. */
export const sampleStatement = (change: Partial<FirstStatement> = {}): FirstStatement =>
  withMeaning({
    schema: 'statement/1',
    signoff: sampleId(40),
    org: 'org-1',
    who: { person: 'mira', nameHash: nameHash(NAMES.trainee.name, NAMES.trainee.salt) },
    trainer: {
      person: 'ruth',
      nameHash: nameHash(NAMES.trainer.name, NAMES.trainer.salt),
      role: 'trainer',
    },
    unit: { id: 'rip', version: '1', title: 'Rip, with push stick and take-off' },
    bench: {
      id: 'bench-1',
      asset: 'AL-01',
      class: 'hand-fed circular saw bench',
      guardKind: 'fixed',
    },
    work: 'rip',
    material: 'redwood, 50 mm',
    blade: { diameter: 400, kerf: 4.2, plate: 2.8, teeth: 36 },
    observedAt: '2026-03-03',
    place: 'Alder Lane, machine shop',
    criteria: [
      { id: 'stick', text: 'Takes up the push stick for the last 300 mm.', result: 'yes' },
      {
        id: 'stance',
        text: 'Stands clear of the line of the blade.',
        result: 'yes',
        note: 'Café, 50 µm, 木',
      },
    ],
    settings: [
      {
        measure: 'knife.gapAtTable',
        value: 5.5,
        unit: 'mm',
        instrument: 'feeler gauge',
        uncertainty: 0.05,
        limit: 'gb.knife.gap',
        verdict: 'within',
        margin: 2.5,
        source: 'HSE, circular saw bench page',
      },
    ],
    limits: { set: 'gb', version: '1' },
    conditions: ['Softwood up to 75 mm thick.'],
    decision: 'signed-off',
    validFrom: '2026-03-03',
    validUntil: '2027-03-02',
    ...change,
  });

const draft = (number: number, kind: string, rest: Partial<EventDraft>): EventDraft =>
  ({
    id: sampleId(number),
    kind,
    version: 1,
    org: 'org-1',
    at: '2026-03-03T10:00:00.000Z',
    by: 'ruth',
    about: null,
    ...rest,
  }) as EventDraft;

/** A log kept in memory, with what a store gives out. */
export function keepLog(drafts: readonly EventDraft[]) {
  const entries: LogEntry[] = [];
  const nodes = new Map<string, Bytes>();
  let edge = EMPTY_EDGE;
  for (const one of drafts) {
    const read = readEvent({ ...one, received: '2026-03-03T10:00:05.000Z' });
    if (!read.ok) throw new Error(read.error.message);
    const entry = toLogEntry(read.event as LogEvent, entries.length);
    entries.push(entry);
    const step = appendLeaf(edge, entry.leafHash);
    edge = step.edge;
    for (const node of step.made) nodes.set(`${node.level}/${node.index}`, node.hash);
  }
  const lookup = ({ index, level }: { index: number; level: number }) =>
    nodes.get(`${level}/${index}`) as Bytes;
  const prove = (index: number) => ({
    entry: entries[index] as LogEntry,
    path: inclusionPath(index, entries.length, lookup),
  });
  return { entries, prove, edge, root: edgeRoot(edge) };
}

/** A small log: two people, a key enrolled, filler, and the sign-off at `signoffIndex`. */
export async function sampleDrafts(device: SigningKey, statement: Statement = sampleStatement()) {
  const body = await signStatement(statement, device);
  const drafts: EventDraft[] = [
    draft(1, 'organisation.created', {
      about: 'org-1',
      body: { nameHash: nameHash('Alder Lane Joinery', SALTS.trainer) },
    }),
    draft(2, 'person.joined', {
      about: 'ruth',
      body: { role: 'trainer', nameHash: statement.trainer.nameHash },
    }),
    draft(3, 'person.joined', {
      about: 'mira',
      body: { role: 'trainee', nameHash: statement.who.nameHash },
    }),
    draft(4, 'device-key.enrolled', {
      about: 'ruth',
      body: { keyId: device.keyId, publicKey: publicJwkOf(device.publicKey), label: 'tablet' },
    }),
    draft(5, 'invitation.made', { body: { invitation: 'inv-1', role: 'trainee' } }),
    draft(40, 'practical.signed', { about: 'mira', body }),
    draft(7, 'invitation.used', { about: 'mira', by: 'mira', body: { invitation: 'inv-1' } }),
  ];
  return { drafts, enrolmentIndex: 3, signoffIndex: 5 };
}

export type SampleProof = {
  readonly file: ProofFile;
  readonly issuer: string;
  readonly site: SigningKey;
  readonly device: SigningKey;
};

/** A proof file of the sample sign-off, with a status list of the same morning. */
export async function sampleProof(
  change: {
    readonly statement?: Statement;
    readonly input?: Partial<ProofInput>;
    readonly withdrawn?: readonly number[];
  } = {},
): Promise<SampleProof> {
  const [site, device] = await Promise.all([seedKey(1), seedKey(2)]);
  const { drafts, enrolmentIndex, signoffIndex } = await sampleDrafts(device, change.statement);
  const log = keepLog(drafts);
  const checkpoint = await signCheckpoint(
    { origin: logOriginOf(site.keyId), size: log.entries.length, root: log.root },
    site,
  );
  const status = await buildStatusList(site, {
    list: 0,
    withdrawn: change.withdrawn ?? [],
    asOf: '2026-03-03T11:00:00.000Z',
    validUntil: '2026-04-03T11:00:00.000Z',
  });
  const input: ProofInput = {
    signoff: log.prove(signoffIndex),
    enrolment: log.prove(enrolmentIndex),
    checkpoint,
    organisation: 'Alder Lane Joinery',
    names: NAMES,
    alignments: [
      { name: 'Use a circular saw bench', code: 'X1', url: 'https://standards.example/x1' },
    ],
    status,
    issuedAt: '2026-03-03T11:00:00.000Z',
    ...change.input,
  };
  return { file: await buildProof(input, site), issuer: didOf(site.keyId), site, device };
}

type Lie = {
  readonly statement?: object;
  readonly event?: object;
  readonly enrolment?: object;
  readonly credential?: object;
  readonly order?: 'enrolled-after';
};

/**
 * A proof file in which every hash and signature is good, whatever it says: the device signs, the
 * log takes and the site certifies without looking.
 */
export async function forgeProof(lie: Lie = {}): Promise<JsonObject> {
  const [site, device] = await Promise.all([seedKey(1), seedKey(2)]);
  const issuer = didOf(site.keyId);
  const { drafts } = await sampleDrafts(device);
  const received = '2026-03-03T10:00:05.000Z';
  const statement = { ...sampleStatement(), ...lie.statement } as Statement;
  const body = {
    signoff: statement.signoff,
    statement,
    keyId: device.keyId,
    deviceSignature: toBase64Url(await signBytes(device, canonicalBytes(statement))),
  };
  const event = { ...drafts[5], body, received, ...lie.event } as LogEvent;
  const enrolment = { ...drafts[3], received, ...lie.enrolment } as LogEvent;
  const late = lie.order === 'enrolled-after';
  const events = late ? [event, enrolment] : [enrolment, event];
  const [first, second] = events.map((one) => toLogEntry(one, 0).leafHash) as [Bytes, Bytes];
  const places = [
    { index: 0, path: [toBase64(second)] },
    { index: 1, path: [toBase64(first)] },
  ];
  const [eventPlace, enrolmentPlace] = late ? places : places.reverse();
  const unsigned = credentialOf({
    event: { ...event, body } as EventOf<'practical.signed'>,
    logged: event,
    index: late ? 0 : 1,
    keyId: site.keyId,
    organisation: 'Alder Lane Joinery',
    alignments: [],
  });
  const checkpoint = { origin: logOriginOf(site.keyId), size: 2, root: nodeHash(first, second) };
  return {
    format: PROOF_FORMAT,
    credential: await addProof({ ...unsigned, ...lie.credential }, site, {
      created: '2026-03-03T11:00:00.000Z',
      issuer,
    }),
    event,
    enrolment,
    log: {
      checkpoint: await signCheckpoint(checkpoint, site),
      event: eventPlace,
      enrolment: enrolmentPlace,
    },
    names: {},
    status: await buildStatusList(site, {
      list: 0,
      withdrawn: [],
      asOf: '2026-03-03T11:00:00.000Z',
      validUntil: '2026-04-03T11:00:00.000Z',
    }),
  };
}
