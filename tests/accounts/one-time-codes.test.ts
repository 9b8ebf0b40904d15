import { describe, expect, it } from 'vitest';
import { codeAt, stepOfCode } from '../../src/accounts/index.ts';

/** The secret of both lists: the twenty signs 12345678901234567890 as bytes. */
const SECRET = Buffer.from('12345678901234567890', 'ascii');
const at = (seconds: number) => new Date(seconds * 1000);

describe('one-time codes', () => {
  // RFC 6238, Appendix B, the rows of SHA-1: eight digits
  it.each([
    [59, '94287082'],
    [1_111_111_109, '07081804'],
    [1_111_111_111, '14050471'],
    [1_234_567_890, '89005924'],
    [2_000_000_000, '69279037'],
    [20_000_000_000, '65353130'],
  ])('are those of RFC 6238 at %d s: %s', (seconds, code) => {
    expect(codeAt(SECRET, at(seconds), 8)).toBe(code);
    expect(stepOfCode(SECRET, code, at(seconds), 8)).toBe(Math.floor(seconds / 30));
    expect(stepOfCode(SECRET, code.slice(2), at(seconds))).toBe(Math.floor(seconds / 30));
  });

  // RFC 4226, Appendix D: counters 0 to 9, six digits; a time-based code is the one of its time step
  it.each(
    '755224 287082 359152 969429 338314 254676 287922 162583 399871 520489'
      .split(' ')
      .map((code, counter) => [counter, code] as const),
  )('are those of RFC 4226 at step %d: %s', (counter, code) => {
    expect(codeAt(SECRET, at(counter * 30))).toBe(code);
    expect(stepOfCode(SECRET, code, at(counter * 30 + 29))).toBe(counter);
  });

  it('may be one step old or one step early, and no more', () => {
    const code = codeAt(SECRET, at(3_000));
    const fits = (seconds: number) => stepOfCode(SECRET, code, at(seconds)) !== null;
    expect([2_939, 2_940, 2_970, 3_000, 3_030, 3_059, 3_060].map(fits)).toEqual([
      false,
      false,
      true,
      true,
      true,
      true,
      false,
    ]);
  });

  it.each(['', '1', '12345', '1234567', 'abcdef', '75 224'])('refuse %j', (code) => {
    expect(stepOfCode(SECRET, code, at(0))).toBeNull();
  });
});
