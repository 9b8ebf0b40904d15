import type { z } from 'zod';
import { arcDistanceRange } from '../../geometry/index.ts';
import { knifeEdge, knifeEdgeExists } from '../knife-edge.ts';

type Shape = {
  blade: {
    diameter: number;
    plate: number;
    kerf: number;
    gulletDepth: number;
    teeth: number;
    bore?: number | undefined;
    condition: { missingTeeth: number[]; broken?: number[] | undefined };
  };
  arbor: { depth: number; tilt: number; collar?: number | undefined };
  knife: { edgeRadius: number; reach: number; along: number; up: number } | null;
  guard: { front: number; rear: number } | null;
  exposure?: { noise?: { hours: number }[] | undefined } | undefined;
};

/** Refuses a bench no fitter could put together, naming the field to mend. */
export function checkGeometry(bench: Shape, context: Pick<z.RefinementCtx, 'addIssue'>): void {
  const refuse = (path: string[], message: string) =>
    context.addIssue({ code: 'custom', path, message });
  const { blade, arbor, knife, guard, exposure } = bench;
  const hours = exposure?.noise?.reduce((sum, stretch) => sum + stretch.hours, 0) ?? 0;
  if (hours > 24) refuse(['exposure', 'noise'], 'must list at most 24 hours in all');
  const radius = blade.diameter / 2;

  if (radius <= arbor.depth) {
    refuse(
      ['blade', 'diameter'],
      `must be more than twice arbor.depth (over ${2 * arbor.depth} mm), or no tooth comes above the table`,
    );
    return;
  }
  if (blade.gulletDepth >= radius) {
    refuse(['blade', 'gulletDepth'], `must be less than half the diameter (under ${radius} mm)`);
  }
  if (blade.kerf < blade.plate) {
    refuse(['blade', 'kerf'], `must be at least the plate thickness (${blade.plate} mm)`);
  }
  if (blade.condition.missingTeeth.some((index) => index >= blade.teeth)) {
    refuse(
      ['blade', 'condition', 'missingTeeth'],
      `must list teeth counted from 0 to ${blade.teeth - 1}`,
    );
  }
  if (blade.condition.broken?.some((index) => index >= blade.teeth)) {
    refuse(
      ['blade', 'condition', 'broken'],
      `must list teeth counted from 0 to ${blade.teeth - 1}`,
    );
  }
  const root = blade.diameter - 2 * blade.gulletDepth;
  if (root > 0 && (arbor.collar ?? 0) >= root) {
    refuse(
      ['arbor', 'collar'],
      `must be less than the diameter at the gullet roots (under ${root} mm)`,
    );
  }
  const grip = Math.max(0, Math.min(root, arbor.collar ?? root));
  if (grip > 0 && (blade.bore ?? 0) >= grip) {
    refuse(
      ['blade', 'bore'],
      `must be less than the ${arbor.collar === undefined ? 'diameter at the gullet roots' : 'flanges that cover it'} (under ${grip} mm)`,
    );
  }
  if (guard !== null && guard.front >= guard.rear) {
    refuse(['guard', 'front'], `must be less than guard.rear (under ${guard.rear} mm)`);
  }
  if (knife !== null) checkKnife(knife, bench, refuse);
}

/** Whether a fitter could put this bench together. Each value is taken to be in its own range. */
export function isPossible(bench: Shape): boolean {
  let possible = true;
  checkGeometry(bench, {
    addIssue: () => {
      possible = false;
    },
  });
  return possible;
}

function checkKnife(
  knife: NonNullable<Shape['knife']>,
  { blade, arbor }: Shape,
  refuse: (path: string[], message: string) => void,
): void {
  if (knife.reach > knife.edgeRadius) {
    refuse(['knife', 'reach'], `must be at most knife.edgeRadius (${knife.edgeRadius} mm)`);
    return;
  }
  if (Math.hypot(knife.along, knife.up) >= knife.edgeRadius) {
    refuse(
      ['knife', 'edgeRadius'],
      'must be more than the distance of its centre from the arbor axis, or the edge does not curve round the blade',
    );
    return;
  }
  if (!knifeEdgeExists(knife, arbor.depth)) {
    refuse(
      ['knife', 'reach'],
      `must bring the tip above the table (over ${arbor.depth - knife.up} mm at this setting)`,
    );
    return;
  }
  // Touching teeth are a fault to be found. An edge wholly inside the tooth circle is not a setting.
  const axis = { x: 0, y: -arbor.depth };
  const { greatest } = arcDistanceRange(knifeEdge(knife, arbor.depth), axis);
  if (greatest - blade.diameter / 2 <= 0) {
    refuse(
      ['knife', 'along'],
      'must stand the knife behind the teeth: at this setting its whole leading edge lies inside the blade',
    );
  }
}
