import type { Site } from '../../accounts/index.ts';
import {
  type Blueprint,
  type ExamRules,
  examRules,
  FORM_GENERATOR,
  type Form,
  makeForm,
  showForm,
} from '../../assessment/index.ts';
import { ENGINE_VERSION } from '../../bench/index.ts';
import { canonicalBytes, sha256, toHex } from '../../records/index.ts';
import {
  ContentProblem,
  loadBenches,
  loadBlueprints,
  loadEstimates,
  loadFaultCatalogue,
  loadLimitSets,
  loadRacks,
  loadSituations,
} from '../../store/content-files.ts';

/** The estimates every blueprint is balanced by. */
const ESTIMATE = 'trained';

/** Every blueprint there is, in the order of their files. */
export const blueprintsOf = (site: Site): Blueprint[] => [
  ...loadBlueprints(site.contentDir).values(),
];

/** The rules of a blueprint by its id, or null. @throws ContentProblem when it names what is not there */
export function sittingRules(site: Site, id: string): ExamRules | null {
  const dir = site.contentDir;
  const blueprints = loadBlueprints(dir);
  const blueprint = blueprints.get(id);
  if (blueprint === undefined) return null;
  const estimate = loadEstimates(dir).get(ESTIMATE);
  if (estimate === undefined) throw new ContentProblem(`There are no estimates named ${ESTIMATE}.`);
  return examRules(blueprint, {
    blueprints,
    sets: loadLimitSets(dir),
    catalogue: loadFaultCatalogue(dir),
    estimate,
    benches: loadBenches(dir),
    racks: loadRacks(dir),
    situations: loadSituations(dir),
  });
}

/** The form of a seed with the hash of what of it is shown. */
export function formOf(
  rules: ExamRules,
  seed: string,
): { readonly form: Form; readonly hash: string } {
  const form = makeForm(rules, seed);
  return { form, hash: toHex(sha256(canonicalBytes(showForm(form, rules)))) };
}

/** Versions of everything a grade rests on, kept with the sitting. */
export const sittingVersions = ({ blueprint, sets }: ExamRules): Record<string, string> => ({
  engine: ENGINE_VERSION,
  generator: FORM_GENERATOR,
  blueprint: `${blueprint.id} ${blueprint.version}`,
  limits: sets.map(({ id, version }) => `${id} ${version}`).join(', '),
});
