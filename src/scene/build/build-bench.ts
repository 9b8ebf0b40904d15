import { Group, type Material, Mesh, type Texture } from 'three';
import { asMounted, type Bench, bladeOutline } from '../../bench/index.ts';
import { createPalette, type Palette } from '../surface/palette.ts';
import { layoutOf } from './layout.ts';
import type { RoomShades } from './place.ts';
import { restAngle } from './rest-angle.ts';
import { type Carrier, carrierOf, createSections, type Section, sectionKey } from './sections.ts';

/** A bench standing in its workshop: three.js objects that follow a bench and hold no truth of their own. */
export type BuiltBench = {
  /** in metres; every mesh below carries `userData.part` */
  readonly root: Group;
  /** the blade and its spindle, to be turned about z */
  readonly spindle: Group;
  /** what leans with a tilted arbor */
  readonly leaning: Group;
  readonly palette: Palette;
  /** makes again only what the new bench changes, and frees what it replaces */
  update(bench: Bench): void;
  /** stands more sections beside those there are: what is fetched once the bench itself is drawn */
  add(sections: readonly Section[]): void;
  /** turns the blade the least that brings a whole tooth to a direction about the arbor axis, radians */
  turnToothTo(angle: number): void;
  /** how often each section has been made, for tests */
  readonly made: ReadonlyMap<string, number>;
  dispose(): void;
};

export const DAYLIGHT_ROOM: RoomShades = {
  wall: '#dcdfdd',
  dado: '#b9bfbd',
  floor: '#a9a69f',
  trim: '#8b9290',
  pane: '#f3f8fa',
};

/** Builds the whole bench. Needs no graphics: tests read its vertices in Node. */
export function buildBench(
  bench: Bench,
  options: { palette?: Palette; room?: RoomShades } = {},
): BuiltBench {
  const palette = options.palette ?? createPalette();
  const sections = [...createSections(options.room ?? DAYLIGHT_ROOM)];
  const root = new Group();
  root.name = 'bench';
  // builders work in millimetres; the scene in metres
  root.scale.setScalar(0.001);
  const leaning = new Group();
  const arbor = new Group();
  const spindle = new Group();
  const carriers: Record<Carrier, Group> = { bench: root, leaning, arbor, spindle };
  root.add(leaning);
  leaning.add(arbor);
  arbor.add(spindle);

  const standing = new Map<string, { key: string; group: Group }>();
  const made = new Map<string, number>();
  let stopped = '';
  let latest = bench;

  const raise = (section: Section, wanted: Bench): void => {
    const key = sectionKey(section, wanted);
    const old = standing.get(section.name);
    if (old?.key === key) return;
    if (old) freeGroup(old.group);
    const group = section.build(wanted, palette);
    carriers[carrierOf(section, wanted)].add(group);
    standing.set(section.name, { key, group });
    made.set(section.name, (made.get(section.name) ?? 0) + 1);
  };

  const update = (wanted: Bench): void => {
    const layout = layoutOf(wanted);
    latest = wanted;
    leaning.rotation.x = layout.tilt;
    arbor.position.y = -layout.depth;
    for (const section of sections) raise(section, wanted);
    // the blade stays where a hand left it until it is another blade
    const blade = JSON.stringify(wanted.blade);
    if (blade !== stopped) spindle.rotation.z = restAngle(wanted);
    stopped = blade;
    root.updateMatrixWorld(true);
  };
  update(bench);

  return {
    root,
    spindle,
    leaning,
    palette,
    update,
    add(more) {
      sections.push(...more);
      update(latest);
    },
    made,
    turnToothTo(angle) {
      const tipCircle = latest.blade.diameter / 2 - 1e-6;
      let least = Number.POSITIVE_INFINITY;
      for (const { tip, angle: stands } of bladeOutline(latest.blade).teeth) {
        if (Math.hypot(tip.x, tip.y) < tipCircle) continue;
        const off = angle - asMounted(latest.blade, stands) - spindle.rotation.z;
        const turn = off - 2 * Math.PI * Math.round(off / (2 * Math.PI));
        if (Math.abs(turn) < Math.abs(least)) least = turn;
      }
      if (Number.isFinite(least)) spindle.rotation.z += least;
      root.updateMatrixWorld(true);
    },
    dispose() {
      for (const { group } of standing.values()) freeGroup(group);
      standing.clear();
      if (options.palette === undefined) palette.dispose();
    },
  };
}

/** Frees the shapes of a section, and the materials and textures it keeps for itself. */
function freeGroup(group: Group): void {
  group.traverse((object) => {
    if (object instanceof Mesh) object.geometry.dispose();
  });
  const owned = (group.userData.owned ?? []) as readonly (Material | Texture)[];
  for (const thing of owned) thing.dispose();
  group.removeFromParent();
}
