import {
  fillDemoWorkshop,
  type Person,
  peopleOf,
  type Site,
  type Viewer,
} from '../../src/accounts/index.ts';
import {
  dayOf,
  lastDayAllowed,
  registerOf,
  type Sheet,
  settleReadings,
  unitToWatch,
} from '../../src/competence/index.ts';
import { writeStatement } from '../../src/competence/sheet/index.ts';
import { confirmSigner } from '../../src/pages/_desk/confirm-signer.ts';
import { enrolKey } from '../../src/pages/_desk/enrol-key.ts';
import { enrolmentHash, statementHashOf } from '../../src/panels/signing/index.ts';
import {
  generateSigningKey,
  newId,
  publicJwkOf,
  type SigningKey,
  type Statement,
  signStatement,
  withMeaning,
} from '../../src/records/index.ts';
import { loadLimitSets, loadUnits } from '../../src/store/content-files.ts';
import { makeTempSite, type TempSite } from '../accounts/temp-site.ts';
import { askByDefault } from '../helpers/asked-by-default.ts';

export const PASSWORD = 'push stick within reach';

/** The invented workshop in a store of its own, with everybody in it as a viewer. */
export type Stage = {
  readonly site: Site;
  readonly dataDir: string;
  readonly tamper: TempSite['tamper'];
  readonly as: (name: string) => Viewer;
  readonly person: (name: string) => Person;
  readonly bench: ReturnType<typeof registerOf>[number];
  readonly close: () => Promise<void>;
};

/** On a store of its own, which goes with it, or on the one it is given. */
export async function openStage(on?: Omit<TempSite, 'database' | 'holds'>): Promise<Stage> {
  const { site, dataDir, tamper, remove } = on ?? (await makeTempSite());
  const filled = await fillDemoWorkshop(site, PASSWORD);
  if (!filled.ok) throw new Error(filled.refusal.message);
  const org = (
    await site.store.db.selectFrom('organisation').select('id').executeTakeFirstOrThrow()
  ).id;
  const people = await peopleOf(org, site);
  const person = (name: string) => {
    const found = people.find((one) => one.name === name);
    if (found === undefined) throw new Error(`nobody is called ${name}`);
    return found;
  };
  const emails = new Map(filled.value.map(({ name, email }) => [name, email]));
  const stored = await site.store.events({ org, kinds: ['bench.registered'] });
  const bench = registerOf(stored.flatMap(({ event }) => (event === null ? [] : [event])))[0];
  if (bench === undefined) throw new Error('no bench is registered');
  // from here on the workshop asks the database, as its people do on a page
  askByDefault({ org });
  return {
    site,
    dataDir,
    tamper,
    person,
    bench,
    as: (name) => ({
      person: person(name).person,
      org,
      name,
      email: emails.get(name) ?? '',
      role: person(name).role,
      signedInAt: new Date().toISOString(),
    }),
    close: remove,
  };
}

/** A sheet for unit 3 on the first bench, everything seen and set right, for ripping. */
export function makeSheet(stage: Stage, over: Partial<Sheet> = {}): Sheet {
  const today = dayOf(new Date().toISOString());
  const { unit } = partsOf(stage, over.unit ?? 'set-knife-and-guard');
  return {
    person: stage.person('Mira Holt').person,
    bench: stage.bench.id,
    work: 'rip',
    unit: unit.id,
    observedAt: today,
    place: 'Machine shop',
    material: 'Redwood, 50 mm, dry',
    blade: { diameter: 400, kerf: 4.2, plate: 2.8, teeth: 36 },
    criteria: unit.criteria.map(({ id }) => ({ id, result: 'yes' as const })),
    readings: [
      { setting: 'gap-at-table', value: 5, unit: 'mm', instrument: 'feeler' },
      { setting: 'gap-widest', value: 6, unit: 'mm', instrument: 'feeler' },
      { setting: 'tip-drop', value: 2, unit: 'mm', instrument: 'square' },
      { setting: 'knife-thickness', value: 3.2, unit: 'mm', instrument: 'calliper' },
      { setting: 'guard-to-stock', value: 8, unit: 'mm', instrument: 'feeler' },
    ],
    stops: [],
    conditions: ['Softwood up to 50 mm'],
    decision: 'signed-off',
    validFrom: today,
    validUntil: lastDayAllowed(today),
    ...over,
  };
}

export function partsOf(stage: Stage, unitId: string) {
  const sets = loadLimitSets('content');
  const set = sets.get(stage.bench.limits);
  const practice = sets.get('practice');
  const whole = loadUnits('content').get(unitId);
  if (set === undefined || practice === undefined || whole === undefined) {
    throw new Error('the content files are not all there');
  }
  return { set, practice, unit: unitToWatch(whole, 'rip', [set, practice]) };
}

/** The statement a trainer's device writes from a sheet. */
export function makeStatement(stage: Stage, sheet: Sheet, trainer: string): Statement {
  const { set, practice, unit } = partsOf(stage, sheet.unit);
  const settled = settleReadings(sheet, unit, { bench: stage.bench.file, set, practice });
  const signer = stage.person(trainer);
  const who = [...['Mira Holt', 'Tom Okafor', 'Ruth Amsel', 'Dev Pradhan']]
    .map(stage.person)
    .find(({ person }) => person === sheet.person);
  if (who === undefined) throw new Error('nobody to watch');
  return withMeaning(
    writeStatement(sheet, settled, unit, {
      signoff: newId(),
      org: stage.as(trainer).org,
      who: { person: who.person, nameHash: who.nameHash },
      trainer: { person: signer.person, nameHash: signer.nameHash },
      bench: {
        id: stage.bench.id,
        asset: stage.bench.asset,
        guardKind: stage.bench.file.guard?.kind ?? 'none',
      },
      limits: { set: set.id, version: String(set.version) },
    }),
  );
}

export async function ticketFor(stage: Stage, trainer: string, statement: Statement) {
  const confirmed = await confirmSigner(
    stage.as(trainer),
    { password: PASSWORD, statement: statementHashOf(statement), key: null },
    null,
    stage.site,
  );
  if (!confirmed.ok) throw new Error(confirmed.message);
  return confirmed.value.ticket;
}

/** A device key enrolled to this trainer. */
export async function enrolledKey(stage: Stage, trainer: string): Promise<SigningKey> {
  const key = await generateSigningKey({ keep: 'on-device' });
  const hash = enrolmentHash(key.keyId);
  const confirmed = await confirmSigner(
    stage.as(trainer),
    { password: PASSWORD, statement: '0'.repeat(64), key: hash },
    null,
    stage.site,
  );
  if (!confirmed.ok) throw new Error(confirmed.message);
  const enrolled = await enrolKey(
    stage.as(trainer),
    {
      keyId: key.keyId,
      publicKey: publicJwkOf(key.publicKey),
      label: 'tablet',
      ticket: confirmed.value.enrolTicket,
    },
    stage.site,
  );
  if (!enrolled.ok) throw new Error(enrolled.message);
  return key;
}

/** The request a device sends once it has signed. */
export async function signedRequest(
  statement: Statement,
  sheet: Sheet,
  key: SigningKey,
  ticket: string,
  at = new Date().toISOString(),
) {
  return {
    event: {
      id: statement.signoff,
      kind: 'practical.signed',
      version: 1,
      org: statement.org,
      at,
      by: statement.trainer.person,
      about: statement.who.person,
      body: { ...(await signStatement(statement, key)) },
    },
    sheet,
    ticket,
  };
}
