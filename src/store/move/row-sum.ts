import { createHash } from 'node:crypto';

/** What a table holds, in a form that does not depend on the order of its rows: how many, and a sum over them. */
export type TableSum = { readonly rows: number; readonly digest: string };

export type Row = Readonly<Record<string, unknown>>;

const MODULUS = 2n ** 256n;

/** One row, written the same way whichever engine it came from. */
function textOf(row: Row): string {
  const parts = Object.keys(row)
    .sort()
    .map((name) => {
      const value = row[name];
      return [
        name,
        value instanceof Uint8Array ? { hex: Buffer.from(value).toString('hex') } : value,
      ];
    });
  return JSON.stringify(parts);
}

/** Adds up rows: the SHA-256 of each, as numbers modulo 2^256. */
export function makeSum(): { readonly add: (row: Row) => void; readonly read: () => TableSum } {
  let rows = 0;
  let sum = 0n;
  return {
    add(row) {
      rows += 1;
      sum = (sum + BigInt(`0x${createHash('sha256').update(textOf(row)).digest('hex')}`)) % MODULUS;
    },
    read: () => ({ rows, digest: sum.toString(16).padStart(64, '0') }),
  };
}
