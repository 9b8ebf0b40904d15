/**
 * Every measure taken from a bench: its id, its unit, and the part a person would look at.
 * The ids are fixed: limit files, records and other programs name them.
 */

export type Part =
  | 'blade'
  | 'arbor'
  | 'knife'
  | 'guard'
  | 'under-guard'
  | 'drive'
  | 'fence'
  | 'insert'
  | 'table'
  | 'controls'
  | 'place'
  | 'stock'
  | 'push-stick'
  | 'people';

/** `yes/no` and `word` measures have no number; `1` is a plain ratio or share. */
export type MeasureUnit =
  | 'mm'
  | 'm/s'
  | 'deg'
  | 's'
  | 'lx'
  | 'dB(A)'
  | 'dB(C)'
  | '%'
  | 'mg/m3'
  | 'years'
  | 'count'
  | '1'
  | 'yes/no'
  | 'word';

type Entry = { readonly part: Part; readonly unit: MeasureUnit; readonly title: string };
const entry = (part: Part, unit: MeasureUnit, title: string): Entry => ({ part, unit, title });

export const MEASURES = {
  'blade.projection': entry('blade', 'mm', 'Blade above the table'),
  'blade.aboveStock': entry('blade', 'mm', 'Blade above the stock'),
  'blade.sizeRatio': entry('blade', '1', 'Blade size against the largest the bench takes'),
  'blade.rimSpeed': entry('blade', 'm/s', 'Rim speed'),
  'blade.speedUse': entry('blade', '1', 'Spindle speed against the speed marked on the blade'),
  'blade.entryAngle': entry('blade', 'deg', 'Angle at which a front tooth meets the stock'),
  'blade.teethInCut': entry('blade', 'count', 'Teeth in the cut'),
  'blade.crack': entry('blade', 'mm', 'Longest crack in the blade'),
  'knife.gapMax': entry('knife', 'mm', 'Greatest gap from the teeth to the riving knife'),
  'knife.gapMin': entry('knife', 'mm', 'Least gap from the teeth to the riving knife'),
  'knife.gapAtTable': entry('knife', 'mm', 'Gap from the teeth to the riving knife at the table'),
  'knife.tipHeight': entry('knife', 'mm', 'Riving knife tip above the table'),
  'knife.tipDrop': entry('knife', 'mm', 'Riving knife tip below the top of the blade'),
  'knife.overPlate': entry('knife', 'mm', 'Riving knife thicker than the blade plate by'),
  'knife.underKerf': entry('knife', 'mm', 'Riving knife thinner than the kerf by'),
  'knife.plateRatio': entry('knife', '1', 'Riving knife thickness against the blade plate'),
  'knife.sideClear': entry('knife', 'mm', 'Side clearance of the riving knife in the kerf'),
  'knife.radiusOver': entry('knife', 'mm', 'Knife edge radius over that of the largest blade'),
  'knife.arcShare': entry('knife', '1', 'Share of the rear teeth the riving knife covers'),
  'knife.play': entry('knife', 'mm', 'Side play of the riving knife'),
  'guard.clearance': entry('guard', 'mm', 'Gap from the crown guard to the stock'),
  'guard.leadFront': entry('guard', 'mm', 'Crown guard past the front teeth'),
  'guard.leadRear': entry('guard', 'mm', 'Crown guard past the rear teeth'),
  'guard.coversGullets': entry('guard', 'yes/no', 'Guard sides hang below the gullet roots'),
  'guard.play': entry('guard', 'mm', 'Side play of the crown guard'),
  underGuard: entry('under-guard', 'word', 'Guard under the table'),
  'fence.overrun': entry('fence', 'mm', 'Fence past the front teeth at table level'),
  'fence.pastGullets': entry('fence', 'mm', 'Fence past the front gullets'),
  'fence.toe': entry('fence', 'mm', 'Fence opening from front teeth to rear teeth'),
  'insert.gapMax': entry('insert', 'mm', 'Widest gap from the kerf to the table insert'),
  'insert.step': entry('insert', 'mm', 'Table insert above the table'),
  'table.outfeedFromSpindle': entry('table', 'mm', 'Spindle to the take-off edge of the table'),
  'table.outfeedFromTeeth': entry('table', 'mm', 'Rear teeth to the take-off edge of the table'),
  'stock.tipsBy': entry('stock', 'mm', 'Finished piece: its centre past the table edge'),
  'stick.length': entry('push-stick', 'mm', 'Push stick length'),
  'stick.lastFed': entry('push-stick', 'mm', 'Last part of the cut fed with the push stick'),
  'hand.nearest': entry('people', 'mm', 'Nearest the hand comes to the front teeth'),
  'arbor.runDown': entry('arbor', 's', 'Run-down time'),
  'arbor.runUp': entry('arbor', 's', 'Run-up time'),
  'place.light': entry('place', 'lx', 'Light on the table'),
  'place.uniformity': entry('place', '1', 'Evenness of the light'),
  'noise.exposure': entry('people', 'dB(A)', 'Noise over the day, at the ear without protection'),
  'noise.atEar': entry('people', 'dB(A)', 'Noise over the day, behind the protection worn'),
  'noise.peak': entry('people', 'dB(C)', 'Highest peak of noise'),
  'noise.dose': entry('people', '%', 'Noise dose of the day, halving at 5 dB'),
  'dust.exposure': entry('people', 'mg/m3', 'Wood dust breathed over the day'),
  'dust.respirable': entry('people', 'mg/m3', 'Respirable dust over the day'),
} as const satisfies Record<string, Entry>;

export type MeasureId = keyof typeof MEASURES;
export const MEASURE_IDS = Object.keys(MEASURES) as readonly MeasureId[];
export const isMeasureId = (text: string): text is MeasureId => Object.hasOwn(MEASURES, text);

/** A measure's value. `null` when the bench gives it no meaning: no knife fitted, no push stick. */
export type MeasureValue = number | boolean | string | null;
export type Measures = Readonly<Record<MeasureId, MeasureValue>>;
