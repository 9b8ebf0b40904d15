import type { Bench } from '../../bench/index.ts';
import { layoutOf } from '../build/layout.ts';
import { ROOM } from '../build/place.ts';
import type { Bounds } from './orbit.ts';

/** What the eye keeps clear of: the table, the floor and the walls, in metres. */
export function boundsOf(bench: Bench): Bounds {
  const { tableFront, outfeed, halfWidth, floor } = layoutOf(bench);
  return {
    table: { from: (tableFront - 70) / 1000, to: outfeed / 1000, half: halfWidth / 1000 },
    floor: floor / 1000,
    room: { x0: ROOM.x0 / 1000, x1: ROOM.x1 / 1000, z0: ROOM.z0 / 1000, z1: ROOM.z1 / 1000 },
  };
}
