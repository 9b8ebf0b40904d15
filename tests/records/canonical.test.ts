import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalBytes, canonicalText, NotCanonicalError } from '../../src/records/check/index.ts';
import { vectorJson, vectorText } from './vector-file.ts';

const NAMES = ['arrays', 'french', 'structures', 'unicode', 'values', 'weird'];

// RFC 8785, test data of cyberphone/json-canonicalization (Apache-2.0)
describe('canonical JSON, RFC 8785 vectors', () => {
  it.each(NAMES)('spells %s as published', (name) => {
    const value = vectorJson(`jcs/input/${name}.json`);
    expect(canonicalText(value)).toBe(vectorText(`jcs/output/${name}.json`));
    const hex = vectorText(`jcs/outhex/${name}.txt`).trim().split(/\s+/).join('');
    expect(Buffer.from(canonicalBytes(value)).toString('hex')).toBe(hex);
  });

  /** The published number sequence: edge cases, 2000 least normal numbers, then a chain of SHA-256. */
  function* numbers(): Generator<number> {
    const view = new DataView(new ArrayBuffer(8));
    const fromBits = (bits: bigint): number => {
      view.setBigUint64(0, bits);
      return view.getFloat64(0);
    };
    for (const bits of vectorJson<string[]>('jcs/number-edge-cases.json'))
      yield fromBits(BigInt(`0x${bits}`));
    for (let i = 0n; i < 2000n; i++) yield fromBits(0x0010000000000000n + i);
    for (let block: Buffer = Buffer.alloc(32); ; ) {
      block = createHash('sha256').update(block).digest();
      for (let at = 0; at < 32; at += 8) {
        const value = block.readDoubleLE(at);
        if (value !== 0 && Number.isFinite(value)) yield value;
      }
    }
  }

  // hashes from the table in that test data's README
  it.each([
    [1_000, 'be18b62b6f69cdab33a7e0dae0d9cfa869fda80ddc712221570f9f40a5878687'],
    [10_000, 'b9f7a8e75ef22a835685a52ccba7f7d6bdc99e34b010992cbc5864cd12be6892'],
    [100_000, '22776e6d4b49fa294a0d0f349268e5c28808fe7e0cb2bcbe28f63894e494d4c7'],
    [1_000_000, '49415fee2c56c77864931bd3624faad425c3c577d6d74e89a83bc725506dad16'],
  ])(
    'writes the first %i numbers of the sequence as published',
    (lines, hash) => {
      const digest = createHash('sha256');
      const view = new DataView(new ArrayBuffer(8));
      let line = 0;
      for (const value of numbers()) {
        view.setFloat64(0, value);
        digest.update(`${view.getBigUint64(0).toString(16)},${canonicalText(value)}\n`);
        if (++line === lines) break;
      }
      expect(digest.digest('hex')).toBe(hash);
    },
    30_000,
  );
});

describe('canonical JSON', () => {
  it('comes out the same whatever the order of the fields', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string({ unit: 'grapheme' }), fc.jsonValue()), (value) => {
        const shuffled = Object.fromEntries(Object.entries(value).reverse());
        expect(canonicalText(shuffled)).toBe(canonicalText(value));
      }),
      { seed: 8785 },
    );
  });

  it('reads back as the value it was made from', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        // -0 is written 0, RFC 8785 section 3.2.2.3
        expect(JSON.parse(canonicalText(value))).toEqual(JSON.parse(JSON.stringify(value)));
      }),
      { seed: 8786 },
    );
  });

  it.each([
    ['an undefined field', { body: { note: undefined } }, 'body.note is undefined'],
    ['an undefined element', { list: [1, undefined] }, 'list[1] is undefined'],
    ['a hole in a list', { list: new Array(2) }, 'list[0] is undefined'],
    ['NaN', { margin: Number.NaN }, 'margin must be a finite number'],
    ['an infinite number', [Number.POSITIVE_INFINITY], '[0] must be a finite number'],
    ['half a surrogate pair', { note: 'a\ud800' }, 'note holds half of a surrogate pair'],
    ['half a surrogate pair in a name', { '\udc00': 1 }, 'has a field name that is not text'],
    ['a date', { at: new Date(0) }, 'at is not a plain object'],
    ['a map', new Map(), 'The value is not a plain object'],
    ['a function', { do: () => 1 }, 'do is function'],
    ['a big integer', { seed: 1n }, 'seed is bigint'],
    ['a symbol', { mark: Symbol('x') }, 'mark is symbol'],
    ['nothing', undefined, 'The value is undefined'],
  ])('refuses %s', (_, value, message) => {
    expect(() => canonicalText(value)).toThrow(NotCanonicalError);
    expect(() => canonicalText(value)).toThrow(message);
  });

  it('refuses a value nested without end', () => {
    const nested: { inner?: unknown } = {};
    nested.inner = nested;
    expect(() => canonicalText(nested)).toThrow('nested more than 64 deep');
  });
});
