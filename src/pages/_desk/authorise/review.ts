import { can, type Person, personOf, type Site, type Viewer } from '../../../accounts/index.ts';
import { addMonths, dayOf } from '../../../competence/index.ts';
import { statementHashOf } from '../../../panels/signing/index.ts';
import { type Authorisation, authorisationMeaningOf } from '../../../records/index.ts';
import type { Done } from '../refused.ts';
import { type Workshop, workshopOf } from '../workshop.ts';
import { type AgeQuestion, ageQuestionOf } from './ages.ts';
import { type AuthorisationFields, AuthorisationFormSchema } from './form.ts';
import { markLog } from './log-mark.ts';
import { lastDayFor, offersFor } from './offers.ts';
import { type AuthorisationWord, refusedHere } from './words.ts';

/** How far ahead an authorisation may begin, months. */
export const FARTHEST_START = 12;

/** The whole text somebody signs to, as the site writes it from the form. */
export type ReviewedAuthorisation = {
  readonly statement: Authorisation;
  readonly hash: string;
  readonly workshop: Workshop;
  readonly age: AgeQuestion;
  /** where the log stood when this was written */
  readonly mark: number;
};

const notAllowed = (viewer: Viewer, person: string): AuthorisationWord => {
  if (viewer.role === 'trainee') return 'authorisation.not.trainee';
  return viewer.person === person ? 'authorisation.not.self' : 'authorisation.bad.person';
};

/** An authorisation of this person, this bench and some of this work that still stands in these days. */
function standsAlready(workshop: Workshop, fields: AuthorisationFields): string | null {
  const ended = new Set<string>();
  for (const { kind, body } of workshop.events) {
    if (kind === 'authorisation.ended' && 'authorisation' in body) {
      ended.add(String(body.authorisation));
    }
  }
  for (const event of workshop.events) {
    if (event.kind !== 'authorisation.given' || event.altered === true) continue;
    if (ended.has(event.id) || event.id === fields.id) continue;
    const { statement } = event.body as { statement: Authorisation };
    const isSame = statement.who.person === fields.person && statement.bench.id === fields.bench;
    const overlaps = statement.from <= fields.until && fields.from <= statement.until;
    const work = statement.work.find((one) => fields.work.includes(one));
    if (isSame && overlaps && work !== undefined) return work;
  }
  return null;
}

type Parts = {
  readonly fields: AuthorisationFields;
  readonly workshop: Workshop;
  readonly who: Person;
  readonly giver: Person;
  readonly at: string;
};

function checkWork({ fields, workshop, who, at }: Parts): Done<string[]> {
  const bench = workshop.benches.find(({ id }) => id === fields.bench);
  if (bench === undefined) return refusedHere(422, 'bench', 'authorisation.bad.bench');
  const offers = offersFor(workshop, { person: who.person, bench: bench.id, at });
  const chosen = offers.filter(({ work }) => fields.work.includes(work));
  const missing = fields.work.find((work) => !chosen.some((one) => one.work === work));
  if (missing !== undefined) {
    return refusedHere(422, 'work', 'authorisation.bad.work-here', { asset: bench.asset });
  }
  const unready = chosen.find(({ offered }) => !offered);
  if (unready !== undefined) {
    return refusedHere(422, 'work', 'authorisation.bad.not-signed', {
      name: who.name,
      work: unready.work,
      asset: bench.asset,
    });
  }
  const today = dayOf(at);
  const latest = addMonths(today, FARTHEST_START);
  if (fields.from < today || fields.from > latest) {
    return refusedHere(422, 'from', 'authorisation.bad.from-range', { today, latest });
  }
  const last = lastDayFor(workshop, chosen, { from: fields.from, at });
  if (fields.until < fields.from || fields.until > last.day) {
    return refusedHere(422, 'until', `authorisation.bad.until.${last.by}`, {
      from: fields.from,
      last: last.day,
      months: last.months,
    });
  }
  const stands = standsAlready(workshop, fields);
  if (stands !== null) {
    return refusedHere(409, 'work', 'authorisation.stands', {
      name: who.name,
      work: stands,
      asset: bench.asset,
    });
  }
  const basis = chosen.flatMap(({ status }) => status.because.map(({ signoff }) => signoff));
  return { ok: true, value: [...new Set(basis.filter((one) => one !== null))].sort() };
}

function checkAge(fields: AuthorisationFields, question: AgeQuestion, name: string): Done<null> {
  const { age } = fields;
  if (age === 'too-young' || !question.answers.includes(age)) {
    return refusedHere(422, 'age', 'authorisation.bad.too-young', { name });
  }
  if (age === 'young-under-supervision' && fields.supervised !== 'always') {
    return refusedHere(422, 'supervised', 'authorisation.bad.young');
  }
  return { ok: true, value: null };
}

function write(
  { fields, who, giver, workshop }: Parts,
  { org, basis, rule }: { org: string; basis: string[]; rule: string },
): Authorisation {
  const bench = workshop.benches.find(({ id }) => id === fields.bench);
  const said: Omit<Authorisation, 'meaning'> = {
    schema: 'authorisation/1',
    id: fields.id,
    org,
    who: { person: who.person, nameHash: who.nameHash },
    by: {
      person: giver.person,
      nameHash: giver.nameHash,
      role: giver.role === 'employer' ? 'employer' : 'trainer',
    },
    bench: { id: fields.bench, asset: bench?.asset ?? '' },
    work: fields.work,
    from: fields.from,
    until: fields.until,
    supervised: fields.supervised,
    largest: { thickness: fields.thickness, length: fields.length },
    conditions: fields.conditions,
    age: {
      rule,
      answer: fields.age === 'old-enough' ? 'old-enough' : 'young-under-supervision',
    },
    basis,
  };
  return { ...said, meaning: authorisationMeaningOf(said) };
}

/**
 * Writes the authorisation a form asks for, after every rule: rights, who, what is signed off, the days, the
 * age, and what stands already. Enters nothing.
 */
export async function reviewAuthorisation(
  viewer: Viewer | null,
  input: unknown,
  site: Site,
  now: Date = new Date(),
): Promise<Done<ReviewedAuthorisation>> {
  if (viewer === null) return refusedHere(401, '', 'authorisation.signed-out');
  const person = (input as { person?: unknown } | null)?.person;
  const named = typeof person === 'string' ? person : '';
  if (!can(viewer, 'authorisation.give', { org: viewer.org, person: named })) {
    return refusedHere(403, 'person', notAllowed(viewer, named));
  }
  const read = AuthorisationFormSchema.safeParse(input);
  if (!read.success) {
    const [issue] = read.error.issues;
    const key = `authorisation.${issue?.message ?? ''}` as AuthorisationWord;
    return refusedHere(400, String(issue?.path[0] ?? ''), key);
  }
  const fields = read.data;
  const mark = await markLog(viewer.org, [fields.person, fields.bench], site.store);
  const workshop = await workshopOf(viewer.org, site, { people: [fields.person] });
  const who = await personOf(viewer.org, fields.person, site);
  const giver = await personOf(viewer.org, viewer.person, site);
  if (who === null || who.role === 'employer' || giver === null) {
    return refusedHere(422, 'person', 'authorisation.bad.person');
  }
  const parts: Parts = { fields, workshop, who, giver, at: now.toISOString() };
  const basis = checkWork(parts);
  if (!basis.ok) return basis;
  const set = workshop.benches.find(({ id }) => id === fields.bench)?.limits ?? '';
  const age = ageQuestionOf(set, site);
  const aged = checkAge(fields, age, who.name);
  if (!aged.ok) return aged;
  const statement = write(parts, { org: viewer.org, basis: basis.value, rule: age.rule });
  return {
    ok: true,
    value: { statement, hash: statementHashOf(statement), workshop, age, mark },
  };
}
