import { count, length, oneOf, part, quantity, word, yesNo } from './fields.ts';

export const JobSchema = part({
  cut: oneOf('rip', 'crosscut', 'bevel', 'deep', 'rebate', 'groove'),
  /** mm, width between the kerf and the fence or stop */
  widthOfCut: length(0, 3000),
  /** m/min the stock is pushed */
  fed: quantity(0, 200, 'm/min'),
  stock: part({
    length: length(1, 20_000),
    width: length(1, 3000),
    thickness: length(0.5, 1000),
    /** softwood, hardwood, sheet */
    kind: word(),
    /** per cent of dry mass */
    moisture: quantity(0, 200, '%'),
    /** kg/m3 */
    density: quantity(50, 2000, 'kg/m3'),
    shape: oneOf('flat', 'bowed', 'cupped', 'twisted', 'round').optional(),
    /** nails, staples or grit in it */
    metal: yesNo().optional(),
    looseKnots: yesNo().optional(),
    /** knots grown in, which no thumb moves */
    tightKnots: yesNo().optional(),
  }),
  /** crosscutting to length: what the end is set against, a block well ahead of the blade or the fence itself */
  stop: oneOf('none', 'ahead', 'fence').optional(),
  /** what keeps round or uneven stock from turning */
  cradle: yesNo().optional(),
});

const PersonSchema = part({
  /** mm in the bench frame */
  x: length(-20_000, 20_000),
  z: length(-20_000, 20_000),
  /** close, rolled, loose */
  sleeves: word(),
  /** safety, trainers, sandals */
  footwear: word(),
  /** glasses, face-shield, none */
  eyes: word(),
  /** muffs, plugs, none */
  ears: word(),
  gloves: yesNo().optional(),
  hair: oneOf('short', 'tied', 'loose').optional(),
  /** rings, chains, a watch */
  jewellery: yesNo().optional(),
  /** whole years */
  age: count(10, 100).optional(),
});

/** Somebody else near the bench. */
const BystanderSchema = part({
  x: length(-20_000, 20_000),
  z: length(-20_000, 20_000),
});

export const PeopleSchema = part({
  operator: PersonSchema,
  pushStick: part({
    length: length(0, 2000),
    /** mm of the end of the cut fed with it */
    usedForLast: length(0, 20_000),
    /** its end is notched to hold the work */
    notched: yesNo().optional(),
  }).nullable(),
  /** null when there is nobody taking off */
  takeOff: PersonSchema.nullable(),
  bystander: BystanderSchema.optional(),
});
