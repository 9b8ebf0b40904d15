import type { Alignment } from '../../records/index.ts';
import { loadUnits } from '../../store/index.ts';

/**
 * Published units that these units of ours are held against: scheme, id and version, each once.
 * @param ids ids of our units; one that is no longer in force has no alignment
 * @param issuer did:key of the site
 */
export function alignmentsOf(ids: readonly string[], issuer: string): Alignment[] {
  const listed = [...loadUnits().values()].filter((unit) => ids.includes(unit.id));
  const found = new Map<string, Alignment>();
  for (const { id, scheme, version } of listed.flatMap(({ heldAgainst }) => heldAgainst)) {
    const url = `${issuer}/published/${encodeURIComponent(scheme)}/${encodeURIComponent(id)}`;
    const code = version === undefined ? id : `${id} ${version}`;
    found.set(url, { name: `${scheme} ${id}`, url, code, framework: scheme });
  }
  return [...found.values()];
}
