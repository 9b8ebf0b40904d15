import type { z } from 'zod';
import { localeOf } from '../../words/index.ts';
import type { Speaker } from '../../words/say.ts';
import type { Fact, FactFileSchema, Question } from './lesson-schema.ts';

type FactFile = z.infer<typeof FactFileSchema>;

/** Every published number by its id. @throws when an id is used twice */
export function joinFacts(files: readonly FactFile[]): ReadonlyMap<string, Fact> {
  const all = files.flatMap(({ facts }) =>
    Object.entries(facts).map(([id, fact]): Fact => ({ id, ...fact })),
  );
  const joined = new Map(all.map((fact) => [fact.id, fact]));
  if (joined.size !== all.length) throw new Error('A fact is given twice in content/facts.');
  return joined;
}

/** `35 %`, `33,400`, `18`. */
export function sayFactValue({ value, unit }: Fact, say: Speaker): string {
  const number =
    typeof value === 'number'
      ? new Intl.NumberFormat(localeOf(say.language), {
          // a year or a small count takes no mark between its thousands
          useGrouping: Math.abs(value) >= 10_000,
        }).format(value)
      : value;
  return unit === undefined ? number : `${number} ${unit}`;
}

/** Where a fact is from: `HSE WIS16 rev 1, 2011 (read in the text itself)`. */
export function sayFactSource({ source }: Fact, say: Speaker): string {
  const { title, clause, year, seen } = source;
  const how = say(`names.seen.${seen}`);
  if (seen === 'practice') return how;
  const where = [title, clause, year].filter((part) => part !== undefined && part !== '');
  return `${where.join(', ')} (${how})`;
}

/** Ids of the facts a lesson's text and its questions name, in the order a reader meets them. */
export function factsIn(body: string, questions: readonly Question[]): string[] {
  const named = [
    ...body.matchAll(/<Fact\s[^>]*\bid="([^"]+)"/g),
    ...JSON.stringify(questions).matchAll(/\{fact:\s*([a-z0-9-]+)\s*\}/g),
  ];
  return [...new Set(named.map(([, id]) => id as string))];
}
