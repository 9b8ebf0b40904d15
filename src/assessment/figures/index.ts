export { effectiveLength } from './effective-length.ts';
export { firstSittings, type TestSitting } from './sitting.ts';
export {
  type FaultFigures,
  type Held,
  type PartFigures,
  type TestFigures,
  testFigures,
} from './test-figures.ts';
export {
  type TrainerAgreement,
  trainerAgreement,
  type WatchedSheet,
} from './trainer-agreement.ts';
