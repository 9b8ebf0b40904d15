import type { RoomShades } from '../build/place.ts';

/** How the workshop is lit in each of the page's two themes. Colours are sRGB. */
export type Theme = {
  readonly room: RoomShades;
  readonly fog: string;
  /** the one light that throws shadows */
  readonly key: { readonly colour: string; readonly strength: number };
  readonly fill: { readonly colour: string; readonly strength: number };
  /** what metal mirrors and shade is lit by */
  readonly around: {
    readonly walls: string;
    readonly ceiling: string;
    readonly floor: string;
    readonly lamps: number;
    readonly window: number;
    readonly windowColour: string;
    readonly strength: number;
  };
  readonly exposure: number;
  /** ink of the line drawn round a part being pointed out */
  readonly ink: string;
};

export const THEMES: Readonly<Record<'light' | 'dark', Theme>> = {
  light: {
    room: {
      wall: '#e8e7e2',
      dado: '#cac9c3',
      floor: '#b0ada6',
      trim: '#8f9694',
      pane: '#f4f8fa',
    },
    fog: '#e3e6e4',
    key: { colour: '#fff3e0', strength: 2.1 },
    fill: { colour: '#dce8f2', strength: 0.5 },
    around: {
      walls: '#cfd2d0',
      ceiling: '#e6e8e7',
      floor: '#8a8780',
      lamps: 7,
      window: 4.6,
      windowColour: '#eaf3fb',
      strength: 0.85,
    },
    exposure: 1,
    ink: '#17202a',
  },
  dark: {
    room: {
      wall: '#6e7275',
      dado: '#585d60',
      floor: '#5f6060',
      trim: '#3a444b',
      pane: '#1c2732',
    },
    fog: '#1b2329',
    key: { colour: '#ffeed6', strength: 2.2 },
    fill: { colour: '#9fc0dd', strength: 0.5 },
    around: {
      walls: '#8d969d',
      ceiling: '#737d85',
      floor: '#54585a',
      lamps: 8,
      window: 0.9,
      windowColour: '#8fb0cf',
      strength: 0.8,
    },
    exposure: 0.95,
    ink: '#f2f6f4',
  },
};
