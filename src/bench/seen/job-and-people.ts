import type { Bench } from '../schema/index.ts';
import { wordOf } from './by-word.ts';
import { byEye, type Observation, see, sideOf } from './observation.ts';

/** mm: stock across and along, a stick, where a person stands */
const COARSE = 5;
const LONG = 50;

export function seeJob({ job, people }: Bench): Observation[] {
  const { length, width, thickness, kind } = job.stock;
  const stick = people.pushStick;
  return [
    see('stock', 'stock.piece', {
      kind,
      length: byEye(length, LONG),
      width: byEye(width, COARSE),
      thickness: byEye(thickness, COARSE),
    }),
    ...(stick === null
      ? [see('push-stick', 'push-stick.none')]
      : [
          see('push-stick', 'push-stick.there', { length: byEye(stick.length, LONG) }),
          see('push-stick', 'push-stick.used', { last: byEye(stick.usedForLast, LONG) }),
        ]),
  ];
}

type Person = Bench['people']['operator'];

function seePerson(who: 'operator' | 'take-off', person: Person): Observation[] {
  return [
    see('people', `people.${who}-${sideOf(person.z, LONG, ['right', 'left'])}`, {
      aside: byEye(person.z, LONG),
      away: byEye(person.x, LONG),
      end: person.x < 0 ? 'front' : 'back',
    }),
    see('people', `people.${who}-wears`, {
      sleeves: person.sleeves,
      footwear: person.footwear,
      eyes: person.eyes,
      ears: person.ears,
    }),
    ...(['gloves', 'hair', 'jewellery'] as const).flatMap((what) => {
      const word = person[what];
      return word === undefined ? [] : [see('people', `people.${what}-${wordOf(word)}`, { who })];
    }),
    ...(person.age === undefined ? [] : [see('people', 'people.age', { who, age: person.age })]),
  ];
}

export function seePeople({ people }: Bench): Observation[] {
  return [
    ...seePerson('operator', people.operator),
    ...(people.takeOff === null
      ? [see('people', 'people.no-take-off')]
      : seePerson('take-off', people.takeOff)),
    ...(people.bystander === undefined ? [] : [seeBystander(people.bystander)]),
  ];
}

const seeBystander = ({ x, z }: { x: number; z: number }): Observation =>
  see('people', `people.bystander-${sideOf(z, LONG, ['right', 'left'])}`, {
    aside: byEye(z, LONG),
    away: byEye(x, LONG),
    end: x < 0 ? 'front' : 'back',
  });
