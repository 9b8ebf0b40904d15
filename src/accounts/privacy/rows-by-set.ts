import { SET_IDS, type SetId, TABLES_KEPT } from './data-map.ts';

/** How many rows there are of each set of the data map, in its order; sets of which there are none are left out. */
export function rowsBySet(
  tables: readonly { readonly table: keyof typeof TABLES_KEPT; readonly rows: number }[],
): readonly { readonly set: SetId; readonly rows: number }[] {
  return SET_IDS.map((set) => ({
    set,
    rows: tables
      .filter(({ table }) => TABLES_KEPT[table].set === set)
      .reduce((sum, { rows }) => sum + rows, 0),
  })).filter(({ rows }) => rows > 0);
}
