// The answers the debrief pages work with, beside the contract of the live socket.

import type {
  Band, BriefPoint, Callout, Check, Computed, Grade, Hole, Leg, Overruled, Phrase, Plan, Verdict,
} from './types.d.ts';

/** GET /api/sessions/{id}/legs */
export interface FlownLegs {
  version: number;
  session: string;
  duration: number;
  plans: Plan[];
  legs: FlownSheet[];
  /** Those that are over, in order; a leg's `series` counts them from 1. Without their legs. */
  series: FlownSeries[];
  damage: Phrase;
  /** Where datagrams were lost; null is nowhere. */
  holes: Hole[] | null;
  /** What to do about it when nothing in it can be graded. */
  advice: Phrase;
}

/** A leg as a small picture; its number within its series is another one. */
export type FlownSheet = Leg & { n: number; series: number; plan: number; place: number };

/** What only the legs together show. */
export interface FlownSeries {
  computed?: Computed;
  overruled?: Overruled;
  maneuver: string;
  verdict: Verdict;
  score: number;
  grade: Grade;
  headline?: Phrase;
  checks: Check[] | null;
  missing?: Phrase;
}

/** Ten samples a second, a row a quantity; null where there is none. */
export type Rows = Record<string, (number | null)[]>;

export interface Track {
  from: 'position' | 'heading' | '';
  line: number | null;
  entry: number;
  wind: { from: number; speed: number } | null;
  reason: Phrase;
}

/** GET /api/sessions/{id}/legs/{n} */
export interface FlownLeg {
  version: number;
  session: string;
  n: number;
  series: number;
  plan: Plan;
  /** As it was graded first. */
  leg: Leg;
  /** This version of the program grades it otherwise. */
  changed: boolean;
  samples: Rows;
  callouts: Callout[];
  track: Track;
  /** The reference path of the plan; null when there is none. */
  path: BriefPoint[] | null;
}

/** GET /api/replays, and what starting one answers */
export interface ReplayState {
  station: string;
  session: string;
  position: number;
  duration: number;
  pace: number;
  paused: boolean;
  over: boolean;
}

/** What the pictures of the debrief draw. At is the place of the cursor in the samples. */
export interface View {
  main: FlownLeg;
  over: FlownLeg | null;
}

/** A leg to lay over another one, by its session and its number there. */
export interface LegRef {
  session: string;
  n: number;
}

/** A leg to lay over another one, in the logbook. */
export interface Model {
  session: string;
  n: number;
  began: string;
  student: string;
  score: number;
  grade: string;
}

/**
 * GET /api/sessions/{id}/legs/{n}/models: finished legs of other sessions, of the same maneuver and to the same
 * side.
 */
export interface Models {
  version: number;
  /** Of the same student in the same aircraft. */
  best: Model | null;
  /** The best of each session that is kept and was flown by somebody else. */
  kept: Model[];
}

// The logbook. The Go structs of these answers are held to them by web/testdata/contract.golden.ts, as those of
// types.d.ts are.
// A refusal is {"error": WORDS} with its status, like everywhere.

/** A card by its name, and its title as it stood when it was flown. */
export interface Named {
  name: string;
  title: string;
}

/**
 * GET /api/sessions, newest first. In the query, each left out where all are wanted: student, maneuver, aircraft
 * (names), from, to (dates, 2026-11-25, both included, of the server's time zone), grade (the session's), text
 * (full text, in remarks), limit (50, at most 200), after (the `next` of the answer before).
 */
export interface SessionList {
  /** That match but were left out: over, without a leg, a remark or the mark to keep. */
  unflown: number;
  version: number;
  /** Sessions that match, up to 10,000, or fewer where counting takes long. */
  total: number;
  /** More match than `total`. */
  more: boolean;
  sessions: SessionRow[];
  /** For `after` to go on with; '' at the end. */
  next: string;
  /** What the whole logbook holds, to filter by; students with the latest first, up to 500. */
  students: string[];
  maneuvers: Named[];
  aircraft: Named[];
  leftOut: LeftOut;
}

/** Session folders that could not be taken into the logbook, the newest of them by name. */
export interface LeftOut {
  total: number;
  sessions: { id: string; why: Phrase }[];
}

export interface SessionRow {
  id: string;
  /** RFC 3339; `ended` is '' while it is being flown. */
  began: string;
  ended: string;
  station: string;
  student: string;
  /** Never removed by age or size. */
  keep: boolean;
  maneuvers: Named[];
  standard: string;
  /** name '' where none was chosen */
  aircraft: Named;
  /** Of its legs in the order flown, the first 100. */
  verdicts: Verdict[];
  legs: number;
  /** Mean of the finished legs, null without one; the grade is that of the middle leg, the lower of two. */
  score: number | null;
  grade: Grade;
  /** What that grade rests on; '' without one, and from before there were any. */
  headline: Phrase;
  /** What most often was the one thing to change; '' when nothing was. */
  change: Phrase;
  remarks: number;
  /** The remark that matched `text`, shortened; '' without. */
  found: string;
}

/** GET /api/sessions/{id} */
export interface SessionDetail extends SessionRow {
  version: number;
  server: string;
  /** Why the recording cannot be shown or played, '' when it can. */
  problem: Phrase;
  /** That it was ended without its home; "" when it was not. */
  left: Phrase;
  /** Oldest first. */
  said: Remark[];
  /** Graded again, beside the first grade, oldest first. */
  regrades: Regrade[];
  judging: Judging;
}

/** What people made of the grades of a session. */
export interface Judging {
  overruled: {
    leg: number;
    series: number;
    check: string;
    verdict: string;
    by: string;
    at: string;
    reason: string;
    afterSigning: boolean;
  }[];
  observed: { series: number; element: string; mark: string; by: string; at: string; afterSigning: boolean }[];
  ratings: Rating[];
  /** Oldest first. */
  signed: Signing[];
  /** What people said of steps of courses. */
  rulings: Ruling[];
}

/** How the student found a leg, and what was measured. */
export interface Rating {
  leg: number;
  grade: string;
  /** An aspect of Forms.aspects; '' names none. */
  thing: string;
  by: string;
  at: string;
  afterSigning: boolean;
  measured: { grade: string; thing: string };
}

export interface Signing {
  id: string;
  by: string;
  at: string;
  /** SHA-256, hex */
  hash: string;
  /** How many acts stand before it, and how many came after. */
  acts: number;
  after: number;
  /** Grades and acts are as they were signed. */
  holds: boolean;
  /** How many names were removed since. */
  removed: number;
}

/** GET /api/sessions/{id}/forms */
export interface Forms {
  version: number;
  forms: Form[];
  /** The student rates a leg before its grade is shown. */
  first: boolean;
  aspects: string[];
}

/** A published test, element by element, for one series. */
export interface Form {
  series: number;
  maneuver: string;
  title: string;
  standard: string;
  flown: string;
  /** '' where no test is published. */
  document: string;
  task: string;
  elements: FormElement[];
  legs: number;
  direction: string;
}

export interface FormElement {
  id: string;
  asks: string;
  stream: string;
  reason: string;
  checks: { id: string; label: string; verdict: Verdict }[];
  /** By the checks, and as it stands. */
  computed: string;
  mark: string;
  /** Who gave the mark; '' is the checks. */
  by: string;
  at: string;
  afterSigning: boolean;
}

// POST /api/sessions/{id}/overrule, observe, rate and sign answer the SessionDetail.

/** What a person said of a step of a course. */
export interface Ruling {
  course: { course: string; cause?: string; maneuver?: string };
  step: string;
  verdict: string;
  /** Of the session that were over when it was said. */
  legs: number;
  by: string;
  at: string;
  reason: string;
  afterSigning: boolean;
}

/** GET /api/students/{name}/sheet */
export interface GradeSheet {
  version: number;
  cautions: string[];
  student: string;
  sessions: number;
  signed: number;
  from: string;
  to: string;
  maneuvers: SheetRow[];
  agreement: {
    rated: number;
    same: number;
    near: number;
    higher: number;
    lower: number;
    named: number;
    thing: number;
  };
  ratings: (Rating & { session: string; began: string })[];
}

export interface SheetRow {
  maneuver: string;
  title: string;
  legs: number;
  last: SheetGrade;
  best: SheetGrade;
  median: SheetGrade;
  /** '' where none is required. */
  required: string;
  reached: boolean;
  workOn: Phrase;
  times: number;
  of: number;
}

export interface SheetGrade {
  grade: string;
  score: number;
  session: string;
  n: number;
  began: string;
}

/** POST /api/sessions/{id}/remarks takes leg, time, by and words, and answers the remark as kept. */
export interface Remark {
  id: number;
  /** Its number in the session as in FlownLegs; 0 is the session as a whole. */
  leg: number;
  /** The moment, s since the first datagram of the recording (the row "place"); null is no moment. */
  time: number | null;
  by: string;
  words: string;
  /** When it was written, RFC 3339. */
  at: string;
  /** Unique everywhere; of a mark, the id of the command. Posted as "mark", it gives that mark its words. */
  key?: string;
}

export interface Regrade {
  at: string;
  server: string;
  maneuver: string;
  standard: string;
  aircraft: string;
  score: number | null;
  grade: Grade;
  headline: Phrase;
  /** In words, one a difference: "leg 2, bank at 90°: near, was met". */
  differences: Phrase[];
}

// POST /api/sessions/{id}/keep {"keep": true} and POST /api/sessions/{id}/student {"student": NAME} answer {}.

/** GET /api/students: who flew last comes first, at most 24. */
export interface Students {
  version: number;
  students: string[];
}

/**
 * GET /api/sessions/trend, by the same filters as the list. Of one maneuver: that of the query, else the one with
 * the most legs.
 */
export interface Trend {
  version: number;
  /** null when nothing matches */
  maneuver: Named | null;
  /** The latest, up to 1,000. */
  sessions: number;
  /** There are earlier ones, which count for nothing. */
  more: boolean;
  legs: number;
  /** In the order of the turn. */
  checks: TrendCheck[];
  /** Finished legs in a row, of grade good or better: up to the latest, and the longest. */
  streak: { now: number; best: number; /** session of its last leg, '' without */ session: string };
  /** What was the one thing to change, most often first, at most 8. */
  things: { words: Phrase; legs: number; sessions: number; /** latest session */ session: string }[];
}

export interface TrendCheck {
  id: string;
  label: string;
  unit: string;
  aim: number | null;
  met: Band;
  near: Band;
  /** One a session, oldest first, the latest 60; without sessions where it was never measured. */
  points: TrendPoint[];
}

/** A check over the legs of a session: least, quartiles (linear between order statistics), most; how many were met. */
export interface TrendPoint {
  session: string;
  began: string;
  legs: number;
  met: number;
  low: number;
  q1: number;
  median: number;
  q3: number;
  high: number;
  /**
   * What that session was held against: another aircraft or standard has other numbers. Left out where there is
   * none.
   */
  aim?: number;
  metBand?: Band;
  nearBand?: Band;
}
