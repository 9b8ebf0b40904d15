import { type Group, Mesh } from 'three';
import {
  type Bench,
  type InstrumentId,
  MEASURING_POINTS,
  type MeasuringPointId,
  type Part,
} from '../../bench/index.ts';
import type { BuiltBench } from '../build/build-bench.ts';
import { mergeInto } from '../shape/pieces.ts';
import { add, scale, subtract, unit, type Vec } from '../shape/solid.ts';
import { COLOURS } from '../surface/colours.ts';
import { makeCalliper } from './calliper.ts';
import { makeDial } from './dial.ts';
import { makeFeeler } from './feeler.ts';
import { type Made, makeTool, slab, squared } from './made.ts';
import { type Place, placeOf } from './places.ts';
import { makeRule } from './rule.ts';

export type Shown = {
  readonly instrument: InstrumentId;
  readonly at: MeasuringPointId;
  /** mm as the instrument reads; null when it cannot take this length */
  readonly reading: number | null;
};

/** What the stage needs to know to look at it: mm, in the frame of the bench. */
export type View = {
  readonly middle: Vec;
  readonly eye: Vec;
  readonly span: number;
  readonly through: readonly Part[];
  readonly tooth: number | null;
};

export type InstrumentHolder = {
  /** @returns where to look, or null when there is nothing to hold it to */
  show(shown: Shown | null, bench: Bench): View | null;
  dispose(): void;
};

/** Holds one instrument at a time to the bench. */
export function createInstrument(built: BuiltBench): InstrumentHolder {
  let held: { group: Group; made: Made } | null = null;

  const putAway = (): void => {
    if (held === null) return;
    held.group.traverse((object) => {
      if (object instanceof Mesh) object.geometry.dispose();
    });
    for (const thing of held.made.owned) thing.dispose();
    held.group.removeFromParent();
    held = null;
  };

  return {
    show(shown, bench) {
      putAway();
      if (shown === null) return null;
      const place = placeOf(shown.at, bench);
      if (place === null) return null;
      const made = makeInstrument(place, shown);
      const group = mergeInto(made.pieces, built.palette);
      group.name = 'instrument';
      for (const extra of made.extras) group.add(extra);
      const part = MEASURING_POINTS[shown.at].part;
      group.traverse((object) => {
        object.userData.part = part;
        object.userData.tool = shown.instrument;
      });
      (place.frame === 'leaning' ? built.leaning : built.root).add(group);
      group.updateMatrixWorld(true);
      held = { group, made };
      return viewOf(place, shown);
    },
    dispose: putAway,
  };
}

function makeInstrument(place: Place, shown: Shown): Made {
  if (shown.instrument === 'dial' && place.probe !== undefined) {
    return makeDial(place.probe.at, place.probe.out, place.eye, shown.reading);
  }
  const made = makeTool();
  const pairs = [{ from: place.from, to: place.to }, ...(place.second ? [place.second] : [])];
  for (const { from, to } of pairs) {
    const one = makeOne(place, shown, from, to);
    made.pieces.push(...one.pieces);
    made.extras.push(...one.extras);
    made.owned.push(...one.owned);
  }
  for (const [low, high] of place.edges) {
    const size = subtract(high, low);
    made.pieces.push({
      surface: 'steel',
      colour: COLOURS.groundSteel,
      solid: slab(low, add(low, [size[0], 0, 0]), [0, size[1], 0], [0, 0, size[2]]),
    });
  }
  return made;
}

function makeOne(place: Place, { instrument, reading }: Shown, from: Vec, to: Vec): Made {
  switch (instrument) {
    case 'rule':
      return makeRule(from, to, place.face, place.body);
    case 'feeler':
      return makeFeeler(from, to, place.hand, reading);
    case 'calliper':
      return makeCalliper(from, to, {
        hand: place.hand,
        face: squared(place.eye, unit(subtract(to, from))),
        grip: place.inside ? 'inside' : 'outside',
      });
    case 'straightedge':
      // nothing goes under it where both stand level
      return reading === null || reading === 0
        ? makeTool()
        : makeFeeler(from, to, place.hand, reading);
    // a dial gauge without a probe is never laid: every place that takes one names it
    case 'dial':
    case 'square':
      return withStock(makeRule(from, to, place.face, place.body), from, to, place);
  }
}

/** A square: the rule stands in a heavy stock that is held to the face it starts from. */
function withStock(rule: Made, from: Vec, to: Vec, { face, body }: Place): Made {
  const along = unit(subtract(to, from));
  const low = add(from, add(scale(body, 19), scale(face, 6)));
  rule.pieces.push({
    surface: 'steel',
    colour: COLOURS.blackSteel,
    solid: slab(low, add(low, scale(body, 70)), scale(along, 16), scale(face, -13)),
  });
  return rule;
}

function viewOf(place: Place, { instrument }: Shown): View {
  const ends = place.second ? [place.from, place.second.to] : [place.from, place.to];
  const probe = instrument === 'dial' ? place.probe : undefined;
  const [a, b] =
    probe === undefined ? (ends as [Vec, Vec]) : [probe.at, add(probe.at, scale(probe.out, 80))];
  const length = Math.hypot(...subtract(b, a));
  return {
    middle: scale(add(a, b), 0.5),
    eye: place.eye,
    span: Math.max(
      length * 0.75,
      { calliper: 95, dial: 90, feeler: 60, straightedge: 60, rule: 48, square: 48 }[instrument],
    ),
    through: place.through,
    tooth: place.tooth ?? null,
  };
}
