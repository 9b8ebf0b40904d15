import { length, oneOf, part, quantity, word } from './fields.ts';

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
  }),
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
});

export const PeopleSchema = part({
  operator: PersonSchema,
  pushStick: part({
    length: length(0, 2000),
    /** mm of the end of the cut fed with it */
    usedForLast: length(0, 20_000),
  }).nullable(),
  /** null when there is nobody taking off */
  takeOff: PersonSchema.nullable(),
});
