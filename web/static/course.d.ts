// What the server says of courses: the Go structs assess.Record, course.Course, course.Progress, course.Plan and
// course.Week.

import type { Phrase, Verdict } from './types.d.ts';

/** A course that is kept for a student; '' is none. */
export interface CourseChoice {
  course: string;
  /** The weakness that it is built against, and the maneuver in which it shows. */
  cause?: string;
  maneuver?: string;
}

export interface CourseRule {
  good: number;
  of: number;
  sides: 'each' | 'either';
  source: string;
}

export interface CourseStep {
  id: string;
  title: string;
  maneuver: string;
  /** The part of it that counts; none is all of it. */
  checks: string[];
  standard: string;
  prompts: string;
  checkFlight: boolean;
  pass: CourseRule;
  unlocks: string[];
  source: string;
}

export interface CourseCard {
  name: string;
  title: string;
  summary: string;
  source: string;
  builtFrom?: string;
  pass: CourseRule;
  slip: { missed: number; source: string };
  steps: CourseStep[];
  cause?: string;
}

/** GET /api/courses */
export interface CourseList {
  version: number;
  courses: CourseCard[];
}

export interface CourseTry {
  /** '' in a record without names. */
  session: string;
  n: number;
  began: string;
  direction: string;
  verdict: Verdict;
  score: number;
  grade: string;
  good: boolean;
  overruled?: boolean;
  signed?: boolean;
}

export interface CourseRuling {
  step: string;
  passed: boolean;
  by: string;
  at: string;
  reason: string;
  session: string;
  n: number;
}

export interface CourseState {
  id: string;
  state: 'locked' | 'open' | 'passed' | 'slipped';
  prompts: string;
  sides: { direction: string; good: number; of: number; need: number }[];
  tries: number;
  good: number;
  last: string;
  passedBy: CourseTry[];
  lately: CourseTry[];
  missed: { id: string; label: string; times: number; of: number }[];
  ruled: CourseRuling | null;
}

export interface PlanItem {
  step: string;
  title: string;
  maneuver: string;
  checks: string[];
  standard: string;
  prompts: string;
  direction: string;
  legs: number;
  minutes: number;
  optional?: boolean;
  why: Phrase;
  source: string;
  mind?: Phrase;
  /** Of a check flight: the published test. */
  form?: string;
  /** What sets a station up for it, but for the aircraft. */
  task: object;
}

export interface CoursePlan {
  course: string;
  cause?: string;
  minutes: number;
  /** Days since the student last flew; −1 never. */
  away: number;
  items: PlanItem[];
}

export interface CourseMoved {
  maneuver: string;
  standard: string;
  check: string;
  label: string;
  met: number;
  of: number;
  metThen: number;
  ofThen: number;
  z: number;
}

export interface CourseWeek {
  legs: number;
  before: number;
  steadier: CourseMoved[];
  shakier: CourseMoved[];
  still: CourseMoved[];
}

/** GET and POST /api/students/{name}/course, POST /api/students/{name}/steps/{step} */
export interface CourseRecord {
  version: number;
  cautions: string[];
  /** '' in a record without names. */
  student: string;
  at: string;
  known: boolean;
  chosen: CourseChoice;
  flown: CourseChoice;
  course: CourseCard;
  progress: { course: string; cause?: string; now: string; passed: number; steps: CourseState[] };
  steps: { maneuver: string; required: string; last: string; reached: boolean }[];
  /** The parts of flying, with a mark for each step, '' where the step has nothing of it. */
  blocks: { aspect: string; weak: boolean; marks: (Verdict | '')[] }[];
  plan: CoursePlan;
  week: CourseWeek;
}

/** GET /api/stations/{name}/next */
export interface NextThing {
  version: number;
  /** '' is nobody named, for whom there is no plan. */
  student: string;
  course: string;
  passed: number;
  of: number;
  plan: CoursePlan | null;
}
