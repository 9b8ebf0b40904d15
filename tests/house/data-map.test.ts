import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  DATA_SETS,
  KINDS_KEPT,
  PERIOD_IDS,
  PERIODS,
  SESSION_LENGTH_S,
  SET_IDS,
  TABLES_KEPT,
} from '../../src/accounts/index.ts';
import { EVENT_KINDS } from '../../src/records/index.ts';
import { CATALOGUES } from '../../src/words/catalogue/index.ts';
import { makeStoreHere, SLOW, type TempStore } from '../store/temp-store.ts';

/**
 * Whoever adds a table, a column or a kind of event says in src/accounts/privacy/data-map.ts what it is kept
 * for: the page /privacy, the exports and the erasing follow that list.
 */
let temp: TempStore;
beforeAll(async () => {
  temp = await makeStoreHere();
}, SLOW);
afterAll(() => temp.remove());

describe('the data map', () => {
  it('names every table and column of a migrated store, and no other', async () => {
    const tables = await temp.store.db.introspection.getTables({ withInternalKyselyTables: true });
    const found = Object.fromEntries(
      tables.map(({ name, columns }) => [name, columns.map((column) => column.name).sort()]),
    );
    const named = Object.fromEntries(
      Object.entries(TABLES_KEPT).map(([name, { columns }]) => [name, [...columns].sort()]),
    );
    expect(named).toEqual(found);
  });

  it('names every kind of event, and no other', () => {
    expect(Object.keys(KINDS_KEPT).sort()).toEqual(Object.keys(EVENT_KINDS).sort());
  });

  it('uses every set and every period it has, each with its words', () => {
    const used = [
      ...Object.values(TABLES_KEPT).map(({ set }) => set),
      ...Object.values(KINDS_KEPT),
    ];
    expect([...new Set(used)].sort()).toEqual([...SET_IDS].sort());
    expect(new Set(Object.values(DATA_SETS).map(({ kept }) => kept))).toEqual(new Set(PERIOD_IDS));
    const privacy = CATALOGUES.en.privacy ?? {};
    for (const set of SET_IDS) {
      expect(privacy).toHaveProperty([`set.${set}.what`]);
      expect(privacy).toHaveProperty([`set.${set}.why`]);
    }
    for (const { seenBy, where, erased, kept } of Object.values(DATA_SETS)) {
      expect(Object.keys(privacy)).toEqual(
        expect.arrayContaining([
          `who.${seenBy}`,
          `where.${where}`,
          `erased.${erased}`,
          `long.${kept}`,
        ]),
      );
    }
  });

  it('never calls a secret or an owner by the name of a column that is not there', () => {
    for (const [name, { columns, secret = [], of }] of Object.entries(TABLES_KEPT)) {
      const owner = of === 'nobody' ? [] : Object.values(of);
      expect(columns, name).toEqual(expect.arrayContaining([...secret, ...owner]));
    }
  });
});

describe('the periods', () => {
  it('say for how long, or from what, and why', () => {
    expect(Object.keys(PERIODS).sort()).toEqual([...PERIOD_IDS].sort());
  });

  it('say of a session what is true of it', () => {
    expect((PERIODS.session.hours ?? 0) * 3_600).toBe(SESSION_LENGTH_S);
  });
});
