import type { Bench, Part } from '../../bench/index.ts';
import { stationPlace } from '../build/controls.ts';
import { isolatorPlace } from '../build/isolator.ts';
import { layoutOf } from '../build/layout.ts';
import { stickPlace } from '../build/push-stick.ts';
import { rackPlace } from '../build/rack-place.ts';
import { stockBox } from '../build/stock.ts';
import type { View } from '../tools/instrument.ts';
import { distanceToFit, type Pose } from './orbit.ts';

/** A subject and the side it is best seen from. Lengths in mm of the bench frame, angles in degrees. */
type Shot = {
  readonly at: readonly [number, number, number];
  /** from the fence side 0, from the take-off end 90, from the operator's end -90, from the left 180 */
  readonly azimuth: number;
  readonly elevation: number;
  readonly half: { readonly width: number; readonly height: number };
};

export const VIEWPOINTS = [
  { id: 'operator', title: 'Where the operator stands' },
  { id: 'take-off', title: 'Take-off end' },
  { id: 'fence-side', title: 'Fence side' },
  { id: 'knife', title: 'Close on the riving knife' },
  { id: 'teeth', title: 'Close on the teeth' },
  { id: 'under', title: 'Under the table' },
  { id: 'above', title: 'From above' },
  { id: 'controls', title: 'At the switches' },
  { id: 'round', title: 'The whole place' },
  { id: 'people', title: 'Who stands where' },
  { id: 'feet', title: 'Floor and feet of the bench' },
  { id: 'rack', title: 'At the knife rack' },
] as const;

export type ViewpointId = (typeof VIEWPOINTS)[number]['id'];

export const isViewpoint = (id: string): id is ViewpointId =>
  VIEWPOINTS.some((viewpoint) => viewpoint.id === id);

function shotOf(id: ViewpointId, bench: Bench): Shot {
  const {
    halfAtTable: s,
    projection,
    tipRadius,
    depth,
    hoodRim,
    hoodDepth,
    tableFront,
    floor,
  } = layoutOf(bench);
  const scale = tipRadius / 200;
  const guardMiddle = bench.guard === null ? projection / 2 : hoodRim + hoodDepth * 0.4;
  switch (id) {
    case 'operator':
      return {
        at: [-50, guardMiddle * 0.4, 24],
        azimuth: -120,
        elevation: 26,
        half: { width: 610 * scale, height: 450 * scale },
      };
    case 'take-off':
      return {
        at: [30, guardMiddle * 0.5, 0],
        azimuth: 58,
        elevation: 21,
        half: { width: 520 * scale, height: 380 * scale },
      };
    case 'fence-side':
      return {
        at: [-10, guardMiddle * 1.05, 0],
        azimuth: 6,
        elevation: 10,
        half: { width: 400 * scale, height: 226 * scale },
      };
    case 'knife':
      return {
        at: [s * 0.88, Math.min(projection * 0.36, 40), 0],
        azimuth: -174,
        elevation: 11,
        half: { width: 126 * scale, height: 76 * scale },
      };
    case 'teeth':
      return {
        at: [-s * 0.72, Math.min(projection * 0.3, 27), 0],
        azimuth: -160,
        elevation: 8,
        half: { width: 96 * scale, height: 58 * scale },
      };
    case 'under':
      return {
        at: [70, -depth * 0.85, 0],
        azimuth: 168,
        elevation: -37,
        half: { width: 380 * scale, height: 235 * scale },
      };
    case 'above':
      return { at: [-20, 0, 0], azimuth: -90, elevation: 77, half: { width: 560, height: 470 } };
    case 'round':
      return {
        at: [60, floor + 900, 60],
        azimuth: -127,
        elevation: 20,
        half: { width: 2500, height: 1560 },
      };
    case 'people':
      return {
        at: [-60, floor + 860, -60],
        azimuth: 132,
        elevation: 14,
        half: { width: 1900, height: 1000 },
      };
    case 'feet':
      return {
        at: [tableFront + 190, floor + 150, -bench.table.width / 2 + 60],
        azimuth: -122,
        elevation: 24,
        half: { width: 560, height: 360 },
      };
    case 'rack': {
      const { x, y, z } = rackPlace(bench, 6);
      return { at: [x, y, z], azimuth: 180, elevation: 3, half: { width: 370, height: 200 } };
    }
    case 'controls':
      return {
        at: [tableFront + 110, -160, -bench.table.width / 2 + 60],
        azimuth: -128,
        elevation: 8,
        half: { width: 420, height: 300 },
      };
  }
}

function shotOfPart(part: Part, bench: Bench): Shot {
  const layout = layoutOf(bench);
  const { fenceFace, depth, floor } = layout;
  switch (part) {
    case 'blade':
      return shotOf('teeth', bench);
    case 'knife':
      return shotOf('knife', bench);
    case 'guard': {
      const guard = bench.guard;
      if (guard === null) return shotOf('fence-side', bench);
      const half = (guard.rear - guard.front) / 2;
      return {
        at: [(guard.front + guard.rear) / 2, layout.hoodRim + 40, 0],
        azimuth: -158,
        elevation: 9,
        half: { width: half * 1.25, height: half * 0.8 },
      };
    }
    case 'fence':
      return {
        at: [Math.min(bench.fence.end, -layout.halfAtTable) - 60, 40, fenceFace * 0.6],
        azimuth: -140,
        elevation: 34,
        half: { width: 300, height: 220 },
      };
    case 'insert':
      return {
        at: [-20, 0, 0],
        azimuth: -168,
        elevation: 50,
        half: { width: layout.halfAtTable * 1.3, height: layout.halfAtTable * 0.72 },
      };
    case 'table':
      return shotOf('above', bench);
    case 'stock': {
      const { from, to } = stockBox(bench);
      return {
        at: [to[0] - 160, to[1] / 2, (from[2] + to[2]) / 2],
        azimuth: -150,
        elevation: 30,
        half: { width: 320, height: 240 },
      };
    }
    case 'push-stick': {
      const { x, z } = stickPlace(bench);
      const length = bench.people.pushStick?.length ?? 300;
      return {
        at: [x + length / 2, 0, z],
        azimuth: 180,
        elevation: 42,
        half: { width: length * 0.66, height: length * 0.4 },
      };
    }
    case 'controls': {
      const station = stationPlace(bench, layout);
      const isolator = isolatorPlace(layout);
      const near = station[1] < 0;
      return near
        ? shotOf('controls', bench)
        : {
            at: [(station[0] + isolator[0]) / 2, -60, (station[2] + isolator[2]) / 2],
            azimuth: -140,
            elevation: 8,
            half: {
              width: Math.hypot(station[0] - isolator[0], station[2] - isolator[2]) * 0.6 + 260,
              height: 320,
            },
          };
    }
    case 'arbor':
    case 'under-guard':
      return shotOf('under', bench);
    case 'drive':
      return {
        at: [60, -depth - 200, 200],
        azimuth: -20,
        elevation: -8,
        half: { width: 420, height: 360 },
      };
    case 'people': {
      // from before the operator, a little to the side that is open to the eye
      const { x, z } = bench.people.operator;
      return {
        at: [x, floor + 980, z],
        azimuth: x < 0 ? 66 : -66,
        elevation: 10,
        half: { width: 720, height: 960 },
      };
    }
    case 'place':
      return shotOf('round', bench);
  }
}

const poseOf = (shot: Shot, aspect: number): Pose => ({
  target: [shot.at[0] / 1000, shot.at[1] / 1000, shot.at[2] / 1000],
  azimuth: (shot.azimuth * Math.PI) / 180,
  elevation: (shot.elevation * Math.PI) / 180,
  distance: distanceToFit(
    { width: shot.half.width / 1000, height: shot.half.height / 1000 },
    aspect,
  ),
});

/** Close on an instrument, from the side its place is open to. */
export const poseOfTool = (view: View, aspect: number): Pose => {
  const [ex, ey, ez] = view.eye;
  return poseOf(
    {
      at: view.middle,
      azimuth: (Math.atan2(ex, ez) * 180) / Math.PI,
      elevation: (Math.asin(ey) * 180) / Math.PI,
      half: { width: view.span * 1.25, height: view.span },
    },
    aspect,
  );
};

export const poseOfViewpoint = (id: ViewpointId, bench: Bench, aspect: number): Pose =>
  poseOf(shotOf(id, bench), aspect);

export const poseOfPart = (part: Part, bench: Bench, aspect: number): Pose =>
  poseOf(shotOfPart(part, bench), aspect);
