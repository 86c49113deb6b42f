// What the desk keeps: the sheets of all stations.

import type { Callout, Direction, Plan, Trace, Verdict, WallSheetInfo, WallSheetLeg, WallSheetStage } from './types.d.ts';
import type { Marks } from './view.d.ts';

/** A station on the desk. */
export interface Tile {
  name: string;
  /** Null until the first message about the station itself; likewise those below. */
  info: WallSheetInfo | null;
  plan: Plan | null;
  stage: WallSheetStage | null;
  /** The last leg, where it is of the maneuver of the plan. */
  last: WallSheetLeg | null;
  /** Of the leg that is flown, or of the last one. It grows while the leg is flown. */
  trace: Trace[];
  direction: Direction;
  marks: Marks;
  /** What was said last, and when it came, ms since 1970. */
  said: { callout: Callout; at: number } | null;
  safety: readonly Callout[];
  /** The moment of a leg that is flown; null between legs. */
  now: Trace | null;
  ticks: string;
  /** Its pilot shares the station with nobody: nothing else of it is known. */
  private: boolean;
}

/** How urgent a station is: the first comes first. */
export type Urgency = 'trouble' | 'maneuver' | 'set-up' | 'waiting';

/** The words of a sheet. */
export interface SheetWords {
  /** What is done now. */
  phase: string;
  /** The phase names what is off. */
  off: boolean;
  /** The large word or number. */
  large: string;
  /** Beside it, small. */
  small: string;
  /** The large one is the turn angle of now. */
  turning: boolean;
  verdict: Verdict | '';
  /** The checkpoint of the verdict, '' for the leg. */
  post: string;
  mark: string;
  box: string;
  boxKind: 'safety' | 'said' | 'idle';
  link: string;
}
