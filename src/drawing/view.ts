import type { DimensionId } from './measures.ts';
import type { Clip } from './sheet.ts';

/** `side`: cut along the blade. `end`: from the take-off end. `plan`: from above. `knife`: knife and rear teeth, close up. `teeth`: the front teeth, close up. */
export type View = 'side' | 'end' | 'plan' | 'knife' | 'teeth';

/** Parts a balloon can name, in the views that show them. */
export const PART_LABELS = [
  'blade',
  'teeth',
  'knife',
  'guard',
  'posts',
  'fingers',
  'fence',
  'stock',
  'table',
] as const;
export type PartLabel = (typeof PART_LABELS)[number];

/** Every word a drawing prints, so that a translator can replace them. */
export type Wording = {
  readonly operator: string;
  readonly takeOff: string;
  readonly feed: string;
  readonly points: string;
  readonly keepClear: string;
  readonly fence: string;
  /** the operator stands beyond the edge of the sheet */
  readonly further: string;
  readonly in: string;
  readonly out: string;
  /** where a tooth goes in and comes out, with `{angle}` */
  readonly inAt: string;
  readonly outAt: string;
  /** of the piece, where it would balance */
  readonly centre: string;
};

export const ENGLISH: Wording = {
  operator: 'Operator',
  takeOff: 'Take-off',
  feed: 'Feed',
  keepClear: 'Keep clear',
  points: 'The same points from above, drawn wider',
  fence: 'Fence',
  further: 'Operator: further back',
  in: 'In',
  out: 'Out',
  inAt: 'In, at {angle}',
  outAt: 'Out, at {angle}',
  centre: 'Centre of the piece',
};

/** A trial cut as it stands: mm of x of the stock's leading end, and the strip to keep clear, mm of z. */
export type DrawnCut = {
  readonly lead: number;
  readonly strip: { readonly from: number; readonly to: number } | null;
};

/** How much of the side view is shown: down to the bottom of the blade, or a little below the table. */
export type Crop = 'whole' | 'above-table';

export type ViewRequest = {
  readonly crop?: Crop | undefined;
  readonly dimensions?: readonly DimensionId[] | undefined;
  readonly labels?: readonly PartLabel[] | undefined;
  readonly clip?: Clip | undefined;
  readonly cut?: DrawnCut | undefined;
  readonly wording: Wording;
};
