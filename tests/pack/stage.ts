import { addDays, dayOf } from '../../src/competence/index.ts';
import { receivePractical } from '../../src/pages/_desk/receive-practical.ts';
import {
  authorisationMeaningOf,
  type EventDraft,
  newId,
  readEventDraft,
  type SigningKey,
  type Statement,
} from '../../src/records/index.ts';
import { loadUnits } from '../../src/store/content-files.ts';
import {
  enrolledKey,
  makeSheet,
  makeStatement,
  openStage,
  type Stage,
  signedRequest,
  ticketFor,
} from '../practical/workshop.ts';

/** The invented workshop with people really signed off, device keys and all, and leave given in writing. */
export type PackStage = Stage & {
  readonly org: string;
  readonly today: string;
  readonly enter: (kind: EventDraft['kind'], body: object, about: string, by: string, at?: string) => Promise<string>;
  /** signs somebody off in full for ripping on the first bench and gives them leave; returns its id */
  readonly authorise: (name: string) => Promise<string>;
};

const at = (day: string, hour: string) => `${day}T${hour}:00:00.000Z`;

async function signUnit(stage: Stage, name: string, unit: string, day: string, key: SigningKey) {
  const whole = loadUnits('content').get(unit);
  const blank = makeSheet(stage, { unit, person: stage.person(name).person, observedAt: day, validFrom: day });
  const hasSettings = (whole?.settings.length ?? 0) > 0;
  const sheet = { ...blank, readings: hasSettings ? blank.readings.filter(({ setting }) => whole?.settings.some(({ id }) => id === setting)) : [] };
  const statement = makeStatement(stage, sheet, 'Ruth Amsel');
  const ticket = await ticketFor(stage, 'Ruth Amsel', statement);
  const request = await signedRequest(statement, sheet, key, ticket, at(day, '14'));
  const done = await receivePractical(stage.as('Ruth Amsel'), request, stage.site);
  if (!done.ok) throw new Error(`${unit}: ${done.message}`);
  return statement;
}

export async function openPackStage(): Promise<PackStage> {
  const stage = await openStage();
  const { org } = stage.as('Ruth Amsel');
  const today = dayOf(new Date().toISOString());
  let key: SigningKey | null = null;

  const enter: PackStage['enter'] = async (kind, body, about, by, when = new Date().toISOString()) => {
    const statement = (body as { statement?: { id: string } }).statement;
    const id = statement?.id ?? (body as { session?: string }).session ?? newId();
    const draft = { id, kind, version: kind === 'bench.registered' ? 2 : 1, org, at: when, by: stage.person(by).person, about, body };
    const read = readEventDraft(draft);
    if (!read.ok) throw new Error(read.error.message);
    await stage.site.store.append(read.event);
    return id;
  };

  const authorise = async (name: string): Promise<string> => {
    key ??= await enrolledKey(stage, 'Ruth Amsel');
    const { nameHash, person } = stage.person(name);
    const trainer = stage.person('Ruth Amsel').person;
    for (const back of [4, 3, 2]) {
      const day = addDays(today, -back);
      const session = newId();
      await enter('practice.noted', { session, bench: stage.bench.id, work: 'rip', supervisor: trainer, startedAt: at(day, '08'), endedAt: at(day, '12'), done: 'Ripped battens.' }, person, name, at(day, '13'));
      await enter('practice.confirmed', { session, answer: 'yes', note: null }, person, 'Ruth Amsel', at(day, '15'));
    }
    const signed: Statement[] = [];
    const units = [...loadUnits('content').values()].filter(({ work }) => work.includes('rip'));
    for (const back of [2, 1]) {
      for (const { id } of units) signed.push(await signUnit(stage, name, id, addDays(today, -back), key));
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
      until: basis.map(({ validUntil }) => validUntil ?? today).sort()[0] ?? today,
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
