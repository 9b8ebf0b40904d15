import type { AnswerOf, Confidence, Form, ScoreLine, TaskGrade } from '../../assessment/index.ts';
import type { GradedSitting } from '../../attempts/index.ts';

export type { Confidence, GradedSitting, ScoreLine, TaskGrade };
export type FormTask = Form['tasks'][number];
export type Finding = AnswerOf<'find'>['findings'][number];
