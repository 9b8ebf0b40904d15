import fc from 'fast-check';
import { makeBenchFile } from './bench.ts';

/** Random bench files: every size a bench takes, near and far out of order, parts on and off. */

/** evenly spread, to a ten-thousandth: doubles crowd round nothing */
const length = (min: number, max: number) =>
  fc.integer({ min: Math.round(min * 1e4), max: Math.round(max * 1e4) }).map((n) => n / 1e4);
const word = (...words: string[]) => fc.constantFrom(...words);

const crack = fc.record({ length: length(0, 80), at: word('gullet', 'rim', 'bore') });
const condition = fc.record({
  cracks: fc.array(crack, { maxLength: 2 }),
  missingTeeth: fc.constant([]),
  gullets: word('rounded', 'square'),
  sharpness: word('sharp', 'dull', 'uneven'),
  set: word('even', 'uneven'),
  burnt: fc.boolean(),
  marked: fc.boolean(),
});
const person = (ears: fc.Arbitrary<string>) =>
  fc.record({
    x: length(-2000, 3000),
    z: length(-900, 900),
    sleeves: word('close', 'loose'),
    footwear: word('safety', 'sandals'),
    eyes: word('glasses', 'none'),
    ears,
  });

const exposure = fc.record(
  {
    noise: fc.array(fc.record({ level: length(60, 110), hours: length(0.1, 5) }), {
      minLength: 1,
      maxLength: 4,
    }),
    peak: length(100, 150),
    protection: length(0, 35),
    dust: fc.record(
      {
        level: length(0, 20),
        respirable: length(0, 10),
        wood: word('softwood', 'hardwood', 'mixed'),
      },
      { requiredKeys: ['level', 'wood'] },
    ),
  },
  { requiredKeys: [] },
);

/** Sizes are drawn against the blade's radius, so that most of what is drawn can be built. */
const sizes = fc.record({
  radius: length(75, 500),
  depth: length(0.15, 0.9),
  over: length(0.5, 60),
  reach: length(0.3, 0.999),
  along: length(-10, 40),
  up: length(-40, 20),
  plate: length(1.2, 4),
  kerfOver: length(0, 2),
  knifeOver: length(-1, 2),
  gullet: length(4, 25),
});

/** A bench file to be read; some cannot be built and are refused. */
export const anyBenchFile = fc
  .record({
    size: sizes,
    hasKnife: fc.integer({ min: 0, max: 5 }),
    hasGuard: fc.integer({ min: 0, max: 5 }),
    guard: fc.record({
      kind: word('fixed', 'self-closing', 'counterweighted', 'suspended'),
      height: length(0, 200),
      front: length(-500, -10),
      rear: length(10, 500),
      sideDepth: length(0, 40),
      play: length(0, 4),
      fingers: word('none', 'raised', 'resting'),
      stuck: fc.boolean(),
      locked: fc.boolean(),
    }),
    lateral: length(-2, 2),
    play: length(0, 2),
    tilt: fc.constantFrom(0, 0, 0, 15, 45),
    condition,
    cut: word('rip', 'crosscut', 'bevel', 'deep', 'rebate', 'groove'),
    stock: fc.record({
      length: length(100, 6000),
      width: length(20, 900),
      thickness: length(3, 300),
      kind: word('softwood', 'hardwood'),
      moisture: length(5, 60),
      density: length(300, 1100),
    }),
    fence: fc.record({
      face: length(0, 600),
      toe: length(-3, 3),
      end: length(-500, 700),
      locked: fc.boolean(),
      play: length(0, 2),
    }),
    gaps: fc.tuple(length(0, 15), length(0, 15)),
    outfeed: length(300, 2500),
    operator: person(word('muffs', 'none')),
    takeOff: fc.option(person(fc.constant('muffs')), { nil: null }),
    stick: fc.option(fc.record({ length: length(100, 900), usedForLast: length(0, 900) }), {
      nil: null,
    }),
    exposure: fc.option(exposure, { nil: undefined }),
    runDown: length(0, 40),
    runUp: length(0, 40),
  })
  .map((drawn): Record<string, unknown> => {
    const { size, exposure: exposed } = drawn;
    const { radius, depth, over, reach, plate, gullet } = size;
    const file = makeBenchFile();
    return {
      ...file,
      blade: {
        ...(file['blade'] as object),
        diameter: 2 * radius,
        plate,
        kerf: plate + size.kerfOver,
        gulletDepth: gullet,
        condition: drawn.condition,
      },
      arbor: {
        ...(file['arbor'] as object),
        depth: radius * depth,
        tilt: drawn.tilt,
        largestBlade: 2 * radius + 40,
        runDown: drawn.runDown,
        runUp: drawn.runUp,
      },
      knife:
        drawn.hasKnife === 0
          ? null
          : {
              thickness: Math.max(0.5, plate + size.knifeOver),
              edgeRadius: radius + over,
              reach: (radius + over) * reach,
              along: size.along,
              up: size.up,
              lateral: drawn.lateral,
              play: drawn.play,
              carriedBy: 'arbor',
            },
      guard: drawn.hasGuard === 0 ? null : drawn.guard,
      fence: drawn.fence,
      insert: { gaps: drawn.gaps, step: 0, worn: false },
      table: { ...(file['table'] as object), outfeed: drawn.outfeed },
      job: { ...(file['job'] as object), cut: drawn.cut, stock: drawn.stock },
      people: { operator: drawn.operator, takeOff: drawn.takeOff, pushStick: drawn.stick },
      ...(exposed === undefined ? {} : { exposure: exposed }),
    };
  });
