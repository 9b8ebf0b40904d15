import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type INSTRUMENT_IDS, INSTRUMENTS, readInstrument } from '../../src/bench/index.ts';
import { dialMark, drawScale, ruleMark, vernierMark } from '../../src/drawing/scales/index.ts';

/*
 * A scale has to be readable back to the reading it was drawn from. The oracles are the reading rules
 * of any workshop textbook (common practice, no source): the beam's line before the zero plus the
 * meeting line times the step; whole turns plus marks; lines past the last figure.
 */

const reading = (id: (typeof INSTRUMENT_IDS)[number]) =>
  fc
    .double({ min: -INSTRUMENTS[id].longest, max: INSTRUMENTS[id].longest, noNaN: true })
    .map((length) => readInstrument(INSTRUMENTS[id], length) as number)
    .filter((value) => value !== null);

describe('a scale read by the textbook', () => {
  it('gives a rule to its half line', () => {
    fc.assert(
      fc.property(reading('rule'), (mm) => {
        const { figure, lines, fine, isMinus } = ruleMark(mm, 'mm');
        expect(lines).toBeLessThan(10);
        expect((isMinus ? -1 : 1) * (figure + lines + fine * 0.5)).toBeCloseTo(mm, 9);
      }),
      { seed: 51 },
    );
  });

  it('gives an inch rule to half a sixty-fourth', () => {
    fc.assert(
      fc.property(reading('rule'), (mm) => {
        const { figure, lines, fine, isMinus } = ruleMark(mm, 'inch');
        const inches = (isMinus ? -1 : 1) * (figure + lines / 16 + fine / 64);
        expect(Math.abs(inches * 25.4 - mm)).toBeLessThanOrEqual(25.4 / 128 + 1e-9);
      }),
      { seed: 52 },
    );
  });

  it('gives a vernier to its twentieth, and to its thousandth of an inch', () => {
    fc.assert(
      fc.property(reading('calliper'), (mm) => {
        const metric = vernierMark(mm, 'mm');
        const sign = metric.isMinus ? -1 : 1;
        expect(sign * (metric.figure + metric.lines + metric.meets * 0.05)).toBeCloseTo(mm, 9);
        const inch = vernierMark(mm, 'inch');
        const inches = sign * (inch.figure / 10 + inch.lines * 0.025 + inch.meets * 0.001);
        expect(Math.abs(inches * 25.4 - mm)).toBeLessThanOrEqual(0.0127 + 1e-9);
      }),
      { seed: 53 },
    );
  });

  it('gives a dial to its hundredth, forward and back', () => {
    fc.assert(
      fc.property(reading('dial'), (mm) => {
        const { turns, mark } = dialMark(mm, 'mm');
        expect(mark).toBeGreaterThanOrEqual(0);
        expect(mark).toBeLessThan(100);
        expect(turns + mark / 100).toBeCloseTo(mm, 9);
      }),
      { seed: 54 },
    );
  });

  // worked by hand: 24.65 lies past the beam's 24, and 0.65 / 0.05 is the vernier's 13th line
  it.each([
    [24.65, { figure: 20, lines: 4, meets: 13 }],
    [7.95, { figure: 0, lines: 7, meets: 19 }],
    [30, { figure: 30, lines: 0, meets: 0 }],
  ])('reads the vernier at %s mm', (mm, marks) => {
    expect(vernierMark(mm, 'mm')).toMatchObject(marks);
  });

  // 0.313 in is twelve fortieths, 0.300, and 13 thousandths
  it('reads the inch vernier at 0.313 in', () => {
    expect(vernierMark(7.95, 'inch')).toMatchObject({ figure: 3, lines: 0, meets: 13 });
  });
});

/** x of every upright line whose path starts at `y`. */
const uprights = (svg: string, y: number): number[] =>
  [...svg.matchAll(new RegExp(`M([\\d.-]+) ${y}v`, 'g'))].map((match) => Number(match[1]));

describe('the vernier as drawn', () => {
  it.each([7.95, 24.65, 3.2, 149.95, 0.05])('meets the beam in one line only: %s mm', (mm) => {
    const svg = drawScale({ instrument: 'calliper', reading: mm, unit: 'mm', title: 'x' });
    const all = uprights(svg, 92);
    // beam lines are drawn upward, the vernier's downward
    const beam = [...svg.matchAll(/M([\d.-]+) 92v-/g)].map((match) => Number(match[1]));
    const slide = all.filter((_, i) => i >= beam.length);
    expect(slide).toHaveLength(21);
    const meeting = slide.flatMap((x, k) => (beam.some((b) => Math.abs(b - x) < 0.05) ? [k] : []));
    const { meets } = vernierMark(mm, 'mm');
    expect(meeting).toEqual(meets === 0 ? [0, 20] : [meets]);
    // and every other one misses by at least a twentieth of a millimetre, 1.5 units here
    for (const [k, x] of slide.entries()) {
      if (k === meets) continue;
      expect(Math.min(...beam.map((b) => Math.abs(b - x)))).toBeGreaterThan(1.4);
    }
  });
});

describe('a close-up', () => {
  it('never says its reading', () => {
    for (const instrument of ['rule', 'calliper', 'dial'] as const) {
      for (const unit of ['mm', 'inch'] as const) {
        const svg = drawScale({ instrument, reading: 7.5, unit, title: 'Close up' });
        const told = [...svg.matchAll(/>([^<]+)</g)].map((match) => match[1]);
        for (const text of told) expect(text).not.toMatch(/7\.5|0?\.295/);
        expect(svg).not.toContain('style=');
        expect(svg).toContain('aria-label="Close up"');
      }
    }
  });

  it('shows the leaves that add up to it, and one left out where none goes in', () => {
    const draw = (mm: number | null) =>
      drawScale({ instrument: 'feeler', reading: mm, unit: 'mm', title: 'x' });
    const marked = (svg: string) =>
      [...svg.matchAll(/>([\d.]+) mm</g)].map((match) => Number(match[1]));
    expect(marked(draw(7.95)).reduce((a, b) => a + b)).toBeCloseTo(7.95, 9);
    expect(marked(draw(null))).toEqual([0.05]);
  });
});
