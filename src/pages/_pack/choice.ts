import { z } from 'zod';
import { type Day, dayOf } from '../../competence/index.ts';
import type { Workshop } from '../_desk/workshop.ts';
import type { Paper } from './blocks/block.ts';

/** People in one pack. Every record of each is proved one by one, and a pack must be made while somebody waits. */
export const MOST_PEOPLE = 100;

/** What a pack is about. */
export type PackScope = {
  /** opaque ids; none is everybody */
  readonly people: readonly string[];
  /** id of a bench; null for all of them */
  readonly bench: string | null;
};

export type PackChoice = PackScope & {
  readonly asOf: Day;
  readonly language: 'en' | 'de';
  readonly paper: Paper;
  readonly photos: 'left-out' | 'shown';
  /** the checkpoint of an earlier pack, as it was pasted; empty for none */
  readonly earlier: string;
};

/** Each message is the end of a key of the sheet `pack`. */
const ScopeSchema = z.object({
  whom: z.enum(['everyone', 'chosen'], { error: 'bad.whom' }),
  bench: z.string({ error: 'bad.bench' }).max(64, { error: 'bad.bench' }),
});
const ChoiceSchema = z.object({
  day: z.iso.date({ error: 'bad.day' }),
  language: z.enum(['en', 'de'], { error: 'bad.language' }),
  paper: z.enum(['a4', 'letter'], { error: 'bad.paper' }),
  photos: z.enum(['left-out', 'shown'], { error: 'bad.photos' }).default('left-out'),
  earlier: z
    .string({ error: 'bad.earlier.malformed' })
    .max(65_536, { error: 'bad.earlier.malformed' })
    .default(''),
});

/** A field of the form and the key, in the sheet `pack`, of what is wrong with it. */
export type ChoiceFault = { readonly field: string; readonly key: string };
export type ReadChoice<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly fault: ChoiceFault };

const fault = (field: string, key: string) => ({ ok: false, fault: { field, key } }) as const;

const firstFault = ({ issues: [issue] }: z.ZodError) =>
  fault(String(issue?.path[0] ?? ''), issue?.message ?? '');

type Form = Readonly<Record<string, string>>;

/** Whom a pack can be about: everybody but employers, who run no machine. */
export const peopleToChoose = ({ people }: Pick<Workshop, 'people'>) =>
  people.filter(({ role }) => role !== 'employer');

/** Whom and which bench a form chooses. People are ticked in fields of their own, `person-` and the id. */
export function readScope(form: Form, workshop: Workshop): ReadChoice<PackScope> {
  const read = ScopeSchema.safeParse(form);
  if (!read.success) return firstFault(read.error);
  const { bench, whom } = read.data;
  if (bench !== '' && !workshop.benches.some(({ id }) => id === bench)) {
    return fault('bench', 'bad.bench');
  }
  const all = peopleToChoose(workshop).map(({ person }) => person);
  const people = whom === 'everyone' ? [] : all.filter((id) => `person-${id}` in form);
  if (whom === 'chosen' && people.length === 0) return fault('whom', 'bad.nobody');
  if ((whom === 'everyone' ? all : people).length > MOST_PEOPLE) {
    return fault('whom', 'bad.too-many');
  }
  return { ok: true, value: { people, bench: bench === '' ? null : bench } };
}

/** What a whole form chooses. The day may be any up to today. */
export function readChoice(form: Form, workshop: Workshop, now: string): ReadChoice<PackChoice> {
  const scope = readScope(form, workshop);
  if (!scope.ok) return scope;
  const read = ChoiceSchema.safeParse(form);
  if (!read.success) return firstFault(read.error);
  const { day, ...rest } = read.data;
  if (day > dayOf(now)) return fault('day', 'bad.day-to-come');
  return { ok: true, value: { ...scope.value, ...rest, asOf: day } };
}
