// What the page itself keeps: the state the elements draw, and their settings.

import type {
  Acted, Callout, Cards, Direction, Flown, Frame, Leg, Plan, Series, Station, StationList, Verdict, Watching, Who,
} from './types.d.ts';

/** How the page stands with the server. */
export interface Link {
  state: 'connecting' | 'open' | 'lost' | 'none';
  /** When that began, ms since 1970. */
  since: number;
  /** When it tries again, ms since 1970; null when it does not wait. */
  retryAt: number | null;
  /** Why the server closed the socket, '' when it did not say. */
  reason: string;
}

/** What the callout band shows. At is when it was said, ms since 1970. */
export interface Band {
  callout: Callout;
  at: number;
}

/** The verdict on a post, by the turn angle of its checkpoint. */
export type Marks = ReadonlyMap<number, Verdict>;

export interface State {
  link: Link;
  server: string;
  run: string;
  seq: number;
  station: string;
  info: Station | null;
  plan: Plan | null;
  frame: Frame | null;
  /** When the latest frame came, ms since 1970; 0 before the first. */
  frameAt: number;
  /** When the station's link last changed, ms since 1970. */
  linkAt: number;
  /** When the station last said something of itself, ms since 1970. */
  infoAt: number;
  trace: readonly Flown[];
  traceDirection: Direction;
  /** The latest level frames: how the turn began. */
  level: readonly Frame[];
  marks: Marks;
  /** The moments marked in the leg. */
  moments: readonly import('./pure/moments.js').Moment[];
  last: Leg | null;
  /** The legs of this maneuver while the page is open, with their traces. */
  legs: readonly Leg[];
  /** What the last leg was flown of; the plan may be another one by now. */
  lastPlan: Plan | null;
  legsInSeries: number;
  series: readonly Series[];
  band: Band | null;
  /** Cues that were sent and are still to be said. */
  cues: readonly Callout[];
  safety: readonly Callout[];
  /** Who looks at this page; null is the owner of the machine. */
  you: Who | null;
  /** Who else watches; null is nobody. */
  watching: Watching | null;
  /** The latest command, and when it was heard of, ms since 1970. */
  acted: { acted: Acted, at: number } | null;
  /** The pilot of the station shares it with nobody: there is nothing to see. */
  private: boolean;
}

/** What the page asked the server for. */
export interface House {
  cards: Cards | null;
  list: StationList | null;
}

/** How much is said; 'ear' is all of a session, the set-up too. */
export type Wordiness = 'tones' | 'checkpoints' | 'full' | 'ear';
export type Theme = 'auto' | 'light' | 'dark' | 'contrast';

export interface Settings {
  /** The pilot has asked for sound. */
  sound: boolean;
  words: Wordiness;
  theme: Theme;
  language: import('./text/languages.js').Language;
  units: 'aviation' | 'metric';
  /** The name of the chosen voice, '' for the best there is. */
  voice: string;
  /** Of speech, 1 is the voice's own pace. */
  rate: number;
  /** From 0 to 1. */
  volume: number;
  /** Seconds a syllable takes, measured, by voice and rate. */
  measured: Readonly<Record<string, number>>;
  /** Of joysticks, by act: what is pressed for it. */
  buttons: Readonly<Record<string, string>>;
}

/** How sound stands: off (not asked for), blocked (the browser waits for a click), none (no audio here), on. */
export type SoundState = 'off' | 'blocked' | 'none' | 'on';

/** What became of a callout. */
export interface Spoken {
  number: number;
  kind: Callout['kind'];
  id: string;
  words: string;
  what: 'spoken' | 'late' | 'over' | 'gave-way' | 'unwanted';
  /** Of cues spoken: seconds their words ended after the checkpoint came. */
  off?: number;
}
