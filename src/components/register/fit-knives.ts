import { type Bench, measureBench } from '../../bench/index.ts';
import { judge, type LimitSet, type Result } from '../../limits/index.ts';
import type { Entry } from './machine-entries.ts';

export type HeldBlade = Entry['blades'][number];
export type HeldKnife = Entry['knives'][number];

/** What thickness is told by: a knife is held against the plate and the cut of the blade it stands behind. */
const THICKNESS: readonly string[] = ['knife.overPlate', 'knife.underKerf', 'knife.plateRatio'];
/** Below this a difference of two lengths is rounding, mm. */
const SAME = 1e-9;

export type Fit = {
  readonly blade: HeldBlade;
  readonly knife: HeldKnife;
  /** `size`: made for other blades; `thin`, `thick`: against plate and cut */
  readonly state: 'fits' | 'size' | 'thin' | 'thick';
  /** knife over plate and under the cut, mm; negative when it is not */
  readonly overPlate: number;
  readonly underKerf: number;
  /** the limits in force that decided it, by id */
  readonly decidedBy: readonly string[];
};

/** The bench with this blade and this knife on it. */
function withPair(file: Bench, blade: HeldBlade, knife: HeldKnife): Bench {
  const { diameter, kerf, plate, teeth } = blade;
  const fitted = file.knife;
  return {
    ...file,
    blade: { ...file.blade, diameter, kerf, plate, teeth },
    knife: fitted === null ? null : { ...fitted, thickness: knife.thickness },
  };
}

const isThin = ({ measure }: Result): boolean => measure !== 'knife.underKerf';

/**
 * Whether a knife goes with a blade on this machine: by the size it is made for, and by thickness under the limits in
 * force there. Where the set says nothing of thickness it must stand between plate and cut.
 */
export function fitKnife(file: Bench, blade: HeldBlade, knife: HeldKnife, set: LimitSet): Fit {
  const pair = withPair(file, blade, knife);
  const overPlate = knife.thickness - blade.plate;
  const underKerf = blade.kerf - knife.thickness;
  const results = judge(pair, measureBench(pair), set).filter(({ measure }) =>
    THICKNESS.includes(measure),
  );
  const decided = results.filter(({ verdict }) => verdict === 'within' || verdict === 'outside');
  const failed = decided.find(({ verdict }) => verdict === 'outside');
  const about = (over: boolean) =>
    decided.some((one) => isThin(one) === over) ? 'limit' : 'between';
  const thin =
    failed === undefined ? about(true) === 'between' && overPlate < -SAME : isThin(failed);
  const thick =
    failed === undefined ? about(false) === 'between' && underKerf < -SAME : !isThin(failed);
  const [least, most] = knife.fits;
  const madeFor = blade.diameter >= least && blade.diameter <= most;
  return {
    blade,
    knife,
    state: !madeFor ? 'size' : thin ? 'thin' : thick ? 'thick' : 'fits',
    overPlate,
    underKerf,
    decidedBy: decided.map(({ limit }) => limit),
  };
}

/** Every knife against every blade, blade by blade. */
export const fitKnives = (
  file: Bench,
  { blades, knives }: Pick<Entry, 'blades' | 'knives'>,
  set: LimitSet,
): Fit[] => blades.flatMap((blade) => knives.map((knife) => fitKnife(file, blade, knife, set)));
