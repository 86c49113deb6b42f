// What the set-up page asks the server for: the Go structs session.Probe and guide.Guide.

import type { Phrase, Station } from './types.d.ts';

export interface ProbeValue {
  channel: string;
  title: string;
  unit: string;
  value: number;
  /** Seconds since it came. */
  age: number;
  derived: boolean;
  bad: number;
}

export interface ProbeNeed {
  channel: string;
  title: string;
  state: 'sent' | 'derived' | 'missing';
  for: Phrase[];
  setting: Phrase;
}

/** GET /api/stations/{name}/probe */
export interface Probe extends Station {
  detail: Phrase;
  sure: string;
  read: number;
  clock: 'simulator' | 'receipt';
  /** Milliseconds. */
  jitter: number;
  age: number;
  datagrams: number;
  samples: number;
  paused: number;
  jumps: number;
  /** The checks of the card, and how many of them the stream leaves unmeasured. */
  checks: number;
  unmeasured: number;
  drops: Record<string, number>;
  signs: Phrase;
  values: ProbeValue[];
  needs: ProbeNeed[];
  todo: Phrase[];
}

export interface Guide {
  name: string;
  title: string;
  /** The title of its tile. */
  short: string;
  way: 'asked' | 'sends' | 'bridge';
  /** What is done with the address on the tile. */
  say: string;
  /** To copy in place of the address; HOST and 7181 stand in it. */
  line: string;
  /** That it sends to by custom; 0 is Halfturn's. */
  ownPort: number;
  /** Among the first that are shown. */
  first: boolean;
  port: string;
  quality: string;
  files: string[] | null;
  steps: string[];
  check: string;
  notes?: string;
}

/** GET /api/guides */
export interface GuideList {
  version: number;
  guides: Guide[];
}

/** Whether the pages are open to the local network; the answer to GET and POST /api/network. */
export interface Network {
  open: boolean;
  /** By the configuration. */
  always?: boolean;
  addresses: string[];
  /** What the devices may do. */
  role?: string;
  /** Told to its owner alone. */
  code?: string;
}
