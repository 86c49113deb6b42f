// The answers the debrief pages work with, beside the contract of the live socket.

import type { Callout, Leg, Plan } from './types.d.ts';

/** GET /api/sessions/{id}/legs */
export interface FlownLegs {
  version: number;
  session: string;
  duration: number;
  plans: Plan[];
  legs: FlownSheet[];
  damage: string;
}

/** A leg as a small picture; its number within its series is another one. */
export type FlownSheet = Leg & { n: number; series: number; plan: number; place: number };

/** Ten samples a second, a row a quantity; null where there is none. */
export type Rows = Record<string, (number | null)[]>;

export interface Track {
  from: 'position' | 'heading' | '';
  line: number | null;
  entry: number;
  wind: { from: number; speed: number } | null;
  reason: string;
}

/** GET /api/sessions/{id}/legs/{n} */
export interface FlownLeg {
  version: number;
  session: string;
  n: number;
  series: number;
  plan: Plan;
  leg: Leg;
  samples: Rows;
  callouts: Callout[];
  track: Track;
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
