import {
  type Camera,
  type Group,
  type Intersection,
  Raycaster,
  Vector2,
  type Vector3,
} from 'three';
import { asMounted, type Bench, type Part } from '../../bench/index.ts';

export type Pick = {
  readonly part: Part;
  readonly tooth?: number;
  readonly at: readonly [number, number, number];
};

/** Small things a finger misses come before the large ones they stand on. */
const PREFERENCE: Readonly<Record<Part, number>> = {
  knife: 6,
  'push-stick': 6,
  controls: 6,
  blade: 5,
  insert: 4,
  arbor: 4,
  guard: 3,
  'under-guard': 3,
  fence: 3,
  stock: 2,
  drive: 2,
  people: 2,
  table: 1,
  place: 0,
};

/** Pixels round the pointer that still count: a finger is broader than a mouse. */
const REACH = { mouse: 4, pen: 7, touch: 16 } as const;
export type PointerKind = keyof typeof REACH;

/** @param isClear whether a part is being looked through, and so is not there to be picked */
export function createPicker(
  root: Group,
  spindle: Group,
  isClear: (part: Part) => boolean = () => false,
) {
  const caster = new Raycaster();
  const ndc = new Vector2();

  const hitAt = (
    x: number,
    y: number,
    width: number,
    height: number,
    camera: Camera,
  ): Intersection | null => {
    ndc.set((x / width) * 2 - 1, 1 - (y / height) * 2);
    caster.setFromCamera(ndc, camera);
    const hits = caster.intersectObject(root, true);
    const solid = hits.find(({ object: { userData } }) => {
      const part = userData.part as Part | undefined;
      return (
        part !== undefined &&
        userData.veil !== 'veiled' &&
        (userData.tool !== undefined || !isClear(part))
      );
    });
    return solid ?? null;
  };

  return {
    /** Radians about the arbor, in the plane of the blade, that a pointer stands at; null seen edge-on. */
    angleAt(
      point: { x: number; y: number },
      canvas: { width: number; height: number },
      camera: Camera,
    ): number | null {
      ndc.set((point.x / canvas.width) * 2 - 1, 1 - (point.y / canvas.height) * 2);
      caster.setFromCamera(ndc, camera);
      const { origin, direction } = caster.ray;
      const inBlade = (v: Vector3) => spindle.parent?.worldToLocal(v) ?? v;
      const from = inBlade(origin.clone());
      const along = inBlade(origin.clone().add(direction)).sub(from);
      if (Math.abs(along.z) < 0.05 * along.length()) return null;
      from.addScaledVector(along, -from.z / along.z);
      return Math.atan2(from.y, from.x);
    },
    /** What a pointer at (x, y) canvas pixels means. */
    pick(
      point: { x: number; y: number; kind: PointerKind },
      canvas: { width: number; height: number },
      camera: Camera,
      bench: Bench,
    ): Pick | null {
      const middle = hitAt(point.x, point.y, canvas.width, canvas.height, camera);
      let best = middle;
      const reach = REACH[point.kind];
      for (let i = 0; i < 8; i++) {
        const angle = (i * Math.PI) / 4;
        const hit = hitAt(
          point.x + reach * Math.cos(angle),
          point.y + reach * Math.sin(angle),
          canvas.width,
          canvas.height,
          camera,
        );
        if (hit === null) continue;
        const gain = preferenceOf(hit) - (best === null ? -1 : preferenceOf(best));
        // a thing under the pointer itself is only left for something clearly smaller
        if (gain > (best === middle ? 1 : 0)) best = hit;
      }
      if (best === null) return null;
      const part = best.object.userData.part as Part;
      const at = best.point.toArray() as [number, number, number];
      if (part !== 'blade') return { part, at };
      const tooth = toothNear(best, spindle, bench);
      return tooth === null ? { part, at } : { part, tooth, at };
    },
  };
}

const preferenceOf = (hit: Intersection): number => PREFERENCE[hit.object.userData.part as Part];

/** Which tooth a hit near the rim belongs to, counted from 0 as in the bench; null further in. */
function toothNear(hit: Intersection, spindle: Group, bench: Bench): number | null {
  const local = spindle.worldToLocal(hit.point.clone());
  const { diameter, gulletDepth, teeth } = bench.blade;
  const radius = Math.hypot(local.x, local.y);
  if (radius < diameter / 2 - 1.9 * gulletDepth) return null;
  const share =
    (asMounted(bench.blade, Math.atan2(local.y, local.x)) - Math.PI / 2) / (2 * Math.PI);
  return ((Math.round(share * teeth) % teeth) + teeth) % teeth;
}
