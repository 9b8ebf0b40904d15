import { Box3, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import {
  INSTRUMENTS,
  MEASURING_POINT_IDS,
  MEASURING_POINTS,
  type MeasuringPointId,
  readInstrument,
} from '../../src/bench/index.ts';
import { buildBench } from '../../src/scene/index.ts';
import { createInstrument } from '../../src/scene/tools/instrument.ts';
import { placeOf } from '../../src/scene/tools/places.ts';
import { type BenchOverrides, makeBench } from '../helpers/bench.ts';
import { extent, verticesOf } from './read-back.ts';

/*
 * An instrument must lie on the very length it reads. The oracle is the bench model's own measure of
 * that length; the place it is laid comes from the scene alone.
 */

const BENCHES: Record<string, BenchOverrides> = {
  sound: {},
  'knife far and low': { knife: { along: 17, up: -9 } },
  'guard high, short and fence past': {
    guard: { height: 118, front: -110 },
    fence: { end: 210, face: 95 },
  },
  'low blade, wide insert, opening fence': {
    arbor: { depth: 140 },
    insert: { gaps: [9, 12], step: 2 },
    fence: { toe: 1.5, end: -240 },
  },
};

const apart = (a: readonly number[], b: readonly number[]): number =>
  Math.hypot(...a.map((v, i) => v - (b[i] as number)));

describe('where an instrument is held', () => {
  for (const [name, over] of Object.entries(BENCHES)) {
    it.each(MEASURING_POINT_IDS)(`spans the true length on a bench with ${name}: %s`, (at) => {
      const bench = makeBench(over);
      const place = placeOf(at, bench);
      const length = MEASURING_POINTS[at].take(bench);
      if (place === null || length === null) throw new Error(`${at} has no place or no length`);
      if (place.second) {
        const [first, second] = [
          apart(place.from, place.to),
          apart(place.second.from, place.second.to),
        ];
        expect(second - first).toBeCloseTo(length, 6);
        return;
      }
      expect(apart(place.from, place.to)).toBeCloseTo(Math.abs(length), 6);
    });
  }

  it('has nowhere to go when the part is off', () => {
    const bench = makeBench({ knife: null, guard: null, people: { pushStick: null } });
    const off: MeasuringPointId[] = [
      'knife-gap-at-table',
      'knife-thickness',
      'guard-front',
      'stick-length',
    ];
    for (const at of off) expect(placeOf(at, bench)).toBeNull();
  });
});

describe('the instrument drawn', () => {
  it('lies at its place, for every point and every instrument that can take it', () => {
    const bench = makeBench();
    const built = buildBench(bench);
    const holder = createInstrument(built);
    for (const at of MEASURING_POINT_IDS) {
      const point = MEASURING_POINTS[at];
      for (const instrument of point.instruments) {
        const length = point.take(bench);
        const reading = length === null ? null : readInstrument(INSTRUMENTS[instrument], length);
        const view = holder.show({ instrument, at, reading }, bench);
        const group = built.root.getObjectByName('instrument');
        if (view === null || group === undefined) throw new Error(`${at} is not drawn`);
        const place = placeOf(at, bench);
        const box = new Box3().setFromObject(group).expandByScalar(0.0015);
        const ends = instrument === 'dial' ? [place?.probe?.at] : [place?.from, place?.to];
        for (const end of ends) {
          const inScene = new Vector3(...(end ?? [0, 0, 0])).multiplyScalar(0.001);
          expect(box.containsPoint(inScene)).toBe(true);
        }
      }
    }
    built.dispose();
  });

  it('makes the leaves in the gap as thick together as they read', () => {
    const bench = makeBench();
    const built = buildBench(bench);
    const holder = createInstrument(built);
    const reading = 4.95;
    holder.show({ instrument: 'feeler', at: 'guard-to-stock', reading }, bench);
    const group = built.root.getObjectByName('instrument');
    // at the mouth of the gap, under the hood, only leaves stand: measure them there
    const names = new Set<string>();
    group?.traverse((object) => names.add(object.name));
    const leaves = [...names].flatMap((name) => (group ? verticesOf(group as never, name) : []));
    const inGap = leaves.filter((v) => v.z > -19.6);
    const [low, high] = extent(inGap, 'y');
    expect(high - low).toBeGreaterThan(reading - 0.1);
    expect(high - low).toBeLessThan(reading + 0.02);
    built.dispose();
  });

  it('turns a whole tooth to the place it measures from', () => {
    const bench = makeBench({ blade: { condition: { missingTeeth: [35, 0, 1] } } });
    const built = buildBench(bench);
    built.turnToothTo(Math.PI / 2);
    const top = verticesOf(built.root, 'blade-plate').filter((v) => Math.abs(v.x) < 0.05);
    expect(extent(top, 'y')[1]).toBeCloseTo(90, 1);
    built.dispose();
  });
});
