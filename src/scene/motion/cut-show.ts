import { type Group, Mesh, type Object3D } from 'three';
import type { Bench } from '../../bench/index.ts';
import type { BuiltBench } from '../build/build-bench.ts';
import { type CutSide, clearStripPieces, cutWorkPieces, uncutPieces } from '../build/cut-work.ts';
import { poseGuard } from '../build/guard.ts';
import { layoutOf } from '../build/layout.ts';
import { ROOM } from '../build/place.ts';
import { stickPlace } from '../build/push-stick.ts';
import { stockBox } from '../build/stock.ts';
import { type Piece, pour } from '../shape/pieces.ts';
import { guardOverWork } from './guard-over-work.ts';
import { kerfOf, uncutOutline } from './kerf.ts';

/** One instant of a cut. Lengths in mm of the bench frame. */
export type CutState = {
  /** x of the leading end of the work */
  readonly lead: number;
  /** it has been thrown back, and flies toward the operator */
  readonly thrown?: boolean;
  /** z of both edges of the strip of floor to be kept clear */
  readonly strip?: { readonly from: number; readonly to: number };
  /** fed with the push stick */
  readonly stick?: boolean;
};

const SIDES: readonly CutSide[] = ['fence', 'off', 'both'];
/** What stands for the uncut board while there is no cut. */
const WHOLE = ['stock-board', 'stock-ends', 'stock-line'];
/** Radians the push stick is held up from the table. */
const STICK_UP = 0.5;

/** Shows a cut on a built bench, instant by instant. It keeps no time and moves nothing by itself. */
export function createCutShow(built: BuiltBench) {
  const { root, palette } = built;
  let key = '';
  let furthest = Number.NEGATIVE_INFINITY;
  let partedAt: number | null = null;
  const groups = new Map<string, Group>();

  const drop = (name: string): void => {
    const group = groups.get(name);
    group?.traverse((object) => {
      if (object instanceof Mesh) object.geometry.dispose();
    });
    group?.removeFromParent();
    groups.delete(name);
  };
  const lay = (name: string, pieces: readonly Piece[]): void => {
    drop(name);
    if (pieces.length === 0) return;
    const group = pour('stock', pieces, palette);
    group.name = `cut-${name}`;
    groups.set(name, group);
    root.add(group);
  };
  const find = (name: string): Object3D | undefined => root.getObjectByName(name);
  const clear = (): void => {
    for (const name of [...groups.keys()]) drop(name);
    key = '';
    furthest = Number.NEGATIVE_INFINITY;
    partedAt = null;
  };

  const rest = (bench: Bench): void => {
    clear();
    for (const name of WHOLE) for (const mesh of all(root, name)) mesh.visible = true;
    find('mitre-gauge')?.position.setX(0);
    const stick = find('push-stick');
    stick?.position.set(0, 0, 0);
    stick?.rotation.set(0, 0, 0);
    const pose = guardOverWork(bench, null);
    if (pose) poseGuard(root, bench, pose);
  };

  const show = (state: CutState | null, bench: Bench): void => {
    if (state === null) {
      rest(bench);
      root.updateMatrixWorld(true);
      return;
    }
    const { workLong, ready } = layoutOf(bench);
    const wanted = JSON.stringify([bench.job, bench.fence, bench.blade, bench.arbor]);
    if (wanted !== key) {
      clear();
      key = wanted;
      for (const side of SIDES) lay(side, cutWorkPieces(bench, side));
    }
    for (const name of WHOLE) {
      for (const mesh of all(root, name)) mesh.visible = inCut(mesh);
    }
    // a thrown piece is stopped by the wall
    const lead = Math.max(state.lead, ROOM.x0 + workLong + 20);
    furthest = Math.max(furthest, lead);
    const shift = lead - ready;
    const outline = uncutOutline(bench, lead, furthest);
    lay(
      'uncut',
      outline === null
        ? []
        : uncutPieces(
            bench,
            outline.map(({ x, y }) => ({ x: x - shift, y })),
          ),
    );
    if (outline !== null || state.thrown !== true) partedAt = lead;
    for (const [name, group] of groups) {
      // once they are apart, only what lies between blade and fence is thrown
      const stays = name === 'off' && outline === null && state.thrown === true;
      if (name !== 'strip') group.position.x = stays ? (partedAt ?? lead) - ready : shift;
    }
    if (bench.job.cut === 'crosscut') find('mitre-gauge')?.position.setX(Math.max(0, shift));
    lay('strip', state.strip === undefined ? [] : clearStripPieces(bench, state.strip));
    holdStick(bench, state, lead);
    const pose = guardOverWork(bench, lead);
    if (pose) poseGuard(root, bench, pose);
    root.updateMatrixWorld(true);
  };

  /** The stick on the trailing end of the piece by the fence, its handle up toward the operator. */
  const holdStick = (bench: Bench, state: CutState, lead: number): void => {
    const group = find('push-stick');
    const length = bench.people.pushStick?.length;
    if (group === undefined || length === undefined) return;
    if (state.stick !== true || state.thrown === true) {
      group.position.set(0, 0, 0);
      group.rotation.set(0, 0, 0);
      return;
    }
    const { x, z } = stickPlace(bench);
    const { to } = stockBox(bench);
    const { half } = kerfOf(bench);
    // its mouth, as it lies, brought to the top corner of the trailing end
    group.rotation.set(Math.PI / 2, 0, -STICK_UP, 'ZXY');
    const mouth = { x: x + length - 12, y: 9, z };
    const [c, s] = [Math.cos(STICK_UP), Math.sin(STICK_UP)];
    const at = { x: mouth.x * c - mouth.z * s, y: -mouth.x * s - mouth.z * c, z: mouth.y };
    group.position.set(
      lead - layoutOf(bench).workLong - at.x,
      to[1] * 0.6 - at.y,
      (half + to[2]) / 2 - at.z,
    );
  };

  return { show, dispose: clear };
}

export type CutShow = ReturnType<typeof createCutShow>;

const inCut = (object: Object3D): boolean => object.parent?.name.startsWith('cut-') === true;

function all(root: Object3D, name: string): Object3D[] {
  const found: Object3D[] = [];
  root.traverse((object) => {
    if (object.name === name) found.push(object);
  });
  return found;
}
