import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { findCryptoUses, findDerived } from './crypto-uses.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const line = z.string().min(3);
const KeySchema = z.strictObject({
  id: line,
  for: line,
  algorithm: line,
  lies: line,
  holder: line,
  made: line,
  changed: line,
  ended: line,
  derived: z.array(line).optional(),
  files: z.array(line).min(1),
});
const InventorySchema = z.strictObject({
  policy: z.array(line).min(1),
  keys: z.array(KeySchema),
  others: z.array(z.strictObject({ for: line, algorithm: line, files: z.array(line).min(1) })),
});
const inventory = InventorySchema.parse(
  parse(readFileSync(resolve(ROOT, 'src/deploy/keys.yaml'), 'utf8')),
);

/** OWASP ASVS 5.0.0, 11.1.2: one inventory of keys and algorithms, with what each is for. */
describe('the list of keys and algorithms', () => {
  it('names each file of the site that uses cryptography, with what it uses, and no other', () => {
    const named = new Map<string, Set<string>>();
    for (const { algorithm, files } of [...inventory.keys, ...inventory.others]) {
      for (const file of files) named.set(file, (named.get(file) ?? new Set()).add(algorithm));
    }
    const found = findCryptoUses();
    expect(found.length).toBeGreaterThan(30);
    expect(Object.fromEntries([...named].map(([file, of]) => [file, [...of].sort()]))).toEqual(
      Object.fromEntries(found.map(({ file, algorithms }) => [file, [...algorithms].sort()])),
    );
    expect([...named.keys()].filter((file) => !existsSync(resolve(ROOT, file)))).toEqual([]);
  });

  it('names every secret that comes from the site key', () => {
    const named = inventory.keys.flatMap(({ derived = [] }) => derived);
    expect([...named].sort()).toEqual([...new Set(findDerived())].sort());
  });

  it('says each thing once', () => {
    const ids = inventory.keys.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });
});
