import { type Bench, type MeasureId, measureBench, readBench } from '../bench/index.ts';
import { inchesToMm } from '../geometry/index.ts';

/** What was measured and on which blade, as a signed statement has it. */
export type Measured = {
  readonly blade: { diameter: number; kerf: number; plate: number; teeth: number };
  readonly settings: readonly {
    readonly measure: string;
    readonly value: number;
    readonly unit: string;
  }[];
};

/** Rounds enough to bring the knife gap within a hundredth of a millimetre. */
const ROUNDS = 12;

function figure({ settings }: Measured, measure: MeasureId): number | null {
  const found = settings.find((one) => one.measure === measure);
  if (found === undefined) return null;
  return found.unit === 'inch' ? inchesToMm(found.value) : found.value;
}

const numberOf = (bench: Bench, measure: MeasureId): number | null => {
  const value = measureBench(bench)[measure];
  return typeof value === 'number' ? value : null;
};

/** Moves the knife until its tip and its gap stand as they were measured. */
function setKnife(bench: Bench, measured: Measured): Bench {
  const overPlate = figure(measured, 'knife.overPlate');
  const drop = figure(measured, 'knife.tipDrop');
  const gapId = figure(measured, 'knife.gapAtTable') === null ? 'knife.gapMax' : 'knife.gapAtTable';
  const gap = figure(measured, gapId);
  let set = bench;
  for (let round = 0; round < ROUNDS; round++) {
    if (set.knife === null) return set;
    const dropNow = numberOf(set, 'knife.tipDrop');
    const gapNow = numberOf(set, gapId);
    set = {
      ...set,
      knife: {
        ...set.knife,
        thickness: overPlate === null ? set.knife.thickness : measured.blade.plate + overPlate,
        up: drop === null || dropNow === null ? set.knife.up : set.knife.up + dropNow - drop,
        along: gap === null || gapNow === null ? set.knife.along : set.knife.along + gap - gapNow,
      },
    };
  }
  return set;
}

/** Guard, fence and insert moved to where they were measured; what was not measured stays as on record. */
function setTheRest(bench: Bench, measured: Measured): Bench {
  const shift = (measure: MeasureId): number => {
    const [now, then] = [numberOf(bench, measure), figure(measured, measure)];
    return now === null || then === null ? 0 : then - now;
  };
  const gap = figure(measured, 'insert.gapMax');
  const { guard, fence, insert } = bench;
  return {
    ...bench,
    guard:
      guard === null
        ? null
        : {
            ...guard,
            height: guard.height + shift('guard.clearance'),
            front: guard.front - shift('guard.leadFront'),
            rear: guard.rear + shift('guard.leadRear'),
          },
    fence: { ...fence, end: fence.end + shift('fence.overrun') },
    insert: gap === null ? insert : { ...insert, gaps: [gap, gap] },
  };
}

/**
 * The registered bench with the measured settings put on it, to be drawn beside a record. A drawing and
 * not evidence. Where the figures give no bench that could stand, the bench as registered comes back.
 */
export function setAsMeasured(bench: Bench, measured: Measured): Bench {
  const withBlade = { ...bench, blade: { ...bench.blade, ...measured.blade } };
  if (!readBench(withBlade).ok) return bench;
  const set = readBench(setTheRest(setKnife(withBlade, measured), measured));
  return set.ok ? set.bench : bench;
}
