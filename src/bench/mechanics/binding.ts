import type { Bench } from '../schema/index.ts';

/** What presses the work on the rear of the blade. */
export type Pinch = {
  /** mm the kerf would close behind the cut if nothing held it open */
  readonly closing: number;
};

export type Binding = {
  /** mm the kerf really closes: the riving knife keeps it open to its own thickness */
  readonly closes: number;
  /** mm the sides press in past the face of the plate; above 0 the plate is gripped */
  readonly intoPlate: number;
  /** mm the fence steers the work toward the rear teeth, over their chord; 0 when parallel or opening */
  readonly steered: number;
  /** mm the knife lets the work come across before it holds it off the teeth; null without a knife */
  readonly heldAt: number | null;
  /** the plate is gripped: it drags, heats, and can throw the work */
  readonly grips: boolean;
  /** the work is steered onto the rising teeth: they lift it and throw it */
  readonly lifts: boolean;
};

/**
 * Whether the work binds on this bench.
 *
 * Assumed: the two sides of the kerf close evenly; the knife stands close enough behind the teeth
 * to hold the kerf where it would close; the stock does not bend between fence and blade. The kerf
 * can then close to the thickness of the knife and no further, which is why a knife must be
 * thicker than the plate. Without one, any closing beyond the side clearance of the plate grips it.
 */
export function bindingOf(bench: Bench, { closing }: Pinch): Binding {
  const { blade, knife, fence } = bench;
  const room = knife === null ? Number.POSITIVE_INFINITY : blade.kerf - knife.thickness;
  const closes = Math.min(closing, Math.max(0, room));
  const intoPlate = Math.max(0, closes - (blade.kerf - blade.plate));
  const steered = Math.max(0, -fence.toe);
  const heldAt =
    knife === null ? null : Math.max(0, room / 2 + Math.abs(knife.lateral) + knife.play);
  // rear teeth are as wide as the kerf: work steered across by anything at all is on them
  const reaches = heldAt === null ? steered : Math.min(steered, heldAt);
  return {
    closes,
    intoPlate,
    steered,
    heldAt,
    grips: intoPlate > 0,
    lifts: reaches > (heldAt === null ? 0 : room / 2),
  };
}
