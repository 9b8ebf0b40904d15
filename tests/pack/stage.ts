import { addDays, dayOf } from '../../src/competence/index.ts';
import {
  authorisationMeaningOf,
  type EventDraft,
  newId,
  readEventDraft,
  type SigningKey,
  type Statement,
  signStatement,
} from '../../src/records/index.ts';
import { loadUnits } from '../../src/store/content-files.ts';
import {
  enrolledKey,
  makeSheet,
  makeStatement,
  openStage,
  type Stage,
} from '../practical/workshop.ts';

/** The invented workshop with people really signed off, device keys and all, and leave given in writing. */
export type PackStage = Stage & {
  readonly org: string;
  readonly today: string;
  readonly enter: (
    kind: EventDraft['kind'],
    body: object,
    about: string,
    by: string,
    at?: string,
  ) => Promise<string>;
  /**
   * signs somebody off in full for ripping on the first bench and gives them leave until a day, or as long as
   * the sign-offs stand; returns its id
   */
  readonly authorise: (name: string, until?: string) => Promise<string>;
};

const at = (day: string, hour: string) => `${day}T${hour}:00:00.000Z`;

function unitSheet(stage: Stage, name: string, unit: string, day: string) {
  const whole = loadUnits('content').get(unit);
  const { person } = stage.person(name);
  const blank = makeSheet(stage, { unit, person, observedAt: day, validFrom: day });
  const asked = new Set(whole?.settings.map(({ id }) => id));
  return { ...blank, readings: blank.readings.filter(({ setting }) => asked.has(setting)) };
}

/** On a store of its own, which goes with it, or on the one it is given. */
export async function openPackStage(...on: Parameters<typeof openStage>): Promise<PackStage> {
  const stage = await openStage(...on);
  const { org } = stage.as('Ruth Amsel');
  const today = dayOf(new Date().toISOString());
  let key: SigningKey | null = null;

  const enter: PackStage['enter'] = async (
    kind,
    body,
    about,
    by,
    when = new Date().toISOString(),
  ) => {
    const statement = (body as { statement?: { id: string } }).statement;
    const signed =
      (body as { signoff?: string; keyId?: string }).keyId === undefined
        ? undefined
        : (body as { signoff?: string }).signoff;
    const noted = kind === 'practice.noted' ? (body as { session?: string }).session : undefined;
    const id = signed ?? noted ?? statement?.id ?? newId();
    const draft = {
      id,
      kind,
      version: kind === 'bench.registered' ? 2 : 1,
      org,
      at: when,
      by: stage.person(by).person,
      about,
      body,
    };
    const read = readEventDraft(draft);
    if (!read.ok) throw new Error(read.error.message);
    await stage.site.store.append(read.event);
    return id;
  };

  const authorise = async (name: string, until?: string): Promise<string> => {
    key ??= await enrolledKey(stage, 'Ruth Amsel');
    const { nameHash, person } = stage.person(name);
    const trainer = stage.person('Ruth Amsel').person;
    for (const back of [4, 3, 2]) {
      const day = addDays(today, -back);
      const session = newId();
      await enter(
        'practice.noted',
        {
          session,
          bench: stage.bench.id,
          work: 'rip',
          supervisor: trainer,
          startedAt: at(day, '08'),
          endedAt: at(day, '12'),
          done: 'Ripped battens.',
        },
        person,
        name,
        at(day, '13'),
      );
      await enter(
        'practice.confirmed',
        { session, answer: 'yes', note: null },
        person,
        'Ruth Amsel',
        at(day, '15'),
      );
    }
    const signed: Statement[] = [];
    const units = [...loadUnits('content').values()].filter(({ work }) => work.includes('rip'));
    for (const back of [2, 1]) {
      const day = addDays(today, -back);
      for (const { id } of units) {
        const one = makeStatement(stage, unitSheet(stage, name, id, day), 'Ruth Amsel');
        const body = { ...(await signStatement(one, key)) };
        await enter('practical.signed', body, person, 'Ruth Amsel', at(day, '14'));
        signed.push(one);
      }
    }
    const basis = signed.slice(units.length);
    const anna = stage.person('Anna Weir');
    const unsaid = {
      schema: 'authorisation/1' as const,
      id: newId(),
      org,
      who: { person, nameHash },
      by: { person: anna.person, nameHash: anna.nameHash, role: 'employer' as const },
      bench: { id: stage.bench.id, asset: stage.bench.asset },
      work: ['rip' as const],
      from: today,
      until: until ?? basis.map(({ validUntil }) => validUntil ?? today).sort()[0] ?? today,
      supervised: 'as-usual' as const,
      largest: { thickness: 75, length: null },
      conditions: ['Softwood only.'],
      age: { rule: 'gb', answer: 'old-enough' as const },
      basis: basis.map(({ signoff }) => signoff),
    };
    const statement = { ...unsaid, meaning: authorisationMeaningOf(unsaid) };
    return enter('authorisation.given', { statement }, person, 'Anna Weir');
  };
  return { ...stage, org, today, enter, authorise };
}
