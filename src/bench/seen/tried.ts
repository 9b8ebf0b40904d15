import type { Bench } from '../schema/index.ts';
import { byEye, type Observation, see } from './observation.ts';

/** mm: plates under the table against a rule held up; a knife's tip against a mark behind it */
const COARSE = 5;
const FINE = 0.5;

/**
 * What a trial, a watch or a meter tells, and an eye does not: read to the figure a person would write
 * down. A day's noise and dust come from the sheet of whoever measured them.
 */
export function seeTried(bench: Bench): Observation[] {
  return [...seeMachineTried(bench), ...seeLightMeter(bench), ...seeDay(bench)];
}

function seeMachineTried({ arbor, knife, underGuard, underPlates }: Bench): Observation[] {
  const deflection = knife?.deflection;
  return [
    see('arbor', 'arbor.stops', { seconds: Math.round(arbor.runDown) }),
    ...(deflection === undefined
      ? []
      : [see('knife', 'knife.gives', { by: byEye(deflection, FINE) })]),
    ...(underPlates === undefined || underGuard !== 'side-plates'
      ? []
      : [
          see('under-guard', 'under-guard.apart', { apart: byEye(underPlates.apart, COARSE) }),
          see('under-guard', `under-guard.${underPlates.beyond < 0 ? 'short' : 'beyond'}`, {
            by: byEye(underPlates.beyond, COARSE),
          }),
        ]),
  ];
}

const toTen = (lux: number): number => Math.round(lux / 10) * 10;

function seeLightMeter({ place }: Bench): Observation[] {
  const { light, lightAround, uniformityAround } = place;
  return [
    see('place', 'place.lux', { lux: toTen(light) }),
    ...(lightAround === undefined
      ? []
      : [see('place', 'place.lux-around', { lux: toTen(lightAround) })]),
    ...(uniformityAround === undefined
      ? []
      : [
          see('place', 'place.least-around', {
            share: Number((uniformityAround * 100).toFixed(0)),
          }),
        ]),
  ];
}

function seeDay({ exposure }: Bench): Observation[] {
  if (exposure === undefined) return [];
  const { noise = [], peak, protection, dust } = exposure;
  return [
    ...noise.map(({ level, hours }) => see('people', 'people.noise', { level, hours })),
    ...(peak === undefined ? [] : [see('people', 'people.peak', { peak })]),
    ...(protection === undefined ? [] : [see('people', 'people.takes-off', { protection })]),
    ...(dust === undefined
      ? []
      : [
          see('people', 'people.dust', { level: dust.level, wood: dust.wood }),
          ...(dust.respirable === undefined
            ? []
            : [see('people', 'people.fine-dust', { level: dust.respirable })]),
        ]),
  ];
}
