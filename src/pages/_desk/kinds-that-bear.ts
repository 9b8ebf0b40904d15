/** Kinds that bear on one person's leave to work. Attempts, tests and lessons bear on nobody's. */
export const PERSON_KINDS = [
  'practical.signed',
  'practical.cosigned',
  'practical.answered',
  'appeal.settled',
  'practical.withdrawn',
  'practice.noted',
  'practice.confirmed',
  'authorisation.given',
  'authorisation.seconded',
  'authorisation.suspended',
  'authorisation.refreshed',
  'authorisation.ended',
] as const;

/** Kinds that bear on everybody, besides checks that found a machine not fit. */
export const SHOP_KINDS = [
  'organisation.rules-set',
  'bench.registered',
  'bench.taken-out',
  'bench.returned',
  'near-miss.reported',
] as const;
