import { z } from 'zod';
import {
  type AskedInstant,
  type Known,
  readInstant,
  STATE_FILTERS,
  type StateFilter,
} from '../../competence/index.ts';

/** What somebody asks the matrix for, as it stands in the address. */
export type MatrixAsked = {
  /** null: now */
  readonly on: AskedInstant | null;
  /** part of a name, or a whole opaque id */
  readonly person: string;
  readonly group: string;
  readonly bench: string;
  readonly work: string;
  readonly state: StateFilter | null;
  readonly known: Known;
  /** `short`: the word and the day; `reasons`: why, line by line; null: what fits the size of the shop */
  readonly view: 'short' | 'reasons' | null;
  /** counted from 1 */
  readonly page: number;
};

/** A field that cannot be read, and what was typed. */
export type FilterProblem = { readonly field: 'on' | 'time' | 'page'; readonly typed: string };

const word = z.string().trim().max(120).catch('');
const AskedSchema = z.object({
  on: word,
  time: word,
  person: word,
  group: word,
  bench: word,
  work: word,
  state: z.enum(STATE_FILTERS).nullable().catch(null),
  known: z.enum(['now', 'then']).catch('now'),
  view: z.enum(['short', 'reasons']).nullable().catch(null),
  page: z.coerce.number().int().min(1).max(100_000).catch(1),
});

/**
 * Reads the filters of an address. What no list offers narrows nothing; a day or time that is none is a
 * problem, because the answer to another day would look like the answer to this one.
 */
export function readAsked(params: URLSearchParams): {
  readonly asked: MatrixAsked;
  readonly problems: readonly FilterProblem[];
} {
  const raw = AskedSchema.parse(Object.fromEntries(params));
  const problems: FilterProblem[] = [];
  let on: AskedInstant | null = null;
  if (raw.on !== '') {
    const day = readInstant(raw.on);
    if (day === null) problems.push({ field: 'on', typed: raw.on });
    on = day;
    if (day?.day && raw.time !== '') {
      on = readInstant(`${day.day}T${raw.time}`);
      if (on === null) problems.push({ field: 'time', typed: raw.time });
    }
  } else if (raw.time !== '') problems.push({ field: 'on', typed: '' });
  const { time: _, on: __, ...rest } = raw;
  return { asked: { ...rest, on }, problems };
}

/** The same filters as an address query, in one order and without what narrows nothing. */
export function writeAsked(asked: MatrixAsked, over: Partial<MatrixAsked> = {}): string {
  const all = { ...asked, ...over };
  const params = new URLSearchParams();
  if (all.on !== null) params.set('on', all.on.day ?? all.on.instant.slice(0, 19));
  for (const field of ['person', 'group', 'bench', 'work'] as const) {
    if (all[field] !== '') params.set(field, all[field]);
  }
  if (all.state !== null) params.set('state', all.state);
  if (all.known === 'then') params.set('known', 'then');
  if (all.view !== null) params.set('view', all.view);
  if (all.page > 1) params.set('page', String(all.page));
  const text = params.toString();
  return text === '' ? '' : `?${text}`;
}
