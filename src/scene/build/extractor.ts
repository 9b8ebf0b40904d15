import type { Bench } from '../../bench/index.ts';
import { circle } from '../shape/outlines.ts';
import type { Piece } from '../shape/pieces.ts';
import { prism } from '../shape/prism.ts';
import { type Oval, stacked } from '../shape/skin.ts';
import { movedSolid, turnAbout, type Vec } from '../shape/solid.ts';
import { bar, turned } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { heap } from './litter.ts';
import { boxes } from './room-fittings.ts';

const CLOTH = '#b9b7ae';

type Extraction = NonNullable<Bench['extraction']>;

/** Fan, filter bag above and dust bag below. Air fills the filter; dust fills the bag. */
export function extractor([x, y, z]: Vec, { running, bag }: Extraction): Piece[] {
  const cloth = (ovals: readonly Oval[], colour: string): Piece => ({
    surface: 'wall',
    colour,
    solid: movedSolid(
      stacked(
        ovals.map(([h, u, d, b]) => [h, u, d, b] as const),
        0,
        24,
      ),
      (v) => v,
      [x + 200, y, z],
    ),
  });
  const filter: Oval[] = running
    ? [
        [960, 0, 235, 235],
        [1010, 0, 262, 262],
        [1500, 0, 268, 268],
        [1900, 0, 262, 262],
        [1990, 0, 215, 215],
        [2030, 0, 110, 110],
      ]
    : [
        [960, 0, 235, 235],
        [1000, 10, 210, 190],
        [1090, 40, 150, 215],
        [1170, 66, 205, 150],
        [1250, 120, 120, 175],
        [1290, 175, 120, 96],
        [1270, 235, 60, 60],
      ];
  const low: Oval[] =
    bag === 'full'
      ? [
          [70, 0, 250, 250],
          [100, 0, 286, 286],
          [430, 0, 300, 300],
          [690, 0, 284, 284],
          [790, 0, 236, 236],
        ]
      : [
          [300, 10, 150, 120],
          [330, 0, 185, 165],
          [470, 0, 165, 205],
          [640, 0, 215, 190],
          [790, 0, 236, 236],
        ];
  return [
    cloth(filter, CLOTH),
    cloth(low, bag === 'full' ? '#c9b48c' : '#d6d4cb'),
    ...(bag === 'full' ? [heap([x + 420, y, z + 250], 210, 36, 12)] : []),
    ...boxes(
      'enamel',
      COLOURS.machine,
      [
        [x - 300, y + 120, z - 40, x + 460, y + 160, z + 40],
        [x - 60, y + 800, z - 250, x + 460, y + 950, z + 250],
      ],
      8,
    ),
    ...[
      [-260, -230],
      [-260, 230],
      [420, -260],
      [420, 260],
    ].map(
      ([u, v]): Piece => ({
        surface: 'enamel',
        colour: COLOURS.boxDark,
        solid: bar(
          [x + (u as number), y, z + (v as number)],
          [x + (u as number), y + 800, z + (v as number)],
          16,
          8,
        ),
      }),
    ),
    {
      surface: 'enamel',
      colour: COLOURS.machine,
      solid: turned(
        [x - 200, y + 330, z - 120],
        [0, 0, 1],
        [
          [0, 0],
          [0, 210],
          [8, 218],
          [200, 218],
          [208, 210],
          [208, 0],
        ],
        { segments: 28 },
      ),
    },
    {
      surface: 'enamel',
      colour: COLOURS.boxDark,
      solid: turned(
        [x - 200, y + 330, z + 88],
        [0, 0, 1],
        [
          [0, 0],
          [0, 110],
          [190, 104],
          [200, 80],
          [200, 0],
        ],
        { segments: 22 },
      ),
    },
    ...boxes('enamel', COLOURS.machine, [[x - 130, y + 430, z - 90, x - 20, y + 900, z + 60]], 10),
    // its own switch: a lens that is lit while it runs
    ...boxes('enamel', COLOURS.box, [[x - 300, y + 560, z + 60, x - 200, y + 720, z + 110]], 6),
    {
      surface: 'mark',
      colour: running ? '#ffffff' : '#3b3f41',
      solid: prism({
        plane: 'side',
        outline: circle(x - 250, y + 680, 17, 16),
        from: z + 110,
        to: z + 116,
      }),
    },
    {
      surface: 'enamel',
      colour: COLOURS.bakelite,
      solid: movedSolid(
        prism({ plane: 'side', outline: circle(0, 0, 20, 14), from: 0, to: 14 }),
        (v) => v,
        [x - 250, y + 610, z + 110],
      ),
    },
    {
      surface: 'mark',
      colour: COLOURS.line,
      solid: movedSolid(
        prism({
          plane: 'side',
          outline: [
            { x: -3, y: -16 },
            { x: 3, y: -16 },
            { x: 3, y: 16 },
            { x: -3, y: 16 },
          ],
          from: 14,
          to: 15,
        }),
        turnAbout('z', running ? 0 : Math.PI / 2),
        [x - 250, y + 610, z + 110],
      ),
    },
  ];
}
