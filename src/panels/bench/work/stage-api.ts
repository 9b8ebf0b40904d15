import type { Bench, InstrumentId, MeasuringPointId, Part } from '../../../bench/index.ts';

/** What this panel asks of the bench in three dimensions. The scene may offer more. */
export type Stage = {
  update: (bench: Bench) => void;
  readonly viewpoints: readonly { readonly id: string; readonly title: string }[];
  goTo: (viewpoint: string) => void;
  lookAt: (part: Part) => void;
  highlight: (part: Part | null) => void;
  showInstrument: (
    shown: {
      readonly instrument: InstrumentId;
      readonly at: MeasuringPointId;
      readonly reading: number | null;
    } | null,
  ) => void;
  setLamp: (lamp: 'on' | 'off') => void;
  orbit: (dx: number, dy: number) => void;
  zoom: (factor: number) => void;
  pan: (dx: number, dy: number) => void;
  resize: () => void;
  frames: () => number;
  dispose: () => void;
};
