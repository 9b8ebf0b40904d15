import scales from '../../../../content/messages/en/bench-scales.json';
import { leavesFor } from '../../../bench/index.ts';
import { dialMark, ruleMark, vernierMark } from '../../../drawing/scales/index.ts';
import { type LengthUnit, mmToInches } from '../../../geometry/index.ts';
import { sentenceOf } from '../../../words/spoken.ts';
import type { Reading } from './say-effect.ts';
import { fill, type Word } from './words.ts';

export type ScaleKey = keyof typeof scales;
type Counted = 'lines.mm' | 'lines.inch' | 'fine.mm' | 'fine.inch' | 'beam.mm' | 'marks';

export const sayScale = (key: ScaleKey, words: Readonly<Record<string, Word>> = {}): string =>
  fill(sentenceOf('bench-scales', scales, key), words);

function count(what: Counted, many: number): string {
  const form = many === 0 ? 'none' : many === 1 ? 'one' : 'many';
  return sayScale(`${what}.${form}` as ScaleKey, { count: many });
}

type Told = Pick<Reading, 'with' | 'value'>;

/**
 * A scale as one would read it with a finger on it: where the edge, the zero or the hand stands among
 * the lines. The reader still has to add it up, as anyone does who sees the scale.
 */
export function tellScale({ with: tool, value }: Told, unit: LengthUnit): string {
  if (tool === 'feeler' || tool === 'straightedge') return tellLeaves(value, unit);
  if (value === null) return sayScale('nothing');
  if (tool === 'dial') return tellDial(value, unit);
  return tool === 'calliper' ? tellVernier(value, unit) : tellRule(value, unit);
}

function tellRule(mm: number, unit: LengthUnit): string {
  const { figure, lines, fine, isMinus } = ruleMark(mm, unit);
  const told = sayScale(`rule.${unit}`, {
    figure,
    lines: count(`lines.${unit}`, lines),
    fine: count(`fine.${unit}`, fine),
  });
  return isMinus ? `${told} ${sayScale('minus')}` : told;
}

function tellVernier(mm: number, unit: LengthUnit): string {
  const { figure, lines, meets, isMinus } = vernierMark(mm, unit);
  const told = sayScale(`vernier.${unit}`, {
    figure: unit === 'inch' ? Math.round(figure) : figure,
    lines: count('beam.mm', lines),
    meets: meets === 0 ? sayScale('meets.zero') : sayScale('meets.line', { count: meets }),
  });
  return isMinus ? `${told} ${sayScale('vernier.minus')}` : told;
}

function tellDial(mm: number, unit: LengthUnit): string {
  const { turns, mark } = dialMark(mm, unit);
  const past = mark % 10;
  return sayScale(turns < 0 ? 'dial.back' : `dial.${unit}`, {
    turns,
    figure: mark - past,
    past: count('marks', past),
  });
}

function tellLeaves(mm: number | null, unit: LengthUnit): string {
  if (mm === null) return sayScale('leaves.none');
  if (mm === 0) return sayScale('leaves.level');
  const leaves = leavesFor(mm)
    .map((leaf) => (unit === 'inch' ? `${mmToInches(leaf).toFixed(4)} in` : `${leaf} mm`))
    .join(', ');
  const told = sayScale('leaves', { leaves });
  return mm < 0 ? `${told} ${sayScale('leaves.under-minus')}` : told;
}
