import { describe, expect, it } from 'vitest';
import {
  type Bench,
  CLAMPED_PARTS,
  INSTRUMENT_IDS,
  MEASURING_POINT_IDS,
  observe,
  transition,
} from '../../src/bench/index.ts';
import { tell } from '../../src/panels/bench/work/tell.ts';
import { makeBench } from '../helpers/bench.ts';
import { FAULTY_BENCHES } from '../helpers/faulty-benches.ts';
import { CATALOGUE } from '../helpers/rules.ts';

/*
 * The way without the picture: whoever cannot see the canvas has the sentences of each part, a hand on
 * what is clamped, the tools of the tray and the job card. Every fault has to show in one of them.
 */

const sentences = (bench: Bench): string[] =>
  observe(bench).map((one) => `${one.part}: ${tell(one)}`);

/** What hand and tools tell once the supply is off, as plain data. */
function handled(bench: Bench): string[] {
  const effects = (action: Parameters<typeof transition>[1]) =>
    transition(bench, action)
      .effects.filter(({ kind }) => kind !== 'not-isolated')
      .map((effect) => JSON.stringify(effect));
  return [
    ...CLAMPED_PARTS.flatMap((part) => effects({ do: 'try', part })),
    ...MEASURING_POINT_IDS.flatMap((at) =>
      INSTRUMENT_IDS.flatMap((by) => effects({ do: 'measure', with: by, at })),
    ),
  ];
}

/** Faults that a tenth of a millimetre or a hand decides, in the order of the catalogue. */
const BY_HAND: readonly string[] = [
  'fence-closing',
  'fence-play',
  'guard-play',
  'knife-too-near',
  'knife-too-thin',
  'knife-too-thick',
  'knife-play',
  'knife-above-blade',
  'push-stick-short',
];

const differences = (faulty: readonly string[], sound: readonly string[]): string[] =>
  faulty.filter((one) => !sound.includes(one));

const sound = makeBench();
const [soundWords, soundHands] = [sentences(sound), handled(sound)];

const TITLES = new Map(CATALOGUE.entries.map(({ fault }) => [fault.id, fault.title.toLowerCase()]));
const rowsOf = (id: string) => FAULTY_BENCHES.filter(({ fault }) => fault === id);
const toldOf = ({ bench }: (typeof FAULTY_BENCHES)[number]): string[] =>
  differences(sentences(makeBench(bench)), soundWords);

describe('without the picture', () => {
  it.each([...TITLES.keys()])('%s can be found', (id) => {
    const found = rowsOf(id).map((row) => [
      ...toldOf(row),
      ...differences(handled(makeBench(row.bench)), soundHands),
    ]);
    expect(found.filter((one) => one.length > 0).length, 'told nowhere').toBeGreaterThan(0);
  });

  it.each([...TITLES])('%s is told as it looks, and not by its name', (id, title) => {
    for (const row of rowsOf(id)) {
      for (const sentence of sentences(makeBench(row.bench))) {
        expect(sentence.toLowerCase()).not.toContain(title);
      }
    }
  });

  it('leaves to hand and tool only what they are for: play, thickness, toe, tenths', () => {
    const byHand = [...TITLES.keys()].filter((id) =>
      rowsOf(id).every((row) => toldOf(row).length === 0),
    );
    expect(byHand).toEqual(BY_HAND);
  });
});
