import { addDays, type Day, dayOf, type Instant } from '../dates.ts';
import { countsFrom, receivedAt, timeOf } from '../log/instants.ts';
import type { LogEvent } from '../log/log-event.ts';
import { type RegisteredBench, registerOf } from '../register.ts';
import type { Known, MatrixCell } from './cell.ts';

/** As much of a cell as is counted. */
export type CountedCell = Pick<MatrixCell, 'bench' | 'work' | 'state' | 'until'>;

/** How far ahead an end is counted, days. */
export const END_DAYS = [30, 60, 90] as const;
export type EndDays = (typeof END_DAYS)[number];

/** One kind of work at one bench, and how many there are to do it. */
export type MatrixPlace = {
  readonly bench: string;
  readonly work: string;
  /** without a supervisor */
  readonly may: number;
  readonly supervised: number;
  readonly rests: number;
  /** of those who may, with or without a supervisor: how many end within so many days */
  readonly ends: Readonly<Record<EndDays, number>>;
  /** the first day somebody's leave to do it ends; null where nobody may */
  readonly firstEnd: Day | null;
  /** without a supervisor nobody may do this work here, or one person only */
  readonly gap: 'nobody' | 'one' | null;
};

/** The register as it was at an instant. */
export function registerThen(
  events: readonly LogEvent[],
  at: Instant,
  known: Known = 'now',
): RegisteredBench[] {
  const now = timeOf(at);
  const counted = known === 'then' ? receivedAt : countsFrom;
  return registerOf(events.filter((one) => one.kind === 'bench.registered' && counted(one) <= now));
}

/** A place before anybody was counted. */
export type Count = Omit<MatrixPlace, 'gap'>;
export const emptyPlace = (bench: string, work: string): Count => ({
  bench,
  work,
  may: 0,
  supervised: 0,
  rests: 0,
  ends: { 30: 0, 60: 0, 90: 0 },
  firstEnd: null,
});

/** The same place with one more cell counted. */
export function countCell(place: Count, { state, until }: CountedCell, at: Instant): Count {
  const within = (days: EndDays) =>
    place.ends[days] + Number(until !== null && until <= addDays(dayOf(at), days));
  const isFirst = until !== null && (place.firstEnd === null || until < place.firstEnd);
  return {
    ...place,
    may: place.may + Number(state === 'may'),
    supervised: place.supervised + Number(state === 'may-supervised'),
    rests: place.rests + Number(state === 'rests'),
    ends: { 30: within(30), 60: within(60), 90: within(90) },
    firstEnd: isFirst ? until : place.firstEnd,
  };
}

/** A counted place with what it lacks. */
export const withGap = (place: Count): MatrixPlace => ({
  ...place,
  gap: place.may === 0 ? 'nobody' : place.may === 1 ? 'one' : null,
});

/** Counts cells place by place; every place given is among them, counted or not. */
export function countPlaces(
  places: readonly { readonly bench: string; readonly work: string }[],
  cells: Iterable<CountedCell>,
  at: Instant,
): MatrixPlace[] {
  const key = ({ bench, work }: { bench: string; work: string }) => `${bench} ${work}`;
  const counts = new Map(places.map((one) => [key(one), emptyPlace(one.bench, one.work)]));
  for (const cell of cells) {
    const place = counts.get(key(cell));
    if (place !== undefined) counts.set(key(cell), countCell(place, cell, at));
  }
  return [...counts.values()].map(withGap);
}
