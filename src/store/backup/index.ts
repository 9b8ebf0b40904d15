export { BackupProblem, sayReason } from './backup-problem.ts';
export { checkBackup } from './check-backup.ts';
export { type BackupOrder, makeBackup } from './make-backup.ts';
export { MANIFEST, type Manifest, readManifest } from './manifest.ts';
export { countPassed, type Progress, type Tell } from './progress.ts';
export {
  type Restored,
  type RestoreOrder,
  restoreBackup,
  UNFINISHED_RESTORE,
} from './restore-backup.ts';
