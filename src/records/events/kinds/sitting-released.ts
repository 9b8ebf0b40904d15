import { fields, OpaqueIdSchema } from '../../fields.ts';
import { defineKind } from '../define-kind.ts';

/** A trainer let the result of a sitting out. `about` is who sat it. */
export const sittingReleased = defineKind({
  kind: 'sitting.released',
  versions: [{ name: 'as first written' }],
  body: fields({ attempt: OpaqueIdSchema }),
  agrees: ({ about, by }) =>
    about !== null && about !== by
      ? null
      : { path: ['about'], message: 'must be somebody else than who lets it out' },
});
