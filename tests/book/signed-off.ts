import type { Site, Viewer } from '../../src/accounts/index.ts';
import { addDays, addMonths, type RegisteredBench, type Unit } from '../../src/competence/index.ts';
import { newId, type Signoff, type Statement, withMeaning } from '../../src/records/index.ts';
import { loadUnits } from '../../src/store/content-files.ts';

/** Everything that signs somebody off in full, entered in the log as a trainer's device would have. */
type SignOff = {
  readonly trainer: { readonly person: string; readonly nameHash: string };
  readonly who: { readonly person: string; readonly nameHash: string };
  readonly org: string;
  readonly bench: RegisteredBench;
  readonly work: Statement['work'];
  /** last day watched */
  readonly day: string;
  /** signs as a device would; left out, what stands there is shaped as a signature and no more */
  readonly sign?: (statement: Statement) => Promise<Signoff>;
};

const at = (day: string, hour = '09') => `${day}T${hour}:00:00.000Z`;

function statementOf(unit: Unit, of: SignOff, day: string): Statement {
  const { bench, org, trainer, who, work } = of;
  return withMeaning({
    schema: 'statement/1',
    signoff: newId(),
    org,
    who: { person: who.person, nameHash: who.nameHash },
    trainer: { person: trainer.person, nameHash: trainer.nameHash, role: 'trainer' },
    unit: { id: unit.id, version: String(unit.version), title: unit.title },
    bench: {
      id: bench.id,
      asset: bench.asset,
      class: 'hand-fed circular saw bench',
      guardKind: 'fixed',
    },
    work,
    material: 'Redwood, 50 mm, dry',
    blade: { diameter: 400, kerf: 4.2, plate: 2.8, teeth: 36 },
    observedAt: day,
    place: 'Machine shop',
    criteria: [{ id: 'seen', text: 'Seen and done right', result: 'yes' }],
    settings: [],
    limits: { set: bench.limits, version: '1' },
    conditions: [],
    decision: 'signed-off',
    validFrom: day,
    validUntil: addMonths(day, 36),
  }) as Statement;
}

/** Who reads a status does not check the signature; an audit and a proof do. */
const shapeSignoff = async (statement: Statement): Promise<Signoff> => ({
  signoff: statement.signoff,
  statement,
  keyId: 'key-1',
  deviceSignature: Buffer.alloc(64, 1).toString('base64url'),
});

/**
 * Signs every unit of one kind of work on two days, with three sessions of confirmed practice of two hours, so
 * that every rule of evidence is met. Returns the ids of the sign-offs.
 */
export async function signOffInFull(site: Site, of: SignOff): Promise<string[]> {
  const { bench, day, org, trainer, who, work } = of;
  const ids: string[] = [];
  for (const back of [3, 2, 1]) {
    const on = addDays(day, -back);
    const session = newId();
    const about = { org, about: who.person, version: 1 } as const;
    await site.store.append({
      ...about,
      id: session,
      kind: 'practice.noted',
      at: at(on, '12'),
      by: who.person,
      body: {
        session,
        bench: bench.id,
        work,
        supervisor: trainer.person,
        startedAt: at(on, '09'),
        endedAt: at(on, '11'),
        done: 'Ripped battens.',
      },
    });
    await site.store.append({
      ...about,
      id: newId(),
      kind: 'practice.confirmed',
      at: at(on, '13'),
      by: trainer.person,
      body: { session, answer: 'yes', note: null },
    });
  }
  const units = [...loadUnits('content').values()].filter((unit) => unit.work.includes(work));
  for (const on of [addDays(day, -1), day]) {
    for (const unit of units) {
      const statement = statementOf(unit, of, on);
      await site.store.append({
        id: statement.signoff,
        kind: 'practical.signed',
        version: 1,
        org,
        at: at(on, '14'),
        by: trainer.person,
        about: who.person,
        body: await (of.sign ?? shapeSignoff)(statement),
      });
      ids.push(statement.signoff);
    }
  }
  return ids;
}

/** Takes a sign-off back, as a trainer. */
export const withdraw = (site: Site, trainer: Viewer, who: string, signoff: string) =>
  site.store.append({
    id: newId(),
    kind: 'practical.withdrawn',
    version: 1,
    org: trainer.org,
    at: new Date().toISOString(),
    by: trainer.person,
    about: who,
    body: { signoff, reason: 'The guard was off.' },
  });
