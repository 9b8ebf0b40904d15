import fc from 'fast-check';
import { PerspectiveCamera, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { toothAngle } from '../../src/bench/index.ts';
import { buildBench } from '../../src/scene/index.ts';
import { createLights, lightShare } from '../../src/scene/view/lights.ts';
import { type Bounds, between, eyeOf, keepInSight, type Pose } from '../../src/scene/view/orbit.ts';
import { createPicker } from '../../src/scene/view/pick.ts';
import { createQuality } from '../../src/scene/view/quality.ts';
import { makeSurroundings } from '../../src/scene/view/surroundings.ts';
import { THEMES } from '../../src/scene/view/themes.ts';
import { poseOfViewpoint, VIEWPOINTS } from '../../src/scene/view/viewpoints.ts';
import { makeBench } from '../helpers/bench.ts';

const BOUNDS: Bounds = {
  table: { from: -0.67, to: 1.25, half: 0.45 },
  floor: -0.85,
  room: { x0: -5.2, x1: 3.9, z0: -3.7, z1: 2.8 },
};

const poses = fc.record({
  target: fc.tuple(
    fc.double({ min: -6, max: 6, noNaN: true }),
    fc.double({ min: -3, max: 3, noNaN: true }),
    fc.double({ min: -6, max: 6, noNaN: true }),
  ),
  azimuth: fc.double({ min: -9, max: 9, noNaN: true }),
  elevation: fc.double({ min: -3, max: 3, noNaN: true }),
  distance: fc.double({ min: 0.001, max: 60, noNaN: true }),
});

describe('the eye', () => {
  it('is never in the table, in the floor or outside the walls (seed 20262)', () => {
    fc.assert(
      fc.property(poses, (wanted) => {
        const [x, y, z] = eyeOf(keepInSight(wanted, BOUNDS));
        const overTable = x > -0.67 && x < 1.25 && Math.abs(z) < 0.45;
        if (overTable) expect(y > 0.015 || y < -0.15).toBe(true);
        expect(y).toBeGreaterThan(BOUNDS.floor);
        expect(x).toBeGreaterThan(BOUNDS.room.x0);
        expect(x).toBeLessThan(BOUNDS.room.x1);
        expect(z).toBeGreaterThan(BOUNDS.room.z0);
        expect(z).toBeLessThan(BOUNDS.room.z1);
      }),
      { seed: 20262, numRuns: 3000 },
    );
  });

  it('stays where it is when it is well placed', () => {
    const bench = makeBench();
    for (const { id } of VIEWPOINTS) {
      const pose = poseOfViewpoint(id, bench, 1.6);
      const kept = keepInSight(pose, BOUNDS);
      expect(eyeOf(kept).map((v) => v.toFixed(3))).toEqual(eyeOf(pose).map((v) => v.toFixed(3)));
    }
  });

  it('goes back further on an upright screen, so that the subject still fits', () => {
    const bench = makeBench();
    for (const { id } of VIEWPOINTS) {
      const wide = poseOfViewpoint(id, bench, 1.78).distance;
      expect(poseOfViewpoint(id, bench, 0.5).distance).toBeGreaterThan(wide);
    }
  });

  it('flies the short way round and ends where it was sent', () => {
    const from: Pose = { target: [0, 0, 0], azimuth: 3, elevation: 0.2, distance: 1 };
    const to: Pose = { target: [0.1, 0, 0], azimuth: -3, elevation: 0.4, distance: 2 };
    const half = between(from, to, 0.5);
    expect(Math.cos(half.azimuth)).toBeCloseTo(-1, 2);
    const end = between(from, to, 1);
    expect(eyeOf(end).map((v) => v.toFixed(6))).toEqual(eyeOf(to).map((v) => v.toFixed(6)));
  });
});

describe('picking', () => {
  // locked off, so that the stick lies on the table
  const bench = makeBench({
    guard: null,
    job: { stock: { length: 30 } },
    controls: { isolated: true },
  });
  const built = buildBench(bench);
  const canvas = { width: 800, height: 600 };
  const look = (at: readonly [number, number, number], from: readonly [number, number, number]) => {
    const camera = new PerspectiveCamera(32, canvas.width / canvas.height, 0.01, 10);
    camera.position.set(...from);
    camera.lookAt(new Vector3(...at));
    camera.updateMatrixWorld();
    return createPicker(built.root, built.spindle).pick(
      { x: 400, y: 300, kind: 'mouse' },
      canvas,
      camera,
      bench,
    );
  };

  it('says which tooth the pointer is on', () => {
    for (const tooth of [0, 2, 33]) {
      const angle = toothAngle(36, tooth) + built.spindle.rotation.z - 0.02;
      const at = [0.196 * Math.cos(angle), 0.196 * Math.sin(angle) - 0.11, 0] as const;
      if (at[1] < 0.005) continue;
      const pick = look(at, [at[0] - 0.1, at[1] + 0.1, -0.5]);
      expect(pick?.part).toBe('blade');
      expect(pick?.tooth).toBe(tooth);
    }
  });

  it('says only the blade when the pointer is well inside the rim', () => {
    const pick = look([0, 0.03, 0], [0, 0.1, -0.5]);
    expect(pick?.part).toBe('blade');
    expect(pick).not.toHaveProperty('tooth');
  });

  it('finds each part that a person can point at', () => {
    expect(look([0.19, 0.04, 0], [0.19, 0.06, -0.4])?.part).toBe('knife');
    expect(look([-0.3, 0, -0.25], [-0.3, 0.6, -0.3])?.part).toBe('table');
    expect(look([-0.35, 0.08, 0.1522], [-0.4, 0.2, -0.4])?.part).toBe('fence');
    expect(look([0.1, 0, 0.04], [0.1, 0.4, 0.1])?.part).toBe('insert');
  });

  it('prefers a small part beside the pointer to the large one under it', () => {
    // a millimetre off the push stick's edge, on the table: a near miss
    const stick = { x: -0.35, z: -0.45 + 0.082 };
    const pick = look([stick.x, 0.0, stick.z + 0.0153], [stick.x, 0.5, stick.z + 0.0153]);
    expect(pick?.part).toBe('push-stick');
  });

  it('passes through what is being looked through', () => {
    const guarded = makeBench();
    const whole = buildBench(guarded);
    const camera = new PerspectiveCamera(32, 4 / 3, 0.01, 10);
    camera.position.set(0, 0.085, -0.5);
    camera.lookAt(new Vector3(0, 0.075, 0));
    camera.updateMatrixWorld();
    const at = { x: 400, y: 300, kind: 'mouse' } as const;
    const plain = createPicker(whole.root, whole.spindle).pick(at, canvas, camera, guarded);
    expect(plain?.part).toBe('guard');
    const clear = createPicker(whole.root, whole.spindle, (part) => part === 'guard');
    expect(clear.pick(at, canvas, camera, guarded)?.part).toBe('blade');
    whole.dispose();
  });
});

describe('quality', () => {
  it('falls on a slow machine, rises on a quick one, and never leaves its ladder', () => {
    const quality = createQuality();
    const start = quality.level();
    quality.note(200);
    expect(quality.level()).toBeGreaterThan(start);
    for (let i = 0; i < 40; i++) quality.note(500);
    const lowest = quality.level();
    expect(quality.moving().sharpness).toBeLessThan(0.3);
    for (let i = 0; i < 40; i++) quality.note(40);
    expect(quality.level()).toBe(lowest);
    for (let i = 0; i < 400; i++) quality.note(12);
    expect(quality.level()).toBe(0);
    expect(quality.moving()).toEqual({ sharpness: 1, samples: 4, contact: 'full' });
  });

  it('starts from how long the first picture at rest took', () => {
    const slow = createQuality();
    slow.start(1500);
    const quick = createQuality();
    quick.start(12);
    expect(slow.moving().sharpness).toBeLessThan(0.3);
    expect(quick.moving().sharpness).toBe(1);
    expect(slow.settle()).toBeGreaterThan(quick.settle());
  });
});

describe('the light', () => {
  it('is less where the place is dim, and never out', () => {
    const bright = createLights(THEMES.light, 600);
    const dim = createLights(THEMES.light, 60);
    expect(dim.key.intensity).toBeLessThan(bright.key.intensity / 2);
    expect(createLights(THEMES.light, 0).key.intensity).toBeGreaterThan(0);
    expect(lightShare(500)).toBe(1);
  });

  it('follows the eye when it is the hand lamp, and goes back to the room when put out', () => {
    const lights = createLights(THEMES.dark, 500);
    const eye = new PerspectiveCamera();
    eye.position.set(0.3, -0.5, -0.8);
    eye.updateMatrixWorld();
    const fill = lights.group.children.find(
      (light) => light !== lights.key && 'intensity' in light,
    );
    const room = fill?.position.toArray();
    lights.setLamp('on');
    lights.aimLamp(eye);
    expect(fill?.position.distanceTo(eye.position)).toBeLessThan(0.2);
    lights.setLamp('off');
    expect(fill?.position.toArray()).toEqual(room);
  });
});

describe('the surroundings that metal mirrors', () => {
  it('grow calmer with roughness and keep their light', () => {
    const texture = makeSurroundings(THEMES.light);
    const faces = texture.image as unknown as { mipmaps: { data: Uint16Array; width: number }[] }[];
    expect(faces).toHaveLength(6);
    const levels = faces[0]?.mipmaps ?? [];
    expect(levels.map(({ width }) => width)).toEqual([32, 16, 8]);
    const half = (bits: number): number => {
      const exponent = (bits >> 10) & 31;
      const part = bits & 1023;
      return exponent === 0 ? part * 2 ** -24 : (1 + part / 1024) * 2 ** (exponent - 15);
    };
    const spread = levels.map((_, level) => {
      const greens = faces.flatMap(({ mipmaps }) => {
        const { data } = mipmaps[level] as { data: Uint16Array };
        return Array.from({ length: data.length / 4 }, (_v, i) => half(data[i * 4 + 1] as number));
      });
      const mean = greens.reduce((a, b) => a + b, 0) / greens.length;
      return { mean, most: greens.reduce((a, b) => Math.max(a, b), 0) };
    });
    const [sharp, , matt] = spread;
    expect(matt?.most).toBeLessThan((sharp?.most ?? 0) / 2);
    expect(Math.abs((matt?.mean ?? 0) / (sharp?.mean ?? 1) - 1)).toBeLessThan(0.25);
    texture.dispose();
  });
});
