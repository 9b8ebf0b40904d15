import type { Migration } from 'kysely/migration';
import { eventLogMigration } from './0001-event-log.ts';
import { accountsMigration } from './0002-accounts.ts';
import { openSittingMigration } from './0003-open-sitting.ts';
import { learningAnswerMigration } from './0004-learning-answer.ts';
import { practicalsMigration } from './0005-practicals.ts';
import { invitationGroupMigration } from './0006-invitation-group.ts';
import { calendarChoiceMigration } from './0007-calendar-choice.ts';
import { shareLinkMigration } from './0008-share-link.ts';
import { privacyMigration } from './0009-privacy.ts';
import { entryMigration } from './0010-entry.ts';
import { findByKindAndPersonMigration } from './0011-find-by-kind-and-person.ts';

/** In the order of their names, for ever: a migration that has been released is never edited. */
export const MIGRATIONS: Readonly<Record<string, Migration>> = {
  '0001-event-log': eventLogMigration,
  '0002-accounts': accountsMigration,
  '0003-open-sitting': openSittingMigration,
  '0004-learning-answer': learningAnswerMigration,
  '0005-practicals': practicalsMigration,
  '0006-invitation-group': invitationGroupMigration,
  '0007-calendar-choice': calendarChoiceMigration,
  '0008-share-link': shareLinkMigration,
  '0009-privacy': privacyMigration,
  '0010-entry': entryMigration,
  '0011-find-by-kind-and-person': findByKindAndPersonMigration,
};
