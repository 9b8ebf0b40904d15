import { BLUEPRINT_IDS, rulesFor } from '../helpers/exam.ts';
import { spreadOf, trySeeds } from '../helpers/exam-seeds.ts';

/**
 * Ten thousand seeds of every blueprint: `node tests/assessment/many-seeds.ts [SEEDS] [FIRST]`.
 * Each form is made, checked, sat by the perfect candidate, by one who names everything and by one
 * who clicks at random. Exits 1 when anything does not hold.
 */
const count = Number(process.argv[2] ?? 10_000);
const first = Number(process.argv[3] ?? 0);
const seeds = Array.from({ length: count }, (_, i) => `many ${first + i}`);

let failed = false;
for (const id of BLUEPRINT_IDS) {
  const report = trySeeds(rulesFor(id), seeds, 1);
  const { broken, unsolved, clickPasses, clicks, namedAllPasses, expected } = report;
  const spread = spreadOf(report);
  const holds =
    broken.length === 0 &&
    unsolved.length === 0 &&
    namedAllPasses === 0 &&
    clickPasses * 1000 < clicks &&
    spread <= 0.05 &&
    report.making < 50 &&
    report.grading < 5;
  failed ||= !holds;
  console.log(
    `${id}: ${report.forms} forms, ${broken.length} broken, ${unsolved.length} unsolved; ` +
      `clickers pass ${clickPasses} of ${clicks}, naming everything passes ${namedAllPasses}; ` +
      `expected ${expected.least.toFixed(2)} to ${expected.greatest.toFixed(2)}, spread ${(100 * spread).toFixed(2)} %; ` +
      `median making ${report.making.toFixed(2)} ms, grading ${report.grading.toFixed(2)} ms of processor time`,
  );
  for (const line of [...broken, ...unsolved].slice(0, 10)) console.log(`  ${line}`);
}
process.exitCode = failed ? 1 : 0;
