// What the first page and the set-up page ask the server for: the Go structs finder.Status, show.Showing and
// measure.Progress.

import type { Phrase } from './types.d.ts';

export interface Asked {
  address: string;
  by: 'itself' | 'beacon' | 'settings' | 'page';
  /** As it announces itself, '' when it does not. */
  name: string;
  answers: boolean;
  /** Seconds since it was first asked. */
  waited: number;
}

export interface Announced {
  address: string;
  name: string;
  /** It runs on Halfturn's own machine, and is asked by itself. */
  here: boolean;
}

/** GET and POST /api/find */
export interface Finding {
  /** The addresses of Halfturn's machine in private networks. */
  machine: string[];
  listen: string[];
  port: number;
  /** Datagrams of other machines arrive. */
  open: boolean;
  /** By the configuration. */
  fixed: boolean;
  asked: Asked[];
  announced: Announced[];
}

/** POST /api/demonstration */
export interface Showing {
  station: string;
  maneuver: string;
  aircraft?: string;
  /** Of the aircraft that flies. */
  title: string;
}

/** GET and POST /api/stations/{name}/measure. Speeds are kt, 0 is not known. */
export interface Measured {
  progress: Progress | null;
}

export interface Progress {
  task: 'level' | 'slow' | 'entry' | 'done';
  /** Seconds of steady flight so far, and how many are asked for. */
  held: number;
  hold: number;
  airspeed: number | null;
  lowest: number | null;
  /** What is in the way now, '' when all is well. */
  why: Phrase;
  level: number;
  stall: number;
  stallBy: '' | 'stall' | 'warning' | 'lowest';
  entry: number;
}

/** What is wished for before a simulator is there. */
export interface Wish {
  maneuver: string;
  aircraft: string;
}
