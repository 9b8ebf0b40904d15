import type { Instant } from '../dates.ts';
import type { RegisteredBench } from '../register.ts';
import { cellsOf, countedCellsOf, type MatrixCell } from './cell.ts';
import { isAskedFor, type MatrixFilters } from './filters.ts';
import { cutLog, type MatrixLog, peopleThen, type ThenPerson } from './matrix-log.ts';
import { type CountedCell, countPlaces, type MatrixPlace, registerThen } from './places.ts';

/** People by benches by work at an instant. */
export type Matrix = {
  readonly instant: Instant;
  /** everybody listed then, in the order given, those who have left at the end */
  readonly people: readonly ThenPerson[];
  /** the benches asked for, as the register had them */
  readonly benches: readonly RegisteredBench[];
  /** the cells asked for: person by person, then bench by bench, then work by work */
  readonly cells: readonly MatrixCell[];
  /**
   * each bench and work asked for with how many may do it, whatever person or state is asked for; who has left
   * since is listed and not counted
   */
  readonly places: readonly MatrixPlace[];
};

/** The benches and kinds of work that a matrix is asked for. */
export function placesAsked(
  benches: readonly RegisteredBench[],
  filters: MatrixFilters,
): { readonly bench: string; readonly work: string }[] {
  return benches
    .filter(({ id }) => filters.benches?.includes(id) ?? true)
    .flatMap(({ id, work }) => work.map((one) => ({ bench: id, work: one })))
    .filter(({ work }) => filters.works?.includes(work) ?? true);
}

/** Every cell of some people at the places asked for, whatever state is asked for. */
export function cellsAt(
  log: Pick<MatrixLog, 'events' | 'units' | 'nameOf'>,
  at: Instant,
  asked: {
    readonly people: readonly string[];
    readonly places: readonly { readonly bench: string; readonly work: string }[];
    readonly known?: MatrixFilters['known'];
  },
): MatrixCell[] {
  const { of } = cutLog(log.events);
  const { units, nameOf } = log;
  return asked.people.flatMap((person) => {
    const events = of(person);
    return asked.places.map(cellsOf({ events, person, at, units, nameOf }, asked.known ?? 'now'));
  });
}

/** The cells of one person as they are counted, none where they may not work. */
export const countedCellsAt = (
  log: Pick<MatrixLog, 'events' | 'units' | 'nameOf'>,
  at: Instant,
  asked: {
    readonly person: string;
    readonly places: readonly { readonly bench: string; readonly work: string }[];
    readonly known: NonNullable<MatrixFilters['known']>;
  },
): CountedCell[] => {
  const { units, nameOf } = log;
  const events = cutLog(log.events).of(asked.person);
  const question = { events, person: asked.person, at, units, nameOf };
  return countedCellsOf(question, asked.places, asked.known);
};

/**
 * Who may do what at an instant, by the records known now: what counts from later is left out, and what
 * was entered after the instant though it counts from before it is shown with the day it was entered.
 * With `known: 'then'` only what the site had received by the instant counts. Pure.
 *
 * @param instant ISO text in UTC; `readInstant` makes one of a day
 */
export function matrixAt(log: MatrixLog, instant: Instant, filters: MatrixFilters = {}): Matrix {
  const { shared } = cutLog(log.events);
  const known = filters.known ?? 'now';
  const register = registerThen(shared, instant, known);
  const places = placesAsked(register, filters);
  const everybody = peopleThen(log, instant);
  const all = cellsAt(log, instant, {
    people: everybody.map(({ person }) => person),
    places,
    known,
  });
  const here = new Set(everybody.filter(({ isHere }) => isHere).map(({ person }) => person));
  const counted = countPlaces(
    places,
    all.filter(({ person }) => here.has(person)),
    instant,
  );
  const gaps = new Set(
    counted.filter(({ gap }) => gap !== null).map(({ bench, work }) => `${bench} ${work}`),
  );
  const cells = all
    .filter(({ person }) => filters.people?.includes(person) ?? true)
    .filter(({ bench, work }) => filters.state !== 'gap' || gaps.has(`${bench} ${work}`))
    .filter((cell) => isAskedFor(cell, instant, filters.state));
  const listed = new Set(cells.map(({ person }) => person));
  return {
    instant,
    people: everybody.filter(({ person }) => listed.has(person)),
    benches: register.filter(({ id }) => filters.benches?.includes(id) ?? true),
    cells,
    places: counted,
  };
}
