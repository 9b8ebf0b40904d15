import { describe, expect, it } from 'vitest';
import {
  BIRMINGHAM_GAUGE,
  dailyExposure,
  exposurePoints,
  grabSpeed,
  rimSpeed,
  runDownTime,
  separationDistance,
  spindleSpeed,
  thrownSpeed,
  toothForce,
} from '../../src/bench/mechanics/index.ts';

/** Further figures that follow exactly from the definitions, where the worked examples leave a gap. */

describe('forces on a tooth with a normal force (maths oracle: rotation by the tooth angle)', () => {
  // at 30 degrees: cos 0.866025, sin 0.5
  it('push back Ft cos + Fn sin and down Ft sin - Fn cos', () => {
    const { pushBack, down } = toothForce(100, 40, Math.PI / 6);
    expect(pushBack).toBeCloseTo(100 * 0.8660254 + 40 * 0.5, 5);
    expect(down).toBeCloseTo(100 * 0.5 - 40 * 0.8660254, 5);
  });
  it('keep their length whatever the angle', () => {
    for (const angle of [0.2, 0.7, 1.3]) {
      const { pushBack, down } = toothForce(100, 40, angle);
      expect(Math.hypot(pushBack, down)).toBeCloseTo(Math.hypot(100, 40), 9);
    }
  });
});

describe('Birmingham gauge, inches (three published tables agree)', () => {
  it.each([
    [8, 0.165],
    [10, 0.134],
    [11, 0.12],
    [12, 0.109],
    [13, 0.095],
    [14, 0.083],
    [15, 0.072],
    [16, 0.065],
    [17, 0.058],
    [18, 0.049],
  ])('%d is %f', (gauge, inches) => {
    expect(BIRMINGHAM_GAUGE[gauge]).toBe(inches);
    expect(Object.keys(BIRMINGHAM_GAUGE)).toHaveLength(10);
  });
});

describe('thrown speed (energy: v = sqrt(2 eta E / m))', () => {
  it('is 10 m/s for 100 J, half of it in the piece, 1 kg', () => {
    expect(thrownSpeed(1000, 100, 0.5, 1)).toBeCloseTo(10, 9);
    // four times the mass, half the speed
    expect(thrownSpeed(1000, 100, 0.5, 4)).toBeCloseTo(5, 9);
  });
  it('by grab is v M / (M + 2 m)', () => {
    expect(grabSpeed(60, 4, 2)).toBeCloseTo(30, 9);
    expect(grabSpeed(60, 4, 0.5)).toBeCloseTo(48, 9);
  });
});

describe('noise over parts of a day', () => {
  it('4 h at 88 dB are 100 points, as 8 h at 85 (HSE: 3 dB halve the time)', () => {
    expect(exposurePoints([{ level: 88.0103, hours: 4 }])).toBeCloseTo(100, 3);
    expect(exposurePoints([{ level: 85, hours: 2 }])).toBeCloseTo(25, 9);
  });
  it('8 h at one level is that level', () => {
    expect(dailyExposure([{ level: 83.4, hours: 8 }])).toBeCloseTo(83.4, 9);
    expect(dailyExposure([{ level: 0, hours: 8 }])).toBeCloseTo(0, 9);
  });
});

describe('run-down under each law (closed forms, inertia 0.05, from 300 rad/s)', () => {
  it('a steady drag of 2 N m takes half the time of 1', () => {
    expect(runDownTime(0.05, 300, { steady: 2 })).toBeCloseTo(7.5, 9);
  });
  it('a steady and a viscous drag: I/b ln(1 + b w/c)', () => {
    expect(runDownTime(0.05, 300, { steady: 2, viscous: 0.004 })).toBeCloseTo(
      (0.05 / 0.004) * Math.log(1 + 0.6),
      9,
    );
  });
  it('a steady drag and windage: I/sqrt(c k) atan(w sqrt(k/c))', () => {
    const k = 3e-5;
    expect(runDownTime(0.05, 300, { steady: 2, windage: k })).toBeCloseTo(
      (0.05 / Math.sqrt(2 * k)) * Math.atan(300 * Math.sqrt(k / 2)),
      9,
    );
  });
  it('all three together against a sum of a million small steps', () => {
    const [c, b, k] = [1, 0.002, 1e-5];
    const steps = 1e6;
    let sum = 0;
    for (let i = 0; i < steps; i++) {
      const w = (300 * (i + 0.5)) / steps;
      sum += (0.05 * (300 / steps)) / (c + b * w + k * w * w);
    }
    expect(runDownTime(0.05, 300, { steady: c, viscous: b, windage: k })).toBeCloseTo(sum, 6);
  });
  it.each([0, -1, Number.NaN])('a steady drag of %d never stops anything', (steady) => {
    expect(() => runDownTime(0.05, 300, { steady })).toThrow(RangeError);
  });
});

describe('rim and spindle speed', () => {
  it('undo each other, and are exact: 1 m of circumference at 60 rpm is 1 m/s', () => {
    const diameter = 1000 / Math.PI;
    expect(rimSpeed(diameter, 60)).toBeCloseTo(1, 12);
    expect(spindleSpeed(diameter, 1)).toBeCloseTo(60, 9);
    expect(rimSpeed(317, spindleSpeed(317, 48.2))).toBeCloseTo(48.2, 9);
  });
});

describe('separation distance (ISO 13855)', () => {
  it.each([
    // never under 100; no intrusion under 14 mm; at 500 the faster rule still holds; above it never under 500
    [0.01, 14, 100],
    [0.05, 14, 100],
    [0.06, 14, 120],
    [0.1, 10, 200],
    [0.25, 14, 500],
    [0.2505, 14, 500],
    [0.33, 14, 528],
    [0.1, 40, 408],
  ])('%f s, %d mm: %d mm', (time, resolution, expected) => {
    expect(separationDistance(time, resolution)).toBeCloseTo(expected, 9);
  });
});
