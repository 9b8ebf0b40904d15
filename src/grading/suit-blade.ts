import type { Bench, Cut } from '../bench/index.ts';

/** How well one property of a blade suits a job: 0 to 1, and in words. */
export type Suiting = { readonly worth: number; readonly says: string };

/** 1 from `best[0]` to `best[1]`, falling evenly to 0 at `zero[0]` and `zero[1]`. */
function plateau(value: number, zero: readonly [number, number], best: readonly [number, number]) {
  if (value < best[0]) return Math.max(0, (value - zero[0]) / (best[0] - zero[0]));
  if (value > best[1]) return Math.max(0, (zero[1] - value) / (zero[1] - best[1]));
  return 1;
}

const round = (value: number, digits: number): string => String(Number(value.toFixed(digits)));

/**
 * What a sawyer would say of a blade for a job. All of it is common practice with no published
 * source: a chip thick enough to be cut and not rubbed, two to five teeth in the cut, gullets a
 * small part full of solid chip, a motor with something in hand, hook for ripping and little of it
 * across the grain, and a blade no larger than the work needs, as a small plate runs stiffer.
 */
export function suitingOf({ blade, arbor, job }: Bench, cut: Cut): Suiting[] {
  const along = job.cut === 'crosscut' ? 'across the grain' : 'along the grain';
  const suitings: Suiting[] = [
    {
      worth: plateau(cut.chip.mean, [0.03, 0.4], [0.08, 0.25]),
      says: `chips ${round(cut.chip.mean, 3)} mm thick in the mean${cut.rubs ? ': it rubs and may burn' : ''}`,
    },
    {
      worth: plateau(cut.teethInCut, [0.5, 10], [2, 5]),
      says: `${round(cut.teethInCut, 1)} teeth in the cut`,
    },
    {
      worth: plateau(cut.gulletFill, [-1, 0.4], [0, 0.15]),
      says: `gullets ${round(100 * cut.gulletFill, 0)} % full of solid chip`,
    },
    {
      worth:
        job.cut === 'crosscut'
          ? plateau(blade.hookAngle, [-15, 25], [-5, 10])
          : plateau(blade.hookAngle, [0, 35], [15, 25]),
      says: `hook ${round(blade.hookAngle, 1)} degrees, cutting ${along}`,
    },
    {
      worth: plateau(blade.diameter / arbor.largestBlade, [0, 1.5], [0.6, 0.8]),
      says: `${round(blade.diameter, 1)} mm on a bench for ${round(arbor.largestBlade, 1)} mm`,
    },
  ];
  if (cut.powerShare !== null) {
    suitings.push({
      worth: plateau(cut.powerShare, [-1, 1], [0, 0.6]),
      says: `about ${round(100 * cut.powerShare, 0)} % of the motor (assumed cutting force)`,
    });
  }
  return suitings;
}
