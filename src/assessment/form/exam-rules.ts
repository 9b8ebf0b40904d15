import type { Bench } from '../../bench/index.ts';
import type { Rack } from '../../grading/index.ts';
import type { FaultCatalogue, LimitSet } from '../../limits/index.ts';
import type { Blueprint, Estimate, Situation } from '../blueprint/index.ts';

/**
 * All that a form is made from and graded against, beside the seed. Plain content, loaded once; the
 * same rules and the same seed give the same form everywhere.
 */
export type ExamRules = {
  readonly blueprint: Blueprint;
  /** the sets the blueprint names, the deciding one first */
  readonly sets: readonly LimitSet[];
  readonly catalogue: FaultCatalogue;
  readonly estimate: Estimate;
  /** the sound benches the blueprint names, in its order */
  readonly benches: readonly Bench[];
  readonly rack: Rack;
  /** the situations its tasks draw from */
  readonly situations: ReadonlyMap<string, Situation>;
};

/** Everything there is to build rules from, by id. */
export type ExamContent = {
  readonly blueprints: ReadonlyMap<string, Blueprint>;
  readonly sets: ReadonlyMap<string, LimitSet>;
  readonly catalogue: FaultCatalogue;
  readonly estimate: Estimate;
  readonly benches: ReadonlyMap<string, Bench>;
  readonly racks: ReadonlyMap<string, Rack>;
  readonly situations: ReadonlyMap<string, Situation>;
};

/**
 * The rules of one blueprint.
 * @throws RangeError with a sentence when it names something that is not there
 */
export function examRules(blueprint: Blueprint, content: ExamContent): ExamRules {
  const take = <Value>(from: ReadonlyMap<string, Value>, id: string, what: string): Value => {
    const value = from.get(id);
    if (value !== undefined) return value;
    throw new RangeError(
      `The blueprint ${blueprint.id} names the ${what} ${id}, which is not there.`,
    );
  };
  const wanted = blueprint.tasks.flatMap((slot) => (slot.kind === 'react' ? slot.from : []));
  return {
    blueprint,
    sets: blueprint.limits.map((id) => take(content.sets, id, 'limit set')),
    catalogue: content.catalogue,
    estimate: content.estimate,
    benches: blueprint.benches.map((id) => take(content.benches, id, 'bench')),
    rack: take(content.racks, blueprint.rack, 'rack'),
    situations: new Map(wanted.map((id) => [id, take(content.situations, id, 'situation')])),
  };
}
