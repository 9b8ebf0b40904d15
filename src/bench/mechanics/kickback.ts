/**
 * Kickback: an estimate, and said to be one wherever it is shown. No published measurement of the
 * speed of a piece thrown by a saw bench was found; it cannot exceed the rim speed. No distance is
 * ever called safe: accidents have killed at about 14 m (NIOSH FACE 98WA060).
 */

/**
 * m/s of a piece seized by the whole rim and brought to a common speed with it.
 * @param rim m/s  @param blade kg of a plain disc  @param piece kg
 */
export const grabSpeed = (rim: number, blade: number, piece: number): number =>
  (rim * blade) / (blade + 2 * piece);

/**
 * m/s of a piece given a share of an energy, never more than the rim's: sqrt(2 share E / m).
 * @param energy J  @param share 0 to 1
 */
export const thrownSpeed = (rim: number, energy: number, share: number, piece: number): number =>
  Math.min(rim, Math.sqrt((2 * share * energy) / piece));

/** J in a piece of `mass` kg at `speed` m/s. */
export const flightEnergy = (mass: number, speed: number): number => (mass * speed * speed) / 2;

/** ms to cover `distance` mm at `speed` m/s, taken as straight and unslowed. */
export const timeToReach = (distance: number, speed: number): number => distance / speed;

/** J/cm2 over the face it strikes with, cm2. */
export const energyDensity = (energy: number, face: number): number => energy / face;

/** Published figures to set an estimate beside. Rounded projectiles: a splinter needs less. */
export const HARM = {
  /** J/cm2, half of cases pierce the skin; Bir, Stewart and Wilhelm 2005 */
  skinPenetration: 23.99,
  /** J, a hazardous fragment; DDESB TP-12 as quoted in later texts */
  hazardousFragment: 78.64,
} as const;
